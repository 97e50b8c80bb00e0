"""What a person has to see to about the orders: prices, suppliers, dates, minimums, returns."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import Final

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.inputs import Inputs, Receipt
from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.items import BAGS, SUNDRIES

OF_THE_WHOLE: Final = frozenset({"ORDERED-OVER-NEED", "RECEIVED-NOT-ORDERED"})
"""Findings that hold only where no room is left out."""

OF_AN_ORDER: Final = OF_THE_WHOLE | {"ORDER-BELOW-MINIMUM"}
"""Findings about the size of orders: none where errors stop them from being made."""


def checks(
    inputs: Inputs, orders: Sequence[Order], unmatched: Iterable[Receipt], calendar: Calendar
) -> Iterator[Finding]:
    """Yield the findings about orders.

    ``ITEM-WITHOUT-SUPPLIER``, ``ITEM-WITHOUT-PRICE``, ``PRICE-IS-ZERO``, ``ORDER-BELOW-MINIMUM``,
    ``PHASE-START-PAST``, ``ORDER-LATE``, ``LEAD-WITHOUT-DATES``, ``ORDERED-OVER-NEED``,
    ``RECEIVED-NOT-ORDERED``.  A name that Suppliers lacks is found on reading.
    """
    yield from _items(orders)
    yield from _minimums(inputs, orders)
    yield from _past_starts(inputs)
    yield from _late(inputs, orders)
    yield from _undated(inputs, orders, calendar)
    yield from _over(orders)
    for receipt in unmatched:
        facts: dict[str, Fact] = {"item": receipt.code, "supplier": receipt.supplier}
        yield Finding("RECEIVED-NOT-ORDERED", receipt.source, "Code", facts)


def _items(orders: Iterable[Order]) -> Iterator[Finding]:
    """Items that are ordered all the same, but that a person has to see to: once an item."""
    seen: set[tuple[str, object]] = set()

    def first(code: str, key: object) -> bool:
        fresh = (code, key) not in seen
        seen.add((code, key))
        return fresh

    for order in orders:
        for line in order.lines:
            facts = {"item": line.item, "description": line.description}
            if not order.supplier and first("ITEM-WITHOUT-SUPPLIER", line.source):
                yield Finding("ITEM-WITHOUT-SUPPLIER", line.source, "Supplier", facts)
            if not line.pack_price:
                code = "ITEM-WITHOUT-PRICE" if line.pack_price is None else "PRICE-IS-ZERO"
                column = "Pack price" if line.tab in {BAGS, SUNDRIES} else "Price"
                if first(code, line.source):
                    yield Finding(code, line.source, column, facts)


def by_number(order: Order) -> dict[str, list[OrderLine]]:
    """Lines of a tab by the number of their order."""
    found: dict[str, list[OrderLine]] = {}
    for line in order.lines:
        found.setdefault(line.number, []).append(line)
    return found


def _minimums(inputs: Inputs, orders: Iterable[Order]) -> Iterator[Finding]:
    for order in orders:
        supplier = inputs.catalogue.suppliers.get(order.supplier)
        least = supplier.minimum_order if supplier else None
        if supplier is None or not least:
            continue
        for number, lines in by_number(order).items():
            amounts = [line.amount for line in lines if line.amount is not None]
            total = sum(amounts, Decimal("0.00"))
            if total < least and len(amounts) == len(lines):
                yield Finding(
                    "ORDER-BELOW-MINIMUM",
                    supplier.source,
                    "Minimum order",
                    {
                        "order": number,
                        "supplier": order.supplier,
                        "total": _money(total, inputs),
                        "minimum": _money(least, inputs),
                    },
                )


def _money(amount: Decimal, inputs: Inputs) -> str:
    return f"{amount:,.2f} {inputs.job.currency}".strip()


def _past_starts(inputs: Inputs) -> Iterator[Finding]:
    today = inputs.job.quote_date
    if today is None:
        return
    for phase in inputs.phases.values():
        if phase.start is not None and phase.start < today:
            facts = {"phase": phase.name, "start": _day(phase.start), "quoted": _day(today)}
            yield Finding("PHASE-START-PAST", phase.source, "Start", facts)


def _late(inputs: Inputs, orders: Iterable[Order]) -> Iterator[Finding]:
    """Orders whose last day was before the Job's date; one finding an order."""
    today = inputs.job.quote_date
    if today is None:
        return
    for order in orders:
        for number, lines in by_number(order).items():
            late = [(line.order_by, line) for line in lines if line.order_by is not None]
            late = [(day, line) for day, line in late if day < today]
            phase = inputs.phases.get(lines[0].phase)
            if not late or phase is None:
                continue
            day, worst = min(late, key=lambda pair: pair[0])
            yield Finding(
                "ORDER-LATE",
                phase.source,
                "Start",
                {
                    "order": number,
                    "count": len(late),
                    "lines": len(lines),
                    "item": worst.item,
                    "needed": _day(worst.needed_on_site or day),
                    "order_by": _day(day),
                    "quoted": _day(today),
                },
            )


def _undated(inputs: Inputs, orders: Iterable[Order], calendar: Calendar) -> Iterator[Finding]:
    """Phases without a start whose orders have lead times: no dates to order by."""
    waiting: dict[str, int] = {}
    suppliers = inputs.catalogue.suppliers
    for order in orders:
        listed = suppliers.get(order.supplier)
        for line in order.lines:
            has_lead = bool(listed and listed.lead_days) or line.own_lead_days
            if has_lead and calendar.start(line.phase) is None:
                waiting[line.phase] = waiting.get(line.phase, 0) + 1
    for phase, lines in waiting.items():
        stage = inputs.phases.get(phase)
        source = stage.source if stage else RowRef("Phases")
        facts: dict[str, Fact] = {"phase": phase or "the job", "lines": lines}
        yield Finding("LEAD-WITHOUT-DATES", source, "Start" if stage else None, facts)


def _over(orders: Iterable[Order]) -> Iterator[Finding]:
    for order in orders:
        for line in order.lines:
            if line.to_order < 0:
                facts: dict[str, Fact] = {
                    "item": line.item,
                    "order": line.number,
                    "packs": line.packs,
                    "ordered": line.begun,
                    "over": -line.to_order,
                    "returns": "unopened packs are taken back"
                    if line.returnable
                    else "its row does not say that packs are taken back",
                }
                yield Finding("ORDERED-OVER-NEED", line.source, "Returnable", facts)


def _day(day: date) -> str:
    return day.isoformat()
