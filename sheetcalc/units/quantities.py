"""Areas, volumes, masses, numbers, counts and money as people type them; as strict as lengths."""

import math
import re
from decimal import Decimal
from fractions import Fraction
from typing import Final, NoReturn

from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    CUBIC_METRE,
    KILOGRAM,
    LITRE,
    MILLILITRE,
    POUND,
    SQUARE_FOOT,
    SQUARE_METRE,
    US_FLUID_OUNCE,
    US_GALLON,
    Unit,
)
from sheetcalc.units.lengths import LONGEST_TEXT, NUMBER, THOUSANDS, decimal, refuse, tidied

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


_GROUPED: Final = re.compile(
    r"[^0-9.,-]*(-?[1-9][0-9]{0,2}([., '])[0-9]{3}(?:\2[0-9]{3})*(?:(?!\2)[.,][0-9]+)?)[^0-9.,]*"
)
"""Thousands parted by a comma, a point, a space or an apostrophe, the same one throughout."""


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
        tidy = tidied(value)
        if grouped := _GROUPED.fullmatch(tidy):
            _refuse_grouped(grouped[1])
        meant = re.fullmatch(r"[^0-9.,-]*(-?[0-9]+(?:[.,][0-9]+)?)[^0-9.,]*", tidy)
        if meant is None:
            refuse("NUMBER-UNREADABLE", "type a number only")
        if "," in meant[1]:
            typed = meant[1].replace(",", ".")
            refuse(
                "NUMBER-COMMA",
                f"type {typed} as a number, with the decimal mark of your spreadsheet program",
            )
        if any(character.isalpha() for character in tidy):  # 3 weeks, where days are counted
            refuse(
                "NUMBER-AS-TEXT",
                f"type a number without words or units: {meant[1]}, if that is what the column "
                "counts",
            )
        refuse("NUMBER-AS-TEXT", f"type {meant[1]} again as a number, without quotes or units")
    if not math.isfinite(value):
        refuse("NUMBER-NOT-FINITE", "type the number again")
    return value


_PERCENT: Final = re.compile(rf"(?P<number>-?{NUMBER})\s*(?P<sign>%?)")


def parse_percent(value: str | float) -> float:
    """Read a share, as a percent cell stores it; text is refused, with what it would be read as.

    Returns
    -------
    float
        0.1 for a cell that shows 10 %.

    Raises
    ------
    NotReadableError
        As ``parse_number``.
    """
    if isinstance(value, str):
        _refuse_percent(tidied(value))
    return parse_number(value)


def _refuse_percent(tidy: str) -> NoReturn:
    """Refuse a text with what to type, and what is read then."""
    found = _PERCENT.fullmatch(tidy)
    if found is None:
        refuse("NUMBER-UNREADABLE", "type a percentage only, such as 10 %")
    shown = decimal(found["number"])
    percent = f"{_plain(shown)} %"
    if not found["sign"] and abs(shown) < 1:
        refuse(
            "NUMBER-AS-TEXT",
            f"type {_plain(shown * 100)} % if that share is meant, or {percent}, "
            "with the decimal mark of your spreadsheet program",
        )
    refuse(
        "NUMBER-AS-TEXT",
        f"type {percent} into a cell formatted as percent, with the decimal mark of your "
        f"spreadsheet program, so that {_plain(shown / 100)} is read",
    )


def _plain(number: Fraction) -> str:
    return f"{float(number):.15g}"


def _refuse_grouped(number: str) -> NoReturn:
    """Refuse digits in groups of three, as many countries write them, with what to type."""
    *groups, last = re.split(r"[., ']", number)
    if not groups[1:] and number[-4] in ".,":
        mark = "comma" if "," in number else "point"
        refuse(
            "NUMBER-THOUSANDS",
            f"type {groups[0]}{last} if the {mark} parts thousands, "
            f"or {groups[0]}.{last} if it is a decimal {mark}",
        )
    ends_in_decimals = re.search(r"[.,]", number) and len({*re.findall(r"[., ']", number)}) > 1
    typed = "".join(groups) + ("." if ends_in_decimals else "") + last
    refuse("NUMBER-AS-TEXT", f"type {typed} as a number")


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
