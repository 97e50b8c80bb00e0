"""Cold leads: the check of a drawn way, and the ways of invented rooms held with shapely alone."""

import math

import pytest
from heated_rooms import catalogue, heated, stock
from invented_rooms import invented_rooms
from room_rows import piece, resolve, room_row
from shapely import LineString, Point, Polygon, box

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Room, Span
from sheetcalc.geometry.heating.lead_check import LeadKeeps, Place, check_lead
from sheetcalc.geometry.heating.room_heating import plan_heating

BOTH = heated(SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR)
ROOM = box(0, 0, 2000, 1500)
DOOR = LineString([(1000, 0), (1800, 0)])
BATH = box(0, 1000, 800, 1500)
KEEP = LeadKeeps((200, 0), ROOM, (DOOR,), (BATH,))
CABLE = LineString([(1970, 300), (1200, 300), (1200, 1000)])
# 30 mm beside the cable's end: 800 along and 300 down to the wall
WAY: tuple[Place, ...] = ((2000 - 60, 300), (1940, 120), (200, 120), (200, 0))
REACH = 180 + 1740 + 120 + 30


def wrong(
    *way: Place, reach: float = REACH, keep: LeadKeeps = KEEP, cable: LineString = CABLE
) -> str:
    return "; ".join(check_lead(way or WAY, reach, [(way or WAY)[0]], [cable], keep))


def test_a_way_that_keeps_everything_has_nothing_wrong() -> None:
    off = LineString([(1900, 500), (1200, 500)])
    assert check_lead(WAY, REACH, [(1970, 300), (1910, 300)], [off], KEEP) == ()


def test_a_way_must_be_no_longer_than_reckoned_with_the_end_farthest_from_it() -> None:
    off = LineString([(1900, 500), (1200, 500)])
    ends = [(1970, 300), (1910, 300)]
    assert check_lead(WAY, REACH - 1, ends, [off], KEEP) == ("is longer than reckoned by 1 mm",)
    far = [(1940, 300 + 151)]
    assert "begins 151 mm from the cable's end" in check_lead(WAY, 3000, far, [off], KEEP)


def test_a_way_that_passes_before_the_doorway_is_wrong() -> None:
    low = ((1940, 300), (1940, 90), (200, 90), (200, 0))
    off = LineString([(1900, 500), (1200, 500)])
    assert wrong(*low, cable=off) == "passes a doorway"
    assert not wrong(*((x, y + 11 if y == 90 else y) for x, y in low), cable=off)


def test_a_way_that_crosses_or_touches_a_cable_is_wrong() -> None:
    assert "lies on a heating cable" in wrong(cable=LineString([(600, 50), (600, 700)]))
    assert "lies on a heating cable" in wrong(cable=LineString([(300, 129), (900, 129)]))
    assert not wrong(cable=LineString([(300, 130), (900, 130)]))


def test_a_way_through_a_bath_out_of_the_room_or_to_another_place_is_wrong() -> None:
    off = LineString([(1900, 500), (1200, 500)])
    through = ((1940, 300), (1940, 1200), (200, 1200), (200, 0))
    assert wrong(*through, reach=5000, cable=off) == "runs through what stands on the floor"
    outside = ((1940, 300), (2100, 300), (2100, 120), (200, 120), (200, 0))
    assert wrong(*outside, reach=5000, cable=off) == "leaves the room"
    assert wrong(*WAY[:-1], cable=off) == "does not end at the thermostat"


def metres(span: Span) -> LineString:
    return LineString([(x / 320_000, y / 320_000) for x, y in (span.start, span.end)])


def standing(room: Room, *kinds: str) -> list[Polygon]:
    """True shapes of fixtures of some kinds [m]."""
    shapes = []
    for fixture in room.fixtures:
        if fixture.kind.value in kinds and fixture.circle:
            x, y = (c / 320_000 for c in fixture.circle.centre)
            shapes.append(Point(x, y).buffer(fixture.circle.diameter_mm320 / 640_000, 64))
        elif fixture.kind.value in kinds and fixture.region:
            shapes += [
                Polygon([(x / 320_000, y / 320_000) for x, y in p.shell])
                for p in fixture.region.patches
            ]
    return shapes


@pytest.mark.parametrize("pitch", [30.0, None], ids=lambda p: f"pitch {p}")
def test_leads_of_invented_rooms_reach_the_thermostat_over_free_floor(pitch: float | None) -> None:
    held = 0
    for room in invented_rooms(11, 20):
        plans, findings = plan_heating(room, BOTH, catalogue(*stock(), pitch=pitch), Job())
        blocked = {f.surface for f in findings if f.code == "COLD-LEAD-BLOCKED"}
        cables = [LineString(plan.path) for plan in plans]
        outline = Polygon([(x / 320_000, y / 320_000) for x, y in room.outline.patches[0].shell])
        thermostat = metres(room.thermostats[0]).interpolate(0.5, normalized=True)
        for plan in plans:
            assert bool(plan.lead_path) != (plan.surface in blocked)
            if not plan.lead_path:
                continue
            held += 1
            lead = LineString(plan.lead_path)
            assert Point(plan.lead_path[-1]).distance(thermostat) < 1e-6
            assert outline.buffer(1e-6).covers(lead)
            for door in room.doorways:
                assert not lead.intersects(metres(door).buffer(0.0998, cap_style="flat"))
            for thing in standing(room, "bath", "column", "toilet outlet", "drain"):
                assert lead.intersection(thing).length < 1e-6
            # a corner of the cable lies within its rounding: 0.41 radii farther in
            assert min(lead.distance(cable) for cable in cables) > 0.005
            # whichever of the two ends is farther: over the floor and 1.2 m up
            ends = [math.dist(plan.path[i], plan.lead_path[0]) for i in (0, -1)]
            assert plan.lead_needed_m is not None
            assert plan.lead_needed_m >= lead.length + max(ends) + 1.2 - 1e-6
            assert plan.lead_needed_m <= 1.5 * lead.length + 1.2 + 0.2
            if "through the shower floor" not in plan.basis and plan.surface == "floor":
                for wet in standing(room, "shower floor"):
                    assert lead.intersection(wet).length < 1e-6
            if "under a fixed cabinet" not in plan.basis:
                for cabinet in standing(room, "cabinet"):
                    assert lead.intersection(cabinet).length < 1e-6
    assert held > 30


def test_a_thermostat_on_a_cabinets_wall_has_its_lead_under_it_and_says_so() -> None:
    (room,), _ = resolve(
        room_row(
            piece("Door", "doorway", 1400, None, 800, wall="near"),
            piece("T", "thermostat", 400, None, wall="far"),
            piece("V", "cabinet", 0, 1500, 1000, 500),
            length=2400, width=2000,
        )
    )  # fmt: skip
    plans, findings = plan_heating(room, BOTH, catalogue(*stock()), Job())
    assert plans
    assert "COLD-LEAD-BLOCKED" not in {f.code for f in findings}
    assert all("The lead runs under a fixed cabinet." in plan.basis for plan in plans)


def test_a_lead_of_the_main_floor_goes_round_the_shower_rather_than_through_it() -> None:
    # from the far right corner the straight way to the thermostat is through the shower
    (room,), _ = resolve(
        room_row(
            piece("Door", "doorway", 1700, None, 800, wall="near"),
            piece("T", "thermostat", 100, None, wall="far"),
            piece("S", "shower floor", 300, 1000, 900, 1000),
            length=2600, width=2000,
        )
    )  # fmt: skip
    plans, _ = plan_heating(room, BOTH, catalogue(*stock()), Job())
    mains = [plan for plan in plans if plan.surface == "floor"]
    assert mains
    for plan in mains:
        assert LineString(plan.lead_path).intersection(box(0.3, 1.0, 1.2, 2.0)).length < 1e-6
        assert "through the shower floor" not in plan.basis
