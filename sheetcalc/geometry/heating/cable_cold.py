"""Floor that a path leaves cold."""

from math import ceil
from typing import Final

import numpy as np
import shapely
from shapely import LineString, Polygon

from sheetcalc.geometry.heating.cable_curve import Points
from sheetcalc.geometry.heating.cable_split import polygons_of
from sheetcalc.geometry.heating.floor_cells import cells_inside

_CELL_MM: Final = 20.0


def unheated_mm2(free: Polygon, path: Points, widest_mm: float, cell_mm: float = _CELL_MM) -> float:
    """Free floor farther than half the widest spacing from the cable, on a grid [mm²]."""
    left, front, right, back = free.bounds
    columns = max(1, ceil((right - left) / cell_mm))
    rows = max(1, ceil((back - front) / cell_mm))
    wide, deep = (right - left) / columns, (back - front) / rows
    xs = left + (np.arange(columns) + 0.5) * wide
    ys = front + (np.arange(rows) + 0.5) * deep
    cold = cells_inside(free, xs, ys)
    reach = widest_mm / 2
    low = np.minimum(path[:-1], path[1:])
    high = np.maximum(path[:-1], path[1:])
    # a straight heats what lies beside it; past its ends its neighbours do
    upright = (high - low)[:, 0] < (high - low)[:, 1]
    side = np.where(upright[:, None], (reach, 0.0), (0.0, reach))
    for c1, c2, r1, r2 in _cells(xs, ys, low - side, high + side):
        cold[r1:r2, c1:c2] = False
    # what is left is far from every corner too, or not cold
    line, column = cold.nonzero()
    away_x, away_y = (path[:, :1] - xs) ** 2, (path[:, 1:] - ys) ** 2
    far = (away_x[:, column] + away_y[:, line] > reach**2).all(axis=0)
    return float(np.count_nonzero(far) * wide * deep)


def cold_parts(free: Polygon, path: Points, widest_mm: float) -> list[Polygon]:
    """Parts of free floor farther than half the widest spacing from the cable [mm]."""
    warm = LineString(path).buffer(widest_mm / 2, quad_segs=8)
    return polygons_of(shapely.difference(free, warm))


def _cells(xs: Points, ys: Points, low: Points, high: Points) -> list[list[int]]:
    """Columns from and to, rows from and to, of the cells whose middles lie in boxes."""
    columns = np.searchsorted(xs, (low[:, 0], high[:, 0]))
    rows = np.searchsorted(ys, (low[:, 1], high[:, 1]))
    found: list[list[int]] = np.concatenate((columns, rows)).T.tolist()
    return found
