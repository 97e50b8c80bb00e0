"""What changed between two workbooks, and what that did."""

from decimal import Decimal

from msgspec import Struct


class InputChange(Struct, frozen=True):
    """One cell of an input tab, or a whole record.

    Attributes
    ----------
    what
        ``changed``, ``added`` or ``removed``.
    tab, record
        Tab, and the record's key in words: ``2.07``, ``2.07, Bath``.
    column
        Header of the cell; "" for a whole record.
    old, new
        As displayed; "" where there is nothing.
    """

    what: str
    tab: str
    record: str
    column: str
    old: str
    new: str


class QuantityChange(Struct, frozen=True):
    """Gross quantity of one line and item over the whole job; 0 where a book has none."""

    line: str
    item: str
    description: str
    unit: str
    old: float
    new: float


class PackChange(Struct, frozen=True):
    """Packs and amount of one item from one supplier; an amount is None without a price.

    Attributes
    ----------
    one_currency
        False where the amounts are in two.
    """

    supplier: str
    item: str
    description: str
    old_packs: int
    new_packs: int
    old_amount: Decimal | None
    new_amount: Decimal | None
    one_currency: bool = True

    @property
    def difference(self) -> Decimal | None:
        """Of the amounts; None where they can't be subtracted."""
        if self.old_amount is None or self.new_amount is None or not self.one_currency:
            return None
        return self.new_amount - self.old_amount


class MoneyChange(Struct, frozen=True):
    """One sum of money: an order's total, or a step of the quote.

    Attributes
    ----------
    note
        Why the sums can't be subtracted; "" where they can.
    """

    what: str
    old: Decimal
    new: Decimal
    note: str = ""

    @property
    def difference(self) -> Decimal | None:
        """Of the sums; None where it would say nothing."""
        return None if self.note else self.new - self.old


class Comparison(Struct, frozen=True):
    """Everything that differs; sums of money are listed whether they differ or not.

    Attributes
    ----------
    calculated
        False where one of the books has errors: then only inputs are compared.
    """

    inputs: tuple[InputChange, ...]
    quantities: tuple[QuantityChange, ...] = ()
    packs: tuple[PackChange, ...] = ()
    money: tuple[MoneyChange, ...] = ()
    calculated: bool = True
