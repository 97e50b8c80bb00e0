"""Figures in a Basis: values shown in the job's units, in few digits."""

from math import floor, log10

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import CUBIC_FOOT, FOOT, INCH, MM320_PER_METRE, PIECE, POUND, Unit
from sheetcalc.units import show_length, show_measured, show_tape

_PLACES = {"mm": 2, "in": 3, "m": 3, "ft": 2, "m²": 3, "ft²": 2, "kg": 2, "lb": 2, "L": 3}
_OTHER_PLACES = 3


def number(value: float, places: int = _OTHER_PLACES) -> str:
    """Show a number in at most ``places`` decimals, without trailing zeros."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def in_unit(value_si: float, unit: Unit, digits: int = 0) -> str:
    """Show an SI value in a unit, with the unit's symbol; in at least so many digits that count."""
    value = unit.from_si(value_si)
    places = _PLACES.get(unit.symbol, _OTHER_PLACES)
    if value and digits:
        places = max(places, digits - 1 - floor(log10(abs(value))))
    return f"{number(value, places)} {unit.symbol}"


def in_pack_unit(value: float, unit: Unit, places: int = _OTHER_PLACES) -> str:
    """Show an amount counted in the unit of a pack: ``1 piece``, ``8 pieces``, ``35.333 ft``."""
    return f"{number(value, places)} {unit.symbol}{'s' if unit == PIECE and value != 1 else ''}"


def small(length_m: float, job: Job) -> str:
    """Show a small length given in metres: tiles, joints, beds."""
    return in_unit(length_m, job.units.small_length)


def small_mm320(length_mm320: int, job: Job) -> str:
    """Show a small length given in whole 1/320 mm, exactly: inches as fractions."""
    return show_length(length_mm320, job.units.small_length)


def measured_mm320(length_mm320: int, job: Job) -> str:
    """Show a small length that was worked out, as it is found on a tape."""
    return show_measured(length_mm320, job.units.small_length)


def on_tape(length_m: float, job: Job) -> str:
    """Say what a tape shows of a length that was worked out, in a clause; "" where in metric."""
    if job.units.small_length != INCH:
        return ""
    return f"; {show_tape(round(length_m * MM320_PER_METRE), INCH)} on a tape"


def long(length_m: float, job: Job) -> str:
    """Show a length along a room, a roll or a joint."""
    return in_unit(length_m, job.units.long_length)


def area(area_m2: float, job: Job, digits: int = 0) -> str:
    """Show an area."""
    return in_unit(area_m2, job.units.area, digits)


def volume(volume_m3: float, job: Job, digits: int = 0) -> str:
    """Show a volume."""
    return in_unit(volume_m3, job.units.volume, digits)


def mass(mass_kg: float, job: Job) -> str:
    """Show a mass."""
    return in_unit(mass_kg, job.units.mass)


def load(load_kg_m2: float, job: Job) -> str:
    """Show a mass per area."""
    per_area = job.units.mass.from_si(load_kg_m2) * job.units.area.to_si(1)
    return f"{number(per_area, 2)} {job.units.mass.symbol}/{job.units.area.symbol}"


def density(density_kg_m3: float, job: Job) -> str:
    """Show a density: kg/m³, or lb/ft³ where the job weighs in pounds."""
    if job.units.mass == POUND:
        return f"{number(POUND.from_si(density_kg_m3) * CUBIC_FOOT.to_si(1), 1)} lb/ft³"
    return f"{number(density_kg_m3, 1)} kg/m³"


def percent(share: float) -> str:
    """Show a share as a percentage."""
    return f"{number(share * 100, 2)} %"


def plural(count: float, one: str, many: str = "") -> str:
    """Show a count with its noun."""
    return f"{number(count)} {one if count == 1 else many or one + 's'}"


def uses_inches(job: Job) -> bool:
    """Whether the job's small lengths are in inches, so that limits printed in inches apply."""
    return job.units.small_length in {INCH, FOOT}
