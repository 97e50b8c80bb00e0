"""Lower bounds beside a roll plan: no plan of the same strips needs fewer rolls."""

from collections import defaultdict
from collections.abc import Sequence

from msgspec import Struct

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Leftover, Strip
from sheetcalc.geometry.rolls.cutting_stock import least_stock
from sheetcalc.geometry.rolls.roll_solver import lp_bound


class Bound(Struct, frozen=True):
    """A bound, and in words what it is worked from."""

    rolls: int
    by: str


def bound_of(
    groups: Sequence[Sequence[Strip]], roll: Roll, leftovers: Sequence[Leftover], job: Job
) -> Bound:
    """Count rolls that any plan of strips needs.

    By area; by strips wider than half the roll, of which no two lie side by side (Martello and
    Toth's second bound, from memory, not verified); and where the job asks for the solver and it
    is installed, by linear programming over cutting patterns, each strip counted by its share of
    the width: a line along the roll, anywhere across it, crosses strips that are one pattern.

    Parameters
    ----------
    groups
        Strips that may share rolls; groups share none.
    roll
        Its width and length.
    leftovers
        Rests that may be used: by area what they hold, else each stands for a roll.
    job
        ``roll_solver``.
    """
    total, names = 0, set()
    for group in groups:
        bounds = _of_group(group, roll, leftovers, job)
        name = max(bounds, key=lambda by: bounds[by])  # by area, of equal ones
        names.add(name)
        total += max(0, bounds[name])
    return Bound(total, " and ".join(sorted(names)) or "area")


def _of_group(
    strips: Sequence[Strip], roll: Roll, leftovers: Sequence[Leftover], job: Job
) -> dict[str, int]:
    """Bounds of strips that may share rolls, by what they are worked from."""
    width, length = roll.width_mm320, roll.length_mm320
    area = sum(s.length_mm320 * s.width_mm320 for s in strips)
    spare = sum(rest.length_mm320 for rest in leftovers) * width
    bounds = {"area": -(-(area - spare) // (width * length))}
    wide = [s.length_mm320 for s in strips if 2 * s.width_mm320 > width]
    if wide:
        bounds["wide strips"] = least_stock(wide, length) - len(leftovers)
    if job.roll_solver:
        shares: defaultdict[int, float] = defaultdict(float)
        for strip in strips:
            shares[strip.length_mm320] += strip.width_mm320 / width
        solved = lp_bound(shares, length)
        if solved is not None:
            bounds["linear programming"] = solved - len(leftovers)
    return bounds
