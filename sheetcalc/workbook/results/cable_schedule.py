"""The Cable schedule tab: cables, circuits, thermostats, leads, resistance and estimates."""

from collections.abc import Iterator, Sequence
from typing import Final

from sheetcalc.domain.cable import CablePlan, OnCircuit
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import AMPERE, INCH, MM320_PER_METRE, WATT, Unit
from sheetcalc.domain.temperature import TemperatureScale
from sheetcalc.rules.electrical import thermostat_share
from sheetcalc.rules.heat_output import surface_above_room_k
from sheetcalc.workbook.formulas import this_row
from sheetcalc.workbook.results.frame import BLANK, Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results.live_settings import setting_term
from sheetcalc.workbook.results.tape import taped
from sheetcalc.workbook.results_tabs_heating import CABLE_SCHEDULE
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "cable-schedule"
PLANNED: Final = "planned"
LEAD_TOO_SHORT: Final = "LEAD TOO SHORT"
NO_WAY: Final = "NO WAY FOR THE LEAD"
NO_CIRCUIT: Final = "NO CIRCUIT CARRIES IT"
NO_THERMOSTAT: Final = "BEYOND THE THERMOSTAT"

_EXACT: Final = 1e-9
_T: Final = CABLE_SCHEDULE.table
_WATTS: Final = this_row(_T, f"Watts ({WATT.symbol})")
_ENERGY: Final = this_row(_T, "Energy a day (kWh)")
_OHMS: Final = this_row(_T, "Resistance (Ω)")


def cable_schedule_sheet(plans: Sequence[CablePlan], job: Job, frame: Frame) -> SheetModel:
    """Cable schedule tab, one row a cable of each room."""
    units = frame.units
    long, small = units.long_length, units.small_length
    formulas = _Formulas(job, frame)
    table = table_of(
        CABLE_SCHEDULE,
        [row for plan in plans for row in _rows(plan, job, frame, formulas)],
        nothing="no heating",
        units={
            "Length": long,
            "Spacing": small,
            "Planned length": long,
            "Left over or short": long,
            "Watts": WATT,
            "Power density": f"{WATT.symbol}/{units.area.symbol}",
            "Amperes": AMPERE,
            "Circuit load": AMPERE,
            "Circuit size": AMPERE,
            "Resistance": "Ω",
            "Resistance low": "Ω",
            "Resistance high": "Ω",
            "Cold lead": long,
            "Lead needed": long,
            "Warm-up": "min",
            "Energy a day": "kWh",
            "Cost a day": job.currency,
        },
    )
    return sheet_of(KEY, CABLE_SCHEDULE, frame, [table])


class _Formulas:
    """The live parts of a row: alike in every one."""

    def __init__(self, job: Job, frame: Frame) -> None:
        hours = setting_term(frame, "heating_hours", job.heating_hours)
        duty = setting_term(frame, "heating_duty", job.heating_duty)
        below = setting_term(frame, "resistance_below", job.resistance_below)
        above = setting_term(frame, "resistance_above", job.resistance_above)
        self.energy = f"{_WATTS}/1000*({hours})*({duty})"
        self.low = f"{_OHMS}*(1-{below})"
        self.high = f"{_OHMS}*(1+{above})"
        self.cost = ""
        if job.energy_price is not None:
            price = setting_term(frame, "energy_price", job.energy_price)
            self.cost = f"{_ENERGY}*({price})"


def _rows(
    plan: CablePlan, job: Job, frame: Frame, formulas: _Formulas
) -> Iterator[dict[str, Cell]]:
    """One row for each of the alike rooms, each with its own circuit."""
    shared = _shared(plan, job, frame, formulas)
    rooms = plan.copies or (plan.room,)
    alone = OnCircuit(plan.circuit, plan.load_amperes or plan.amperes, plan.circuit_amperes)
    circuits = plan.circuits or (alone,) * len(rooms)
    link = frame.link(plan.source.tab, plan.source.row)
    for room, circuit in zip(rooms, circuits, strict=True):
        named = Cell(room, "result_link" if link else "result", link=link)
        size = circuit.size_amperes
        yield {
            **shared,
            "Circuit": text(circuit.name),
            "Room": named,
            "Circuit load": Cell(circuit.load_amperes, "result_number"),
            "Circuit size": Cell(size, "result_general") if size else BLANK,
            "Status": _status(plan, circuit, _share(plan, job)),
        }


def _shared(plan: CablePlan, job: Job, frame: Frame, formulas: _Formulas) -> dict[str, Cell]:
    """Cells that alike rooms share."""
    units = frame.units
    long = units.long_length
    energy = plan.kwh_a_day
    cost = None if energy is None or job.energy_price is None else energy * job.energy_price
    return {
        "Thermostat": text(plan.thermostat),
        "Zone": text(plan.zone, wrap=True),
        "Cable": text(plan.cable, wrap=True),
        "Length": _number(plan.length_m, long),
        "Spacing": _spacing(plan.spacing_m, units.small_length),
        "Rows": count(plan.rows) if plan.rows else BLANK,
        "Planned length": _number(plan.planned_m, long),
        "Left over or short": _number(plan.length_m - plan.planned_m, long),
        "Watts": Cell(plan.watts, "result_general"),
        "Power density": Cell(units.area.to_si(plan.density_w_m2), "result_number"),
        "Amperes": Cell(plan.amperes, "result_number"),
        "Thermostat share": Cell(_share(plan, job), "result_percent"),
        "Resistance": Cell(plan.resistance_ohm, "result_number"),
        "Resistance low": Cell(plan.resistance_low_ohm, "result_number", formulas.low),
        "Resistance high": Cell(plan.resistance_high_ohm, "result_number", formulas.high),
        "Cold lead": _number(plan.lead_m, long),
        "Lead needed": _number(plan.lead_needed_m, long),
        "Warm-up": _whole(plan.warm_up_minutes),
        "Energy a day": BLANK if energy is None else Cell(energy, "result_number", formulas.energy),
        "Cost a day": BLANK if cost is None else Cell(cost, "result_number", formulas.cost),
        "Estimates": text(" ".join(_limits(plan, units.temperature)), wrap=True),
        "Basis": text(plan.basis, wrap=True),
    }


def _limits(plan: CablePlan, scale: TemperatureScale) -> Iterator[str]:
    """Say where the estimates of a row end."""
    rise = scale.rise_shown(surface_above_room_k(plan.density_w_m2), 1)
    yield (
        f"Surface {rise} above the room if all heat goes "
        "up (EN 1264-2/-3, as coded in three open-source programs; written for water systems)."
    )
    if plan.warm_up_minutes is not None:
        yield "Warm-up loses nothing and takes generic mortar: longer in fact."
    if plan.kwh_a_day is not None:
        yield "Energy by the hours and the share of them that the Job guesses."


def _share(plan: CablePlan, job: Job) -> float:
    return plan.thermostat_share or thermostat_share(plan.amperes, job.thermostat_amperes)


def _status(plan: CablePlan, circuit: OnCircuit, share: float) -> Cell:
    """Say the first thing that is wrong, what stops the work before what the electrician adds."""
    if plan.lead_m is not None and (plan.lead_needed_m or 0.0) > plan.lead_m:
        return Cell(LEAD_TOO_SHORT, "warning")
    if plan.thermostat and plan.path and plan.lead_needed_m is None:
        return Cell(NO_WAY, "warning")
    if not circuit.size_amperes:
        return Cell(NO_CIRCUIT, "warning")
    if share > 1 + _EXACT:
        return Cell(NO_THERMOSTAT, "warning")
    return text(PLANNED)


def _number(value_m: float | None, unit: Unit) -> Cell:
    return BLANK if value_m is None else Cell(unit.from_si(value_m), "result_number")


def _spacing(spacing_m: float, unit: Unit) -> Cell:
    """Mean distance of the runs, in inches as a tape has them."""
    if unit == INCH:
        return taped(round(spacing_m * MM320_PER_METRE), unit)
    return _number(spacing_m, unit)


def _whole(value: float | None) -> Cell:
    return BLANK if value is None else Cell(round(value), "result_count")
