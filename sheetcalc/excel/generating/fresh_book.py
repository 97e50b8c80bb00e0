"""Sheets to be carried over into a book."""

from collections.abc import Mapping

from msgspec import Struct

from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Elsewhere
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.opc.package import MadePackage


class FreshBook(Struct, frozen=True):
    """Sheets to be carried over into a book.

    Attributes
    ----------
    package
        A workbook with the frame of each sheet: everything but the cells.
    cells
        Cells of each sheet, by its name in the package.
    formats
        Style key -> number of its cell format in the package.
    elsewhere
        Writes the sheets whose records are not here.
    """

    package: MadePackage
    cells: Mapping[str, SheetCells | CellsElsewhere]
    formats: Mapping[str, int]
    elsewhere: Elsewhere | None = None
