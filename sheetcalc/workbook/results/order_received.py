"""Live sums of the Received tab beside an order's lines."""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.workbook.formulas import Key, summed_where
from sheetcalc.workbook.raw import RawRow
from sheetcalc.workbook.results.frame import Frame

_MANY: Final = 2_000_000
"""Comparisons of text on one sheet that stay quick."""


class ReceivedFormulas:
    """Formulas of Ordered and Received; the value alone where they would give another one."""

    def __init__(self, orders: Sequence[Order], frame: Frame) -> None:
        """Look the Received tab up, and which items a supplier's orders hold more than once."""
        self._table = frame.inputs.get("Received")
        self._times = Counter(
            (order.supplier, line.item) for order in orders for line in order.lines
        )
        rows = len(self._table.raw.rows) if self._table else 0
        self._too_many = rows * sum(len(order.lines) for order in orders) > _MANY

    def of(self, supplier: str, line: OrderLine, header: str) -> str | None:
        """Sum of a column over the rows of a line.

        Parameters
        ----------
        supplier
            Whose order it is.
        line
            The order line; its phases say which rows count, unless the item stands only once.
        header
            ``Ordered`` or ``Received``.
        """
        table = self._table
        values = table.column(header) if table else None
        if table is None or values is None or self._too_many:
            return None
        headers = ("Supplier", "Code")
        where = [table.column(name) for name in headers]
        if None in where:
            return None
        names = (supplier, line.item)
        keys: list[Key] = [(str(w), name) for w, name in zip(where, names, strict=True)]
        phases = self._phases(supplier, line)
        wanted = line.ordered if header == "Ordered" else line.received
        if self._sum(header, names, phases) != wanted:
            return None
        if phases is None:
            return summed_where(values, keys, plainly=False)
        column = table.column("Phase")
        if column is None:
            return None
        terms = [summed_where(values, [*keys, (column, phase)], plainly=False) for phase in phases]
        return "+".join(terms)

    def _phases(self, supplier: str, line: OrderLine) -> tuple[str, ...] | None:
        """Phases whose rows count; None where all do."""
        return None if self._times[supplier, line.item] == 1 else line.phases

    def _sum(
        self, header: str, names: tuple[str, str], phases: tuple[str, ...] | None
    ) -> float | None:
        """Give what the formula gives: texts compared exactly."""
        total = 0.0
        for row in self._table.raw.rows if self._table else ():
            if (_text(row, "Supplier"), _text(row, "Code")) != names:
                continue
            if phases is not None and _text(row, "Phase") not in phases:
                continue
            cell = row.cells.get(header)
            value = cell.value if cell else 0
            if isinstance(value, bool) or not isinstance(value, int | float):
                return None
            total += value
        return total


def _text(row: RawRow, header: str) -> str | None:
    """Text of a cell, "" where empty; None for what is no text."""
    cell = row.cells.get(header)
    if cell is None:
        return ""
    return cell.value if isinstance(cell.value, str) else None
