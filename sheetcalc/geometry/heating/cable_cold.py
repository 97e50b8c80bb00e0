"""Floor that a path leaves cold."""

from typing import Final, TypeAlias

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely import Polygon

from sheetcalc.geometry.heating.cable_curve import Points, curve_of
from sheetcalc.geometry.heating.cable_split import polygons_of
from sheetcalc.geometry.heating.cable_strips import DECIMALS
from sheetcalc.geometry.heating.floor_cells import cells_inside

_CELL_MM: Final = 20.0

_Numbers: TypeAlias = NDArray[np.int64]


def unheated_mm2(
    free: Polygon, path: Points, radius_mm: float, widest_mm: float, cell_mm: float = _CELL_MM
) -> float:
    """Free floor farther than half the widest spacing from a cable's true curve [mm²].

    Cells end where the floor's corners are and where what straights heat ends, so that these are
    exact; round a bend a cell counts by the part of it that lies beyond.

    Parameters
    ----------
    free
        Part of free floor that the cable lies in [mm].
    path
        Corners from start to end, each straight along x or y [mm].
    radius_mm
        Radius of the corners [mm]; at most half the widest spacing.
    widest_mm
        Widest distance between two neighbouring rows [mm].
    cell_mm
        Largest cells [mm].
    """
    reach = widest_mm / 2
    low, high = _beside_straights(path, radius_mm, reach)
    edges = np.concatenate((shapely.get_coordinates(free), low, high))
    columns, rows = (_cells(at, cell_mm) for at in edges.T)
    cold = cells_inside(free, columns.middles, rows.middles).astype(float)
    for c1, c2, r1, r2 in _within(columns, rows, low, high).tolist():
        cold[r1:r2, c1:c2] = 0.0
    round_bends = _round_bends(path, radius_mm, reach)
    bend, c, r = _one_by_one(_within(columns, rows, round_bends.low, round_bends.high))
    x, y = round_bends.middles[bend].T
    beyond = np.hypot(columns.middles[c] - x, rows.middles[r] - y) - round_bends.radii[bend]
    share = np.maximum(beyond / np.sqrt(columns.sizes[c] * rows.sizes[r]) + 0.5, 0.0)
    np.minimum.at(cold, (r, c), share)
    return float(rows.sizes @ cold @ columns.sizes)


def cold_parts(free: Polygon, path: Points, radius_mm: float, widest_mm: float) -> list[Polygon]:
    """Parts of free floor farther than half the widest spacing from a cable's true curve [mm]."""
    warm = curve_of(path, radius_mm).buffer(widest_mm / 2, quad_segs=8)
    return polygons_of(shapely.difference(free, warm))


class _Cells(Struct, frozen=True):
    """Columns or rows of cells: their middles, ascending, and their sizes [mm]."""

    middles: Points
    sizes: Points


def _cells(edges: Points, largest_mm: float) -> _Cells:
    """Cells that end at some places, and between them where they would be too large."""
    least, most = edges.min(), edges.max()
    even = np.linspace(least, most, int((most - least) / largest_mm) + 2)
    ends = np.sort(np.round(np.concatenate((edges, even)), DECIMALS))
    ends = ends[np.append(ends[1:] > ends[:-1], True)]
    return _Cells((ends[1:] + ends[:-1]) / 2, ends[1:] - ends[:-1])


def _beside_straights(path: Points, radius_mm: float, reach_mm: float) -> tuple[Points, Points]:
    """Near left and far right corners of what each straight of a path heats [mm]."""
    along = np.sign(path[1:] - path[:-1])
    start, end = path[:-1] + along * radius_mm, path[1:] - along * radius_mm
    start[0], end[-1] = path[0], path[-1]  # bends are between straights only
    side = np.abs(along[:, ::-1]) * reach_mm
    return np.minimum(start, end) - side, np.maximum(start, end) + side


class _RoundBends(Struct, frozen=True):
    """Circles that bends and ends heat a part of, and the squares in which they do [mm]."""

    middles: Points
    radii: Points
    low: Points
    high: Points


def _round_bends(path: Points, radius_mm: float, reach_mm: float) -> _RoundBends:
    """Quarters of circles outside of bends, inside of which straights heat all; circles at ends."""
    along = np.sign(path[1:] - path[:-1])
    outward = along[:-1] - along[1:]
    centres = path[1:-1] - radius_mm * outward
    farthest = path[1:-1] + reach_mm * outward
    ends = path[[0, -1]]
    return _RoundBends(
        np.concatenate((centres, ends)),
        np.repeat((radius_mm + reach_mm, reach_mm), (len(centres), 2)),
        np.concatenate((np.minimum(centres, farthest), ends - reach_mm)),
        np.concatenate((np.maximum(centres, farthest), ends + reach_mm)),
    )


def _within(columns: _Cells, rows: _Cells, low: Points, high: Points) -> _Numbers:
    """Columns from and to, rows from and to, of the cells whose middles lie in boxes."""
    across = np.searchsorted(columns.middles, (low[:, 0], high[:, 0]))
    up = np.searchsorted(rows.middles, (low[:, 1], high[:, 1]))
    return np.concatenate((across, up)).T


def _one_by_one(boxes: _Numbers) -> tuple[_Numbers, _Numbers, _Numbers]:
    """Give the number of the box, the column and the row of every cell in boxes."""
    left, right, front, back = boxes.T
    wide = right - left
    count = wide * (back - front)
    box = np.repeat(np.arange(len(count)), count)
    row, column = np.divmod(np.arange(len(box)) - (np.cumsum(count) - count)[box], wide[box])
    return box, left[box] + column, front[box] + row
