"""Plan of one cable over one part of free floor: a course of its length, cut open."""

from itertools import pairwise
from math import inf
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import Polygon

from sheetcalc.geometry.heating.cable_cold import unheated_mm2
from sheetcalc.geometry.heating.cable_course import (
    course_of,
    least_cold_mm2,
    promised_cold_mm2,
    spacings,
)
from sheetcalc.geometry.heating.cable_curve import (
    Opening,
    Points,
    closed_length_mm,
    cut_open,
    open_length_mm,
    opening,
    stopped_short,
)
from sheetcalc.geometry.heating.cable_loops import Course
from sheetcalc.geometry.heating.cable_spacing import CableRules
from sheetcalc.geometry.heating.cable_strips import EXACT_MM, Lattice
from sheetcalc.geometry.heating.cable_trace import traced

_EFFORTS: Final = (0, 1, 2)
_ROUGH_CELL_MM: Final = 40.0

WELL_HEATED: Final = 0.02
"""A plan with less of the free floor unheated than this is taken without trying another way."""

WORTH_IT: Final = 0.005
"""Rows the other way are taken where they leave this much less of it unheated."""

POORLY_HEATED: Final = 0.08
"""A plan with more of it unheated than this is held against other spacings."""


class PathPlan(Struct, frozen=True):
    """A drawn path.

    Attributes
    ----------
    path
        Corners from start to end, in the room's frame [mm].
    length_mm
        Of the true curve [mm].
    turned
        Rows run along the room's front direction instead of left to right.
    steps
        Distances of neighbouring rows used [places].
    lattice
        Row places, in the turned frame.
    course
        Loops and connectors, in the turned frame.
    cold_mm2
        Floor that stays unheated, by the planner's reckoning [mm²].
    corners
        Of the closed course, in the room's frame, the first not repeated [mm].
    gap_mm
        Of the opening [mm].
    stops_short_mm
        Cable that the end stops short of the opening, with one lead [mm].
    """

    path: Points
    length_mm: float
    turned: bool
    steps: tuple[int, ...]
    lattice: Lattice
    course: Course
    opening: Opening
    cold_mm2: float
    corners: Points
    gap_mm: float
    stops_short_mm: float = 0.0

    @property
    def widest_mm(self) -> float:
        """Widest distance between two neighbouring rows [mm]."""
        return max(self.steps) * self.lattice.pitch_mm


def plan_path(
    free: Polygon, rules: CableRules, towards: tuple[float, float]
) -> tuple[PathPlan | None, str]:
    """Find a path of exactly the cable's length over one part of free floor.

    Both directions are tried where the first leaves more than ``WELL_HEATED`` of the floor cold,
    and the better one is taken; where that is known beforehand the second comes first.  A
    direction that can't be enough better is known by its bounds before its rows are joined.

    Parameters
    ----------
    free
        One part of free floor [mm].
    rules
        Cable and distances.
    towards
        Where the ends should be near [mm].

    Returns
    -------
    PathPlan or None, str
        The plan, not yet verified; or None and the reason.
    """
    along = _Way(free, rules, towards, turned=False)
    across = _Way(free, rules, towards, turned=True)
    left, front, right, back = free.bounds
    # long rows first, unless these can't heat the floor well: they have fewer turns, but few of
    # them seldom come out at a cable's length
    longer, other = (across, along) if back - front > right - left else (along, across)
    well, poorly, gain = (share * free.area for share in (WELL_HEATED, POORLY_HEATED, WORTH_IT))
    best: PathPlan | None = None
    reasons: dict[_Way, str] = {}
    for effort in _EFFORTS:
        poor = longer.least_mm2(effort) > well
        for way in (other, longer) if poor else (longer, other):
            worth = inf if best is None else best.cold_mm2 - gain
            if best is not None and not way.promises(worth, effort):
                continue
            plan, why = way.plan(effort)
            reasons.setdefault(way, why)
            if plan is not None and plan.cold_mm2 < worth:
                best = plan
            if best is not None and best.cold_mm2 <= well:
                return best, ""
        if best is not None and (effort or best.cold_mm2 <= poorly):
            return best, ""
    return best, "" if best else reasons[longer]


class _Way:
    """Rows in one direction: floor, rules and thermostat turned so that the rows run along x."""

    def __init__(
        self, free: Polygon, rules: CableRules, towards: tuple[float, float], *, turned: bool
    ) -> None:
        self._turned, self._whole = turned, free
        self._free, self._rules, self._towards = free, rules, towards
        if turned:
            self._free = shapely.transform(free, lambda c: c[:, ::-1])
            self._towards = (towards[1], towards[0])
            if rules.knob_mm is not None:
                self._rules = replace(rules, knob_mm=(rules.knob_mm[1], rules.knob_mm[0]))

    def least_mm2(self, effort: int) -> float:
        """Floor that rows in this direction leave unheated at the least [mm²]."""
        steps = spacings(self._free, self._rules, effort)
        return least_cold_mm2(self._free, self._rules, steps)

    def promises(self, less_mm2: float, effort: int) -> bool:
        """Whether rows in this direction may leave less than this unheated [mm²]."""
        steps = spacings(self._free, self._rules, effort)
        bounds = (least_cold_mm2, promised_cold_mm2)  # the quick one first
        return all(bound(self._free, self._rules, steps) < less_mm2 for bound in bounds)

    def plan(self, effort: int) -> tuple[PathPlan | None, str]:
        """Plan with rows in this direction; or None and the reason.

        What is cold is reckoned again where a course has narrower steps than allowed.
        """
        left, _, right, _ = self._free.bounds
        spine_left = self._towards[0] <= (left + right) / 2
        steps = spacings(self._free, self._rules, effort)
        found = course_of(self._free, self._rules, steps, spine_left=spine_left)
        if isinstance(found, str):
            return None, found
        plan, why = _finish(
            found.course, self._rules, self._towards, found.cold_mm2, turned=self._turned
        )
        if plan is not None and plan.widest_mm < found.widest_mm - EXACT_MM:
            cold = unheated_mm2(
                self._whole, plan.path, self._rules.radius_mm, plan.widest_mm, _ROUGH_CELL_MM
            )
            plan = replace(plan, cold_mm2=cold)
        return plan, why


def _finish(
    course: Course, rules: CableRules, towards: tuple[float, float], cold: float, *, turned: bool
) -> tuple[PathPlan | None, str]:
    """Cut the course open near a point and turn it back into the room's frame."""
    corners = traced(course.loops, course.joins, course.lattice)
    gap = closed_length_mm(corners, rules.radius_mm) - rules.length_mm
    short = 0.0
    if rules.one_end and gap > rules.gap_mm + 2 * course.lattice.pitch_mm:
        gap, short = rules.gap_mm, gap - rules.gap_mm
    place = opening(corners, gap, rules.radius_mm, towards)
    if place is None:
        return None, "no straight is long enough to begin and end on"
    path = stopped_short(cut_open(corners, place), short, rules.radius_mm)
    length = open_length_mm(path, rules.radius_mm)
    rows = sorted({r for loop in course.loops for r in (loop.bottom, loop.top)})
    steps = tuple(upper - lower for lower, upper in pairwise(rows))
    if turned:
        path, corners = path[:, ::-1].copy(), corners[:, ::-1].copy()
    plan = PathPlan(
        path, length, turned, steps, course.lattice, course, place, cold,
        corners, gap, short,
    )  # fmt: skip
    return plan, ""


def reopened(
    plan: PathPlan, straight: int, middle: tuple[float, float], radius_mm: float
) -> PathPlan:
    """Open the same course at another place.

    Parameters
    ----------
    plan
        Path; its opening keeps its width.
    straight
        Number of the straight of the closed course to open.
    middle
        Middle of the opening, in the room's frame [mm].
    radius_mm
        Of corners [mm].
    """
    corners = plan.corners
    along = np.roll(corners, -1, axis=0)[straight] - corners[straight]
    half = along / np.hypot(*along) * (plan.gap_mm / 2)
    start = (float(middle[0] - half[0]), float(middle[1] - half[1]))
    end = (float(middle[0] + half[0]), float(middle[1] + half[1]))
    path = cut_open(corners, Opening(straight, start, end))
    path = stopped_short(path, plan.stops_short_mm, radius_mm)
    if plan.turned:  # the opening is kept in the frame of the rows
        start, end = start[::-1], end[::-1]
    return replace(
        plan,
        path=path,
        length_mm=open_length_mm(path, radius_mm),
        opening=Opening(straight, start, end),
    )
