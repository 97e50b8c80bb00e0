"""What a cable's path keeps to, and the distances between its rows that are worth trying."""

from math import ceil, floor
from typing import Final

from msgspec import Struct
from shapely import Polygon

from sheetcalc.geometry.heating.cable_strips import EXACT_MM

_PLACES_A_SPACING: Final = 4
"""Fineness of the search where the spacing is free: row places a target spacing."""

_UPPER_THIRD: Final = 1 / 3  # a mean nearer a step than this also wants the step below
_LEAST_IN_ROWS: Final = 0.7  # share of a cable that lies in rows, however deep the floor


class CableRules(Struct, frozen=True):
    """What a path keeps to.

    Attributes
    ----------
    length_mm
        Of the heating cable [mm].
    nearest_mm
        Between two runs [mm].
    radius_mm
        Of corners [mm]; at most half of ``nearest_mm``.
    knob_pitch_mm
        Of the underlay [mm]; None where the spacing is free.
    one_end
        Only the start needs to be at the opening: the end may stop short of it.
    knob_mm
        A place of the underlay's lattice, where several cables share it [mm]; None: centred.
    """

    length_mm: float
    nearest_mm: float
    radius_mm: float
    knob_pitch_mm: float | None
    one_end: bool = False
    knob_mm: tuple[float, float] | None = None

    @property
    def gap_mm(self) -> float:
        """Least distance between the two ends [mm]."""
        return self.nearest_mm


def least_places(rules: CableRules, pitch_mm: float) -> int:
    """Least distance of two rows, in places a pitch apart."""
    return max(1, ceil(rules.nearest_mm / pitch_mm - EXACT_MM))


def steps_for(free: Polygon, rules: CableRules, pitch_mm: float, effort: int) -> list[int]:
    """Distances between rows to try for a cable, in places, ascending.

    Turns from row to row are together about as long as the floor is deep: the rows share the rest.

    Parameters
    ----------
    free
        One part of free floor, rows along x [mm].
    rules
        Cable and its least spacing.
    pitch_mm
        Of row places [mm].
    effort
        0: the two or three nearest the mean spacing; 1: one more either way; 2: down to the least.
    """
    least = least_places(rules, pitch_mm)
    depth = free.bounds[3] - free.bounds[1]
    in_rows = rules.length_mm
    if effort == 0:  # a floor of a strange shape has fewer turns than its depth
        in_rows = max(rules.length_mm - depth, rules.length_mm * _LEAST_IN_ROWS)
    mean = free.area / in_rows / pitch_mm
    near = max(least, floor(mean + EXACT_MM))
    steps = {near, near + 1} if mean - near > _UPPER_THIRD else {near - 1, near, near + 1}
    if effort == 1:
        steps |= {near - 1, near + 1, near + 2}
    elif effort:
        steps |= {least, least + 1, (least + near) // 2}
    return sorted(s for s in steps if s >= least)


def free_pitch_mm(area_mm2: float, rules: CableRules) -> float:
    """Distance of row places where the spacing is free: a whole part of the least spacing [mm]."""
    wanted = area_mm2 / rules.length_mm / _PLACES_A_SPACING
    return rules.nearest_mm / max(1, floor(rules.nearest_mm / wanted + EXACT_MM))
