"""Heating: the cables of a room, and the circuit that it needs."""

from collections.abc import Iterator

from sheetcalc.domain.measure import PIECE
from sheetcalc.domain.quantity import CablePlan, PackBy
from sheetcalc.lines.line import Line, LineContext, Outcome


def _basis(plan: CablePlan, context: LineContext) -> str:
    """Say in words how a cable comes to be on the list."""
    job = context.job
    return (
        f"{plan.zone}: {plan.basis} {plan.watts:g} W on {plan.free_area_m2:.3f} m² = "
        f"{plan.density_w_m2:.0f} W/m² (target {job.target_density_w_m2:.0f}, highest "
        f"{job.highest_density_w_m2:.0f}); {plan.watts:g} W ÷ {plan.volts:g} V = "
        f"{plan.amperes:.3f} A; R = V²/P; band {plan.resistance_low_ohm:.2f} to "
        f"{plan.resistance_high_ohm:.2f} Ω at 20 °C (IEC 60800, from memory, not verified)."
    )


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
    load = sum(p.amperes for p in plans)
    size = plans[0].circuit_amperes
    words = f"{size:g} A" if size else "larger than any of the Job's circuit sizes"
    yield context.quantity(
        "heating circuit",
        f"Heating load of the room on a circuit of {words}",
        1.0,
        PIECE,
        basis=(
            f"{load:.3f} A · {context.job.continuous_factor:g} = "
            f"{load * context.job.continuous_factor:.3f} A continuous load (NEC 424.4(B), 424.3(B) "
            "up to 2017, as quoted by Mike Holt); thermostat at "
            f"{plans[0].thermostat_share * 100:.0f} % of its rating. By a licensed electrician, "
            "inspected before covering."
        ),
    )


HEATING_CABLE = Line(
    key="heating cable",
    title="Heating cables",
    about="One fixed-length cable a zone, chosen with its path; a fixed-length cable is never cut "
    "(common practice, no source), so nothing is added for waste.",
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
