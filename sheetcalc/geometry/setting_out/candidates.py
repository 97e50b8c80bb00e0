"""The finitely many starts among which the best one of a lattice lies."""

from collections.abc import Iterable
from functools import lru_cache

import numpy as np

from sheetcalc.geometry.setting_out.slabs import Ints

MOST_PAIRS = 26
"""Slab borders up to which every pair is tried for balance; beyond, only the outer ones."""


@lru_cache(maxsize=64)
def _pairs(number: int) -> tuple[Ints, Ints]:
    """Index every pair of so many borders once, each with itself too."""
    first, second = np.triu_indices(number)
    return first, second


def critical_starts(
    edges: Ints, tile: int, period: int, chords: Iterable[int], levels: Iterable[int] = ()
) -> Ints:
    """Find the starts where something changes on one axis, and one between each two of them.

    A count changes only where a tile edge meets a corner or a cut reaches the limit; a size that
    grows on one side and shrinks on the other is best where both are equal; everything else is
    constant or monotonous between.

    Parameters
    ----------
    edges
        Slab borders; even numbers, so that halves are whole.
    tile, period
        Tile size and the period at which the pattern of borders repeats; even numbers.
    chords
        Cut sizes that matter: the limit, and sizes that another axis has fixed.
    levels
        Differences of opposite cuts that another axis has fixed.

    Returns
    -------
    Ints
        Sorted starts in [0, period).
    """
    parts = [edges, edges - tile]
    for chord in chords:
        parts += [edges - chord, edges + (chord - tile)]
    if len(edges) <= MOST_PAIRS:
        sums = (edges[:, None] + edges[None, :])[_pairs(len(edges))] - tile
    else:
        sums = np.array([edges[0] + edges[-1] - tile], dtype=np.int64)
    halves = [sums // 2]
    for level in levels:
        outer = int(edges[0] + edges[-1]) - tile
        halves.append(np.array([(outer - level) // 2, (outer + level) // 2], dtype=np.int64))
    for part in halves:
        parts += [part, part + period // 2]
    events = _distinct(np.concatenate(parts) % period)
    following = np.concatenate([events[1:], events[:1] + period])
    between = (events + following) // 2
    return _distinct(np.concatenate([events, between % period]))


def _distinct(numbers: Ints) -> Ints:
    """Each number once, sorted."""
    numbers.sort()
    distinct: Ints = numbers[np.concatenate([[True], numbers[1:] != numbers[:-1]])]
    return distinct


def outer_cuts(edges: Ints, tile: int, period: int, starts: Ints) -> tuple[Ints, Ints]:
    """Sizes of the first and the last tile along an axis, for each start; whole where uncut."""
    begin, end = int(edges[0]), int(edges[-1])
    size = end - begin
    if size <= 0:
        zero = np.zeros_like(starts)
        return zero, zero
    near = (begin - starts) % period
    far = (end - starts) % period
    first = np.where((near == 0) | (near >= tile), tile, tile - near)
    last = np.where((far == 0) | (far >= tile), tile, far)
    if size > period:
        return first, last
    # one tile that is cut on both sides: both cuts are the same piece
    alone = (begin - starts) // period == (end - starts - 1) // period
    alone &= (near < tile) & ((far == 0) | (far >= tile) | (near + size == far))
    piece = min(size, tile)
    return np.where(alone, piece, first), np.where(alone, piece, last)
