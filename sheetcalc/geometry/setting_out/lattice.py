"""How the tiles of one axis cover the slabs of a region, for many starts at once.

Tiles of a bond lie on lattices, so what they cover separates into one axis each; only tiles that
straddle a slab's border differ from each other, and the cost grows with the corners of the region,
not with its tiles.
"""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.setting_out.slabs import Flags, Ints

Floats = NDArray[np.float64]


class Runs(Struct, frozen=True):
    """Unbroken stretches of a region along one axis, each once, however many slabs have it.

    Attributes
    ----------
    begin, end
        Shape (R,): coordinates.
    crossing
        Shape (R, q): slabs of the other axis in which the stretch lies.
    """

    begin: Ints
    end: Ints
    crossing: Flags


def runs_of(edges: Ints, occupied: Flags) -> Runs:
    """Find the unbroken stretches of a region along one axis.

    Parameters
    ----------
    edges
        Slab borders, shape (p + 1,).
    occupied
        Shape (p, q).
    """
    marks = edges.tolist()
    found: dict[tuple[int, int], list[int]] = {}
    for slab, column in enumerate(occupied.T.tolist()):
        begun = None
        for place, on in enumerate([*column, False]):
            if on and begun is None:
                begun = marks[place]
            elif begun is not None and not on:
                found.setdefault((begun, marks[place]), []).append(slab)
                begun = None
    crossing = np.zeros((len(found), occupied.shape[1]), dtype=np.bool_)
    for run, slabs in enumerate(found.values()):
        crossing[run, slabs] = True
    ends = np.array(list(found), dtype=np.int64).reshape(-1, 2)
    return Runs(ends[:, 0], ends[:, 1], crossing)


class Cover(Struct, frozen=True):
    """Tiles of one axis over the slabs of that axis, for K starts.

    Attributes
    ----------
    tile
        Size of a tile.
    near
        Shape (p + 1, K): near edge of the tile that begins at or before each border.
    straddles
        Shape (p + 1, K): whether that tile lies across the border, and across none before it.
    inner
        Shape (p, K): number of tiles wholly within one slab.
    covered
        Shape (p, K): length of each slab that is under tile.
    """

    tile: int
    near: Ints
    straddles: Flags
    inner: Ints
    covered: Ints


def cover(edges: Ints, tile: int, period: int, starts: Ints) -> Cover:
    """Lay tiles of one size at one period over slabs.

    Parameters
    ----------
    edges
        Slab borders, shape (p + 1,).
    tile, period
        Size of a tile and distance between near edges of neighbours, in the same units.
    starts
        Near edge of any one tile, shape (K,).
    """
    offset = edges[:, None] - starts
    index = offset // period
    rest = offset - index * period
    begun, ended = rest > 0, rest >= tile
    straddles = begun & ~ended
    straddles[1:] &= ~(straddles[:-1] & (index[1:] == index[:-1]))
    within = index[1:] + ended[1:] - index[:-1] - begun[:-1]
    up_to = index * tile + np.minimum(rest, tile)
    return Cover(
        tile, edges[:, None] - rest, straddles, np.maximum(within, 0), up_to[1:] - up_to[:-1]
    )


def chords(tiles: Cover, runs: Runs) -> Ints:
    """Length of each stretch under each tile that straddles a border.

    Returns
    -------
    Ints
        Shape (R, p + 1, K): 0 where a tile does not lie on a stretch, or none lies there.
    """
    low = np.maximum(tiles.near, runs.begin[:, None, None])
    high = np.minimum(tiles.near + tiles.tile, runs.end[:, None, None])
    return np.asarray(np.maximum(high - low, 0) * tiles.straddles)


class Kinds(Struct, frozen=True):
    """Tiles of one axis sorted into kinds that behave alike.

    Attributes
    ----------
    first, last
        Slabs that the kind touches, shape (T,).
    full
        Whether it lies within the bounds of the region, shape (T,).
    short
        Shape (T, q): crossing slabs where a piece is shorter than the limit.
    number
        Shape (K, T): how many tiles of each kind lie at each start that is counted.
    """

    first: Ints
    last: Ints
    full: Flags
    short: Flags
    number: Floats

    def touches(self, slabs: int) -> Flags:
        """Shape (T, slabs): which slabs each kind touches."""
        places = np.arange(slabs)[None, :]
        return (places >= self.first[:, None]) & (places <= self.last[:, None])


def kinds_of(  # noqa: PLR0913, PLR0917 - an axis as it is laid, and which of it is counted
    edges: Ints, tiles: Cover, lengths: Ints, runs: Runs, limit: int, counted: Ints
) -> Kinds:
    """Sort tiles of one axis into kinds.

    Parameters
    ----------
    edges
        Slab borders, shape (p + 1,).
    tiles
        From :func:`cover`.
    lengths
        From :func:`chords`.
    runs
        From :func:`runs_of`.
    limit
        Pieces shorter than this are small.
    counted
        Starts at which tiles are counted.
    """
    slabs, starts = tiles.inner.shape
    border, where = np.nonzero(tiles.straddles[:, counted])
    where = counted[where]
    near, chord = tiles.near[border, where], lengths[:, border, where]
    far = near + tiles.tile
    first = np.maximum(border - 1, 0)
    last = np.minimum(np.searchsorted(edges, far), slabs) - 1
    full = (near >= edges[0]) & (far <= edges[-1])
    short = (chord > 0) & (chord < limit)
    # one number for each kind: slabs, full, and the short stretches as bits (or a rank of bytes)
    stretches = len(runs.begin)
    if stretches <= 40:  # noqa: PLR2004 - bits that fit beside the slab numbers in 63
        key = (np.int64(1) << np.arange(stretches, dtype=np.int64)) @ short
        high = stretches
    else:
        _, key = np.unique(np.packbits(short, axis=0), axis=1, return_inverse=True)
        key, high = key.reshape(-1).astype(np.int64), 32
    key = key + ((((first * slabs) + last) * 2 + full) << high)
    pick, inverse = _sorted_out(key)
    strads = len(pick)
    number = np.zeros((starts, strads + slabs))
    if strads:
        flat = np.bincount(where * strads + inverse, minlength=starts * strads)
        number[:, :strads] = flat.reshape(starts, strads)
    number[counted, strads:] = tiles.inner.T[counted]
    own = np.arange(slabs)
    small = np.zeros((strads + slabs, runs.crossing.shape[1]), dtype=np.bool_)
    small[:strads] = short[:, pick].T.astype(np.float64) @ runs.crossing > 0
    return Kinds(
        np.concatenate([first[pick], own]),
        np.concatenate([last[pick], own]),
        np.concatenate([full[pick], np.ones(slabs, dtype=np.bool_)]),
        small,
        number,
    )


def _sorted_out(keys: Ints) -> tuple[Ints, Ints]:
    """First place of each distinct key, and for every place which of them it has, ascending."""
    order = np.argsort(keys, kind="stable")
    ascending = keys[order]
    is_first = np.ones(len(keys), dtype=np.bool_)
    is_first[1:] = ascending[1:] != ascending[:-1]
    which = np.empty(len(keys), dtype=np.int64)
    which[order] = np.cumsum(is_first) - 1
    return order[is_first], which


class Meetings(Struct, frozen=True):
    """What every kind of column makes of every kind of row; each shape (Tx, Ty), 0 or 1."""

    laid: Floats
    whole: Floats
    small: Floats


def meet(columns: Kinds, rows: Kinds, occupied: Flags) -> Meetings:
    """Cross kinds of columns with kinds of rows."""
    p, q = occupied.shape
    table = np.zeros((p + 1, q + 1), dtype=np.int64)
    table[1:, 1:] = occupied.cumsum(axis=0).cumsum(axis=1)
    by_row = table[columns.last + 1] - table[columns.first]
    cells = by_row[:, rows.last + 1] - by_row[:, rows.first]
    laid = cells > 0
    spans = (columns.last - columns.first + 1)[:, None] * (rows.last - rows.first + 1)[None, :]
    whole = (cells == spans) & columns.full[:, None] & rows.full[None, :]
    small = (columns.short.astype(np.float64) @ rows.touches(q).T) > 0
    small |= (columns.touches(p).astype(np.float64) @ rows.short.T) > 0
    return Meetings(
        laid.astype(np.float64), whole.astype(np.float64), (small & laid).astype(np.float64)
    )
