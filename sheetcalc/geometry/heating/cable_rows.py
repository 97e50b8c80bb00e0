"""Which rows to lay: pairs of rows whose total length comes out, leaving least floor cold.

Dynamic programming over (row place, length so far): every reachable total length is known at once
with the least floor that it leaves unheated.  Two rows of a pair, and two neighbouring pairs, are
an allowed number of places apart.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import ceil
from typing import Final, TypeAlias

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.heating.cable_strips import Strip, bands_of, missed_mm

Costs: TypeAlias = NDArray[np.float64]

_NEVER: Final = 1e18
_NOT_CHOSEN: Final = 1e17
_NO_WAY_BACK: Final = "the table of rows has no way back from a cell that it reached"

_IRREGULAR_MM2: Final = 400.0
"""Cost of a step that differs by one place from the middle one: of equal plans the even one."""

_UNEVEN: Final = 2.0
"""Cost of a millimetre cut off turns [mm² each]: of equal plans the one with full rows."""

ROUNDED: Final = 2.0 - np.pi / 2
"""A right-angled corner rounded with radius r is this times r shorter."""


class RowPair(Struct, frozen=True):
    """Two rows with a turn at each end: strips ``bottom`` to ``top - 1`` lie between them."""

    bottom: int
    top: int
    stretches: Strip


class RowRules(Struct, frozen=True):
    """What rows are chosen by.

    Attributes
    ----------
    steps
        Allowed distances between rows, in places, ascending.
    pitch_mm
        Distance of two places [mm].
    shortest_mm
        Shortest loop [mm].
    radius_mm
        Radius of corners [mm].
    """

    steps: tuple[int, ...]
    pitch_mm: float
    shortest_mm: float
    radius_mm: float

    @property
    def widest_mm(self) -> float:
        """Widest distance between two rows [mm]."""
        return self.steps[-1] * self.pitch_mm


def _runs(strips: Sequence[Strip]) -> list[int]:
    """For every strip, the end of the run of equal strips that it is in."""
    ends = [len(strips)] * len(strips)
    for k in range(len(strips) - 2, -1, -1):
        ends[k] = ends[k + 1] if strips[k] is strips[k + 1] else k + 1
    return ends


class RowTable:
    """Every reachable length up to a longest one, with the floor that it leaves unheated."""

    def __init__(self, strips: Sequence[Strip], rules: RowRules, longest_mm: float) -> None:
        """Fill the table.

        Parameters
        ----------
        strips
            Free stretches between row places.
        rules
            Allowed steps.
        longest_mm
            Lengths above this are of no interest [mm].
        """
        self._strips = strips
        self._rules = rules
        self._bin = 2 * rules.pitch_mm
        self._bins = ceil(longest_mm / self._bin) + 1
        count = len(strips)
        self._bands = bands_of(strips, rules.steps[-1], rules.shortest_mm)
        middle = (rules.steps[0] + rules.steps[-1]) / 2
        self._irregular = {s: _IRREGULAR_MM2 * (s - middle) ** 2 for s in rules.steps}
        self._shared = rules.steps[0] // 2  # strips above a pair that count as its own
        self._reach = rules.widest_mm / 2
        self._beyond = max(1, round(self._reach / rules.pitch_mm))
        widths = [sum(b - a for a, b in strip) for strip in strips]
        self._mean_width = max(sum(widths) / max(1, count), rules.shortest_mm)
        self._below = [w * rules.pitch_mm for w in accumulate(widths, initial=0.0)]
        self._same_to = _runs(strips)
        # row r of each table: cost of every length with a pair opened, or closed, at place r
        self._opened = np.full((count + 1, self._bins), _NEVER)
        self._closed = np.full((count + 1, self._bins), _NEVER)
        self._used = [0] * (count + 1)  # bins of a closed row that may be reached
        self._shift: dict[tuple[int, int], tuple[int, float]] = {}
        self._shifts: dict[tuple[int, int], int] = {}
        self._fill(count)

    def _fill(self, count: int) -> None:
        buffer = np.empty(self._bins)
        for place in range(count):
            opened = self._opened[place]
            used = self._open(place, opened, buffer)
            for step in self._rules.steps:
                top = place + step
                if top > count or not self._bands[step][place]:
                    continue
                shift, cost = self._pair_cost(place, step)
                self._shift[place, step] = (shift, cost)
                last = min(shift + used, self._bins)
                if last <= shift:
                    continue
                closed, costs = self._closed[top, shift:last], buffer[: last - shift]
                np.add(opened[: last - shift], cost, out=costs)
                np.minimum(closed, costs, out=closed)
                self._used[top] = max(self._used[top], last)

    def _open(self, place: int, opened: Costs, buffer: Costs) -> int:
        """Work out the cost of every length with a pair about to begin; return bins in use."""
        opened[0] = self._start_cost(place)
        most = 1
        for step in self._rules.steps:
            used = self._used[place - step] if place >= step else 0
            if used:
                here, costs = opened[:used], buffer[:used]
                np.add(self._closed[place - step, :used], self._gap_cost(place, step), out=costs)
                np.minimum(here, costs, out=here)
                most = max(most, used)
        return most

    def _rows_at(self, place: int) -> Strip:
        """Stretches of a pair that begins at a place, whatever its height."""
        band = self._bands[self._rules.steps[0]]
        return band[place] if place < len(band) else ()

    def _start_cost(self, place: int) -> float:
        reached = max(0, place - self._beyond)
        return self._below[reached] + self._missed(reached, place, self._rows_at(place))

    def _end_cost(self, place: int, rows: Strip) -> float:
        count = len(self._strips)
        reached = min(count, place + self._beyond)
        own = min(place + self._shared, count)  # these were counted with the pair
        return self._below[count] - self._below[reached] + self._missed(own, reached, rows)

    def _gap_cost(self, place: int, step: int) -> float:
        missed = self._missed(place - step + self._shared, place, self._rows_at(place))
        return missed + self._irregular[step]

    def _pair_cost(self, place: int, step: int) -> tuple[int, float]:
        """Length in bins and unheated floor of the pair of rows from a place."""
        rows = self._bands[step][place]
        key = (id(rows), step)  # the bands keep their stretches alive: an id stays one's own
        shift = self._shifts.get(key)
        if shift is None:
            rules = self._rules
            turns = step * rules.pitch_mm
            length = sum(2 * (b - a + turns) - 4 * ROUNDED * rules.radius_mm for a, b in rows)
            shift = self._shifts[key] = round(length / self._bin)
        last = min(place + step + self._shared, len(self._strips))
        return shift, self._missed(place, last, rows) + self._irregular[step]

    def _missed(self, first: int, last: int, rows: Strip) -> float:
        """Floor of the strips from ``first`` up to ``last`` that rows don't heat [mm²]."""
        strips = self._strips
        if first >= last or (strips[first] is rows and self._same_to[first] >= last):
            return 0.0
        total = 0.0
        for k in range(first, last):
            if strips[k] is not rows:
                total += missed_mm(strips[k], rows, self._reach)
        return total * self._rules.pitch_mm

    def best(self, needed_mm: float) -> tuple[tuple[RowPair, ...], float]:
        """Rows for a length, a little longer where that leaves less floor cold.

        Parameters
        ----------
        needed_mm
            Least length of the loops together [mm].

        Returns
        -------
        tuple of RowPair, float
            From front to back, empty where the length is out of reach; and the floor that stays
            unheated by the table's reckoning [mm²].
        """
        least = ceil(needed_mm / self._bin - 1e-6)
        if least >= self._bins:
            return (), _NEVER
        excess = np.arange(self._bins - least) * self._bin
        # turns cut back by half a spacing leave nothing cold: about one a loop is free
        free = needed_mm / (2 * self._mean_width) * self._rules.widest_mm
        spacing = self._rules.widest_mm
        trimmed = np.maximum(excess - free, 0.0) * spacing + excess * _UNEVEN
        best_cost, best_top, best_bin = _NEVER, -1, 0
        for top, used in enumerate(self._used):
            if used <= least:
                continue
            costs = self._closed[top, least:used] + trimmed[: used - least]
            at = int(costs.argmin())
            if costs[at] >= best_cost:
                continue
            cost = float(costs[at]) + self._end_cost(top, self._top_rows(top))
            if cost < best_cost:
                best_cost, best_top, best_bin = cost, top, at + least
        if best_cost > _NOT_CHOSEN:
            return (), _NEVER
        return self._walk_back(best_top, best_bin), best_cost

    def _top_rows(self, top: int) -> Strip:
        step = next(s for s in self._rules.steps if top >= s and self._bands[s][top - s])
        return self._bands[step][top - step]

    def _walk_back(self, top: int, at: int) -> tuple[RowPair, ...]:
        """Pairs that led to a cell of the table."""
        pairs: list[RowPair] = []
        while True:
            pair, at = self._pair_below(top, at)
            pairs.append(pair)
            if at == 0:
                return tuple(reversed(pairs))
            top = self._top_below(pair.bottom, at)

    def _pair_below(self, top: int, at: int) -> tuple[RowPair, int]:
        """Pair that ends at a place, and the length in bins before it."""
        closed = self._closed[top]
        for step in self._rules.steps:
            place = top - step
            known = self._shift.get((place, step))
            if known is None or known[0] > at:
                continue
            if self._opened[place, at - known[0]] + known[1] == closed[at]:
                return RowPair(place, top, self._bands[step][place]), at - known[0]
        raise RuntimeError(_NO_WAY_BACK)

    def _top_below(self, bottom: int, at: int) -> int:
        """Place at which the pair before one that begins at ``bottom`` ended."""
        opened = self._opened[bottom]
        for step in self._rules.steps:
            if bottom < step:
                continue
            if self._closed[bottom - step, at] + self._gap_cost(bottom, step) == opened[at]:
                return bottom - step
        raise RuntimeError(_NO_WAY_BACK)
