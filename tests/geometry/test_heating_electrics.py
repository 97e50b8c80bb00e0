"""Electrics of heated rooms: resistance, thermostats, cold leads, circuits."""

from random import Random

import pytest
from heated_rooms import BOTH, DOOR, STAT, bathroom, cable, planned, said, stock
from msgspec.structs import replace
from room_rows import piece, resolve, room_row
from shapely import LineString, Point

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.rules.circuits import assign_circuits, begun_with, loaded


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


def test_a_thermostat_beyond_its_rating_and_a_circuit_too_small_are_warnings() -> None:
    job = Job(thermostat_amperes=1.0, circuit_amperes=(1.0,))
    plans, findings = planned(bathroom(DOOR, STAT, length=2400, width=2000), job=job)
    assert said(findings) == ["THERMOSTAT-OVERLOADED", "CIRCUIT-OVERLOADED"]
    assert plans[0].circuit_amperes == 0
    assert plans[0].thermostat_share > 1


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


def plan_of(room: str, amperes: float, copies: tuple[str, ...] = ()) -> CablePlan:
    (plan, *_), _ = planned(bathroom(DOOR, STAT, length=1800, width=1500))
    return replace(plan, room=room, copies=copies, amperes=amperes)


def on(plan: CablePlan) -> tuple[str, ...]:
    """Names of the circuits of alike rooms."""
    return tuple(circuit.name for circuit in plan.circuits)


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
    assert on(one) == ("H1", "H2", "H3")
    assert one.circuits_begun == 3
    # 32 A carries 25.6 A: six of 4 A; the seventh begins another
    more = replace(alike, room="B", copies=("104", "105", "106", "107"))
    shared = assign_circuits([alike, more], Job(rooms_per_circuit="several"))
    assert on(shared[0]) == ("H1", "H1", "H1")
    assert on(shared[1]) == ("H1", "H1", "H1", "H2")
    assert [p.circuits_begun for p in shared] == [1, 1]
    # the seventh room's circuit carries 4 A · 1.25 = 5 A, the others' 24 A · 1.25 = 30 A
    assert [(c.load_amperes, c.size_amperes) for c in shared[1].circuits] == [(24, 32)] * 3 + [
        (4, 10)
    ]


def test_every_circuit_begins_once_and_carries_the_rooms_that_are_on_it() -> None:
    some = plan_of("A", 1)
    random = Random(7)  # noqa: S311 - invented loads, nothing secret
    for _ in range(50):
        plans = [
            replace(
                some,
                room=str(k),
                copies=tuple(f"{k}.{i}" for i in range(random.randint(1, 9))),
                amperes=random.choice((0.7, 1.9, 3.3, 5.1, 9.8)),
            )
            for k in range(6)
        ]
        made = assign_circuits(plans, Job(rooms_per_circuit="several"))
        begun = [c for plan in made for c in begun_with(plan)]
        every = {c.name: c for plan in made for c in plan.circuits}
        assert sorted(c.name for c in begun) == sorted(every)
        for circuit in every.values():
            load = sum(on(p).count(circuit.name) * p.amperes for p in made)
            assert circuit.load_amperes == pytest.approx(load)
            sizes = [s for s in (10, 16, 20, 32) if s >= load * 1.25 - 1e-9]
            assert circuit.size_amperes == min(sizes)


def test_shower_floors_may_be_on_circuits_of_their_own() -> None:
    main, wet = plan_of("101", 4), replace(plan_of("101", 1), surface="shower floor S")
    other = replace(wet, room="102")
    joined = assign_circuits([main, wet], Job())
    assert [p.circuit for p in joined] == ["H1", "H1"]
    assert joined[0].circuits[0].load_amperes == 5
    own = Job(shower_circuit="of its own", rooms_per_circuit="several")
    apart = assign_circuits([main, wet, other], own)
    assert [p.circuit for p in apart] == ["H1", "H2", "H2"]
    assert [p.circuits_begun for p in apart] == [1, 1, 0]
    assert [p.thermostat_share for p in loaded([main, wet], own)] == [4 / 16, 1 / 16]
