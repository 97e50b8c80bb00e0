"""Scales of temperature: what is read on one has a zero of its own, a difference has none.

Inside, temperatures are degrees Celsius (``…_c``) and differences kelvin (``…_k``).
"""

from fractions import Fraction
from typing import Final

from msgspec import Struct


class TemperatureScale(Struct, frozen=True):
    """A scale of temperature; both conversions are exact by definition.

    Attributes
    ----------
    symbol
        As shown after a temperature.
    rise_symbol
        As shown after a difference.
    zero
        What the scale shows at 0 °C.
    per_kelvin
        Its degrees in one kelvin.

    Examples
    --------
    >>> FAHRENHEIT.of_c(20.0), FAHRENHEIT.to_c(50.0), FAHRENHEIT.of_k(10.0)
    (68.0, 10.0, 18.0)
    """

    symbol: str
    rise_symbol: str
    zero: int
    per_kelvin: Fraction

    def of_c(self, temperature_c: float) -> float:
        """Temperature on this scale, of one in °C."""
        return self.of_k(temperature_c) + self.zero

    def to_c(self, temperature: float) -> float:
        """Temperature in °C, of one on this scale."""
        numerator, denominator = self.per_kelvin.as_integer_ratio()
        return (temperature - self.zero) * denominator / numerator

    def of_k(self, difference_k: float) -> float:
        """Difference in degrees of this scale, of one in kelvin: without the zero."""
        numerator, denominator = self.per_kelvin.as_integer_ratio()
        return difference_k * numerator / denominator

    def shown(self, temperature_c: float) -> str:
        """Show a temperature: ``68 °F``."""
        return f"{self.of_c(temperature_c):g} {self.symbol}"

    def rise_shown(self, difference_k: float, places: int) -> str:
        """Show a difference: ``18.0 °F``, ``10.0 K``."""
        return f"{self.of_k(difference_k):.{places}f} {self.rise_symbol}"

    def quoted(self, temperature_c: float) -> str:
        """Show a rule's or a label's figure as it stands there: ``20 °C``, ``20 °C (68 °F)``."""
        own = CELSIUS.shown(temperature_c)
        return own if self == CELSIUS else f"{own} ({self.shown(temperature_c)})"


CELSIUS: Final = TemperatureScale("°C", "K", 0, Fraction(1))
FAHRENHEIT: Final = TemperatureScale("°F", "°F", 32, Fraction(9, 5))

SCALES: Final = {scale.symbol: scale for scale in (CELSIUS, FAHRENHEIT)}
"""Every scale that a temperature may be typed on, by symbol; first that of metric work."""
