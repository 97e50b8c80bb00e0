"""Which stocked cables may go into a zone, and words for them."""

from collections.abc import Iterable, Sequence

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_to_m

_EXACT = 1e-9


def length_m(cable: Cable) -> float:
    """Length of the heating part of a cable [m]."""
    return mm320_to_m(cable.length_mm320)


def watts_per_m(cable: Cable) -> float:
    """Power per metre of a cable [W/m]."""
    return cable.watts / length_m(cable)


def spacing_for_m(area_m2: float, cable_length_m: float) -> float:
    """Spacing at which a cable just covers an area, s = A / L (derived) [m]."""
    return area_m2 / cable_length_m


def cables_of_range(cables: Iterable[Cable], range_name: str) -> tuple[Cable, ...]:
    """Cables of a range, shortest first; the first source of a code only."""
    wanted = range_name.strip().casefold()
    return tuple(
        sorted(
            (c for c in cables if c.range_name.strip().casefold() == wanted),
            key=lambda c: (c.length_mm320, c.code),
        )
    )


def by_density(area_m2: float, cables: Sequence[Cable], job: Job) -> tuple[Cable, ...]:
    """Cables whose power does not pass the highest density, nearest to the target first."""
    allowed = [c for c in cables if c.watts <= job.highest_density_w_m2 * area_m2 * (1 + _EXACT)]
    target = job.target_density_w_m2 * area_m2
    return tuple(sorted(allowed, key=lambda c: (abs(c.watts - target), c.code)))


_WHOLE = 100
"""Densities from here on are told without decimals."""


def area_words(area_m2: float, job: Job) -> str:
    """Area in the job's unit, with the unit."""
    unit = job.units.area
    return f"{unit.from_si(area_m2):.3g} {unit.symbol}"


def density_words(watts_m2: float, job: Job) -> str:
    """Power for an area in the job's unit, with the unit."""
    unit = job.units.area
    density = unit.to_si(watts_m2)
    # to three figures, and never as 1.08e+03
    return (
        f"{density:.0f} W/{unit.symbol}" if density >= _WHOLE else f"{density:.3g} W/{unit.symbol}"
    )


def length_words(metres: float, job: Job) -> str:
    """Length of a cable in the job's unit, with the unit."""
    unit = job.units.long_length
    return f"{unit.from_si(metres):.2f} {unit.symbol}"
