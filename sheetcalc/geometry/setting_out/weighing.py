"""Weigh pairs of starts of a lattice by the Job's aims."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.candidates import outer_cuts
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


@dataclass(frozen=True, slots=True)
class Lattice:
    """A bond of rectangular tiles as lattices, on a grid fine enough for halves and 1/n.

    Attributes
    ----------
    length, width
        Tile face along x and y.
    pitch, rise
        Tile plus joint along x and y.
    part
        ``pitch`` over n: the step of a 1/n bond; ``pitch`` itself for a grid.
    steps
        Shift of each row of a cycle, in ``part``: (0,) for a grid, (0, 1, 2) for 1/3.
    small_length, small_width
        Cuts below these are small.
    scale
        How many of its units are one 1/320 mm.
    """

    length: int
    width: int
    pitch: int
    rise: int
    part: int
    steps: tuple[int, ...]
    small_length: int
    small_width: int
    scale: int

    @property
    def cycle(self) -> int:
        """Rows after which the bond repeats."""
        return len(self.steps)

    @property
    def parts(self) -> int:
        """Steps in a pitch."""
        return self.pitch // self.part

    @property
    def steps_round(self) -> bool:
        """Whether every row steps on alike, so that one row's rise is a step sideways."""
        return self.cycle == self.parts

    def row_shift(self, row: int, *, leftward: bool) -> int:
        """Sideways shift of a row of the cycle."""
        step = self.steps[row % self.cycle]
        return (-step if leftward else step) * self.part


@dataclass(frozen=True, slots=True)
class Choice:
    """The start that was chosen, and how it measures.

    Attributes
    ----------
    x, y
        Near left corner of a tile in the first row of a cycle.
    leftward
        Whether rows step to the left as they go up.
    shortfall
        How much the smallest cut lacks to the limit, as a share of the tile; 0 where none does.
    small, cut, laid
        Small cuts, cut tiles, tiles laid.
    balance, unevenness
        Largest difference of opposite outer cuts, and the sum over both axes.
    fewest_laid, least_covered
        Over all starts weighed: the fewest tiles laid, and the smallest area under tile.
    proven
        Whether every critical start was weighed.
    """

    x: int
    y: int
    leftward: bool
    shortfall: float
    small: int
    cut: int
    laid: int
    balance: int
    unevenness: int
    fewest_laid: int
    least_covered: float
    proven: bool = True

    def rank(self, aims: Sequence[Aim]) -> tuple[float, ...]:
        """Sort key: smaller is better."""
        values = {
            Aim.NO_SLIVER: round(self.shortfall, 9),
            Aim.FEWEST_SMALL: self.small,
            Aim.BALANCE: self.balance,
            Aim.FEWEST_CUTS: self.cut,
            Aim.FEWEST_TILES: self.laid,
        }
        return (*(float(values[a]) for a in aims), float(self.unevenness))


@dataclass(frozen=True, slots=True)
class _Axis:
    """Everything that depends on the start of one axis alone; K starts."""

    kinds: Kinds
    shortfall: Floats  # (K, crossing slabs)
    covered: Floats  # (K, own slabs): length under tile

    @property
    def touched(self) -> Flags:
        """Shape (K, own slabs): slabs under a tile."""
        return self.covered > 0


def _axis(edges: Ints, tile: int, period: int, starts: Ints, occupied: Flags, limit: int) -> _Axis:
    tiles = cover(edges, tile, period, starts)
    chords = shortest_chords(tiles.overlap, occupied)
    kinds = kinds_of(tiles, chords, limit)
    shortfall = np.maximum(limit - chords.min(axis=1), 0) / tile
    covered = tiles.overlap.sum(axis=1) + tiles.inner * tile
    return _Axis(kinds, shortfall, covered.astype(np.float64))


def weigh(
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
    x = _axis(slabs.xs, lattice.length, lattice.pitch, all_x, slabs.occupied, lattice.small_length)
    y = _axis(
        slabs.ys,
        lattice.width,
        lattice.rise * cycle,
        row_starts,
        np.ascontiguousarray(slabs.occupied.T),
        lattice.small_width,
    )
    both_ways = cycle > 2 and lattice.steps_round and only is None  # noqa: PLR2004 - 1/2 is its own mirror
    best: Choice | None = None
    meeting = meet(x.kinds, y.kinds, slabs.occupied)
    tables = _Tables(slabs, x, y, (meeting.laid, meeting.whole, meeting.small), cycle)
    for leftward in (False, True) if both_ways else (False,):
        rows = [
            (np.arange(len(all_x)) + (-s if leftward else s) * base) % len(all_x)
            for s in lattice.steps
        ]
        chosen = _choose(slabs, lattice, aims, (all_x, ys), rows, tables, only, base)
        i, j, measures = chosen
        choice = Choice(int(all_x[i]), int(ys[j]), leftward, *measures)
        if best is None or choice.rank(aims) < best.rank(aims):
            best = choice
    assert best is not None  # noqa: S101 - one way is always weighed
    return best


@dataclass(frozen=True, slots=True)
class _Tables:
    """What the measures of pairs are made from."""

    slabs: Slabs
    x: _Axis
    y: _Axis
    meetings: tuple[Floats, Floats, Floats]
    cycle: int

    def count(self, which: int, rows: list[Ints], i: Ints, j: Ints) -> Floats:
        """Count tiles (0 laid, 1 whole, 2 small) for starts i by j."""
        made = self.x.kinds.number @ self.meetings[which]
        number = self.y.kinds.number.reshape(self.cycle, -1, made.shape[1])
        total = made[rows[0][i]] @ number[0][j].T
        for k in range(1, self.cycle):
            total += made[rows[k][i]] @ number[k][j].T
        return total

    def least_covered(self, rows: list[Ints]) -> float:
        """Smallest area under tile over all pairs."""
        made = self.x.covered @ self.slabs.occupied.astype(np.float64)
        number = self.y.covered.reshape(self.cycle, -1, made.shape[1])
        total = made[rows[0]] @ number[0].T
        for k in range(1, self.cycle):
            total += made[rows[k]] @ number[k].T
        return float(total.min())

    def shortfall(self, rows: list[Ints]) -> Floats:
        """Lack of the smallest cut, for all pairs."""
        across = _masked(self.x.shortfall, self.y.touched)
        along = _masked(self.y.shortfall, self.x.touched)
        count_y = len(self.y.shortfall) // self.cycle
        worst = np.zeros((len(rows[0]), count_y))
        for k in range(self.cycle):
            js = slice(k * count_y, (k + 1) * count_y)
            np.maximum(worst, across[0][rows[k]][:, across[1][js]], out=worst)
            np.maximum(worst, along[0][js][:, along[1][rows[k]]].T, out=worst)
        return worst


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


def _choose(
    slabs: Slabs,
    lattice: Lattice,
    aims: Sequence[Aim],
    starts: tuple[Ints, Ints],
    rows: list[Ints],
    tables: _Tables,
    only: int | None,
    base: int,
) -> tuple[int, int, tuple[float, int, int, int, int, int, int, float]]:
    """Keep, aim by aim, the pairs that are best so far."""
    all_x, ys = starts
    uneven_x = _uneven(slabs.xs, lattice.length, lattice.pitch, all_x, rows)
    uneven_y = _uneven(slabs.ys, lattice.width, lattice.rise, ys, [np.arange(len(ys))])
    shortfall = tables.shortfall(rows)
    i = np.arange(len(all_x)) if only is None else np.arange(only * base, (only + 1) * base)
    j = np.arange(len(ys))
    i, j = (a.reshape(-1) for a in np.meshgrid(i, j, indexing="ij"))
    fewest_laid = -1

    def table(which: int) -> Floats:
        """Count over the pairs left: by matrix over their rows and columns, then picked."""
        own_i, back_i = np.unique(i, return_inverse=True)
        own_j, back_j = np.unique(j, return_inverse=True)
        return tables.count(which, rows, own_i, own_j)[back_i.reshape(-1), back_j.reshape(-1)]

    def measure(aim: Aim) -> Floats:
        if aim is Aim.NO_SLIVER:
            return shortfall[i, j]
        if aim is Aim.FEWEST_SMALL:
            return table(2)
        if aim is Aim.BALANCE:
            return np.maximum(uneven_x[i], uneven_y[j]).astype(np.float64)
        if aim is Aim.FEWEST_CUTS:
            return table(0) - table(1)
        return table(0)

    found: dict[Aim, float] = {}
    for aim in aims:
        if aim is Aim.FEWEST_SMALL and found.get(Aim.NO_SLIVER) == 0:
            found[aim] = 0.0  # no cut is below the limit, so none is small
            continue
        values = measure(aim)
        least = float(values.min())
        keep = values <= least + _SAME
        i, j = i[keep], j[keep]
        found[aim] = least
    uneven = uneven_x[i] + uneven_y[j]
    pick = int(np.argmin(uneven))
    return (
        int(i[pick]),
        int(j[pick]),
        (
            found[Aim.NO_SLIVER],
            round(found[Aim.FEWEST_SMALL]),
            round(found[Aim.FEWEST_CUTS]),
            round(found[Aim.FEWEST_TILES]),
            round(found[Aim.BALANCE]),
            int(uneven[pick]),
            fewest_laid,
            tables.least_covered(rows) if only is None else -1.0,
        ),
    )


def _uneven(edges: Ints, tile: int, period: int, starts: Ints, rows: list[Ints]) -> Ints:
    """Difference of opposite outer cuts; over the rows of a cycle, of the sorted cuts."""
    first, last = outer_cuts(edges, tile, period, starts)
    if len(rows) == 1:
        return np.abs(first - last)
    firsts = np.sort(np.stack([first[r] for r in rows]), axis=0)
    lasts = np.sort(np.stack([last[r] for r in rows]), axis=0)
    return np.abs(firsts - lasts).max(axis=0)
