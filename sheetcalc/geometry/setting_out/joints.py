"""Joints of a lattice bond at one start: length between neighbours, and crossings."""

import numpy as np

from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.lattice import Cover, cover
from sheetcalc.geometry.setting_out.slabs import Ints, Slabs


def joint_lengths(slabs: Slabs, lattice: Lattice, choice: Choice) -> tuple[float, int]:
    """Length of tile edges with a neighbour, each joint once, and number of crossings.

    In a grid four tiles meet at a crossing; in a 1/n bond each upright joint ends in one at
    either end.

    Returns
    -------
    tuple
        Length in the lattice's units; crossings.
    """
    occupied = slabs.occupied.astype(np.int64)
    length = 0.0
    crossings = 0
    columns, ups = [], []
    for k in range(lattice.cycle):
        start = choice.x + lattice.row_shift(k, leftward=choice.leftward)
        columns.append(_covered(slabs.xs, lattice.length, lattice.pitch, start))
        ups.append(_strips(slabs.xs, lattice.length, lattice.pitch, start))
    for k in range(lattice.cycle):
        start = choice.y + k * lattice.rise
        period = lattice.rise * lattice.cycle
        rows = _covered(slabs.ys, lattice.width, period, start)
        across = _strips(slabs.ys, lattice.width, lattice.rise, start, period)
        above = (k + 1) % lattice.cycle
        length += float(_open(ups[k], occupied) @ rows)
        length += float(_open(across, occupied.T) @ (columns[k] + columns[above])) / 2
        crossings += _meetings(ups[k], across, slabs.occupied)
        if lattice.cycle > 1:
            crossings += _meetings(ups[above], across, slabs.occupied)
    return length, crossings


def _covered(edges: Ints, tile: int, period: int, start: int) -> Ints:
    tiles = cover(edges, tile, period, np.array([start], dtype=np.int64))
    return np.asarray(tiles.overlap[0].sum(axis=0) + tiles.inner[0] * tile)


def _strips(edges: Ints, tile: int, pitch: int, start: int, period: int | None = None) -> Cover:
    """Joints as strips that reach one unit into the tile on either side."""
    return cover(
        edges, pitch - tile + 2, period or pitch, np.array([start + tile - 1], dtype=np.int64)
    )


def _open(strips: Cover, occupied: Ints) -> Ints:
    """For each crossing slab, how many strips have the region on both sides there."""
    total: Ints = np.asarray(strips.inner[0] @ occupied)
    for i in np.flatnonzero(strips.straddles[0] & strips.full[0]):
        total = total + occupied[strips.overlap[0, i] > 0].min(axis=0)
    return total


def _meetings(ups: Cover, across: Cover, occupied: np.ndarray) -> int:
    """Count places where an upright strip and a level strip meet within the region."""
    total = 0
    for rows, number in _groups(across):
        for columns, many in _groups(ups):
            if occupied[columns][:, rows].all():
                total += number * many
    return total


def _groups(strips: Cover) -> list[tuple[Ints, int]]:
    """Slabs touched by alike strips, and how many strips."""
    out = [
        (np.flatnonzero(strips.overlap[0, i] > 0), 1)
        for i in np.flatnonzero(strips.straddles[0] & strips.full[0])
    ]
    out += [(np.array([s]), int(n)) for s, n in enumerate(strips.inner[0]) if n]
    return out
