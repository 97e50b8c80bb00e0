"""Prices that a list changes so much that it may have been read wrongly, and words for one."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.price_list import NewValue, PriceChange
from sheetcalc.workbook.columns import Column
from sheetcalc.workbook.raw import RawCell

LEAP: Final = 2.0
"""A price this many times the one before, or less than its inverse, is asked about; common
practice, no source."""

PRICES: Final = frozenset({"Price", "Pack price"})
"""Columns that hold a price."""


def price_ratio(column: Column, cell: RawCell | None, new: NewValue) -> float | None:
    """Divide a price by the one that it takes the place of; None where it takes none's."""
    before = cell.value if cell is not None else None
    if column.header not in PRICES or not isinstance(new, int | float):
        return None
    return float(new) / before if isinstance(before, int | float) and before > 0 else None


def price_leaps(changes: Sequence[PriceChange]) -> list[str]:
    """Tell the prices that leap, each with its code, the price before and the one after.

    A price that is for something else than before, a square metre and no box, is none of them.
    """
    per_changes = {
        (change.sheet, change.code, change.supplier)
        for change in changes
        if change.column == "Price per"
    }
    return [
        f"{change.code} {change.old} to {change.new}"
        for change in changes
        if change.ratio is not None
        and not 1 / LEAP < change.ratio < LEAP
        and (change.sheet, change.code, change.supplier) not in per_changes
    ]


def are_words(said: str) -> bool:
    """Whether a list has words, or a dash, for a price; what a failed formula shows is neither.

    Examples
    --------
    >>> are_words("on request"), are_words("from 31.5"), are_words("#N/A")
    (True, False, False)
    """
    return said != "" and said[0] not in "#=" and not any(sign.isdigit() for sign in said)
