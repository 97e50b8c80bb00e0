"""Live formulas of an order's dates: the start of its phase, the day of its task, lead times."""

from collections import Counter
from datetime import date, datetime
from typing import Final

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import OrderLine
from sheetcalc.rules.working_days import working_day, working_days_before
from sheetcalc.workbook.formulas import InputTable, Key, looked_up, share_with_number, this_row
from sheetcalc.workbook.raw import RawValue
from sheetcalc.workbook.results.frame import Frame

_TASK_KEYS: Final = ("Task", "Basis", "Finish", "Surface", "Uses")
_MOST_TASKS: Final = 12
_MANY: Final = 2_000_000
"""Comparisons of text on one sheet that stay quick."""


class DateFormulas:
    """Formulas of the dates of all orders of a run.

    A formula is only written where it gives the very date of the calculation.
    """

    def __init__(self, inputs: Inputs, frame: Frame, *, lines: int) -> None:
        """Look the tables up that dates come from; ``lines`` is how many order lines there are."""
        self._inputs = inputs
        self._frame = frame
        self._lines = lines
        self._holidays = self._holiday_range()
        labour = frame.inputs.get("Labour")
        self._tasks_alike = Counter(
            labour.keys(row.row, _TASK_KEYS)
            for row in (labour.raw.rows if labour else ())
            if labour
        )

    def on_site(self, line: OrderLine) -> str | None:
        """Working day of the phase: ``WORKDAY(start-1,day,holidays)``."""
        return self.day_of_phase(line.phase, line.day, line.tasks, line.needed_on_site)

    def day_of_phase(
        self, phase: str, day: int, tasks: tuple[RowRef, ...], wanted: date | None
    ) -> str | None:
        """Date of a working day of a phase; None where a formula would give another date."""
        stage = self._inputs.phases.get(phase)
        start = self._start(phase)
        if stage is None or stage.start is None or start is None or self._holidays is None:
            return None
        if working_day(stage.start, day, self._inputs.holidays) != wanted:
            return None
        number = self._day(day, tasks) or str(day)
        return f"WORKDAY({start}-1,{number}{self._holidays})"

    def order_by(self, line: OrderLine, supplier: str, table: str) -> str | None:
        """Last day to order: ``WORKDAY(needed+1,-1-lead,holidays)``."""
        lead = self._lead(line, supplier)
        needed = line.needed_on_site
        if lead is None or needed is None or self._holidays is None:
            return None
        formula, days = lead
        if working_days_before(needed, days, self._inputs.holidays) != line.order_by:
            return None
        return f"WORKDAY({this_row(table, 'Needed on site')}+1,-1-({formula}){self._holidays})"

    # --- parts ----------------------------------------------------------------------------------

    def _start(self, phase: str) -> str | None:
        stage, table = self._inputs.phases.get(phase), self._frame.inputs.get("Phases")
        if stage is None or table is None:
            return None
        row, values = table.row(stage.source.row), table.column("Start")
        cell = row.cells.get("Start") if row else None
        keys = table.keys(stage.source.row, ("Phase",))
        if cell is None or values is None or not keys or _as_day(cell.value) != stage.start:
            return None
        return looked_up(keys, values)

    def _day(self, day: int, tasks: tuple[RowRef, ...]) -> str | None:
        """Earliest Day of the tasks, looked up; None where they can't be told apart."""
        table = self._frame.inputs.get("Labour")
        values = table.column("Day") if table else None
        if table is None or values is None or not 0 < len(tasks) <= _MOST_TASKS:
            return None
        if self._lines * len(tasks) * len(table.raw.rows) > _MANY:
            return None
        found: list[str] = []
        numbers: list[float] = []
        for task in tasks:
            keys = table.keys(task.row, _TASK_KEYS)
            number = table.number(task.row, "Day")
            if number is None or self._tasks_alike[keys] != 1:
                return None
            found.append(looked_up(keys, values))
            numbers.append(number)
        if min(numbers) != day:
            return None
        return f"MIN({','.join(found)})" if len(found) > 1 else found[0]

    def _lead(self, line: OrderLine, supplier: str) -> tuple[str, int] | None:
        """Lead days: the item's where it has any, else the supplier's."""
        own = self._own_lead(line)
        if own is None:
            return None
        formula, number, keys, values = own
        if number is not None:
            return formula, int(number)
        others = self._suppliers_lead(supplier)
        if others is None:
            return None
        by_supplier, days = others
        known = share_with_number(keys, values)
        return f"IF({known}<1,{by_supplier},{formula})", days

    def _own_lead(self, line: OrderLine) -> tuple[str, float | None, tuple[Key, ...], str] | None:
        table = self._frame.inputs.get(line.tab)
        values = table.column("Lead days") if table else None
        if table is None or values is None or self._lines * len(table.raw.rows) > _MANY:
            return None
        keys = table.keys(line.source.row, ("Code", "Supplier"))
        number = table.number(line.source.row, "Lead days")
        if not keys or number != line.own_lead_days:
            return None
        return looked_up(keys, values), number, keys, values

    def _suppliers_lead(self, supplier: str) -> tuple[str, int] | None:
        listed = self._inputs.catalogue.suppliers.get(supplier)
        table = self._frame.inputs.get("Suppliers")
        values = table.column("Lead days") if table else None
        if listed is None or table is None or values is None:
            return None
        keys = table.keys(listed.source.row, ("Supplier",))
        number = table.number(listed.source.row, "Lead days")
        if not keys or (number or 0) != (listed.lead_days or 0):
            return None
        return looked_up(keys, values), listed.lead_days or 0

    def _holiday_range(self) -> str | None:
        """Range of the holidays with a comma before it; "" without any, None where it can't be."""
        table = self._frame.inputs.get("Holidays")
        if table is None:
            return "" if not self._inputs.holidays else None
        found = _days_in(table)
        values = table.column("Date")
        if found is None or values is None:
            return "" if not self._inputs.holidays else None
        return f",{values}" if frozenset(found) == self._inputs.holidays else None


def _days_in(table: InputTable) -> list[date] | None:
    """Dates of the Holidays; None where a cell holds anything else."""
    found: list[date] = []
    for row in table.raw.rows:
        cell = row.cells.get("Date")
        day = _as_day(cell.value) if cell else None
        if cell is not None and day is None:
            return None
        if day is not None:
            found.append(day)
    return found


def _as_day(value: RawValue) -> date | None:
    if isinstance(value, datetime):
        return value.date()
    return value if isinstance(value, date) else None
