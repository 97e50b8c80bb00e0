"""A good start for bonds and outlines beyond the exact search: sampled, then refined."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.patterns import Pattern, repeats_over
from sheetcalc.geometry.setting_out.plane import Plane
from sheetcalc.geometry.setting_out.slabs import Ints

SPECK = 320.0**2
"""Pieces below 1 mm2 are nothing that can be laid."""

_WORK = 2_500_000
_ROUNDS = 3


class Sampled(Struct, frozen=True):
    """The best start found.

    Attributes
    ----------
    start
        Shift of the pattern [1/320 mm].
    boxes
        Tiles that touch the region, shape (n, 4).
    member
        Which tile of the motif each is, shape (n,).
    areas
        Area of the region under each, shape (n,).
    small, balance
        Cuts smaller than the limit by area; difference of opposite cuts.
    tried
        How many starts were weighed.
    """

    start: Floats
    boxes: Floats
    member: Ints
    areas: Floats
    small: int
    balance: float
    tried: int


def sample_starts(
    plane: Plane,
    pattern: Pattern,
    limit: float,
    aims: Sequence[Aim],
    fixed: Floats | None = None,
) -> Sampled:
    """Weigh a net of starts over one repeat of the pattern, then finer about the best.

    Parameters
    ----------
    plane
        What is tiled.
    pattern
        The bond.
    limit
        A cut is small below this share of the tile's area.
    aims
        In order of weight.
    fixed
        A start to keep to.
    """
    box = plane.bounds
    middle = np.array([(box[0] + box[2]) / 2, (box[1] + box[3]) / 2])
    shifts = repeats_over(pattern, (box[0] - middle[0], box[1] - middle[1],
                                    box[2] - middle[0], box[3] - middle[1]))  # fmt: skip
    corners = (shifts[:, None, :] + pattern.motif[None]).reshape(-1, 2) + middle
    sizes = np.tile(pattern.sizes(), (len(shifts), 1))
    member = np.tile(np.arange(len(pattern.motif)), len(shifts))
    weigher = _Weigher(plane, pattern, corners, sizes, limit, middle)
    if fixed is not None:
        places = (fixed - middle) @ np.linalg.inv(pattern.vectors)
        best = (places % 1.0) @ pattern.vectors
        tried = 1
    else:
        best, tried = _search(weigher, aims)
    boxes = weigher.boxes(best[None])[0]
    areas = plane.areas(boxes)
    touched = areas > SPECK
    measures = weigher.measure(best[None])
    return Sampled(
        middle + best,
        boxes[touched],
        member[touched],
        areas[touched],
        int(measures[Aim.FEWEST_SMALL][0]),
        float(measures[Aim.BALANCE][0]),
        tried,
    )


def _search(weigher: "_Weigher", aims: Sequence[Aim]) -> tuple[Floats, int]:
    """Net over one repeat from a symmetric place, then smaller nets about the best."""
    pattern = weigher.pattern
    number = int(np.clip(_WORK / max(weigher.cost, 1), 4, 196))
    side = max(2, 2 * int(np.sqrt(number) / 2))
    steps = np.arange(side) / side
    net = np.stack(np.meshgrid(steps, steps, indexing="ij"), axis=-1).reshape(-1, 2)
    starts = net @ pattern.vectors - pattern.centre
    best, rank = weigher.best(starts, aims)
    tried = len(starts)
    around = np.stack(np.meshgrid([-1, 0, 1], [-1, 0, 1], indexing="ij"), axis=-1).reshape(-1, 2)
    step = 1 / side
    for _ in range(_ROUNDS if number > 4 else 0):  # noqa: PLR2004 - no time for more
        step /= 3
        near = best + (around * step) @ pattern.vectors
        found, again = weigher.best(near, aims)
        tried += len(near)
        if again < rank:
            best, rank = found, again
    return best, tried


class _Weigher:
    """Measures many starts at once."""

    def __init__(  # noqa: PLR0913, PLR0917 - the parts of one state
        self,
        plane: Plane,
        pattern: Pattern,
        corners: Floats,
        sizes: Floats,
        limit: float,
        middle: Floats,
    ) -> None:
        self.plane, self.pattern, self.limit, self.middle = plane, pattern, limit, middle
        self._corners, self._sizes = corners, sizes
        self._full = pattern.length * pattern.width
        edges = len(plane.edges) if plane.slabs is None else len(plane.slabs.xs)
        self.cost = len(corners) * edges

    def boxes(self, starts: Floats) -> Floats:
        """Tiles at each start, shape (K, n, 4)."""
        low = starts[:, None, :] + self._corners[None]
        return np.concatenate([low, low + self._sizes[None]], axis=-1)

    def measure(self, starts: Floats) -> dict[Aim, Floats]:
        """Value of every aim at each start; smaller is better."""
        areas = self.plane.areas(self.boxes(starts))
        laid = areas > SPECK
        cut = laid & (areas < self._full - SPECK)
        share = np.where(cut, areas / self._full, 1.0)
        return {
            Aim.NO_SLIVER: np.maximum(self.limit - share.min(axis=1), 0),
            Aim.FEWEST_SMALL: (share < self.limit - 1e-9).sum(axis=1).astype(np.float64),
            Aim.BALANCE: self._balance(starts),
            Aim.FEWEST_CUTS: cut.sum(axis=1).astype(np.float64),
            Aim.FEWEST_TILES: laid.sum(axis=1).astype(np.float64),
        }

    def _balance(self, starts: Floats) -> Floats:
        """Twice the way from the middle of the region to a point of symmetry."""
        half = self.pattern.vectors / 2
        places = (starts + self.pattern.centre) @ np.linalg.inv(half)
        off = (places - np.round(places)) @ half
        return np.asarray(np.round(2 * np.abs(off).max(axis=1)))

    def best(self, starts: Floats, aims: Sequence[Aim]) -> tuple[Floats, tuple[float, ...]]:
        """Pick the start that comes first by the aims."""
        measures = self.measure(starts)
        keys = [np.round(measures[a], 6) for a in aims]
        pick = int(np.lexsort(keys[::-1])[0])
        return starts[pick], tuple(float(k[pick]) for k in keys)
