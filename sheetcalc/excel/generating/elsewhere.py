"""Sheets whose records stay in the process that has made them.

Of a long table only that process has the records: a million cells are not sent to and fro.  It
tells how long the sheet is and which styles it uses, which is all that the frame of the sheet and
the styles of the book need, and writes the cells when it is told the book's terms.
"""

from collections.abc import Collection, Mapping, Sequence
from typing import Protocol

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.excel.generating.cell_text import BookTerms
from sheetcalc.excel.generating.cells import leaves_the_book
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.opc.packing import Packed
from sheetcalc.workbook.house_style import HouseStyle
from sheetcalc.workbook.sheet import Cell, SheetModel, TableModel


class CellsElsewhere(Struct, frozen=True):
    """What is known here of a sheet whose records are elsewhere.

    Attributes
    ----------
    sheet
        The sheet, with empty rows in place of its records.
    used
        Keys of the styles in use, in the order of the house style.
    """

    sheet: SheetModel
    used: Sequence[str]

    def styles(self) -> Sequence[str]:
        """Keys of the styles in use, in the order of the house style."""
        return self.used


class Wanted(Struct, frozen=True):
    """What a book wants of a sheet; all else about it has been settled.

    Attributes
    ----------
    frame
        The sheet without its cells, in the book's terms.
    terms
        What the book calls the things that cells name.
    typed
        Headers of the columns that people fill in.
    strict
        Whether the book is of the strict variant.
    loose
        Cells outside its tables, some of which may have become known since it was made; None
        where all were known.
    """

    frame: bytes
    terms: BookTerms
    typed: Collection[str] = ()
    strict: bool = False
    loose: Mapping[tuple[int, int], Cell] | None = None


class Filled(Struct, frozen=True):
    """A sheet with its cells, compressed; whether any of them is a formula."""

    content: Packed
    is_live: bool


class Elsewhere(Protocol):
    """Whoever has the records of some sheets, and writes these."""

    @property
    def sheets(self) -> Mapping[str, CellsElsewhere]:
        """The sheets, by their keys."""

    def ask(self, wanted: Mapping[str, Wanted]) -> None:
        """Say what is wanted of each sheet, by its key; the work begins."""

    def filled(self) -> Mapping[str, Filled]:
        """Wait for the sheets, by their keys."""


def kept_here(cells: SheetCells) -> CellsElsewhere:
    """Tell another process of a sheet whose records stay in this one.

    Raises
    ------
    ValueError
        For a link that leaves the book: the frame of the sheet must know of it.
    """
    for column in (column for columns in cells.columns for column in columns):
        for cell in column.different.values():
            if leaves_the_book(cell):
                message = f"{cells.sheet.key}: {cell.link!r} leaves the book"
                raise ValueError(message)
    tables = tuple(map(_emptied, cells.sheet.tables))
    return CellsElsewhere(replace(cells.sheet, tables=tables), cells.styles())


def together(parts: Sequence[CellsElsewhere], style: HouseStyle) -> CellsElsewhere:
    """Tell of a sheet whose records several processes have.

    Parameters
    ----------
    parts
        In the order of the records.
    style
        The house style.

    Raises
    ------
    ValueError
        Where there is anything else than a heading and one table: it would stand in the way.
    """
    [first, *others] = parts
    if not others:
        return first
    sheet = first.sheet
    if len(sheet.tables) != 1 or any(row > sheet.tables[0].row for row, _ in sheet.loose or {}):
        message = f"{sheet.key}: its records can't be apart"
        raise ValueError(message)
    records = sum(part.sheet.tables[0].records for part in parts)
    table = replace(sheet.tables[0], empty_rows=records)
    used = {key for part in parts for key in part.used}
    return CellsElsewhere(
        replace(sheet, tables=(table,)), [key for key in style.styles if key in used]
    )


def _emptied(table: TableModel) -> TableModel:
    return replace(table, rows=(), empty_rows=table.records)
