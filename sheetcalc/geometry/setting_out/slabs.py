"""Rectilinear regions as slabs: sorted corner coordinates and a matrix of occupied cells."""

from collections.abc import Collection
from itertools import pairwise
from typing import TypeAlias

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.domain.room import Patch, Point, Region, Ring

Ints: TypeAlias = NDArray[np.int64]
Flags: TypeAlias = NDArray[np.bool_]
Segment: TypeAlias = tuple[Point, Point]
"""A stretch of an outline [1/320 mm]."""


class Slabs(Struct, frozen=True):
    """A rectilinear region compressed to its corners' coordinates.

    Attributes
    ----------
    xs, ys
        Sorted coordinates of corners, shapes (p + 1,) and (q + 1,) [1/320 mm].
    occupied
        Shape (p, q): whether the cell between neighbouring coordinates belongs to the region.
    """

    xs: Ints
    ys: Ints
    occupied: Flags

    @property
    def is_empty(self) -> bool:
        """Whether nothing is occupied."""
        return self.occupied.size == 0 or not bool(self.occupied.any())

    @property
    def area_mm320(self) -> int:
        """Area in squared 1/320 mm, exact."""
        return int(np.diff(self.xs) @ self.occupied.astype(np.int64) @ np.diff(self.ys))

    def scaled(self, factor: int) -> "Slabs":
        """Give the same slabs on a grid finer by a whole factor."""
        return Slabs(self.xs * factor, self.ys * factor, self.occupied)


def is_rectilinear(region: Region) -> bool:
    """Whether every edge runs along an axis."""
    return all(
        a[0] == b[0] or a[1] == b[1]
        for patch in region.patches
        for ring in (patch.shell, *patch.holes)
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


def edges_of(region: Region) -> list[Segment]:
    """Every edge of a region, directed with the region on its left."""
    return [
        edge
        for patch in region.patches
        for ring in (patch.shell, *patch.holes)
        for edge in zip(ring, (*ring[1:], ring[0]), strict=True)
    ]


def slabs_of(
    region: Region, gap_mm320: int = 0, joint_edges: Collection[Segment] = (), joint_mm320: int = 0
) -> Slabs:
    """Compress a rectilinear region, less the perimeter gap along its edges.

    Parameters
    ----------
    region
        A rectilinear region.
    gap_mm320
        Taken off along every restrained edge [1/320 mm].
    joint_edges
        Stretches where another tiled surface of the same plane goes on: there half a joint is
        taken off instead of the gap.
    joint_mm320
        Grout joint [1/320 mm].

    Returns
    -------
    Slabs
        What can be tiled; empty where the gap leaves nothing.
    """
    if gap_mm320 == 0 and not joint_edges and len(region.patches) == 0:
        return _EMPTY
    plain = _plain_rectangle(region)
    if plain is not None and not joint_edges:
        left, front, right, far = plain
        g = gap_mm320
        if right - left <= 2 * g or far - front <= 2 * g:
            return _EMPTY
        return Slabs(
            np.array([left + g, right - g], dtype=np.int64),
            np.array([front + g, far - g], dtype=np.int64),
            np.ones((1, 1), dtype=np.bool_),
        )
    bands = _bands(edges_of(region), gap_mm320, joint_edges, joint_mm320 // 2)
    return _less_bands(region, bands)


_EMPTY = Slabs(
    np.zeros(1, dtype=np.int64), np.zeros(1, dtype=np.int64), np.zeros((0, 0), dtype=np.bool_)
)


def _plain_rectangle(region: Region) -> tuple[int, int, int, int] | None:
    """Bounds of a region that is one rectangle without holes, else None."""
    if len(region.patches) != 1 or region.patches[0].holes:
        return None
    shell = region.patches[0].shell
    if len(shell) != 4:  # noqa: PLR2004 - a rectangle has four corners
        return None
    return region.bounds


def _bands(
    edges: list[Segment], gap: int, joint_edges: Collection[Segment], half_joint: int
) -> list[tuple[int, int, int, int]]:
    """Rectangles to take off along the edges: left, front, right, far."""
    bands = []
    for edge in edges:
        for start, end, amount in stretches(edge, joint_edges, gap=gap, half_joint=half_joint):
            if amount <= 0:
                continue
            x1, x2 = sorted((start[0], end[0]))
            y1, y2 = sorted((start[1], end[1]))
            bands.append((x1 - amount, y1 - amount, x2 + amount, y2 + amount))
    return bands


def stretches(
    edge: Segment, joint_edges: Collection[Segment], *, gap: int, half_joint: int
) -> list[tuple[Point, Point, int]]:
    """Split an edge along an axis where it is shared with another tiled surface.

    Parameters
    ----------
    edge
        Of an outline [1/320 mm].
    joint_edges
        Stretches where another tiled surface of the same plane goes on.
    gap, half_joint
        What is taken off along the rest of it, and along those.

    Returns
    -------
    list
        Start, end, and which of the two is taken off.
    """
    (ax, ay), (bx, _) = edge
    upright = ax == bx
    axis = 1 if upright else 0
    low, high = sorted((edge[0][axis], edge[1][axis]))
    shared = []
    for start, end in joint_edges:
        if start[1 - axis] == end[1 - axis] == edge[0][1 - axis]:
            s, e = sorted((start[axis], end[axis]))
            if max(s, low) < min(e, high):
                shared.append((max(s, low), min(e, high)))
    cuts = sorted({low, high, *(v for pair in shared for v in pair)})
    out = []
    for s, e in pairwise(cuts):
        amount = half_joint if any(a <= s and e <= b for a, b in shared) else gap
        p = (ax, s) if upright else (s, ay)
        q = (ax, e) if upright else (e, ay)
        out.append((p, q, amount))
    return out


def _less_bands(region: Region, bands: list[tuple[int, int, int, int]]) -> Slabs:
    """Occupied cells of a region with rectangles taken away."""
    edges = edges_of(region)
    xs = np.array(
        sorted({p[0] for e in edges for p in e} | {v for b in bands for v in (b[0], b[2])}),
        dtype=np.int64,
    )
    ys = np.array(
        sorted({p[1] for e in edges for p in e} | {v for b in bands for v in (b[1], b[3])}),
        dtype=np.int64,
    )
    xi = {int(x): i for i, x in enumerate(xs)}
    yi = {int(y): i for i, y in enumerate(ys)}
    turn = np.zeros((len(xs), len(ys) - 1), dtype=np.int8)
    for (ax, ay), (bx, by) in edges:
        if ax == bx:
            # the region lies left of the direction of travel: right of an edge that goes down
            if by < ay:
                turn[xi[ax], yi[by] : yi[ay]] += 1
            else:
                turn[xi[ax], yi[ay] : yi[by]] -= 1
    occupied = np.cumsum(turn, axis=0)[:-1] > 0
    for left, front, right, far in bands:
        occupied[xi[left] : xi[right], yi[front] : yi[far]] = False
    return _merged(xs, ys, occupied)


def _merged(xs: Ints, ys: Ints, occupied: Flags) -> Slabs:
    """Drop coordinates where nothing changes, and empty margins."""
    if not occupied.any():
        return _EMPTY
    for axis in (0, 1):
        padded = np.zeros(
            (occupied.shape[0] + 2, occupied.shape[1])
            if axis == 0
            else (occupied.shape[0], occupied.shape[1] + 2),
            dtype=np.bool_,
        )
        if axis == 0:
            padded[1:-1] = occupied
            changes = (padded[1:] != padded[:-1]).any(axis=1)
            keep = np.flatnonzero(changes)
            occupied = occupied[keep[:-1]]
            xs = xs[keep]
        else:
            padded[:, 1:-1] = occupied
            changes = (padded[:, 1:] != padded[:, :-1]).any(axis=0)
            keep = np.flatnonzero(changes)
            occupied = occupied[:, keep[:-1]]
            ys = ys[keep]
    return Slabs(xs, ys, np.ascontiguousarray(occupied))


def turned(region: Region, quarter_turns: int) -> Region:
    """Turn a region about the frame's origin by quarter turns counter-clockwise, exactly."""
    n = quarter_turns % 4
    if n == 0:
        return region
    return Region(
        tuple(
            Patch(_turn_ring(p.shell, n), tuple(_turn_ring(h, n) for h in p.holes))
            for p in region.patches
        )
    )


def turn_point(point: Point, quarter_turns: int) -> Point:
    """Turn a point about the frame's origin by quarter turns counter-clockwise."""
    x, y = point
    for _ in range(quarter_turns % 4):
        x, y = -y, x
    return x, y


def _turn_ring(ring: Ring, n: int) -> Ring:
    return tuple(turn_point(p, n) for p in ring)
