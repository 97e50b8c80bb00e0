"""Which stocked cables may go into a zone, and the plain estimate by area and spacing."""

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


def target_spacing_m(cable: Cable, job: Job) -> float:
    """Mean spacing at which a cable gives the Job's target density [m]."""
    return watts_per_m(cable) / job.target_density_w_m2


def required_length_m(area_m2: float, spacing_m: float) -> float:
    """Length of cable by area and spacing, L = A / s (derived) [m]."""
    return area_m2 / spacing_m


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


def longest_that_fits(lengths: Sequence[float], required: float) -> float | None:
    """Longest stocked length that is not longer than required; None where all are.

    Examples
    --------
    40 ft2 at 3.5 in asks for 137.1 ft:

    >>> longest_that_fits((50, 70, 100, 130, 160), 40 / (3.5 / 12))
    130
    """
    return max((x for x in lengths if x <= required * (1 + _EXACT)), default=None)


def estimated_cable(area_m2: float, cables: Sequence[Cable], job: Job) -> Cable | None:
    """Cable that the plain estimate picks: longest stocked one within area / target spacing.

    Parameters
    ----------
    area_m2
        Free floor [m²].
    cables
        Cables of one range.
    job
        For the target density.

    Returns
    -------
    Cable or None
        None where even the shortest cable is too long at the target spacing.
    """
    fitting = [
        c
        for c in cables
        if length_m(c) <= required_length_m(area_m2, target_spacing_m(c, job)) * (1 + _EXACT)
    ]
    return max(fitting, key=length_m, default=None)


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
