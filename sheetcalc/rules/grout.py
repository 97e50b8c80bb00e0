"""Grout: volume of the joints of tile laid by module, and the powder that fills it."""

from typing import Final

DRY_DENSITY_SOURCE: Final = (
    "1.5-1.8 kg/L or 94-112 lb/ft³ of filled joint, common practice, no source"
)


def joint_area_share(length: float, width: float, joint: float) -> float:
    """Share of a tiled area that is joint.

    Derived: a module (L+j)(W+j) holds one tile L x W.  The bond does not change it for rectangles
    of one size.  The handbook form j·(L+W)/(L·W) is always larger, by 18 % for a 25 mm mosaic, and
    is not used.

    Parameters
    ----------
    length, width, joint
        Face sizes of the tile and width of the joint, in one unit of length.

    Returns
    -------
    float
        Between 0 and 1.

    Examples
    --------
    300 x 300 tile with a 3 mm joint, 8 mm deep, takes 0.15763 L/m2:

    >>> round(8 * joint_area_share(300, 300, 3), 5)
    0.15763
    """
    return joint * (length + width + joint) / ((length + joint) * (width + joint))
