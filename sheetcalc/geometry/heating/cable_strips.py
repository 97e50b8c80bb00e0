"""Free floor as strips between the places where a row of cable may lie.

Rows run along x (turn the floor first for the other direction).  Strip ``k`` lies between row
places ``k`` and ``k + 1``; its intervals are the stretches that are free over the strip's whole
width, so anything drawn inside them is inside the free floor.  All lengths in millimetres.
"""

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from math import ceil, floor
from typing import Final, TypeAlias

import shapely
from msgspec import Struct, field
from shapely import Polygon

Interval: TypeAlias = tuple[float, float]
Strip: TypeAlias = tuple[Interval, ...]

EXACT_MM: Final = 1e-6
DECIMALS: Final = 3
"""Places along rows are held to a micrometre, so that equal ones are equal."""


class Lattice(Struct, frozen=True):
    """Places where cable may lie in a zone.

    Attributes
    ----------
    pitch_mm
        Between row places, and along a row between places to turn where there are knobs [mm].
    left_mm, front_mm
        First place along x and along y [mm].
    count
        Strips between row places.
    knobbed
        Whether turns too are held to the pitch.
    """

    pitch_mm: float
    left_mm: float
    front_mm: float
    count: int
    knobbed: bool

    def row_mm(self, index: int) -> float:
        """Y of a row place [mm]."""
        return self.front_mm + index * self.pitch_mm


def lattice_for(
    free: Polygon,
    pitch_mm: float,
    *,
    knobbed: bool,
    knob_mm: tuple[float, float] | None = None,
) -> Lattice:
    """Lay a lattice over a free floor: centred on knobs, else stretched to fit it.

    Parameters
    ----------
    free
        One part of free floor [mm].
    pitch_mm
        Knob pitch, or about the fineness of the search where the spacing is free [mm].
    knobbed
        Whether the pitch is that of knobs.
    knob_mm
        A place between knobs that the lattice goes through: several cables on one underlay [mm].
    """
    left, front, right, back = free.bounds
    if knobbed and knob_mm is not None:
        first_x = knob_mm[0] + ceil((left - knob_mm[0]) / pitch_mm - EXACT_MM) * pitch_mm
        first_y = knob_mm[1] + ceil((front - knob_mm[1]) / pitch_mm - EXACT_MM) * pitch_mm
        count = max(0, floor((back - first_y) / pitch_mm + EXACT_MM))
        return Lattice(pitch_mm, first_x, first_y, count, knobbed=True)
    if knobbed:
        count = floor((back - front) / pitch_mm + EXACT_MM)
        rest_x = (right - left) % pitch_mm
        if pitch_mm - rest_x < EXACT_MM:
            rest_x = 0.0
        rest_y = (back - front) - count * pitch_mm
        return Lattice(pitch_mm, left + rest_x / 2, front + rest_y / 2, count, knobbed=True)
    # never closer than asked for: a whole number of places keeps the least spacing
    count = max(1, floor((back - front) / pitch_mm + EXACT_MM))
    return Lattice((back - front) / count, left, front, count, knobbed=False)


def strips_of(free: Polygon, lattice: Lattice, shortest_mm: float) -> list[Strip]:
    """Free stretches of every strip.

    Parameters
    ----------
    free
        Part of free floor; may have holes and oblique edges [mm].
    lattice
        Row places; on knobs, stretches end on the lattice.
    shortest_mm
        Shorter stretches are dropped [mm].

    Returns
    -------
    list of Strip
        ``lattice.count`` strips; equal neighbours are one object, which makes comparing cheap.
    """
    crossed = _Crossed()
    for ring in (free.exterior, *free.interiors):
        points = shapely.get_coordinates(ring).tolist()
        for (xa, ya), (xb, yb) in pairwise(points):
            if ya <= yb:
                crossed.book(xa, ya, xb, yb, lattice)
            else:
                crossed.book(xb, yb, xa, ya, lattice)
    known: dict[Strip, Strip] = {}
    strips: list[Strip] = []
    upright: list[float] = []
    for k, end in pairwise(crossed.changes(lattice.count)):
        for ended in crossed.ends.get(k, ()):
            upright.remove(ended)
        upright += crossed.begins.get(k, ())
        xs = sorted(upright + crossed.slanting.get(k, []))
        stretches = subtract(list(zip(xs[::2], xs[1::2], strict=False)), crossed.blocked.get(k, ()))
        strip = tuple(x for s in stretches if (x := _snapped(s, lattice, shortest_mm)) is not None)
        strips += [known.setdefault(strip, strip)] * (end - k)
    return strips


class _Crossed(Struct):
    """Where edges cross strips: once for all the strips that an upright edge passes.

    Attributes
    ----------
    begins, ends
        X of upright edges by the first strip that they cross, and by the first that no more [mm].
    slanting
        X at which other edges cross the middle of a strip, by strip [mm].
    blocked
        What these edges, and those along a strip, take of it, by strip [mm].
    """

    begins: defaultdict[int, list[float]] = field(default_factory=lambda: defaultdict(list))
    ends: defaultdict[int, list[float]] = field(default_factory=lambda: defaultdict(list))
    slanting: defaultdict[int, list[float]] = field(default_factory=lambda: defaultdict(list))
    blocked: defaultdict[int, list[Interval]] = field(default_factory=lambda: defaultdict(list))

    def changes(self, count: int) -> list[int]:
        """Give the strips that may differ from the one before, the first too, and how many are."""
        alone = self.slanting.keys() | self.blocked.keys()
        behind = {k + 1 for k in alone}
        return sorted({0, count, *self.begins, *self.ends, *alone, *behind})

    def book(self, xa: float, ya: float, xb: float, yb: float, lattice: Lattice) -> None:
        """Book an edge, given from front to back, in every strip that it passes."""
        pitch, front = lattice.pitch_mm, lattice.front_mm
        first = max(0, floor((ya - front) / pitch + EXACT_MM))
        last = min(lattice.count, ceil((yb - front) / pitch - EXACT_MM))
        if yb - ya < EXACT_MM:
            inside = (ya - front) / pitch
            if first < lattice.count and EXACT_MM < inside - first < 1 - EXACT_MM and inside > 0:
                self.blocked[first].append((min(xa, xb), max(xa, xb)))
            return
        if abs(xb - xa) < EXACT_MM:
            while first < last and front + (first + 0.5) * pitch < ya:
                first += 1
            while first < last and front + (last - 0.5) * pitch >= yb:
                last -= 1
            if first < last:
                self.begins[first].append(xa)
                self.ends[last].append(xa)
            return
        slope = (xb - xa) / (yb - ya)
        for k in range(first, last):
            low = front + k * pitch
            middle = low + pitch / 2
            if ya <= middle < yb:
                self.slanting[k].append(xa + (middle - ya) * slope)
            enter = xa + (max(ya, low) - ya) * slope
            leave = xa + (min(yb, low + pitch) - ya) * slope
            self.blocked[k].append((min(enter, leave), max(enter, leave)))


def _snapped(stretch: Interval, lattice: Lattice, shortest_mm: float) -> Interval | None:
    """Stretch pulled in to the lattice; None where too short."""
    left, right = stretch
    if lattice.knobbed:
        origin, pitch = lattice.left_mm, lattice.pitch_mm
        left = origin + ceil((left - origin) / pitch - EXACT_MM) * pitch
        right = origin + floor((right - origin) / pitch + EXACT_MM) * pitch
    left, right = round(left, DECIMALS), round(right, DECIMALS)
    return (left, right) if right - left >= shortest_mm - EXACT_MM else None


def free_mm(strip: Strip) -> float:
    """Length of the free stretches of a strip [mm]."""
    return sum(b - a for a, b in strip)


def subtract(stretches: Sequence[Interval], taken: Sequence[Interval]) -> list[Interval]:
    """Stretches less what is taken out of them."""
    left = list(stretches)
    for a, b in taken:
        rest = []
        for x1, x2 in left:
            if b <= x1 or a >= x2:
                rest.append((x1, x2))
                continue
            if a > x1:
                rest.append((x1, a))
            if b < x2:
                rest.append((b, x2))
        left = rest
    return left


def common(first: Strip, second: Strip, shortest_mm: float) -> Strip:
    """Stretches that two strips share, the short ones dropped."""
    if first is second or not first:
        return first
    found = []
    for a1, a2 in first:
        for b1, b2 in second:
            low = max(a1, b1)
            high = min(a2, b2)
            if high - low >= shortest_mm - EXACT_MM:
                found.append((low, high))
    # the same object where nothing is lost: comparing stays cheap further on
    result = tuple(found)
    if result == first:
        return first
    return second if result == second else result


def bands_of(strips: Sequence[Strip], tallest: int, shortest_mm: float) -> list[list[Strip]]:
    """Stretches free over several strips at once.

    Returns
    -------
    list of list of Strip
        ``bands[g][k]``: free over the strips ``k`` to ``k + g - 1``.
    """
    bands: list[list[Strip]] = [[], list(strips)]
    changes = [k for k in range(1, len(strips)) if strips[k] is not strips[k - 1]]
    for height in range(2, tallest + 1):
        # nothing new where the strip at one end is like its neighbour
        lower = bands[-1]
        band = lower[: max(0, len(strips) - height + 1)]
        for back in changes:
            k = back - height + 1
            if k >= 0 and strips[k] is strips[k + 1]:
                band[k] = lower[k + 1]
            elif k >= 0:
                band[k] = common(lower[k], strips[back], shortest_mm)
        bands.append(band)
    return bands


def missed_mm(strip: Strip, rows: Strip, reach_mm: float) -> float:
    """Length of a strip that rows above or below it don't heat.

    Parameters
    ----------
    strip
        Free stretches.
    rows
        Stretches with cable beside the strip.
    reach_mm
        A row heats this far past its end [mm].
    """
    if strip is rows:
        return 0.0
    total = 0.0
    for x1, x2 in strip:
        at = x1
        for r1, r2 in rows:
            if r2 <= x1 or r1 >= x2:
                continue
            # the piece before this row, heated a little from its ends
            gap = r1 - at
            if gap > 0:
                total += max(0.0, gap - (reach_mm if at == x1 else 2 * reach_mm))
            at = max(at, r2)
        if at < x2:
            total += x2 - at if at == x1 else max(0.0, x2 - at - reach_mm)
    return total
