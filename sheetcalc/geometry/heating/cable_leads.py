"""Cold leads: the way from a cable's splice to the thermostat, over floor where no cable lies.

The way is searched on a grid, in right angles as leads are laid, round walls, fixtures and every
laid cable, and not past a doorway.  It is an upper bound: a hand finds no longer one.
Coordinates are millimetres in the room's frame.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf
from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.heating.cable_curve import Points
from sheetcalc.geometry.heating.floor_cells import Grid
from sheetcalc.geometry.heating.lead_flood import NOT_REACHED, Flood
from sheetcalc.geometry.heating.lead_floor import LeadFloor

Cells = NDArray[np.int64]
"""Cells by their number in a grid, row by row."""

THERMOSTAT_HEIGHT_MM: Final = 1200.0
"""Lead that rises in the wall from the floor to the thermostat: common practice, no source."""

_NEAR: Final = 2
"""Cells from a cable or a wall to where its lead begins."""

_FAR: Final = 4
"""The same where none is reached so near."""

_BESIDE_STEPS: Final = 2 * _NEAR + 2
"""Steps within which a lead has come from a cell ``_NEAR`` its splice to the splice itself."""

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


class LeadMap:
    """Shortest ways from the thermostat to every place that a lead may reach."""

    def __init__(self, floor: LeadFloor, thermostat: tuple[float, float]) -> None:
        """Stand at the thermostat [mm]."""
        self._floor = floor
        self._thermostat = thermostat
        # a frame of cells that are not free: no step and no look about leaves the grid
        rows, columns = floor.free.shape
        self._framed: Grid = np.zeros((rows + 2 * _FAR, columns + 2 * _FAR), dtype=np.bool_)
        self._framed[_FAR:-_FAR, _FAR:-_FAR] = floor.free
        self._flood = Flood(self._framed, self._starts())

    def routes(self, splices: Points, aside_mm: float = 0.0) -> Iterator[tuple[int, LeadRoute]]:
        """Yield places on a cable with their ways, the shortest first, of equal ones the first.

        Places that no way leads to are left out.  The nearest one is found long before the floor
        is flooded, so the rest of it is flooded once somebody asks for the others.

        Parameters
        ----------
        splices
            Middles of openings between a cable's two ends, shape (n, 2) [mm].
        aside_mm
            From there to each end, which its lead is longer by [mm].
        """
        flood, told = self._flood, 0
        near = self._numbers(self._floor.cells_of(splices))
        wanted: Grid = np.zeros_like(self._framed)
        wanted.ravel()[self._about(near, _NEAR)] = True
        flood.spread(wanted, _BESIDE_STEPS)
        while True:
            steps = flood.steps()
            which = self._within_reach(near, steps)
            cells, ways, sure = self._ways(splices[which], near[which], steps)
            order = np.argsort(ways, kind="stable")[: np.count_nonzero(ways < inf)]
            if not flood.ended:
                # whatever is not reached yet is farther than this
                sure &= ways < flood.steps_taken * self._floor.cell_mm
                order = order[: np.argmin(np.append(sure[order], False))]
            for i in order[told:].tolist():
                splice = splices[which[i]].tolist()
                yield int(which[i]), self._route(splice, int(cells[i]), steps, aside_mm)
            if flood.ended:
                return
            told = len(order)
            flood.spread()

    def _within_reach(self, near: Cells, steps: NDArray[np.int32]) -> Cells:
        """Tell which of some cells lie in rows about the ones that were reached."""
        reached = np.flatnonzero(steps < NOT_REACHED)
        if not len(reached):
            return reached
        about = _FAR * self._framed.shape[1] + _FAR
        return np.flatnonzero((near >= reached[0] - about) & (near <= reached[-1] + about))

    def _ways(
        self, splices: Points, near: Cells, steps: NDArray[np.int32]
    ) -> tuple[Cells, NDArray[np.float64], NDArray[np.bool_]]:
        """Cells that leads reach splices from, their ways over the floor, whether those are near.

        A way is infinite where none is reached [mm].  One that begins far from its splice stands
        only until a cell near it is reached.
        """
        cells, least = self._nearest(near, _NEAR, steps)
        sure = least < NOT_REACHED
        others = np.flatnonzero(~sure)
        if len(others):
            cells[others], least[others] = self._nearest(near[others], _FAR, steps)
        beside = np.abs(self._points(cells) - splices)
        over_cells = least.astype(np.float64) * self._floor.cell_mm
        ways: NDArray[np.float64] = over_cells + beside[:, 0] + beside[:, 1]
        ways[least >= NOT_REACHED] = inf
        return cells, ways, sure

    def _nearest(
        self, near: Cells, reach: int, steps: NDArray[np.int32]
    ) -> tuple[Cells, NDArray[np.int32]]:
        """Of the cells about some, those with the fewest steps, and these."""
        about = self._about(near, reach)
        counts = steps.ravel()[about]
        every, at = np.arange(len(near)), counts.argmin(axis=1)
        return about[every, at], counts[every, at]

    def _route(
        self,
        splice: Sequence[float],
        cell: int,
        steps: NDArray[np.int32],
        aside_mm: float,
    ) -> LeadRoute:
        """Shortest way from a splice over a cell that was reached to the thermostat."""
        x, y = splice
        cells = np.array(_walk_back(steps, cell), dtype=np.int64)
        way = _corners([(x, y) for x, y in self._points(cells).tolist()])
        points = [(x, y), *way, self._thermostat]
        length = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(points))
        return LeadRoute(tuple(points), length + aside_mm + THERMOSTAT_HEIGHT_MM)

    def _starts(self) -> Grid:
        """Free cells within a few of the thermostat, the nearest ring of them that has one."""
        here = self._numbers(self._floor.cells_of(np.array([self._thermostat])))
        starts: Grid = np.zeros_like(self._framed)
        for reach in range(_FAR + 1):
            about = self._about(here, reach)
            free = self._framed.ravel()[about]
            if free.any():
                starts.ravel()[about[free]] = True
                break
        return starts

    def _about(self, cells: Cells, reach: int) -> Cells:
        """Cells up to so many rows and columns from each of some; a row for each."""
        steps = np.arange(-reach, reach + 1)
        about: Cells = cells[:, None] + (steps[:, None] * self._framed.shape[1] + steps).ravel()
        return about

    def _numbers(self, cells: NDArray[np.int64]) -> Cells:
        """Numbers in the frame of cells given by their row and column on the floor."""
        numbers: Cells = (cells[:, 0] + _FAR) * self._framed.shape[1] + cells[:, 1] + _FAR
        return numbers

    def _points(self, cells: Cells) -> Points:
        """Middles of cells given by their numbers in the frame [mm]."""
        rows, columns = np.divmod(cells, self._framed.shape[1])
        return self._floor.points_of(np.stack((rows, columns), axis=1) - _FAR)


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
        Numbers of the straights, shape (n,), and middles of openings on them, shape (n, 2) [mm]:
        straight by straight, those of one from left to right or from front to back.
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
    order = np.lexsort((middles[:, 1], middles[:, 0], straights))
    return straights[order], middles[order]


def _walk_back(steps: NDArray[np.int32], cell: int) -> list[int]:
    """Cells from one that was reached back to the start, keeping a heading as long as it can."""
    steps_to = steps.ravel().item
    width = steps.shape[1]
    cells = [cell]
    heading = 0
    for left in range(steps_to(cell) - 1, -1, -1):
        for move in (heading, width, -width, 1, -1):
            if steps_to(cell + move) == left:
                cell, heading = cell + move, move
                break
        cells.append(cell)
    return cells


def _corners(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points at which a way turns, with its first and last."""
    kept = list(points[:1])
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        if (before[0] == here[0]) != (here[0] == after[0]):
            kept.append(here)
    return kept + list(points[-1:]) if len(points) > 1 else kept
