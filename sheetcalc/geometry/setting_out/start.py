"""Where to start: the first tile, two distances to mark it with a tape, and which row first."""

from collections.abc import Iterable, Sequence

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Point, Surface, Wall
from sheetcalc.geometry.setting_out.request import Request, is_upright
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of
from sheetcalc.geometry.setting_out.tape import tape


class Start(Struct, frozen=True):
    """The first tile to lay.

    Attributes
    ----------
    corner
        Its near left corner in the surface's frame [1/320 mm].
    left, front
        From there to the edge of the surface on the left, and in front (below on a wall).
    words
        For the Setting out tab.
    """

    corner: Point
    left: int
    front: int
    words: str


def start_at(corner: Point, req: Request, rest: Iterable[str] = ()) -> Start:
    """Measure from a corner to the edges of the surface and put it in words.

    On a floor whose walls are known: to the nearest named walls; otherwise to the surface's own
    edges.

    Parameters
    ----------
    corner
        Near left corner of the first tile [1/320 mm].
    req
        What is set out.
    rest
        Sentences that follow.
    """
    surface, job = req.surface, req.job
    left, front = reach(edges_of(surface.region), corner)
    if is_upright(surface):
        beside = "the left end" if corner[0] - left == surface.region.bounds[0] else _BESIDE
        below = "the bottom edge" if corner[1] - front == surface.region.bounds[1] else "the edge"
        level = f"Level start line {tape(front, job)} above {below}" if front else f"From {below}"
        words = f"{level}; left edge of the first tile {tape(left, job)} from {beside}."
        return Start(corner, left, front, " ".join([words, *rest]))
    beside, before = _edge_names(surface, (corner[0] - left, corner[1] - front))
    if surface.kind in FLOORS and req.walls:
        left, front, beside, before = _from_walls(req.walls, corner, (left, front, beside, before))
    words = (
        f"Start line {tape(front, job)} from {before}; left edge of the first tile "
        f"{tape(left, job)} from {beside}."
    )
    return Start(corner, left, front, " ".join([words, *rest]))


_SIDES = frozenset({"near", "right", "far", "left"})
_BESIDE = "the edge to its left"
FLOORS = frozenset({SurfaceKind.FLOOR, SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR})
_Measures = tuple[int, int, str, str]


def _edge_names(surface: Surface, met: Point) -> tuple[str, str]:
    """Name the edges that a tape meets on the left and in front, where no walls are known."""
    bounds = surface.region.bounds
    if surface.kind is SurfaceKind.FLOOR:
        beside, before = "the left wall", "the near wall"
    else:
        beside, before = f"the left edge of {surface.key}", f"the near edge of {surface.key}"
    return (
        beside if met[0] == bounds[0] else _BESIDE,
        before if met[1] == bounds[1] else "the edge before it",
    )


def _from_walls(walls: Sequence[Wall], corner: Point, otherwise: _Measures) -> _Measures:
    """Measure to the nearest wall on the left and in front, and name it."""
    left, front, beside, before = otherwise
    x, y = corner[0] + 0.5, corner[1] + 0.5
    best_left = best_front = None
    for wall in walls:
        (ax, ay), (bx, by) = wall.start, wall.end
        if (ay > y) != (by > y):
            at = ax + (bx - ax) * (y - ay) / (by - ay)
            if at <= x and (best_left is None or at > best_left):
                best_left, left, beside = at, corner[0] - round(at), _called(wall)
        if (ax > x) != (bx > x):
            at = ay + (by - ay) * (x - ax) / (bx - ax)
            if at <= y and (best_front is None or at > best_front):
                best_front, front, before = at, corner[1] - round(at), _called(wall)
    return left, front, beside, before


def _called(wall: Wall) -> str:
    if wall.name.split(" ", maxsplit=1)[0] in _SIDES:
        return f"the {wall.name} wall"
    return f"leg {wall.name}"


def reach(edges: Sequence[Segment], corner: Point) -> tuple[int, int]:
    """Distances from a tile's corner to the left and to the front, to the surface's edge.

    Measured a hair inside the tile, so that an edge in line with it does not count.
    """
    x, y = corner[0] + 0.5, corner[1] + 0.5
    left = front = None
    for (ax, ay), (bx, by) in edges:
        if (ay > y) != (by > y):
            at = ax + (bx - ax) * (y - ay) / (by - ay)
            if at <= x and (left is None or at > left):
                left = at
        if (ax > x) != (bx > x):
            at = ay + (by - ay) * (x - ax) / (bx - ax)
            if at <= y and (front is None or at > front):
                front = at
    return (
        0 if left is None else corner[0] - round(left),
        0 if front is None else corner[1] - round(front),
    )
