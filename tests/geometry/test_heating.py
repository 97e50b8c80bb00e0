"""Heating of whole rooms: zones, cables, leads, circuits, and everything that can be wrong."""

from dataclasses import replace

import pytest
from heated_rooms import cable, catalogue, heated, stock
from room_rows import face, piece, resolve, room_row
from shapely import LineString, Point, Polygon

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import FloorPiece, Room
from sheetcalc.geometry.heating.room_heating import knob_pitch_mm, plan_heating
from sheetcalc.rules.circuits import assign_circuits, loaded

FLOOR = heated(SurfaceKind.FLOOR)
BOTH = heated(SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR)
DOOR = piece("Door", "doorway", 900, None, 800, wall="near")
STAT = piece("T", "thermostat", 700, None, wall="near")
NARROW = piece("Door", "doorway", 100, None, 500, wall="near")


def bathroom(*pieces: FloorPiece, length: float = 3000, width: float = 2400) -> Room:
    (room,), _ = resolve(room_row(*pieces, length=length, width=width))
    return room


def planned(
    room: Room,
    *cables: Cable,
    finish: Finish = FLOOR,
    job: Job | None = None,
    pitch: float | None = 30,
) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    return plan_heating(room, finish, catalogue(*(cables or stock()), pitch=pitch), job or Job())


def said(findings: tuple[Finding, ...]) -> list[str]:
    return [f.code for f in findings]


def test_a_plain_bathroom_is_heated_and_nothing_is_said() -> None:
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    assert findings == ()
    area = (2400 - 152) * (2000 - 152) / 1e6
    assert sum(p.free_area_m2 for p in plans) == pytest.approx(area, rel=0.03)
    for plan in plans:
        assert not plan.provisional
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


def test_a_missing_resistance_is_a_warning_with_the_worked_value() -> None:
    cables = [replace(c, resistance_ohm=None) for c in stock()]
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), *cables)
    assert said(findings) == ["CABLE-RESISTANCE-MISSING"] * len({p.cable for p in plans})
    plan = plans[0]
    assert findings[0].facts["worked"] == pytest.approx(230**2 / plan.watts, abs=1e-3)
    assert plan.resistance_ohm == pytest.approx(230**2 / plan.watts)


@pytest.mark.parametrize(
    ("factor", "wrong"), [(0.95, False), (1.10, False), (0.94, True), (1.11, True)]
)
def test_a_resistance_at_odds_with_watts_and_volts_is_an_error_with_both(
    factor: float,
    wrong: bool,  # noqa: FBT001 - a column of the table above
) -> None:
    cables = [replace(c, resistance_ohm=factor * c.volts**2 / c.watts) for c in stock()]
    _, findings = planned(bathroom(DOOR, STAT, length=1800, width=1500), *cables)
    assert ("CABLE-RESISTANCE-DIFFERS" in said(findings)) == wrong
    if wrong:
        facts = findings[0].facts
        assert {"stated", "worked", "low", "high"} <= set(facts)


def test_a_room_without_thermostat_is_a_warning_and_ends_at_its_doorway() -> None:
    plans, findings = planned(bathroom(DOOR, length=2400, width=2000))
    assert said(findings) == ["THERMOSTAT-MISSING"]
    assert Point(1.3, 0).distance(Point(plans[0].path[0])) < 0.5


def test_two_thermostats_are_a_warning() -> None:
    other = piece("T2", "thermostat", 300, None, wall="near")
    plans, findings = planned(bathroom(DOOR, STAT, other, length=2400, width=2000))
    assert said(findings) == ["THERMOSTATS-SEVERAL"]
    assert {p.thermostat for p in plans} == {"T"}


def test_a_thermostat_off_the_wall_is_an_error_and_the_room_is_not_planned() -> None:
    rooms, findings = resolve(
        room_row(DOOR, piece("T", "thermostat", 1200, 900), length=2400, width=2000)
    )
    assert rooms == ()
    assert said(findings) == ["THERMOSTAT-NOT-ON-OUTLINE"]


def test_a_cable_without_a_stated_cold_lead_says_that_its_reach_is_not_checked() -> None:
    cables = [replace(c, cold_lead_mm320=None) for c in stock()]
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), *cables)
    assert findings == ()
    assert all("gives no cold lead: whether that reaches is not checked" in p.basis for p in plans)
    told, _ = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    assert not any("not checked" in p.basis for p in told)


def test_a_cold_lead_that_does_not_reach_is_a_warning() -> None:
    cables = [replace(c, cold_lead_mm320=1000 * 320) for c in stock()]
    plans, findings = planned(bathroom(DOOR, STAT, length=1800, width=1500), *cables)
    assert said(findings) == ["COLD-LEAD-TOO-SHORT"] * len(plans)


def test_leads_do_not_pass_a_doorway() -> None:
    # the shower's lead has the doorway between it and the thermostat along the near wall
    room = bathroom(
        piece("Door", "doorway", 1000, None, 900, wall="near"),
        piece("T", "thermostat", 600, None, wall="near"),
        piece("S1", "shower floor", 2100, 0, 900, 900),
        length=3000, width=2400,
    )  # fmt: skip
    plans, _ = planned(room, finish=BOTH)
    shower = next(p for p in plans if p.surface == "shower floor S1")
    threshold = LineString([(1.0, 0), (1.9, 0)])
    if shower.lead_path:
        assert LineString(shower.lead_path).distance(threshold) >= 0.1 - 0.026


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


def test_a_thermostat_beyond_its_rating_and_a_circuit_too_small_are_warnings() -> None:
    job = Job(thermostat_amperes=1.0, circuit_amperes=(1.0,))
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), job=job)
    assert said(findings) == ["THERMOSTAT-OVERLOADED", "CIRCUIT-OVERLOADED"]
    assert plans[0].circuit_amperes == 0
    assert plans[0].thermostat_share > 1


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


def shower_behind_the_door(lead_m: float) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    room = bathroom(
        piece("Door", "doorway", 1000, None, 900, wall="near"),
        piece("T", "thermostat", 2100, None, wall="near"),
        piece("S1", "shower floor", 0, 1400, 1000, 1000),
        piece("C1", "curb", 0, 1300, 1100, 100, height=100),
        piece("C2", "curb", 1000, 1400, 100, 1000, height=100),
        piece("B", "bath", 1500, 1700, 1700, 700),
        piece("V", "cabinet", 0, 100, 500, 1000),
        piece("K", "column", 2900, 0, 300, 300),
        piece("WC", "toilet outlet", 2850, 1200, diameter=110),
        length=3200, width=2400,
    )  # fmt: skip
    cables = (cable("A", 7, 84, lead_m=lead_m), cable("B", 40, 480, lead_m=lead_m))
    return planned(room, *cables, finish=BOTH)


def test_a_lane_before_the_doorway_is_left_free_where_a_lead_would_not_reach_otherwise() -> None:
    far, findings = shower_behind_the_door(20)
    assert said(findings) == []
    near, findings = shower_behind_the_door(5)
    assert said(findings) == []
    # past the door it is 1.1 m, to the left wall and on to the curb 1.0 + 1.3 m, 1.2 m up, and a
    # little round corners; the other way goes round the bath
    leads = [plans[-1].lead_needed_m or 0 for plans in (far, near)]
    assert leads[1] <= 1.1 + 2.3 + 1.2 + 0.3 < 5 < leads[0]
    threshold = LineString([(1.0, 0), (1.9, 0)])
    assert LineString(near[0].path).distance(threshold) >= 0.150 - 1e-4
    assert LineString(near[-1].lead_path).distance(threshold) >= 0.1 - 0.026
    assert "lane before the doorway" in near[0].basis
    assert "lane before the doorway" not in far[0].basis


def test_a_lead_too_short_with_any_lane_is_a_finding_and_no_lane_is_left() -> None:
    plans, findings = shower_behind_the_door(3)
    assert said(findings) == ["COLD-LEAD-TOO-SHORT"]
    assert "lane" not in plans[0].basis


def test_single_lead_cables_end_where_they_began() -> None:
    cables = [replace(c, leads="one end") for c in stock()]
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), *cables)
    assert findings == ()
    assert {p.leads for p in plans} == {"one end"}


def plan_of(room: str, amperes: float, copies: tuple[str, ...] = ()) -> CablePlan:
    (plan, *_), _ = planned(bathroom(DOOR, STAT, length=1800, width=1500))
    return replace(plan, room=room, copies=copies, amperes=amperes)


def test_circuits_one_each_or_as_many_rooms_as_they_carry() -> None:
    plans = [plan_of("101", 4), plan_of("102", 4), plan_of("103", 6)]
    each = assign_circuits(plans, Job())
    assert [p.circuit for p in each] == ["H1", "H2", "H3"]
    assert [p.circuit_amperes for p in each] == [10, 10, 10]
    # 32 A carries 25.6 A: all three, 14 A · 1.25 = 17.5 A -> 20 A
    shared = assign_circuits(plans, Job(rooms_per_circuit="several"))
    assert [p.circuit for p in shared] == ["H1", "H1", "H1"]
    assert [p.circuit_amperes for p in shared] == [20, 20, 20]


def test_alike_rooms_take_a_circuit_each() -> None:
    alike = plan_of("A", 4, ("101", "102", "103"))
    (one,) = assign_circuits([alike], Job())
    assert one.circuit == "H1 to H3"
    assert one.circuits == ("H1", "H2", "H3")
    assert one.circuits_begun == 3
    # 32 A carries 25.6 A: six of 4 A; the seventh begins another
    more = replace(alike, room="B", copies=("104", "105", "106", "107"))
    shared = assign_circuits([alike, more], Job(rooms_per_circuit="several"))
    assert shared[0].circuits == ("H1", "H1", "H1")
    assert shared[1].circuits == ("H1", "H1", "H1", "H2")
    assert [p.circuits_begun for p in shared] == [1, 1]
    assert shared[0].circuit_load_amperes == 24


def test_shower_floors_may_be_on_circuits_of_their_own() -> None:
    main, wet = plan_of("101", 4), replace(plan_of("101", 1), surface="shower floor S")
    other = replace(wet, room="102")
    joined = assign_circuits([main, wet], Job())
    assert [p.circuit for p in joined] == ["H1", "H1"]
    assert joined[0].circuit_load_amperes == 5
    own = Job(shower_circuit="of its own", rooms_per_circuit="several")
    apart = assign_circuits([main, wet, other], own)
    assert [p.circuit for p in apart] == ["H1", "H2", "H2"]
    assert [p.circuits_begun for p in apart] == [1, 1, 0]
    assert [p.thermostat_share for p in loaded([main, wet], own)] == [4 / 16, 1 / 16]


def test_the_free_floor_and_the_path_are_given_for_the_drawing() -> None:
    plans, _ = planned(bathroom(DOOR, STAT, length=2400, width=2000))
    for plan in plans:
        free = Polygon(plan.free_floor[0], plan.free_floor[1:])
        assert free.buffer(1e-6).covers(LineString(plan.path))
        assert free.covers(Point(plan.sensor))
