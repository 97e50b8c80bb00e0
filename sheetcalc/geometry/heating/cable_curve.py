"""The true curve of a cable: a closed course cut open near the thermostat, corners rounded.

Everything in millimetres.  Corners are right-angled before rounding.
"""

from typing import Final, TypeAlias

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray
from shapely import LineString

from sheetcalc.geometry.heating.cable_row_costs import ROUNDED

Points: TypeAlias = NDArray[np.float64]

_ARC_POINTS: Final = 9
_ARC: Final = np.linspace(0.0, np.pi / 2, _ARC_POINTS)
_ARC_COS, _ARC_SIN = np.cos(_ARC), np.sin(_ARC)
_STRAIGHT: Final = 1e-6


class Opening(Struct, frozen=True):
    """Where a closed course is cut open: the straight it lies in, and its two ends."""

    segment: int
    start: tuple[float, float]
    end: tuple[float, float]


def closed_length_mm(corners: Points, radius_mm: float) -> float:
    """Length of a closed course with rounded corners [mm]."""
    straights = _next(corners) - corners
    return float(np.hypot(straights[:, 0], straights[:, 1]).sum()) - (
        ROUNDED * radius_mm * len(corners)
    )


def open_length_mm(path: Points, radius_mm: float) -> float:
    """Length of an open path with rounded corners [mm]."""
    straights = np.diff(path, axis=0)
    return float(np.hypot(straights[:, 0], straights[:, 1]).sum()) - (
        ROUNDED * radius_mm * (len(path) - 2)
    )


def _next(corners: Points) -> Points:
    """Give the corner after each, the first after the last."""
    return np.concatenate((corners[1:], corners[:1]))


def opening(
    corners: Points, gap_mm: float, radius_mm: float, towards: tuple[float, float]
) -> Opening | None:
    """Place where a course may be cut open that is nearest a point; None where there is none.

    Parameters
    ----------
    corners
        Of the closed course [mm].
    gap_mm
        Cable left out there [mm].
    radius_mm
        Of corners: the gap keeps clear of them [mm].
    towards
        Point that the ends should be near, such as the thermostat [mm].
    """
    along = _next(corners) - corners
    lengths = np.hypot(along[:, 0], along[:, 1])
    fits = np.nonzero(lengths >= gap_mm + 2 * radius_mm - _STRAIGHT)[0]
    if not len(fits):
        return None
    start = corners[fits]
    unit = along[fits] / lengths[fits, None]
    to_point = np.asarray(towards) - start
    nearest = (to_point * unit).sum(axis=1)
    clear = radius_mm + gap_mm / 2
    farthest = np.maximum(lengths[fits] - radius_mm - gap_mm / 2, clear)
    middle = np.minimum(np.maximum(nearest, clear), farthest)
    places = start + unit * middle[:, None]
    away = places - np.asarray(towards)
    at = int(np.hypot(away[:, 0], away[:, 1]).argmin())
    (x, y), (half_x, half_y) = places[at].tolist(), (unit[at] * (gap_mm / 2)).tolist()
    return Opening(int(fits[at]), (x - half_x, y - half_y), (x + half_x, y + half_y))


def cut_open(corners: Points, opening: Opening) -> Points:
    """Path from one side of an opening round to the other [mm]."""
    first = opening.segment + 1
    path: Points = np.concatenate(
        ([opening.end], corners[first:], corners[:first], [opening.start])
    )
    return path


def stopped_short(path: Points, short_mm: float, radius_mm: float) -> Points:
    """Path whose end stops short by some length of its true curve, never within a bend [mm].

    Parameters
    ----------
    path
        Corners from start to end [mm].
    short_mm
        Length to lose at the end [mm]; up to half a bend less is lost where it would end in one.
    radius_mm
        Of corners [mm].
    """
    while short_mm > _STRAIGHT:
        last = path[-1] - path[-2]
        length = float(np.hypot(*last))
        without = length - ROUNDED * radius_mm  # the corner before it is a straight again
        if short_mm < without or len(path) == 2:  # noqa: PLR2004 - a start and an end
            keep = max(length - short_mm, radius_mm)
            path = np.vstack((path[:-1], path[-2] + last * (keep / length)))
            break
        path, short_mm = path[:-1], short_mm - without
    return path


def rounded(path: Points, radius_mm: float) -> Points:
    """Points of the true curve: every corner an arc of this radius [mm]."""
    # coordinates first, then corners, then points of an arc: the long way is the quick one
    steps = (path[1:] - path[:-1]).T
    steps = steps / np.hypot(*steps)
    before, after = steps[:, :-1], steps[:, 1:]
    centre = path[1:-1].T + radius_mm * (after - before)
    # from the centre, the arc begins opposite the way it will turn and ends along the way it came
    arcs = (
        centre[:, :, None]
        - radius_mm * _ARC_COS * after[:, :, None]
        + radius_mm * _ARC_SIN * before[:, :, None]
    )
    points: Points = np.concatenate((path[:1], arcs.reshape(2, -1).T, path[-1:]))
    return points


def curve_of(path: Points, radius_mm: float) -> LineString:
    """Return the true curve as a line string [mm]."""
    return LineString(without_repeats(rounded(path, radius_mm)))


def without_repeats(points: Points) -> Points:
    """Points that are not the one before again: bends that touch have no straight between them."""
    across, up = np.abs(points[1:] - points[:-1]).T
    new = across + up > _STRAIGHT
    return points if new.all() else points[np.concatenate(([True], new))]
