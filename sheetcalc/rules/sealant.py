"""Sealant: section of a bead, length from a cartridge, and movement joints."""

from typing import Final

SPACING_SOURCE: Final = "TCNA EJ171, as quoted in TileLetter Aug 2018"


def fillet_section_m2(leg_m: float) -> float:
    """Section of a triangular bead with two equal legs: half the square of a leg (geometry).

    Parameters
    ----------
    leg_m
        Leg on each surface [m].

    Returns
    -------
    float
        Section [m2].
    """
    return leg_m**2 / 2


def bead_length_m(volume_m3: float, section_m2: float) -> float:
    """Length of bead that a volume of sealant gives (geometry).

    Parameters
    ----------
    volume_m3
        Sealant, such as a cartridge [m3].
    section_m2
        Section of the bead [m2].

    Returns
    -------
    float
        Length [m].
    """
    return volume_m3 / section_m2


def movement_joints_across(size_mm320: int, spacing_mm320: int) -> int:
    """Movement joints inside a field of a size: as few as keep every part within the spacing.

    TCNA EJ171 gives the spacing, as quoted in TileLetter Aug 2018 (25 ft interior, 12 ft where sun
    or moisture reaches); where the joints go is the designer's decision.

    Parameters
    ----------
    size_mm320
        Size of the tiled field across the joints [1/320 mm].
    spacing_mm320
        Largest distance between joints [1/320 mm].

    Returns
    -------
    int
        Joints, not counting the perimeter.

    Raises
    ------
    ValueError
        Where the spacing is not above zero.
    """
    if spacing_mm320 <= 0:
        message = f"a movement joint spacing of {spacing_mm320}"
        raise ValueError(message)
    return max(-(-size_mm320 // spacing_mm320) - 1, 0)
