"""How the tiles of one axis cover the slabs of a region, for many starts at once.

Tiles of a bond lie on lattices, so the overlap of tiles with slabs separates into one axis each;
only tiles that straddle a slab's border differ from each other, and the cost grows with the
corners of the region, not with its tiles.
"""

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.geometry.setting_out.slabs import Flags, Ints

Floats = NDArray[np.float64]
_NEVER = np.int64(2**60)


class Cover(Struct, frozen=True):
    """Tiles of one axis over the slabs of that axis, for K starts.

    Attributes
    ----------
    overlap
        Shape (K, p + 1, p): length of each slab under the tile that straddles a border; zero
        where no tile straddles it, or the same tile is already counted at an earlier border.
    straddles
        Shape (K, p + 1): whether that place holds a tile.
    full
        Shape (K, p + 1): whether the tile lies within the bounds of the region on this axis.
    inner
        Shape (K, p): number of tiles wholly within one slab.
    first
        Shape (K, p + 1): the straddling tile's near edge less the region's first coordinate.
    """

    overlap: Ints
    straddles: Flags
    full: Flags
    inner: Ints
    first: Ints


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
    offset = edges[None, :] - starts[:, None]
    index = offset // period
    rest = offset - index * period
    straddles = (rest > 0) & (rest < tile)
    straddles[:, 1:] &= ~(straddles[:, :-1] & (index[:, 1:] == index[:, :-1]))
    near = starts[:, None] + index * period
    low = np.maximum(near[:, :, None], edges[None, None, :-1])
    high = np.minimum((near + tile)[:, :, None], edges[None, None, 1:])
    overlap = np.maximum(high - low, 0)
    overlap *= straddles[:, :, None]
    full = straddles & (near >= edges[0]) & (near + tile <= edges[-1])
    begin = index[:, :-1] + (rest[:, :-1] > 0)
    end = index[:, 1:] + (rest[:, 1:] >= tile)
    return Cover(overlap, straddles, full, np.maximum(end - begin, 0), near - edges[0])


def shortest_chords(overlap: Ints, occupied: Flags) -> Ints:
    """Shortest run of a tile's pieces, slab by slab of the other axis.

    Parameters
    ----------
    overlap
        Shape (..., p): length of each slab under a tile.
    occupied
        Shape (p, q).

    Returns
    -------
    Ints
        Shape (..., q): the shortest unbroken run in each crossing slab; 2**60 where there is none.
    """
    shape = (*overlap.shape[:-1], occupied.shape[1])
    run = np.zeros(shape, dtype=np.int64)
    best = np.full(shape, _NEVER, dtype=np.int64)
    for s in range(occupied.shape[0]):
        under = overlap[..., s, None]
        goes_on = occupied[s] & (under > 0)
        ended = (run > 0) & ~goes_on
        np.minimum(best, run, out=best, where=ended)
        run = np.where(goes_on, run + under, 0)
    np.minimum(best, run, out=best, where=run > 0)
    return best


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
        Shape (K, T): how many tiles of each kind lie at each start.
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


def kinds_of(tiles: Cover, chords: Ints, limit: int) -> Kinds:
    """Sort tiles of one axis into kinds.

    Parameters
    ----------
    tiles
        From :func:`cover`.
    chords
        From :func:`shortest_chords` for ``tiles.overlap``, shape (K, p + 1, q).
    limit
        Pieces shorter than this are small.
    """
    starts, slabs = tiles.inner.shape
    crossing = chords.shape[2]
    where, border = np.nonzero(tiles.straddles)
    under = tiles.overlap[where, border] > 0  # the slab before the border, or the one behind
    first = under.argmax(axis=1)
    last = slabs - 1 - under[:, ::-1].argmax(axis=1)
    short = chords[where, border] < limit
    full = tiles.full[where, border]
    # one number for each kind: slabs, full, and the short slabs as bits (or as a rank of bytes)
    if crossing <= 40:  # noqa: PLR2004 - bits that fit beside the slab numbers in 63
        key = short @ (np.int64(1) << np.arange(crossing, dtype=np.int64))
        high = crossing
    else:
        _, key = np.unique(np.packbits(short, axis=1), axis=0, return_inverse=True)
        key, high = key.reshape(-1).astype(np.int64), 32
    key = key + ((((first * slabs) + last) * 2 + full) << high)
    pick, inverse = _sorted_out(key)
    strads = len(pick)
    number = np.zeros((starts, strads + slabs))
    if strads:
        flat = np.bincount(where * strads + inverse, minlength=starts * strads)
        number[:, :strads] = flat.reshape(starts, strads)
    number[:, strads:] = tiles.inner
    own = np.arange(slabs)
    return Kinds(
        np.concatenate([first[pick], own]),
        np.concatenate([last[pick], own]),
        np.concatenate([full[pick], np.ones(slabs, dtype=np.bool_)]),
        np.concatenate([short[pick], np.zeros((slabs, crossing), dtype=np.bool_)]),
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
