"""Heating of one room: zones, the cables and paths in each, leads, thermostat and circuit."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import partial
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.catalogue import Catalogue, RollKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.domain.room import PieceKind, Room
from sheetcalc.geometry import heating_findings as say
from sheetcalc.geometry.cable_leads import LeadMap, LeadRoute, lead_floor, places_to_open
from sheetcalc.geometry.cable_list import unheated_mm2
from sheetcalc.geometry.cable_path import reopened
from sheetcalc.geometry.cable_record import LaidInZone, cable_record
from sheetcalc.geometry.cable_zone import ZonePlan, check_again, plan_zone
from sheetcalc.geometry.free_floor import (
    SQUARE_MM_PER_M2,
    HeatedZone,
    circumscribed_mm,
    heated_zones,
    region_mm,
)
from sheetcalc.rules.circuits import load_group, loaded

BETWEEN_ZONES_MM: Final = 80.0
"""Distance kept between cables of neighbouring zones [mm]: common practice, no source."""

_DOORWAY_STRIP_MM: Final = 100.0
_BLOCKS_LEADS: Final = frozenset(
    {
        PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.COLUMN, PieceKind.TOILET_OUTLET,
        PieceKind.PIPE, PieceKind.DRAIN,
    }
)  # fmt: skip


def plan_heating(
    room: Room, finish: Finish, catalogue: Catalogue, job: Job
) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    """Choose and lay the cables of a room, and load its thermostat and circuit.

    Parameters
    ----------
    room
        Resolved room.
    finish
        Its finish; ``Heating`` of the floor and shower floor rows names the ranges.
    catalogue
        Heating cables, and the underlay whose knobs hold them.
    job
        Clearances, densities, supply, circuits.

    Returns
    -------
    tuple of CablePlan, tuple of Finding
        One plan a cable, main floor first, every path verified; a zone without a plan has a
        finding with the reason and the nearest cables.
    """
    zones = heated_zones(room, finish, job, BETWEEN_ZONES_MM)
    if not zones:
        return (), ()
    findings = say.thermostat_findings(room)
    towards = _towards(room)
    laid: list[LaidInZone] = []
    for zone in zones:
        made, said = _lay_zone(zone, room, finish, catalogue, job, towards)
        laid += made
        findings += said
    findings += say.resistance_findings((x.laid.cable for x in laid), job)
    plans = []
    for one, route in _with_leads(laid, room, job, towards):
        if room.thermostats:
            needed = None if route is None else route.length_mm
            findings += say.lead_findings(one.name, one.zone.surface, one.laid.cable, needed, room)
        plans.append(cable_record(one, route, room, finish, catalogue, job))
    if plans:
        loads = {load_group(p, job): p.load_amperes for p in loaded(plans, job)}
        for load in loads.values():
            findings += say.circuit_findings(load, room, job)
    return loaded(plans, job), tuple(findings)


def _towards(room: Room) -> tuple[float, float]:
    """Point that the ends of cables should be near [mm]: thermostat, first doorway, or corner."""
    spans = room.thermostats or room.doorways
    if spans:
        return say.point_of(spans[0])
    left, front, _, _ = room.outline.bounds
    return left / MM320_PER_MM, front / MM320_PER_MM


def knob_pitch_mm(finish: Finish, kind: SurfaceKind, catalogue: Catalogue) -> float | None:
    """Knob pitch of the underlay under a surface [mm]; None where cable is spaced freely."""
    layer = finish.layer(kind, LayerRole.UNDERLAY)
    if layer is None:
        return None
    kinds = {RollKind.UNDERLAY_ROLL, RollKind.UNDERLAY_MAT}
    stocked = [r for r in catalogue.rolls.values() if r.kind in kinds]
    roll = catalogue.rolls.get(layer.items[0]) if layer.items else None
    if roll is None and not layer.item and len(stocked) == 1:
        roll = stocked[0]
    if roll is None or not roll.knob_pitch_mm320:
        return None
    return roll.knob_pitch_mm320 / MM320_PER_MM


def _lay_zone(  # noqa: PLR0913, PLR0917 - a zone and all that decides on its cables
    zone: HeatedZone,
    room: Room,
    finish: Finish,
    catalogue: Catalogue,
    job: Job,
    towards: tuple[float, float],
) -> tuple[list[LaidInZone], list[Finding]]:
    """Lay one zone; say why where it has no cable, and what stays unheated."""
    cables, findings = say.usable_cables(zone, catalogue, job, room)
    if not cables:
        return [], findings
    if zone.free_m2 <= 0:
        return [], [say.about(zone, room, "NO-FREE-FLOOR", {})]
    planned = plan_zone(zone, cables, job, knob_pitch_mm(finish, zone.kind, catalogue), towards)
    if not planned.laid:
        reason = planned.reasons[0] if planned.reasons else "the free floor is in small parts"
        return [], [say.nothing_fits(zone, cables, room, job, reason)]
    count = len(planned.laid)
    named = [
        LaidInZone(zone, zone.name if count == 1 else f"{zone.name}, cable {i} of {count}", laid)
        for i, laid in enumerate(planned.laid, 1)
    ]
    narrow = min(x.rules.nearest_mm for x in planned.laid)
    return named, say.left_unheated(
        zone, room, job, planned.left_out, narrow_mm=narrow, cold_m2=partial(_cold_m2, planned)
    )


def _cold_m2(planned: ZonePlan) -> float:
    """Free floor of a zone that stays unheated [m²]."""
    cold = sum(float(p.area) for p in planned.left_out)
    cold += sum(unheated_mm2(x.free, x.plan.path, x.plan.widest_mm) for x in planned.laid)
    return cold / SQUARE_MM_PER_M2


def _with_leads(
    laid: Sequence[LaidInZone], room: Room, job: Job, thermostat: tuple[float, float]
) -> list[tuple[LaidInZone, LeadRoute | None]]:
    """Cables opened where their leads are shortest, with the leads' ways to the thermostat."""
    if not laid or not room.thermostats:
        return [(one, None) for one in laid]
    room_floor = laid[0].zone.room_floor
    courses = [np.vstack((x.laid.plan.path, x.laid.plan.path[:1])) for x in laid]
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
    gap = float(np.hypot(*(plan.path[0] - plan.path[-1])))
    places = [
        (ways.way_mm((float(x), float(y))), straight, (float(x), float(y)))
        for straight, points in places_to_open(plan.path[1:-1], gap, rules.radius_mm)
        for x, y in points
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
