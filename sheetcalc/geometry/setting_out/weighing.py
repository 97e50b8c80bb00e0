"""Weigh pairs of starts of a lattice by the Job's aims."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.candidates import outer_cuts
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.lattice import (
    Floats,
    Kinds,
    cover,
    kinds_of,
    meet,
    shortest_chords,
)
from sheetcalc.geometry.setting_out.slabs import Flags, Ints, Slabs

_SAME = 1e-9
_FEW_PAIRS = 1000  # so many are weighed by every aim sooner than the best of them are picked out
_MOST_UNEVEN = np.iinfo(np.int64).max


class _Axis(Struct, frozen=True):
    """Everything that depends on the start of one axis alone; K starts."""

    kinds: Kinds
    shortfall: Floats  # (K, crossing slabs)
    covered: Floats  # (K, own slabs): length under tile

    @property
    def touched(self) -> Flags:
        """Shape (K, own slabs): slabs under a tile."""
        return self.covered > 0


class _Tiles(Struct, frozen=True):
    """Tiles of one axis: face, period, and the size below which a cut is small."""

    face: int
    period: int
    small: int


def _axis(edges: Ints, tiles: _Tiles, starts: Ints, occupied: Flags) -> _Axis:
    laid = cover(edges, tiles.face, tiles.period, starts)
    chords = shortest_chords(laid.overlap, occupied)
    kinds = kinds_of(laid, chords, tiles.small)
    shortfall = np.maximum(tiles.small - chords.min(axis=1), 0) / tiles.face
    covered = laid.overlap.sum(axis=1) + laid.inner * tiles.face
    return _Axis(kinds, shortfall, covered.astype(np.float64))


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
    meeting = meet(x.kinds, y.kinds, slabs.occupied)
    axes = _Axes(
        x,
        y,
        (meeting.laid, meeting.laid - meeting.whole, meeting.small),
        outer_cuts(slabs.xs, lattice.length, lattice.pitch, all_x),
        _uneven(outer_cuts(slabs.ys, lattice.width, lattice.rise, ys)),
    )
    left = np.arange(len(all_x)) if only is None else np.arange(only * base, (only + 1) * base)
    # a bond that steps in thirds or less may step either way; halves are their own mirror
    both_ways = cycle > 2 and lattice.steps_round and only is None  # noqa: PLR2004
    best: Choice | None = None
    for leftward in (False, True) if both_ways else (False,):
        rows = [
            (np.arange(len(all_x)) + (-s if leftward else s) * base) % len(all_x)
            for s in lattice.steps
        ]
        pairs = _Pairs(slabs.occupied, axes, (all_x, ys), rows)
        choice = pairs.choose(aims, left, leftward=leftward)
        if best is None or choice.rank(aims) < best.rank(aims):
            best = choice
    assert best is not None  # noqa: S101 - one way is always weighed
    return best


class _Axes(Struct, frozen=True):
    """Both axes, and what their tiles make of each other: laid, cut, small.

    ``outer`` holds the first and the last cut along x for each start, ``uneven`` their difference
    along y.
    """

    x: _Axis
    y: _Axis
    meetings: tuple[Floats, Floats, Floats]
    outer: tuple[Ints, Ints]
    uneven: Ints


_LAID, _CUT, _SMALL = range(3)


class _Pairs(Struct, frozen=True):
    """All pairs of starts, and their measures.

    ``rows`` holds, for each row of the bond's cycle, which start along x that row has.
    """

    occupied: Flags
    axes: _Axes
    starts: tuple[Ints, Ints]
    rows: list[Ints]

    def _count(self, which: int, i: Ints, j: Ints) -> Floats:
        """Tiles laid, cut or small for starts i by j."""
        made = self.axes.x.kinds.number @ self.axes.meetings[which]
        number = self.axes.y.kinds.number.reshape(len(self.rows), -1, made.shape[1])
        total = np.zeros((len(i), len(j)))
        for k, row in enumerate(self.rows):
            total += made[row[i]] @ number[k][j].T
        return total

    def _least_covered(self) -> float:
        """Smallest area under tile over all pairs."""
        made = self.axes.x.covered @ self.occupied.astype(np.float64)
        number = self.axes.y.covered.reshape(len(self.rows), -1, made.shape[1])
        total = np.zeros((len(self.rows[0]), number.shape[1]))
        for k, row in enumerate(self.rows):
            total += made[row] @ number[k].T
        return float(total.min())

    def _shortfall(self, i: Ints, j: Ints) -> Floats:
        """Lack of the smallest cut for starts i by j."""
        x, y = self.axes.x, self.axes.y
        across, touched_y = _masked(x.shortfall, y.touched)
        along, touched_x = _masked(y.shortfall, x.touched)
        count = len(y.shortfall) // len(self.rows)
        worst = np.zeros((len(i), len(j)))
        for k, row in enumerate(self.rows):
            xs, ys = row[i], j + k * count
            np.maximum(worst, _seen(across[xs], touched_y[ys]), out=worst)
            np.maximum(worst, _seen(along[ys], touched_x[xs]).T, out=worst)
        return worst

    def choose(self, aims: Sequence[Aim], left: Ints, *, leftward: bool) -> Choice:
        """Keep, aim by aim, the pairs that are best so far.

        Parameters
        ----------
        aims
            In order of weight.
        left
            Starts along x that may be chosen.
        leftward
            The way in which rows step.
        """
        all_x, ys = self.starts
        uneven_x, uneven_y = _uneven(self.axes.outer, self.rows), self.axes.uneven
        i, j = left, np.arange(len(ys))
        best = np.ones((len(i), len(j)), dtype=np.bool_)
        found: dict[Aim, float] = {}
        for aim in aims:
            if aim is Aim.FEWEST_SMALL and found.get(Aim.NO_SLIVER) == 0:
                found[aim] = 0.0  # no cut is below the limit, so none is small
                continue
            if aim is Aim.BALANCE:
                values = np.maximum(uneven_x[i][:, None], uneven_y[j]).astype(np.float64)
            else:
                values = self._measure(aim, i, j)
            values = np.where(best, values, np.inf)
            found[aim] = float(values.min())
            best = values <= found[aim] + _SAME
            if best.size > _FEW_PAIRS:
                own_i, own_j = best.any(axis=1), best.any(axis=0)
                i, j, best = i[own_i], j[own_j], best[own_i][:, own_j]
        uneven = np.where(best, uneven_x[i][:, None] + uneven_y[j], _MOST_UNEVEN)
        least = uneven.min()
        along, across = np.nonzero(uneven == least)
        i, j = i[along], j[across]
        pick = int(np.argmax(self._reach(i, j)))
        return Choice(
            x=int(all_x[i[pick]]),
            y=int(ys[j[pick]]),
            leftward=leftward,
            shortfall=found[Aim.NO_SLIVER],
            small=round(found[Aim.FEWEST_SMALL]),
            cut=round(found[Aim.FEWEST_CUTS]),
            laid=round(found[Aim.FEWEST_TILES]),
            balance=round(found[Aim.BALANCE]),
            unevenness=int(least),
            least_covered=self._least_covered(),
        )

    def _reach(self, i: Ints, j: Ints) -> Floats:
        """Length under tile along both axes: less where a joint runs along an edge."""
        x, y = self.axes.x.covered.sum(axis=1), self.axes.y.covered.sum(axis=1)
        y = y.reshape(len(self.rows), -1)
        return np.asarray(sum(x[row[i]] + y[k][j] for k, row in enumerate(self.rows)))

    def _measure(self, aim: Aim, i: Ints, j: Ints) -> Floats:
        """How starts i by j measure by an aim."""
        if aim is Aim.NO_SLIVER:
            return self._shortfall(i, j)
        if aim is Aim.FEWEST_SMALL:
            return self._count(_SMALL, i, j)
        return self._count(_CUT if aim is Aim.FEWEST_CUTS else _LAID, i, j)


def _masked(shortfall: Floats, touched: Flags) -> tuple[Floats, Ints]:
    """Worst shortfall for each distinct set of touched slabs, and which set each start has."""
    if touched.all():
        return shortfall.max(axis=1)[:, None], np.zeros(len(touched), dtype=np.int64)
    packed = np.ascontiguousarray(np.packbits(touched, axis=1))
    _, pick, inverse = np.unique(
        packed.view(np.dtype((np.void, packed.shape[1]))).reshape(-1),
        return_index=True,
        return_inverse=True,
    )
    worst = np.stack(
        [np.where(touched[p][None, :], shortfall, 0.0).max(axis=1) for p in pick], axis=1
    )
    return worst, inverse.reshape(-1)


def _seen(worst: Floats, sets: Ints) -> Floats:
    """Worst shortfall in each of the sets of touched slabs; one column where there is one set."""
    return worst if worst.shape[1] == 1 else worst[:, sets]


def _uneven(outer: tuple[Ints, Ints], rows: Sequence[Ints] = ()) -> Ints:
    """Difference of opposite outer cuts; over the rows of a cycle, of the sorted cuts."""
    first, last = outer
    if len(rows) <= 1:
        return np.asarray(np.abs(first - last))
    firsts = np.sort(np.stack([first[r] for r in rows]), axis=0)
    lasts = np.sort(np.stack([last[r] for r in rows]), axis=0)
    return np.asarray(np.abs(firsts - lasts).max(axis=0))
