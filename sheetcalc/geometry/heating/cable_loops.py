"""Loops of row pairs joined into one: connectors along a spanning tree, turns cut back to measure.

A pair of rows over a free stretch is a flat loop.  Loops of neighbouring pairs are joined by a
connector: two short runs side by side that replace as much of both rows.  Joined along a tree, all
loops together are one closed course that never crosses itself: the border of what they cover.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import floor, inf
from typing import Final

from msgspec import Struct, field

from sheetcalc.geometry.heating.cable_islands import Groups
from sheetcalc.geometry.heating.cable_row_costs import ROUNDED
from sheetcalc.geometry.heating.cable_rows import RowPair
from sheetcalc.geometry.heating.cable_strips import (
    DECIMALS,
    EXACT_MM,
    Interval,
    Lattice,
    Strip,
    common,
)

_FREE_STEP_MM: Final = 10.0
_TRIES: Final = 400


class Loop(Struct):
    """A flat loop: its two rows, its two turns, and the connectors on it."""

    index: int
    pair: int
    bottom: int
    top: int
    left_mm: float
    right_mm: float
    joins: list["Join"] = field(default_factory=list)

    @property
    def length_mm(self) -> float:
        """Along the rows."""
        return self.right_mm - self.left_mm


class Join(Struct, frozen=True):
    """A connector between two loops of neighbouring pairs: its stretch along the rows."""

    lower: int
    upper: int
    left_mm: float
    right_mm: float


class LoopRules(Struct, frozen=True):
    """Distances that loops keep.

    Attributes
    ----------
    nearest_mm
        Between two runs [mm].
    radius_mm
        Of corners [mm]: a straight between two corners is at least twice as long.
    shortest_mm
        Shortest loop [mm].
    """

    nearest_mm: float
    radius_mm: float
    shortest_mm: float


def loops_of(pairs: Sequence[RowPair], rules: LoopRules) -> list[list[Loop]]:
    """Loops of every pair; neighbours in a pair keep their distance."""
    table: list[list[Loop]] = []
    index = 0
    for number, pair in enumerate(pairs):
        row: list[Loop] = []
        for left, right in pair.stretches:
            if row and left - row[-1].right_mm < rules.nearest_mm - EXACT_MM:
                continue
            row.append(Loop(index, number, pair.bottom, pair.top, left, right))
            index += 1
        table.append(row)
    return table


class Course(Struct):
    """Loops joined into one closed course.

    Attributes
    ----------
    lattice
        Row places.
    loops, joins
        What it is made of.
    left_out
        Loops that could not be joined to the rest.
    """

    lattice: Lattice
    rules: LoopRules
    loops: list[Loop]
    joins: list[Join]
    left_out: list[Loop]
    spine_left: bool

    def closed_length_mm(self) -> float:
        """Length of the course with rounded corners, reckoned from its loops and connectors [mm].

        Every loop and connector has four corners; where a connector stands flush with a loop's
        turn, one of each is no corner but a straight.
        """
        lattice = self.lattice
        by_index = {loop.index: loop for loop in self.loops}
        length, corners = 0.0, 4 * (len(self.loops) + len(self.joins))
        for loop in self.loops:
            length += 2 * (loop.length_mm + lattice.row_mm(loop.top) - lattice.row_mm(loop.bottom))
        for join in self.joins:
            lower, upper = by_index[join.lower], by_index[join.upper]
            gap = lattice.row_mm(upper.bottom) - lattice.row_mm(lower.top)
            length += 2 * (gap - join.right_mm + join.left_mm)
            for loop in (lower, upper):
                corners -= 2 * (abs(join.left_mm - loop.left_mm) < EXACT_MM)
                corners -= 2 * (abs(join.right_mm - loop.right_mm) < EXACT_MM)
        return length - ROUNDED * self.rules.radius_mm * corners

    def cut_back(self, excess_mm: float, free_mm: float) -> float:
        """Cut turns back by half an excess each time, where it leaves least cold.

        Parameters
        ----------
        excess_mm
            Length to lose [mm].
        free_mm
            A turn cut back by this leaves nothing cold [mm].

        Returns
        -------
        float
            Length that could not be lost; on knobs below two pitches [mm].
        """
        for limit in (free_mm, inf):
            for loop, far in self._turns():
                if excess_mm <= EXACT_MM:
                    return 0.0
                wanted = self._whole_mm(excess_mm / 2)
                if wanted == 0:
                    return excess_mm
                room = min(self._room_to_cut(loop, left=self.spine_left != far), limit)
                take = min(self._whole_mm(room), wanted)
                if take > 0:
                    self._cut(loop, take, left=self.spine_left != far)
                    excess_mm -= 2 * take
        return max(0.0, excess_mm)

    def _whole_mm(self, length_mm: float) -> float:
        """Length that turns can be cut back by: on knobs whole pitches."""
        if not self.lattice.knobbed:
            return length_mm
        pitch = self.lattice.pitch_mm
        return floor(length_mm / pitch + EXACT_MM) * pitch

    def _turns(self) -> Iterator[tuple[Loop, bool]]:
        """Yield turns in the order in which they are cut back: far ends, last rows first."""
        for far in (True, False):
            for loop in reversed(self.loops):
                yield loop, far

    def _cut(self, loop: Loop, take_mm: float, *, left: bool) -> None:
        if left:
            loop.left_mm += take_mm
        else:
            loop.right_mm -= take_mm

    def _room_to_cut(self, loop: Loop, *, left: bool) -> float:
        """How far a turn may be cut back: not into a connector, nor below the shortest loop."""
        room = loop.length_mm - self.rules.shortest_mm
        for join in loop.joins:
            free = join.left_mm - loop.left_mm if left else loop.right_mm - join.right_mm
            if free < EXACT_MM:
                return 0.0
            room = min(room, free - 2 * self.rules.radius_mm)
        return max(0.0, room)


def joined(
    table: Sequence[Sequence[Loop]],
    strips: Sequence[Strip],
    lattice: Lattice,
    rules: LoopRules,
    *,
    spine_left: bool,
) -> Course:
    """Join loops of neighbouring pairs along a spanning tree.

    Parameters
    ----------
    table
        Loops of each pair, front to back.
    strips
        Free stretches, for the floor that connectors pass.
    lattice, rules
        Places and distances.
    spine_left
        Connectors stand as far left as they can, else right.

    Returns
    -------
    Course
        Its loops are the largest group that hangs together; the others are ``left_out``.
    """
    loops = [loop for row in table for loop in row]
    groups = Groups(len(loops))
    joins: list[Join] = []
    for lower_row, upper_row in pairwise(table):
        if not lower_row or not upper_row:
            continue
        free = _free_between(strips, lower_row[0].top, upper_row[0].bottom)
        for lower in lower_row:
            for upper in upper_row:
                if groups.find(lower.index) == groups.find(upper.index):
                    continue
                place = _place_for(
                    lower, upper, free, lattice=lattice, rules=rules, spine_left=spine_left
                )
                if place is None:
                    continue
                join = Join(lower.index, upper.index, *place)
                lower.joins.append(join)
                upper.joins.append(join)
                joins.append(join)
                groups.join(lower.index, upper.index)
    sizes: dict[int, float] = {}
    for loop in loops:
        group = groups.find(loop.index)
        sizes[group] = sizes.get(group, 0.0) + loop.length_mm
    main = max(sizes, key=lambda g: sizes[g]) if sizes else -1
    kept = [x for x in loops if groups.find(x.index) == main]
    names = {x.index for x in kept}
    return Course(
        lattice,
        rules,
        kept,
        [j for j in joins if j.lower in names],
        [x for x in loops if x.index not in names],
        spine_left,
    )


def _free_between(strips: Sequence[Strip], first: int, last: int) -> Strip:
    """Stretches free over the strips between two pairs."""
    free = strips[first]
    for k in range(first + 1, last):
        free = common(free, strips[k], 0.0)
    return free


def _place_for(  # noqa: PLR0913 - two loops, the floor between, the rules
    lower: Loop,
    upper: Loop,
    free: Strip,
    *,
    lattice: Lattice,
    rules: LoopRules,
    spine_left: bool,
) -> Interval | None:
    """Stretch for a connector between two loops; None where there is none."""
    pitch = lattice.pitch_mm
    needed = rules.nearest_mm
    wide = round((upper.bottom - lower.top) * pitch, DECIMALS)
    widths = [wide] if wide >= needed - EXACT_MM else []
    if lattice.knobbed:
        least = -floor(-needed / pitch + EXACT_MM) * pitch
        widths += [least] if least != wide else []
    elif wide - needed > EXACT_MM or not widths:
        widths.append(needed)
    low = max(lower.left_mm, upper.left_mm)
    high = min(lower.right_mm, upper.right_mm)
    ends = (lower.left_mm, upper.left_mm, lower.right_mm, upper.right_mm)
    for width in widths:
        for f1, f2 in free if spine_left else reversed(free):
            a, b = max(low, f1), min(high, f2) - width
            if b < a - EXACT_MM:
                continue
            for x in _places(a, b, width, ends, lattice=lattice, rules=rules, left=spine_left):
                if _stands(x, width, lower, rules, on_top=True) and _stands(
                    x, width, upper, rules, on_top=False
                ):
                    return x, round(x + width, DECIMALS)
    return None


def _places(  # noqa: PLR0913 - a range and what it is searched by
    first: float,
    last: float,
    width: float,
    ends: tuple[float, ...],
    *,
    lattice: Lattice,
    rules: LoopRules,
    left: bool,
) -> Iterator[float]:
    """Places for a connector, in order from the spine's side."""
    step = lattice.pitch_mm if lattice.knobbed else _FREE_STEP_MM
    if not lattice.knobbed:
        straight = 2 * rules.radius_mm
        at_ends = {first, last}
        for end in ends:
            at_ends |= {end, end + straight, end - width, end - width - straight}
        # most lie far outside the range: only the others are worth rounding and sorting
        near = {round(x, DECIMALS) for x in at_ends if first - step <= x <= last + step}
        special = sorted(near, reverse=not left)
        yield from (x for x in special if first - EXACT_MM <= x <= last + EXACT_MM)
    count = min(floor((last - first) / step + EXACT_MM), _TRIES)
    for i in range(count + 1):
        # on knobs both ends of the range lie on the lattice
        yield round(first + i * step if left else last - i * step, DECIMALS)


def _stands(x: float, width: float, loop: Loop, rules: LoopRules, *, on_top: bool) -> bool:
    """Whether a connector may stand at a place of a loop's row."""
    straight = 2 * rules.radius_mm - EXACT_MM
    before, after = x - loop.left_mm, loop.right_mm - x - width
    if not (abs(before) < EXACT_MM or before >= straight):
        return False
    if not (abs(after) < EXACT_MM or after >= straight):
        return False
    apart = max(rules.nearest_mm, straight) - EXACT_MM
    for join in loop.joins:
        # only a connector on the same row is near; the other row is a loop's height away
        same_row = (join.lower == loop.index) == on_top
        if same_row and x < join.right_mm + apart and x + width > join.left_mm - apart:
            return False
    return True
