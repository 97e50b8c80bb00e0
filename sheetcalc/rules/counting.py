"""Tiles by area and module, where they are not counted from a setting-out."""

from typing import Final

from sheetcalc.domain.finish import SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH

DEFAULT_JOINT_MM320: Final = 3 * 320
DEFAULT_JOINT_INCH_MM320: Final = 8128 // 8


def joint_of(spec: SurfaceSpec, job: Job) -> int:
    """Joint of a surface: the finish's, or 3 mm (1/8 in) where it gives none [1/320 mm].

    Common practice, no source.
    """
    if spec.joint_mm320 is not None:
        return spec.joint_mm320
    inches = job.units.small_length == INCH
    return DEFAULT_JOINT_INCH_MM320 if inches else DEFAULT_JOINT_MM320


def module_area(length: float, width: float, joint: float) -> float:
    """Area that one tile takes with its share of joints.

    Module size is actual tile size plus joint width: master specification Section 09 30 00,
    definitions.

    Parameters
    ----------
    length, width, joint
        Face sizes and joint, in one unit of length.

    Returns
    -------
    float
        (L+j)(W+j), in that unit squared.
    """
    return (length + joint) * (width + joint)


def tiles_for_area(area: float, length: float, width: float, joint: float) -> float:
    """Tiles for an area; a fraction of a tile is left as it is.

    Area over module, by the method of a building-estimating textbook (Estimating in Building
    Construction, ch. 11-12, written there for structural clay tile).

    Parameters
    ----------
    area
        Area tiled, in the square of the unit of the sizes.
    length, width, joint
        Face sizes and joint, in one unit of length.

    Returns
    -------
    float
        Tiles, never rounded here.

    Examples
    --------
    100 ft2 of 12 x 12 in tile with a 1/8 in joint:

    >>> round(tiles_for_area(14400, 12, 12, 1 / 8), 3)
    97.949
    """
    return area / module_area(length, width, joint)
