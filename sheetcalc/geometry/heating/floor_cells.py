"""A floor as cells: which middles of a grid lie in it."""

import numpy as np
import shapely
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
    rings = shapely.get_rings(shapely.get_parts(shape))
    corners, ring_of = shapely.get_coordinates(rings, return_index=True)
    x, y = corners.T
    level = np.searchsorted(ys, y)
    # every edge once for each line that it crosses; the step from ring to ring is none
    crossed = np.abs(level[1:] - level[:-1]) * (ring_of[1:] == ring_of[:-1])
    first = np.minimum(level[1:], level[:-1])
    which = np.repeat(np.arange(len(crossed)), crossed)
    line = np.arange(len(which)) + np.repeat(first - np.cumsum(crossed) + crossed, crossed)
    x1, y1 = x[which], y[which]
    at = x1 + (ys[line] - y1) * ((x[which + 1] - x1) / (y[which + 1] - y1))
    right_of = np.searchsorted(xs, at)
    if _hit(ys, level, y) or _hit(xs, right_of, at):
        inside: Grid = shapely.contains_xy(shape, *np.meshgrid(xs, ys))
        return inside
    columns = len(xs) + 1
    edges = np.bincount(line * columns + right_of, minlength=len(ys) * columns)
    left_of = edges.reshape(len(ys), columns).cumsum(axis=1)
    odd: Grid = (left_of[:, :-1] & 1).astype(np.bool_)
    return odd


def _hit(middles: NDArray[np.float64], index: NDArray[np.int64], at: NDArray[np.float64]) -> bool:
    """Whether a place is one of the middles, given the first of them that is not before it."""
    return bool((middles.take(index, mode="clip") == at).any())
