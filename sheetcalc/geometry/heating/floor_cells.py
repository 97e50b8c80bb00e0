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
    edge = ring_of[1:] == ring_of[:-1]
    (x1, y1), (x2, y2) = corners[:-1][edge].T, corners[1:][edge].T
    low, high = np.minimum(y1, y2), np.maximum(y1, y2)
    first, last = np.searchsorted(ys, low), np.searchsorted(ys, high)
    # every edge once for each line that it crosses
    crossed = last - first
    which = np.repeat(np.arange(len(crossed)), crossed)
    line = np.arange(len(which)) + np.repeat(first - np.cumsum(crossed) + crossed, crossed)
    at = x1[which] + (ys[line] - y1[which]) * ((x2 - x1)[which] / (y2 - y1)[which])
    right_of = np.searchsorted(xs, at)
    if any(_hit(*where) for where in ((xs, right_of, at), (ys, first, low), (ys, last, high))):
        inside: Grid = shapely.contains_xy(shape, *np.meshgrid(xs, ys))
        return inside
    columns = len(xs) + 1
    edges = np.bincount(line * columns + right_of, minlength=len(ys) * columns)
    left_of = edges.reshape(len(ys), columns).cumsum(axis=1)
    odd: Grid = (left_of[:, :-1] & 1).astype(np.bool_)
    return odd


def _hit(middles: NDArray[np.float64], index: NDArray[np.int64], at: NDArray[np.float64]) -> bool:
    """Whether a place is one of the middles, given the first of them that is not before it."""
    return bool((np.append(middles, np.nan)[index] == at).any())
