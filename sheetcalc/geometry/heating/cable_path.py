"""Plan of one cable over one part of free floor: rows, loops, one course, cut open, to length."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache, partial
from math import ceil, inf
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import Polygon

from sheetcalc.geometry.heating.cable_cold import unheated_mm2
from sheetcalc.geometry.heating.cable_curve import (
    Opening,
    Points,
    closed_length_mm,
    cut_open,
    open_length_mm,
    opening,
    stopped_short,
)
from sheetcalc.geometry.heating.cable_islands import without_islands
from sheetcalc.geometry.heating.cable_loops import Course, Loop, LoopRules, joined, loops_of
from sheetcalc.geometry.heating.cable_row_costs import RowCosts, RowRules
from sheetcalc.geometry.heating.cable_rows import RowTable
from sheetcalc.geometry.heating.cable_spacing import CableRules, free_pitch_mm, steps_for
from sheetcalc.geometry.heating.cable_strips import EXACT_MM, Lattice, Strip, lattice_for, strips_of
from sheetcalc.geometry.heating.cable_trace import traced

_EFFORTS: Final = (0, 1, 2)
_ROUGH_CELL_MM: Final = 40.0
_DOES_NOT_HOLD: Final = "the free floor does not hold the cable at its smallest spacing"
_MASKINGS: Final = 3
_LENGTHENINGS: Final = 4
_LONGER: Final = 1.25
"""Lengths up to this times the cable are looked at."""

WELL_HEATED: Final = 0.06
"""A plan with less of the free floor unheated than this is taken without trying another way."""

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
    row_places
        Places used by rows, ascending.
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
    row_places: tuple[int, ...]
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

    Both directions are tried where the first leaves more than ``WELL_HEATED`` of the floor cold;
    where that is known beforehand the second comes first.

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
    best: PathPlan | None = None
    reasons: dict[bool, str] = {}
    # seen along rows once a direction, however many spacings are tried
    seen = cache(partial(_seen_along, free, rules, towards))
    for effort in _EFFORTS:
        for way in _ways(seen, rules, effort, deeper=_deeper(free)):
            plan, why = way.plan()
            reasons.setdefault(way.floor.turned, why)
            if plan is None:
                continue
            if plan.cold_mm2 <= WELL_HEATED * free.area:
                return plan, ""
            if best is None or plan.cold_mm2 < best.cold_mm2:
                best = plan
        if best is not None and (effort or best.cold_mm2 <= POORLY_HEATED * free.area):
            return best, ""
    return best, "" if best else reasons[_deeper(free)]


def _deeper(free: Polygon) -> bool:
    """Whether the floor is deeper than wide: rows run along its longer direction first."""
    left, front, right, back = free.bounds
    return bool(back - front > right - left)


def _ways(
    seen: Callable[[bool], "_Floor"], rules: CableRules, effort: int, *, deeper: bool
) -> Iterator["_Way"]:
    """Yield both directions of rows: long rows first, unless these can't heat the floor well.

    Long rows have fewer turns, but few of them seldom come out at a cable's length.
    """
    first = _Way(seen(deeper), rules, effort)
    poor = first.least_cold_mm2 > WELL_HEATED * first.floor.free.area
    if not poor:
        yield first
    yield _Way(seen(not deeper), rules, effort)
    if poor:
        yield first


class _Floor(Struct, frozen=True):
    """A free floor seen along rows of one direction, turned so that they run along x.

    Attributes
    ----------
    turned
        Rows run along the room's front direction instead of left to right.
    whole
        In the room's frame [mm].
    free, towards
        Turned with the rows [mm].
    lattice
        Row places.
    shortest_mm
        Shortest loop [mm].
    strips
        Free stretches that rows can be joined over.
    islands_mm2
        Floor of the others.
    """

    turned: bool
    whole: Polygon
    free: Polygon
    towards: tuple[float, float]
    lattice: Lattice
    shortest_mm: float
    strips: Sequence[Strip]
    islands_mm2: float


def _seen_along(
    free: Polygon,
    rules: CableRules,
    towards: tuple[float, float],
    turned: bool,  # noqa: FBT001 - a direction, kept by
) -> _Floor:
    """See a free floor along rows of one direction."""
    whole, knob = free, rules.knob_mm
    if turned:
        free = shapely.transform(free, lambda c: c[:, ::-1])
        towards = (towards[1], towards[0])
        knob = None if knob is None else (knob[1], knob[0])
    knobs = rules.knob_pitch_mm
    pitch = knobs or free_pitch_mm(free.area, rules)
    lattice = lattice_for(free, pitch, knobbed=knobs is not None, knob_mm=knob)
    pitch = lattice.pitch_mm
    shortest = max(rules.nearest_mm, 2 * rules.radius_mm)
    if knobs:
        shortest = ceil(shortest / pitch - EXACT_MM) * pitch
    strips, islands_mm = without_islands(strips_of(free, lattice, shortest), rules.nearest_mm)
    return _Floor(turned, whole, free, towards, lattice, shortest, strips, islands_mm * pitch)


class _Way:
    """Rows in one direction, some distances apart, and what they would leave unheated."""

    def __init__(self, floor: _Floor, rules: CableRules, effort: int) -> None:
        pitch, shortest = floor.lattice.pitch_mm, floor.shortest_mm
        self.floor = floor
        self._rules = rules
        self._loop_rules = LoopRules(rules.nearest_mm, rules.radius_mm, shortest)
        steps = steps_for(floor.free, rules, pitch, effort)
        self._row_rules = RowRules(tuple(steps), pitch, shortest, rules.radius_mm)
        self._costs: RowCosts | None = None
        if floor.lattice.count >= steps[0]:
            self._costs = RowCosts(floor.strips, self._row_rules)

    @property
    def least_cold_mm2(self) -> float:
        """Floor that the planner's reckoning leaves unheated at the least [mm²]."""
        if self._costs is None:
            return inf
        return self.floor.islands_mm2 + self._costs.least_mm2(self._needed_mm)

    @property
    def _needed_mm(self) -> float:
        """Length of the loops together: the cable and its opening [mm]."""
        return self._rules.length_mm + self._rules.gap_mm

    def plan(self) -> tuple[PathPlan | None, str]:
        """Plan with rows in this direction; or None and the reason."""
        costs, masked_mm2 = self._costs, self.floor.islands_mm2
        if costs is None:
            return None, "the free floor is too narrow for two runs side by side"
        strips = list(self.floor.strips)
        for _ in range(_MASKINGS):
            if costs.least_mm2(self._needed_mm) == inf:
                return None, _DOES_NOT_HOLD
            found = self._to_length(costs, strips)
            if isinstance(found, str):
                return None, found
            course, cold = found
            if not course.left_out:
                return self._finished(course, cold + masked_mm2)
            masked_mm2 += _mask(strips, course.left_out, self.floor.lattice.pitch_mm)
            costs = RowCosts(strips, self._row_rules)
        return None, "parts of the floor can't be joined to the rest"

    def _to_length(self, costs: RowCosts, strips: Sequence[Strip]) -> tuple[Course, float] | str:
        """Loops whose joined course is as long as needed; or why there are none."""
        floor, widest, needed = self.floor, self._row_rules.widest_mm, self._needed_mm
        lattice, (left, _, right, _) = floor.lattice, floor.free.bounds
        spine_left = floor.towards[0] <= (left + right) / 2
        table = RowTable(costs, needed * _LONGER + 4 * lattice.pitch_mm, needed)
        asked = needed
        slack = 2 * lattice.pitch_mm if lattice.knobbed else EXACT_MM
        for _ in range(_LENGTHENINGS):
            pairs, cold = table.best(asked)
            if not pairs:
                return _DOES_NOT_HOLD
            loops = loops_of(pairs, self._loop_rules)
            course = joined(loops, strips, lattice, self._loop_rules, spine_left=spine_left)
            if course.left_out:
                return course, cold
            excess = course.closed_length_mm() - needed
            if excess >= -EXACT_MM:
                rest = course.cut_back(excess, widest / 2)
                if rest < slack:
                    return course, cold
                if self._rules.one_end:  # the end stops short by as much
                    return course, cold + rest * widest
                return "its turns can't be cut back far enough"
            asked += -excess + EXACT_MM
        return "no rows come out at its length"

    def _finished(self, course: Course, cold: float) -> tuple[PathPlan | None, str]:
        """Cut a course open; reckon again what is cold where it has narrower steps than allowed."""
        plan, why = _finish(course, self._rules, self.floor, cold)
        if plan is not None and plan.widest_mm < self._row_rules.widest_mm - EXACT_MM:
            whole = self.floor.whole
            cold = unheated_mm2(whole, plan.path, plan.widest_mm, _ROUGH_CELL_MM)
            plan = replace(plan, cold_mm2=cold)
        return plan, why


def _mask(strips: list[Strip], loops: Sequence[Loop], pitch: float) -> float:
    """Take loops that can't be joined out of the free stretches; return their floor [mm²]."""
    area = 0.0
    for loop in loops:
        for k in range(loop.bottom, loop.top):
            hit = [s for s in strips[k] if s[0] < loop.right_mm and s[1] > loop.left_mm]
            area += sum(b - a for a, b in hit) * pitch
            strips[k] = tuple(s for s in strips[k] if s not in hit)
    return area


def _finish(
    course: Course, rules: CableRules, floor: _Floor, cold: float
) -> tuple[PathPlan | None, str]:
    """Cut the course open near a point and turn it back into the room's frame."""
    corners = traced(course.loops, course.joins, course.lattice)
    gap = closed_length_mm(corners, rules.radius_mm) - rules.length_mm
    short = 0.0
    if rules.one_end and gap > rules.gap_mm + 2 * course.lattice.pitch_mm:
        gap, short = rules.gap_mm, gap - rules.gap_mm
    place = opening(corners, gap, rules.radius_mm, floor.towards)
    if place is None:
        return None, "no straight is long enough to begin and end on"
    path = stopped_short(cut_open(corners, place), short, rules.radius_mm)
    length = open_length_mm(path, rules.radius_mm)
    rows = sorted({r for loop in course.loops for r in (loop.bottom, loop.top)})
    steps = tuple(int(s) for s in np.diff(rows))
    if floor.turned:
        path, corners = path[:, ::-1].copy(), corners[:, ::-1].copy()
    plan = PathPlan(
        path, length, floor.turned, steps, course.lattice, tuple(rows), course, place, cold,
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
    path = cut_open(corners, Opening(straight, start, end, 0.0))
    path = stopped_short(path, plan.stops_short_mm, radius_mm)
    if plan.turned:  # the opening is kept in the frame of the rows
        start, end = start[::-1], end[::-1]
    return replace(
        plan,
        path=path,
        length_mm=open_length_mm(path, radius_mm),
        opening=Opening(straight, start, end, 0.0),
    )
