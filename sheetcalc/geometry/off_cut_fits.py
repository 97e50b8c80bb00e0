"""Which cut pieces can share one tile, each cut where it lies or turned half round."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from sheetcalc.domain.room import Point, Ring

_RECTANGLE = 4


@dataclass(frozen=True, slots=True)
class Fits:
    """Which kinds of pieces can share a tile.

    Attributes
    ----------
    areas
        Area of each kind, shape (T,) [squared 1/320 mm].
    alike, turned
        Shape (T, T): whether two fit beside each other both as they lie, or one turned.
    """

    areas: list[float]
    alike: NDArray[np.bool_]
    turned: NDArray[np.bool_]

    def joins(self, kind: int, state: Sequence[tuple[int, bool]]) -> bool | None:
        """Whether a kind fits beside pieces placed (kind, turned), and turned how; None if not."""
        for turn in (False, True):
            if all((self.alike if turn == other else self.turned)[kind, k] for k, other in state):
                return turn
        return None


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
    length, width = face
    boxes = np.array(
        [
            (
                min(u for u, _ in ring),
                min(v for _, v in ring),
                max(u for u, _ in ring),
                max(v for _, v in ring),
            )
            for ring in outlines
        ],
        dtype=np.int64,
    ).reshape(-1, 4)
    if chips != (0, 0):
        boxes = _whole_chips(boxes, face, joint, chips)
        kerf = min(joint, kerf)
        outlines = [((a, b), (c, b), (c, d), (a, d)) for a, b, c, d in boxes.tolist()]
    over = boxes[:, [2, 3, 0, 1]] * -1 + np.array([length, width, length, width])
    alike, turned = _apart(boxes, boxes, kerf), _apart(boxes, over, kerf)
    polygons = [shapely.Polygon(ring) for ring in outlines]
    odd = np.array([len(ring) != _RECTANGLE or not _is_box(ring) for ring in outlines])
    if odd.any():
        shapes = np.array(polygons, dtype=object)
        flipped = np.array(
            [shapely.Polygon([(length - u, width - v) for u, v in ring]) for ring in outlines],
            dtype=object,
        )
        some = odd[:, None] | odd[None, :]
        for table, others in ((alike, shapes), (turned, flipped)):
            i, j = np.nonzero(some & ~table)
            table[i, j] = shapely.distance(shapes[i], others[j]) >= kerf
        touching = kerf == 0
        if touching:
            for table, others in ((alike, shapes), (turned, flipped)):
                i, j = np.nonzero(some & table)
                table[i, j] = shapely.area(shapely.intersection(shapes[i], others[j])) < 1
    np.fill_diagonal(alike, val=False)  # a piece lies where its twin would
    return Fits([float(p.area) for p in polygons], alike, turned)


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
