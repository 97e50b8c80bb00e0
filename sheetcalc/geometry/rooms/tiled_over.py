"""Tile that is measured where hardly any goes: over a doorway, behind a bath."""

from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.room import PartKind, PieceKind, Region, Span, WallFace
from sheetcalc.geometry.plane.contacts import Line, contact, edges_of
from sheetcalc.geometry.plane.regions import difference, intersection, rectangle
from sheetcalc.geometry.rooms.faces import WallSheet, rectangle_of
from sheetcalc.geometry.rooms.pieces import PlacedPiece
from sheetcalc.geometry.rooms.reports import Report
from sheetcalc.geometry.rooms.wall_surfaces import is_tiled
from sheetcalc.geometry.rooms.walls import PlacedWall

_LOWEST_HEAD_MM320: Final = 1800 * 320
"""No doorway is taken to be lower (common practice, no source)."""

_LOWEST_RIM_MM320: Final = 400 * 320
"""Nor the rim of a bath whose row gives no Height (common practice, no source)."""

_STRIP: Final = 0.05
"""Share of a place that tile may cover unsaid: an opening a little narrower than its doorway."""


class _Place(Struct, frozen=True):
    """What stands at a wall, and how high no tile is expected there."""

    edges: Sequence[Line]
    height_mm320: int


def note_tiled_over(  # noqa: PLR0913, PLR0917 - the walls, what stands at them, and the finish
    sheets: Sequence[WallSheet],
    walls: Sequence[PlacedWall],
    doorways: Sequence[Span],
    placed: Sequence[PlacedPiece],
    finish: Finish | None,
    report: Report,
) -> None:
    """Note faces that tile a doorway over, or the wall behind a bath.

    A doorway has no height, so only an opening keeps tile off it; and where a bath is built in
    first, a face that reaches the floor counts tile that nobody lays.
    """
    for sheet in sheets:
        for door in doorways:
            place = _Place([(door.start, door.end)], _LOWEST_HEAD_MM320)
            for face in _tiled_at(place, sheet, walls, finish):
                report.remark(
                    "FACE-OVER-DOORWAY", face.source, "Part", face.wall,
                    wall=face.wall, part=face.part.value, piece=door.name,
                )  # fmt: skip
        for bath in placed:
            if bath.piece.kind is not PieceKind.BATH or bath.region is None:
                continue
            rim = bath.piece.height_mm320 or _LOWEST_RIM_MM320
            for face in _tiled_at(_Place(edges_of(bath.region), rim), sheet, walls, finish):
                report.remark(
                    "FACE-BEHIND-BATH", face.source, "Bottom", face.wall,
                    wall=face.wall, part=face.part.value, piece=bath.piece.name,
                )  # fmt: skip


def _tiled_at(
    place: _Place, sheet: WallSheet, walls: Sequence[PlacedWall], finish: Finish | None
) -> Iterator[WallFace]:
    """Yield the rows of a wall that tile a place there."""
    there = [
        rectangle(offset + walls[index].length_mm320 - high, 0, high - low, place.height_mm320)
        for index, offset in sheet.frame.stretches
        for low, high in contact(walls[index].line, place.edges)
    ]
    if not there:
        return
    openings = [rectangle_of(p) for p in sheet.parts if p.part is PartKind.OPENING]
    yield from (
        row
        for row in _tiled_rows(sheet, finish)
        if any(_covers(difference(rectangle_of(row), *openings), region) for region in there)
    )


def _tiled_rows(sheet: WallSheet, finish: Finish | None) -> Sequence[WallFace]:
    """Rows whose tile covers a wall: its faces, or where these have none its wet areas."""
    if is_tiled(finish, SurfaceKind.WALL):
        return sheet.faces
    if is_tiled(finish, SurfaceKind.WET_AREA):
        return [p for p in sheet.parts if p.part is PartKind.WET_AREA]
    return ()


def _covers(tile: Region, place: Region) -> bool:
    return intersection(tile, place).area_mm320 > _STRIP * place.area_mm320
