"""The Setting out tab: where the first tile of each surface goes, and what that gives."""

from collections.abc import Mapping, Sequence
from typing import Final

from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.workbook.results.alike import AlikeRooms, alike_rooms
from sheetcalc.workbook.results.frame import Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results.tape import taped
from sheetcalc.workbook.results_tabs_tiling import SETTING_OUT
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "setting-out"
_LENGTHS: Final = ("Joint", "From the left", "From the front", "Smallest cut", "Balance")


def setting_out_sheet(works: Sequence[RoomWork], frame: Frame) -> SheetModel:
    """Make the Setting out tab, one row a tiled surface of alike rooms; counts are of one room."""
    rows = [
        _row(rooms, layout, frame)
        for rooms in alike_rooms(works)
        for layout in rooms.first.setting_outs.values()
    ]
    unit = frame.units.small_length
    table = table_of(
        SETTING_OUT, rows, nothing="no tiled surface", units=dict.fromkeys(_LENGTHS, unit)
    )
    return sheet_of(KEY, SETTING_OUT, frame, [table])


def _row(rooms: AlikeRooms, layout: SettingOut, frame: Frame) -> Mapping[str, Cell]:
    unit = frame.units.small_length
    placed = not layout.by_area
    return {
        "Room": text(layout.room, wrap=True),
        "Alike": text(rooms.names, wrap=True),
        "Rooms": count(rooms.count),
        "Surface": text(layout.surface, wrap=True),
        "Tile": text(layout.tile, wrap=True),
        "Bond": text(layout.bond.label, wrap=True),
        "Run": text(layout.run_label, wrap=True),
        "Joint": taped(layout.joint_mm320, unit),
        "From the left": taped(layout.start_left_mm320 if placed else None, unit),
        "From the front": taped(layout.start_front_mm320 if placed else None, unit),
        "Start": text(layout.start, wrap=True),
        "Whole": count(layout.whole),
        "Cut": count(layout.cut),
        "Notched": count(sum(p.count for p in layout.pieces if p.shape is CutShape.NOTCHED)),
        "Holed": count(layout.holed),
        "Smallest cut": taped(layout.smallest_cut_mm320, unit),
        "Balance": taped(layout.balance_mm320 if placed else None, unit),
        "Lower bound": count(layout.lower_bound),
        "Tiles opened": _opened(layout),
        "How found": text(layout.searched, wrap=True),
    }


def _opened(layout: SettingOut) -> Cell:
    """Tiles opened; over alike rooms that share offcuts maybe a fraction."""
    mean = layout.opened_mean or layout.tiles_opened
    if float(mean).is_integer():
        return count(int(mean))
    return Cell(mean, "result_number")
