"""Purchase orders: what goes to a supplier, phase by phase."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from sheetcalc.domain.finding import NOWHERE, RowRef
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.quantity import PackBy


@dataclass(frozen=True, slots=True)
class NeedPart:
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


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item on one order.

    Packs are rounded up once, on the item's total in the order.

    Attributes
    ----------
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


@dataclass(frozen=True, slots=True)
class Order:
    """One supplier's order tab: its lines, phase by phase, and the total.

    Attributes
    ----------
    supplier
        "" for items without a supplier.
    total
        Sum of the amounts that are known.
    complete
        False where a price is missing.
    """

    supplier: str
    lines: tuple[OrderLine, ...]
    total: Decimal
    complete: bool
