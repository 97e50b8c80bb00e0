"""Cold leads: the way from a cable's splice to the thermostat, over floor where no cable lies.

The way is searched on a grid, in right angles as leads are laid, round walls, fixtures and every
laid cable, and not past a doorway.  It is an upper bound: a hand finds no longer one.
Coordinates are millimetres in the room's frame.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil, inf
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.cable_curve import Points

THERMOSTAT_HEIGHT_MM: Final = 1200.0
"""Lead that rises in the wall from the floor to the thermostat: common practice, no source."""

_CELL_MM: Final = 25.0
_MOST_CELLS: Final = 120_000
_BESIDE_CABLE_MM: Final = 13.0
_REACHES: Final = (2, 4)  # cells from a cable or a wall to where its lead begins
_NOT_REACHED: Final = 1_000_000_000
_OPEN_EVERY_MM: Final = 100.0

Grid = NDArray[np.bool_]


class LeadRoute(Struct, frozen=True):
    """A lead's way from the splice over the floor, and its length up to the thermostat [mm].

    ``passes``: what it runs through for want of another way, such as under a cabinet.
    """

    path: tuple[tuple[float, float], ...]
    length_mm: float
    passes: tuple[str, ...] = ()

    @property
    def over_floor_mm(self) -> float:
        """Length without what rises in the wall [mm]."""
        return self.length_mm - THERMOSTAT_HEIGHT_MM


class LeadFloor(Struct, frozen=True):
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


class LeadMap:
    """Shortest ways from the thermostat to every place that a lead may reach."""

    def __init__(self, floor: LeadFloor, thermostat: tuple[float, float]) -> None:
        """Spread out from the thermostat [mm]."""
        self._floor = floor
        self._thermostat = thermostat
        self._steps = _flood(floor.free, _near(floor, thermostat))

    def _cell_near(self, point: tuple[float, float]) -> tuple[int, int] | None:
        """Reached cell near a point that the thermostat is nearest to; None where there is none."""
        row, column = self._floor.cell_of(point)
        for reach in _REACHES:
            top, left = max(0, row - reach), max(0, column - reach)
            window = self._steps[top : row + reach + 1, left : column + reach + 1]
            at = int(window.argmin())
            if window.flat[at] < _NOT_REACHED:
                r, c = divmod(at, window.shape[1])
                return top + r, left + c
        return None

    def ways_mm(self, points: Points) -> list[float]:
        """Ways over the floor from places on a cable [mm]; infinite where none leads there.

        Parameters
        ----------
        points
            Shape (n, 2) [mm].
        """
        near = [self._floor.cell_of((x, y)) for x, y in points.tolist()]
        cells = np.array(near, dtype=np.int64).reshape(-1, 2)
        reach = np.arange(-_REACHES[0], _REACHES[0] + 1)
        side = len(reach)
        rows, columns = self._steps.shape
        about_r = np.clip(cells[:, :1] + np.repeat(reach, side), 0, rows - 1)
        about_c = np.clip(cells[:, 1:] + np.tile(reach, side), 0, columns - 1)
        window = self._steps[about_r, about_c]
        at, every = window.argmin(axis=1), np.arange(len(cells))
        found = []
        for row, column, steps, point in zip(
            about_r[every, at].tolist(),
            about_c[every, at].tolist(),
            window[every, at].tolist(),
            points.tolist(),
            strict=True,
        ):
            cell: tuple[int, int] | None = (row, column)
            if steps >= _NOT_REACHED:
                cell = self._cell_near(point)
            if cell is None:
                found.append(inf)
                continue
            x, y = self._floor.point_of(*cell)
            way = float(self._steps[cell]) * self._floor.cell_mm
            found.append(way + abs(x - point[0]) + abs(y - point[1]))
        return found

    def route(self, splice: tuple[float, float], aside_mm: float = 0.0) -> LeadRoute | None:
        """Shortest way from a splice to the thermostat; None where there is none.

        Parameters
        ----------
        splice
            Middle of the opening between a cable's two ends [mm].
        aside_mm
            From there to each end, which its lead is longer by [mm].
        """
        cell = self._cell_near(splice)
        if cell is None:
            return None
        cells = _walk_back(self._steps, *cell)
        way = _corners([self._floor.point_of(r, c) for r, c in cells])
        points = [splice, *way, self._thermostat]
        length = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(points))
        return LeadRoute(tuple(points), length + aside_mm + THERMOSTAT_HEIGHT_MM)


def places_to_open(corners: Points, gap_mm: float, radius_mm: float) -> list[tuple[int, Points]]:
    """Places on a closed course where it may be cut open, on every straight that is long enough.

    Parameters
    ----------
    corners
        Of the course, the first not repeated [mm].
    gap_mm
        Cable left out there [mm].
    radius_mm
        Of corners, which the opening keeps clear of [mm].

    Returns
    -------
    list of (int, array)
        Number of the straight, and middles of openings on it, shape (n, 2) [mm].
    """
    found = []
    clear = gap_mm / 2 + radius_mm
    for number, (start, end) in enumerate(zip(corners, np.roll(corners, -1, axis=0), strict=True)):
        length = float(np.hypot(*(end - start)))
        if length < 2 * clear:
            continue
        count = max(1, ceil((length - 2 * clear) / _OPEN_EVERY_MM)) + 1
        at = np.linspace(clear, length - clear, count) / length
        found.append((number, start + at[:, None] * (end - start)))
    return found


def _near(floor: LeadFloor, point: tuple[float, float]) -> Grid:
    """Free cells within a few cells of a point, the nearest ring of them that has one."""
    row, column = floor.cell_of(point)
    found: Grid = np.zeros_like(floor.free)
    for reach in range(_REACHES[-1] + 1):
        window = (
            slice(max(0, row - reach), row + reach + 1),
            slice(max(0, column - reach), column + reach + 1),
        )
        if floor.free[window].any():
            found[window] = floor.free[window]
            break
    return found


def _flood(free: Grid, starts: Grid) -> NDArray[np.int32]:
    """Count steps from the starts to every free cell; ``_NOT_REACHED`` elsewhere."""
    # a frame of cells that are not free, so that no step leaves the grid
    left = np.pad(free, 1)
    width = left.shape[1]
    left = left.reshape(-1)
    steps = np.full(left.shape, _NOT_REACHED, dtype=np.int32)
    turn = np.zeros(left.shape, dtype=np.int64)
    front = np.flatnonzero(np.pad(starts & free, 1))
    step = 0
    while len(front):
        steps[front] = step
        left[front] = False
        near = np.concatenate((front - 1, front + 1, front - width, front + width))
        near = near[left[near]]
        # each cell once, though it may be next to several
        numbers = np.arange(len(near))
        turn[near] = numbers
        front = near[turn[near] == numbers]
        step += 1
    return np.ascontiguousarray(steps.reshape(-1, width)[1:-1, 1:-1])


def _walk_back(steps: NDArray[np.int32], row: int, column: int) -> list[tuple[int, int]]:
    """Cells from one that was reached back to the start, keeping a heading as long as it can."""
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
