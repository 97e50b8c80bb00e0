"""Cables and paths of one zone together: which stocked cables, where, and verified.

Every stocked cable of the range, alone or several in parallel, is ordered by how near it comes to
the target density; the first whose path verifies and leaves little floor cold is taken.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations_with_replacement
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.geometry.heating.cable_check import MustKeep, PathCheck, check_path
from sheetcalc.geometry.heating.cable_choice import area_words, density_words
from sheetcalc.geometry.heating.cable_path import PathPlan, plan_path
from sheetcalc.geometry.heating.cable_spacing import CableRules
from sheetcalc.geometry.heating.cable_split import polygons_of, split
from sheetcalc.geometry.heating.cable_strips import lattice_for
from sheetcalc.geometry.heating.free_floor import SQUARE_MM_PER_M2, HeatedZone

DEFAULT_RADIUS_MM: Final = 25.0
"""Bend radius where the cable's row has none: common practice, no source."""

DEFAULT_NEAREST_MM: Final = 50.0
"""Smallest spacing where the cable's row has none: common practice, no source."""

LEAST_SHARE: Final = 0.6
"""A choice of cables below this share of the target density is not offered."""

MOST_CABLES: Final = 4
"""Cables in parallel in one part of a zone, at most."""

TRIES: Final = 6
"""A hard zone stops after this many choices of cable with the best plan found."""

_ANOTHER_CABLE: Final = 0.12  # a cable more must bring the density this much nearer
_GOOD: Final = 0.08  # share of the floor left cold at which nothing further is tried
_WORTH_NAMING_MM2: Final = 20_000.0
_LENGTH_RATIO: Final = 2.0
_EXACT: Final = 1e-9


class LaidCable(Struct, frozen=True):
    """One cable with its verified path and the part of the free floor that it heats [mm]."""

    cable: Cable
    plan: PathPlan
    check: PathCheck
    free: Polygon
    rules: CableRules


class ZonePlan(Struct, frozen=True):
    """Cables laid in a zone; why a part has none; parts that are left out."""

    laid: tuple[LaidCable, ...]
    reasons: tuple[str, ...]
    left_out: tuple[Polygon, ...]


def rules_for(cable: Cable, knob_pitch_mm: float | None) -> CableRules:
    """Distances that a cable's path keeps, with the stated defaults where its row is empty."""
    radius = (
        cable.bend_radius_mm320 / MM320_PER_MM if cable.bend_radius_mm320 else DEFAULT_RADIUS_MM
    )
    nearest = (
        cable.smallest_spacing_mm320 / MM320_PER_MM
        if cable.smallest_spacing_mm320
        else DEFAULT_NEAREST_MM
    )
    return CableRules(
        cable.length_mm320 / MM320_PER_MM,
        max(nearest, 2 * radius),
        radius,
        knob_pitch_mm,
        one_end=cable.leads == "one end",
    )


def choices(area_m2: float, cables: Sequence[Cable], job: Job) -> list[tuple[Cable, ...]]:
    """Cables, alone or in parallel, between least and highest density, nearest to target first.

    Parameters
    ----------
    area_m2
        Free floor [m²].
    cables
        Of one range.
    job
        Target and highest density.
    """
    target = job.target_density_w_m2 * area_m2
    highest = job.highest_density_w_m2 * area_m2 * (1 + _EXACT)
    found: list[tuple[float, list[int], tuple[Cable, ...]]] = []
    for count in range(1, MOST_CABLES + 1):
        sets = _sets(tuple(cables), count)
        offered = np.flatnonzero((sets.watts <= highest) & (sets.watts >= LEAST_SHARE * target))
        penalty = np.abs(sets.watts[offered] - target) / target + _ANOTHER_CABLE * (count - 1)
        found += [
            (much, sets.ranks[i], sets.cables[i])
            for much, i in zip(penalty.tolist(), offered.tolist(), strict=True)
        ]
        if len(offered) and penalty.min() < _ANOTHER_CABLE * count:
            break
    return [chosen for _, _, chosen in sorted(found)]


class _Sets(Struct, frozen=True):
    """Cables that may lie in parallel, with repeats: none longer than twice another.

    Attributes
    ----------
    cables
        Of each set, the shortest first.
    ranks
        Theirs by code: of equal sets the first by code is taken.
    watts
        Of each set together [W].
    """

    cables: list[tuple[Cable, ...]]
    ranks: list[list[int]]
    watts: NDArray[np.float64]


@lru_cache(maxsize=4 * MOST_CABLES)
def _sets(cables: tuple[Cable, ...], count: int) -> _Sets:
    """Every set of so many out of a range, shortest first; kept for its next zone."""
    rank_of = np.argsort(np.argsort([c.code for c in cables])).tolist()
    every = combinations_with_replacement(range(len(cables)), count)
    chosen = [
        numbers
        for numbers in every
        if cables[numbers[-1]].length_mm320 <= _LENGTH_RATIO * cables[numbers[0]].length_mm320
    ]
    watts = np.array([c.watts for c in cables])[np.array(chosen, dtype=np.int64)].sum(axis=1)
    return _Sets(
        [tuple(cables[i] for i in numbers) for numbers in chosen],
        [[rank_of[i] for i in numbers] for numbers in chosen],
        watts,
    )


def plan_zone(
    zone: HeatedZone,
    cables: Sequence[Cable],
    job: Job,
    knob_pitch_mm: float | None,
    towards: tuple[float, float],
) -> ZonePlan:
    """Lay the cables of a zone.

    Parameters
    ----------
    zone
        With its free floor.
    cables
        Of its range, for this supply.
    job
        Densities and clearances.
    knob_pitch_mm
        Of the underlay; None where the spacing is free.
    towards
        The thermostat, or where the ends should be near [mm].

    Returns
    -------
    ZonePlan
        Only verified paths.
    """
    parts = sorted(_parts(zone.free, cables, job), key=lambda p: -p.area)
    laid: list[LaidCable] = []
    reasons: list[str] = []
    left_out: list[Polygon] = []
    least_watts = min(c.watts for c in cables)
    for part in parts:
        area = part.area / SQUARE_MM_PER_M2
        if part is not parts[0] and least_watts > job.highest_density_w_m2 * area:
            left_out.append(part)
            continue
        tried = _plan_part(zone, part, cables, job, knob_pitch_mm, towards)
        laid += tried.laid
        left_out += tried.left_out
        reasons += tried.reasons
    return ZonePlan(tuple(laid), tuple(reasons), tuple(left_out))


def _parts(free: BaseGeometry, cables: Sequence[Cable], job: Job) -> list[Polygon]:
    """Parts of free floor that cables are laid in one by one.

    A path goes and comes back, so it passes no neck narrower than its smallest spacing.  Beyond
    one is a part of its own, if any cable is short enough for it; else the cable that was chosen
    for all of it would crowd into one part.
    """
    narrow = min(rules_for(cable, None).nearest_mm for cable in cables)
    least = min(c.watts for c in cables) / job.highest_density_w_m2 * SQUARE_MM_PER_M2
    parts: list[Polygon] = []
    for whole in polygons_of(free):
        cores = polygons_of(shapely.buffer(whole, -narrow / 2, join_style="mitre"))
        several = [core for core in cores if core.area >= least]
        if len(several) <= 1:
            parts.append(whole)
            continue
        taken: list[Polygon] = []
        for core in sorted(several, key=lambda p: -p.area):
            grown = shapely.buffer(core, narrow / 2, join_style="mitre")
            beside = shapely.buffer(shapely.union_all(taken), narrow, join_style="mitre")
            mine = shapely.difference(shapely.intersection(whole, grown), beside)
            taken += sorted(polygons_of(mine), key=lambda p: -p.area)[:1]
        parts += taken
    return parts


def _plan_part(  # noqa: PLR0913, PLR0917 - a part and all that decides on its cables
    zone: HeatedZone,
    part: Polygon,
    cables: Sequence[Cable],
    job: Job,
    knob_pitch_mm: float | None,
    towards: tuple[float, float],
) -> ZonePlan:
    """Lay one part of free floor: the best verified choice within ``TRIES``."""
    area = part.area / SQUARE_MM_PER_M2
    offered = choices(area, cables, job)
    if not offered:
        return ZonePlan((), (_why_none(area, cables, job),), (part,))
    best: tuple[float, ZonePlan] | None = None
    reason = ""
    for rank, chosen in enumerate(offered[:TRIES]):
        made, why = _lay(zone, part, chosen, job, knob_pitch_mm, towards)
        named = " + ".join(c.code for c in chosen)
        if not made:
            reason = reason or f"{named}: {why}"
            continue
        lost = _lost(part, made)
        plan = ZonePlan(tuple(made), (), tuple(lost))
        cold = (sum(x.plan.cold_mm2 for x in made) + sum(p.area for p in lost)) / part.area
        if cold <= _GOOD:
            return plan
        density = sum(c.watts for c in chosen) / (area * (1 - cold))
        if density > job.highest_density_w_m2:
            reason = reason or f"{named}: {_crowded(density, job)}"
            continue
        if best is None or cold + rank * _GOOD / 2 < best[0]:
            best = (cold + rank * _GOOD / 2, plan)
    return best[1] if best else ZonePlan((), (reason,), (part,))


def _crowded(density_w_m2: float, job: Job) -> str:
    return (
        f"it reaches only a part of the floor, which would get {density_words(density_w_m2, job)}, "
        f"above the highest {density_words(job.highest_density_w_m2, job)}"
    )


def _lost(part: Polygon, made: Sequence[LaidCable]) -> list[Polygon]:
    """Pieces of a part that splitting cut off from the shares; not the gaps between these."""
    if len(made) <= 1:
        return []
    gap = max(x.rules.nearest_mm + (x.rules.knob_pitch_mm or 0.0) for x in made)
    left, front, right, back = part.bounds
    gaps = (len(made) - 1) * gap * min(right - left, back - front)
    if part.area - sum(x.free.area for x in made) < max(gaps, _WORTH_NAMING_MM2):
        return []  # nothing but the gaps is left: not worth the closer look
    near = shapely.buffer([x.free for x in made], gap, join_style="mitre")
    rest = shapely.difference(part, shapely.union_all(near))
    return [p for p in polygons_of(rest) if p.area > _WORTH_NAMING_MM2]


def _why_none(area_m2: float, cables: Sequence[Cable], job: Job) -> str:
    """Say why no choice of cables comes between the least and the highest density."""
    shortest = cables[0]
    if shortest.watts > job.highest_density_w_m2 * area_m2:
        return (
            f"the shortest cable would give {density_words(shortest.watts / area_m2, job)}, above "
            f"the highest {density_words(job.highest_density_w_m2, job)}; it needs "
            f"{area_words(shortest.watts / job.highest_density_w_m2, job)} of free floor"
        )
    return (
        f"no cable, nor {MOST_CABLES} in parallel, comes between {LEAST_SHARE:.0%} of the target "
        f"{density_words(job.target_density_w_m2, job)} and the highest "
        f"{density_words(job.highest_density_w_m2, job)}"
    )


def _lay(  # noqa: PLR0913, PLR0917 - as above, for one choice
    zone: HeatedZone,
    part: Polygon,
    chosen: Sequence[Cable],
    job: Job,
    knob_pitch_mm: float | None,
    towards: tuple[float, float],
) -> tuple[list[LaidCable], str]:
    """Lay these cables, each in its share of a part; nothing where one can't be laid."""
    rules = [rules_for(c, knob_pitch_mm) for c in chosen]
    apart = max(r.nearest_mm for r in rules)
    made = []
    knobs = None
    if knob_pitch_mm and len(chosen) > 1:  # one underlay: their rows lie on one lattice
        knobs = lattice_for(part, knob_pitch_mm, knobbed=True)
        rules = [replace(r, knob_mm=(knobs.left_mm, knobs.front_mm)) for r in rules]
    shares = split(part, [c.watts for c in chosen], apart, knobs)
    for cable, rule, share in zip(chosen, rules, shares, strict=True):
        if share.is_empty:
            return [], "too little floor for so many cables"
        plan, why = plan_path(share, rule, towards)
        if plan is None:
            return [], why
        check = check_again(zone, plan, rule, job)
        if check.wrong:
            return [], "the planned path does not verify: " + ", ".join(check.wrong)
        made.append(LaidCable(cable, plan, check, share, rule))
    return made, ""


def check_again(zone: HeatedZone, plan: PathPlan, rules: CableRules, job: Job) -> PathCheck:
    """Check a path on its true curve against its cable, its zone and the Job's clearances."""
    keep = MustKeep(
        rules.length_mm,
        rules.nearest_mm,
        rules.radius_mm,
        zone.room_floor,
        job.clearance_wall_mm320 / MM320_PER_MM,
        zone.floor,
        zone.obstacles,
    )
    return check_path(plan.path, rules.radius_mm, keep)
