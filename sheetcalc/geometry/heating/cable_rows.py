"""Which rows to lay: pairs of rows whose total length comes out, leaving least floor cold.

Dynamic programming over (row place, length so far): every reachable total length is known at once
with the least floor that it leaves unheated.  Two rows of a pair, and two neighbouring pairs, are
an allowed number of places apart.
"""

from collections.abc import Iterable
from functools import reduce
from typing import Final, TypeAlias

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.heating.cable_row_costs import RowCosts
from sheetcalc.geometry.heating.cable_strips import Strip

Costs: TypeAlias = NDArray[np.float64]

_NEVER: Final = 1e18
_NOT_CHOSEN: Final = 1e17
_NO_WAY_BACK: Final = "the table of rows has no way back from a cell that it reached"


class RowPair(Struct, frozen=True):
    """Two rows with a turn at each end: strips ``bottom`` to ``top - 1`` lie between them."""

    bottom: int
    top: int
    stretches: Strip


class RowTable:
    """Every reachable length up to a longest one, with the floor that it leaves unheated."""

    def __init__(self, costs: RowCosts, longest_mm: float, least_mm: float = 0.0) -> None:
        """Fill the table.

        Parameters
        ----------
        costs
            Of the rows that a floor has room for.
        longest_mm
            Lengths above this are of no interest [mm].
        least_mm
            Nor are total lengths below this [mm].
        """
        self._costs = costs
        steps = costs.rules.steps
        self._bins = costs.bins(longest_mm) + 1
        self._gaps, self._pairs = costs.gaps(), costs.pairs()
        # cost of every length with a pair opened at a place, block by block of places, from the
        # least length that leads on; or closed there: before the first place lie as many rows
        # without a pair as the widest step needs, behind the longest length one more pair
        self._before = steps[-1]
        self._block = 2 * steps[0]
        self._opened: list[tuple[int, Costs]] = []
        longest = max((max(lengths, default=0) for lengths in costs.lengths.values()), default=0)
        shape = (self._before + costs.count + 1, self._bins + longest)
        self._closed = np.full(shape, _NEVER)
        self._fill(costs.bins(least_mm))

    def _fill(self, least: int) -> None:
        """Fill the table from front to back, as many places at once as don't need each other.

        A pair and the gap before the next are at least two smallest steps together.
        """
        costs, starts = self._costs, self._costs.starts()
        for first in range(0, costs.count, self._block):
            last = min(first + self._block, costs.count)
            low, high = costs.window(first, last, least, self._bins)
            opened = self._open(first, last, low, high)
            if low == 0 < high:
                opened[:, 0] = starts[first:last]
            self._opened.append((low, opened))
            if low < high:
                self._close(first, last, low, opened)

    def _open(self, first: int, last: int, low: int, high: int) -> Costs:
        """Work out the cost of lengths from ``low`` on with a pair about to begin at places."""
        by_step = []
        for number, step in enumerate(self._costs.rules.steps):
            below = self._before - step
            closed = self._closed[first + below : last + below, low:high]
            by_step.append(closed + self._gaps[first:last, number, None])
        costs: Costs = reduce(np.minimum, by_step)
        return costs

    def _close(self, first: int, last: int, low: int, opened: Costs) -> None:
        """Lay every pair that begins at some places."""
        wide = opened.shape[1]
        for number, (step, lengths) in enumerate(self._costs.lengths.items()):
            laid = opened + self._pairs[first:last, number, None]
            begin, above = first, self._before + step
            while begin < last:  # neighbours of one length are laid at once
                length, end = lengths[begin], begin + 1
                while end < last and lengths[end] == length:
                    end += 1
                if length:
                    left = low + length
                    closed = self._closed[above + begin : above + end, left : left + wide]
                    np.minimum(closed, laid[begin - first : end - first], out=closed)
                begin = end

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
        least = self._costs.bins(needed_mm)
        if least >= self._bins:
            return (), _NEVER
        trimmed = self._costs.cut_back_mm2(needed_mm, np.arange(self._bins - least))
        totals = self._closed[self._before :, least : self._bins] + trimmed
        lowest = totals.min(axis=1)
        # what lies behind the last pair only adds to it: least where that is the last of all
        bounds = lowest + self._costs.behind_mm2
        best_cost, best_top = _NOT_CHOSEN, self._costs.count + 1
        for top in bounds.argsort(kind="stable").tolist():
            if bounds[top] > best_cost:
                break
            whole = float(lowest[top]) + self._costs.end(top)
            best_cost, best_top = min((best_cost, best_top), (whole, top))
        if best_top > self._costs.count:
            return (), _NEVER
        return self._walk_back(best_top, int(totals[best_top].argmin()) + least), best_cost

    def length_mm(self, pairs: Iterable[RowPair]) -> float:
        """Length of pairs of rows by the table's reckoning, in whole bins [mm]."""
        lengths = self._costs.lengths
        bins = sum(lengths[pair.top - pair.bottom][pair.bottom] for pair in pairs)
        return bins * self._costs.rules.bin_mm

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
        cost = self._closed[self._before + top, at]
        for number, step in enumerate(self._costs.rules.steps):
            place = top - step
            length = self._costs.lengths[step][place] if place >= 0 else 0
            if not 0 < length <= at:
                continue
            if self._cost_opened(place, at - length) + self._pairs[place, number] == cost:
                return RowPair(place, top, self._costs.rows(place, step)), at - length
        raise RuntimeError(_NO_WAY_BACK)

    def _cost_opened(self, place: int, at: int) -> float:
        """Cost of a length with a pair about to begin at a place."""
        low, opened = self._opened[place // self._block]
        known = low <= at < low + opened.shape[1]
        return opened[place % self._block, at - low] if known else _NEVER

    def _top_below(self, bottom: int, at: int) -> int:
        """Place at which the pair before one that begins at ``bottom`` ended."""
        cost = self._cost_opened(bottom, at)
        for number, step in enumerate(self._costs.rules.steps):
            if bottom < step:
                continue
            closed = self._closed[self._before + bottom - step, at]
            if closed + self._gaps[bottom, number] == cost:
                return bottom - step
        raise RuntimeError(_NO_WAY_BACK)
