"""What would make a stocked cable fit a zone that has none: planned and checked, not guessed.

Smaller spacing, a smaller clearance, the zone in two, or a cable of another length at the same
power per metre: each is planned as any zone is, and only what comes out is proposed.
"""

from collections.abc import Callable, Iterator
from math import ceil
from typing import Final

import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import Polygon

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE, MM320_PER_MM
from sheetcalc.geometry.heating.cable_choice import (
    area_words,
    by_density,
    length_words,
    watts_per_m,
)
from sheetcalc.geometry.heating.cable_split import split
from sheetcalc.geometry.heating.cable_zone import (
    LEAST_SHARE,
    MOST_CABLES,
    LaidCable,
    choices,
    plan_zone,
    rules_for,
)
from sheetcalc.geometry.heating.free_floor import SQUARE_MM_PER_M2, HeatedZone

MOST_REMEDIES: Final = 3

_LEAST_CLEARANCE_MM: Final = 25.0
_CLEARANCE_STEP_MM: Final = 12.7
_CLEARANCES: Final = (
    ("clearance_wall_mm320", "walls"),
    ("clearance_drain_mm320", "drains"),
    ("clearance_cabinet_mm320", "fixed cabinets"),
    ("clearance_outlet_mm320", "outlets and pipes"),
)
_OTHER_LENGTHS: Final = (1.0, 0.95, 1.05, 0.9, 1.1, 0.8, 1.2)
_NEAREST_TRIED: Final = 3
_MM_PER_M: Final = 1000.0


class ToRemedy(Struct, frozen=True):
    """A zone that no stocked cable fits.

    Attributes
    ----------
    zone, cables, job, knob_pitch_mm, towards
        As it was planned.
    with_job
        The same zone with the clearances of another Job; None where it is gone.
    """

    zone: HeatedZone
    cables: tuple[Cable, ...]
    job: Job
    knob_pitch_mm: float | None
    towards: tuple[float, float]
    with_job: Callable[[Job], HeatedZone | None]

    def laid(self, zone: HeatedZone, cables: tuple[Cable, ...], job: Job) -> tuple[LaidCable, ...]:
        """Plan a zone that is changed; nothing where it is not planned."""
        return plan_zone(zone, cables, job, self.knob_pitch_mm, self.towards).laid


def remedies(case: ToRemedy) -> tuple[str, ...]:
    """Find changes that would make a cable fit, in words; at most ``MOST_REMEDIES``.

    Parameters
    ----------
    case
        The zone as it was planned in vain.

    Returns
    -------
    tuple of str
        Empty where nothing that was tried fits.
    """
    found: list[str] = []
    for way in (_smaller_spacing, _smaller_clearance, _in_parts, _other_length):
        found += way(case)
        if len(found) >= MOST_REMEDIES:
            break
    return tuple(found[:MOST_REMEDIES])


def _smaller_spacing(case: ToRemedy) -> Iterator[str]:
    """Try stocked cables with their runs nearer than their rows say, as far as bends allow."""
    area = case.zone.free_m2
    for cable in by_density(area, case.cables, case.job)[:_NEAREST_TRIED]:
        rules = rules_for(cable, case.knob_pitch_mm)
        least = 2 * rules.radius_mm
        if rules.nearest_mm <= least:
            continue
        closer = replace(cable, smallest_spacing_mm320=round(least * MM320_PER_MM))
        laid = case.laid(case.zone, (closer,), case.job)
        if laid:
            nearest = min(min(x.plan.steps) * x.plan.lattice.pitch_mm for x in laid)
            yield (
                f"{_several(laid)} with runs {_small(nearest, case.job)} apart instead of at least "
                f"{_small(rules.nearest_mm, case.job)}"
            )
            return


def _smaller_clearance(case: ToRemedy) -> Iterator[str]:
    """Try smaller clearances, in half inches down to one inch, the largest first."""
    for field, things in _CLEARANCES:
        now = getattr(case.job, field) / MM320_PER_MM
        for step in range(1, ceil(now / _CLEARANCE_STEP_MM)):
            clear = round(now - step * _CLEARANCE_STEP_MM)
            if clear < _LEAST_CLEARANCE_MM:
                break
            job = replace(case.job, **{field: clear * MM320_PER_MM})
            zone = case.with_job(job)
            if zone is None or zone.free_m2 <= case.zone.free_m2:
                break  # nothing of this kind is near
            largest = max(p.area for p in shapely.get_parts(zone.free)) / SQUARE_MM_PER_M2
            if not choices(largest, case.cables, job):
                continue
            laid = case.laid(zone, case.cables, job)
            if laid:
                yield (
                    f"{_several(laid)} with {_small(clear, job)} clear of {things} instead of "
                    f"{_small(now, job)}"
                )
                break


def _in_parts(case: ToRemedy) -> Iterator[str]:
    """Try the zone in two, side by side; say in how many at least where the range is short."""
    target = LEAST_SHARE * case.job.target_density_w_m2 * case.zone.free_m2
    longest = max(c.watts for c in case.cables)
    zones = ceil(target / (MOST_CABLES * longest))
    if zones > 1:
        yield (
            f"at least {zones} zones (insets with Heating of their own) of up to "
            f"{area_words(case.zone.free_m2 / zones, case.job)}, {MOST_CABLES} cables in each"
        )
        return
    parts = [p for p in shapely.get_parts(case.zone.free) if isinstance(p, Polygon)]
    if not parts:
        return
    apart = max(rules_for(c, case.knob_pitch_mm).nearest_mm for c in case.cables)
    halves = [
        case.laid(replace(case.zone, free=half), case.cables, case.job)
        for half in split(max(parts, key=lambda p: p.area), (1, 1), apart)
    ]
    if all(halves):
        yield f"two zones of one half each: {' and '.join(_several(half) for half in halves)}"


def _other_length(case: ToRemedy) -> Iterator[str]:
    """Try lengths that are not stocked, the nearest to the target first."""
    like = min(case.cables, key=lambda c: (abs(c.watts - _target_w(case)), c.code))
    for share in _OTHER_LENGTHS:
        watts = share * _target_w(case)
        if watts > case.job.highest_density_w_m2 * case.zone.free_m2:
            continue
        metres = round(watts / watts_per_m(like), 1)
        if metres <= 0:
            continue
        made = replace(
            like,
            length_mm320=round(metres * MM320_PER_METRE),
            watts=metres * watts_per_m(like),
        )
        if len(case.laid(case.zone, (made,), case.job)) == 1:
            yield (
                f"a cable of {length_words(metres, case.job)}, {made.watts:.0f} W, which is not "
                "stocked"
            )
            return


def _target_w(case: ToRemedy) -> float:
    return case.job.target_density_w_m2 * case.zone.free_m2


def _several(laid: tuple[LaidCable, ...]) -> str:
    return " + ".join(x.cable.code for x in laid)


def _small(length_mm: float, job: Job) -> str:
    """Small length in the job's unit, with the unit."""
    unit = job.units.small_length
    return f"{unit.from_si(length_mm / _MM_PER_M):.3g} {unit.symbol}"
