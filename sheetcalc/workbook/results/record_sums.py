"""One number for the records of an input tab: sorting leaves it, an exchange of values does not.

Each record gives a number, made of every letter and number in it at its place, as the remainder
by a prime; their squares are added up.  Two values of a column that are exchanged between records
change both numbers, unless all else in the two is alike, which is to sort them.  Sums of columns
alone see no exchange.

Formulas here keep to what array arguments of SUMPRODUCT may hold in all programs: IF and IFERROR
are not among it, so a cell that may be text or number is told apart by repeating it once or never.
"""

import re
from collections.abc import Collection, Sequence
from datetime import UTC, date, datetime, time
from functools import lru_cache
from itertools import accumulate, repeat
from operator import mul
from typing import Final

from msgspec import Struct

from sheetcalc.workbook.formulas import InputTable, text_literal
from sheetcalc.workbook.raw import RawCell, RawRow

PRIME: Final = 999_983
"""Ten thousand squares below its own add up without rounding."""

_FACTOR: Final = 423_646
"""Its powers weigh places: within 32 of them no two letters make up for each other, nor do three
digits (sought by trying all)."""

_LARGEST: Final = 1e8
"""Larger numbers leave MOD without an answer in some programs."""

_BETWEEN: Final = "|"
"""Between the texts of a record; what it weighs in a record without texts is taken off again."""

_SHOWS: Final = 2
"""Places beyond the longest record: what is typed at its end shows, a space before it or not."""

_LONGEST_FORMULA: Final = 8_000
"""A little less than the 8,192 signs that a formula has room for."""

_MORE_SPACES: Final = re.compile("  +")
_UNCOUNTABLE: Final = re.compile("_x|[^ -\uffff]")
"""What programs may count otherwise: ``_x0009_`` for a tab, control characters, more than 16 bits.
"""
_SPACE: Final = ord(" ")
_FIRST_DAY: Final = datetime(1899, 12, 30, tzinfo=UTC)
_DAYS_TO_1904: Final = 1462
_SECONDS_A_DAY: Final = 86_400


class Sum(Struct, frozen=True):
    """A value at the run, and the formula that gives the value now."""

    value: float
    formula: str


class LiveRows(Struct, frozen=True):
    """Records whose number in one column is looked up, and so left out: of the Job's settings."""

    header: str
    names_in: str
    names: Collection[str]

    def found(self, table: InputTable) -> str:
        """Give the formula that is 1 at these records and 0 elsewhere."""
        where = table.column(self.names_in)
        return "+".join(f"EXACT({where},{text_literal(name)})" for name in self.names)

    def has(self, row: RawRow) -> bool:
        """Whether a record is one of these."""
        name = row.cells.get(self.names_in)
        return name is not None and name.value in self.names

    def numbers(self, table: InputTable) -> list[float]:
        """Their numbers."""
        found = (table.number(row.row, self.header) for row in table.raw.rows if self.has(row))
        return [number for number in found if number is not None]


class _Column(Struct, frozen=True):
    """A column as texts, as numbers, or as both: its cells, and how a formula says them."""

    texts: Sequence[str]
    text_formula: str
    numbers: Sequence[float]
    number_formula: str


def record_sum(
    table: InputTable,
    texts: Collection[str],
    numbers: Collection[str],
    *,
    date_1904: bool,
    live: LiveRows | None = None,
) -> Sum:
    """Sum of squares over the records of a tab.

    Parameters
    ----------
    table
        The tab; cells that programs may not count alike leave their column out: errors, truth
        values, letters beyond 16 bits.
    texts, numbers
        Columns whose texts count, and those of them whose numbers count.
    date_1904
        Whether the workbook counts days from 1904.
    live
        Records whose number is left out of one of them.
    """
    columns = []
    for header in filter(texts.__contains__, table.raw.headers):
        but = live if live is not None and live.header == header else None
        column = _column(table, header, but, of_numbers=header in numbers, date_1904=date_1904)
        if column is not None:
            columns.append(column)
    worded = [c for c in columns if c.text_formula]
    # the longest texts come last: what a formula has no room for are their ends
    worded.sort(key=lambda c: max(map(len, c.texts), default=0))
    numbered = [c for c in columns if c.number_formula]
    rows = [_BETWEEN.join(of_row) for of_row in zip(*(c.texts for c in worded), strict=True)]
    longest = max(map(len, rows), default=0) + _SHOWS
    places = longest
    while len(formula := _formula(worded, numbered, places, longest)) > _LONGEST_FORMULA:
        places = places * 3 // 4
    of_length, *weights = weights_of(1 + len(numbered) + places)
    of_letters = weights[len(numbered) :]
    blank = _weighed(_BETWEEN * (len(worded) - 1), of_letters)
    totals = [0.0] * len(table.raw.rows)
    for column, weight in zip(numbered, weights, strict=False):
        totals = [t + weight * n for t, n in zip(totals, column.numbers, strict=True)]
    for row, text in enumerate(rows):
        totals[row] += _weighed(text[:places], of_letters) - blank
        if places < longest:
            totals[row] += of_length * (len(text) - len(worded) + 1)
    return Sum(sum((total % PRIME) ** 2 for total in totals), formula)


@lru_cache
def weights_of(count: int) -> tuple[int, ...]:
    """Give the weights of numbers and of letters, in their order."""
    return tuple(accumulate(repeat(_FACTOR, count), lambda a, b: a * b % PRIME))


def _weighed(text: str, weights: Sequence[int]) -> int:
    """Sum of letters by their places; spaces count nothing."""
    letters: int = sum(map(mul, map(ord, text), weights))
    return letters - _SPACE * sum(weights[: len(text)])


def _formula(
    worded: Sequence[_Column], numbered: Sequence[_Column], places: int, longest: int
) -> str:
    of_length, *weights = weights_of(1 + len(numbered) + places)
    terms = [
        f"{weight}*{column.number_formula}"
        for column, weight in zip(numbered, weights, strict=False)
    ]
    if worded:
        text = f'&"{_BETWEEN}"&'.join(column.text_formula for column in worded)
        at = ",".join(map(str, range(1, places + 1)))
        letter = f'MID({text}&REPT(" ",{places}),{{{at}}},1)'
        of_letters = weights[len(numbered) :]
        by_place = ";".join(map(str, of_letters))
        blank = _weighed(_BETWEEN * (len(worded) - 1), of_letters)
        terms.append(f"MMULT(_xlfn.UNICODE({letter})-{_SPACE},{{{by_place}}})-{blank}")
        if places < longest:
            terms.append(f"{of_length}*(LEN({text})-{len(worded) - 1})")
    return f"SUMPRODUCT(SUMSQ(MOD({'+'.join(terms)},{PRIME})))" if terms else "0"


def _column(
    table: InputTable, header: str, live: LiveRows | None, *, of_numbers: bool, date_1904: bool
) -> _Column | None:
    """Take a column apart; None where it can not be counted."""
    cells = [row.cells.get(header) for row in table.raw.rows]
    where = table.column(header)
    if where is None or not all(map(_is_countable, cells)):
        return None
    said = [c.value if c and isinstance(c.value, str) else None for c in cells]
    serials = [serial(c, date_1904=date_1904) if c else None for c in cells]
    if live is not None:
        rows = zip(table.raw.rows, serials, strict=True)
        serials = [None if live.has(row) else number for row, number in rows]
    numbers = [number or 0.0 for number in serials] if of_numbers else []
    if max(map(abs, numbers), default=0.0) > _LARGEST:
        return None
    texts = [_trimmed(text or "") for text in said]
    either = f"REPT(TRIM({where}),1*ISTEXT({where}))"
    if not of_numbers:
        return _Column(texts, either, (), "")
    if all(text is None for text in said):
        counts = where if live is None else f"{where}*(1-({live.found(table)}))"
        return _Column((), "", numbers, counts)
    if live is None and all(number is None for number in serials):
        return _Column(texts, f"TRIM({where})", (), "")
    return _Column(texts, either, numbers, _number_formula(table, where, live))


def _number_formula(table: InputTable, where: str, live: LiveRows | None) -> str:
    """Numbers of a column that has texts too; 0 for a text.

    A number is written and read again in the same language, so its decimal sign does not matter.
    """
    counts = f"1*ISNUMBER({where})"
    if live is not None:
        counts += f"*(1-({live.found(table)}))"
    return f'VALUE(REPT({where},{counts})&REPT("0",1-{counts}))'


def serial(cell: RawCell, *, date_1904: bool) -> float | None:
    """Give the number that a cell counts as in a sum; None for text and truth values."""
    value = cell.value
    if isinstance(value, str | bool):
        return None
    if isinstance(value, int | float):
        return value
    days = None
    if isinstance(value, datetime):
        days = (value.replace(tzinfo=UTC) - _FIRST_DAY).total_seconds() / _SECONDS_A_DAY
    elif isinstance(value, date):
        days = float((value - _FIRST_DAY.date()).days)
    elif isinstance(value, time):
        seconds = value.hour * 3600 + value.minute * 60 + value.second + value.microsecond / 1e6
        return seconds / _SECONDS_A_DAY
    if days is None:
        return None
    return days - _DAYS_TO_1904 if date_1904 else days


def _trimmed(value: str) -> str:
    """Text as TRIM leaves it: no outer spaces, no two in a row."""
    return _MORE_SPACES.sub(" ", value).strip(" ")


def _is_countable(cell: RawCell | None) -> bool:
    """Whether all programs count a cell alike: no errors, no letters beyond 16 bits."""
    if cell is None:
        return True
    if cell.error or isinstance(cell.value, bool):
        return False
    return not isinstance(cell.value, str) or _UNCOUNTABLE.search(cell.value) is None
