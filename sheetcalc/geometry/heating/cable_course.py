"""Course of a cable's length with rows along x: which rows, joined, turns cut back to measure.

What comes out depends on the floor, the cable's rules, the spacings and the side of the connectors
alone.  It is kept for the next floor alike: one shower lies in many kinds of rooms, one bathroom
has several finishes.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import ceil, inf
from typing import Final

from msgspec import Struct
from msgspec.structs import replace
from shapely import Polygon

from sheetcalc.geometry.heating.cable_islands import without_islands
from sheetcalc.geometry.heating.cable_loops import Course, Loop, LoopRules, joined, loops_of
from sheetcalc.geometry.heating.cable_row_costs import RowCosts, RowRules
from sheetcalc.geometry.heating.cable_rows import RowPair, RowTable
from sheetcalc.geometry.heating.cable_spacing import (
    CableRules,
    free_pitch_mm,
    least_places,
    steps_for,
)
from sheetcalc.geometry.heating.cable_strips import (
    EXACT_MM,
    Lattice,
    Strip,
    free_mm,
    lattice_for,
    strips_of,
    subtract,
)

_MASKINGS: Final = 3
_LENGTHENINGS: Final = 4
_LONGER: Final = 1.25
"""Lengths up to this times the cable are looked at."""

_KEPT: Final = 1024  # courses of floors that were planned last
_TOO_NARROW: Final = "the free floor is too narrow for two runs side by side"
_DOES_NOT_HOLD: Final = "the free floor does not hold the cable at its smallest spacing"


class FoundCourse(Struct, frozen=True):
    """A course, what it leaves unheated, and the widest distance of rows that it might have.

    Attributes
    ----------
    course
        Read only: it is kept.
    cold_mm2
        By the planner's reckoning, rows the widest distance apart [mm²].
    widest_mm
        Between rows, of the distances that were tried [mm].
    """

    course: Course
    cold_mm2: float
    widest_mm: float


class _Floor(Struct, frozen=True):
    """A free floor seen along rows.

    Attributes
    ----------
    lattice
        Row places.
    strips
        Free stretches that rows can be joined over.
    islands_mm2
        Floor of the others.
    least_places
        Least distance of two rows, in places.
    loop_rules
        Distances that loops keep.
    """

    lattice: Lattice
    strips: tuple[Strip, ...]
    islands_mm2: float
    least_places: int
    loop_rules: LoopRules


@lru_cache(maxsize=2)
def spacings(free: Polygon, rules: CableRules, effort: int) -> tuple[int, ...]:
    """Distances between rows that are tried with some effort, in places of the floor's lattice.

    A greater effort has the same ones where a floor leaves no others, and then the same course.
    """
    return tuple(steps_for(free, rules, _seen(free, rules).lattice.pitch_mm, effort))


@lru_cache(maxsize=_KEPT)
def least_cold_mm2(free: Polygon, rules: CableRules, steps: tuple[int, ...]) -> float:
    """Floor that the planner's reckoning leaves unheated at the least; infinite without rows.

    Parameters
    ----------
    free
        One part of free floor, rows along x [mm].
    rules
        Cable and distances.
    steps
        Distances between rows to choose from, in places, ascending.
    """
    costs = _row_costs(free, rules, steps)
    if costs is None:
        return inf
    return _seen(free, rules).islands_mm2 + costs.least_mm2(_needed_mm(rules))


@lru_cache(maxsize=_KEPT)
def promised_cold_mm2(free: Polygon, rules: CableRules, steps: tuple[int, ...]) -> float:
    """Floor that the best rows leave unheated before they are joined; infinite without rows.

    The course made of them leaves about as much.  Parameters are those of the bound.
    """
    chosen = _chosen_first(free, rules, steps)
    if isinstance(chosen, str):
        return inf
    return _seen(free, rules).islands_mm2 + chosen.cold_mm2


@lru_cache(maxsize=_KEPT)
def course_of(
    free: Polygon, rules: CableRules, steps: tuple[int, ...], *, spine_left: bool
) -> FoundCourse | str:
    """Course of a cable's length; or why there is none.

    Parameters
    ----------
    free, rules, steps
        As for the bound.
    spine_left
        Connectors stand as far left as they can, else right.
    """
    floor, chosen = _seen(free, rules), _chosen_first(free, rules, steps)
    for _ in range(_MASKINGS):
        if isinstance(chosen, str):
            return chosen
        found = _to_length(chosen, floor, rules, spine_left=spine_left)
        if isinstance(found, str):
            return found
        course, cold = found
        row_rules = chosen.costs.rules
        if not course.left_out:
            return FoundCourse(course, cold + floor.islands_mm2, row_rules.widest_mm)
        floor = _without(floor, course.left_out)
        chosen = _chosen(RowCosts(floor.strips, row_rules), rules)
    return "parts of the floor can't be joined to the rest"


def _needed_mm(rules: CableRules) -> float:
    """Length of the loops together: the cable and its opening [mm]."""
    return rules.length_mm + rules.gap_mm


@lru_cache(maxsize=2)
def _seen(free: Polygon, rules: CableRules) -> _Floor:
    """See a floor along rows; once, however many spacings are tried on it."""
    knobs = rules.knob_pitch_mm
    pitch = knobs or free_pitch_mm(free.area, rules)
    lattice = lattice_for(free, pitch, knobbed=knobs is not None, knob_mm=rules.knob_mm)
    pitch = lattice.pitch_mm
    shortest = max(rules.nearest_mm, 2 * rules.radius_mm)
    if knobs:
        shortest = ceil(shortest / pitch - EXACT_MM) * pitch
    places = least_places(rules, pitch)
    strips, islands_mm = without_islands(
        strips_of(free, lattice, shortest), rules.nearest_mm, places
    )
    loop_rules = LoopRules(rules.nearest_mm, rules.radius_mm, shortest)
    return _Floor(lattice, tuple(strips), islands_mm * pitch, places, loop_rules)


@lru_cache(maxsize=2)
def _row_costs(free: Polygon, rules: CableRules, steps: tuple[int, ...]) -> RowCosts | None:
    """Rows that a floor has room for; None where it is too narrow for two."""
    floor = _seen(free, rules)
    if floor.lattice.count < steps[0]:
        return None
    pitch = floor.lattice.pitch_mm
    row_rules = RowRules(steps, pitch, floor.loop_rules.shortest_mm, rules.radius_mm)
    return RowCosts(floor.strips, row_rules)


class _Chosen(Struct, frozen=True):
    """Rows that come out at a cable's length, not joined yet, and what they were chosen from."""

    costs: RowCosts
    table: RowTable
    pairs: tuple[RowPair, ...]
    cold_mm2: float


@lru_cache(maxsize=2)
def _chosen_first(free: Polygon, rules: CableRules, steps: tuple[int, ...]) -> _Chosen | str:
    """Choose rows on a whole floor; or say why there are none."""
    costs = _row_costs(free, rules, steps)
    return _TOO_NARROW if costs is None else _chosen(costs, rules)


def _chosen(costs: RowCosts, rules: CableRules) -> _Chosen | str:
    """Choose the rows that leave least floor cold; or say why there are none."""
    needed = _needed_mm(rules)
    if not costs.reach(needed):
        return _DOES_NOT_HOLD
    table = RowTable(costs, needed * _LONGER + 4 * costs.rules.pitch_mm, needed)
    pairs, cold = table.best(needed)
    return _Chosen(costs, table, pairs, cold) if pairs else _DOES_NOT_HOLD


def _to_length(
    chosen: _Chosen, floor: _Floor, rules: CableRules, *, spine_left: bool
) -> tuple[Course, float] | str:
    """Loops whose joined course is as long as needed; or why there are none."""
    lattice, widest, needed = floor.lattice, chosen.costs.rules.widest_mm, _needed_mm(rules)
    table, pairs, cold = chosen.table, chosen.pairs, chosen.cold_mm2
    asked = needed
    slack = 2 * lattice.pitch_mm if lattice.knobbed else EXACT_MM
    for _ in range(_LENGTHENINGS):
        loops = loops_of(pairs, floor.loop_rules)
        course = joined(loops, floor.strips, lattice, floor.loop_rules, spine_left=spine_left)
        if course.left_out:
            return course, cold
        excess = course.closed_length_mm() - needed
        if excess >= -EXACT_MM:
            rest = course.cut_back(excess, widest / 2)
            if rest < slack:
                return course, cold
            if rules.one_end:  # the end stops short by as much
                return course, cold + rest * widest
            return "its turns can't be cut back far enough"
        # up to their own length the same rows would come again
        asked = max(asked - excess, table.length_mm(pairs)) + EXACT_MM
        pairs, cold = table.best(asked)
        if not pairs:
            return _DOES_NOT_HOLD
    return "no rows come out at its length"


def _without(floor: _Floor, loops: Sequence[Loop]) -> _Floor:
    """Floor without loops that can't be joined, and without what hung on by them alone."""
    strips = list(floor.strips)
    known: dict[Strip, Strip] = {}  # equal ones stay one object
    shortest = floor.loop_rules.shortest_mm - EXACT_MM
    for loop in loops:
        for k in range(loop.bottom, loop.top):
            left = subtract(strips[k], [(loop.left_mm, loop.right_mm)])
            rest = tuple((a, b) for a, b in left if b - a >= shortest)
            strips[k] = known.setdefault(rest, rest)
    kept, _ = without_islands(strips, floor.loop_rules.nearest_mm, floor.least_places)
    lost_mm = sum(map(free_mm, floor.strips)) - sum(map(free_mm, kept))
    lost_mm2 = lost_mm * floor.lattice.pitch_mm
    return replace(floor, strips=tuple(kept), islands_mm2=floor.islands_mm2 + lost_mm2)
