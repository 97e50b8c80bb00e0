"""Where to start: the first tile, two distances to mark it with a tape, and which row first."""

from collections.abc import Iterable
from dataclasses import dataclass

from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Point, Region, Surface
from sheetcalc.geometry.setting_out.request import is_upright
from sheetcalc.geometry.setting_out.slabs import edges_of
from sheetcalc.geometry.setting_out.tape import tape


@dataclass(frozen=True, slots=True)
class Start:
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


def start_at(corner: Point, surface: Surface, job: Job, rest: Iterable[str] = ()) -> Start:
    """Measure from a corner to the surface's edges and put it in words.

    Parameters
    ----------
    corner
        Near left corner of the first tile [1/320 mm].
    surface
        Where it lies.
    job
        Units of the words.
    rest
        Sentences that follow.
    """
    left, front = reach(surface.region, corner)
    bounds = surface.region.bounds
    from_left = "the left wall" if corner[0] - left == bounds[0] else "the edge to its left"
    if is_upright(surface):
        from_left = "the left end" if corner[0] - left == bounds[0] else "the edge to its left"
        from_front = "the bottom edge" if corner[1] - front == bounds[1] else "the edge below it"
        first = (
            f"Level start line {tape(front, job)} above {from_front}; left edge of the first tile "
            f"{tape(left, job)} from {from_left}."
        )
    else:
        from_front = "the near wall" if corner[1] - front == bounds[1] else "the edge before it"
        first = (
            f"Start line {tape(front, job)} from {from_front}; left edge of the first tile "
            f"{tape(left, job)} from {from_left}."
        )
    return Start(corner, left, front, " ".join([first, *rest]))


def reach(region: Region, corner: Point) -> tuple[int, int]:
    """Distances from a tile's corner to the left and to the front, to the surface's edge.

    Measured a hair inside the tile, so that an edge in line with it does not count.
    """
    x, y = corner[0] + 0.5, corner[1] + 0.5
    left = front = None
    for (ax, ay), (bx, by) in edges_of(region):
        if (ay > y) != (by > y):
            at = ax + (bx - ax) * (y - ay) / (by - ay)
            if at <= x and (left is None or at > left):
                left = at
        if (ax > x) != (bx > x):
            at = ay + (by - ay) * (x - ax) / (bx - ax)
            if at <= y and (front is None or at > front):
                front = at
    bounds = region.bounds
    return (
        corner[0] - round(bounds[0] if left is None else left),
        corner[1] - round(bounds[1] if front is None else front),
    )
