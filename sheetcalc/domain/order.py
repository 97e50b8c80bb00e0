"""Purchase orders: what goes to a supplier, phase by phase, and how it is delivered."""

from datetime import date
from decimal import Decimal
from typing import Final

from msgspec import Struct

from sheetcalc.domain.finding import NOWHERE, RowRef
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.quantity import PackBy

EACH_PHASE: Final = "each phase"
EACH_DAY: Final = "each day"
ALL_AT_ONCE: Final = "all at once"
"""Words of the Job's setting Deliveries, and of the column of Suppliers."""


class NeedPart(Struct, frozen=True):
    """Quantity lines of one item that are counted alike.

    Attributes
    ----------
    pack_by
        How they turn into packs.
    unit
        Unit that ``needed`` and ``pack`` are in.
    needed
        Sum of the lines' gross, never rounded.
    pack
        What one pack holds.
    lines
        Positions of the lines in the run's quantity lines.
    """

    pack_by: PackBy
    unit: Unit
    needed: float
    pack: float
    lines: tuple[int, ...]


class CallOff(Struct, frozen=True):
    """What one phase takes of goods that are ordered once for several phases.

    Attributes
    ----------
    number
        In the order of the dates, from 1.
    needed
        In the unit of the order's line.
    packs
        To send for this phase: what it needs beyond the packs opened for those before it.
    delivery
        Number of the supplier's delivery that brings them.
    lines
        Positions of its lines in the run's quantity lines.
    day, tasks
        Working day of the phase that it is needed on, and the rows of Labour that say so.
    """

    number: int
    phase: str
    needed: float
    packs: int
    needed_on_site: date | None
    delivery: int
    lines: tuple[int, ...] = ()
    day: int = 1
    tasks: tuple[RowRef, ...] = ()


class OrderLine(Struct, frozen=True):
    """One item on one order.

    Packs are rounded up once, on the item's total in the order.

    Attributes
    ----------
    phase
        Phase whose order it stands in: the first of ``phases``.
    needed, unit, pack
        Gross quantity, its unit, and what a pack holds in that unit.  Where lines of the item
        are counted in several ways, the need is counted in packs, and ``pack`` is 1.
    pack_by
        How an order turns the need into packs; ``PLAN`` where packs come from a plan.
    pack_price
        Price of one pack, None where the catalogue has none.
    weight_kg
        Weight of all packs; None where the catalogue has none.
    parts
        The quantity lines behind the need.
    source
        Row of the catalogue that is ordered from.
    phases
        Phases that it is ordered for.
    call_offs
        Where it is ordered once and delivered phase by phase.
    delivery
        Number of the supplier's delivery that brings it; 0 where it is called off.
    day, tasks
        Working day of the phase that it is needed on, and the rows of Labour that say so.
    least_packs, own_lead_days
        Fewest packs that are sold; the item's own lead time, None for its supplier's.
    ordered, received
        Packs that the Received tab says are ordered and have come.
    """

    phase: str
    number: str
    line: int
    item: str
    tab: str  # catalogue tab that the item stands in
    supplier_code: str
    description: str
    needed: float
    unit: Unit
    pack: float
    pack_by: PackBy
    packs: int
    package: str
    package_code: str
    pack_price: Decimal | None
    amount: Decimal | None
    weight_kg: float | None
    needed_on_site: date | None = None
    order_by: date | None = None
    parts: tuple[NeedPart, ...] = ()
    source: RowRef = NOWHERE
    pack_weight_kg: float | None = None
    phases: tuple[str, ...] = ()
    call_offs: tuple[CallOff, ...] = ()
    delivery: int = 1
    day: int = 1
    tasks: tuple[RowRef, ...] = ()
    least_packs: int | None = None
    own_lead_days: int | None = None
    returnable: bool = False
    ordered: float = 0.0
    received: float = 0.0

    @property
    def to_order(self) -> float:
        """Packs still to order; below zero where more was ordered, or came, than is needed."""
        return self.packs - self.begun

    @property
    def begun(self) -> float:
        """Packs that were ordered already, or came without having been typed in as ordered."""
        return max(self.ordered, self.received)


class Delivery(Struct, frozen=True):
    """One delivery of a supplier.

    Attributes
    ----------
    number
        Of the supplier's deliveries, in the order of their dates, from 1.
    order_number, phase
        The order that it belongs to, and the phase that it is for.
    needed_on_site, order_by
        The earliest dates of its lines.
    charge
        What the supplier takes for it; None where Suppliers says nothing.
    lines
        Order lines and call-offs in it.
    weight_kg
        Of the packs whose weight is known; None where none is.
    unweighed
        Lines without a weight.
    pallets
        By the Job's largest load of a pallet; None without a weight.
    """

    number: int
    order_number: str
    phase: str
    deliver_to: str
    needed_on_site: date | None
    order_by: date | None
    charge: Decimal | None
    lines: int
    weight_kg: float | None
    unweighed: int
    pallets: int | None


class Order(Struct, frozen=True):
    """One supplier's order tab: its lines, phase by phase, and the total.

    Attributes
    ----------
    supplier
        "" for items without a supplier.
    total
        Sum of the amounts that are known, without delivery charges.
    complete
        False where a price is missing.
    deliveries
        How the lines come, in the order of their dates.
    """

    supplier: str
    lines: tuple[OrderLine, ...]
    total: Decimal
    complete: bool
    deliveries: tuple[Delivery, ...] = ()

    @property
    def charges(self) -> Decimal:
        """Delivery charges."""
        return sum((d.charge for d in self.deliveries if d.charge is not None), Decimal("0.00"))


def empty(supplier: str) -> Order:
    """Make an order of nothing, for a tab that stays without one."""
    return Order(supplier, (), Decimal("0.00"), complete=True)


class Source(Struct, frozen=True):
    """One supplier of an item that several sell.

    Attributes
    ----------
    line
        What would be ordered there for the whole job; its ``packs`` are the sum over the orders.
    orders
        The lines of those orders.
    cost
        Packs at their price; None without a price.
    ordered, in_mix
        Whether the run orders it there, and whether the cheapest mix does.
    """

    supplier: str
    line: OrderLine
    orders: tuple[OrderLine, ...]
    cost: Decimal | None
    ordered: bool
    in_mix: bool


class Sourcing(Struct, frozen=True):
    """Items that several suppliers sell, and the cheapest mix of suppliers.

    Attributes
    ----------
    sources
        Item by item, in the order of the catalogue's rows.
    ordered, mix
        Goods of the whole job, as ordered and in the cheapest mix.
    ordered_charges, mix_charges
        Delivery charges of both.
    mixes
        Mixes that were compared.
    """

    sources: tuple[Source, ...]
    ordered: Decimal
    ordered_charges: Decimal
    mix: Decimal
    mix_charges: Decimal
    mixes: int
