"""Heating of whole rooms: zones, the cables that fit them, and what stays without."""

import pytest
from heated_rooms import (
    BOTH,
    DOOR,
    FLOOR,
    NARROW,
    STAT,
    bathroom,
    cable,
    catalogue,
    heated,
    planned,
    said,
    stock,
)
from msgspec.structs import replace
from room_rows import face, piece, resolve, room_row
from shapely import LineString, Point, Polygon, box

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Room
from sheetcalc.geometry.heating.room_heating import knob_pitch_mm


def test_a_plain_bathroom_is_heated_and_nothing_is_said() -> None:
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    assert findings == ()
    area = (2400 - 152) * (2000 - 152) / 1e6
    assert sum(p.free_area_m2 for p in plans) == pytest.approx(area, rel=0.03)
    for plan in plans:
        assert plan.planned_m == pytest.approx(plan.length_m, abs=0.030)
        assert plan.density_w_m2 == pytest.approx(130, rel=0.2)
        assert plan.unheated_share <= 0.06
        assert plan.rows == len(plan.rows_list)
        assert plan.resistance_low_ohm == pytest.approx(0.95 * plan.resistance_ohm)
        assert plan.lead_needed_m is not None
        assert plan.lead_needed_m < 10


def test_a_shower_floor_has_a_cable_of_its_own_on_the_same_circuit() -> None:
    room = bathroom(
        DOOR, STAT,
        piece("S1", "shower floor", 2000, 1500, 1000, 900),
        piece("C1", "curb", 1880, 1500, 120, 900, height=100),
        piece("D", "drain", 2500, 1950, diameter=110),
    )  # fmt: skip
    plans, findings = planned(room, finish=BOTH)
    assert findings == ()
    assert [p.surface for p in plans][-1] == "shower floor S1"
    shower = plans[-1]
    inside = Polygon([(2.0, 1.5), (3.0, 1.5), (3.0, 2.4), (2.0, 2.4)])
    assert inside.covers(LineString(shower.path))
    assert Point(2.5, 1.95).distance(LineString(shower.path)) >= 0.055 + 0.150 - 1e-4
    assert len({p.circuit for p in plans}) == 1
    load = sum(p.amperes for p in plans)
    assert plans[0].thermostat_share == pytest.approx(load / 16)
    assert plans[0].circuit_amperes == 10
    # the shower's lead goes through the curb and never across a cable
    way = LineString(shower.lead_path[1:])
    for plan in plans:
        assert way.distance(LineString(plan.path)) > 0.005
    assert shower.lead_needed_m is not None
    assert shower.lead_needed_m > 1.2 + 0.7


def test_cables_of_a_room_keep_apart_and_in_the_room() -> None:
    room = bathroom(
        DOOR, STAT, piece("WC", "toilet outlet", 500, 2095, diameter=110),
        piece("V", "cabinet", 0, 0, 1000, 500), length=4000, width=3000,
    )  # fmt: skip
    plans, _ = planned(room)
    assert len(plans) > 1  # more than the longest cable of the range reaches
    assert [p.zone for p in plans] == [
        f"main floor, cable {i} of {len(plans)}" for i in range(1, len(plans) + 1)
    ]
    paths = [LineString(p.path) for p in plans]
    for i, first in enumerate(paths):
        for second in paths[:i]:
            assert first.distance(second) >= 0.050 - 1e-4


def test_without_an_underlay_the_spacing_is_free() -> None:
    assert knob_pitch_mm(FLOOR, SurfaceKind.FLOOR, catalogue()) == 30
    assert (
        knob_pitch_mm(heated(SurfaceKind.FLOOR, underlay=False), SurfaceKind.FLOOR, catalogue())
        is None
    )
    assert knob_pitch_mm(FLOOR, SurfaceKind.FLOOR, catalogue(pitch=None)) is None
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), pitch=None)
    assert findings == ()
    for plan in plans:
        assert plan.planned_m == pytest.approx(plan.length_m, abs=0.030)
        assert "knob" not in plan.spacing_words


def test_a_bathroom_that_is_not_heated_has_no_plan_and_no_finding() -> None:
    assert planned(bathroom(DOOR), finish=heated()) == ((), ())


def test_a_range_without_cables_is_a_finding() -> None:
    plans, findings = planned(bathroom(DOOR, STAT), replace(cable("A", 20, 240), range_name="cold"))
    assert plans == ()
    assert said(findings) == ["HEATING-RANGE-EMPTY"]
    assert findings[0].facts["range"] == "warm"


def test_a_cable_for_another_voltage_is_refused() -> None:
    plans, findings = planned(bathroom(DOOR, STAT), *stock(volts=120))
    assert plans == ()
    assert said(findings) == ["CABLE-VOLTAGE-DIFFERS"]
    assert findings[0].facts["supply_volts"] == 230
    assert findings[0].facts["cable_volts"] == "120 V"


def test_cables_for_another_voltage_in_the_range_are_left_aside() -> None:
    room = bathroom(DOOR, STAT, length=2400, width=2000)
    both = [*stock(), *(replace(c, code=c.code + "-120", volts=120.0) for c in stock())]
    plans, findings = planned(room, *both)
    assert findings == ()
    assert all(p.volts == 230 for p in plans)


def test_a_room_without_free_floor_is_a_finding() -> None:
    job = Job(clearance_wall_mm320=500 * 320)
    plans, findings = planned(bathroom(NARROW, STAT, length=900, width=900), job=job)
    assert plans == ()
    assert said(findings) == ["NO-FREE-FLOOR"]


def test_a_zone_below_the_shortest_cable_is_a_finding_with_the_nearest() -> None:
    # 748 x 348 mm free is 0.26 m²; 100 W on it would be 384 W/m²
    plans, findings = planned(
        bathroom(NARROW, STAT, length=900, width=500), cable("A", 8, 100), cable("B", 12, 150)
    )
    assert plans == ()
    assert said(findings) == ["NO-CABLE-FITS"]
    assert "A (8.00 m, 100 W: 384 W/m² here" in str(findings[0].facts["nearest"])
    assert "0.621 m² of free floor" in str(findings[0].facts["reason"])  # 100 / 161


def test_a_zone_that_no_cable_is_long_enough_for_is_a_finding() -> None:
    plans, findings = planned(bathroom(DOOR, STAT), cable("A", 5, 60))
    assert plans == ()
    assert said(findings) == ["NO-CABLE-FITS"]
    assert "60%" in str(findings[0].facts["reason"])


def remedies_of(room: Room, *cables: Cable, pitch: float | None = 30) -> str:
    plans, findings = planned(room, *cables, pitch=pitch)
    assert plans == ()
    (finding,) = findings
    assert finding.code == "NO-CABLE-FITS"
    return str(finding.facts["remedies"])


def test_a_smaller_clearance_that_would_make_a_cable_fit_is_proposed() -> None:
    # 100 W ask for 0.6211 m² at 161 W/m²; 1000 x 800 less 51 all round is 0.6267 m²,
    # less 63 (the step before) 0.589 m²
    room = bathroom(NARROW, STAT, length=1000, width=800)
    told = remedies_of(room, cable("A", 7.5, 100))
    assert "A with 51 mm clear of walls instead of 76 mm" in told
    again, findings = planned(room, cable("A", 7.5, 100), job=Job(clearance_wall_mm320=51 * 320))
    assert [p.cable for p in again] == ["A"]
    assert findings == ()


def test_a_smaller_spacing_that_would_make_a_cable_fit_is_proposed() -> None:
    # 848 x 1248 free is 1.058 m²: 15 m lie 71 mm apart, where the row says 90 at least
    room = bathroom(NARROW, STAT, length=1000, width=1400)
    tight = cable("A", 15, 138, spacing=90)
    told = remedies_of(room, tight)
    assert "A with runs 60 mm apart instead of at least 90 mm" in told
    plans, _ = planned(room, cable("A", 15, 138, spacing=60))
    assert [p.cable for p in plans] == ["A"]


def test_a_length_that_would_fit_is_proposed_and_fits() -> None:
    room = bathroom(NARROW, STAT, length=900, width=900)
    told = remedies_of(room, cable("A", 20, 240))
    # 748 x 748 is 0.5595 m²: 72.7 W, at 12 W/m 6.06 m
    assert "a cable of 6.10 m, 73 W, which is not stocked" in told
    plans, _ = planned(room, cable("B", 6.1, 73))
    assert [p.cable for p in plans] == ["B"]


def test_a_range_too_short_for_the_floor_asks_for_more_zones() -> None:
    # 2848 x 2248 is 6.40 m²: 60 % of 130 W/m² is 499 W, 4 cables of 60 W are 240 W: 3 zones
    told = remedies_of(bathroom(DOOR, STAT), cable("A", 5, 60))
    assert "at least 3 zones" in told


def test_the_nearest_cables_say_by_how_much_they_miss() -> None:
    _, findings = planned(bathroom(NARROW, STAT, length=900, width=900), cable("A", 20, 240))
    # 240 - 72.7 = 167 W, at 12 W/m 13.94 m
    assert "167 W and 13.94 m too much" in str(findings[0].facts["nearest"])


def test_a_drain_in_a_corner_and_a_column_that_splits_the_zone_are_worked_round() -> None:
    corner = bathroom(
        DOOR, STAT, piece("D", "drain", 120, 120, diameter=110), length=2400, width=2000
    )
    plans, _ = planned(corner)
    assert plans
    for plan in plans:
        assert Point(0.12, 0.12).distance(LineString(plan.path)) >= 0.205 - 1e-4
    split = bathroom(DOOR, STAT, piece("K", "column", 1200, 0, 200, 1400), length=3000, width=1500)
    plans, _ = planned(split)
    assert {LineString(p.path).bounds[0] > 1.4 for p in plans} == {True, False}
    for plan in plans:
        wall = Polygon([(1.2, 0), (1.4, 0), (1.4, 1.4), (1.2, 1.4)])
        assert wall.distance(LineString(plan.path)) >= 0.076 - 1e-4


def test_parts_that_stay_unheated_are_named() -> None:
    # an alcove 190 wide leaves 38 between its clearances: no two runs side by side
    tail = piece("A", "floor", 0, 2000, 190, 1500)
    plans, findings = planned(bathroom(DOOR, STAT, tail, length=2400, width=2000))
    assert plans
    assert said(findings) == ["FLOOR-LEFT-UNHEATED"]
    assert findings[0].facts["where"] == "far left"


def test_as_much_is_said_to_stay_cold_as_the_schedule_tells_of_the_path_that_is_laid() -> None:
    """A path is opened again where its lead is shortest: what it leaves cold there counts."""
    tail = piece("A", "floor", 0, 2000, 190, 1500)
    for at in (300, 1000, 1400):
        stat = piece("T", "thermostat", at, None, wall="left")
        plans, findings = planned(bathroom(DOOR, stat, tail, length=2400, width=2000))
        cold = sum(plan.unheated_m2 for plan in plans)
        assert [f.facts["area"] for f in findings] == [f"{cold:.3g} m²"]


def test_a_wide_part_that_the_path_can_not_reach_is_named_too() -> None:
    # between a column and the far wall 55 stay between clearances: no way through for two runs
    # 50 apart with bends of 25, so that 648 x 1348 of floor left of it (0.87 m²) stays cold
    stat = piece("T", "thermostat", 700, None, wall="far")
    column = piece("K", "column", 800, 0, 200, 1500 - 152 - 55)
    (plan,), findings = planned(
        bathroom(DOOR, stat, column, length=3000, width=1500), cable("A", 28, 336)
    )
    assert plan.unheated_share * plan.free_area_m2 == pytest.approx(0.87, abs=0.05)
    # more than a quarter: a warning, with the power of the part that is heated beside the mean
    assert said(findings) == ["FLOOR-LARGELY-UNHEATED"]
    facts = findings[0].facts
    assert facts["where"] == "left"
    assert facts["share"] == round(plan.unheated_share * 100)
    rest = 336 / (plan.free_area_m2 - plan.unheated_m2)
    assert facts["rest"] == f"{rest:.0f} W/m²"


def test_beyond_a_neck_that_no_loop_passes_lies_another_cable() -> None:
    """Two floors of about 1.25 and 1.15 x 1.45 m, joined by a neck of 200 - 2 x 76 = 48 mm.

    One cable for both would crowd into one of them, with more power than the highest allowed.
    """
    column = piece("K", "column", 1400, 200, 300, 1400)
    stat = piece("T", "thermostat", 1100, None, wall="near")
    door = piece("Door", "doorway", 100, None, 800, wall="near")
    room = bathroom(door, stat, column, length=3000, width=1600)
    plans, _ = planned(room, pitch=None)
    assert len(plans) == 2
    left, right = sorted((LineString(p.path) for p in plans), key=lambda way: way.bounds[0])
    assert left.bounds[2] < 1.4
    assert right.bounds[0] > 1.7
    for plan, way in zip(plans, (left, right), strict=True):
        heated_m2 = way.buffer(plan.spacing_m / 2).area
        assert plan.watts / heated_m2 <= Job().highest_density_w_m2


def test_a_cable_that_would_crowd_into_a_part_of_its_floor_is_not_laid() -> None:
    """A neck of 55 mm lets a loop of 50 mm pass, but not the cable come out even on both sides.

    480 W on 3.4 m2 would be 142 W/m2, but some 196 on the part that is reached.
    """
    stat = piece("T", "thermostat", 700, None, wall="far")
    column = piece("K", "column", 800, 0, 200, 1500 - 152 - 55)
    room = bathroom(DOOR, stat, column, length=3000, width=1500)
    plans, (finding,) = planned(room, cable("A", 40, 480), pitch=None)
    assert plans == ()
    assert finding.code == "NO-CABLE-FITS"
    assert "reaches only a part of the floor" in str(finding.facts["reason"])


def test_an_inset_with_a_heating_of_its_own_is_a_zone_of_its_own() -> None:
    inset = piece("I", "inset", 1400, 900, 1500, 1400)
    room = bathroom(DOOR, STAT, inset, length=3000, width=2400)
    together, _ = planned(room)
    assert {p.surface for p in together} == {"floor"}
    plans, findings = planned(room, finish=heated(SurfaceKind.FLOOR, SurfaceKind.INSET))
    assert [f.code for f in findings if f.code != "FLOOR-LEFT-UNHEATED"] == []
    assert [p.surface for p in plans][-1] == "inset I"
    *mains, own = (LineString(p.path) for p in plans)
    area = Polygon([(1.4, 0.9), (2.9, 0.9), (2.9, 2.3), (1.4, 2.3)])
    assert area.covers(own)
    assert mains
    for main in mains:
        assert not area.intersects(main)
        assert main.distance(own) >= 0.080 - 1e-4
    # it lies on the floor's layers, knobs and all
    assert "knobs" in plans[-1].spacing_words
    alone, _ = planned(room, finish=heated(SurfaceKind.INSET))
    assert [p.surface for p in alone] == ["inset I"]


def test_an_inset_of_a_wall_is_no_floor() -> None:
    faces = (face("far", 2400, 2000), face("far", 600, 600, part="inset", left=200, bottom=800))
    (room,), _ = resolve(room_row(DOOR, STAT, *faces, length=2400, width=2000))
    assert any(s.kind is SurfaceKind.INSET for s in room.surfaces)
    plain, _ = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    plans, _ = planned(room, finish=heated(SurfaceKind.FLOOR, SurfaceKind.INSET))
    assert [p.path for p in plans] == [p.path for p in plain]


def test_heating_named_for_a_wall_is_a_finding() -> None:
    _, findings = planned(bathroom(DOOR, STAT), finish=heated(SurfaceKind.WALL))
    assert said(findings) == ["HEATING-NOT-ON-FLOOR"]
    assert findings[0].facts["surface"] == "wall"


def test_single_lead_cables_end_where_they_began() -> None:
    cables = [replace(c, leads="one end") for c in stock()]
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), *cables)
    assert findings == ()
    assert {p.leads for p in plans} == {"one end"}


def test_paths_and_the_sensor_are_given_for_the_drawing_clear_of_the_walls() -> None:
    plans, _ = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    clear = box(0.076, 0.076, 2.4 - 0.076, 2.0 - 0.076)  # 76 mm is what the Job asks for
    assert plans
    assert all(clear.buffer(1e-6).covers(LineString(plan.path)) for plan in plans)
    (sensor,) = (plan.sensor for plan in plans if plan.sensor is not None)
    assert clear.covers(Point(sensor))
