"""One order a supplier for several workbooks, rounded up once on the whole, and what that saves."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from math import ceil
from typing import Final, TypeAlias

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.domain.order_document import DocumentLine, Drop, OrderDocument
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import RollsToOpen
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.combined_terms import Ordering, differing_terms
from sheetcalc.ordering.documents import document_line, order_document
from sheetcalc.ordering.items import item_of
from sheetcalc.ordering.line_rolls import LineRolls
from sheetcalc.pricing import amount
from sheetcalc.rules.order_numbers import short_names
from sheetcalc.rules.pack_contents import pack_as_sold
from sheetcalc.rules.packs import packs_needed

REFERENCE: Final = "several workbooks ordered together"
_AS_LISTED: Final = "as listed with the lines"

_Key: TypeAlias = tuple[str, str, str, str, float, str, Decimal | None]


class Building(Struct, frozen=True):
    """One workbook: what it is called, and what it orders by itself.

    Attributes
    ----------
    rolls_apart, rolls_together
        Rolls to open by item and phase: of the building's own plans, and of plans over the rooms
        of all buildings, which are the same where nothing is cut together.
    """

    name: str
    inputs: Inputs
    orders: tuple[Order, ...]
    rolls_apart: RollsToOpen = field(default_factory=dict)
    rolls_together: RollsToOpen = field(default_factory=dict)


class Saving(Struct, frozen=True):
    """One item ordered apart and together.

    Attributes
    ----------
    apart, together
        Packs.
    """

    supplier: str
    item: str
    description: str
    apart: int
    together: int
    pack_price: Decimal | None

    @property
    def saved(self) -> Decimal:
        """Money that ordering together saves; 0 without a price."""
        if self.pack_price is None:
            return Decimal("0.00")
        return amount(self.apart, self.pack_price) - amount(self.together, self.pack_price)


class Combined(Struct, frozen=True):
    """Orders of several workbooks together.

    Attributes
    ----------
    charges_apart, charges_together
        Delivery charges.
    """

    documents: tuple[OrderDocument, ...]
    savings: tuple[Saving, ...]
    charges_apart: Decimal
    charges_together: Decimal
    findings: tuple[Finding, ...]

    @property
    def goods_apart(self) -> Decimal:
        """Goods that have a price, each workbook by itself."""
        return self._goods(s.apart for s in self.savings)

    @property
    def goods_together(self) -> Decimal:
        """Goods that have a price, ordered together."""
        return self._goods(s.together for s in self.savings)

    @property
    def saved(self) -> Decimal:
        """Goods and charges that ordering together saves."""
        goods = self.goods_apart - self.goods_together
        return goods + self.charges_apart - self.charges_together

    def _goods(self, packs: Iterable[int]) -> Decimal:
        priced = zip(packs, self.savings, strict=True)
        known = (amount(n, s.pack_price) for n, s in priced if s.pack_price is not None)
        return sum(known, Decimal("0.00"))


class _Share(Struct, frozen=True):
    """What one phase of one building takes of an item.

    ``pack`` is 0 where ``needed`` counts whole packs that a plan asks for.
    """

    stage: str
    needed: float
    unit: Unit
    pack: float
    on_site: date | None
    comes_on: date | None
    deliver_to: str


class _Item(Struct):
    line: OrderLine
    shares: list[_Share]
    packs_apart: int
    least: int
    sold: tuple[float, Unit]
    before: float = 0.0
    received: float = 0.0


def combine(buildings: Sequence[Building], prefix: str, issued: date) -> Combined:
    """Put the orders of several workbooks together.

    Packs are rounded up once over all of them; of rolls, those that the plans over all buildings
    open are taken.

    Parameters
    ----------
    buildings
        In the order in which they are named.
    prefix
        Of the order numbers.
    issued
        Date of issue.
    """
    findings = list(_currencies(buildings))
    if findings:
        return Combined((), (), Decimal(0), Decimal(0), tuple(findings))
    items: dict[_Key, _Item] = {}
    for building in buildings:
        _gather(building, items)
    findings += _differing(items)
    suppliers = list(dict.fromkeys(key[0] for key in items))
    numbers = short_names(suppliers, "NOSUPPLIER")
    documents, savings = [], []
    for supplier in suppliers:
        mine = [item for key, item in items.items() if key[0] == supplier]
        lines = [_line(number, item) for number, item in enumerate(mine, 1)]
        number = "-".join(part for part in (prefix, numbers[supplier]) if part)
        documents.append(_document(buildings, supplier, number, lines, mine, issued))
        savings += [
            Saving(supplier, line.item, line.description, item.packs_apart, line.packs,
                   line.pack_price)
            for line, item in zip(lines, mine, strict=True)
        ]  # fmt: skip
    findings += differing_terms(_ordering(buildings, supplier) for supplier in suppliers)
    apart = sum((o.charges for b in buildings for o in b.orders if o.supplier), Decimal("0.00"))
    together = sum((d.charge for d in documents if d.charge is not None), Decimal("0.00"))
    return Combined(tuple(documents), tuple(savings), apart, together, tuple(findings))


def _currencies(buildings: Sequence[Building]) -> Iterator[Finding]:
    found = list(dict.fromkeys(b.inputs.job.currency for b in buildings))
    if len(found) > 1:
        yield Finding("COMBINED-CURRENCIES-DIFFER", facts={"values": ", ".join(found)})


def _gather(building: Building, items: dict[_Key, _Item]) -> None:
    calendar = Calendar(building.inputs)
    rolls = LineRolls(building.orders, building.rolls_apart, building.rolls_together, calendar)
    for order in building.orders:
        if not order.supplier:
            continue
        comes = {d.number: d.needed_on_site for d in order.deliveries}
        for line in order.lines:
            bought = item_of(building.inputs.catalogue, line)
            sold = pack_as_sold(bought, building.inputs.job.units.long_length)
            size, unit = sold
            key = (order.supplier, line.item, line.supplier_code, line.package, size,
                   unit.symbol, line.pack_price)  # fmt: skip
            item = items.setdefault(key, _Item(line, [], 0, 0, sold))
            item.shares += _shares(building, line, comes, calendar, rolls.of(line))
            item.packs_apart += line.packs
            item.before += line.begun
            item.received += line.received
            item.least = max(item.least, line.least_packs or 0)


def _shares(
    building: Building,
    line: OrderLine,
    comes: dict[int, date | None],
    calendar: Calendar,
    rolls: tuple[int, int] | None,
) -> Iterator[_Share]:
    needed, pack = line.needed, line.pack
    if rolls:
        apart, together = rolls
        # counted by its plan alone, or in packs: rolls of the plan and what is cut by length
        planned = line.pack_by is PackBy.PLAN
        needed, pack = (together, 0.0) if planned else (needed - apart + together, pack)
    for call in line.call_offs:
        yield _Share(
            _stage(building, call.phase), call.needed, line.unit, line.pack,
            call.needed_on_site, comes.get(call.delivery), calendar.deliver_to(call.phase),
        )  # fmt: skip
    if not line.call_offs:
        yield _Share(
            _stage(building, line.phase), needed, line.unit, pack, line.needed_on_site,
            comes.get(line.delivery), calendar.deliver_to(line.phase),
        )  # fmt: skip


def _stage(building: Building, phase: str) -> str:
    return f"{building.name}, {phase}" if phase else building.name


def _differing(items: dict[_Key, _Item]) -> Iterator[Finding]:
    """Items of one code that can't be rounded together."""
    same: dict[tuple[str, str], list[_Key]] = {}
    for key in items:
        same.setdefault(key[:2], []).append(key)
    for (_, code), keys in same.items():
        if len(keys) > 1:
            values = "; ".join(
                f"{key[2] or 'no supplier code'}, {key[4]:g} {key[5]} a {key[3]} at "
                f"{'no price' if key[6] is None else key[6]}"
                for key in keys
            )
            facts = {"what": "pack or price", "item": code, "values": values}
            yield Finding("COMBINED-BOOKS-DIFFER", facts=facts)


def _line(number: int, item: _Item) -> DocumentLine:
    line = item.line
    shares = sorted(item.shares, key=lambda share: share.comes_on or date.max)
    alike = len({(share.unit.symbol, share.pack) for share in shares}) == 1 and shares[0].pack
    pack = shares[0].pack if alike else 1.0
    so_far, sent, drops = 0.0, 0, []
    opened = 0
    for share in shares:
        if alike or not share.pack:
            so_far += share.needed
        else:
            so_far += share.needed / share.pack
        opened = packs_needed(so_far, pack)
        drops.append(Drop(share.stage, opened - sent, share.comes_on, share.deliver_to))
        sent = opened
    least = max(item.least, ceil(item.received))
    if least > opened and drops:
        last = drops[-1]
        drops[-1] = Drop(last.stage, last.packs + least - opened, last.deliver_on,
                         last.deliver_to)  # fmt: skip
        opened = least
    days = [share.comes_on for share in shares if share.comes_on is not None]
    drops = [d for d in drops if d.packs] if len(drops) > 1 else []
    made = document_line(line, opened, item.sold, min(days, default=None), tuple(drops))
    return replace(made, line=number, before=item.before, received=item.received)


def _first(buildings: Sequence[Building], supplier: str) -> Building:
    """Find the building whose row of a supplier, and whose job, an order takes its head from."""
    return next((b for b in buildings if supplier in b.inputs.catalogue.suppliers), buildings[0])


def _ordering(buildings: Sequence[Building], supplier: str) -> Ordering:
    first = _first(buildings, supplier)
    others = [b.inputs for b in buildings if any(o.supplier == supplier for o in b.orders)]
    return Ordering(supplier, first.inputs, others)


def _document(  # noqa: PLR0913, PLR0917 -- what an order is made of
    buildings: Sequence[Building],
    supplier: str,
    number: str,
    lines: Sequence[DocumentLine],
    items: Sequence[_Item],
    issued: date,
) -> OrderDocument:
    stops = {(share.deliver_to, share.comes_on) for item in items for share in item.shares}
    places = sorted({place for place, _ in stops})
    days = [day for _, day in stops if day is not None]
    return order_document(
        _first(buildings, supplier).inputs,
        supplier,
        number,
        lines,
        len(stops),
        issued=issued,
        reference=REFERENCE,
        job=", ".join(b.name for b in buildings),
        deliver_to=places[0] if len(places) == 1 else _AS_LISTED,
        deliver_on=min(days, default=None),
    )
