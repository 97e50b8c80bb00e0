"""Rules of tile: joints, offset, lippage, movement joints, slopes.

Lengths are whole 1/320 mm, in which inch fractions are exact.
"""

from fractions import Fraction
from typing import Final

from msgspec import Struct

from sheetcalc.domain.measure import MM320_PER_INCH

JOINT_BY_SPREAD_SOURCE: Final = "ANSI A108.02-2017 4.3.8, as quoted in tileletter.com"
JOINT_IN_RUNNING_BOND_SOURCE: Final = "ANSI A108.02-4.3.8, as quoted in fcimag 96103"
JOINT_BY_WARPAGE_SOURCE: Final = "ANSI A108.02-4.3.8.1, as quoted in ctasc.com"
SLOPE_SOURCE: Final = "derived from the slope and the lippage limit, no published source"

LONG_SIDE_MM320: Final = 15 * MM320_PER_INCH
"""A side longer than this asks for wider joints and a smaller offset."""

LARGE_FORMAT_MM320: Final = 23 * MM320_PER_INCH
LARGEST_OFFSET: Final = Fraction(1, 3)
"""33 %: a third is meant, so a 1/3 bond keeps to it."""

LEAST_JOINT_MM320: Final = MM320_PER_INCH // 16
INTERIOR_SPACING_MM320: Final = 25 * 12 * MM320_PER_INCH
EXPOSED_SPACING_MM320: Final = 12 * 12 * MM320_PER_INCH
THIN_NECK_MM320: Final = 20 * 320
"""Below this a strip of tile beside a hole is likely to break (common practice, no source)."""


class JointLimit(Struct, frozen=True):
    """The narrowest joint and the rule that asks for it."""

    joint_mm320: int
    source: str


def minimum_joint_mm320(  # noqa: PLR0913 - five measures of a tile and its bond
    length_mm320: int,
    width_mm320: int,
    edge: str,
    spread_mm320: int | None,
    warpage_mm320: int | None,
    *,
    running_bond: bool,
) -> JointLimit:
    """Narrowest grout joint for a tile.

    ANSI A108.02-2017 4.3.8, as quoted in tileletter.com: three times the variation of facial
    dimensions, never less than 1/16 in.  In running bond with a side over 15 in at least 1/8 in
    for rectified and 3/16 in for calibrated tile (as quoted in fcimag 96103; other edges are
    taken as calibrated), plus the warpage of the longest edge (4.3.8.1, as quoted in ctasc.com).

    Parameters
    ----------
    length_mm320, width_mm320
        Face [1/320 mm].
    edge
        ``rectified``, ``calibrated``, ``pressed`` or ``natural``.
    spread_mm320, warpage_mm320
        Size spread and edge warpage as measured [1/320 mm]; None where not known.
    running_bond
        Whether rows are offset.

    Examples
    --------
    1/16 in of spread asks for a 3/16 in joint:

    >>> minimum_joint_mm320(97536, 97536, "rectified", 508, None, running_bond=False).joint_mm320
    1524
    """
    by_spread = max(3 * (spread_mm320 or 0), LEAST_JOINT_MM320)
    limit = JointLimit(by_spread, JOINT_BY_SPREAD_SOURCE)
    if running_bond and max(length_mm320, width_mm320) > LONG_SIDE_MM320:
        eighth = MM320_PER_INCH // 8
        rectified = edge.strip().lower() == "rectified"
        bond = eighth if rectified else eighth * 3 // 2
        joint = max(by_spread, bond)
        if joint > by_spread:
            taken = "rectified edges" if rectified else "calibrated edges, or an empty Edge"
            source = f"{JOINT_IN_RUNNING_BOND_SOURCE} (rows offset, a side over 15 in, {taken})"
            limit = JointLimit(joint, source)
        if warpage_mm320:
            limit = JointLimit(joint + warpage_mm320, JOINT_BY_WARPAGE_SOURCE)
    return limit


def offset_is_too_large(offset: Fraction, longest_mm320: int) -> bool:
    """Whether rows of long tile are offset by more than a third.

    ANSI A108.02-4.3.8.2, as quoted in fcimag 96103: with a side over 15 in at most 33 %, unless a
    mock-up with its lippage is approved.  (The 2012 handbook said over 18 in.)

    Examples
    --------
    >>> offset_is_too_large(Fraction(1, 3), 195072), offset_is_too_large(Fraction(1, 2), 195072)
    (False, True)
    """
    return longest_mm320 > LONG_SIDE_MM320 and offset > LARGEST_OFFSET


def lippage_allowed_mm320(joint_mm320: int) -> int:
    """Greatest step between neighbours, before the tile's own warpage is added.

    ANSI A108.02-2013 4.3.7, as quoted in tileletter.com Feb 2016: 1/32 in with a joint under
    1/4 in, 1/16 in with a wider one.

    Examples
    --------
    >>> lippage_allowed_mm320(1016), lippage_allowed_mm320(2032)
    (254, 508)
    """
    return MM320_PER_INCH // 32 if joint_mm320 < MM320_PER_INCH // 4 else MM320_PER_INCH // 16


def lippage_words(joint_mm320: int) -> str:
    """Say the lippage limit as the source prints it, in both systems.

    ANSI A108.02-2013 4.3.7, as quoted in tileletter.com Feb 2016: 1/32 in (1 mm), 1/16 in (2 mm).

    >>> lippage_words(3 * 320)
    '1/32 in (1 mm)'
    """
    return "1/32 in (1 mm)" if joint_mm320 < MM320_PER_INCH // 4 else "1/16 in (2 mm)"


def is_large_format(length_mm320: int, width_mm320: int) -> bool:
    """Whether a tile counts as large format: a side over 23 in.

    ANSI A108 terms, as quoted in floortrendsmag Dec 2024.
    """
    return max(length_mm320, width_mm320) > LARGE_FORMAT_MM320


def movement_spacing_mm320(exposure: str, job_spacing_mm320: int) -> int:
    """Greatest distance between movement joints within a field.

    TCNA EJ171, as quoted in TileLetter Aug 2018: 25 ft inside; 12 ft in sun, moisture, outside or
    on slabs above ground.  The Job's spacing holds where it is smaller.

    Parameters
    ----------
    exposure
        The Job's exposure class; anything but ``interior`` is taken as exposed.
    job_spacing_mm320
        The Job's spacing [1/320 mm].
    """
    interior = exposure.strip().lower() == "interior"
    return min(job_spacing_mm320, INTERIOR_SPACING_MM320 if interior else EXPOSED_SPACING_MM320)


def rock_over_hip_mm(longest_mm320: int, slope: float) -> float:
    """How far a flat tile stands off the floor where two falls of a four-way slope meet.

    Derived: over a hip the floor bends by slope x |x - y|/2, so a square tile laid across it
    misses both planes by a quarter of slope x side.  No published source.

    Parameters
    ----------
    longest_mm320
        Longest side of the tile [1/320 mm].
    slope
        Fall, 0.02 for 2 %.

    Returns
    -------
    float
        Gap [mm].

    Examples
    --------
    A 300 mm tile at 2 %:

    >>> rock_over_hip_mm(300 * 320, 0.02)
    1.5
    """
    return longest_mm320 / 320 * slope / 4
