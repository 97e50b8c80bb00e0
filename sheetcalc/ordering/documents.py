"""Orders as they are sent: one document a supplier and phase, with that supplier's prices only."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from math import ceil

from msgspec.structs import replace

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.order import Delivery, Order, OrderLine
from sheetcalc.domain.order_document import DocumentLine, Drop, OrderDocument
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.checks import by_number
from sheetcalc.ordering.items import item_of
from sheetcalc.pricing import amount, share_of
from sheetcalc.rules.pack_contents import pack_as_sold


def documents_of(
    inputs: Inputs, orders: Sequence[Order], reference: str, issued: date, note: str = ""
) -> list[OrderDocument]:
    """Make the documents of a job's orders; items without a supplier are in none.

    Parameters
    ----------
    inputs
        Job, suppliers and phases.
    orders
        Of the run.
    reference
        By which the job's orders are known again: its name.
    issued
        Date of issue; it is no part of what a later run compares.
    note
        Stands in the head of every order.
    """
    calendar = Calendar(inputs)
    return [
        replace(_document(inputs, order, number, lines, reference, issued, calendar), note=note)
        for order in orders
        if order.supplier
        for number, lines in by_number(order).items()
    ]


def _document(  # noqa: PLR0913, PLR0917 -- what an order is made of
    inputs: Inputs,
    order: Order,
    number: str,
    lines: Sequence[OrderLine],
    reference: str,
    issued: date,
    calendar: Calendar,
) -> OrderDocument:
    deliveries = {d.number: d for d in order.deliveries}
    own = [d for d in order.deliveries if d.order_number == number]
    days = [d.needed_on_site for d in own if d.needed_on_site is not None]
    places = list(dict.fromkeys(d.deliver_to for d in own if d.deliver_to))
    return order_document(
        inputs,
        order.supplier,
        number,
        [_line(inputs, line, deliveries, calendar) for line in lines],
        len(own),
        issued=issued,
        reference=reference,
        job=inputs.job.name,
        deliver_to=places[0] if len(places) == 1 else calendar.deliver_to(lines[0].phase),
        deliver_on=min(days, default=None),
    )


def order_document(  # noqa: PLR0913 -- what an order is made of
    inputs: Inputs,
    supplier: str,
    number: str,
    lines: Sequence[DocumentLine],
    stops: int,
    *,
    issued: date,
    reference: str,
    job: str,
    deliver_to: str,
    deliver_on: date | None,
) -> OrderDocument:
    """Head an order and sum it up: goods, a charge for each delivery, tax, total.

    Parameters
    ----------
    inputs
        Of the workbook whose row of the supplier, and whose job, the head is taken from.
    supplier, number, lines
        Of the order.
    stops
        How many times it is delivered.
    issued, reference, job, deliver_to, deliver_on
        As ``OrderDocument`` has them.
    """
    listed = inputs.catalogue.suppliers.get(supplier)
    charge = None
    if listed and listed.delivery_charge:
        charge = listed.delivery_charge * stops
    goods = sum((x.amount for x in lines if x.amount is not None), Decimal("0.00"))
    rate = inputs.tax_rate(supplier)
    tax = share_of(goods + (charge or 0), rate)
    return OrderDocument(
        number=number,
        revision=0,
        issued=issued,
        reference=reference,
        job=job,
        buyer=inputs.job.buyer,
        account=listed.account if listed else "",
        supplier=supplier,
        supplier_address=listed.address if listed else "",
        supplier_email=listed.email if listed else "",
        deliver_to=deliver_to,
        deliver_on=deliver_on,
        terms=listed.terms if listed else "",
        currency=inputs.job.currency,
        lines=tuple(lines),
        goods=goods,
        charge=charge,
        tax_rate=rate,
        tax=tax,
        total=goods + (charge or 0) + tax,
        unpriced=sum(line.amount is None for line in lines),
    )


def _line(
    inputs: Inputs, line: OrderLine, deliveries: dict[int, Delivery], calendar: Calendar
) -> DocumentLine:
    delivery = deliveries.get(line.delivery)
    # what came is not given back by an order that is revised: it stays in it, to be paid
    packs = max(line.packs, ceil(line.received))
    more = packs - line.packs
    last = len(line.call_offs)
    drops = tuple(
        Drop(c.phase, sent, c.needed_on_site, calendar.deliver_to(c.phase))
        for number, c in enumerate(line.call_offs, 1)
        if (sent := c.packs + (more if number == last else 0))
    )
    day = delivery.needed_on_site if delivery and not drops else line.needed_on_site
    sold = pack_as_sold(item_of(inputs.catalogue, line), inputs.job.units.long_length)
    return document_line(line, packs, sold, day, drops)


def document_line(
    line: OrderLine,
    packs: int,
    sold: tuple[float, Unit],
    deliver_on: date | None,
    drops: tuple[Drop, ...],
) -> DocumentLine:
    """Say a line of an order as its supplier reads it.

    Parameters
    ----------
    line
        As it was ordered.
    packs
        How many in the whole order.
    sold
        What a pack holds as it is sold.
    deliver_on, drops
        When it comes, or in which parts.
    """
    size, unit = sold
    return DocumentLine(
        line=line.line,
        item=line.item,
        supplier_code=line.supplier_code,
        description=line.description,
        packs=packs,
        package=line.package,
        package_code=line.package_code,
        pack_size=size,
        unit=unit.symbol,
        unit_code=unit.code,
        pack_price=line.pack_price,
        amount=None if line.pack_price is None else amount(packs, line.pack_price),
        deliver_on=deliver_on,
        drops=drops,
        before=line.begun,
        received=line.received,
    )
