"""A floor as cells: which middles of a grid lie in it."""

from collections.abc import Sequence

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Grid = NDArray[np.bool_]


def cells_inside(shape: BaseGeometry, xs: NDArray[np.float64], ys: NDArray[np.float64]) -> Grid:
    """Mark the cells whose middles lie within a shape, its border not counted.

    Line by line: a middle is inside where an odd number of edges lie left of it.  Where one lies
    on the border itself, or level with a corner, the library is asked.

    Parameters
    ----------
    shape
        Polygons [mm].
    xs, ys
        Middles of columns and of lines, ascending [mm].

    Returns
    -------
    array
        Shape (len(ys), len(xs)).
    """
    crossed = _crossed(shapely.get_rings(shapely.get_parts(shape)), xs, ys)
    if crossed is None:
        return _asked(shape, xs, ys)
    size = len(ys) * (len(xs) + 1)
    left_of = np.bincount(crossed.at, minlength=size).reshape(len(ys), -1).cumsum(axis=1)
    odd: Grid = (left_of[:, :-1] & 1).astype(np.bool_)
    return odd


def cells_beside(
    floor: BaseGeometry,
    things: Sequence[BaseGeometry],
    xs: NDArray[np.float64],
    ys: NDArray[np.float64],
) -> Grid:
    """Mark the cells whose middles lie within a floor and in no thing, borders not counted.

    Things may overlap, so edges are not just counted: one that runs back counts against one that
    runs to the fore, and a middle is in as many things as are left over.

    Parameters
    ----------
    floor, things
        Polygons [mm].
    xs, ys
        Middles of columns and of lines, ascending [mm].

    Returns
    -------
    array
        Shape (len(ys), len(xs)).
    """
    parts, owner = shapely.get_parts([floor, *things], return_index=True)
    rings, part = shapely.get_rings(parts, return_index=True)
    crossed = _crossed(rings, xs, ys)
    if crossed is None:
        return _asked(shapely.difference(floor, shapely.union_all(list(things))), xs, ys)
    shell = np.concatenate(([True], part[1:] != part[:-1]))
    # the floor counts one and a thing two: one is left over on floor without a thing
    counts = np.where(shapely.is_ccw(rings) == shell, 1, -1) * np.where(owner[part] == 0, 1, 2)
    size = len(ys) * (len(xs) + 1)
    edges = np.bincount(crossed.at, counts[crossed.ring] * crossed.to_the_fore, minlength=size)
    within = edges.reshape(len(ys), -1).cumsum(axis=1)
    only_floor: Grid = within[:, :-1] == 1
    return only_floor


class _Crossed(Struct, frozen=True):
    """Edges of rings, once for each line of middles that they cross.

    Attributes
    ----------
    at
        Line and first column right of the edge, as one number: columns are one more than middles.
    ring
        Number of the ring.
    to_the_fore
        1 where the edge runs to smaller y, -1 where it runs back.
    """

    at: NDArray[np.int64]
    ring: NDArray[np.int64]
    to_the_fore: NDArray[np.int64]


def _crossed(
    rings: NDArray[np.object_], xs: NDArray[np.float64], ys: NDArray[np.float64]
) -> _Crossed | None:
    """Tell where edges cross lines; None where a middle lies on one, or level with a corner."""
    corners, ring_of = shapely.get_coordinates(rings, return_index=True)
    x, y = corners.T
    level = np.searchsorted(ys, y)
    # the step from ring to ring crosses nothing
    steps = (level[1:] - level[:-1]) * (ring_of[1:] == ring_of[:-1])
    times = np.abs(steps)
    first = np.minimum(level[1:], level[:-1])
    edge = np.repeat(np.arange(len(times)), times)
    line = np.arange(len(edge)) + np.repeat(first - np.cumsum(times) + times, times)
    x1, y1 = x[edge], y[edge]
    at = x1 + (ys[line] - y1) * ((x[edge + 1] - x1) / (y[edge + 1] - y1))
    right_of = np.searchsorted(xs, at)
    if _hit(ys, level, y) or _hit(xs, right_of, at):
        return None
    return _Crossed(line * (len(xs) + 1) + right_of, ring_of[edge], -np.sign(steps)[edge])


def _asked(shape: BaseGeometry, xs: NDArray[np.float64], ys: NDArray[np.float64]) -> Grid:
    """Mark the cells as the library says, middle by middle."""
    inside: Grid = shapely.contains_xy(shape, *np.meshgrid(xs, ys))
    return inside


def _hit(middles: NDArray[np.float64], index: NDArray[np.int64], at: NDArray[np.float64]) -> bool:
    """Whether a place is one of the middles, given the first of them that is not before it."""
    return bool((middles.take(index, mode="clip") == at).any())
