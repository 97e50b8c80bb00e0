"""Heating: the cables of a room, and the circuit that they load."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.measure import PIECE, Unit
from sheetcalc.domain.quantity import PackBy
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.rules.circuits import begun_with, load_group
from sheetcalc.rules.electrical import STANDARD_TEMPERATURE_C, thermostat_share
from sheetcalc.rules.heat_output import surface_words, warm_up_words

_EXACT: Final = 1e-9
_CIRCUIT_RULES: Final = (
    "Protection: ground-fault for personnel (NEC 424.44(G) of an older edition, as quoted in Mike "
    "Holt's forum; NEC 2023 424.99(B)(5), as quoted by ecmag.com) or a residual-current device of "
    "at most 30 mA (BS 7671 701.411.3.3, as quoted by 2kelectrical). By a licensed electrician, "
    "inspected before covering (NEC 2017 424.46, as quoted by electricallicenserenewal.com)."
)


def _basis(plan: CablePlan, context: LineContext) -> str:
    """Say in words how a cable comes to be on the list, and what it gives."""
    job = context.job
    area, scale = job.units.area, job.units.temperature

    def density(watts_m2: float) -> str:
        return f"{area.to_si(watts_m2):.1f}"

    power = (
        f"{plan.watts:g} W on {_shown(plan.free_area_m2, area)} free = "
        f"{density(plan.density_w_m2)} W/{area.symbol} (target "
        f"{density(job.target_density_w_m2)}, highest {density(job.highest_density_w_m2)}); "
        f"{plan.watts:g} W ÷ {plan.volts:g} V = {plan.amperes:.3f} A; resistance "
        f"{plan.resistance_ohm:.2f} Ω, {plan.resistance_low_ohm:.2f} to "
        f"{plan.resistance_high_ohm:.2f} Ω at {scale.quoted(STANDARD_TEMPERATURE_C)} (tolerance "
        "thought to be IEC 60800, from memory, not verified)."
    )
    parts = [f"{plan.zone}: {plan.basis}", power, surface_words(plan.density_w_m2, scale)]
    if plan.warm_up_minutes is not None:
        parts.append(warm_up_words(plan.warm_up_minutes, scale))
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
    """Circuits that begin in the room, load by load; one that began in another is counted there."""
    groups: dict[str, list[CablePlan]] = {}
    for plan in context.work.cables:
        groups.setdefault(load_group(plan, context.job), []).append(plan)
    for plans in groups.values():
        yield from _one_circuit(context, plans)


def _one_circuit(context: LineContext, plans: Sequence[CablePlan]) -> Iterator[Outcome]:
    """Lines of one load: its circuits, those of one size and load together."""
    job, plan, rooms = context.job, plans[0], context.room.count
    load = sum(p.amperes for p in plans)
    share = plan.thermostat_share or thermostat_share(load, job.thermostat_amperes)
    begun = [(c.load_amperes, c.size_amperes) for c in begun_with(plan)]
    if plan.circuits_begun is None:
        begun = [(load, plan.circuit_amperes)] * rooms
    for (whole, size), count in Counter(begun).items():
        shared = whole > load * (1 + _EXACT)
        words = f"{size:g} A" if size else "more than the largest circuit size of the Job"
        here = f"{load:.3f} A here, {whole:.3f} A with the other rooms on it; " if shared else ""
        yield context.quantity(
            "heating circuit",
            f"{'Shared heating circuit' if shared else 'Heating load of the room, circuit'} of "
            f"{words}",
            1.0 if count == rooms else float(count),
            PIECE,
            basis=(
                f"{here}{whole:.3f} A · {job.continuous_factor:g} = "
                f"{whole * job.continuous_factor:.3f} A as a continuous load (NEC 424.4(B), "
                "424.3(B) up to 2017, as quoted by Mike Holt, October 2019); thermostat of "
                f"{job.thermostat_amperes:g} A at {share:.0%} (rating: common practice, no "
                f"source). {_CIRCUIT_RULES}"
            ),
            alike=count == rooms,
        )


HEATING_CABLE = Line(
    key="heating cable",
    title="Heating cables",
    about="One fixed-length cable a zone (or several in parallel), chosen together with its path: "
    "rows on the underlay's knobs or freely spaced, joined into one course that comes out at the "
    "cable's length and is checked on its true curve. A fixed-length cable is never cut (common "
    "practice, no source), so nothing is added for waste.",
    work=_cables,
)

HEATING_CIRCUIT = Line(
    key="heating circuit",
    title="Heating circuit",
    about="Load of a room's cables and the standard circuit that carries 125 % of it: NEC 424.4(B) "
    "(424.3(B) up to 2017), as quoted by Mike Holt, October 2019. A circuit that several rooms "
    "share is counted once, in the room that it begins in.",
    work=_circuit,
)

HEATING_LINES = (HEATING_CABLE, HEATING_CIRCUIT)
"""Lines of this file, in the order of the takeoff."""
