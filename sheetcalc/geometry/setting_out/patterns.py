"""Tile patterns as a motif of tiles repeated over a lattice, in the tile's frame."""

import math

import numpy as np
from msgspec import Struct

from sheetcalc.domain.finish import Bond, BondKind
from sheetcalc.domain.room import Point
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.slabs import Flags


class Pattern(Struct, frozen=True):
    """A bond of any kind.

    Attributes
    ----------
    motif
        Near left corner of each tile of one repeat, shape (m, 2) [1/320 mm].
    turned
        Shape (m,): whether the tile's length runs along y.
    vectors
        The two shifts that repeat the motif, as rows, shape (2, 2).
    centre
        A point about which the pattern is the same after a half turn.
    length, width
        Tile face.
    ends_per_tile
        Joint crossings for each tile: 1 where four tiles meet, 2 where joints end in others.
    """

    motif: Floats
    turned: Flags
    vectors: Floats
    centre: Floats
    length: int
    width: int
    ends_per_tile: int

    def sizes(self) -> Floats:
        """Size along x and y of each tile of the motif, shape (m, 2)."""
        flat = np.array([self.length, self.width], dtype=np.float64)
        return np.where(self.turned[:, None], flat[::-1], flat)


def pattern_for(bond: Bond, face: Point, joint: int, *, leftward: bool = False) -> Pattern:
    """Motif and lattice of a bond.

    A herringbone repeats by (b, b) and (-a, a), with a and b the tile's length and width plus
    joint, whatever their ratio; a double one lays two tiles side by side for each.  A basket
    weave lays squares of as many tiles as make up a length.

    Parameters
    ----------
    bond
        The bond.
    face
        Length and width of the tile [1/320 mm].
    joint
        Grout joint [1/320 mm].
    leftward
        Whether rows of a 1/n bond step to the left.
    """
    length, width = face
    a, b = length + joint, width + joint
    motif: list[tuple[float, float, bool]]
    vectors: list[tuple[float, float]]
    if bond.kind is BondKind.HERRINGBONE:
        motif = [(0, 0, False), (a, b - a, True)]
        vectors = [(b, b), (-a, a)]
        centre = (length / 2, width / 2)
    elif bond.kind is BondKind.DOUBLE_HERRINGBONE:
        two = 2 * b
        motif = [(0, 0, False), (0, b, False), (a, two - a, True), (a + b, two - a, True)]
        vectors = [(two, two), (-a, a)]
        centre = (length / 2, (width + b) / 2)
    elif bond.kind is BondKind.BASKET_WEAVE:
        number = max(1, round(a / b))
        side = max(a, number * b)
        step = side / number
        motif = [(0, i * step, False) for i in range(number)]
        motif += [(side + i * step, 0, True) for i in range(number)]
        vectors = [(2 * side, 0), (side, side)]
        centre = ((side - joint) / 2, (side - joint) / 2)
    elif bond.kind is BondKind.OFFSET and bond.divisor > 1:
        centre = (length / 2, width / 2)
        step = -a / bond.divisor if leftward else a / bond.divisor
        if bond.alternate:
            motif = [(0, 0, False), (step, b, False)]
            vectors = [(a, 0), (0, 2 * b)]
        else:
            motif = [(0, 0, False)]
            vectors = [(a, 0), (step, b)]
    else:
        motif = [(0, 0, False)]
        vectors = [(a, 0), (0, b)]
        centre = (length / 2, width / 2)
    return Pattern(
        np.array([m[:2] for m in motif], dtype=np.float64),
        np.array([m[2] for m in motif], dtype=np.bool_),
        np.array(vectors, dtype=np.float64),
        np.array(centre),
        length,
        width,
        bond.ends_per_tile,
    )


def repeats_over(pattern: Pattern, bounds: tuple[float, float, float, float]) -> Floats:
    """Lattice shifts whose motif may touch a box, for every start within one repeat.

    Returns
    -------
    Floats
        Shape (r, 2); the box is seen from the start.
    """
    reach = pattern.length + pattern.width + float(np.abs(pattern.motif).max())
    reach += float(np.abs(pattern.vectors).sum(axis=0).max())
    low = np.array(bounds[:2]) - reach
    high = np.array(bounds[2:]) + reach
    corners = np.array([(low[0], low[1]), (low[0], high[1]), (high[0], low[1]), (high[0], high[1])])
    places = corners @ np.linalg.inv(pattern.vectors)
    first = np.floor(places.min(axis=0)).astype(np.int64)
    last = np.ceil(places.max(axis=0)).astype(np.int64)
    i, j = np.meshgrid(
        np.arange(first[0], last[0] + 1), np.arange(first[1], last[1] + 1), indexing="ij"
    )
    shifts = np.stack([i.reshape(-1), j.reshape(-1)], axis=1) @ pattern.vectors
    inside = ((shifts >= low) & (shifts <= high)).all(axis=1)
    return np.asarray(shifts[inside], dtype=np.float64)


def estimated_tiles(pattern: Pattern, area: float) -> int:
    """Tiles that an area takes, about [area in squared 1/320 mm]."""
    cell = abs(float(np.linalg.det(pattern.vectors))) / len(pattern.motif)
    return math.ceil(area / cell)
