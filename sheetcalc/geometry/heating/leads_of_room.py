"""Cold leads of a room's cables: where each course opens, its way to the thermostat, its lane."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.domain.room import PieceKind, Room
from sheetcalc.geometry.heating import findings as say
from sheetcalc.geometry.heating.cable_leads import LeadMap, LeadRoute, lead_floor, places_to_open
from sheetcalc.geometry.heating.cable_path import reopened
from sheetcalc.geometry.heating.cable_record import LaidInZone
from sheetcalc.geometry.heating.cable_zone import check_again
from sheetcalc.geometry.heating.free_floor import circumscribed_mm, region_mm

LANE_MM: Final = 150.0
"""Kept free of cable before a doorway that a lead has to pass: common practice, no source."""

_DOORWAY_STRIP_MM: Final = 100.0
_BLOCKS_LEADS: Final = frozenset(
    {
        PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.COLUMN, PieceKind.TOILET_OUTLET,
        PieceKind.PIPE, PieceKind.DRAIN,
    }
)  # fmt: skip

Way = tuple[LaidInZone, LeadRoute | None]
"""A laid cable with its lead's way; None where there is none, or no thermostat."""


def lane_before_doorways(room: Room) -> BaseGeometry | None:
    """Strip in front of the doorways that leads may pass once no cable lies there [mm].

    Leads keep 100 mm off the doorway itself, where thresholds are screwed down.
    """
    if not room.doorways or not room.thermostats:
        return None
    return shapely.union_all(
        [shapely.buffer(say.doorway_line(d), LANE_MM, cap_style="square") for d in room.doorways]
    )


def too_short(ways: Iterable[Way]) -> list[LaidInZone]:
    """Cables whose cold lead is known not to reach the thermostat."""
    return [
        one
        for one, route in ways
        if one.laid.cable.cold_lead_mm320 is not None
        and (route is None or route.length_mm * MM320_PER_MM > one.laid.cable.cold_lead_mm320)
    ]


def with_leads(
    laid: Sequence[LaidInZone], room: Room, job: Job, thermostat: tuple[float, float]
) -> list[tuple[LaidInZone, LeadRoute | None]]:
    """Cables opened where their leads are shortest, with the leads' ways to the thermostat."""
    if not laid or not room.thermostats:
        return [(one, None) for one in laid]
    room_floor = laid[0].zone.room_floor
    courses = [np.vstack((x.laid.plan.corners, x.laid.plan.corners[:1])) for x in laid]
    strips: list[BaseGeometry] = [
        shapely.buffer(say.doorway_line(d), _DOORWAY_STRIP_MM, cap_style="flat")
        for d in room.doorways
    ]
    fixed = strips + _shapes(room, _BLOCKS_LEADS)
    barriers = [fixed + _shapes(room, {PieceKind.CABINET}), fixed]  # under cabinets if need be
    maps: list[LeadMap] = []
    found: list[tuple[LaidInZone, LeadRoute | None]] = []
    for one in laid:
        route = None
        for number, these in enumerate(barriers):
            if number == len(maps):
                maps.append(LeadMap(lead_floor(room_floor, these, courses), thermostat))
            opened = _opened(one, maps[number], job)
            if opened is not None:
                found.append(opened)
                break
        else:
            found.append((one, route))
    return found


def _opened(one: LaidInZone, ways: LeadMap, job: Job) -> tuple[LaidInZone, LeadRoute] | None:
    """Open a course where the lead's way is shortest; None where no way leads to it."""
    plan, rules = one.laid.plan, one.laid.rules
    places = [
        (way, straight, (x, y))
        for straight, points in places_to_open(plan.corners, plan.gap_mm, rules.radius_mm)
        for way, (x, y) in zip(ways.ways_mm(points), points.tolist(), strict=True)
    ]
    if not places:
        return None
    _, straight, middle = min(places)
    route = ways.route(middle)
    if route is None:
        return None
    moved = reopened(plan, straight, middle, rules.radius_mm)
    check = check_again(one.zone, moved, rules, job)
    if check.wrong:  # the first opening verified
        x, y = ((a + b) / 2 for a, b in zip(plan.opening.start, plan.opening.end, strict=True))
        first = ways.route((y, x) if plan.turned else (x, y))
        return None if first is None else (one, first)
    return replace(one, laid=replace(one.laid, plan=moved, check=check)), route


def _shapes(room: Room, kinds: Iterable[PieceKind]) -> list[BaseGeometry]:
    """Shapes of the fixtures of some kinds [mm]."""
    wanted = set(kinds)
    shapes: list[BaseGeometry] = []
    for fixture in room.fixtures:
        if fixture.kind in wanted and fixture.circle:
            shapes.append(circumscribed_mm(fixture.circle))
        elif fixture.kind in wanted and fixture.region:
            shapes.append(region_mm(fixture.region))
    return shapes
