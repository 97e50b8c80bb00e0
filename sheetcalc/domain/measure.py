"""Units of measure: a closed vocabulary with exact factors and trade-document codes.

Codes are those of UN/ECE Recommendation 20 Rev 17 (units) and Recommendation 21 Rev 12
(packages), read from the published code lists.
"""

from enum import StrEnum
from fractions import Fraction
from typing import Final

from msgspec import Struct
from msgspec.structs import force_setattr

from sheetcalc.domain.temperature import CELSIUS, FAHRENHEIT, TemperatureScale

MM320_PER_MM: Final = 320
"""Whole units of length in a millimetre: 1 mm = 320 and 1/64 in = 127 are both exact."""

MM320_PER_INCH: Final = 8128
MM320_PER_METRE: Final = 320_000


class Dimension(StrEnum):
    """What a unit measures."""

    COUNT = "count"
    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    MASS = "mass"
    TIME = "time"
    POWER = "power"
    CURRENT = "current"


class Unit(Struct, frozen=True, cache_hash=True):
    """A unit of measure.

    Attributes
    ----------
    symbol
        As shown in a cell.
    dimension
        What it measures.
    si_factor
        SI units (m, m2, m3, kg, s, W, A, or one) in one of these; exact.
    code
        UN/ECE Recommendation 20 code.
    ratio
        ``si_factor`` as numerator and denominator.
    """

    symbol: str
    dimension: Dimension
    si_factor: Fraction
    code: str
    ratio: tuple[int, int] = (1, 1)

    def __post_init__(self) -> None:
        """Take the factor apart once: a takeoff converts half a million values."""
        force_setattr(self, "ratio", self.si_factor.as_integer_ratio())

    def from_si(self, value_si: float) -> float:
        """Convert an SI value to this unit."""
        numerator, denominator = self.ratio
        return value_si * denominator / numerator

    def to_si(self, value: float) -> float:
        """Convert a value in this unit to SI."""
        numerator, denominator = self.ratio
        return value * numerator / denominator


_INCH = Fraction(254, 10_000)
_FOOT = Fraction(3048, 10_000)
_POUND = Fraction(45_359_237, 100_000_000)

PIECE: Final = Unit("piece", Dimension.COUNT, Fraction(1), "H87")
EACH: Final = Unit("each", Dimension.COUNT, Fraction(1), "EA")
MILLIMETRE: Final = Unit("mm", Dimension.LENGTH, Fraction(1, 1000), "MMT")
CENTIMETRE: Final = Unit("cm", Dimension.LENGTH, Fraction(1, 100), "CMT")
METRE: Final = Unit("m", Dimension.LENGTH, Fraction(1), "MTR")
INCH: Final = Unit("in", Dimension.LENGTH, _INCH, "INH")
FOOT: Final = Unit("ft", Dimension.LENGTH, _FOOT, "FOT")
SQUARE_METRE: Final = Unit("m²", Dimension.AREA, Fraction(1), "MTK")
SQUARE_FOOT: Final = Unit("ft²", Dimension.AREA, _FOOT**2, "FTK")
LITRE: Final = Unit("L", Dimension.VOLUME, Fraction(1, 1000), "LTR")
MILLILITRE: Final = Unit("mL", Dimension.VOLUME, Fraction(1, 1_000_000), "MLT")
CUBIC_METRE: Final = Unit("m³", Dimension.VOLUME, Fraction(1), "MTQ")
CUBIC_FOOT: Final = Unit("ft³", Dimension.VOLUME, _FOOT**3, "FTQ")
US_GALLON: Final = Unit("US gal", Dimension.VOLUME, 231 * _INCH**3, "GLL")
US_FLUID_OUNCE: Final = Unit("US fl oz", Dimension.VOLUME, Fraction(231, 128) * _INCH**3, "OZA")
KILOGRAM: Final = Unit("kg", Dimension.MASS, Fraction(1), "KGM")
POUND: Final = Unit("lb", Dimension.MASS, _POUND, "LBR")
HOUR: Final = Unit("h", Dimension.TIME, Fraction(3600), "HUR")
WATT: Final = Unit("W", Dimension.POWER, Fraction(1), "WTT")
AMPERE: Final = Unit("A", Dimension.CURRENT, Fraction(1), "AMP")

UNITS: Final[dict[str, Unit]] = {
    unit.symbol: unit
    for unit in (
        PIECE, EACH, MILLIMETRE, CENTIMETRE, METRE, INCH, FOOT, SQUARE_METRE, SQUARE_FOOT, LITRE,
        MILLILITRE, CUBIC_METRE, CUBIC_FOOT, US_GALLON, US_FLUID_OUNCE, KILOGRAM, POUND, HOUR,
        WATT, AMPERE,
    )
}  # fmt: skip
"""Every unit that may stand in a cell, by symbol."""


class JobUnits(Struct, frozen=True):
    """The units that a job's plain numbers are in, and that its results are shown in."""

    room_length: Unit = METRE
    small_length: Unit = MILLIMETRE
    long_length: Unit = METRE
    area: Unit = SQUARE_METRE
    volume: Unit = LITRE
    mass: Unit = KILOGRAM

    @property
    def is_feet_job(self) -> bool:
        """Whether room lengths are in feet, so that ``5-3-1/2`` may be read as feet and inches."""
        return self.room_length == FOOT

    @property
    def system(self) -> str:
        """System of the job: ``us`` where rooms are measured in feet or inches, else ``metric``."""
        return "us" if self.room_length in (INCH, FOOT) else "metric"

    @property
    def temperature(self) -> TemperatureScale:
        """Scale on which temperatures are shown, and typed where no other stands beside them."""
        return FAHRENHEIT if self.system == "us" else CELSIUS

    @property
    def paper(self) -> str:
        """Paper that a job prints on: ``letter`` where small lengths are in inches, else ``A4``."""
        return "letter" if self.small_length == INCH else "A4"


class Length(Struct, frozen=True):
    """A length in whole 1/320 mm, boxed so that a message can show it in the job's units."""

    mm320: int
    small: bool = True


def mixed(number: Fraction) -> str:
    """Show a number that is not negative as a tape has it.

    >>> mixed(Fraction(127, 2)), mixed(Fraction(1, 4)), mixed(Fraction(0))
    ('63 1/2', '1/4', '0')
    """
    return " ".join(str(part) for part in divmod(number, 1) if part) or "0"


def mm320_to_m(length_mm320: float) -> float:
    """Metres in a length given in 1/320 mm."""
    return length_mm320 / MM320_PER_METRE


def mm320_squared_to_m2(area_mm320: float) -> float:
    """Square metres in an area given in squared 1/320 mm."""
    return area_mm320 / MM320_PER_METRE**2
