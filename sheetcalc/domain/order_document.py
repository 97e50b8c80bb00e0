"""A purchase order as it is sent: what the supplier has to know, and nothing else."""

from datetime import date
from decimal import Decimal

from msgspec import Struct


class Drop(Struct, frozen=True):
    """Part of a line that comes on a day of its own.

    Attributes
    ----------
    stage
        Phase, or building and phase, in the buyer's words.
    """

    stage: str
    packs: int
    deliver_on: date | None
    deliver_to: str


class DocumentLine(Struct, frozen=True):
    """One line of an order as it is sent.

    Attributes
    ----------
    item, supplier_code
        The buyer's and the seller's code.
    packs, package, package_code
        How many in the whole order, of what, and its UN/ECE Recommendation 21 code.
    pack_size, unit, unit_code
        What a package holds as it is sold, and its UN/ECE Recommendation 20 code.
    pack_price, amount
        None where the price is to be agreed.
    drops
        Where it comes in parts; empty where all comes on ``deliver_on``.
    before, received
        Packs of it that were ordered already, by this order or otherwise, or came; those that
        came.
    """

    line: int
    item: str
    supplier_code: str
    description: str
    packs: int
    package: str
    package_code: str
    pack_size: float
    unit: str
    unit_code: str
    pack_price: Decimal | None
    amount: Decimal | None
    deliver_on: date | None
    drops: tuple[Drop, ...] = ()
    before: float = 0.0
    received: float = 0.0

    @property
    def now(self) -> float:
        """Packs that are still to order."""
        return max(self.packs - self.before, 0.0)


class OrderDocument(Struct, frozen=True):
    """One purchase order as it is sent.

    Attributes
    ----------
    revision
        0 for the first; a revision replaces the order before it as a whole.
    reference
        The buyer's job, by which its orders are known again.
    charge
        Delivery charges; None where the supplier takes none.
    tax_rate, tax, total
        Of goods and delivery; the total of what has a price.
    unpriced
        Lines whose price is to be agreed.
    changes
        What is new against the revision before, in words.
    """

    number: str
    revision: int
    issued: date
    reference: str
    job: str
    buyer: str
    account: str
    supplier: str
    supplier_address: str
    supplier_email: str
    deliver_to: str
    deliver_on: date | None
    terms: str
    currency: str
    lines: tuple[DocumentLine, ...]
    goods: Decimal
    charge: Decimal | None
    tax_rate: float
    tax: Decimal
    total: Decimal
    unpriced: int
    note: str = ""
    changes: tuple[str, ...] = ()

    @property
    def has_begun(self) -> bool:
        """Whether some of it was ordered already."""
        return any(line.before for line in self.lines)

    @property
    def is_ordered(self) -> bool:
        """Whether nothing is left to order."""
        return all(line.now <= 0 for line in self.lines)

    @property
    def has_come(self) -> bool:
        """Whether all of it has come."""
        return all(line.received >= line.packs for line in self.lines)

    @property
    def title(self) -> str:
        """Number with its revision, as the file is called too."""
        return f"{self.number} rev {self.revision}" if self.revision else self.number
