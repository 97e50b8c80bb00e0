"""Thin-set mortar: bed from a trowel's notch, yield of a bag, contact and least bed.

The notch formulas follow from the volume of the ridges, which fill a layer of even thickness when
the tile is pressed home (derived; no published table).
"""

import math
from typing import Final

from sheetcalc.domain.finish import Notch, NotchShape
from sheetcalc.domain.measure import mm320_to_m

LEAST_BED_MM: Final = 2.0
LEAST_BED_INCH: Final = 3 / 32
LEAST_BED_SOURCE: Final = "ANSI A108.5-2.2.2, as quoted in tile-magazine 91948"

CONTACT_DRY: Final = 0.80
CONTACT_WET: Final = 0.95
CONTACT_SOURCE: Final = (
    "ANSI A108.5-2.2.3 (3.3.2 in the 2017 printing), as quoted in tile-magazine 91948 and "
    "ceramictilefoundation.org"
)
CONTACT_STONE_SOURCE: Final = "TCNA Handbook 2018 p. 35, as quoted in ceramictilefoundation.org"


def bed_from_notch_m(notch: Notch, angle_deg: float) -> float:
    """Mean thickness of the bed that a notched trowel leaves once its ridges have collapsed.

    Derived: the ridges' section over their spacing, lowered by the sine of the trowel's angle.

    Parameters
    ----------
    notch
        Width x depth x tooth [1/320 mm].
    angle_deg
        Angle of the trowel to the surface [degrees], above 0 and at most 90.

    Returns
    -------
    float
        Bed without any skim on the tile's back [m].

    Raises
    ------
    ValueError
        Where the angle is out of range, a size is not above zero, or a U notch is shallower than
        half its width (its bottom would be no half circle).

    Examples
    --------
    A notch as wide as its tooth, held upright, leaves half its depth:

    >>> half_inch = Notch(NotchShape.SQUARE, 4064, 4064, 4064)
    >>> round(bed_from_notch_m(half_inch, 90) / 0.0254, 9)
    0.25
    """
    width, depth, tooth = notch.width_mm320, notch.depth_mm320, notch.tooth_mm320
    if not 0 < angle_deg <= 90:  # noqa: PLR2004 - a right angle is upright
        message = f"a trowel angle of {angle_deg} degrees"
        raise ValueError(message)
    if min(width, depth, tooth) <= 0:
        message = f"a notch of {width} x {depth} x {tooth}"
        raise ValueError(message)
    if notch.shape is NotchShape.U and 2 * depth < width:
        message = "a U notch shallower than half its width"
        raise ValueError(message)
    section = {
        NotchShape.SQUARE: width * depth,
        NotchShape.U: width * (depth - width / 2) + math.pi * width**2 / 8,
        NotchShape.V: width * depth / 2,
    }[notch.shape]
    return mm320_to_m(section * math.sin(math.radians(angle_deg)) / (width + tooth))


def mortar_volume_m3(area_m2: float, bed_m: float, skim_m: float = 0.0) -> float:
    """Mortar under an area: bed and back-buttering skim, without loss.

    Derived.  The working loss is the line's waste factor and is counted there, once.

    Parameters
    ----------
    area_m2
        Area tiled [m2].
    bed_m, skim_m
        Bed from the notch, skim on the tile's back [m].

    Returns
    -------
    float
        Volume as mixed [m3].
    """
    return area_m2 * (bed_m + skim_m)


def dry_density_kg_m3(wet_density_kg_m3: float, water_ratio: float) -> float:
    """Powder in a volume of mixed mortar [kg/m3].

    Derived: the mass as mixed, less its water.

    Parameters
    ----------
    wet_density_kg_m3
        Density as mixed [kg/m3]; 1500-1800, common practice, no source.
    water_ratio
        Water to powder by mass; 0.20-0.28, common practice, no source.

    Returns
    -------
    float
        Mass of dry powder in a volume as mixed [kg/m3].
    """
    return wet_density_kg_m3 / (1 + water_ratio)


def least_bed_m(*, inches: bool) -> float:
    """Thinnest bed between tile and backing after embedding.

    ANSI A108.5-2.2.2, as quoted in tile-magazine 91948.  The two printed limits, 3/32 in and 2 mm,
    differ by 0.38 mm; one unit system is used throughout a job.

    Parameters
    ----------
    inches
        The job's small lengths are in inches.

    Returns
    -------
    float
        3/32 in or 2 mm [m].
    """
    return LEAST_BED_INCH * 0.0254 if inches else LEAST_BED_MM / 1000


def least_contact(*, wet: bool, stone: bool) -> tuple[float, str]:
    """Share of a tile's back that must be in contact with mortar, and its source.

    ANSI A108.5-2.2.3 (3.3.2 in the 2017 printing), as quoted in tile-magazine 91948 and others.

    Parameters
    ----------
    wet
        Exterior, or an interior wet area such as a shower.
    stone
        Natural stone.

    Returns
    -------
    tuple of float and str
        0.80 or 0.95, and where the figure stands.
    """
    if wet:
        return CONTACT_WET, CONTACT_SOURCE
    if stone:
        return CONTACT_WET, CONTACT_STONE_SOURCE
    return CONTACT_DRY, CONTACT_SOURCE
