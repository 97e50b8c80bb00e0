"""Which cut pieces can share one tile, each cut where it lies or turned."""

from collections.abc import Sequence

import numpy as np
import shapely
from msgspec import Struct
from numpy.typing import NDArray

from sheetcalc.domain.room import Point, Ring

_RECTANGLE = 4
QUARTERS = 4

_ROUNDED = 46
"""Corners of oblique pieces are given to 0.1 mm, so two of them may lie this much nearer to each
other than they are [1/320 mm]: half of 0.1 mm each way, on either side, along the diagonal."""


class Fits(Struct, frozen=True):
    """Which kinds of pieces can share a tile.

    Attributes
    ----------
    areas
        Area of each kind, shape (T,) [squared 1/320 mm].
    turns
        Quarter turns in which a piece may be cut out: 0 and 2, and of a square tile all four.
    tables
        One for each of ``turns``, shape (T, T): whether the first kind as it lies and the second
        turned so far fit beside each other.
    """

    areas: list[float]
    turns: tuple[int, ...]
    tables: tuple[NDArray[np.bool_], ...]

    def table(self, turn: int) -> NDArray[np.bool_]:
        """Give the table of a relative turn, in quarters."""
        return self.tables[self.turns.index(turn % QUARTERS)]

    def repeated(self, kinds: Sequence[int]) -> "Fits":
        """Give the fits of a list of kinds in which one may stand several times."""
        if list(kinds) == list(range(len(self.areas))):
            return self
        at = np.asarray(kinds)
        tables = tuple(table[np.ix_(at, at)] for table in self.tables)
        return Fits([self.areas[k] for k in kinds], self.turns, tables)


def fits_of(
    outlines: Sequence[Ring], face: Point, kerf: int, joint: int = 0, chips: Point = (0, 0)
) -> Fits:
    """Find out which pieces of one tile can share it.

    Parameters
    ----------
    outlines
        Of each kind, in the tile's frame [1/320 mm].
    face
        The tile's length and width.
    kerf
        What a cut loses.
    joint, chips
        Of a mosaic sheet: its joint and its chips along and across.  It is cut on chip joints, so
        pieces are taken in whole chips and nothing is lost.
    """
    boxes = np.array([_box(ring) for ring in outlines], dtype=np.int64).reshape(-1, 4)
    if chips != (0, 0):
        boxes = _whole_chips(boxes, face, joint, chips)
        kerf = min(joint, kerf)
        outlines = [((a, b), (c, b), (c, d), (a, d)) for a, b, c, d in boxes.tolist()]
    square = face[0] == face[1] and chips[0] == chips[1]
    turns = (0, 1, 2, 3) if square else (0, 2)
    odd = np.array([len(ring) != _RECTANGLE or not _is_box(ring) for ring in outlines], dtype=bool)
    areas = np.array([_doubled_area(ring) / 2 for ring in outlines], dtype=np.float64)
    room = areas[:, None] + areas[None, :] <= face[0] * face[1]
    tables = [_apart(boxes, _boxes_turned(boxes, face, turn), kerf) for turn in turns]
    if odd.any():
        corners = np.array([corner for ring in outlines for corner in ring], dtype=np.int64)
        ring_of = np.repeat(np.arange(len(outlines)), [len(ring) for ring in outlines])
        slack = np.array([_ROUNDED if _is_oblique(ring) else 0 for ring in outlines])
        closer = (odd[:, None] | odd) & room
        shapes = _polygons(corners, ring_of)
        for turn, table in zip(turns, tables, strict=True):
            over = _polygons(_turned(corners, face, turn), ring_of) if turn else shapes
            _look_closer(table, closer, (shapes, over), slack, kerf)
    np.fill_diagonal(tables[0], val=False)  # a piece lies where its twin would
    return Fits(areas.tolist(), turns, tuple(tables))


def _turned(corners: NDArray[np.int64], face: Point, turn: int) -> NDArray[np.int64]:
    """Corners, shape (N, 2), of pieces cut out of their tile turned; odd turns for square tile."""
    if turn == 2:  # noqa: PLR2004 - half round, of any tile
        return np.array(face) - corners
    for _ in range(turn):
        corners = np.stack((face[0] - corners[:, 1], corners[:, 0]), axis=1)
    return corners


def _boxes_turned(boxes: NDArray[np.int64], face: Point, turn: int) -> NDArray[np.int64]:
    """Boxes of pieces turned in their tile."""
    ends = _turned(boxes.reshape(-1, 2), face, turn).reshape(-1, 2, 2)
    return np.concatenate((ends.min(axis=1), ends.max(axis=1)), axis=1)


def _look_closer(
    table: NDArray[np.bool_],
    some: NDArray[np.bool_],
    shapes: tuple[NDArray[np.object_], NDArray[np.object_]],
    slack: NDArray[np.int64],
    kerf: int,
) -> None:
    """Pieces that are no rectangles may lie in each other's notches."""
    one, other = shapes
    i, j = np.nonzero(some & ~table)
    apart = shapely.distance(one[i], other[j])
    table[i, j] = (apart > 0) & (apart >= kerf - np.maximum(slack[i], slack[j]))
    if kerf == 0:
        i, j = np.nonzero(some & table)
        table[i, j] = shapely.area(shapely.intersection(one[i], other[j])) < 1


def _polygons(corners: NDArray[np.int64], ring_of: NDArray[np.int64]) -> NDArray[np.object_]:
    """Make polygons of corners, and which ring each belongs to."""
    rings = shapely.linearrings(corners.astype(np.float64), indices=ring_of)
    return np.asarray(shapely.polygons(rings))


def _doubled_area(ring: Ring) -> int:
    following = (*ring[1:], ring[0])
    return abs(sum(a * d - c * b for (a, b), (c, d) in zip(ring, following, strict=True)))


def _is_oblique(ring: Ring) -> bool:
    return any(
        a[0] != b[0] and a[1] != b[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )


def _box(ring: Ring) -> tuple[int, int, int, int]:
    us, vs = [u for u, _ in ring], [v for _, v in ring]
    return min(us), min(vs), max(us), max(vs)


def _apart(a: NDArray[np.int64], b: NDArray[np.int64], kerf: int) -> NDArray[np.bool_]:
    """Whether boxes leave a kerf between them, along or across."""
    first, second = a[:, None, :], b[None, :, :]
    gap_u = np.maximum(second[..., 0] - first[..., 2], first[..., 0] - second[..., 2])
    gap_v = np.maximum(second[..., 1] - first[..., 3], first[..., 1] - second[..., 3])
    return np.asarray((gap_u >= kerf) | (gap_v >= kerf))


def _is_box(ring: Ring) -> bool:
    return len({u for u, _ in ring}) == len({v for _, v in ring}) == 2  # noqa: PLR2004 - two each


def _whole_chips(
    boxes: NDArray[np.int64], face: Point, joint: int, chips: Point
) -> NDArray[np.int64]:
    """Widen boxes to whole chips of the sheet."""
    out = boxes.copy()
    for axis in (0, 1):
        pitch = (face[axis] + joint) / chips[axis]
        chip = pitch - joint
        out[:, axis] = np.floor((boxes[:, axis] + joint) / pitch) * pitch
        last = np.ceil(boxes[:, axis + 2] / pitch) - 1
        out[:, axis + 2] = last * pitch + chip
    return out
