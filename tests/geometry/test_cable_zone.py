"""Cables and paths of whole zones: the numbers to reach, splitting, and what always holds."""

import statistics

import numpy as np
import pytest
import shapely
from heated_rooms import HERE, cable
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_zones import WALL, InventedZone, invented_zones
from shapely import box

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.geometry.heating.cable_curve import curve_of
from sheetcalc.geometry.heating.cable_split import split
from sheetcalc.geometry.heating.cable_strips import lattice_for
from sheetcalc.geometry.heating.cable_zone import (
    DEFAULT_NEAREST_MM,
    DEFAULT_RADIUS_MM,
    plan_zone,
    rules_for,
)
from sheetcalc.geometry.heating.free_floor import HeatedZone, Obstacle

JOB = Job(clearance_wall_mm320=round(WALL * 320))
STOCK: list[Cable] = [cable(f"C{i}", 4 * 1.25**i, 48 * 1.25**i) for i in range(12)]
CLOSE: list[Cable] = [cable(f"D{i}", 4 * 1.15**i, 48 * 1.15**i) for i in range(12)]


def as_zone(invented: InventedZone) -> HeatedZone:
    things = tuple(Obstacle("", shape, clear, shape) for shape, clear in invented.things)
    return HeatedZone(
        "zone", "floor", SurfaceKind.FLOOR, "warm", invented.floor, invented.floor, things,
        invented.free, HERE,
    )  # fmt: skip


@pytest.mark.parametrize("stock", [STOCK, CLOSE], ids=["steps of 25 %", "steps of 15 %"])
@pytest.mark.parametrize("pitch", [30.0, None], ids=["knobs", "free"])
def test_nearly_every_zone_is_planned_and_little_stays_cold(
    pitch: float | None, stock: list[Cable]
) -> None:
    # at least 98 % of zones that can take the shortest cable, 30 mm, no crossing, 6 % cold
    planned, tried, cold = 0, 0, []
    for invented in invented_zones(4711, 96):
        zone = as_zone(invented)
        largest = max((p.area for p in shapely.get_parts(zone.free)), default=0) / 1e6
        if stock[0].watts > JOB.highest_density_w_m2 * largest:
            continue
        tried += 1
        plan = plan_zone(zone, stock, JOB, pitch, invented.thermostat)
        planned += bool(plan.laid)
        near = []
        for laid in plan.laid:
            curve = curve_of(laid.plan.path, laid.rules.radius_mm)
            assert curve.is_simple
            assert curve.length == pytest.approx(laid.rules.length_mm, abs=30)
            assert zone.floor.boundary.distance(curve) >= WALL - 0.1
            for thing in zone.obstacles:
                assert thing.shape.distance(curve) >= thing.clearance_mm - 0.1
            near.append(curve.buffer(laid.plan.widest_mm / 2))
        if near:
            cold.append(zone.free.difference(shapely.union_all(near)).area / zone.free.area)
    assert planned >= 0.98 * tried
    assert statistics.mean(cold) <= 0.06


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6), st.sampled_from([None, 20.0, 30.0, 50.0]))
def test_what_is_laid_holds_for_any_zone(seed: int, pitch: float | None) -> None:
    invented = invented_zones(seed, 8)[seed % 8]
    zone = as_zone(invented)
    plan = plan_zone(zone, STOCK, JOB, pitch, invented.thermostat)
    curves = [curve_of(x.plan.path, x.rules.radius_mm) for x in plan.laid]
    for laid, curve in zip(plan.laid, curves, strict=True):
        assert laid.check.wrong == ()
        assert laid.cable.watts <= 161 * plan_area(zone) * (1 + 1e-9)
        assert zone.floor.covers(curve)
    for i, first in enumerate(curves):
        for second in curves[:i]:
            assert first.distance(second) >= 50 - 0.1
    assert plan.laid or plan.reasons or zone.free.is_empty


def plan_area(zone: HeatedZone) -> float:
    return zone.free.area / 1e6


def test_the_whole_zone_never_passes_the_highest_density() -> None:
    for invented in invented_zones(99, 24):
        zone = as_zone(invented)
        plan = plan_zone(zone, STOCK, JOB, 30.0, invented.thermostat)
        assert sum(x.cable.watts for x in plan.laid) <= 161 * zone.free_m2 * (1 + 1e-9)


def test_a_floor_is_split_by_watts_and_apart() -> None:
    # 3000 x 1000 at 1 : 2, 60 apart: cuts at 1000, shares 970 and 1970 wide
    first, second = split(box(0, 0, 3000, 1000), [100, 200], 60)
    assert first.bounds == pytest.approx((0, 0, 970, 1000), abs=0.01)
    assert second.bounds == pytest.approx((1030, 0, 3000, 1000), abs=0.01)
    near, far = split(box(0, 0, 1000, 3000), [1, 1], 60)
    assert near.bounds == pytest.approx((0, 0, 1000, 1470), abs=0.01)
    assert near.distance(far) == pytest.approx(60, abs=0.01)
    assert split(box(0, 0, 10, 10), [5], 60) == [box(0, 0, 10, 10)]


def test_shares_on_knobs_end_on_the_underlays_lattice_and_lie_on_it() -> None:
    free = box(0, 0, 3010, 1000)
    knobs = lattice_for(free, 30.0, knobbed=True)
    assert (knobs.left_mm, knobs.front_mm) == (5, 5)  # 100 pitches and 33, each centred
    first, second = split(free, [100, 200], 50, knobs)
    # 50 asks for two knobs; a third of 3010 is 1003.3: knobs at 5 + 32 · 30 and 5 + 34 · 30
    assert first.bounds == (0, 0, 965, 1000)
    assert second.bounds == (1025, 0, 3010, 1000)
    for share in (first, second):
        lattice = lattice_for(share, 30.0, knobbed=True, knob_mm=(5, 5))
        assert (lattice.left_mm - 5) % 30 == 0
        assert (lattice.front_mm, lattice.count) == (5, 33)


def test_cables_on_one_underlay_have_their_rows_between_the_same_knobs() -> None:
    free = box(0, 0, 3333, 2222)
    zone = HeatedZone(
        "zone", "floor", SurfaceKind.FLOOR, "warm", free, box(-76, -76, 3409, 2298), (), free, HERE
    )
    plan = plan_zone(zone, STOCK[:9], JOB, 30.0, (0, -76))
    assert len(plan.laid) > 1
    for axis in (0, 1):
        places = [x.plan.path[1:-1, axis] for x in plan.laid]
        off = (np.concatenate(places) - places[0][0]) / 30
        assert np.abs(off - off.round()).max() < 1e-6


def test_a_cable_without_spacing_or_bend_radius_takes_the_stated_defaults() -> None:
    rules = rules_for(cable("A", 10, 120, spacing=None, radius=None), 30.0)
    assert (rules.nearest_mm, rules.radius_mm) == (DEFAULT_NEAREST_MM, DEFAULT_RADIUS_MM)
    # runs are never nearer than their turn's two bends
    assert rules_for(cable("A", 10, 120, spacing=50, radius=40), None).nearest_mm == 80


def test_parts_too_small_for_any_cable_are_left_out() -> None:
    free = shapely.union_all([box(0, 0, 2000, 1200), box(2500, 0, 2800, 300)])
    zone = HeatedZone(
        "zone", "floor", SurfaceKind.FLOOR, "warm", free, box(-76, -76, 2876, 1276), (), free, HERE
    )
    plan = plan_zone(zone, STOCK, JOB, 30.0, (0, -76))
    assert len(plan.laid) == 1
    assert [p.bounds for p in plan.left_out] == [(2500, 0, 2800, 300)]
