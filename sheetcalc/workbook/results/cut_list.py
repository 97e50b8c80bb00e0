"""The Cut list tab: what a person at the saw has to make, surface by surface."""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct

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
    unit = frame.units.small_length
    rows = [row for rooms in alike_rooms(works) for row in _room_rows(rooms, unit)]
    units = dict.fromkeys(("Length", "Width"), unit)
    table = table_of(CUT_LIST, rows, nothing="no cuts", units=units)
    return sheet_of(KEY, CUT_LIST, frame, [table])


def _room_rows(rooms: AlikeRooms, unit: Unit) -> Iterator[Mapping[str, Cell]]:
    letters = drawn_surfaces(rooms.first)
    keys = "|".join(re.escape(key) for key in sorted(letters, key=len, reverse=True))
    other_cut = rf"cut (\d+)(?: of ({keys}))?(?! of | in (?!alike rooms))\b" if keys else "(?!)"
    pattern = re.compile(other_cut)
    for layout in rooms.first.setting_outs.values():
        yield from _rows(rooms, layout, _Namer(pattern, letters, layout.surface), unit)


def _rows(
    rooms: AlikeRooms, layout: SettingOut, namer: "_Namer", unit: Unit
) -> Iterator[Mapping[str, Cell]]:
    """Rows of one surface; pieces that read alike are put together under all their numbers."""
    alike: dict[_Look, list[tuple[str, CutPiece]]] = {}
    for number, piece in enumerate(layout.pieces, start=1):
        name = "" if piece.shape is CutShape.DRILLED else f"{namer.letter}{number}"
        alike.setdefault(_look(piece, namer, unit), []).append((name, piece))
    of_surface = {
        "Room": text(layout.room, wrap=True),
        "Rooms": count(rooms.count),
        "Surface": text(layout.surface, wrap=True),
        "Tile": text(layout.tile, wrap=True),
    }
    for look, several in alike.items():
        yield of_surface | {
            "Cut": text(", ".join(name for name, _ in several if name), wrap=True),
            "Count": count(sum(p.count for _, p in several)),
            "Length": look.length,
            "Width": look.width,
            "Shape": text(look.shape.value),
            "Cut out": text(look.cut_out, wrap=True),
            "Keeps": text(look.keeps),
            "Holes": count(look.holes),
            "Taken from": text(look.source, wrap=True),
        }


class _Look(Struct, frozen=True):
    """Everything that a row says of a piece, but its number and count."""

    shape: CutShape
    length: Cell
    width: Cell
    cut_out: str
    keeps: str
    holes: int
    source: str


def _look(piece: CutPiece, namer: "_Namer", unit: Unit) -> _Look:
    return _Look(
        piece.shape,
        taped(piece.length_mm320, unit),
        taped(piece.width_mm320, unit),
        cut_out_words(piece, unit),
        edges_kept(piece),
        piece.holes,
        namer.source(piece),
    )


class _Namer(Struct, frozen=True):
    """Names cuts of the drawn surfaces of a room as on its card.

    Attributes
    ----------
    pattern
        Finds words that name another cut.
    letters
        Letter of each drawn surface.
    surface
        The surface that a piece belongs to.
    """

    pattern: re.Pattern[str]
    letters: Mapping[str, str]
    surface: str

    @property
    def letter(self) -> str:
        """Letter of the piece's own surface; "" where it is not drawn."""
        return self.letters.get(self.surface, "")

    def source(self, piece: CutPiece) -> str:
        """Say what a piece is taken from."""
        if not piece.taken_from:
            return _A_NEW_TILE
        return self.pattern.sub(self._named, piece.taken_from)

    def _named(self, found: re.Match[str]) -> str:
        there = self.letters[found[2]] if found[2] else self.letter
        return f"{there}{found[1]}" if there else found[0]
