"""What rows of cable would leave unheated, row place by row place, and how long they would be.

Floor that no row heats lies before the first pair of rows, between two pairs, within a pair and
behind the last one.  Where the strips round a place are all alike nothing is cold: only places
near a change of the free floor are looked at closely.
"""

from collections.abc import Iterable, Sequence
from functools import cached_property, reduce
from itertools import accumulate, groupby, repeat
from math import ceil, inf
from operator import or_
from typing import Final

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.heating.cable_strips import Strip, bands_of, free_mm, missed_mm

_IRREGULAR_MM2: Final = 400.0
"""Cost of a step that differs by one place from the middle one: of equal plans the even one."""

_UNEVEN: Final = 2.0
"""Cost of a millimetre cut off turns [mm² each]: of equal plans the one with full rows."""

ROUNDED: Final = 2.0 - np.pi / 2
"""A right-angled corner rounded with radius r is this times r shorter."""


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

    @property
    def bin_mm(self) -> float:
        """What lengths are counted in: a turn one place further on either side [mm]."""
        return 2 * self.pitch_mm


class RowCosts:
    """Unheated floor and length of every pair of rows that a free floor has room for."""

    def __init__(self, strips: Sequence[Strip], rules: RowRules) -> None:
        """Look at the strips.

        Parameters
        ----------
        strips
            Free stretches between row places.
        rules
            Allowed steps.
        """
        self.rules = rules
        self.count = len(strips)
        self._strips = strips
        self._bands = bands_of(strips, rules.steps[-1], rules.shortest_mm)
        middle = (rules.steps[0] + rules.steps[-1]) / 2
        self._irregular = {s: _IRREGULAR_MM2 * (s - middle) ** 2 for s in rules.steps}
        self._shared = rules.steps[0] // 2  # strips above a pair that count as its own
        self._reach = rules.widest_mm / 2
        self._beyond = max(1, round(self._reach / rules.pitch_mm))
        self._widths = [
            width
            for strip, alike in groupby(strips)
            for width in repeat(free_mm(strip), len(list(alike)))
        ]
        free = sum(map(bool, self._widths))
        self._mean_width_mm = max(sum(self._widths) / max(1, free), rules.shortest_mm)
        self._seen: dict[int, dict[int, float]] = {}
        self.lengths = {s: self._lengths(s) for s in rules.steps}
        self._most_before, self._reached = self._lengths_before()

    def bins(self, length_mm: float) -> int:
        """Whole bins that hold a length."""
        return ceil(length_mm / self.rules.bin_mm - 1e-6)

    def cut_back_mm2(self, needed_mm: float, bins: NDArray[np.int64]) -> NDArray[np.float64]:
        """Floor left unheated where turns are cut back to lose what is more than needed [mm²].

        Parameters
        ----------
        needed_mm
            Length of the loops together [mm].
        bins
            Excess over it.
        """
        excess, spacing = bins * self.rules.bin_mm, self.rules.widest_mm
        # turns cut back by half a spacing leave nothing cold: about one a loop is free
        free = needed_mm / (2 * self._mean_width_mm) * spacing
        cold: NDArray[np.float64] = np.maximum(excess - free, 0.0) * spacing + excess * _UNEVEN
        return cold

    def reach(self, needed_mm: float) -> bool:
        """Whether any rows are as long [mm]."""
        return self._reached >> self.bins(needed_mm) > 0

    def least_mm2(self, needed_mm: float) -> float:
        """Floor that the best rows for a length leave unheated at the least [mm²].

        The shortest that may be reached at all and is as long says how much is to be cut back.

        Parameters
        ----------
        needed_mm
            Length of the loops together [mm].

        Returns
        -------
        float
            Infinite where no rows are as long.
        """
        longer = self._reached >> self.bins(needed_mm)
        if not longer:
            return inf
        lowest = (longer & -longer).bit_length() - 1
        return float(self.cut_back_mm2(needed_mm, np.array(lowest)))

    def window(self, first: int, last: int, least: int, bins: int) -> tuple[int, int]:
        """Lengths so far that lead on from some places to at least ``least`` and below ``bins``.

        Whatever is laid from a place on could as well follow the longest rows before it: a length
        that lags behind these by more than the total may behind the longest of all is too short.

        Returns
        -------
        int, int
            Least and one above the most [bins]; none lies between where none leads there.
        """
        most = self._most_before[first:last]
        low = max(0, min(most) - (self._reached.bit_length() - 1 - least))
        return low, max(low, min(bins, max(most) + 1))

    def _lengths_before(self) -> tuple[list[int], int]:
        """Most length that may be reached before a pair at each place, and all that pairs reach.

        A set of lengths is the bits of a whole number, a pair of rows laid after each of them a
        shift.
        """
        steps, by_step, most = self.rules.steps, [*self.lengths.items()], []
        widest = steps[-1]
        closed = [0] * (widest + self.count + 1)  # none before the first place
        for place in range(self.count):
            at, before = widest + place, 1
            for step in steps:
                before |= closed[at - step]
            for step, lengths in by_step:
                length = lengths[place]
                if length:
                    closed[at + step] |= before << length
            most.append(before.bit_length() - 1)
        return most, reduce(or_, closed)

    @cached_property
    def _opening(self) -> list[Strip]:
        """Stretches of a pair that begins at each place, whatever its height."""
        nearest = self.rules.steps[0]
        return [*self._bands[nearest], *[()] * (nearest - 1)]

    @cached_property
    def _changes(self) -> list[int]:
        """Strips that differ from the one before."""
        runs = (len(list(alike)) for _, alike in groupby(self._strips))
        return [*accumulate(runs)][:-1]

    def _near_changes(self, before: int, behind: int) -> list[int]:
        """Places with a change among so many strips from there on, or so many before."""
        near = {k for c in self._changes for k in range(max(0, c - before + 1), c + behind)}
        return sorted(k for k in near if k < self.count)

    @cached_property
    def _below(self) -> list[float]:
        """Free floor before each place, and before the back [mm²]."""
        return [w * self.rules.pitch_mm for w in accumulate(self._widths, initial=0.0)]

    @cached_property
    def behind_mm2(self) -> list[float]:
        """Floor farther behind a last pair that ends at each place than its rows reach [mm²]."""
        below, last = self._below, self.count
        return [below[-1] - below[min(last, top + self._beyond)] for top in range(last + 1)]

    def starts(self) -> NDArray[np.float64]:
        """Floor left unheated before a first pair that begins at each place [mm²]."""
        places = np.arange(self.count)
        reached = np.maximum(0, places - self._beyond)
        return np.array(self._below)[reached] + self._before_mm2[places, places - reached]

    def gaps(self) -> NDArray[np.float64]:
        """Floor left unheated between a pair that ended a step before each place and the next.

        Shape (places, steps) [mm²].  At places less than a step from the front no pair ended.
        """
        steps = list(self.rules.steps)
        return self._before_mm2[:, np.array(steps) - self._shared] + [
            self._irregular[step] for step in steps
        ]

    def pairs(self) -> NDArray[np.float64]:
        """Floor left unheated by a pair a step high from each place that has room for one.

        Shape (places, steps) [mm²].
        """
        rules, count = self.rules, self.count
        tallest = rules.steps[-1] + self._shared
        found = np.zeros((count, len(rules.steps)))  # nothing is where all strips are alike
        for place in self._near_changes(tallest, 0):
            if place <= count - rules.steps[0]:
                found[place] = self._missed_by_pairs(place, self._strips[place : place + tallest])
        return found * rules.pitch_mm + [self._irregular[step] for step in rules.steps]

    def _missed_by_pairs(self, place: int, strips: Sequence[Strip]) -> list[float]:
        """Length of strips from a place on that a pair of each height there does not heat [mm]."""
        found: list[float] = []
        last: Strip | None = None
        cold: list[float] = []
        for step in self.rules.steps:
            band = self._bands[step]
            rows = band[place] if place < len(band) else ()
            if rows is not last:  # most are alike whatever the height
                cold = [*accumulate(self._missed_mm(strips, rows))]
                last = rows
            found.append(cold[min(step + self._shared, len(cold)) - 1])
        return found

    @cached_property
    def _before_mm2(self) -> NDArray[np.float64]:
        """Floor of the strips before each place that a pair from there does not heat.

        Shape (places, strips) [mm²]: of none, of the next one, of the next two.
        """
        own, depth = self.rules.steps[0], self.rules.steps[-1] - self._shared
        found = np.zeros((self.count, depth + 1))  # nothing is where all strips are alike
        for place in self._near_changes(own, depth):
            rows = self._opening[place]
            if rows:
                strips = reversed(self._strips[max(0, place - depth) : place])
                cold = [*accumulate(self._missed_mm(strips, rows), initial=0.0)]
                found[place] = cold + cold[-1:] * (depth + 1 - len(cold))
        return found * self.rules.pitch_mm

    def end(self, top: int) -> float:
        """Floor left unheated behind a last pair that ends at a place [mm²]."""
        rules, count = self.rules, self.count
        step = next(s for s in rules.steps if top >= s and self._bands[s][top - s])
        reached = min(count, top + self._beyond)
        own = min(top + self._shared, count)  # these were counted with the pair
        cold = self._missed(own, reached, self.rows(top - step, step))
        return self.behind_mm2[top] + cold

    def rows(self, place: int, step: int) -> Strip:
        """Stretches of the pair of rows a step high from a place."""
        return self._bands[step][place]

    def _lengths(self, step: int) -> list[int]:
        """Length in bins of a pair a step high from each place; 0 where there is no room."""
        turns, corners = step * self.rules.pitch_mm, 4 * ROUNDED * self.rules.radius_mm
        found: list[int] = []
        for rows, alike in groupby(self._bands[step]):
            total = sum(2 * (b - a + turns) - corners for a, b in rows)
            found += [round(total / self.rules.bin_mm)] * len(list(alike))
        return found + [0] * (self.count - len(found))

    def _missed(self, first: int, last: int, rows: Strip) -> float:
        """Floor of the strips from ``first`` up to ``last`` that rows don't heat [mm²]."""
        return sum(self._missed_mm(self._strips[first:last], rows)) * self.rules.pitch_mm

    def _missed_mm(self, strips: Iterable[Strip], rows: Strip) -> list[float]:
        """Length of each strip that rows don't heat [mm]."""
        seen = self._seen.setdefault(id(rows), {id(rows): 0.0})
        found = []
        for strip in strips:
            cold = seen.get(id(strip))
            if cold is None:
                cold = seen[id(strip)] = missed_mm(strip, rows, self._reach)
            found.append(cold)
        return found
