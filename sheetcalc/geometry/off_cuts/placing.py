"""Place kinds of cut pieces on tiles so that few tiles are opened."""

from bisect import insort
from collections.abc import Iterable, Sequence
from functools import reduce
from operator import or_

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.off_cuts.fits import QUARTERS, Fits

_State = tuple[tuple[int, int], ...]
"""Kinds on one tile, each with its turn, in the order of placing."""


class Opened(Struct, frozen=True):
    """Alike opened tiles: kinds of pieces cut from one, the largest first, and how many."""

    kinds: tuple[int, ...]
    count: int


def open_tiles(
    counts: Sequence[int], fits: Fits, stages: Sequence[int] | None = None
) -> list[Opened]:
    """Choose which pieces share a tile.

    Parameters
    ----------
    counts
        How many of each kind of piece are wanted.
    fits
        Which kinds can share a tile.
    stages
        When each kind is laid: an earlier stage is planned without a thought of later ones,
        which then use up its offcuts.

    Returns
    -------
    list of Opened
        As few tiles as two orders of placing find: largest first, and hardest to pair first.
    """
    if not counts:
        return []
    when = list(stages) if stages is not None else [0] * len(counts)
    by_area = sorted(range(len(counts)), key=lambda t: (when[t], -fits.areas[t], t))
    partners = np.logical_or.reduce(fits.tables) @ np.asarray(counts)
    hardest = sorted(
        range(len(counts)), key=lambda t: (when[t], int(partners[t]), -fits.areas[t], t)
    )
    orders = [by_area] if hardest == by_area else [by_area, hardest]
    sorts = _Sorts(fits)
    plans = [_place(order, counts, sorts) for order in orders]
    return min(plans, key=lambda plan: sum(o.count for o in plan))


class _Sorts:
    """Which kinds fit beside which, as bits of whole numbers.

    Attributes
    ----------
    areas
        Of each kind.
    turns
        Quarter turns in which a piece may be cut out.
    beside
        By relative turn: for each kind as it lies, the kinds that fit beside it turned so far.
    """

    def __init__(self, fits: Fits) -> None:
        self.areas, self.turns = fits.areas, fits.turns
        self.beside = {turn: _bits(fits.table(turn)) for turn in fits.turns}

    def own_on_a_tile(self, kind: int) -> int:
        """How many of one kind a tile yields, each in the first turn that fits."""
        fitting = [turn for turn, beside in self.beside.items() if beside[kind] >> kind & 1]
        placed = [0]
        for turn in self.turns if fitting else ():
            if all((turn - other) % QUARTERS in fitting for other in placed):
                placed.append(turn)
        return len(placed)


def _bits(table: NDArray[np.bool_]) -> list[int]:
    """Lines of a table as whole numbers."""
    packed = np.packbits(table, axis=1, bitorder="little")
    return [int.from_bytes(line.tobytes(), "little") for line in packed]


class _Tiles:
    """Tiles opened so far, alike ones together.

    Attributes
    ----------
    states, number
        What lies on each sort of tile, and how many there are of it.
    """

    def __init__(self, sorts: _Sorts) -> None:
        self.states: list[_State] = []
        self.number: list[int] = []
        self._sorts = sorts
        self._used: list[float] = []
        self._free: list[tuple[int, ...]] = []  # for each turn, kinds that fit on a sort, as bits
        self._places: dict[_State, int] = {}
        self._fullest: list[tuple[float, int, int]] = []  # area taken, less; sort; what fits on it

    def fullest_for(self, kind: int) -> tuple[int, int] | None:
        """Sort of tile with the most on it on which a kind still fits, and the kind's turn."""
        bit = 1 << kind
        for _, at, fitting in self._fullest:
            if fitting & bit and self.number[at]:
                turns = zip(self._sorts.turns, self._free[at], strict=True)
                return at, next(turn for turn, free in turns if free & bit)
        return None

    def add(self, base: int | None, kind: int, turn: int, number: int) -> None:
        """Put a kind on so many tiles of a sort, or on new ones."""
        before = () if base is None else self.states[base]
        state = (*before, (kind, turn))
        if state not in self._places:
            self._note(state, base)
        self.number[self._places[state]] += number
        if base is not None:
            self.number[base] -= number

    def _note(self, state: _State, base: int | None) -> None:
        at, (kind, turn) = len(self.states), state[-1]
        beside, turns = self._sorts.beside, self._sorts.turns
        free = tuple([beside[(way - turn) % QUARTERS][kind] for way in turns])
        used = self._sorts.areas[kind]
        if base is not None:
            free = tuple([one & other for one, other in zip(free, self._free[base], strict=True)])
            used += self._used[base]
        self._free.append(free)
        self._used.append(used)
        self._places[state] = at
        self.states.append(state)
        self.number.append(0)
        if fitting := reduce(or_, free):
            insort(self._fullest, (-used, at, fitting))


def _place(order: Iterable[int], counts: Sequence[int], sorts: _Sorts) -> list[Opened]:
    """Place kinds in the order given, each where it leaves the least."""
    tiles = _Tiles(sorts)
    for kind in order:
        left = counts[kind]
        while left > 0:
            found = tiles.fullest_for(kind)
            if found is None:
                number = -(-left // sorts.own_on_a_tile(kind))
                tiles.add(None, kind, 0, number)
            else:
                number = min(left, tiles.number[found[0]])
                tiles.add(found[0], kind, found[1], number)
            left -= number
    areas = sorts.areas
    return [
        Opened(tuple(sorted((k for k, _ in state), key=lambda k: (-areas[k], k))), number)
        for state, number in zip(tiles.states, tiles.number, strict=True)
        if number
    ]
