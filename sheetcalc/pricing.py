"""Money: prices of packs, amounts, tax, and sharing a total out to the cent.

Everything is Decimal and rounds half up; a float sum of money is never made.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction
from typing import Final

from sheetcalc.domain.catalogue import Bag, Buyable, Cable, PricePer, Roll, Sundry, Tile
from sheetcalc.domain.measure import MM320_PER_METRE, Unit

CENT: Final = Decimal("0.01")
HUNDREDTH_OF_A_CENT: Final = Decimal("0.0001")
"""A pack price worked out from a price per area or piece keeps four decimals, so that 7.2 m2 at
21.90 come to 157.68 and not to five times a rounded box."""

_MILLIONTH: Final = Decimal("1e-6")


def to_cents(amount: Decimal) -> Decimal:
    """Amount rounded half up to the cent; equals ``ROUND(amount,2)`` in a sheet.

    Examples
    --------
    Binary floats would give 2.67:

    >>> to_cents(Decimal("2.675"))
    Decimal('2.68')
    """
    return amount.quantize(CENT, rounding=ROUND_HALF_UP)


def amount(packs: int, pack_price: Decimal) -> Decimal:
    """Price of whole packs, to the cent."""
    return to_cents(pack_price * packs)


def share_of(amount: Decimal, share: float) -> Decimal:
    """Share of an amount, to the cent; 0.1 is a tenth, whatever its binary float."""
    return to_cents(amount * Decimal(repr(share)))


def box_area(tile: Tile, area_unit: Unit) -> Fraction:
    """Face area of a box of tiles, without joints, in ``area_unit``; exact."""
    face = Fraction(tile.length_mm320 * tile.width_mm320, MM320_PER_METRE**2)
    return face * tile.pieces_per_box / area_unit.si_factor


def pack_price(item: Buyable, area_unit: Unit) -> Decimal | None:
    """Price of one pack of an item; None where the catalogue has none.

    Parameters
    ----------
    item
        A row of a catalogue tab.
    area_unit
        The Job's unit of area, which a tile's price per area is for.
    """
    match item:
        case Tile(price=None):
            return None
        case Tile(price=Decimal() as price, price_per=PricePer.PIECE):
            exact = price * item.pieces_per_box
            return exact.quantize(HUNDREDTH_OF_A_CENT, rounding=ROUND_HALF_UP)
        case Tile(price=Decimal() as price, price_per=PricePer.AREA):
            area = box_area(item, area_unit)
            with localcontext() as context:
                context.prec = 60
                exact = price * area.numerator / area.denominator
                return exact.quantize(HUNDREDTH_OF_A_CENT, rounding=ROUND_HALF_UP)
        case Tile() | Roll() | Cable():
            return item.price
        case Bag() | Sundry():
            return item.pack_price


def exact_to_cents(amount: Fraction) -> Decimal:
    """Amount that a division gave, half up to the cent.

    It is rounded to six decimals first: a sheet that reckons in binary floats then rounds alike
    where the amount lies on half a cent.  Equals ``ROUND(ROUND(amount,6),2)``.

    Examples
    --------
    >>> exact_to_cents(Fraction(14551, 4000))
    Decimal('3.64')
    """
    with localcontext() as context:
        context.prec = 60
        value = Decimal(amount.numerator) / Decimal(amount.denominator)
        return to_cents(value.quantize(_MILLIONTH, rounding=ROUND_HALF_UP))


def shared_out(total: Decimal, weights: Sequence[float | Decimal]) -> tuple[Decimal, ...]:
    """Share a total out in proportion, to the cent, summing exactly.

    Each share is the difference of two rounded running totals, so that a sheet can work it out
    row by row and a changed weight stays live.

    Parameters
    ----------
    total
        What is shared, in whole cents.
    weights
        Not negative; where all are 0 the total goes to the last.

    Examples
    --------
    >>> shared_out(Decimal("100.00"), [1, 1, 1])
    (Decimal('33.33'), Decimal('33.34'), Decimal('33.33'))
    """
    exact = [Fraction(weight) for weight in weights]
    whole = sum(exact)
    shares: list[Decimal] = []
    running = Fraction(0)
    before = Decimal("0.00")
    for weight in exact:
        running += weight
        part = running / whole if whole else Fraction(len(shares) + 1 == len(exact))
        after = exact_to_cents(Fraction(total) * part)
        shares.append(after - before)
        before = after
    return tuple(shares)
