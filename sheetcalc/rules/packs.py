"""The one function that rounds a need up to whole packs."""

from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal, localcontext
from typing import Final

_NINE_DECIMALS: Final = Decimal("1e-9")


def packs_needed(needed: float, pack: float) -> int:
    """Whole packs for a need.

    Equal to ``ROUNDUP(ROUND(needed/pack,9),0)`` in a sheet: the inner
    rounding keeps a quotient that floats put a hair above a whole number from costing a pack.

    Parameters
    ----------
    needed
        Gross quantity, in the unit of ``pack``; not negative.
    pack
        What a pack holds; above zero.

    Returns
    -------
    int
        Packs; 0 only where nothing is needed.

    Raises
    ------
    ValueError
        Where the pack is not above zero, or the need is negative.

    Examples
    --------
    22 pieces with 10 % waste in packs of 12.1 are two packs, though floats say 2.0000000000000004:

    >>> packs_needed(22 * 1.1, 12.1)
    2
    """
    if not pack > 0 or not needed >= 0:
        message = f"a pack of {pack} for a need of {needed}"
        raise ValueError(message)
    with localcontext() as context:
        context.prec = 60
        quotient = Decimal(needed) / Decimal(pack)
        rounded = quotient.quantize(_NINE_DECIMALS, rounding=ROUND_HALF_UP)
        return int(rounded.to_integral_value(rounding=ROUND_CEILING))
