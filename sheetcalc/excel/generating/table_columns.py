"""The records of a table column by column: many cells, of which few differ."""

from collections.abc import Hashable, Mapping, Sequence
from operator import attrgetter
from types import NoneType

from msgspec import Struct

from sheetcalc.workbook.sheet import Cell, TableModel


class Column(Struct, frozen=True):
    """Cells of the records in one column.

    Attributes
    ----------
    cells
        From the first record to the last.
    keys
        What each is told from the others by.
    different
        Every key, and a cell that has it.
    """

    cells: Sequence[Cell]
    keys: Sequence[Hashable]
    different: Mapping[Hashable, Cell]


def columns_of(table: TableModel) -> tuple[Column, ...]:
    """Turn the records of a table, which all have as many cells."""
    return tuple(map(_column, zip(*table.rows, strict=True)))


def _column(cells: tuple[Cell, ...]) -> Column:
    keys: Sequence[Hashable] = cells
    different = dict(zip(keys, cells, strict=True))
    if not {type(cell.value) for cell in different.values()} <= {str, NoneType}:
        kinds = [*map(type, map(attrgetter("value"), cells))]
        if len(set(kinds) - {str, NoneType}) > 1:
            # 1, 1.0 and True are equal, and are not written alike
            keys = [*zip(kinds, cells, strict=True)]
            different = dict(zip(keys, cells, strict=True))
    return Column(cells, keys, different)
