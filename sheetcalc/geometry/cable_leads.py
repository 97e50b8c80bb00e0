"""Cold leads: the way from a cable's splice to the thermostat, over floor where no cable lies.

The way is searched on a grid, in right angles as leads are laid, round walls, fixtures and every
laid cable, and not past a doorway.  It is an upper bound: a hand finds no longer one.
Coordinates are millimetres in the room's frame.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.cable_curve import Points

THERMOSTAT_HEIGHT_MM: Final = 1200.0
"""Lead that rises in the wall from the floor to the thermostat: common practice, no source."""

_CELL_MM: Final = 25.0
_MOST_CELLS: Final = 120_000
_BESIDE_CABLE_MM: Final = 13.0
_REACH_CELLS: Final = 4

Grid = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class LeadRoute:
    """A lead's way over the floor [mm], and its whole length up to the thermostat [mm]."""

    path: tuple[tuple[float, float], ...]
    length_mm: float


@dataclass(frozen=True, slots=True)
class LeadFloor:
    """Floor on which leads may lie: a grid of free cells."""

    left_mm: float
    front_mm: float
    cell_mm: float
    free: Grid

    def cell_of(self, point: tuple[float, float]) -> tuple[int, int]:
        """Row and column of the cell nearest a point."""
        rows, columns = self.free.shape
        column = round((point[0] - self.left_mm) / self.cell_mm - 0.5)
        row = round((point[1] - self.front_mm) / self.cell_mm - 0.5)
        return min(max(row, 0), rows - 1), min(max(column, 0), columns - 1)

    def point_of(self, row: int, column: int) -> tuple[float, float]:
        """Middle of a cell [mm]."""
        return (
            self.left_mm + (column + 0.5) * self.cell_mm,
            self.front_mm + (row + 0.5) * self.cell_mm,
        )


def lead_floor(
    room_floor: BaseGeometry,
    barriers: Sequence[BaseGeometry],
    cables: Sequence[Points],
) -> LeadFloor:
    """Mark the floor on which leads may lie.

    Parameters
    ----------
    room_floor
        Outline of the room [mm].
    barriers
        Fixtures that stand on the floor, and the strips before doorways [mm].
    cables
        Corners of every laid path [mm].
    """
    left, front, right, back = room_floor.bounds
    cell = _CELL_MM
    while (right - left) * (back - front) / cell**2 > _MOST_CELLS:
        cell *= 1.5
    columns, rows = ceil((right - left) / cell), ceil((back - front) / cell)
    xs = left + (np.arange(columns) + 0.5) * cell
    ys = front + (np.arange(rows) + 0.5) * cell
    grid_x, grid_y = np.meshgrid(xs, ys)
    open_floor = room_floor
    if barriers:
        open_floor = shapely.difference(room_floor, shapely.union_all(list(barriers)))
    shapely.prepare(open_floor)
    free: Grid = shapely.contains_xy(open_floor, grid_x, grid_y)
    beside = max(_BESIDE_CABLE_MM, cell * 0.51)
    for path in cables:
        low = np.minimum(path[:-1], path[1:]) - beside
        high = np.maximum(path[:-1], path[1:]) + beside
        c1 = np.clip(np.ceil((low[:, 0] - left) / cell - 0.5), 0, columns).astype(int)
        c2 = np.clip(np.floor((high[:, 0] - left) / cell - 0.5) + 1, 0, columns).astype(int)
        r1 = np.clip(np.ceil((low[:, 1] - front) / cell - 0.5), 0, rows).astype(int)
        r2 = np.clip(np.floor((high[:, 1] - front) / cell - 0.5) + 1, 0, rows).astype(int)
        for a, b, c, d in zip(r1, r2, c1, c2, strict=True):
            free[a:b, c:d] = False
    return LeadFloor(left, front, cell, free)


def lead_route(
    floor: LeadFloor, splice: tuple[float, float], thermostat: tuple[float, float]
) -> LeadRoute | None:
    """Find the shortest way from a splice to the thermostat; None where there is none."""
    starts = _near(floor, splice)
    goals = _near(floor, thermostat)
    if not starts.any() or not goals.any():
        return None
    steps = _flood(floor.free, starts, goals)
    reached = np.where(goals & (steps >= 0), steps, np.iinfo(np.int32).max)
    if int(reached.min()) == np.iinfo(np.int32).max:
        return None
    row, column = np.unravel_index(int(reached.argmin()), reached.shape)
    cells = _walk_back(steps, int(row), int(column))
    points = [splice, *_corners([floor.point_of(r, c) for r, c in reversed(cells)]), thermostat]
    way = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(points))
    return LeadRoute(tuple(points), way + THERMOSTAT_HEIGHT_MM)


def _near(floor: LeadFloor, point: tuple[float, float]) -> Grid:
    """Free cells within a few cells of a point, the nearest ring of them that has one."""
    row, column = floor.cell_of(point)
    found: Grid = np.zeros_like(floor.free)
    for reach in range(_REACH_CELLS + 1):
        window = (
            slice(max(0, row - reach), row + reach + 1),
            slice(max(0, column - reach), column + reach + 1),
        )
        if floor.free[window].any():
            found[window] = floor.free[window]
            break
    return found


def _flood(free: Grid, starts: Grid, goals: Grid) -> NDArray[np.int32]:
    """Count steps from the starts to every cell on the way to the goals; -1 where not reached."""
    steps = np.full(free.shape, -1, dtype=np.int32)
    front = starts & free
    steps[front] = 0
    step = 0
    while front.any() and not (goals & (steps >= 0)).any():
        step += 1
        spread = np.zeros_like(front)
        spread[1:] |= front[:-1]
        spread[:-1] |= front[1:]
        spread[:, 1:] |= front[:, :-1]
        spread[:, :-1] |= front[:, 1:]
        front = spread & free & (steps < 0)
        steps[front] = step
    return steps


def _walk_back(steps: NDArray[np.int32], row: int, column: int) -> list[tuple[int, int]]:
    """Cells from a goal back to a start, keeping its heading as long as it can."""
    cells = [(row, column)]
    heading = (0, 0)
    rows, columns = steps.shape
    while steps[row, column] > 0:
        wanted = steps[row, column] - 1
        for move in (heading, (1, 0), (-1, 0), (0, 1), (0, -1)):
            r, c = row + move[0], column + move[1]
            if 0 <= r < rows and 0 <= c < columns and steps[r, c] == wanted:
                row, column, heading = r, c, move
                break
        cells.append((row, column))
    return cells


def _corners(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points at which a way turns, with its first and last."""
    kept = list(points[:1])
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        if (before[0] == here[0]) != (here[0] == after[0]):
            kept.append(here)
    return kept + list(points[-1:]) if len(points) > 1 else kept
