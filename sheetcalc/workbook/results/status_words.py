"""Words of the master status: how many errors or warnings, and the states that it names."""

from string import Formatter
from typing import Final, Self

from msgspec import Struct

from sheetcalc.domain.words import Words
from sheetcalc.workbook.text_formulas import begins, filled, holds

OK: Final = "OK"
OUT_OF_DATE: Final = "OUT OF DATE: inputs have changed since this run; run takeoff again"
PRINTED_BEFORE: Final = (
    "OUT OF DATE: waste or pack sizes have changed since these amounts were written; "
    "run takeoff again"
)
INCOMPLETE: Final = "INCOMPLETE: left out because of errors: {rooms}"
SEE_FINDINGS: Final = "{errors}: see Findings"

ERROR: Final = "error"
WARNING: Final = "warning"
ACCEPTED: Final = "accepted"
NOTE: Final = "note"

_NUMBER: Final = "{number}"


def severity_words(words: Words) -> dict[str, str]:
    """Severities as the Findings tab says them, told apart in any language."""
    return words.apart(ERROR, WARNING, ACCEPTED, NOTE)


class Counted(Struct, frozen=True):
    """How many of something, in words: of one, and of any other number."""

    one: str
    many: str

    @classmethod
    def of(cls, severity: str, words: Words) -> Self:
        """Errors or warnings in the office's words."""
        return cls(words.say(f"{{number}} {severity}"), words.say(f"{{number}} {severity}s"))

    def said(self, number: int) -> str:
        """Say the number."""
        return (self.one if number == 1 else self.many).format(number=number)

    def formula(self, number: str) -> str:
        """Say the number that a formula gives."""
        one, many, before = self.one, self.many, ""
        if one.startswith(_NUMBER) and many.startswith(_NUMBER):
            one, many = one.removeprefix(_NUMBER), many.removeprefix(_NUMBER)
            before = f"{number}&"
        of_one, of_many = (filled(form, number=number) or '""' for form in (one, many))
        return f"{before}IF({number}=1,{of_one},{of_many})"

    def found_in(self, cell: str) -> str:
        """Tell by a formula whether a cell says this, whatever the number."""
        one, many = (
            max((words for words, *_ in Formatter().parse(form)), key=len)
            for form in (self.one, self.many)
        )
        marks = [one] if many.startswith(one) else [one, many]
        found = [holds(mark, cell) for mark in marks]
        return found[0] if len(found) == 1 else f"OR({','.join(found)})"


def says(state: str, cell: str) -> str:
    """Tell by a formula whether a cell says a state; what is behind a colon may differ."""
    return begins(state.partition(":")[0], cell)
