"""Waste factors and Labour to records."""

from sheetcalc.domain.catalogue import LabourTask, WasteFactor
from sheetcalc.workbook.convert.rows import Desk, given
from sheetcalc.workbook.inputs.allowances import LABOUR, WASTE


def read_waste(desk: Desk) -> tuple[WasteFactor, ...]:
    """Read the waste factors without errors."""
    factors: list[WasteFactor] = []
    for row in desk.rows(WASTE):
        line, finish, bond = row.choice("Line"), row.name("Finish"), row.bond("Bond")
        counted_by, share = row.choice("Counted by"), row.percent("Waste %")
        if not row.faulty:
            label = bond.label if bond else None
            factors.append(
                WasteFactor(given(line), finish, label, counted_by, given(share), row.source)
            )
    return tuple(factors)


def read_labour(desk: Desk) -> tuple[LabourTask, ...]:
    """Read the tasks without errors."""
    tasks: list[LabourTask] = []
    for row in desk.rows(LABOUR):
        task, basis = row.text("Task"), row.choice("Basis")
        finish, surface = row.name("Finish"), row.choice("Surface")
        hours, rate = row.number("Hours per unit"), row.money("Hourly rate")
        day, wait, note = row.count("Day"), row.number("Wait hours"), row.text("Note")
        uses = row.choices("Uses")
        if not row.faulty:
            tasks.append(
                LabourTask(
                    task=task,
                    basis=given(basis),
                    finish=finish,
                    surface=surface,
                    hours_per_unit=given(hours),
                    hourly_rate=rate,
                    day=day,
                    wait_hours=wait,
                    note=note,
                    source=row.source,
                    uses=uses,
                )
            )
    return tuple(tasks)
