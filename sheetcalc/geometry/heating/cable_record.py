"""Record of a laid cable: everything that the tabs, the drawing and the fitter need of it."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from functools import partial
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, MM320_PER_METRE, mixed
from sheetcalc.domain.room import Room
from sheetcalc.geometry.heating.cable_choice import length_m, spacing_for_m
from sheetcalc.geometry.heating.cable_cold import unheated_mm2
from sheetcalc.geometry.heating.cable_leads import LeadRoute
from sheetcalc.geometry.heating.cable_list import (
    check_lengths,
    rows_of,
    sensor_place,
    spacing_words,
    tolerance_rows,
)
from sheetcalc.geometry.heating.cable_zone import LaidCable
from sheetcalc.geometry.heating.free_floor import SQUARE_MM_PER_M2, HeatedZone
from sheetcalc.rules import electrical, heat_output

_MM_PER_M: Final = 1000.0
_MORTAR_ROUND_CABLE_M: Final = 0.010  # common practice, no source


class LaidInZone(Struct, frozen=True):
    """A laid cable with the zone that it is in and its name there.

    ``lane``: it keeps off the doorway, where the lead of another cable passes.
    """

    zone: HeatedZone
    name: str
    laid: LaidCable
    lane: bool = False


def cable_record(  # noqa: PLR0913, PLR0917 - a laid cable and all that its record tells
    one: LaidInZone,
    route: LeadRoute | None,
    thermostat: str,
    room: Room,
    finish: Finish,
    catalogue: Catalogue,
    job: Job,
) -> CablePlan:
    """Record everything that is known of a laid cable.

    Parameters
    ----------
    one
        Laid cable, with its verified path.
    route
        Way of its cold lead; None where there is none or no thermostat.
    thermostat
        Name of the one that switches it; empty where there is none.
    room, finish, catalogue, job
        What it lies in, and the units of its Basis.

    Returns
    -------
    CablePlan
        Its circuit is the room's until circuits are assigned.
    """
    cable, plan, rules = one.laid.cable, one.laid.plan, one.laid.rules
    metres = length_m(cable)
    area = one.laid.free.area / SQUARE_MM_PER_M2
    cold = (
        unheated_mm2(one.laid.free, plan.path, rules.radius_mm, plan.widest_mm) / SQUARE_MM_PER_M2
    )
    ohms = cable.resistance_ohm or electrical.resistance_ohm(cable.volts, cable.watts)
    low, high = electrical.resistance_band_ohm(ohms, job.resistance_below, job.resistance_above)
    rows = rows_of(plan, rules.radius_mm)
    lead = cable.cold_lead_mm320
    minutes = heat_output.warm_up_minutes(
        area, _depth_m(one.zone, finish, catalogue), cable.watts, heat_output.WARM_UP_RISE_K
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
        thermostat=thermostat,
        basis="",
        path=_metres(plan.path.tolist()),
        source=one.zone.source,
        rows_along="width" if plan.turned else "length",
        rows_list=rows,
        check_lengths_m=check_lengths(rows),
        tolerance_rows=tolerance_rows(rows, metres * (cable.length_tolerance or 0.0)),
        sensor=_metres([sensor_place(plan)])[0],
        spacing_words=spacing_words(plan, partial(small_words, job)),
        unheated_share=cold / area,
        unheated_m2=cold,
        lead_needed_m=None if route is None else route.length_mm / _MM_PER_M,
        lead_m=None if lead is None else lead / MM320_PER_METRE,
        lead_path=_metres(route.path) if route else (),
        leads=cable.leads,
        temperature_coefficient_per_k=cable.temperature_coefficient_per_k,
        length_tolerance=cable.length_tolerance,
        warm_up_minutes=minutes,
        kwh_a_day=heat_output.energy_kwh_a_day(cable.watts, job.heating_hours, job.heating_duty),
    )
    kept = " A lane before the doorway is left free for a cold lead." if one.lane else ""
    passes = f" The lead runs {' and '.join(route.passes)}." if route and route.passes else ""
    unknown = " Its row gives no cold lead: whether that reaches is not checked."
    if lead is not None or route is None:
        unknown = ""
    return replace(made, basis=_basis(made, one.laid, job) + unknown + passes + kept)


def _basis(plan: CablePlan, laid: LaidCable, job: Job) -> str:
    """Say how the path comes out and what was checked, in the job's units."""
    long = job.units.long_length
    fine = partial(small_words, job)

    def metres(length_m: float) -> str:
        return f"{long.from_si(length_m):.2f} {long.symbol}"

    checks = ", ".join(f"{metres(used)} after row {row}" for row, used in plan.check_lengths_m)
    first, last = plan.tolerance_rows or (1, plan.rows)
    those = f"rows {first} to {last} take that up by turning earlier or later"
    own = (
        f"Its own length may differ by {metres(plan.length_tolerance * plan.length_m)} either "
        f"way: {those}."
        if plan.length_tolerance
        else f"Where its own length differs, {those}."
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


def small_words(job: Job, length_mm: float) -> str:
    """Show a small length [mm] in the job's unit; inches as a tape has them, to 1/16 in."""
    small = job.units.small_length
    length = small.from_si(length_mm / _MM_PER_M)
    if small != INCH:
        return f"{length:.3g} {small.symbol}"
    return f"{mixed(Fraction(round(length * 16), 16))} {small.symbol}"


def _depth_m(zone: HeatedZone, finish: Finish, catalogue: Catalogue) -> float:
    """Mortar and tile that the cable warms [m]."""
    spec = finish.surfaces.get(zone.kind)
    tile = catalogue.tiles.get(spec.tile) if spec and spec.tile else None
    thickness = tile.thickness_mm320 / MM320_PER_METRE if tile else 0.0
    return thickness + _MORTAR_ROUND_CABLE_M


def _metres(points: Iterable[Sequence[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((p[0] / _MM_PER_M, p[1] / _MM_PER_M) for p in points)
