"""Outline from wall legs: a walk once round the room, closed by the compass rule.

Leg 1 starts at the origin and runs along the near wall: to the right when the walk turns left
round the room, to the left when it turns right.  Turns of the other legs are taken from the leg
before.  The turn of leg 1 is from the last leg; it only serves as a check.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise
from math import cos, hypot, radians, sin
from typing import Final

from msgspec import Struct

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import Patch, Point, Region, WallLeg
from sheetcalc.geometry.plane.points import doubled_area
from sheetcalc.geometry.plane.slabs import without_straight_corners
from sheetcalc.geometry.rooms.reports import Report

_QUARTERS: Final = {0.0: (1, 0), 90.0: (0, 1), 180.0: (-1, 0), 270.0: (0, -1)}
_FEWEST_LEGS: Final = 3
_FULL_TURN: Final = 360.0
_TURN_SLACK_DEGREES: Final = 0.5
_STATED_FROM_MM320: Final = 160  # a misclosure below half a millimetre is rounding, not measuring
_CHECK_PAIR_BY_PAIR: Final = 80  # up to so many walls, crossings are looked for pair by pair


class ClosedWalk(Struct, frozen=True):
    """A walk that was closed.

    Attributes
    ----------
    region
        Inside of the walls.
    legs
        Name, start and end of every leg, counter-clockwise.
    shift_mm320
        Farthest that a corner was moved to close the walk.
    """

    region: Region
    legs: tuple[tuple[str, Point, Point], ...]
    shift_mm320: int


def compass_rule(steps: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Balance a closed traverse: each step corrected in proportion to its length.

    Compass (Bowditch) rule of surveying handbooks; from memory, not verified.

    Parameters
    ----------
    steps
        Departure and latitude of every leg, in any unit; they should add up to nothing.

    Returns
    -------
    list[tuple[float, float]]
        Corrected steps, which do.
    """
    lengths = [hypot(dx, dy) for dx, dy in steps]
    total = sum(lengths)
    off_x, off_y = sum(dx for dx, _ in steps), sum(dy for _, dy in steps)
    return [
        (dx - off_x * length / total, dy - off_y * length / total)
        for (dx, dy), length in zip(steps, lengths, strict=True)
    ]


def steps_of(legs: Sequence[WallLeg]) -> list[tuple[float, float]]:
    """Give the left and front steps of a walk [1/320 mm]; quarter turns are exact."""
    turned = sum(leg.turn_degrees for leg in legs[1:])
    heading = 0.0 if turned >= 0 else 180.0
    steps = []
    for i, leg in enumerate(legs):
        heading = (heading + (leg.turn_degrees if i else 0.0)) % _FULL_TURN
        quarter = _QUARTERS.get(heading)
        ux, uy = quarter or (cos(radians(heading)), sin(radians(heading)))
        steps.append((ux * leg.length_mm320, uy * leg.length_mm320))
    return steps


def close_walk(legs: Sequence[WallLeg], job: Job, report: Report) -> ClosedWalk | None:
    """Outline of a room from its wall legs, or None with the findings noted.

    A misclosure beyond the job's tolerance is an error; within it the walk is closed by the
    compass rule and the shift is stated.
    """
    if not _legs_are_sound(legs, report):
        return None
    steps = steps_of(legs)
    off_x, off_y = sum(dx for dx, _ in steps), sum(dy for _, dy in steps)
    misclosure = hypot(off_x, off_y)
    walked = sum(leg.length_mm320 for leg in legs)
    facts = {
        "misclosure": Length(round(misclosure)),
        "tolerance": Length(job.misclosure_tolerance_mm320),
        "walked": Length(walked, small=False),
    }
    if misclosure > job.misclosure_tolerance_mm320:
        report.error(
            "LEGS-DO-NOT-CLOSE",
            legs[-1].source,
            "Length",
            **facts,
            to_the_right=Length(round(off_x)),
            away=Length(round(off_y)),
        )
        return None
    if misclosure:
        steps = compass_rule(steps)
    if misclosure >= _STATED_FROM_MM320:
        report.remark("LEGS-CLOSED", legs[0].source, None, **facts)
    corners = [(0, 0)]
    x = y = 0.0
    for dx, dy in steps[:-1]:
        x, y = x + dx, y + dy
        corners.append((round(x), round(y)))
    return _outline(legs, corners, round(misclosure), report)


def _outline(
    legs: Sequence[WallLeg], corners: list[Point], shift: int, report: Report
) -> ClosedWalk | None:
    """Outline through the corners, walked counter-clockwise, unless it crosses itself."""
    walls = [(leg.leg, corners[i], corners[(i + 1) % len(corners)]) for i, leg in enumerate(legs)]
    crossing = crossing_walls([(start, end) for _, start, end in walls])
    if crossing:
        first, second = (legs[i] for i in crossing)
        report.error("LEGS-CROSS", second.source, None, first=first.leg, second=second.leg)
        return None
    ring = without_straight_corners(corners)
    if not ring or not doubled_area(ring):
        report.error("ROOM-WITHOUT-FLOOR", legs[0].source, None)
        return None
    if doubled_area(ring) < 0:
        ring = without_straight_corners(ring[::-1])
        walls = [(name, end, start) for name, start, end in reversed(walls)]
    return ClosedWalk(Region((Patch(ring),)), tuple(walls), shift)


def _legs_are_sound(legs: Sequence[WallLeg], report: Report) -> bool:
    """Whether there are legs enough, with lengths and names of their own and a full turn."""
    before = len(report.findings)
    if len(legs) < _FEWEST_LEGS:
        report.error("LEGS-TOO-FEW", legs[0].source, None, legs=len(legs))
    seen: set[str] = set()
    for leg in legs:
        if leg.leg.casefold() in seen:
            report.error("LEG-NAME-TWICE", leg.source, "Leg", leg=leg.leg)
        seen.add(leg.leg.casefold())
        if leg.length_mm320 <= 0:
            report.error("SIZE-NOT-POSITIVE", leg.source, "Length", size=Length(leg.length_mm320))
    if (out := _out_of_order(legs)) is not None:
        named = ", ".join(leg.leg for leg in legs)
        report.error("LEGS-OUT-OF-ORDER", out.source, "Leg", legs=named)
    turned = sum(leg.turn_degrees for leg in legs)
    if legs[0].turn_degrees and abs(abs(turned) - _FULL_TURN) > _TURN_SLACK_DEGREES:
        report.error("LEGS-TURNS-OFF", legs[0].source, "Turn", turned=f"{turned:g}")
    return len(report.findings) == before


def _out_of_order(legs: Sequence[WallLeg]) -> WallLeg | None:
    """First leg whose number is smaller than that of the row before; None where not all have one.

    Sorted as texts, leg 10 stands before leg 2, and the walk may close all the same.
    """
    if not all(leg.leg.isdecimal() for leg in legs):
        return None
    return next((leg for before, leg in pairwise(legs) if int(leg.leg) < int(before.leg)), None)


def crossing_walls(walls: Sequence[tuple[Point, Point]]) -> tuple[int, int] | None:
    """First two walls of a closed walk that cross or touch where they should not."""
    count = len(walls)
    for i, j in _pairs(walls):
        (a, b), (c, d) = walls[i], walls[j]
        if j == i + 1 or (i == 0 and j == count - 1):
            if _folds_back(a, b, c, d):
                return i, j
        elif _meet(a, b, c, d):
            return i, j
    return None


def _pairs(walls: Sequence[tuple[Point, Point]]) -> Iterable[tuple[int, int]]:
    """Pairs of walls that may meet: all of them, or those that lie near each other."""
    if len(walls) <= _CHECK_PAIR_BY_PAIR:
        return combinations(range(len(walls)), 2)
    import shapely  # noqa: PLC0415 - heavy; only for very long walks

    lines = shapely.linestrings(walls)
    found = shapely.STRtree(lines).query(lines)
    return sorted((i, j) for i, j in zip(*found.tolist(), strict=True) if i < j)


def _folds_back(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether a wall runs back along the one that it adjoins."""
    along = (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1])
    return along < 0 and _side(a, b, c) == 0 and _side(a, b, d) == 0


def _side(a: Point, b: Point, p: Point) -> int:
    turn = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    return (turn > 0) - (turn < 0)


def _within(a: Point, b: Point, p: Point) -> bool:
    return min(a[0], b[0]) <= p[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two stretches have a point in common."""
    sides = _side(a, b, c), _side(a, b, d), _side(c, d, a), _side(c, d, b)
    if sides[0] != sides[1] and sides[2] != sides[3] and 0 not in sides:
        return True
    return (
        (sides[0] == 0 and _within(a, b, c))
        or (sides[1] == 0 and _within(a, b, d))
        or (sides[2] == 0 and _within(c, d, a))
        or (sides[3] == 0 and _within(c, d, b))
    )
