"""The table of factors, checked by pint: the only module that imports it, and late."""

from typing import Final

from sheetcalc.domain.measure import UNITS

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
