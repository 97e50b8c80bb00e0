"""Place kinds of cut pieces on tiles so that few tiles are opened."""

from collections.abc import Iterable, Sequence

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from sheetcalc.geometry.off_cuts.fits import Fits

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
    partners = np.any(np.stack(fits.tables), axis=0) @ np.asarray(counts)
    hardest = sorted(
        range(len(counts)), key=lambda t: (when[t], int(partners[t]), -fits.areas[t], t)
    )
    orders = [by_area] if hardest == by_area else [by_area, hardest]
    plans = [_place(order, counts, fits) for order in orders]
    return min(plans, key=lambda plan: sum(o.count for o in plan))


class _Tiles(Struct):
    """Tiles opened so far, alike ones together.

    Attributes
    ----------
    fits
        Which kinds can share a tile.
    states
        What lies on each sort of tile.
    number, used
        How many there are of each sort; area that is taken on one.
    free
        Shape (turns, sorts, kinds): whether a kind still fits on a sort, so turned.
    """

    fits: Fits
    states: list[_State] = field(default_factory=list)
    places: dict[_State, int] = field(default_factory=dict)
    number: NDArray[np.int64] = field(default_factory=lambda: np.zeros(16, dtype=np.int64))
    used: NDArray[np.float64] = field(default_factory=lambda: np.zeros(16))
    free: NDArray[np.bool_] = field(default_factory=lambda: np.zeros(0, dtype=np.bool_))

    def __post_init__(self) -> None:
        shape = (len(self.fits.turns), 16, len(self.fits.areas))
        self.free = np.zeros(shape, dtype=np.bool_)

    def fullest_for(self, kind: int) -> tuple[int, int] | None:
        """Sort of tile with the most on it on which a kind still fits, and the kind's turn."""
        have = len(self.states)
        fit = self.free[:, :have, kind] & (self.number[:have] > 0)
        any_turn = fit.any(axis=0)
        if not any_turn.any():
            return None
        at = int(np.argmax(np.where(any_turn, self.used[:have], -1.0)))
        return at, self.fits.turns[int(np.argmax(fit[:, at]))]

    def add(self, base: int | None, kind: int, turn: int, number: int) -> None:
        """Put a kind on so many tiles of a sort, or on new ones."""
        before = () if base is None else self.states[base]
        state = (*before, (kind, turn))
        if state not in self.places:
            self._note(state, base)
        self.number[self.places[state]] += number
        if base is not None:
            self.number[base] -= number

    def _note(self, state: _State, base: int | None) -> None:
        at = len(self.states)
        if at == len(self.number):
            self.number = np.concatenate([self.number, np.zeros_like(self.number)])
            self.used = np.concatenate([self.used, np.zeros_like(self.used)])
            self.free = np.concatenate([self.free, np.zeros_like(self.free)], axis=1)
        kind, turn = state[-1]
        for r, way in enumerate(self.fits.turns):
            fit = self.fits.table(way - turn)[kind]
            self.free[r, at] = fit if base is None else fit & self.free[r, base]
        self.used[at] = self.fits.areas[kind] + (0.0 if base is None else self.used[base])
        self.places[state] = at
        self.states.append(state)


def _place(order: Iterable[int], counts: Sequence[int], fits: Fits) -> list[Opened]:
    """Place kinds in the order given, each where it leaves the least."""
    tiles = _Tiles(fits)
    for kind in order:
        left = counts[kind]
        while left > 0:
            found = tiles.fullest_for(kind)
            if found is None:
                number = -(-left // _own_on_a_tile(kind, fits))
                tiles.add(None, kind, 0, number)
            else:
                number = min(left, int(tiles.number[found[0]]))
                tiles.add(found[0], kind, found[1], number)
            left -= number
    areas = fits.areas
    return [
        Opened(tuple(sorted((k for k, _ in state), key=lambda k: (-areas[k], k))), number)
        for state, number in zip(tiles.states, tiles.number.tolist(), strict=False)
        if number
    ]


def _own_on_a_tile(kind: int, fits: Fits) -> int:
    """How many of one kind a tile yields."""
    state = [(kind, 0)]
    while (turn := fits.joins(kind, state)) is not None:
        state.append((kind, turn))
    return len(state)
