"""Which of several surfaces that are laid through as one a tile, or a piece of one, belongs to."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.room import Region
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.plane import shape_of, straight_plane, turn_shape
from sheetcalc.geometry.setting_out.sampling import SPECK
from sheetcalc.geometry.setting_out.slabs import Ints


def parts_within(
    regions: Sequence[Region], plane: BaseGeometry, degrees: float
) -> list[BaseGeometry]:
    """Each region less what the perimeter gap takes, in the tile's frame."""
    return [
        shapely.intersection(turn_shape(shape_of(region), -degrees), plane) for region in regions
    ]


def areas_within(shapes: Sequence[BaseGeometry], boxes: Floats) -> Floats:
    """Area of each box within each shape, shape (parts, boxes)."""
    return np.array([straight_plane(shape).areas(boxes) for shape in shapes])


def owners(within: Floats) -> np.ndarray:
    """Which part holds most of each tile; the first of those that hold as much, to 1 mm2."""
    return np.asarray(np.argmax(np.rint(within / SPECK), axis=0))


def owners_of_pieces(
    shapes: Sequence[BaseGeometry], boxes: Floats, pieces: np.ndarray, tile: Ints
) -> np.ndarray:
    """Which part holds most of each piece of a tile.

    Parameters
    ----------
    shapes
        The parts, as ``parts_within`` gives them.
    boxes
        Box of the tile of each piece.
    pieces
        What is left of tiles between the perimeter gaps.
    tile
        Number of the tile of each piece.
    """
    within = areas_within(shapes, boxes)
    apart = np.bincount(tile, minlength=1)[tile] > 1
    if apart.any():
        within[:, apart] = [shapely.area(shapely.intersection(s, pieces[apart])) for s in shapes]
    return owners(within)
