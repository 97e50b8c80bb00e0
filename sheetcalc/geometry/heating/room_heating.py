"""Heating of one room: zones, the cables and paths in each, leads, thermostat and circuit."""

from collections.abc import Collection, Iterable, Sequence
from functools import partial
from typing import Final

import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Catalogue, RollKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.domain.room import Room, Span
from sheetcalc.geometry.heating import findings as say
from sheetcalc.geometry.heating.cable_cold import cold_parts
from sheetcalc.geometry.heating.cable_record import LaidInZone, cable_record
from sheetcalc.geometry.heating.cable_zone import LaidCable, plan_zone
from sheetcalc.geometry.heating.free_floor import (
    SQUARE_MM_PER_M2,
    HeatedZone,
    areas_only,
    heated_zones,
)
from sheetcalc.geometry.heating.leads_of_room import (
    RoomForLeads,
    Way,
    crowded,
    lane_before_doorways,
    too_short,
    with_leads,
)
from sheetcalc.geometry.heating.remedies import ToRemedy, remedies
from sheetcalc.rules.circuits import MAIN, SHOWER, load_group, load_group_of, loaded

BETWEEN_ZONES_MM: Final = 80.0
"""Distance kept between cables of neighbouring zones [mm]: common practice, no source."""


def plan_heating(
    room: Room, finish: Finish, catalogue: Catalogue, job: Job
) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    """Choose and lay the cables of a room, and load its thermostat and circuit.

    Parameters
    ----------
    room
        Resolved room.
    finish
        Its finish; ``Heating`` of the floor, inset and shower floor rows names the ranges.
    catalogue
        Heating cables, and the underlay whose knobs hold them.
    job
        Clearances, densities, supply, circuits.

    Returns
    -------
    tuple of CablePlan, tuple of Finding
        One plan a cable, main floor first, every path verified; a zone without a plan has a
        finding with the reason, the nearest cables, and what would make one fit.
    """
    findings = say.heating_elsewhere(finish)
    zones = heated_zones(room, finish, job, BETWEEN_ZONES_MM)
    if not zones:
        return (), tuple(findings)
    loads = {load_group_of(zone.surface, job) for zone in zones}
    findings += say.thermostat_findings(room, len(loads))
    towards = {group: _towards(room, group, loads) for group in loads}
    about = RoomForLeads(room, zones[0].room_floor)

    def leads(beds: Sequence[_Bed]) -> list[Way]:
        laid = [(x, towards[load_group_of(x.zone.surface, job)]) for bed in beds for x in bed.laid]
        return with_leads(laid, about, job)

    beds = [
        _lay_zone(zone, room, finish, catalogue, job, towards[load_group_of(zone.surface, job)])
        for zone in zones
    ]
    ways = leads(beds)
    if too_short(ways) and (lane := lane_before_doorways(room)) is not None:
        kept = [
            _keep_off(
                bed, lane, room, finish, catalogue, job,
                towards[load_group_of(bed.zone.surface, job)],
            )
            for bed in beds
        ]  # fmt: skip
        others = leads(kept)
        same = [bool(bed.laid) for bed in kept] == [bool(bed.laid) for bed in beds]
        if same and len(too_short(others)) < len(too_short(ways)):
            beds, ways = kept, others
    plans = [
        cable_record(
            one, route, _thermostat(room, load_group_of(one.zone.surface, job), loads),
            room, finish, catalogue, job,
        )
        for one, route in ways
    ]  # fmt: skip
    for bed in beds:
        findings += bed.findings
        there = [(x.laid, p) for (x, _), p in zip(ways, plans, strict=True) if x.zone is bed.zone]
        findings += _left_unheated(bed, there, room, job)
    laid = [one for one, _ in ways]
    findings += say.resistance_findings((x.laid.cable for x in laid), job)
    for one, route in ways:
        if room.thermostats:
            needed = None if route is None else route.length_mm
            findings += say.lead_findings(one.name, one.zone.surface, one.laid.cable, needed, room)
    if (pressed := crowded(ways, about)) is not None:
        findings.append(say.leads_crowded(pressed.leads, pressed.fitting, room))
    plans = _one_sensor_each(loaded(plans, job), job)
    for load in {load_group(p, job): p.load_amperes for p in plans}.values():
        findings += say.circuit_findings(load, room, job)
    return tuple(plans), tuple(findings)


def _one_sensor_each(plans: Sequence[CablePlan], job: Job) -> list[CablePlan]:
    """Leave a thermostat one sensor: with its largest cable, outside the showers if there is one.

    A thermostat reads one floor sensor; water makes a shower's floor a poor guide to the room's
    (common practice, no source).
    """
    with_it: dict[str, CablePlan] = {}
    for plan in plans:
        group = load_group(plan, job)
        with_it[group] = max(with_it.get(group, plan), plan, key=_guides)
    chosen = list(with_it.values())
    return [plan if plan in chosen else replace(plan, sensor=None) for plan in plans]


def _guides(plan: CablePlan) -> tuple[bool, float]:
    return not plan.surface.startswith(SurfaceKind.SHOWER_FLOOR.value), plan.watts


def _place(room: Room, group: str, loads: Collection[str]) -> Span | None:
    """Where a load's thermostat hangs: the second place for the showers' own, if there are two."""
    second = group == SHOWER and len(loads) > 1
    return next(iter(room.thermostats[1:] if second else ()), next(iter(room.thermostats), None))


def _thermostat(room: Room, group: str, loads: Collection[str]) -> str:
    """Name of a load's thermostat: of two at one place, the showers' is told apart."""
    place = _place(room, group, loads)
    if place is None:
        return ""
    beside = group == SHOWER and place == _place(room, MAIN, loads) and len(loads) > 1
    return f"{place.name} (showers)" if beside else place.name


def _towards(room: Room, group: str, loads: Collection[str]) -> tuple[float, float]:
    """Point that the ends of cables should be near [mm]: thermostat, first doorway, or corner."""
    place = _place(room, group, loads) or next(iter(room.doorways), None)
    if place is not None:
        return say.point_of(place)
    left, front, _, _ = room.outline.bounds
    return left / MM320_PER_MM, front / MM320_PER_MM


def knob_pitch_mm(finish: Finish, kind: SurfaceKind, catalogue: Catalogue) -> float | None:
    """Knob pitch of the underlay under a surface [mm]; None where cable is spaced freely."""
    if kind is SurfaceKind.INSET and SurfaceKind.INSET not in finish.layers:
        kind = SurfaceKind.FLOOR  # an inset lies on the floor's layers
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


class _Bed(Struct, frozen=True):
    """A zone with what was laid in it and where nothing was; or why nothing was laid at all."""

    zone: HeatedZone
    laid: tuple[LaidInZone, ...] = ()
    left_out: tuple[Polygon, ...] = ()
    findings: tuple[Finding, ...] = ()


def _lay_zone(  # noqa: PLR0913, PLR0917 - a zone and all that decides on its cables
    zone: HeatedZone,
    room: Room,
    finish: Finish,
    catalogue: Catalogue,
    job: Job,
    towards: tuple[float, float],
) -> _Bed:
    """Lay one zone; say why where it has no cable."""
    cables, findings = say.usable_cables(zone, catalogue, job, room)
    if not cables:
        return _Bed(zone, findings=tuple(findings))
    if zone.free_m2 <= 0:
        return _Bed(zone, findings=(say.about(zone, room, "NO-FREE-FLOOR", {}),))
    pitch = knob_pitch_mm(finish, zone.kind, catalogue)
    planned = plan_zone(zone, cables, job, pitch, towards)
    if not planned.laid:
        reason = planned.reasons[0] if planned.reasons else "the free floor is in small parts"
        others = partial(_zone_with, room, finish, zone.surface)
        found = remedies(ToRemedy(zone, cables, job, pitch, towards, others))
        said = say.nothing_fits(zone, cables, room, job, reason, found)
        return _Bed(zone, findings=(said,))
    count = len(planned.laid)
    named = tuple(
        LaidInZone(zone, zone.name if count == 1 else f"{zone.name}, cable {i} of {count}", laid)
        for i, laid in enumerate(planned.laid, 1)
    )
    return _Bed(zone, named, planned.left_out)


def _zone_with(room: Room, finish: Finish, surface: str, job: Job) -> HeatedZone | None:
    """Make the same zone with the clearances of another Job."""
    zones = heated_zones(room, finish, job, BETWEEN_ZONES_MM)
    return next((z for z in zones if z.surface == surface), None)


def _keep_off(  # noqa: PLR0913, PLR0917 - as for a zone, and what is kept free
    bed: _Bed,
    lane: BaseGeometry,
    room: Room,
    finish: Finish,
    catalogue: Catalogue,
    job: Job,
    towards: tuple[float, float],
) -> _Bed:
    """Lay a zone again that keeps off a lane; the same where the lane is not in it."""
    if not bed.laid or not bed.zone.free.intersects(lane):
        return bed
    free = areas_only(shapely.difference(bed.zone.free, lane))
    again = _lay_zone(replace(bed.zone, free=free), room, finish, catalogue, job, towards)
    return replace(again, laid=tuple(replace(one, lane=True) for one in again.laid))


def _left_unheated(
    bed: _Bed, there: Sequence[tuple[LaidCable, CablePlan]], room: Room, job: Job
) -> list[Finding]:
    """Name what stays unheated in a zone with these cables, by the paths that are written."""
    if not there:
        return []
    cold_m2 = sum(float(part.area) for part in bed.left_out) / SQUARE_MM_PER_M2
    return say.left_unheated(
        bed.zone, room, job, bed.left_out,
        narrow_mm=min(laid.rules.nearest_mm for laid, _ in there),
        watts=sum(plan.watts for _, plan in there),
        cold_m2=cold_m2 + sum(plan.unheated_m2 for _, plan in there),
        cold=partial(_cold_parts, [laid for laid, _ in there]),
    )  # fmt: skip


def _cold_parts(cables: Iterable[LaidCable]) -> list[Polygon]:
    """Parts of the floors that cables lie in which none of their runs is near [mm]."""
    return [
        part
        for laid in cables
        for part in cold_parts(laid.free, laid.plan.path, laid.rules.radius_mm, laid.plan.widest_mm)
    ]
