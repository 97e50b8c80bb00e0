"""Lengths and quantities as shown: in a unit, and as read off a tape."""

from decimal import Decimal
from fractions import Fraction
from typing import Final

from sheetcalc.domain.measure import (
    CENTIMETRE,
    FOOT,
    INCH,
    METRE,
    MILLIMETRE,
    MM320_PER_INCH,
    MM320_PER_METRE,
    MM320_PER_MM,
    Dimension,
    Unit,
    mixed,
)
from sheetcalc.units.lengths import INCHES_IN_A_FOOT

_SIXTEENTH: Final = MM320_PER_INCH // 16
_SIXTY_FOURTH: Final = MM320_PER_INCH // 64
_QUARTER: Final = MM320_PER_INCH // 4

_DECIMALS_OF_A_LENGTH: Final = {"mm": 3, "cm": 4, "m": 6, "in": 4, "ft": 5}
"""Enough that what is shown reads back as the same 1/320 mm."""

_MM320_IN_ONE: Final = {
    unit.symbol: int(unit.si_factor * MM320_PER_METRE) for unit in (MILLIMETRE, CENTIMETRE, METRE)
}

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
    whole, rest = divmod(length_mm320, _MM320_IN_ONE[unit.symbol])
    if not rest:
        return f"{whole} {unit.symbol}"
    number = Decimal(length_mm320) / _MM320_IN_ONE[unit.symbol]
    return f"{_stripped(number, _DECIMALS_OF_A_LENGTH[unit.symbol])} {unit.symbol}"


def show_measured(length_mm320: int, unit: Unit) -> str:
    """Show a length as a person can find it on a tape: ``about 5/8 in`` for 0.617 in.

    Exact lengths are shown as they are.  Others go to the nearest 1/16 in, below 1/4 in to the
    nearest 1/64 in; what is shorter than that stays a decimal, and so do millimetres and metres.
    """
    if unit not in (INCH, FOOT) or length_mm320 % _SIXTY_FOURTH == 0:
        return show_length(length_mm320, unit)
    step = _SIXTEENTH if abs(length_mm320) >= _QUARTER else _SIXTY_FOURTH
    rounded = _steps(length_mm320, step) * step
    return f"about {show_length(rounded, unit)}" if rounded else show_length(length_mm320, unit)


def show_tape(length_mm320: int, unit: Unit) -> str:
    """Show a length as read off a tape: to the nearest 1 mm, or 1/16 in, half up.

    Common practice, no source.
    """
    if unit in (INCH, FOOT):
        rounded = _steps(length_mm320, _SIXTEENTH) * _SIXTEENTH
        return _show_feet(rounded) if unit == FOOT else f'{_inches(rounded)}"'
    return f"{_steps(length_mm320, MM320_PER_MM)} mm"


def show_place(distance_m: float, unit: Unit) -> str:
    """Show how far off something is that is marked on site: ``2.35 m``, ``7' 8 1/2"``."""
    if unit == FOOT:
        return show_tape(round(distance_m * MM320_PER_METRE), unit)
    return show_quantity(distance_m, unit)


def _steps(length_mm320: int, step_mm320: int) -> int:
    """Nearest whole number of steps, half away from zero (so that a mirrored length mirrors)."""
    steps = (2 * abs(length_mm320) + step_mm320) // (2 * step_mm320)
    return steps if length_mm320 >= 0 else -steps


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
    return sign + mixed(Fraction(length, MM320_PER_INCH))


def _show_feet(length_mm320: int) -> str:
    sign = "-" if length_mm320 < 0 else ""
    feet, rest = divmod(abs(length_mm320), INCHES_IN_A_FOOT * MM320_PER_INCH)
    return f"{sign}{feet}' {_inches(rest)}\""
