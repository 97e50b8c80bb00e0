"""The Setting out tab: where the first tile of each surface goes, and what that gives."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.quantity import CutShape, SettingOut
from sheetcalc.workbook.results.frame import Frame, count, length, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import SETTING_OUT
from sheetcalc.workbook.sheet import SheetModel

KEY: Final = "setting-out"
_LENGTHS: Final = ("Joint", "From the left", "From the front", "Smallest cut", "Balance")


def setting_out_sheet(layouts: Sequence[SettingOut], frame: Frame) -> SheetModel:
    """Make the Setting out tab, one row a tiled surface; counts are of one room."""
    unit = frame.units.small_length
    rows = [
        {
            "Room": text(layout.room),
            "Surface": text(layout.surface, wrap=True),
            "Tile": text(layout.tile),
            "Bond": text(layout.bond.label),
            "Run": text(layout.run_label),
            "Joint": length(layout.joint_mm320, unit),
            "From the left": length(None if layout.by_area else layout.origin[0], unit),
            "From the front": length(None if layout.by_area else layout.origin[1], unit),
            "Start": text(layout.start, wrap=True),
            "Whole": count(layout.whole),
            "Cut": count(layout.cut),
            "Notched": count(sum(p.count for p in layout.pieces if p.shape is CutShape.NOTCHED)),
            "Holed": count(layout.holed),
            "Smallest cut": length(layout.smallest_cut_mm320, unit),
            "Balance": length(None if layout.by_area else layout.balance_mm320, unit),
            "Lower bound": count(layout.lower_bound),
            "Tiles opened": count(layout.tiles_opened),
            "How found": text(layout.searched, wrap=True),
        }
        for layout in layouts
    ]
    table = table_of(
        SETTING_OUT, rows, nothing="no tiled surface", units=dict.fromkeys(_LENGTHS, unit)
    )
    return sheet_of(KEY, SETTING_OUT, frame, [table])
