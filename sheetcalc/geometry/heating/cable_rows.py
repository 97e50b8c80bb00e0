"""Which rows to lay: pairs of rows whose total length comes out, leaving least floor cold.

Dynamic programming over (row place, length so far): every reachable total length is known at once
with the least floor that it leaves unheated.  Two rows of a pair, and two neighbouring pairs, are
an allowed number of places apart.
"""

from collections.abc import Sequence
from itertools import groupby
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

    def __init__(self, costs: RowCosts, longest_mm: float) -> None:
        """Fill the table.

        Parameters
        ----------
        costs
            Of the rows that a floor has room for.
        longest_mm
            Lengths above this are of no interest [mm].
        """
        self._costs = costs
        steps = costs.rules.steps
        self._bins = costs.bins(longest_mm) + 1
        self._gaps = {s: costs.gaps(s) for s in steps}
        self._pairs = {s: costs.pairs(s) for s in steps}
        # cost of every length with a pair opened at a place, or closed there; before the first
        # place lie as many rows without a pair as the widest step needs.  Rows are as long as a
        # pair reaches, so that one laid over many rows at once does not run into the next row
        self._before = steps[-1]
        longest = max((max(lengths, default=0) for lengths in costs.lengths.values()), default=0)
        self._width = self._bins + longest
        self._opened = np.full((costs.count, self._width), _NEVER)
        self._closed = np.full((self._before + costs.count + 2, self._width), _NEVER)
        self._fill()

    def _fill(self) -> None:
        """Fill the table from front to back, as many places at once as don't need each other.

        A pair and the gap before the next are at least two smallest steps together.
        """
        starts = self._costs.starts()
        block = 2 * self._costs.rules.steps[0]
        buffer = np.empty((block, self._width))
        for first in range(0, self._costs.count, block):
            last = min(first + block, self._costs.count)
            self._open(first, last, buffer[: last - first])
            self._opened[first:last, 0] = starts[first:last]
            self._close(first, last, buffer[: last - first])

    def _open(self, first: int, last: int, costs: Costs) -> None:
        """Work out the cost of every length with a pair about to begin at some places."""
        opened = self._opened[first:last]
        for step, gaps in self._gaps.items():
            below = self._before - step
            _add(self._closed[first + below : last + below], gaps[first:last], costs)
            np.minimum(opened, costs, out=opened)
        opened[:, self._bins :] = _NEVER

    def _close(self, first: int, last: int, costs: Costs) -> None:
        """Lay every pair that begins at some places."""
        width, closed, laid = self._width, self._closed.reshape(-1), costs.reshape(-1)
        for step, lengths in self._costs.lengths.items():
            _add(self._opened[first:last], self._pairs[step][first:last], costs)
            # neighbours of one length are laid at once: in the table they move by as much
            for length, alike in groupby(range(first, last), lengths.__getitem__):
                places = list(alike)
                if length:
                    at = (places[0] + self._before + step) * width + length
                    above = closed[at : at + len(places) * width]
                    begin = (places[0] - first) * width
                    np.minimum(above, laid[begin : begin + len(above)], out=above)

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
        totals = self._closed[self._before : -1, least : self._bins] + trimmed
        best_cost, best_top, best_bin = _NOT_CHOSEN, -1, 0
        lowest = totals.min(axis=1).tolist()
        # what lies behind the last pair only adds to it: least where that is the last of all
        for top in range(self._costs.count, -1, -1):
            if lowest[top] + self._costs.behind_mm2[top] > best_cost:
                continue
            whole = lowest[top] + self._costs.end(top)
            if whole <= best_cost:
                best_cost, best_top, best_bin = whole, top, int(totals[top].argmin()) + least
        if best_top < 0:
            return (), _NEVER
        return self._walk_back(best_top, best_bin), best_cost

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
        for step in self._costs.rules.steps:
            place = top - step
            length = self._costs.lengths[step][place] if place >= 0 else 0
            if not 0 < length <= at:
                continue
            if self._opened[place, at - length] + self._pairs[step][place] == cost:
                return RowPair(place, top, self._costs.rows(place, step)), at - length
        raise RuntimeError(_NO_WAY_BACK)

    def _top_below(self, bottom: int, at: int) -> int:
        """Place at which the pair before one that begins at ``bottom`` ended."""
        cost = self._opened[bottom, at]
        for step in self._costs.rules.steps:
            if bottom < step:
                continue
            closed = self._closed[self._before + bottom - step, at]
            if closed + self._gaps[step][bottom] == cost:
                return bottom - step
        raise RuntimeError(_NO_WAY_BACK)


def _add(table: Costs, more: Sequence[float], out: Costs) -> None:
    """Add a cost to every row of a table; where it is one for all, as most often, at once."""
    alike = len(set(more)) == 1
    np.add(table, more[0] if alike else np.array(more)[:, None], out=out)
