"""Weigh pairs of starts of a lattice by the Job's aims."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.candidates import outer_cuts
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.lattice import (
    Cover,
    Floats,
    Kinds,
    Runs,
    chords,
    cover,
    kinds_of,
    meet,
    runs_of,
)
from sheetcalc.geometry.setting_out.slabs import Flags, Ints, Slabs
from sheetcalc.geometry.setting_out.slivers import Slivers, slivers_of

_SAME = 1e-9
_FEW_PAIRS = 1000  # so many are weighed by every aim sooner than the best of them are picked out
_MOST_UNEVEN = np.iinfo(np.int64).max


class _Tiles(Struct, frozen=True):
    """Tiles of one axis: face, period, and the size below which a cut is small."""

    face: int
    period: int
    small: int


class _Axis(Struct, frozen=True):
    """Everything that depends on the start of one axis alone; K starts."""

    edges: Ints
    tiles: _Tiles
    laid: Cover
    runs: Runs
    lengths: Ints  # (runs, borders, K): of each unbroken stretch under each tile across a border
    covered: Floats  # (K, own slabs): length under tile

    def kinds(self, starts: Ints) -> Kinds:
        """Kinds of tiles, counted at some starts."""
        counted = np.flatnonzero(np.bincount(starts.reshape(-1), minlength=len(self.covered)))
        return kinds_of(self.edges, self.laid, self.lengths, self.runs, self.tiles.small, counted)

    def slivers(self, other: "_Axis") -> Slivers:
        """Smallest cuts, where the other axis lays tile."""
        small, face = self.tiles.small, self.tiles.face
        return slivers_of(self.lengths, small, face, self.runs, other.covered)


def _axis(edges: Ints, tiles: _Tiles, starts: Ints, occupied: Flags) -> _Axis:
    runs = runs_of(edges, occupied)
    laid = cover(edges, tiles.face, tiles.period, starts)
    covered = np.ascontiguousarray(laid.covered.T, dtype=np.float64)
    return _Axis(edges, tiles, laid, runs, chords(laid, runs), covered)


def weigh(  # noqa: PLR0913 - what is tiled, the bond, the aims, and the starts to weigh
    slabs: Slabs,
    lattice: Lattice,
    aims: Sequence[Aim],
    xs: Ints,
    ys: Ints,
    *,
    only: int | None = None,
) -> Choice:
    """Weigh every pair of starts and choose the best.

    Parameters
    ----------
    slabs
        What is tiled, on the lattice's grid.
    lattice
        The bond.
    aims
        In order of weight.
    xs
        Starts in [0, part), shape (B,); every step of the pitch is weighed for each.
    ys
        Starts, shape (C,).
    only
        Weigh this step of the pitch alone.
    """
    base, cycle = len(xs), lattice.cycle
    all_x = (xs[None, :] + lattice.part * np.arange(lattice.parts)[:, None]).reshape(-1)
    if cycle > 1 and not lattice.steps_round and only is None:
        ys = np.concatenate([ys + row * lattice.rise for row in range(cycle)])
    row_starts = (ys[None, :] + lattice.rise * np.arange(cycle)[:, None]).reshape(-1)
    along = _Tiles(lattice.length, lattice.pitch, lattice.small_length)
    across = _Tiles(lattice.width, lattice.rise * cycle, lattice.small_width)
    x = _axis(slabs.xs, along, all_x, slabs.occupied)
    y = _axis(slabs.ys, across, row_starts, np.ascontiguousarray(slabs.occupied.T))
    uneven_y = _uneven(*outer_cuts(slabs.ys, lattice.width, lattice.rise, ys))
    axes = _Axes(slabs.occupied, x, y, x.slivers(y), y.slivers(x), uneven_y)
    outer = outer_cuts(slabs.xs, lattice.length, lattice.pitch, all_x)
    # a bond that steps in thirds or less may step either way; halves are their own mirror
    both_ways = cycle > 2 and lattice.steps_round and only is None  # noqa: PLR2004
    ways = []
    row_of_y = np.arange(len(row_starts)).reshape(cycle, -1)
    for leftward in (False, True) if both_ways else (False,):
        steps = np.array(lattice.steps)[:, None] * (-base if leftward else base)
        rows = (np.arange(len(all_x)) + steps) % len(all_x)
        ways.append(_Pairs(axes, (all_x, ys), rows, row_of_y, _uneven(*outer, rows), leftward))
    i = np.arange(len(all_x)) if only is None else np.arange(only * base, (only + 1) * base)
    # stepping the other way, the same starts have the same rows, in another order
    i, j = ways[0].hopeful(aims[0], i, np.arange(len(ys)))
    counts = _counted(axes, *ways[0].rows_of(i, j))
    choices = [pairs.choose(aims, counts, i, j) for pairs in ways]
    at = min(range(len(ways)), key=lambda way: choices[way].rank(aims))
    return replace(choices[at], least_covered=ways[at].least_covered())


class _Axes(Struct, frozen=True):
    """Both axes and their smallest cuts; ``uneven`` is the difference of the outer ones along y."""

    occupied: Flags
    x: _Axis
    y: _Axis
    slivers_x: Slivers
    slivers_y: Slivers
    uneven: Ints


class _Counts(Struct, frozen=True):
    """How many tiles of each kind lie at each start, and what they make of each other."""

    x: Floats
    y: Floats
    laid: Floats
    cut: Floats
    small: Floats


def _counted(axes: _Axes, across: Ints, along: Ints) -> _Counts:
    """Sort the tiles at the starts that the rows of a cycle have."""
    columns, rows = axes.x.kinds(across), axes.y.kinds(along)
    meeting = meet(columns, rows, axes.occupied)
    cut = meeting.laid - meeting.whole
    return _Counts(columns.number, rows.number, meeting.laid, cut, meeting.small)


class _Pairs(Struct, frozen=True):
    """All pairs of starts of a bond that steps one way, and their measures.

    ``rows`` and ``along`` tell, for each row of the bond's cycle, which start of the axis x or y
    that row has at each of them.  ``uneven`` is the difference of the outer cuts along x.
    """

    axes: _Axes
    starts: tuple[Ints, Ints]
    rows: Ints
    along: Ints
    uneven: Ints
    leftward: bool

    def rows_of(self, i: Ints, j: Ints) -> tuple[Ints, Ints]:
        """Which start of its axis each row has, for starts i and for starts j."""
        return self.rows[:, i], self.along[:, j]

    def least_covered(self) -> float:
        """Smallest area under tile over all pairs."""
        x, y = self.axes.x.covered, self.axes.y.covered
        i, j = np.arange(self.rows.shape[1]), np.arange(self.along.shape[1])
        return float(self._summed(x, self.axes.occupied.astype(np.float64), y, i, j).min())

    def _summed(self, x: Floats, meeting: Floats, y: Floats, i: Ints, j: Ints) -> Floats:
        """Sum over the rows of a cycle what lies along x, times what lies along y.

        One product for all rows, side by side.
        """
        across, along = self.rows_of(i, j)
        made = (x[across.T.reshape(-1)] @ meeting).reshape(len(i), -1)
        return np.asarray(made @ y[along.T].reshape(len(j), -1).T)

    def _shortfall(self, i: Ints, j: Ints) -> Floats:
        """Lack of the smallest cut for starts i by j."""
        across, along = self.rows_of(i, j)
        lack_x = self.axes.slivers_x.worst(across, along)
        return np.maximum(lack_x.T, self.axes.slivers_y.worst(along, across))

    def _balance(self, i: Ints, j: Ints) -> Floats:
        """Largest difference of opposite outer cuts for starts i by j."""
        return np.maximum(self.uneven[i][:, None], self.axes.uneven[j]).astype(np.float64)

    def hopeful(self, aim: Aim, i: Ints, j: Ints) -> tuple[Ints, Ints]:
        """Leave out starts that alone measure worse by an aim than some pair does."""
        if len(i) * len(j) <= _FEW_PAIRS or aim not in {Aim.NO_SLIVER, Aim.BALANCE}:
            return i, j
        own_i: Ints | Floats = self.uneven[i]
        own_j: Ints | Floats = self.axes.uneven[j]
        measure = self._balance
        if aim is Aim.NO_SLIVER:
            across, along = self.rows_of(i, j)
            own_i, own_j = self.axes.slivers_x.least(across), self.axes.slivers_y.least(along)
            measure = self._shortfall
        a, b = int(own_i.argmin()), int(own_j.argmin())
        reached = float(measure(i[a : a + 1], j[b : b + 1])[0, 0]) + _SAME
        return i[own_i <= reached], j[own_j <= reached]

    def choose(self, aims: Sequence[Aim], counts: _Counts, i: Ints, j: Ints) -> Choice:
        """Keep, aim by aim, the pairs that are best so far.

        Parameters
        ----------
        aims
            In order of weight.
        counts
            Tiles at the starts that may be chosen.
        i, j
            Starts that may be chosen.

        Returns
        -------
        Choice
            Without the smallest area under tile.
        """
        all_x, ys = self.starts
        best = np.ones((len(i), len(j)), dtype=np.bool_)
        found: dict[Aim, float] = {}
        for aim in aims:
            if aim is Aim.FEWEST_SMALL and found.get(Aim.NO_SLIVER) == 0:
                found[aim] = 0.0  # no cut is below the limit, so none is small
                continue
            values = np.where(best, self._measure(aim, counts, i, j), np.inf)
            found[aim] = float(values.min())
            best = values <= found[aim] + _SAME
            if best.size > _FEW_PAIRS:
                own_i, own_j = best.any(axis=1), best.any(axis=0)
                i, j, best = i[own_i], j[own_j], best[own_i][:, own_j]
        uneven = np.where(best, self.uneven[i][:, None] + self.axes.uneven[j], _MOST_UNEVEN)
        least = uneven.min()
        along, across = np.nonzero(uneven == least)
        i, j = i[along], j[across]
        pick = int(np.argmax(self._reach(i, j)))
        return Choice(
            x=int(all_x[i[pick]]),
            y=int(ys[j[pick]]),
            leftward=self.leftward,
            shortfall=found[Aim.NO_SLIVER],
            small=round(found[Aim.FEWEST_SMALL]),
            cut=round(found[Aim.FEWEST_CUTS]),
            laid=round(found[Aim.FEWEST_TILES]),
            balance=round(found[Aim.BALANCE]),
            unevenness=int(least),
            least_covered=0.0,
        )

    def _reach(self, i: Ints, j: Ints) -> Floats:
        """Length under tile along both axes: less where a joint runs along an edge."""
        x, y = self.axes.x.covered.sum(axis=1), self.axes.y.covered.sum(axis=1)
        return np.asarray(x[self.rows[:, i]].sum(axis=0) + y[self.along[:, j]].sum(axis=0))

    def _measure(self, aim: Aim, counts: _Counts, i: Ints, j: Ints) -> Floats:
        """How starts i by j measure by an aim."""
        if aim is Aim.NO_SLIVER:
            return self._shortfall(i, j)
        if aim is Aim.BALANCE:
            return self._balance(i, j)
        meeting = counts.small
        if aim is not Aim.FEWEST_SMALL:
            meeting = counts.cut if aim is Aim.FEWEST_CUTS else counts.laid
        return self._summed(counts.x, meeting, counts.y, i, j)


def _uneven(first: Ints, last: Ints, rows: Ints | None = None) -> Ints:
    """Difference of opposite outer cuts; over the rows of a cycle, of the sorted cuts."""
    if rows is None or len(rows) == 1:
        return np.asarray(np.abs(first - last))
    return np.asarray(
        np.abs(np.sort(first[rows], axis=0) - np.sort(last[rows], axis=0)).max(axis=0)
    )
