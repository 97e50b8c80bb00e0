"""Formula of the earliest date of some rows of a table.

MINIFS is not understood by all programs, so the rows are asked for the most days that are left to
a day beyond all of them.
"""

from collections.abc import Sequence
from typing import Final

from sheetcalc.workbook.formulas import Key, matches, structured

_LATER_THAN_ALL: Final = 1_000_000
"""Serial day beyond every date, so that the earliest of some days is the largest difference."""


def days_left(table: str, header: str, keys: Sequence[Key]) -> str:
    """Give the days from the earliest date of a column to that day, over the rows that match.

    Every one of these rows must have a date: an empty cell is the earliest of all.
    """
    left = f"{_LATER_THAN_ALL}-{structured(table, header)}"
    return f"SUMPRODUCT(MAX({matches(keys)}*({left})))"


def earliest(*left: str) -> str:
    """Earliest of the dates that some ``days_left`` stand for."""
    return f"{_LATER_THAN_ALL}-MAX({','.join(left)})"
