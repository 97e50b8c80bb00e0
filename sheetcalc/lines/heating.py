"""Heating: the cables of a room, and the circuit that they load."""

from collections.abc import Iterator
from typing import Final

from sheetcalc.domain.measure import PIECE, Unit
from sheetcalc.domain.quantity import CablePlan, PackBy
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.rules.electrical import thermostat_share
from sheetcalc.rules.heat_output import (
    EN_1264_LIMITS,
    SURFACE_LIMITS_C,
    WARM_UP_LIMITS,
    surface_above_room_k,
)

RUNNING_COST: Final = "24 h a day at 40 % of the time, which is a guess"

_CIRCUIT_RULES: Final = (
    "Protection: ground-fault for personnel (NEC 424.44(G) of an older edition, as quoted in Mike "
    "Holt's forum; NEC 2023 424.99(B)(5), as quoted by ecmag.com) or a residual-current device of "
    "at most 30 mA (BS 7671 701.411.3.3, as quoted by 2kelectrical). By a licensed electrician, "
    "inspected before covering (NEC 2017 424.46, as quoted by electricallicenserenewal.com)."
)


def _basis(plan: CablePlan, context: LineContext) -> str:
    """Say in words how a cable comes to be on the list, and what it gives."""
    job = context.job
    area = job.units.area

    def density(watts_m2: float) -> str:
        return f"{area.to_si(watts_m2):.1f}"

    power = (
        f"{plan.watts:g} W on {_shown(plan.free_area_m2, area)} free = "
        f"{density(plan.density_w_m2)} W/{area.symbol} (target "
        f"{density(job.target_density_w_m2)}, highest {density(job.highest_density_w_m2)}); "
        f"{plan.watts:g} W ÷ {plan.volts:g} V = {plan.amperes:.3f} A; resistance "
        f"{plan.resistance_ohm:.2f} Ω, {plan.resistance_low_ohm:.2f} to "
        f"{plan.resistance_high_ohm:.2f} Ω at 20 °C (tolerance thought to be IEC 60800, from "
        "memory, not verified)."
    )
    surface = (
        f"If all of it goes up, the surface is {surface_above_room_k(plan.density_w_m2):.1f} K "
        f"above the room (EN 1264-2/-3, as coded in three open-source programs; {EN_1264_LIMITS}; "
        f"bathroom limit {SURFACE_LIMITS_C['bathroom']:g} °C from memory, not verified)."
    )
    parts = [f"{plan.zone}: {plan.basis}", power, surface]
    if plan.warm_up_minutes is not None:
        parts.append(
            f"At least {plan.warm_up_minutes:.0f} min to warm up by 10 K ({WARM_UP_LIMITS})."
        )
    if plan.kwh_a_day is not None:
        parts.append(f"{plan.kwh_a_day:.2f} kWh a day ({RUNNING_COST}).")
    return " ".join(parts)


def _shown(value_si: float, unit: Unit) -> str:
    """Show a quantity in one of the job's units."""
    return f"{unit.from_si(value_si):.3f} {unit.symbol}"


def _cables(context: LineContext) -> Iterator[Outcome]:
    for plan in context.work.cables:
        cable = context.catalogue.cables.get(plan.cable)
        yield context.quantity(
            "heating cable",
            cable.description if cable else plan.cable,
            1.0,
            PIECE,
            basis=_basis(plan, context),
            surface=plan.surface,
            item=cable,
            pack_by=PackBy.PLAN,
            source=plan.source,
        )


def _circuit(context: LineContext) -> Iterator[Outcome]:
    plans = context.work.cables
    if not plans:
        return
    job = context.job
    load = sum(p.amperes for p in plans)
    size = plans[0].circuit_amperes
    words = f"{size:g} A" if size else "more than the largest circuit size of the Job"
    share = thermostat_share(load, job.thermostat_amperes)
    yield context.quantity(
        "heating circuit",
        f"Heating load of the room, circuit of {words}",
        1.0,
        PIECE,
        basis=(
            f"{load:.3f} A · {job.continuous_factor:g} = {load * job.continuous_factor:.3f} A as a "
            "continuous load (NEC 424.4(B), 424.3(B) up to 2017, as quoted by Mike Holt, October "
            f"2019); thermostat of {job.thermostat_amperes:g} A at {share:.0%} (rating: common "
            f"practice, no source). {_CIRCUIT_RULES}"
        ),
    )


HEATING_CABLE = Line(
    key="heating cable",
    title="Heating cables",
    about="One fixed-length cable a zone (or several in parallel), chosen together with its path: "
    "rows on the underlay's knobs or freely spaced, joined into one course that comes out at the "
    "cable's length and is checked on its true curve. A fixed-length cable is never cut (common "
    "practice, no source), so nothing is added for waste.",
    default_waste_share=None,
    default_waste_note="in plan",
    work=_cables,
)

HEATING_CIRCUIT = Line(
    key="heating circuit",
    title="Heating circuit",
    about="Load of a room's cables and the standard circuit that carries 125 % of it: NEC 424.4(B) "
    "(424.3(B) up to 2017), as quoted by Mike Holt, October 2019.",
    default_waste_share=None,
    default_waste_note="in plan",
    work=_circuit,
)

HEATING_LINES = (HEATING_CABLE, HEATING_CIRCUIT)
"""Lines of this file, in the order of the takeoff."""
