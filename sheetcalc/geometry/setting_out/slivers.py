"""How much the smallest cut of one axis lacks to the limit, for many pairs of starts."""

import numpy as np
from msgspec import Struct

from sheetcalc.geometry.setting_out.lattice import Floats, Runs
from sheetcalc.geometry.setting_out.slabs import Flags, Ints


class Slivers(Struct, frozen=True):
    """Cuts of one axis on the unbroken stretches of the region along it.

    Attributes
    ----------
    always
        Shape (K,): what the shortest cut lacks at each start, as a share of the tile, on stretches
        where the other axis lays tile from all its starts.
    lack
        Shape (R, K): the same on each other stretch.
    met
        Shape (R, M): whether the other axis lays tile on those, from each of its starts.
    """

    always: Floats
    lack: Floats
    met: Flags

    def least(self, starts: Ints) -> Floats:
        """Lack over the rows of a cycle wherever the other axis starts; shape (I,).

        Parameters
        ----------
        starts
            Which start each row has, shape (rows, I).
        """
        return np.asarray(self.always[starts].max(axis=0))

    def worst(self, starts: Ints, beside: Ints) -> Floats:
        """Lack over the rows of a cycle for starts of this axis and of the other.

        Parameters
        ----------
        starts, beside
            Which start of either each row has, shapes (rows, I) and (rows, J).

        Returns
        -------
        Floats
            Shape (J, I), or (1, I) where the other axis makes no difference.
        """
        least = self.least(starts)
        if not len(self.lack):
            return least[None]
        # one line for each sort of start of the other axis: which stretches its rows meet
        met = np.moveaxis(self.met[:, beside], 2, 0).reshape(beside.shape[1], -1)
        pick, which = _distinct(met)
        lack = self.lack[:, starts].reshape(met.shape[1], -1)
        worst = np.stack([lack[sort].max(axis=0, initial=0.0) for sort in met[pick]])
        return np.asarray(np.maximum(worst, least)[which])


def slivers_of(lengths: Ints, limit: int, tile: int, runs: Runs, beside: Floats) -> Slivers:
    """Measure the cuts of one axis against the limit.

    Parameters
    ----------
    lengths
        Of each stretch under each tile across a border, shape (R, p + 1, K).
    limit, tile
        Cuts below the limit are small; size of a tile.
    runs
        The stretches.
    beside
        Length under tile of each slab of the other axis, for each of its starts, shape (M, q).
    """
    lack = np.where(lengths > 0, limit - lengths, 0).max(axis=1, initial=0) / tile
    touched = beside.T > 0
    if touched.all():
        return Slivers(lack.max(axis=0, initial=0.0), lack[:0], touched[:0])
    met = runs.crossing @ touched.astype(np.float64) > 0
    always = met.all(axis=1)
    return Slivers(lack[always].max(axis=0, initial=0.0), lack[~always], met[~always])


def _distinct(flags: Flags) -> tuple[Ints, Ints]:
    """First place of each distinct line of flags, and which of them each place has."""
    packed = np.packbits(flags, axis=1)
    _, pick, inverse = np.unique(
        packed.view(np.dtype((np.void, packed.shape[1]))).reshape(-1),
        return_index=True,
        return_inverse=True,
    )
    return pick, inverse.reshape(-1)
