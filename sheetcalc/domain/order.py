"""Purchase orders: what goes to a supplier, phase by phase."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from sheetcalc.domain.measure import Unit
from sheetcalc.domain.quantity import PackBy


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item on one order.

    Packs are rounded up once, on the item's total in the order.
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


@dataclass(frozen=True, slots=True)
class Order:
    """One supplier's order tab: its lines, phase by phase, and the total."""

    supplier: str  # "" for items without a supplier
    lines: tuple[OrderLine, ...]
    total: Decimal
    complete: bool  # False where a price is missing
