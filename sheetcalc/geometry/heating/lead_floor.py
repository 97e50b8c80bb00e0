"""Floor on which cold leads may lie, as free cells of a grid in the room's frame [mm]."""

from collections.abc import Sequence
from math import ceil
from typing import Final

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.cable_curve import Points
from sheetcalc.geometry.heating.floor_cells import Grid, cells_beside

_CELL_MM: Final = 25.0
_MOST_CELLS: Final = 120_000
"""Fineness of the search for a lead's way, and the most cells that it looks at."""

_BESIDE_CABLE_MM: Final = 13.0
"""Middles of cells lie so far from a cable's, or are not free: half a cell and a little, above the
distance that leads are checked for afterwards (common practice, no source)."""


class LeadFloor(Struct, frozen=True):
    """Floor on which leads may lie: a grid of free cells."""

    left_mm: float
    front_mm: float
    cell_mm: float
    free: Grid

    def cells_of(self, points: Points) -> NDArray[np.int64]:
        """Row and column of the cells nearest some points; shape (n, 2)."""
        at = np.rint((points - (self.left_mm, self.front_mm)) / self.cell_mm - 0.5)
        rows, columns = self.free.shape
        return np.minimum(np.maximum(at[:, ::-1].astype(np.int64), 0), (rows - 1, columns - 1))

    def points_of(self, cells: NDArray[np.int64]) -> Points:
        """Middles of cells given by row and column; shape (n, 2) [mm]."""
        origin = np.array((self.left_mm, self.front_mm))
        middles: Points = (cells[:, ::-1] + 0.5) * self.cell_mm + origin
        return middles

    def beside(self, cables: Sequence[Points]) -> "LeadFloor":
        """Floor that is left beside cables.

        Parameters
        ----------
        cables
            Corners of every laid path [mm].
        """
        if not cables:
            return self
        free = self.free.copy()
        rows, columns = free.shape
        cell = self.cell_mm
        near = max(_BESIDE_CABLE_MM, cell * 0.51)
        low = np.concatenate([np.minimum(path[:-1], path[1:]) for path in cables]) - near
        high = np.concatenate([np.maximum(path[:-1], path[1:]) for path in cables]) + near
        origin, most = (self.left_mm, self.front_mm), (columns, rows)
        first = np.clip(np.ceil((low - origin) / cell - 0.5), 0, most).astype(int)
        last = np.clip(np.floor((high - origin) / cell - 0.5) + 1, 0, most).astype(int)
        for (c1, r1), (c2, r2) in zip(first.tolist(), last.tolist(), strict=True):
            free[r1:r2, c1:c2] = False
        return replace(self, free=free)


def lead_floor(room_floor: BaseGeometry, barriers: Sequence[BaseGeometry]) -> LeadFloor:
    """Mark the floor on which leads may lie while it has no cables.

    Parameters
    ----------
    room_floor
        Outline of the room [mm].
    barriers
        Fixtures that stand on the floor, and the strips before doorways [mm].
    """
    left, front, right, back = room_floor.bounds
    cell = _CELL_MM
    while (right - left) * (back - front) / cell**2 > _MOST_CELLS:
        cell *= 1.5
    columns, rows = ceil((right - left) / cell), ceil((back - front) / cell)
    xs = left + (np.arange(columns) + 0.5) * cell
    ys = front + (np.arange(rows) + 0.5) * cell
    return LeadFloor(left, front, cell, cells_beside(room_floor, barriers, xs, ys))
