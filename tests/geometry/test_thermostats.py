"""Where a thermostat may not hang without a word: in a doorway, near a bath or a shower."""

import pytest
from heated_rooms import BOTH, planned, said
from room_rows import piece, resolve, room_row

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import FloorPiece
from sheetcalc.geometry.heating.findings import thermostat_findings

DOOR = piece("Door", "doorway", 100, None, 500, wall="near")
DEEP = 700


def found(*pieces: FloorPiece) -> dict[str, Finding]:
    (room,), _ = resolve(room_row(DOOR, *pieces, length=2400, width=2400))
    return {finding.code: finding for finding in thermostat_findings(room)}


def on_the_right_wall(beyond: float) -> FloorPiece:
    """Put a thermostat on the wall along which something lies, so far beyond its end [mm]."""
    return piece("T", "thermostat", None, DEEP + beyond, wall="right")


def test_a_thermostat_in_a_doorway_is_an_error() -> None:
    assert "THERMOSTAT-IN-DOORWAY" in found(piece("T", "thermostat", 300, None, wall="near"))


# BS 7671 701.32, as quoted by 2kelectrical: zone 2 reaches 0.60 m beyond a bath or a basin; a
# shower without a basin has a zone 1 of 1.20 m round its outlet, at whatever edge that hangs
@pytest.mark.parametrize(
    ("kind", "beyond", "least"),
    [
        ("bath", 595, 600), ("bath", 600, None), ("bath", 605, None),
        ("shower tray", 595, 600), ("shower tray", 600, None), ("shower tray", 605, None),
        ("shower floor", 1195, 1200), ("shower floor", 1200, None), ("shower floor", 1205, None),
    ],
)  # fmt: skip
def test_a_thermostat_within_the_zones_of_a_bath_or_a_shower_is_a_warning(
    kind: str, beyond: float, least: float | None
) -> None:
    wet = piece("W", kind, 1300, 0, 1100, DEEP)
    warned = found(on_the_right_wall(beyond), wet).get("THERMOSTAT-BY-WATER")
    assert (warned is None) == (least is None)
    if warned is not None and least is not None:
        assert warned.facts["by"] == "W"
        assert warned.facts["least"].mm320 == least * 320  # type: ignore[union-attr]


def test_a_thermostat_far_from_a_bath_may_still_be_too_near_to_a_shower_floor() -> None:
    bath = piece("B", "bath", 0, 1700, 1100, DEEP)
    shower = piece("S", "shower floor", 1300, 0, 1100, DEEP)
    warned = found(on_the_right_wall(1000), bath, shower)["THERMOSTAT-BY-WATER"]
    assert warned.facts["by"] == "S"


FIRST = piece("T1", "thermostat", 800, None, wall="near")
SECOND = piece("T2", "thermostat", None, 500, wall="right")
OWN = Job(shower_circuit="of its own")


def heated(job: Job, *thermostats: FloorPiece) -> tuple[tuple[CablePlan, ...], list[str]]:
    """Room of 3.0 x 2.4 m, 6 m2 of main floor, and a shower of 1.0 x 0.9 m at the far right."""
    shower = piece("S", "shower floor", 2000, 1500, 1000, 900)
    (room,), _ = resolve(room_row(DOOR, shower, *thermostats, length=3000, width=2400))
    plans, findings = planned(room, finish=BOTH, job=job)
    return plans, said(findings)


def wet(plan: CablePlan) -> bool:
    return plan.surface.startswith("shower floor")


def test_showers_on_a_circuit_of_their_own_go_to_the_second_thermostat() -> None:
    plans, codes = heated(OWN, FIRST, SECOND)
    assert "THERMOSTATS-SEVERAL" not in codes
    for plan in plans:
        assert plan.thermostat == ("T2" if wet(plan) else "T1")
        # the lead ends where that thermostat hangs: (0.8, 0), or (3.0, 0.5) on the right wall
        ends = [tuple(round(v, 2) for v in plan.lead_path[k]) for k in (0, -1)]
        assert ((3.0, 0.5) if wet(plan) else (0.8, 0.0)) in ends


def test_two_thermostats_at_one_place_have_two_names() -> None:
    plans, _ = heated(OWN, FIRST)
    assert {plan.thermostat for plan in plans if not wet(plan)} == {"T1"}
    assert {plan.thermostat for plan in plans if wet(plan)} == {"T1 (showers)"}


def test_a_thermostat_that_switches_nothing_is_a_warning() -> None:
    plans, codes = heated(Job(), FIRST, SECOND)
    assert "THERMOSTATS-SEVERAL" in codes
    assert {plan.thermostat for plan in plans} == {"T1"}


@pytest.mark.parametrize(("job", "sensors"), [(Job(), 1), (OWN, 2)])
def test_a_thermostat_has_one_sensor(job: Job, sensors: int) -> None:
    """It lies with the main floor's largest cable; the showers' own thermostat has its own."""
    plans, _ = heated(job, FIRST, SECOND)
    with_it = [plan for plan in plans if plan.sensor is not None]
    assert len(with_it) == sensors
    mains = [plan for plan in plans if not wet(plan)]
    assert max(mains, key=lambda plan: plan.watts) in with_it
