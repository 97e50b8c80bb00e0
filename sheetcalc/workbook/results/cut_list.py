"""The Cut list tab: what a person at the saw has to make, surface by surface."""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from sheetcalc.domain.card import drawn_surfaces
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.workbook.results.alike import AlikeRooms, alike_rooms
from sheetcalc.workbook.results.cut_words import cut_out_words, edges_kept
from sheetcalc.workbook.results.frame import Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results.tape import taped
from sheetcalc.workbook.results_tabs_tiling import CUT_LIST
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "cut-list"
_A_NEW_TILE: Final = "a new tile"


def cut_list_sheet(works: Sequence[RoomWork], frame: Frame) -> SheetModel:
    """Cut list tab; cuts are numbered as on the room cards, alike pieces share a row."""
    rows = [
        row
        for rooms in alike_rooms(works)
        for layout in rooms.first.setting_outs.values()
        for row in _rows(rooms, layout, frame.units.small_length)
    ]
    units = dict.fromkeys(("Length", "Width"), frame.units.small_length)
    table = table_of(CUT_LIST, rows, nothing="no cuts", units=units)
    return sheet_of(KEY, CUT_LIST, frame, [table])


def _rows(rooms: AlikeRooms, layout: SettingOut, unit: Unit) -> Iterator[Mapping[str, Cell]]:
    """Rows of one surface; pieces that read alike are put together under all their numbers."""
    letters = drawn_surfaces(rooms.first)
    letter = letters.get(layout.surface, "")
    alike: dict[tuple[object, ...], list[tuple[str, CutPiece]]] = {}
    for number, piece in enumerate(layout.pieces, start=1):
        name = "" if piece.shape is CutShape.DRILLED else f"{letter}{number}"
        alike.setdefault(_look(piece, letters, letter, unit), []).append((name, piece))
    for several in alike.values():
        piece = several[0][1]
        yield {
            "Room": text(layout.room),
            "Rooms": count(rooms.count),
            "Surface": text(layout.surface, wrap=True),
            "Tile": text(layout.tile),
            "Cut": text(", ".join(name for name, _ in several if name), wrap=True),
            "Count": count(sum(p.count for _, p in several)),
            "Length": taped(piece.length_mm320, unit),
            "Width": taped(piece.width_mm320, unit),
            "Shape": text(piece.shape.value),
            "Cut out": text(cut_out_words(piece, unit), wrap=True),
            "Keeps": text(edges_kept(piece)),
            "Holes": count(piece.holes),
            "Taken from": text(_source(piece, letters, letter), wrap=True),
        }


def _look(
    piece: CutPiece, letters: Mapping[str, str], letter: str, unit: Unit
) -> tuple[object, ...]:
    """Everything that a row says of a piece, but its number and count."""
    return (
        piece.shape,
        taped(piece.length_mm320, unit).value,
        taped(piece.width_mm320, unit).value,
        cut_out_words(piece, unit),
        edges_kept(piece),
        piece.holes,
        _source(piece, letters, letter),
    )


def _source(piece: CutPiece, letters: Mapping[str, str], letter: str) -> str:
    """Say what a piece is taken from, cuts of drawn surfaces of its room named as on the card."""
    words = piece.taken_from or _A_NEW_TILE
    keys = "|".join(re.escape(key) for key in sorted(letters, key=len, reverse=True))
    pattern = rf"cut (\d+)(?: of ({keys}))?(?! of | in (?!alike rooms))\b" if keys else "(?!)"

    def named(found: re.Match[str]) -> str:
        there = letters[found[2]] if found[2] else letter
        return f"{there}{found[1]}" if there else found[0]

    return re.sub(pattern, named, words)
