"""Heating of one room: zones, the cables and paths in each, leads, thermostat and circuit."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.catalogue import Catalogue, RollKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, LayerRole, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE, MM320_PER_MM
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.domain.room import PieceKind, Room
from sheetcalc.geometry import heating_findings as say
from sheetcalc.geometry.cable_choice import length_m, spacing_for_m
from sheetcalc.geometry.cable_leads import LeadMap, LeadRoute, lead_floor, places_to_open
from sheetcalc.geometry.cable_list import (
    check_lengths,
    rows_of,
    sensor_place,
    spacing_words,
    unheated_mm2,
)
from sheetcalc.geometry.cable_path import reopened
from sheetcalc.geometry.cable_zone import LaidCable, ZonePlan, check_again, plan_zone
from sheetcalc.geometry.free_floor import (
    SQUARE_MM_PER_M2,
    HeatedZone,
    circumscribed_mm,
    heated_zones,
    region_mm,
)
from sheetcalc.rules import electrical, heat_output

BETWEEN_ZONES_MM: Final = 80.0
"""Distance kept between cables of neighbouring zones [mm]: common practice, no source."""

_MM_PER_M: Final = 1000.0
_MORTAR_ROUND_CABLE_M: Final = 0.010  # common practice, no source
_WARM_UP_RISE_K: Final = 10.0
_HOURS_A_DAY: Final = 24.0
_DUTY: Final = 0.4
_DOORWAY_STRIP_MM: Final = 100.0
_BLOCKS_LEADS: Final = frozenset(
    {
        PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.COLUMN, PieceKind.TOILET_OUTLET,
        PieceKind.PIPE, PieceKind.DRAIN,
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Laid:
    """A laid cable with the zone that it is in and its name there."""

    zone: HeatedZone
    name: str
    laid: LaidCable


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
    laid: list[_Laid] = []
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
        plans.append(_cable_plan(one, route, room, finish, catalogue, job))
    loaded, said = _load(plans, room, job)
    return loaded, (*findings, *said)


def assign_circuits(plans: Iterable[CablePlan], job: Job) -> tuple[CablePlan, ...]:
    """Name the circuit of every room of a job: one each, or as many rooms as a circuit carries.

    Parameters
    ----------
    plans
        Of all rooms, in order, each with ``copies``.
    job
        ``rooms_per_circuit``, circuit sizes and the continuous factor.

    Returns
    -------
    tuple of CablePlan
        With ``circuit`` (``H1``, ``H2``…, a range for rooms alike) and ``circuit_amperes``.
    """
    plans = tuple(plans)
    rooms: dict[str, list[CablePlan]] = {}
    for plan in plans:
        rooms.setdefault(plan.room, []).append(plan)
    loads = [
        (name, sum(p.amperes for p in group))
        for name, group in rooms.items()
        for _ in group[0].copies or (name,)
    ]
    if job.rooms_per_circuit == "one each" or not job.circuit_amperes:
        numbers: tuple[int, ...] = tuple(range(len(loads)))
    else:
        numbers = electrical.group_loads(
            (load for _, load in loads), job.circuit_amperes, job.continuous_factor
        )
    on: dict[int, float] = {}
    of_room: dict[str, list[int]] = {}
    for (name, load), number in zip(loads, numbers, strict=True):
        on[number] = on.get(number, 0.0) + load
        of_room.setdefault(name, []).append(number)
    named = []
    for plan in plans:
        mine = sorted(set(of_room[plan.room]))
        sizes = [
            electrical.circuit_amperes(on[n], job.circuit_amperes, job.continuous_factor) or 0.0
            for n in mine
        ]
        label = f"H{mine[0] + 1}" + (f" to H{mine[-1] + 1}" if len(mine) > 1 else "")
        named.append(
            replace(plan, circuit=label, circuit_amperes=max(sizes) if all(sizes) else 0.0)
        )
    return tuple(named)


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
    roll = catalogue.rolls.get(layer.item) if layer.item else None
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
) -> tuple[list[_Laid], list[Finding]]:
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
        _Laid(zone, zone.name if count == 1 else f"{zone.name}, cable {i} of {count}", laid)
        for i, laid in enumerate(planned.laid, 1)
    ]
    narrow = min(x.rules.nearest_mm for x in planned.laid)
    return named, say.left_unheated(
        zone, room, job, planned.left_out, narrow_mm=narrow, cold_m2=_cold_m2(planned)
    )


def _cold_m2(planned: ZonePlan) -> float:
    """Free floor of a zone that stays unheated [m²]."""
    cold = sum(float(p.area) for p in planned.left_out)
    cold += sum(unheated_mm2(x.free, x.plan.path, x.plan.widest_mm) for x in planned.laid)
    return cold / SQUARE_MM_PER_M2


def _with_leads(
    laid: Sequence[_Laid], room: Room, job: Job, thermostat: tuple[float, float]
) -> list[tuple[_Laid, LeadRoute | None]]:
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
    found: list[tuple[_Laid, LeadRoute | None]] = []
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


def _opened(one: _Laid, ways: LeadMap, job: Job) -> tuple[_Laid, LeadRoute] | None:
    """Open a course where the lead's way is shortest; None where no way leads to it."""
    plan, rules = one.laid.plan, one.laid.rules
    gap = float(np.hypot(*(plan.path[0] - plan.path[-1])))
    places = [
        (ways.steps_to((float(x), float(y))), straight, (float(x), float(y)))
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


def _cable_plan(  # noqa: PLR0913, PLR0917 - a laid cable and all that its record tells
    one: _Laid,
    route: LeadRoute | None,
    room: Room,
    finish: Finish,
    catalogue: Catalogue,
    job: Job,
) -> CablePlan:
    """Record of a laid cable."""
    cable, plan, rules = one.laid.cable, one.laid.plan, one.laid.rules
    metres = length_m(cable)
    area = one.laid.free.area / SQUARE_MM_PER_M2
    cold = unheated_mm2(one.laid.free, plan.path, plan.widest_mm) / SQUARE_MM_PER_M2
    ohms = cable.resistance_ohm or electrical.resistance_ohm(cable.volts, cable.watts)
    low, high = electrical.resistance_band_ohm(ohms, job.resistance_below, job.resistance_above)
    rows = rows_of(plan, rules.radius_mm)
    lead = cable.cold_lead_mm320
    minutes = heat_output.warm_up_minutes(
        area, _depth_m(one.zone, finish, catalogue), cable.watts, _WARM_UP_RISE_K
    )
    made = CablePlan(
        room=room.name,
        copies=room.copies,
        phase=room.phase or "",
        zone=one.name,
        surface=one.zone.surface,
        cable=cable.code,
        watts=cable.watts,
        volts=cable.volts,
        length_m=metres,
        spacing_m=spacing_for_m(area, metres),
        rows=len(rows),
        planned_m=one.laid.check.length_mm / _MM_PER_M,
        free_area_m2=area,
        density_w_m2=cable.watts / area,
        amperes=electrical.amperes(cable.watts, cable.volts),
        resistance_ohm=ohms,
        resistance_low_ohm=low,
        resistance_high_ohm=high,
        circuit=room.name,
        circuit_amperes=0.0,
        thermostat=room.thermostats[0].name if room.thermostats else "",
        provisional=False,
        basis="",
        path=_metres(plan.path.tolist()),
        source=one.zone.source,
        corner_radius_m=rules.radius_mm / _MM_PER_M,
        rows_along="width" if plan.turned else "length",
        rows_list=rows,
        check_lengths_m=check_lengths(rows),
        sensor=_metres([sensor_place(plan)])[0],
        spacing_words=spacing_words(plan, lambda mm: f"{mm:.0f} mm"),
        unheated_share=cold / area,
        unheated_m2=cold,
        lead_needed_m=None if route is None else route.length_mm / _MM_PER_M,
        lead_m=None if lead is None else lead / MM320_PER_METRE,
        lead_path=_metres(route.path) if route else (),
        leads=cable.leads,
        temperature_coefficient_per_k=cable.temperature_coefficient_per_k,
        length_tolerance=cable.length_tolerance,
        warm_up_minutes=minutes,
        kwh_a_day=heat_output.energy_kwh_a_day(cable.watts, _HOURS_A_DAY, _DUTY),
        free_floor=_rings(one.laid.free),
    )
    return replace(made, basis=_basis(made, one.laid, job))


def _basis(plan: CablePlan, laid: LaidCable, job: Job) -> str:
    """Say how the path comes out and what was checked, in the job's units."""
    long, small = job.units.long_length, job.units.small_length

    def metres(length_m: float) -> str:
        return f"{long.from_si(length_m):.2f} {long.symbol}"

    def fine(length_mm: float) -> str:
        return f"{small.from_si(length_mm / _MM_PER_M):.3g} {small.symbol}"

    checks = ", ".join(f"{metres(used)} after row {row}" for row, used in plan.check_lengths_m)
    last = f"rows {max(1, plan.rows - 1)} and {plan.rows}"
    own = (
        f"Its own length may differ by {metres(plan.length_tolerance * plan.length_m)}: {last} "
        "take that up."
        if plan.length_tolerance
        else f"What the cable's own length differs by, {last} take up."
    )
    lead = (
        f" Cold lead needed: {metres(plan.lead_needed_m)} to the thermostat."
        if plan.lead_needed_m is not None
        else ""
    )
    return (
        f"Path planned and checked on its true curve: {plan.rows} rows along the room's "
        f"{plan.rows_along}, {spacing_words(laid.plan, fine)} apart, {metres(plan.planned_m)} of "
        f"path for {metres(plan.length_m)} of cable, runs at least {fine(laid.rules.nearest_mm)} "
        f"apart, clearances kept, no crossing, bends of {fine(laid.rules.radius_mm)}; "
        f"{plan.unheated_share:.1%} of the free floor is farther than half the widest spacing from "
        f"it. On the way: {checks}. {own}{lead}"
    )


def _depth_m(zone: HeatedZone, finish: Finish, catalogue: Catalogue) -> float:
    """Mortar and tile that the cable warms [m]."""
    spec = finish.surfaces.get(zone.kind)
    tile = catalogue.tiles.get(spec.tile) if spec and spec.tile else None
    thickness = tile.thickness_mm320 / MM320_PER_METRE if tile else 0.0
    return thickness + _MORTAR_ROUND_CABLE_M


def _metres(points: Iterable[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((p[0] / _MM_PER_M, p[1] / _MM_PER_M) for p in points)


def _rings(free: Polygon) -> tuple[tuple[tuple[float, float], ...], ...]:
    return tuple(_metres(ring.coords[:-1]) for ring in (free.exterior, *free.interiors))


def _load(
    plans: Sequence[CablePlan], room: Room, job: Job
) -> tuple[tuple[CablePlan, ...], list[Finding]]:
    """Put a room's cables on one thermostat and one circuit."""
    if not plans:
        return (), []
    load = sum(p.amperes for p in plans)
    share = electrical.thermostat_share(load, job.thermostat_amperes)
    size = electrical.circuit_amperes(load, job.circuit_amperes, job.continuous_factor) or 0.0
    return (
        tuple(replace(p, circuit_amperes=size, thermostat_share=share) for p in plans),
        say.circuit_findings(load, room, job),
    )
