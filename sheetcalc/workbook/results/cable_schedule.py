"""The Cable schedule tab: cables, their circuits and thermostats, and the resistance band."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import AMPERE, WATT, Unit
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.workbook.results.frame import BLANK, Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import CABLE_SCHEDULE
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "cable-schedule"
PROVISIONAL: Final = "PROVISIONAL"
PLANNED: Final = "planned"


def cable_schedule_sheet(plans: Sequence[CablePlan], job: Job, frame: Frame) -> SheetModel:
    """Cable schedule tab, one row a cable of one room."""
    units = frame.units
    density = f"{WATT.symbol}/{units.area.symbol}"
    rows = [
        {
            "Circuit": text(plan.circuit),
            "Thermostat": text(plan.thermostat),
            "Room": _linked(plan, frame),
            "Zone": text(plan.zone, wrap=True),
            "Cable": text(plan.cable),
            "Length": _number(plan.length_m, units.long_length),
            "Spacing": _number(plan.spacing_m, units.small_length),
            "Rows": count(plan.rows) if plan.rows else BLANK,
            "Planned length": _number(plan.planned_m, units.long_length),
            "Left over or short": _number(plan.length_m - plan.planned_m, units.long_length),
            "Watts": Cell(plan.watts, "result_general"),
            "Power density": Cell(units.area.to_si(plan.density_w_m2), "result_number"),
            "Amperes": Cell(plan.amperes, "result_number"),
            "Circuit size": Cell(plan.circuit_amperes, "result_general"),
            "Thermostat share": Cell(plan.amperes / job.thermostat_amperes, "result_percent"),
            "Resistance low": Cell(plan.resistance_low_ohm, "result_number"),
            "Resistance high": Cell(plan.resistance_high_ohm, "result_number"),
            "Status": Cell(PROVISIONAL, "warning") if plan.provisional else text(PLANNED),
            "Basis": text(plan.basis, wrap=True),
        }
        for plan in plans
    ]
    long, small = units.long_length, units.small_length
    table = table_of(
        CABLE_SCHEDULE,
        rows,
        nothing="no heating",
        units={
            "Length": long,
            "Spacing": small,
            "Planned length": long,
            "Left over or short": long,
            "Power density": density,
            "Amperes": AMPERE,
            "Circuit size": AMPERE,
            "Resistance low": "Ω",
            "Resistance high": "Ω",
        },
    )
    return sheet_of(KEY, CABLE_SCHEDULE, frame, [table])


def _linked(plan: CablePlan, frame: Frame) -> Cell:
    link = frame.link(plan.source.tab, plan.source.row)
    return Cell(plan.room, "result_link" if link else "result", link=link)


def _number(value_m: float, unit: Unit) -> Cell:
    value = unit.from_si(value_m)
    return Cell(value, "result_number")
