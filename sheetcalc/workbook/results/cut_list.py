"""The Cut list tab: what a person at the saw has to make, surface by surface."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.quantity import SettingOut
from sheetcalc.workbook.results.frame import Frame, count, length, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import CUT_LIST
from sheetcalc.workbook.sheet import SheetModel

KEY: Final = "cut-list"
_A_NEW_TILE: Final = "a new tile"


def cut_list_sheet(layouts: Sequence[SettingOut], frame: Frame) -> SheetModel:
    """Cut list tab; cuts are numbered within a surface in the order of its setting-out."""
    unit = frame.units.small_length
    rows = [
        {
            "Room": text(layout.room),
            "Surface": text(layout.surface, wrap=True),
            "Tile": text(layout.tile),
            "Cut": count(number),
            "Count": count(piece.count),
            "Length": length(piece.length_mm320, unit),
            "Width": length(piece.width_mm320, unit),
            "Shape": text(piece.shape.value),
            "Holes": count(piece.holes),
            "Taken from": text(piece.taken_from or _A_NEW_TILE, wrap=True),
        }
        for layout in layouts
        for number, piece in enumerate(layout.pieces, start=1)
    ]
    table = table_of(
        CUT_LIST, rows, nothing="no cuts", units=dict.fromkeys(("Length", "Width"), unit)
    )
    return sheet_of(KEY, CUT_LIST, frame, [table])
