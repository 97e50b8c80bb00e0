"""Grout: volume of the joints of tile laid by module, and the powder that fills it."""

from typing import Final

DRY_DENSITY_SOURCE: Final = "1.5-1.8 kg/L of filled joint, common practice, no source"


def joint_area_share(length: float, width: float, joint: float) -> float:
    """Share of a tiled area that is joint.

    Derived: a module (L+j)(W+j) holds one tile L x W.  The bond does not change it for rectangles
    of one size.

    Parameters
    ----------
    length, width, joint
        Face sizes of the tile and width of the joint, in one unit of length.

    Returns
    -------
    float
        Between 0 and 1.
    """
    return joint * (length + width + joint) / ((length + joint) * (width + joint))


def grout_depth_per_area(length: float, width: float, joint: float, depth: float) -> float:
    """Volume of grout for an area of tile, exact.

    Derived: j·d·(L+W+j)/((L+j)(W+j)).  The handbook form j·d·(L+W)/(L·W) is always larger, by
    18 % for a 25 mm mosaic, and is not used.

    Parameters
    ----------
    length, width, joint, depth
        Face sizes of tile or chip, width and depth of the joint, in one unit of length.

    Returns
    -------
    float
        Volume per area, in that unit of length (with metres, m3/m2).

    Examples
    --------
    300 x 300 tile with a 3 mm joint, 8 mm deep, takes 0.15763 L/m2:

    >>> round(grout_depth_per_area(300, 300, 3, 8), 5)
    0.15763
    """
    return joint_area_share(length, width, joint) * depth


def handbook_depth_per_area(length: float, width: float, joint: float, depth: float) -> float:
    """Return the usual handbook approximation j·d·(L+W)/(L·W), for comparison only.

    Common practice, no source.

    Parameters
    ----------
    length, width, joint, depth
        As for ``grout_depth_per_area``.

    Returns
    -------
    float
        Volume per area, in that unit of length.
    """
    return joint * depth * (length + width) / (length * width)


def grout_powder_kg(volume_m3: float, dry_density_kg_m3: float) -> float:
    """Dry powder that fills joints of a volume.

    Common practice, no source: 1.5-1.8 kg of powder for a litre of filled joint, 1.6 by default.

    Parameters
    ----------
    volume_m3
        Volume of the joints [m3].
    dry_density_kg_m3
        Powder for a volume of filled joint [kg/m3].

    Returns
    -------
    float
        Powder [kg].
    """
    return volume_m3 * dry_density_kg_m3
