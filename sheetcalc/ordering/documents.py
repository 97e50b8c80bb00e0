"""Orders as they are sent: one document a supplier and phase, with that supplier's prices only."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from math import ceil

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Buyable, Catalogue
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Delivery, Order, OrderLine
from sheetcalc.domain.order_document import DocumentLine, Drop, OrderDocument
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.checks import by_number
from sheetcalc.ordering.items import sources_of
from sheetcalc.pricing import amount, tax_on
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
    job = inputs.job
    supplier = inputs.catalogue.suppliers.get(order.supplier)
    deliveries = {d.number: d for d in order.deliveries}
    own = [d for d in order.deliveries if d.order_number == number]
    charge = None
    if supplier and supplier.delivery_charge:
        charge = supplier.delivery_charge * len(own)
    sent = tuple(_line(inputs, line, deliveries, calendar) for line in lines)
    goods = sum((x.amount for x in sent if x.amount is not None), Decimal("0.00"))
    rate = supplier.tax if supplier and supplier.tax is not None else job.tax
    tax = tax_on(goods + (charge or 0), rate)
    days = [d.needed_on_site for d in own if d.needed_on_site is not None]
    places = list(dict.fromkeys(d.deliver_to for d in own if d.deliver_to))
    first = calendar.deliver_to(lines[0].phase)
    return OrderDocument(
        number=number,
        revision=0,
        issued=issued,
        reference=reference,
        job=job.name,
        buyer=job.buyer,
        account=supplier.account if supplier else "",
        supplier=order.supplier,
        supplier_address=supplier.address if supplier else "",
        supplier_email=supplier.email if supplier else "",
        deliver_to=places[0] if len(places) == 1 else first,
        deliver_on=min(days, default=None),
        terms=supplier.terms if supplier else "",
        currency=job.currency,
        lines=sent,
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
    size, unit = pack_as_sold(item_of(inputs.catalogue, line), inputs.job.units.long_length)
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
        deliver_on=delivery.needed_on_site if delivery and not drops else line.needed_on_site,
        drops=drops,
        before=line.begun,
        received=line.received,
    )


def item_of(catalogue: Catalogue, line: OrderLine) -> Buyable:
    """Row of the catalogue that a line is ordered from."""
    tabs = (
        catalogue.tiles, catalogue.bags, catalogue.rolls, catalogue.cables, catalogue.sundries,
    )  # fmt: skip
    for tab in tabs:
        first: Buyable | None = tab.get(line.item)
        for row in sources_of(first, catalogue) if first else ():
            if row.source == line.source:
                return row
    message = f"no row of the catalogue for {line.item!r}"
    raise KeyError(message)
