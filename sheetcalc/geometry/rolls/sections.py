"""Sections: stretches of roll across its whole width, with one strip or several rips in them.

A section is made by cutting straight across the roll, ripping it into columns, and cutting the
columns across: three cuts that a person can make on the roll.
"""

from collections.abc import Sequence
from math import inf
from typing import Final

from msgspec import Struct

from sheetcalc.domain.rolls import Strip
from sheetcalc.geometry.rolls.filled_sections import fill_sections
from sheetcalc.geometry.rolls.section import Column, Cutting, Section

__all__ = ["Column", "Cutting", "Section", "make_sections"]

_WEIGHTS: Final = (0.0, 0.3, 1.0, 3.0)
_FEW: Final = 2
_MOST: Final = 3000  # beyond, a knapsack for each section is not worth its time
_OPEN: Final = 400  # sections that a rip is tried in: the last begun are nearest in length
_MANY: Final = 400  # with so many rips one way is good enough, and quick


def make_sections(strips: Sequence[Strip], cutting: Cutting) -> list[Section]:
    """Lay the rips of several rooms side by side into sections; a full strip is a section.

    Longest first; a rip goes where it leaves the least: onto the end of a column that is wide
    enough, else beside the columns of a section, else into a section of its own length.  What
    counts as least is weighed between length and width in several ways; many rips are laid by a
    knapsack too; and the way that uses the least roll is kept.
    """
    full = [s for s in strips if s.width_mm320 >= cutting.width]
    rips = sorted(
        (s for s in strips if s.width_mm320 < cutting.width),
        key=lambda s: (-s.length_mm320, -s.width_mm320),
    )
    weights = _WEIGHTS if len(rips) <= _MANY else _WEIGHTS[1:2]
    ways = [_lay_rips(rips, cutting, weight) for weight in weights] if rips else [[]]
    if _FEW < len(rips) <= _MOST:
        ways.append(fill_sections(rips, cutting))
    best = min(ways, key=lambda way: sum(section.length for section in way))
    return [Section(s.length_mm320, [Column(0, s.width_mm320, s.length_mm320, [(s, 0)])])
            for s in full] + best  # fmt: skip


class _Open(Struct, eq=False):
    """A section that may have room: beside its columns, and behind the one that is used least."""

    section: Section
    beside: int = 0
    behind: int = 0

    def look(self, cutting: Cutting) -> None:
        """See how much room is left."""
        columns = self.section.columns
        self.beside = cutting.width - cutting.next_across(columns[-1])
        self.behind = self.section.length - min(c.used for c in columns)


def _lay_rips(rips: Sequence[Strip], cutting: Cutting, weight: float) -> list[Section]:
    """Lay rips, the longest first."""
    sections: list[Section] = []
    filling: list[_Open] = []
    shortest = min(s.length_mm320 for s in rips)
    narrowest = min(s.width_mm320 for s in rips)
    for strip in rips:
        length, width = strip.length_mm320, strip.width_mm320
        found, column = _place_for(length, width, filling[-_OPEN:], weight)
        if found is None:
            column = Column(0, width)
            found = _Open(Section(length, [column]))
            sections.append(found.section)
            filling.append(found)
        elif column is None:
            column = Column(cutting.next_across(found.section.columns[-1]), width)
            found.section.columns.append(column)
        column.strips.append((strip, column.used))
        column.used += length + cutting.kerf
        found.look(cutting)
        if found.beside < narrowest and found.behind < shortest:
            filling.remove(found)
    return sections


def _place_for(
    length: int, width: int, filling: Sequence[_Open], weight: float
) -> tuple[_Open | None, Column | None]:
    """Section with the least waste for a rip, and its column, or None for one more.

    No section where none has room.  ``weight`` is how much a width left over counts against a
    length left over.
    """
    least = inf
    best: tuple[_Open | None, Column | None] = None, None
    for one in filling:
        section = one.section
        if one.behind >= length:
            for column in section.columns:
                if column.width >= width and section.length - column.used >= length:
                    waste = float((column.width - width) * length)
                    if waste < least:
                        least, best = waste, (one, column)
        if one.beside >= width:
            over = (section.length - length) * width
            waste = over + weight * (one.beside - width) * section.length
            if waste < least:
                least, best = waste, (one, None)
    return best
