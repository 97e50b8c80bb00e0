"""Distances as a person reads them off a tape."""

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, MM320_PER_INCH, MM320_PER_MM


def whole_mm320(fine: int, scale: int) -> int:
    """Round a distance of a lattice that is so many times finer to whole 1/320 mm, halves up.

    Before a tape's marks are rounded to, so that a cut reads alike wherever it is told.

    Examples
    --------
    >>> whole_mm320(507, 2), whole_mm320(-3, 2)
    (254, -1)
    """
    return (2 * fine + scale) // (2 * scale)


def to_tape(length_mm320: float, job: Job) -> int:
    """Round to the nearest 1 mm, or 1/16 in where the Job's small lengths are in inches; half up.

    Common practice, no source.

    Examples
    --------
    >>> to_tape(412.5 * 320, Job()) / 320
    413.0
    """
    step = MM320_PER_INCH // 16 if job.units.small_length == INCH else MM320_PER_MM
    return int((2 * length_mm320 + step) // (2 * step)) * step


def tape(length_mm320: float, job: Job) -> str:
    """Round to the nearest 1 mm, or 1/16 in where the Job's small lengths are in inches; half up.

    Common practice, no source.

    Examples
    --------
    >>> tape(412.5 * 320, Job())
    '413 mm'
    """
    rounded = to_tape(length_mm320, job)
    if job.units.small_length != INCH:
        return f"{rounded // MM320_PER_MM} mm"
    sixteenths = rounded * 16 // MM320_PER_INCH
    whole, rest = divmod(sixteenths, 16)
    if rest == 0:
        return f'{whole}"'
    parts = 16
    while rest % 2 == 0:
        rest, parts = rest // 2, parts // 2
    return f'{whole}-{rest}/{parts}"' if whole else f'{rest}/{parts}"'
