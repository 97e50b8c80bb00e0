"""Rolls of plans on the order lines that bring them: a building's own plans, and those of all."""

from collections.abc import Sequence

from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.domain.rolls import RollsToOpen
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.items import ROLLS


class LineRolls:
    """Shares the rolls of a building's plans out to its order lines."""

    def __init__(
        self,
        orders: Sequence[Order],
        apart: RollsToOpen,
        together: RollsToOpen,
        calendar: Calendar,
    ) -> None:
        """Take a building's orders, and the rolls of its own plans and of those of all."""
        lines: dict[str, list[OrderLine]] = {}
        for order in orders:
            for line in order.lines:
                if line.tab == ROLLS:
                    lines.setdefault(line.item, []).append(line)
        self._rolls: dict[tuple[str, str], list[int]] = {}
        for at, plan in enumerate((apart, together)):
            for (item, phase), rolls in plan.items():
                if rolls:
                    line = _line_for(phase, lines.get(item, ()), calendar)
                    key = line.item, line.phase
                    self._rolls.setdefault(key, [0, 0])[at] += rolls

    def of(self, line: OrderLine) -> tuple[int, int] | None:
        """Give the rolls of a line apart and together; None where they come from no plan."""
        found = self._rolls.get((line.item, line.phase)) if line.tab == ROLLS else None
        return (found[0], found[1]) if found else None


def _line_for(phase: str, lines: Sequence[OrderLine], calendar: Calendar) -> OrderLine:
    """Line on which the rolls of a phase come: its own, else the last one before its start.

    Rolls of no phase come with the first line, as they do in the building's own orders.
    """
    for line in lines:
        if phase in line.phases:
            return line
    in_order = sorted(lines, key=lambda line: calendar.order_of(line.phase))
    due = calendar.order_of(phase)
    before = [line for line in in_order if calendar.order_of(line.phase) <= due]
    return before[-1] if phase and before else in_order[0]
