"""The base course: a row of tile along the walls, as surfaces to set out."""

from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Room, Surface
from sheetcalc.geometry.plane.regions import rectangle

_LEAST_MM320: Final = 5 * 320
"""A shorter stretch is what closing a walk leaves between a piece and an oblique wall, no course
(common practice, no source)."""


def with_base_course(room: Room, tile: Tile) -> Room:
    """Add a surface for each straight stretch of wall that a base course goes along.

    Parameters
    ----------
    room
        A room without a base course.
    tile
        Its tile; the course is as high as the tile is wide.

    Returns
    -------
    Room
        With surfaces ``base 1``, ``base 2`` …, round the room from the near left corner; each is
        seen upright, its left end first.  The upper edge is open.
    """
    courses = tuple(
        Surface(
            key=f"base {number}",
            kind=SurfaceKind.BASE,
            region=rectangle(0, 0, length, tile.width_mm320),
            open_edges_mm320=length,
            source=room.source,
        )
        for number, length in enumerate(room.measures.base_stretches_mm320, 1)
        if length >= _LEAST_MM320
    )
    return replace(room, surfaces=(*room.surfaces, *courses))
