"""Units at the edge: quantities as people type them, and lengths and quantities as shown.

The closed vocabulary of ``domain.measure`` carries exact factors; pint is only a table that
checks them, and only this module imports it (late, for its import is slow).  The strict reader of
lengths is in ``lengths``; its names are offered here too.
"""

import math
import re
from decimal import Decimal
from fractions import Fraction
from typing import Final

from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    CUBIC_METRE,
    FOOT,
    INCH,
    KILOGRAM,
    LITRE,
    MILLILITRE,
    MM320_PER_INCH,
    MM320_PER_METRE,
    MM320_PER_MM,
    POUND,
    SQUARE_FOOT,
    SQUARE_METRE,
    UNITS,
    US_FLUID_OUNCE,
    US_GALLON,
    Dimension,
    Unit,
)
from sheetcalc.lengths import (
    INCHES_IN_A_FOOT,
    LONGEST_TEXT,
    NUMBER,
    THOUSANDS,
    NotReadableError,
    decimal,
    nearest,
    parse_length,
    refuse,
    tidied,
)

__all__ = [
    "NotReadableError",
    "check_with_pint",
    "parse_count",
    "parse_length",
    "parse_money",
    "parse_number",
    "parse_quantity",
    "show_length",
    "show_quantity",
    "show_tape",
]

_SIXTEENTH: Final = MM320_PER_INCH // 16
_SIXTY_FOURTH: Final = MM320_PER_INCH // 64

# --- other quantities ----------------------------------------------------------------------------

# fmt: off
_QUANTITY_WORDS: Final = {
    "m²": SQUARE_METRE, "m2": SQUARE_METRE, "sq m": SQUARE_METRE, "sqm": SQUARE_METRE,
    "ft²": SQUARE_FOOT, "ft2": SQUARE_FOOT, "sq ft": SQUARE_FOOT, "sf": SQUARE_FOOT,
    "l": LITRE, "litre": LITRE, "litres": LITRE, "liter": LITRE, "liters": LITRE,
    "ml": MILLILITRE, "m³": CUBIC_METRE, "m3": CUBIC_METRE, "ft³": CUBIC_FOOT, "ft3": CUBIC_FOOT,
    "cu ft": CUBIC_FOOT, "us gal": US_GALLON, "gal": US_GALLON,
    "us fl oz": US_FLUID_OUNCE, "fl oz": US_FLUID_OUNCE,
    "kg": KILOGRAM, "lb": POUND, "lbs": POUND,
}
# fmt: on

_QUANTITY = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z][a-z0-9²³ ]*)\.?")


def parse_quantity(value: str | float, plain: Unit) -> float:
    """Read an area, a volume or a mass; a number is counted in ``plain``, a typed unit wins.

    Returns
    -------
    float
        SI value (m2, m3, kg).

    Raises
    ------
    NotReadableError
        When it is not a number, or text without a unit of the same dimension.
    """
    if isinstance(value, bool):
        refuse("NUMBER-UNREADABLE", f"type a number of {plain.symbol}, not a yes or no")
    if not isinstance(value, str):
        return float(Fraction(repr(parse_number(value))) * plain.si_factor)
    tidy = tidied(value[: LONGEST_TEXT + 1])
    if THOUSANDS.search(tidy):
        refuse("NUMBER-THOUSANDS", "type the number without a comma")
    found = _QUANTITY.fullmatch(tidy)
    unit = _QUANTITY_WORDS.get(found["unit"]) if found else None
    if found is None or unit is None or unit.dimension is not plain.dimension:
        refuse("NUMBER-AS-TEXT", f"type a plain number of {plain.symbol}")
    return float(decimal(found["number"]) * unit.si_factor)


def parse_number(value: str | float) -> float:
    """Read a plain number; text is refused, with the number that it may have meant as a hint.

    Raises
    ------
    NotReadableError
        For text, a yes or no, and numbers that are not finite.
    """
    if isinstance(value, bool):
        refuse("NUMBER-UNREADABLE", "type a number, not a yes or no")
    if isinstance(value, str):
        meant = re.fullmatch(r"[^0-9.,-]*(-?[0-9]+(?:[.,][0-9]+)?)[^0-9.,]*", tidied(value))
        if meant is None:
            refuse("NUMBER-UNREADABLE", "type a number only")
        if "," in meant[1]:
            refuse("NUMBER-COMMA", f"type {meant[1].replace(',', '.')} as a number")
        refuse("NUMBER-AS-TEXT", f"type {meant[1]} again as a number, without quotes or units")
    if not math.isfinite(value):
        refuse("NUMBER-NOT-FINITE", "type the number again")
    return value


def parse_money(value: str | float) -> Decimal:
    """Read an amount of money: the number as shown to 15 digits, so that 27.9 is 27.9.

    Raises
    ------
    NotReadableError
        As ``parse_number``.
    """
    return Decimal(f"{parse_number(value):.15g}")


def parse_count(value: str | float) -> int:
    """Read a whole number.

    Raises
    ------
    NotReadableError
        As ``parse_number``, and for numbers that are not whole.
    """
    number = parse_number(value)
    if number != int(number):
        refuse("COUNT-NOT-WHOLE", f"type a whole number, such as {round(number)}")
    return int(number)


# --- display -------------------------------------------------------------------------------------

_DECIMALS_OF_A_LENGTH: Final = {"mm": 3, "cm": 4, "m": 6, "in": 4, "ft": 5}
"""Enough that what is shown reads back as the same 1/320 mm."""

# fmt: off
_DECIMALS_OF_A_QUANTITY: Final = {
    "mm": 0, "cm": 1, "m": 2, "in": 1, "ft": 1, "m²": 2, "ft²": 1, "L": 1, "mL": 0, "m³": 3,
    "ft³": 2, "US gal": 1, "US fl oz": 1, "kg": 1, "lb": 1, "h": 1, "W": 0, "A": 1,
}
# fmt: on


def show_length(length_mm320: int, unit: Unit) -> str:
    """Show a length so that it reads back as the same length: ``2.07 m``, ``5' 3 1/2"``.

    Inches are shown as a fraction down to 1/64 in where that is exact, else as a decimal.
    """
    if unit == FOOT:
        return _show_feet(length_mm320)
    if unit == INCH:
        return f"{_inches(length_mm320)} in"
    number = Decimal(length_mm320) / int(unit.si_factor * MM320_PER_METRE)
    return f"{_stripped(number, _DECIMALS_OF_A_LENGTH[unit.symbol])} {unit.symbol}"


def show_tape(length_mm320: int, unit: Unit) -> str:
    """Show a length as read off a tape: to the nearest 1 mm, or 1/16 in, half up.

    Common practice, no source (trade table T9-07).
    """
    if unit in (INCH, FOOT):
        rounded = nearest(Fraction(length_mm320, _SIXTEENTH)) * _SIXTEENTH
        return _show_feet(rounded) if unit == FOOT else f'{_inches(rounded)}"'
    return f"{nearest(Fraction(length_mm320, MM320_PER_MM))} mm"


def show_quantity(value_si: float, unit: Unit) -> str:
    """Show an SI value in a unit, with the digits that an estimator works with."""
    value = unit.from_si(value_si)
    if unit.dimension is Dimension.COUNT:
        whole = Decimal(repr(value)).quantize(Decimal("0.01")).normalize()
        return f"{whole:f}"
    return f"{value:.{_DECIMALS_OF_A_QUANTITY[unit.symbol]}f} {unit.symbol}"


def _stripped(number: Decimal, decimals: int) -> str:
    text = f"{number:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text in {"", "-0"} else text


def _inches(length_mm320: int) -> str:
    """Inches without a mark: ``63 1/2``, or ``62.9921`` where 1/64 in is not exact."""
    sign, length = ("-" if length_mm320 < 0 else ""), abs(length_mm320)
    if length % _SIXTY_FOURTH:
        return sign + _stripped(Decimal(length) / MM320_PER_INCH, _DECIMALS_OF_A_LENGTH["in"])
    whole, part = divmod(length, MM320_PER_INCH)
    if not part:
        return f"{sign}{whole}"
    fraction = Fraction(part, MM320_PER_INCH)
    return f"{sign}{f'{whole} ' if whole else ''}{fraction.numerator}/{fraction.denominator}"


def _show_feet(length_mm320: int) -> str:
    sign = "-" if length_mm320 < 0 else ""
    feet, rest = divmod(abs(length_mm320), INCHES_IN_A_FOOT * MM320_PER_INCH)
    return f"{sign}{feet}' {_inches(rest)}\""


# --- the table of factors ------------------------------------------------------------------------

# fmt: off
_PINT_NAMES: Final = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot",
    "m²": "meter**2", "ft²": "foot**2", "L": "liter", "mL": "milliliter", "m³": "meter**3",
    "ft³": "foot**3", "US gal": "gallon", "US fl oz": "fluid_ounce", "kg": "kilogram",
    "lb": "pound", "h": "hour", "W": "watt", "A": "ampere",
}
# fmt: on


def check_with_pint() -> dict[str, float]:
    """Quotient of our factor and pint's, by symbol: 1.0 within rounding where both agree."""
    import pint  # noqa: PLC0415 (slow to import, and needed by this check only)

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    return {
        symbol: float(UNITS[symbol].si_factor)
        / float(registry.Quantity(1.0, name).to_base_units().magnitude)
        for symbol, name in _PINT_NAMES.items()
    }
