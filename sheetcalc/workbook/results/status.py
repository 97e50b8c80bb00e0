"""The master status in row 1 of every result tab: a formula that reads the Findings tab."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.workbook.formulas import structured, text_literal
from sheetcalc.workbook.results import fingerprints
from sheetcalc.workbook.results_tabs import FINDINGS
from sheetcalc.workbook.sheet import Cell

_OUT_OF_DATE: Final = "OUT OF DATE: inputs have changed since this run; run takeoff again"
_PRINTED_BEFORE: Final = (
    "OUT OF DATE: waste or pack sizes have changed since these amounts were written; "
    "run takeoff again"
)
_MOST_NAMES: Final = 1000
"""Characters of room names in a status; more rooms are counted."""


def master_status(
    severities: Sequence[str], left_out: Sequence[str] = (), *, live: bool = True
) -> Cell:
    """Live status of a run.

    Parameters
    ----------
    severities
        Severity of every finding, as written in the Findings tab.
    left_out
        Rooms that were left out because of errors.
    live
        Amounts on the tab follow when waste or a pack is changed; on what is printed and carried
        away they don't, and the status says so.

    Returns
    -------
    Cell
        Errors come first, then inputs that have changed since, then rooms left out, then
        warnings; else OK.
    """
    severity = structured(FINDINGS.table, "Severity")
    state = structured(fingerprints.TABLE, fingerprints.STATE)
    incomplete = _incomplete(left_out)

    def counted(word: str, after: str) -> str:
        number = f'COUNTIF({severity},"{word}")'
        return f'{number}&IF({number}=1," {word}"," {word}s"){after}'

    warnings = f'IF(COUNTIF({severity},"warning")>0,{counted("warning", "")},"OK")'
    settled = text_literal(incomplete) if incomplete else warnings
    followed = f'COUNTIF({state},"{fingerprints.FOLLOWED}")'
    if not live:
        settled = f"IF({followed}>0,{text_literal(_PRINTED_BEFORE)},{settled})"
    dated = (
        f'IF(IFERROR(SUMPRODUCT(({state}<>"{fingerprints.SAME}")*1)-{followed},1)>0,'
        f"{text_literal(_OUT_OF_DATE)},{settled})"
    )
    errors = counted("error", '&": see Findings"')
    formula = f'IF(COUNTIF({severity},"error")>0,{errors},{dated})' if not incomplete else dated
    return Cell(_value(severities, incomplete), "status", formula)


def _value(severities: Sequence[str], incomplete: str) -> str:
    if incomplete:
        return incomplete
    for word, after in (("error", ": see Findings"), ("warning", "")):
        number = severities.count(word)
        if number:
            return f"{number} {word}{'s' if number > 1 else ''}{after}"
    return "OK"


def _incomplete(left_out: Sequence[str]) -> str:
    if not left_out:
        return ""
    named: list[str] = []
    for room in left_out:
        if sum(len(n) + 2 for n in named) + len(room) > _MOST_NAMES:
            break
        named.append(room)
    rest = len(left_out) - len(named)
    more = f" and {rest} more" if rest else ""
    return f"INCOMPLETE: left out because of errors: {', '.join(named)}{more}"
