"""Quantity lines to purchase orders: one a supplier, in phases, packs rounded up once.

Grouping is done with pandas (``needs``); money never is, it stays Decimal (see ``pricing``).
"""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Buyable
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import ALL_AT_ONCE, Order, OrderLine, Sourcing
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.checks import checks
from sheetcalc.ordering.deliveries import with_deliveries
from sheetcalc.ordering.items import TABS, find_item, tab_of
from sheetcalc.ordering.lots import Packing, lots_of
from sheetcalc.ordering.needs import item_needs
from sheetcalc.ordering.received import with_received
from sheetcalc.ordering.sources import Sources
from sheetcalc.rules.order_numbers import short_names
from sheetcalc.rules.pack_contents import UnknownPackError

__all__ = ["find_item", "order_everything"]


class _Made(Struct, frozen=True):
    """A line before it has a number, with the row that it is ordered from."""

    item: Buyable
    line: OrderLine


def order_everything(
    inputs: Inputs, lines: Sequence[QuantityLine], roll_plans: Sequence[RollPlan] = ()
) -> tuple[tuple[Order, ...], Sourcing | None, tuple[Finding, ...]]:
    """Orders by supplier and phase, how they are delivered, and what stands in their way.

    Packs are rounded up once, on the total of an item in an order (the program's own rule);
    rolls and cables take their packs from their plan.

    Parameters
    ----------
    inputs
        Job, phases, catalogue, suppliers, holidays, labour, and what has been received.
    lines
        Quantity lines of the run; those that nothing is bought for are passed over.
    roll_plans
        Whole rolls of an item in a phase, where a plan was made.

    Returns
    -------
    orders
        In the order of the Suppliers tab, then suppliers that are not in it, then items without
        a supplier; lines in the order of the phases, then of the catalogue.
    sourcing
        The suppliers of items that several sell; None where there is nothing to choose.
    findings
        ``ORDER-ITEM-UNKNOWN``, ``ITEM-WITHOUT-PACK`` and those of ``ordering.checks``.
    """
    findings: list[Finding] = []
    calendar = Calendar(inputs)
    home = calendar.first(line.phase for line in lines) or calendar.first(inputs.phases)
    needs = item_needs(inputs, lines, home, findings)
    packing = Packing(inputs.job, roll_plans, calendar, home)
    sources = Sources(inputs, needs, packing, calendar)
    made: list[_Made] = []
    for need, item in zip(needs, sources.chosen(), strict=True):
        try:
            lots = [packing.line(lot) for lot in lots_of(need, item, calendar)]
            # nothing is bought where a phase is cut from what an earlier one leaves over
            made += [_Made(item, line) for line in lots if line.packs]
        except UnknownPackError as error:
            facts = {"item": item.code, "wanted": str(error)}
            findings.append(Finding("ITEM-WITHOUT-PACK", item.source, None, facts))
    orders = _orders(inputs, made, calendar)
    orders, unmatched = with_received(orders, inputs.received)
    findings += checks(inputs, orders, unmatched, calendar)
    return orders, sources.compared(), tuple(findings)


def _orders(inputs: Inputs, made: Iterable[_Made], calendar: Calendar) -> tuple[Order, ...]:
    """Order tabs of all suppliers, numbered and dated."""
    by_supplier: dict[str, list[_Made]] = {}
    for one in sorted(made, key=lambda one: _supplier_rank(one, inputs)):
        by_supplier.setdefault(one.item.supplier or "", []).append(one)
    gathered = {
        supplier: _gathered(group, calendar)
        if calendar.deliveries(supplier) == ALL_AT_ONCE
        else [one.line for one in group]
        for supplier, group in by_supplier.items()
    }
    numbers = _Numbers(inputs, gathered)
    return tuple(
        _order(supplier, _numbered(supplier, lines, numbers, calendar), inputs, calendar)
        for supplier, lines in gathered.items()
    )


def _order(supplier: str, lines: Sequence[OrderLine], inputs: Inputs, calendar: Calendar) -> Order:
    listed = inputs.catalogue.suppliers.get(supplier)
    placed, deliveries = with_deliveries(lines, listed, calendar, inputs.job)
    amounts = [line.amount for line in placed if line.amount is not None]
    return Order(
        supplier=supplier,
        lines=placed,
        total=sum(amounts, Decimal("0.00")),
        complete=len(amounts) == len(placed),
        deliveries=deliveries,
    )


def _gathered(group: Sequence[_Made], calendar: Calendar) -> list[OrderLine]:
    """Lines of a supplier that delivers all at once: in the order of the first phase."""
    first = calendar.first(one.line.phase for one in group)
    days = [one.line.needed_on_site for one in group if one.line.needed_on_site is not None]
    on_site = min(days, default=None)
    return [
        replace(
            one.line,
            phase=first,
            needed_on_site=on_site,
            order_by=calendar.order_by(on_site, one.item),
        )
        for one in group
    ]


def _numbered(
    supplier: str, lines: Iterable[OrderLine], numbers: "_Numbers", calendar: Calendar
) -> list[OrderLine]:
    counted: dict[str, int] = {}
    found: list[OrderLine] = []
    # the sort is stable: within a phase, lines stay as the catalogue has them
    for line in sorted(lines, key=lambda line: calendar.rank(line.phase)):
        counted[line.phase] = counted.get(line.phase, 0) + 1
        number = numbers.of(supplier, line.phase)
        found.append(replace(line, number=number, line=counted[line.phase]))
    return found


def _supplier_rank(one: _Made, inputs: Inputs) -> tuple[int, str, int, int]:
    """Sort as the Suppliers tab and the catalogue have them."""
    suppliers = list(inputs.catalogue.suppliers)
    supplier = one.item.supplier or ""
    place = suppliers.index(supplier) if supplier in suppliers else len(suppliers) + (not supplier)
    return place, supplier, TABS.index(tab_of(one.item)), one.item.source.row or 0


class _Numbers:
    """Order numbers that depend on names only, so that a re-run gives the same.

    All phases and suppliers of the workbook count, needed or not: a name that needs a check sum
    to be told from another has it in every run.
    """

    def __init__(self, inputs: Inputs, ordered: Mapping[str, Sequence[OrderLine]]) -> None:
        self._prefix = inputs.job.order_prefix
        suppliers = {*inputs.catalogue.suppliers, *ordered}
        phases = {*inputs.phases, *(line.phase for lines in ordered.values() for line in lines)}
        self._suppliers = short_names(suppliers, "NOSUPPLIER")
        self._phases = short_names(phases, "")

    def of(self, supplier: str, phase: str) -> str:
        parts = (self._prefix, self._suppliers[supplier], self._phases[phase])
        return "-".join(part for part in parts if part)
