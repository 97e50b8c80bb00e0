"""Independent check of a drawn cable on its true curve: nothing of the planner is trusted here.

Length, distance from walls and from what stands in the floor, distance between runs, crossings and
bends are measured with shapely on the curve with its corners rounded.  Everything in millimetres.
"""

from collections.abc import Sequence
from operator import sub
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.cable_curve import Points, rounded, without_repeats
from sheetcalc.geometry.heating.free_floor import Obstacle

LARGEST_MISS_MM: Final = 30.0
"""A planned path may miss its cable's length by this."""

SLACK_MM: Final = 0.1
"""Clearances and distances are met to this."""

_BEND: Final = 1.6
"""Runs this many spacings apart along the cable, or less, may be near each other in a bend."""

_STRAIGHT: Final = 1e-9
_NO_LENGTH: Final = 1e-6


class PathCheck(Struct, frozen=True):
    """What was measured on the true curve, and what is wrong with it.

    Attributes
    ----------
    length_mm
        Of the curve.
    short_mm
        Largest amount by which a clearance is short; 0 where none is.
    crosses
        Whether the cable crosses or touches itself.
    wrong
        In words; empty where everything holds.
    curve
        What was measured [mm].
    """

    length_mm: float
    short_mm: float
    crosses: bool
    wrong: tuple[str, ...]
    curve: LineString


class MustKeep(Struct, frozen=True):
    """What a path is held against.

    Attributes
    ----------
    length_mm
        Of the cable.
    nearest_mm
        Between two runs.
    radius_mm
        Of bends, at least.
    room_floor, wall_clearance_mm
        The outline of the room and the distance from it.
    zone
        Floor that the cable may not leave.
    obstacles
        Things with their clearances.
    """

    length_mm: float
    nearest_mm: float
    radius_mm: float
    room_floor: BaseGeometry
    wall_clearance_mm: float
    zone: BaseGeometry
    obstacles: Sequence[Obstacle]


def check_path(path: Points, radius_mm: float, keep: MustKeep) -> PathCheck:
    """Measure a path on its true curve.

    Parameters
    ----------
    path
        Corners from start to end.
    radius_mm
        Radius that its corners are drawn with.
    keep
        What it is held against.

    Returns
    -------
    PathCheck
        ``wrong`` is empty where the path may be written.
    """
    drawn = rounded(path, radius_mm)
    points = without_repeats(drawn)
    curve = shapely.linestrings(points)
    wrong: list[str] = []
    length = float(curve.length)
    if abs(length - keep.length_mm) > LARGEST_MISS_MM:
        wrong.append(f"length misses by {length - keep.length_mm:+.0f} mm")
    short = _short_by(curve, keep)
    if short > SLACK_MM:
        wrong.append(f"a clearance is short by {short:.1f} mm")
    if not keep.zone.covers(curve):
        wrong.append("leaves its zone")
    crosses = not curve.is_simple
    if crosses:
        wrong.append("crosses itself")
    if _too_near(drawn, len(path) - 2, keep.nearest_mm - SLACK_MM):
        wrong.append(f"two runs are nearer than {keep.nearest_mm:.0f} mm")
    tightest = _tightest_bend_mm(points)
    if tightest < keep.radius_mm - SLACK_MM:
        wrong.append(f"a bend of {tightest:.0f} mm is tighter than {keep.radius_mm:.0f} mm")
    return PathCheck(length, max(0.0, short), crosses, tuple(wrong), curve)


def _short_by(curve: LineString, keep: MustKeep) -> float:
    """Largest amount by which a clearance is short, by true distance [mm]."""
    things = [keep.room_floor.boundary, *(thing.shape for thing in keep.obstacles)]
    wanted = [keep.wall_clearance_mm, *(thing.clearance_mm for thing in keep.obstacles)]
    apart = shapely.distance(things, curve).tolist()
    short: float = max(map(sub, wanted, apart))
    # a curve that does not come to the outline lies on the side of it where it begins
    outside = not keep.room_floor.covers(shapely.get_point(curve, 0) if apart[0] else curve)
    return max(short, keep.wall_clearance_mm) if outside else short


def _tightest_bend_mm(points: Points) -> float:
    """Smallest radius through three neighbouring points, none repeated, of a curve [mm]."""
    steps = points[1:] - points[:-1]
    (a_x, a_y), (b_x, b_y) = steps[:-1].T, steps[1:].T
    doubled = np.abs(a_x * b_y - a_y * b_x)
    lengths = _lengths(steps)
    sides = lengths[:-1] * lengths[1:] * _lengths(points[2:] - points[:-2])
    bent = doubled > _STRAIGHT * sides
    if not bent.any():
        return float("inf")
    return float((sides[bent] / (2 * doubled[bent])).min())


def _too_near(points: Points, corners: int, nearest_mm: float) -> bool:
    """Whether two runs of a true curve with so many corners are nearer than allowed.

    Straights and bends are compared pair by pair.  Two straights side by side always count; other
    pieces count where more than a bend lies between them along the cable.
    """
    if not corners:
        return False  # one straight has no other run beside it
    arc = (len(points) - 2) // corners
    # pieces: every straight, then every bend
    bends = points[1:-1].reshape(corners, arc, 2)
    starts, ends = points[:-1:arc], points[1::arc]
    # whatever is near has its box near: only those are looked at closely
    by_point = np.ascontiguousarray(bends.T)  # few points, many bends
    low = np.hstack((np.minimum(starts, ends).T, by_point.min(axis=1)))
    high = np.hstack((np.maximum(starts, ends).T, by_point.max(axis=1))) + nearest_mm
    (left, front), (right, back) = low, high
    near = (left <= right[:, None]) & (left[:, None] <= right)
    near &= (front <= back[:, None]) & (front[:, None] <= back)
    first, second = np.divmod(np.flatnonzero(near), len(near))
    at = np.concatenate(([0.0], np.cumsum(_lengths(points[1:] - points[:-1]))))
    from_bend, to_bend = at[arc::arc], at[1:-1:arc]
    begin = np.concatenate(([0.0], from_bend, to_bend))
    finish = np.concatenate((to_bend, at[-1:], from_bend))
    along = ends - starts
    heading = np.zeros((2, len(near)))
    heading[:, : len(along)] = along.T / np.maximum(_lengths(along), _NO_LENGTH)
    across, up = heading
    counts = begin[second] - finish[first] > _BEND * nearest_mm
    counts |= across[first] * across[second] + up[first] * up[second] < -1 + 1e-6
    counts &= begin[first] < begin[second]
    if not counts.any():
        return False
    straights = np.stack((starts, ends), axis=1)
    pieces = np.concatenate((shapely.linestrings(straights), shapely.linestrings(bends)))
    apart = shapely.distance(pieces[first[counts]], pieces[second[counts]])
    return bool((apart <= nearest_mm).any())


def _lengths(steps: Points) -> NDArray[np.float64]:
    """Lengths of steps [mm]."""
    x, y = steps.T
    lengths: NDArray[np.float64] = np.sqrt(x * x + y * y)  # hypot guards against overflow: slower
    return lengths
