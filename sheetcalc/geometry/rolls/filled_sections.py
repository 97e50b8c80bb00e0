"""Sections filled by a knapsack: the rips beside the longest are those that waste least together.

For the longest rip that is left, of the next ones those are taken whose worth together is most and
whose widths fit beside it; what is free at the end of a column takes shorter rips (derived).
"""

from collections.abc import Sequence
from typing import Final

import numpy as np

from sheetcalc.domain.rolls import Strip
from sheetcalc.geometry.rolls.section import Column, Cutting, Section

_CANDIDATES: Final = 200
_CELLS: Final = 400
_POWER: Final = 3.0
"""A rip's worth is its width times its length to this power: longer ones are harder to place."""


def fill_sections(rips: Sequence[Strip], cutting: Cutting) -> list[Section]:
    """Lay rips side by side into sections.

    Parameters
    ----------
    rips
        Narrower than the roll, the longest first.
    cutting
        How the roll is cut.
    """
    cell = max(1, -(-cutting.width // _CELLS))
    waiting = list(rips)
    sections = []
    while waiting:
        first, rest = waiting[0], waiting[1:]
        column = Column(0, first.width_mm320, first.length_mm320 + cutting.kerf, [(first, 0)])
        section = Section(first.length_mm320, [column])
        room = (cutting.width + cutting.kerf - cutting.next_across(column)) // cell
        chosen = _best_beside(rest[:_CANDIDATES], room, cell, cutting) if room > 0 else []
        taken = {i for i in chosen if _added(section, rest[i], cutting)}
        waiting = [s for i, s in enumerate(rest) if i not in taken]
        for filling in section.columns:
            _top_up(section, filling, waiting, cutting)
        sections.append(section)
    return sections


def _best_beside(candidates: Sequence[Strip], room: int, cell: int, cutting: Cutting) -> list[int]:
    """Choose the candidates that are worth most and fit beside each other in so many cells."""
    value = np.zeros(room + 1)
    steps: list[tuple[int, int, np.ndarray]] = []
    for i, strip in enumerate(candidates):
        wide = -(-(strip.width_mm320 + cutting.kerf) // cell)
        if wide > room:
            continue
        with_it = value[: room + 1 - wide] + strip.width_mm320 * float(strip.length_mm320) ** _POWER
        steps.append((i, wide, with_it > value[wide:]))
        np.maximum(with_it, value[wide:], out=value[wide:])
    at, chosen = room, []
    for i, wide, better in reversed(steps):
        if at >= wide and better[at - wide]:
            chosen.append(i)
            at -= wide
    return chosen[::-1]


def _added(section: Section, strip: Strip, cutting: Cutting) -> bool:
    """Add a column for a rip where its true width fits."""
    across = cutting.next_across(section.columns[-1])
    if across + strip.width_mm320 > cutting.width:
        return False
    used = strip.length_mm320 + cutting.kerf
    section.columns.append(Column(across, strip.width_mm320, used, [(strip, 0)]))
    return True


def _top_up(section: Section, column: Column, waiting: list[Strip], cutting: Cutting) -> None:
    """Lay shorter rips onto the end of a column, the largest first."""
    while waiting and section.length - column.used >= waiting[-1].length_mm320:
        room = section.length - column.used
        fitting = [
            (s.width_mm320 * s.length_mm320, -i)
            for i, s in enumerate(waiting)
            if s.width_mm320 <= column.width and s.length_mm320 <= room
        ]
        if not fitting:
            return
        strip = waiting.pop(-max(fitting)[1])
        column.strips.append((strip, column.used))
        column.used += strip.length_mm320 + cutting.kerf
