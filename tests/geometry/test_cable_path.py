"""Planned paths: invented zones by the hundred, and small floors that a hand can follow."""

import math
import statistics
from itertools import pairwise

import numpy as np
import pytest
import shapely
from invented_zones import OUTLET, WALL, InventedZone, invented_zones
from msgspec.structs import replace
from shapely import LineString, Polygon, affinity, box

from sheetcalc.domain.cable import CableRow
from sheetcalc.geometry.heating.cable_check import MustKeep, check_path
from sheetcalc.geometry.heating.cable_cold import cold_parts, unheated_mm2
from sheetcalc.geometry.heating.cable_course import (
    FoundCourse,
    course_of,
    least_cold_mm2,
    promised_cold_mm2,
    spacings,
)
from sheetcalc.geometry.heating.cable_curve import curve_of, open_length_mm, stopped_short
from sheetcalc.geometry.heating.cable_list import (
    check_lengths,
    rows_of,
    sensor_place,
    tolerance_rows,
)
from sheetcalc.geometry.heating.cable_path import WELL_HEATED, WORTH_IT, PathPlan, plan_path
from sheetcalc.geometry.heating.cable_row_costs import RowCosts, RowRules
from sheetcalc.geometry.heating.cable_rows import RowTable
from sheetcalc.geometry.heating.cable_spacing import CableRules
from sheetcalc.geometry.heating.cable_strips import lattice_for, missed_mm, strips_of, subtract
from sheetcalc.geometry.heating.free_floor import Obstacle

RADIUS, NEAREST = 25.0, 60.0
SEED = 20_240_501


def planned(zone: InventedZone, spacing: float, pitch: float | None) -> tuple[Polygon, PathPlan]:
    """Largest part of a zone, planned with a cable that just covers it at a mean spacing."""
    part = max(shapely.get_parts(zone.free), key=lambda g: g.area)
    rules = CableRules(part.area / spacing, NEAREST, RADIUS, pitch)
    plan, why = plan_path(part, rules, zone.thermostat)
    assert plan is not None, (zone.kind, why)
    return part, plan


def held_against(zone: InventedZone, length: float) -> MustKeep:
    things = tuple(Obstacle("", shape, clear, shape) for shape, clear in zone.things)
    return MustKeep(length, NEAREST, RADIUS, zone.floor, WALL, zone.floor, things)


@pytest.mark.parametrize("pitch", [30.0, None, 20.0, 33.0], ids=lambda p: f"pitch {p}")
def test_invented_zones_are_planned_and_verify(pitch: float | None) -> None:
    cold = []
    for zone in invented_zones(SEED, 48):
        part, plan = planned(zone, 92.0, pitch)
        found = check_path(plan.path, RADIUS, held_against(zone, part.area / 92.0))
        assert found.wrong == (), zone
        curve = curve_of(plan.path, RADIUS)
        cold.append(part.difference(curve.buffer(plan.widest_mm / 2)).area / part.area)
    assert statistics.mean(cold) <= 0.06


def test_a_path_is_the_same_every_time_kept_or_worked_out_anew() -> None:
    zone = invented_zones(SEED, 8)[7]
    first = planned(zone, 92.0, 30.0)[1]
    left, front, right, back = zone.free.bounds
    # from other corners the same courses are opened elsewhere, and must not change by it
    for corner in ((left, front), (right, back), zone.thermostat):
        again = planned(replace(zone, thermostat=corner), 92.0, 30.0)[1]
    assert np.array_equal(first.path, again.path)
    course_of.cache_clear()
    least_cold_mm2.cache_clear()
    promised_cold_mm2.cache_clear()
    anew = planned(zone, 92.0, 30.0)[1]
    assert np.array_equal(first.path, anew.path)
    assert anew.course == again.course


def test_rows_on_knobs_lie_whole_knobs_apart() -> None:
    for zone in invented_zones(SEED + 1, 8):
        _, plan = planned(zone, 92.0, 30.0)
        across = plan.path[:, 0 if plan.turned else 1]
        places = (across[1:-1] - across[1]) / 30.0
        assert np.allclose(places, np.round(places))


def test_a_floor_four_rows_deep_has_the_length_that_a_hand_works_out() -> None:
    # 1000 x 270 on 30 mm knobs, four rows 60 or 90 apart: two loops 990 long and a connector.
    # Loops of 2·(990 + 90), 8 corners each (2 - pi/2)·25 less; the connector adds what it takes.
    closed = 2 * 2 * (990 + 90) - 8 * (2 - math.pi / 2) * RADIUS
    # one knob less at one turn is 60 mm, the rest is the opening
    rules = CableRules(closed - NEAREST - 60, NEAREST, RADIUS, 30.0)
    plan, _ = plan_path(box(0, 0, 1000, 270), rules, (0, 0))
    assert plan is not None
    assert len(plan.steps) == 3
    assert len(plan.path) == 8 + 2
    assert plan.length_mm == pytest.approx(closed - NEAREST - 60)


def test_a_miss_is_nothing_whatever_the_length_asked_for() -> None:
    for length in range(14_000, 16_000, 137):
        for pitch in (30.0, None):
            plan, why = plan_path(
                box(0, 0, 1500, 1000), CableRules(length, NEAREST, RADIUS, pitch), (700, -76)
            )
            assert plan is not None, why
            assert plan.length_mm == pytest.approx(length, abs=1e-3)


def test_a_cable_too_long_for_its_spacing_has_a_reason() -> None:
    plan, why = plan_path(box(0, 0, 1000, 1000), CableRules(30_000, NEAREST, RADIUS, 30.0), (0, 0))
    assert plan is None
    assert "does not hold" in why


def test_a_floor_too_narrow_for_two_runs_has_a_reason() -> None:
    plan, why = plan_path(box(0, 0, 2000, 40), CableRules(3000, NEAREST, RADIUS, 30.0), (0, 0))
    assert plan is None
    assert "too narrow" in why


def test_a_cable_shorter_than_once_round_the_smallest_loop_has_a_reason() -> None:
    plan, why = plan_path(box(0, 0, 1000, 1000), CableRules(50, NEAREST, RADIUS, 30.0), (0, 0))
    assert plan is None
    assert why


def test_a_cable_with_one_lead_may_stop_short_where_turns_cannot_be_cut_back() -> None:
    free = box(0, 0, 480, 120)
    both, _ = plan_path(free, CableRules(1200, NEAREST, RADIUS, 30.0), (0, 0))
    assert both is None
    plan, _ = plan_path(free, CableRules(1200, NEAREST, RADIUS, 30.0, one_end=True), (0, 0))
    assert plan is not None
    assert curve_of(plan.path, RADIUS).length == pytest.approx(1200, abs=30)
    assert plan.stops_short_mm > 60
    assert free.covers(LineString(plan.path))


def test_an_end_stops_short_on_a_straight_and_never_in_a_bend() -> None:
    path = np.array([[0, 0], [1000, 0], [1000, 500]], float)
    whole = open_length_mm(path, 25)
    for short, end in ((100, (1000, 400)), (480, (1000, 25)), (489.27 + 200, (800, 0))):
        less = stopped_short(path, short, 25)
        assert less[-1] == pytest.approx(end, abs=0.01)
        # up to half a bend less is lost where it would end in one
        assert 0 <= open_length_mm(less, 25) - (whole - short) <= 14.3
    assert stopped_short(path, 0, 25) is path


def test_rows_that_take_up_the_tolerance_are_the_last_and_long_enough() -> None:
    rows = tuple(CableRow(n, 0, 1.5, 1.5 * n) for n in range(1, 11))
    # twice 0.3 m is less than one row of 1.5 m, and two are the least; twice 2 m takes three
    assert tolerance_rows(rows, 0.3) == (9, 10)
    assert tolerance_rows(rows, 2.0) == (8, 10)
    assert tolerance_rows(rows, 100) == (1, 10)
    assert tolerance_rows((), 1) is None


def test_a_room_that_is_turned_gives_the_turned_path_length() -> None:
    free = box(0, 0, 2000, 1200)
    turned = box(0, 0, 1200, 2000)
    rules = CableRules(25_000, NEAREST, RADIUS, 30.0)
    for shape in (free, turned):
        plan, _ = plan_path(shape, rules, (0, 0))
        assert plan is not None
        assert plan.length_mm == pytest.approx(25_000, abs=30)


@pytest.mark.parametrize("degrees", [10, 30, 45])
def test_oblique_walls_are_kept_off_too(degrees: float) -> None:
    without = []
    for zone in invented_zones(SEED + 2, 16):
        floor = affinity.rotate(zone.floor, degrees, origin=(0, 0))
        part = affinity.rotate(
            max(shapely.get_parts(zone.free), key=lambda g: g.area), degrees, origin=(0, 0)
        )
        # rows across a slope end on steps, so a little wider spacing
        plan, why = plan_path(part, CableRules(part.area / 115, NEAREST, RADIUS, 30.0), (0, 0))
        if plan is None:
            without.append((zone.kind, why))
            continue
        keep = MustKeep(part.area / 115, NEAREST, RADIUS, floor, WALL, floor, ())
        assert check_path(plan.path, RADIUS, keep).wrong == ()
    # rows at 45 degrees can be joined over too little of a narrow ring round an outlet
    assert [kind for kind, _ in without] in ([], ["shower floor"]), without


def test_rows_add_up_and_two_check_lengths_lie_on_the_way() -> None:
    _, plan = planned(invented_zones(SEED, 8)[0], 92.0, 30.0)
    rows = rows_of(plan, RADIUS)
    assert [r.number for r in rows] == list(range(1, len(rows) + 1))
    assert sum(r.length_m for r in rows) == pytest.approx(plan.length_mm / 1000)
    assert rows[-1].running_m == pytest.approx(plan.length_mm / 1000)
    for before, after in pairwise(rows):
        assert after.running_m == pytest.approx(before.running_m + after.length_m)
        assert before.to_next_m == pytest.approx(before.skip * 0.030, abs=1e-6)
    checks = check_lengths(rows)
    assert len(checks) == 2
    assert 0.2 < checks[0][1] / rows[-1].running_m < 0.5 < checks[1][1] / rows[-1].running_m < 0.8


def test_the_sensor_lies_midway_between_two_runs() -> None:
    for zone in invented_zones(SEED, 24):
        _, plan = planned(zone, 92.0, 30.0)
        x, y = sensor_place(plan)
        curve = LineString(plan.path)
        away = curve.distance(shapely.Point(x, y))
        heights = [(s.top - s.bottom) * 30 / 2 for s in plan.course.loops]
        assert min(heights) - 1e-6 <= away <= max(heights) + 1e-6


@pytest.mark.parametrize("knob_mm", [30.0, None])
def test_cold_floor_is_what_lies_beyond_the_true_curve_of_the_cable(knob_mm: float | None) -> None:
    # the outside oracle: the library's band round the curve with its bends, taken off the floor
    for zone in invented_zones(SEED, 16):
        part, plan = planned(zone, 92.0, knob_mm)
        band = curve_of(plan.path, RADIUS).buffer(plan.widest_mm / 2, quad_segs=16)
        told = unheated_mm2(part, plan.path, RADIUS, plan.widest_mm)
        assert abs(told - part.difference(band).area) / part.area < 0.001
        beyond = sum(p.area for p in cold_parts(part, plan.path, RADIUS, plan.widest_mm))
        assert abs(told - beyond) / part.area < 0.001


@pytest.mark.parametrize("knob_mm", [30.0, None])
def test_rows_run_in_the_direction_that_leaves_less_floor_cold(knob_mm: float | None) -> None:
    compared = 0
    for zone in invented_zones(SEED, 24):
        part, plan = planned(zone, 92.0, knob_mm)
        turned = shapely.transform(part, lambda c: c[:, ::-1])
        rules = CableRules(part.area / 92.0, NEAREST, RADIUS, knob_mm)
        enough = WELL_HEATED * part.area
        for floor in (part, turned):
            steps = spacings(floor, rules, 0)
            for left in (True, False):
                found = course_of(floor, rules, steps, spine_left=left)
                if not isinstance(found, str) and rows_apart(found) == found.widest_mm:
                    compared += 1
                    assert plan.cold_mm2 <= max(enough, found.cold_mm2 + WORTH_IT * part.area)
    assert compared > 24


def rows_apart(found: FoundCourse) -> float:
    """Widest distance of two neighbouring rows of a course [mm]."""
    rows = sorted({row for loop in found.course.loops for row in (loop.bottom, loop.top)})
    return max(b - a for a, b in pairwise(rows)) * found.course.lattice.pitch_mm


def test_one_bend_leaves_its_outer_corner_cold_and_an_end_what_lies_behind_it() -> None:
    # 25 mm round, heating 45 to either side: outside of the bend a quarter of a circle of 70, a
    # square of 70 less that stays cold; at an end half a circle of 45 of two squares of 45
    free = box(0, -45, 545, 500)
    path = np.array([(0.0, 0.0), (500.0, 0.0), (500.0, 455.0)])
    beyond = box(0, 45, 455, 500).area
    bend = 70**2 * (1 - np.pi / 4)
    end = 2 * 45**2 * (1 - np.pi / 4)
    cold = unheated_mm2(free, path, 25.0, 90.0, cell_mm=2.0)
    assert cold == pytest.approx(beyond + bend + end, rel=2e-4)


def test_strips_are_free_over_their_whole_depth() -> None:
    for zone in invented_zones(SEED, 16):
        part = max(shapely.get_parts(zone.free), key=lambda g: g.area)
        for knobbed in (True, False):
            lattice = lattice_for(part, 30.0, knobbed=knobbed)
            for k, strip in enumerate(strips_of(part, lattice, 60.0)):
                for left, right in strip:
                    stretch = box(left, lattice.row_mm(k), right, lattice.row_mm(k + 1))
                    assert part.buffer(1e-3).covers(stretch)


def test_a_hole_is_taken_out_of_the_strips_that_it_touches() -> None:
    free = box(0, 0, 600, 120).difference(box(200, 40, 300, 70))
    strips = strips_of(free, lattice_for(free, 30.0, knobbed=True), 60.0)
    # 0-30 free; 30-60 and 60-90 are cut between 200 and 300, on knobs 180 and 300; 90-120 free
    assert strips == [((0, 600),), ((0, 180), (300, 600)), ((0, 180), (300, 600)), ((0, 600),)]


def test_stretches_less_stretches() -> None:
    assert subtract([(0, 10)], [(2, 3), (5, 20)]) == [(0, 2), (3, 5)]
    assert subtract([(0, 10)], [(10, 12)]) == [(0, 10)]
    assert subtract([(0, 10)], [(0, 10)]) == []


def test_what_rows_miss_of_a_strip() -> None:
    # a row heats 45 past its end: 200 free left of a row that begins at 200 leaves 155
    assert missed_mm(((0, 1000),), ((200, 1000),), 45) == 155
    assert missed_mm(((0, 1000),), ((0, 400), (600, 1000)), 45) == 110
    assert missed_mm(((0, 1000),), (), 45) == 1000


def test_of_equal_plans_the_row_table_takes_the_one_that_leaves_least_cold() -> None:
    # 900 deep, 1000 wide, rows 90 apart: five pairs of 2·(1000 + 90) fit from edge to edge
    free = box(0, 0, 1000, 810)
    strips = strips_of(free, lattice_for(free, 30.0, knobbed=True), 60.0)
    rules = RowRules((3,), 30.0, 60.0, 0.0)
    length = 5 * 2 * (990 + 90)
    pairs, cold = RowTable(RowCosts(strips, rules), length + 100).best(length)
    assert [(p.bottom, p.top) for p in pairs] == [(0, 3), (6, 9), (12, 15), (18, 21), (24, 27)]
    assert cold == 0


def test_the_outlet_clearance_of_the_invented_zones_is_the_trades() -> None:
    assert (WALL, OUTLET) == (76.0, 50.0)
