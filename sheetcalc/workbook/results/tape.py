"""Lengths as a person marks them: to 1 mm or 1/16 in."""

from typing import Final

from sheetcalc.domain.measure import INCH, MM320_PER_INCH, MM320_PER_MM, Unit
from sheetcalc.workbook.results.frame import BLANK, shared
from sheetcalc.workbook.sheet import Cell

_SIXTEENTH: Final = MM320_PER_INCH // 16


def taped(length_mm320: int | None, unit: Unit) -> Cell:
    """Length rounded half up to what a tape shows, in the Job's small unit; blank for None.

    Common practice, no source.
    """
    if length_mm320 is None:
        return BLANK
    step = _SIXTEENTH if unit == INCH else MM320_PER_MM
    steps = (2 * length_mm320 + step) // (2 * step)
    if unit == INCH:
        return shared(steps / 16, "result_fraction")
    return shared(steps, "result_count")
