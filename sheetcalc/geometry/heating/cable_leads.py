"""Cold leads: the way from a cable's splice to the thermostat, over floor where no cable lies.

The way is searched on a grid, in right angles as leads are laid, round walls, fixtures and every
laid cable, and not past a doorway.  It is an upper bound: a hand finds no longer one.
Coordinates are millimetres in the room's frame.
"""

from collections.abc import Sequence
from functools import reduce
from itertools import pairwise
from math import ceil, inf
from operator import xor
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.cable_curve import Points
from sheetcalc.geometry.heating.floor_cells import Grid, cells_inside

THERMOSTAT_HEIGHT_MM: Final = 1200.0
"""Lead that rises in the wall from the floor to the thermostat: common practice, no source."""

_CELL_MM: Final = 25.0
_MOST_CELLS: Final = 120_000
_BESIDE_CABLE_MM: Final = 13.0
_REACHES: Final = (2, 4)  # cells from a cable or a wall to where its lead begins
_NOT_REACHED: Final = 1_000_000_000
_OPEN_EVERY_MM: Final = 100.0


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

    def cells_of(self, points: Points) -> NDArray[np.int64]:
        """Row and column of the cells nearest some points; shape (n, 2)."""
        at = np.rint((points - (self.left_mm, self.front_mm)) / self.cell_mm - 0.5)
        return np.clip(at[:, ::-1].astype(np.int64), 0, np.array(self.free.shape) - 1)

    def cell_of(self, point: tuple[float, float]) -> tuple[int, int]:
        """Row and column of the cell nearest a point."""
        row, column = self.cells_of(np.array([point]))[0].tolist()
        return row, column

    def points_of(self, cells: NDArray[np.int64]) -> Points:
        """Middles of cells given by row and column; shape (n, 2) [mm]."""
        origin = np.array((self.left_mm, self.front_mm))
        middles: Points = (cells[:, ::-1] + 0.5) * self.cell_mm + origin
        return middles


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
    open_floor = room_floor
    if barriers:
        open_floor = shapely.difference(room_floor, shapely.union_all(list(barriers)))
    free = cells_inside(open_floor, xs, ys)
    if cables:
        beside = max(_BESIDE_CABLE_MM, cell * 0.51)
        low = np.concatenate([np.minimum(path[:-1], path[1:]) for path in cables]) - beside
        high = np.concatenate([np.maximum(path[:-1], path[1:]) for path in cables]) + beside
        origin, most = (left, front), (columns, rows)
        first = np.clip(np.ceil((low - origin) / cell - 0.5), 0, most).astype(int)
        last = np.clip(np.floor((high - origin) / cell - 0.5) + 1, 0, most).astype(int)
        for (c1, r1), (c2, r2) in zip(first.tolist(), last.tolist(), strict=True):
            free[r1:r2, c1:c2] = False
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

    def ways_mm(self, points: Points) -> NDArray[np.float64]:
        """Ways over the floor from places on a cable [mm]; infinite where none leads there.

        Parameters
        ----------
        points
            Shape (n, 2) [mm].
        """
        floor, every = self._floor, np.arange(len(points))
        rows, columns = self._steps.shape
        near = floor.cells_of(points)
        reach = np.arange(-_REACHES[0], _REACHES[0] + 1)
        about_r = np.clip(near[:, :1] + np.repeat(reach, len(reach)), 0, rows - 1)
        about_c = np.clip(near[:, 1:] + np.tile(reach, len(reach)), 0, columns - 1)
        window = self._steps[about_r, about_c]
        at = window.argmin(axis=1)
        cells = np.stack((about_r[every, at], about_c[every, at]), axis=1)
        steps = window[every, at]
        for i in np.flatnonzero(steps >= _NOT_REACHED).tolist():
            cell = self._cell_near(points[i].tolist())
            if cell is not None:
                cells[i], steps[i] = cell, self._steps[cell]
        beside = np.abs(floor.points_of(cells) - points)
        ways: NDArray[np.float64] = steps * floor.cell_mm + beside[:, 0] + beside[:, 1]
        ways[steps >= _NOT_REACHED] = inf
        return ways

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
        cells = np.array(_walk_back(self._steps, *cell))
        way = _corners([(x, y) for x, y in self._floor.points_of(cells).tolist()])
        points = [splice, *way, self._thermostat]
        length = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(points))
        return LeadRoute(tuple(points), length + aside_mm + THERMOSTAT_HEIGHT_MM)


def places_to_open(
    corners: Points, gap_mm: float, radius_mm: float
) -> tuple[NDArray[np.int64], Points]:
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
    array, array
        Numbers of the straights, shape (n,), and middles of openings on them, shape (n, 2) [mm].
    """
    along = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(along[:, 0], along[:, 1])
    clear = gap_mm / 2 + radius_mm
    enough = np.flatnonzero(lengths >= 2 * clear)
    last = lengths[enough] - clear
    counts = np.maximum(np.ceil((last - clear) / _OPEN_EVERY_MM), 1).astype(np.int64) + 1
    straights = np.repeat(enough, counts)
    number = np.arange(len(straights)) - np.repeat(np.cumsum(counts) - counts, counts)
    at = clear + number * np.repeat((last - clear) / (counts - 1), counts)
    at[np.cumsum(counts) - 1] = last
    middles: Points = corners[straights] + (at / lengths[straights])[:, None] * along[straights]
    return straights, middles


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
    """Count steps from the starts to every free cell; ``_NOT_REACHED`` elsewhere.

    Cells are the bits of whole numbers: all cells next to a set of them are four shifts of it.
    The steps are read off in binary: a digit changes every so many steps, so the cells that have
    it are those that were still left at an odd number of its changes.
    """
    # a frame of cells that are not free, so that no step leaves the grid
    framed = np.pad(free, 1)
    width = framed.shape[1]
    left, front = _bits_of(framed), _bits_of(np.pad(starts & free, 1))
    lefts = []
    while front:
        lefts.append(left)
        left ^= front
        front = (front << 1 | front >> 1 | front << width | front >> width) & left
    steps = np.zeros(framed.shape, dtype=np.int32)
    last = len(lefts) - 1
    for place in range(max(last, 0).bit_length()):
        every = 1 << place
        digit = reduce(xor, lefts[every::every], left if last & every else 0)
        steps |= _cells_of(digit, framed) << np.int32(place)
    steps[(_cells_of(left, framed) == 1) | ~framed] = _NOT_REACHED
    return np.ascontiguousarray(steps[1:-1, 1:-1])


def _bits_of(cells: Grid) -> int:
    """Whole number with a bit for every cell, row by row."""
    return int.from_bytes(np.packbits(cells, bitorder="little").tobytes(), "little")


def _cells_of(bits: int, like: Grid) -> NDArray[np.int32]:
    """Cells of a whole number's bits, 0 or 1, in the shape of a grid."""
    packed = np.frombuffer(bits.to_bytes(-(-like.size // 8), "little"), dtype=np.uint8)
    cells = np.unpackbits(packed, count=like.size, bitorder="little")
    return cells.reshape(like.shape).astype(np.int32)


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
