"""What stands on a wall: which surface an upturn from the floor would lie on, which rows at all."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import PartKind, WallFace
from sheetcalc.geometry.plane.contacts import together
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.faces import WallSheet
from sheetcalc.geometry.rooms.wall_edges import REACHES_MM320
from sheetcalc.geometry.rooms.walls import PlacedWall


class BackedStretch(Struct, frozen=True):
    """A stretch of a wall that one kind of surface covers from the floor up to a height.

    Attributes
    ----------
    wall, along
        Index of the wall, and positions from its start.
    kind
        ``WALL`` or ``WET_AREA``.
    top_mm320
        Up to here it is that surface alone, without opening, niche or inset.
    """

    wall: int
    along: Interval
    kind: SurfaceKind
    top_mm320: int


def backed_stretches(
    sheets: Sequence[WallSheet], walls: Sequence[PlacedWall]
) -> tuple[BackedStretch, ...]:
    """List the feet of all walls that have a face, tiled or not; faces of a wall don't overlap."""
    return tuple(
        BackedStretch(index, along, kind, top)
        for sheet in sheets
        for low, high, kind, top in _feet(sheet)
        for index, along in sheet.frame.on_walls(low, high, walls)
    )


def stretches_with(
    part: PartKind, sheets: Sequence[WallSheet], walls: Sequence[PlacedWall]
) -> Mapping[int, tuple[Interval, ...]]:
    """Stretches of each wall that have a row of a part, at whatever height."""
    found: dict[int, list[Interval]] = {}
    for sheet in sheets:
        for row in (*sheet.faces, *sheet.parts):
            if row.part is part:
                for index, along in sheet.frame.on_walls(*_along(row), walls):
                    found.setdefault(index, []).append(along)
    return {index: together(stretches) for index, stretches in found.items()}


def _feet(sheet: WallSheet) -> Iterator[tuple[int, int, SurfaceKind, int]]:
    """Left, right, kind and top of every foot, in the sheet's frame."""
    for face in sheet.faces:
        if face.bottom_mm320 > REACHES_MM320:
            continue
        low, high = _along(face)
        cuts = sorted({low, high, *(x for p in sheet.parts for x in _along(p) if low < x < high)})
        for begin, end in pairwise(cuts):
            over = [p for p in sheet.parts if _along(p)[0] <= begin and end <= _along(p)[1]]
            yield begin, end, *_foot(face, over)


def _foot(face: WallFace, over: Sequence[WallFace]) -> tuple[SurfaceKind, int]:
    """Kind of the lowest surface where parts lie over a stretch of a face, and where it ends."""
    kind, whole = SurfaceKind.WALL, face
    for part in over:
        if part.part is PartKind.WET_AREA and part.bottom_mm320 <= REACHES_MM320:
            kind, whole = SurfaceKind.WET_AREA, part
    others = (p.bottom_mm320 for p in over if p is not whole)
    return kind, min((whole.bottom_mm320 + whole.height_mm320, *others))


def _along(row: WallFace) -> Interval:
    return row.left_mm320, row.left_mm320 + row.length_mm320
