"""The Heating rules tab: every rule with edition and status, and what was held against it."""

from collections.abc import Callable, Mapping, Sequence
from typing import Final

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, MM320_PER_METRE, Unit
from sheetcalc.rules.electrical import ELECTRICAL_RULES, ElectricalRule
from sheetcalc.rules.heat_output import ESTIMATES
from sheetcalc.rules.insulation import is_extra_low
from sheetcalc.units import show_measured
from sheetcalc.workbook.results.frame import Frame, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs_heating import HEATING_RULES
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "heating-rules"
NOT_CHECKED: Final = "not checked here: for the licensed electrician and the inspector"

_Told = Callable[[Sequence[CablePlan], Job], str]


def heating_rules_sheets(
    plans: Sequence[CablePlan], job: Job, frame: Frame, *, kept: bool = False
) -> tuple[SheetModel, ...]:
    """Make the Heating rules tab; none where nothing is heated, unless it is ``kept``."""
    if not plans and not kept:
        return ()
    rules = (*ELECTRICAL_RULES, *ESTIMATES) if plans else ()
    rows = [_row(rule, plans, job) for rule in rules]
    table = table_of(HEATING_RULES, rows, nothing="no heating")
    return (sheet_of(KEY, HEATING_RULES, frame, [table]),)


def _row(rule: ElectricalRule, plans: Sequence[CablePlan], job: Job) -> dict[str, Cell]:
    told = _TOLD.get(rule.key)
    return {
        "Rule": text(rule.key, wrap=True),
        "What it asks": text(rule.text, wrap=True),
        "In this job": text(told(plans, job) if told else NOT_CHECKED, wrap=True),
        "Source": text(rule.source or "none found", wrap=True),
        "Status": text(rule.status, wrap=True),
    }


def _continuous(plans: Sequence[CablePlan], job: Job) -> str:
    most = max((c for plan in plans for c in plan.circuits), key=lambda c: c.load_amperes)
    needed = most.load_amperes * job.continuous_factor
    size = f"on {most.size_amperes:g} A" if most.size_amperes else "more than any size of Job"
    return (
        f"largest load, circuit {most.name}: {most.load_amperes:.3f} A · "
        f"{job.continuous_factor:g} = {needed:.3f} A {size}"
    )


def _sizes(plans: Sequence[CablePlan], _job: Job) -> str:
    sizes = sorted({c.size_amperes for p in plans for c in p.circuits if c.size_amperes})
    return f"circuits of {' and '.join(f'{s:g}' for s in sizes)} A; conductors {NOT_CHECKED}"


def _spacing(plans: Sequence[CablePlan], job: Job) -> str:
    nearest = min((row.to_next_m for p in plans for row in p.rows_list if row.to_next_m), default=0)
    return f"rows at least {_in(nearest, job.units.small_length)} apart"


def _zones(_plans: Sequence[CablePlan], _job: Job) -> str:
    return f"thermostats nearer are on Findings; everything else {NOT_CHECKED}"


def _tolerance(plans: Sequence[CablePlan], job: Job) -> str:
    below, above = job.resistance_below, job.resistance_above
    return f"bands of {len(plans)} cables from {below:.1%} below to {above:.1%} above"


def _coefficient(plans: Sequence[CablePlan], job: Job) -> str:
    given = sum(1 for p in plans if p.temperature_coefficient_per_k is not None)
    return (
        f"{given} of {len(plans)} cables give one; their bands stand at "
        f"{job.units.temperature.shown(job.reading_temperature_c)}"
    )


def _density(plans: Sequence[CablePlan], job: Job) -> str:
    unit = job.units.area
    least, most = (unit.to_si(f(p.density_w_m2 for p in plans)) for f in (min, max))
    return (
        f"planned {least:.1f} to {most:.1f} W/{unit.symbol}; the Job's target "
        f"{unit.to_si(job.target_density_w_m2):.1f}, its highest "
        f"{unit.to_si(job.highest_density_w_m2):.1f}"
    )


def _per_length(plans: Sequence[CablePlan], job: Job) -> str:
    unit = job.units.long_length
    most = max(p.watts / p.length_m for p in plans)
    return f"at most {unit.to_si(most):.1f} W/{unit.symbol}"


def _clearances(_plans: Sequence[CablePlan], job: Job) -> str:
    small = job.units.small_length
    walls, cabinets, outlets, drains = (
        _in(c / MM320_PER_METRE, small)
        for c in (
            job.clearance_wall_mm320, job.clearance_cabinet_mm320, job.clearance_outlet_mm320,
            job.clearance_drain_mm320,
        )
    )  # fmt: skip
    return (
        f"kept by every path: {walls} from walls, {cabinets} from cabinets, {outlets} from "
        f"outlets, {drains} from drains, as the Job says"
    )


def _thermostat(plans: Sequence[CablePlan], job: Job) -> str:
    plan = max(plans, key=lambda p: p.thermostat_share)
    load = plan.load_amperes or plan.amperes
    return (
        f"largest load, room {plan.room}: {load:.3f} A on {job.thermostat_amperes:g} A "
        f"({load / job.thermostat_amperes:.0%})"
    )


def _laid(plans: Sequence[CablePlan], _job: Job) -> str:
    return (
        f"{len(plans)} paths checked on their true curves: no crossing, length, bends, distances; "
        "the splice is for the fitter"
    )


def _insulation(plans: Sequence[CablePlan], _job: Job) -> str:
    return _readings(sum(1 for plan in plans if not is_extra_low(plan.volts)))


def _extra_low_insulation(plans: Sequence[CablePlan], _job: Job) -> str:
    return _readings(sum(1 for plan in plans if is_extra_low(plan.volts)))


def _readings(cables: int) -> str:
    held = "held against the insulation readings typed in Resistance log"
    return held if cables else "no such cable in this job"


def _within_room(_plans: Sequence[CablePlan], _job: Job) -> str:
    return "paths stay within their room and off fixed cabinets"


def _estimated(_plans: Sequence[CablePlan], _job: Job) -> str:
    return "an estimate for each cable on Cable schedule"


def _cost(_plans: Sequence[CablePlan], job: Job) -> str:
    priced = (
        f"at {job.energy_price:g} {job.currency} a kilowatt-hour"
        if job.energy_price is not None
        else "no price of energy in Job"
    )
    return f"{job.heating_hours:g} h a day, {job.heating_duty:.0%} of them; {priced}"


def _in(length_m: float, unit: Unit) -> str:
    if unit == INCH:
        return show_measured(round(length_m * MM320_PER_METRE), unit)
    return f"{unit.from_si(length_m):.4g} {unit.symbol}"


_TOLD: Final[Mapping[str, _Told]] = {
    "continuous load": _continuous,
    "small conductors": _sizes,
    "insulation resistance": _insulation,
    "insulation, extra-low voltage": _extra_low_insulation,
    "older insulation limit": lambda _plans, _job: "not used",
    "zones round a bath or shower": _zones,
    "cable spacing": _spacing,
    "room of origin": _within_room,
    "temperature coefficient": _coefficient,
    "resistance tolerance": _tolerance,
    "highest power density": _density,
    "floor warming density": _density,
    "power per length in mortar": _per_length,
    "clearances": _clearances,
    "rating of thermostats": _thermostat,
    "laying the cable": _laid,
    "surface temperature": _estimated,
    "warm-up": _estimated,
    "running cost": _cost,
}
