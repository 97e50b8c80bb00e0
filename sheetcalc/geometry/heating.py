"""Heating of one room: zones, the cable for each, and what they load."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from sheetcalc.domain.catalogue import Cable, Catalogue
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE, Length
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.domain.room import Room
from sheetcalc.geometry.cable_choice import (
    by_density,
    cables_of_range,
    estimated_cable,
    length_m,
    spacing_for_m,
    target_spacing_m,
)
from sheetcalc.geometry.free_floor import HeatedZone, heated_zones
from sheetcalc.rules import electrical

BETWEEN_ZONES_MM = 80.0
"""Distance kept between cables of neighbouring zones [mm]: common practice, no source."""

ESTIMATE_TOLERANCE = "overstates the cable needed by 22 % on average, 7 to 84 % (invented zones)"

_RATED_SHARE = 1e-9
_NEAREST = 3


@dataclass(frozen=True, slots=True)
class ZoneCables:
    """Cables of a zone's range that the supply can feed, shortest first."""

    zone: HeatedZone
    cables: tuple[Cable, ...]


def plan_heating(
    room: Room, finish: Finish, catalogue: Catalogue, job: Job
) -> tuple[tuple[CablePlan, ...], tuple[Finding, ...]]:
    """Choose the cables of a room and load its circuit.

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
        One plan a cable, main floor first; a zone without a plan has a finding with the reason.
    """
    plans: list[CablePlan] = []
    findings: list[Finding] = []
    for zone in heated_zones(room, finish, job, BETWEEN_ZONES_MM):
        usable, said = usable_cables(zone, catalogue, job, room)
        findings += said
        if not usable:
            continue
        made, said = _estimate_zone(zone, usable, room, job)
        plans += made
        findings += said
    loaded, said = load_circuits(plans, room, job)
    return loaded, (*findings, *said)


def usable_cables(
    zone: HeatedZone, catalogue: Catalogue, job: Job, room: Room
) -> tuple[tuple[Cable, ...], list[Finding]]:
    """Cables of the zone's range for this supply, and what is wrong with the range."""
    stocked = cables_of_range(catalogue.cables.values(), zone.heating_range)
    if not stocked:
        return (), [_about(zone, room, "HEATING-RANGE-EMPTY", {"range": zone.heating_range})]
    fed = tuple(c for c in stocked if electrical.same_voltage(c.volts, job.supply_volts))
    if not fed:
        volts = " and ".join(f"{v:g} V" for v in sorted({c.volts for c in stocked}))
        facts: dict[str, Fact] = {
            "range": zone.heating_range,
            "cable_volts": volts,
            "supply_volts": job.supply_volts,
            "power_share": (job.supply_volts / stocked[0].volts) ** 2,
        }
        return (), [_about(zone, room, "CABLE-VOLTAGE-DIFFERS", facts)]
    return fed, []


def resistance_findings(cables: Iterable[Cable], job: Job) -> list[Finding]:
    """Say where a planned cable's resistance is missing, or at odds with its watts and volts."""
    found = []
    for cable in {c.code: c for c in cables}.values():
        worked = electrical.resistance_ohm(cable.volts, cable.watts)
        facts: dict[str, Fact] = {
            "cable": cable.code, "worked": worked, "watts": cable.watts, "volts": cable.volts,
        }  # fmt: skip
        stated = cable.resistance_ohm
        if stated is None:
            found.append(Finding("CABLE-RESISTANCE-MISSING", cable.source, "Resistance", facts))
            continue
        low, high = electrical.resistance_band_ohm(
            worked, job.resistance_below, job.resistance_above
        )
        if not low * (1 - _RATED_SHARE) <= stated <= high * (1 + _RATED_SHARE):
            facts |= {"stated": stated, "low": low, "high": high}
            found.append(Finding("CABLE-RESISTANCE-DIFFERS", cable.source, "Resistance", facts))
    return found


def cable_plan(zone: HeatedZone, cable: Cable, room: Room, job: Job) -> CablePlan:
    """Plan of one cable before its path is known: what its rating and the floor tell."""
    metres = length_m(cable)
    area = zone.free_m2
    ohms = cable.resistance_ohm or electrical.resistance_ohm(cable.volts, cable.watts)
    low, high = electrical.resistance_band_ohm(ohms, job.resistance_below, job.resistance_above)
    lead = cable.cold_lead_mm320
    return CablePlan(
        room=room.name,
        copies=room.copies,
        phase=room.phase or "",
        zone=zone.name,
        surface=zone.surface,
        cable=cable.code,
        watts=cable.watts,
        volts=cable.volts,
        length_m=metres,
        spacing_m=spacing_for_m(area, metres),
        rows=0,
        planned_m=area / target_spacing_m(cable, job),
        free_area_m2=area,
        density_w_m2=cable.watts / area,
        amperes=electrical.amperes(cable.watts, cable.volts),
        resistance_ohm=ohms,
        resistance_low_ohm=low,
        resistance_high_ohm=high,
        circuit="",
        circuit_amperes=0.0,
        thermostat=room.thermostats[0].name if room.thermostats else "",
        provisional=True,
        basis="",
        source=zone.source,
        leads=cable.leads,
        lead_m=None if lead is None else lead / MM320_PER_METRE,
        temperature_coefficient_per_k=cable.temperature_coefficient_per_k,
        length_tolerance=cable.length_tolerance,
    )


def _estimate_zone(
    zone: HeatedZone, cables: Sequence[Cable], room: Room, job: Job
) -> tuple[list[CablePlan], list[Finding]]:
    """Choose a cable by area and spacing alone."""
    if zone.free_m2 <= 0:
        return [], [_about(zone, room, "NO-FREE-FLOOR", {})]
    allowed = by_density(zone.free_m2, cables, job)
    cable = estimated_cable(zone.free_m2, allowed, job) or (allowed[0] if allowed else None)
    if cable is None:
        return [], [nothing_fits(zone, cables, room, job, "the shortest passes the highest power")]
    plan = cable_plan(zone, cable, room, job)
    basis = (
        f"PROVISIONAL: longest stocked cable within free floor ÷ target spacing = "
        f"{plan.free_area_m2:.3f} m² ÷ {target_spacing_m(cable, job) * 1000:.1f} mm = "
        f"{plan.planned_m:.2f} m; spacing solved again, {plan.free_area_m2:.3f} m² ÷ "
        f"{plan.length_m:.2f} m = {plan.spacing_m * 1000:.1f} mm. Area ÷ spacing "
        f"{ESTIMATE_TOLERANCE}: measure the laid path before it is ordered."
    )
    found = resistance_findings([cable], job)
    return [replace(plan, basis=basis)], found


def nothing_fits(
    zone: HeatedZone, cables: Sequence[Cable], room: Room, job: Job, reason: str
) -> Finding:
    """Build the finding of a zone without a plan: the reason and the nearest cables."""
    area = zone.free_m2
    target = job.target_density_w_m2 * area
    nearest = sorted(cables, key=lambda c: abs(c.watts - target))[:_NEAREST]
    words = "; ".join(
        f"{c.code} ({length_m(c):.2f} m, {c.watts:g} W, "
        f"{c.watts / area:.0f} W/m² here)" if area > 0 else c.code
        for c in nearest
    )  # fmt: skip
    facts: dict[str, Fact] = {
        "zone": zone.name,
        "area_m2": round(area, 3),
        "target_watts": round(target, 1),
        "reason": reason,
        "nearest": words,
    }
    return _about(zone, room, "NO-CABLE-FITS", facts)


def load_circuits(
    plans: Sequence[CablePlan], room: Room, job: Job
) -> tuple[tuple[CablePlan, ...], list[Finding]]:
    """Put a room's cables on one thermostat and one circuit."""
    if not plans:
        return (), []
    load = sum(p.amperes for p in plans)
    share = electrical.thermostat_share(load, job.thermostat_amperes)
    size = electrical.circuit_amperes(load, job.circuit_amperes, job.continuous_factor)
    facts: dict[str, Fact] = {
        "load": round(load, 3),
        "rating": job.thermostat_amperes,
        "share": round(share * 100, 1),
        "needed": round(electrical.continuous_amperes(load, job.continuous_factor), 3),
        "largest": max(job.circuit_amperes, default=0.0),
    }
    findings = []
    if share > 1 + _RATED_SHARE:
        findings.append(Finding("THERMOSTAT-OVERLOADED", room.source, facts=facts, room=room.name))
    if size is None:
        findings.append(Finding("CIRCUIT-OVERLOADED", room.source, facts=facts, room=room.name))
    return (
        tuple(
            replace(p, circuit_amperes=size or 0.0, thermostat_share=share, circuit=p.room)
            for p in plans
        ),
        findings,
    )


def _about(zone: HeatedZone, room: Room, code: str, facts: dict[str, Fact]) -> Finding:
    """Build a finding about a zone: its row of Finishes, its room and its surface."""
    return Finding(
        code, zone.source, "Heating", {"zone": zone.name} | facts, room.name, zone.surface
    )


def shown(length_mm: float) -> Length:
    """Length in millimetres as a fact that is shown in the job's units."""
    return Length(round(length_mm * 320))
