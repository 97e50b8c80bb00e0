"""Border of what a course covers, traced from loop to loop through the connectors.

Loops and connectors hang together as a tree, so the border is one closed course: round a loop,
through a connector round the next one, and back.  Coordinates are those of the rows [mm].
"""

from collections.abc import Iterable, Sequence
from itertools import chain
from typing import Final

import numpy as np

from sheetcalc.geometry.heating.cable_curve import Points
from sheetcalc.geometry.heating.cable_loops import Join, Loop
from sheetcalc.geometry.heating.cable_strips import Lattice

_SAME_MM: Final = 1e-9
_STRAIGHT: Final = 1e-6

_Places = list[tuple[float, float]]


def traced(loops: Sequence[Loop], joins: Iterable[Join], lattice: Lattice) -> Points:
    """Corners of the course, counter-clockwise, the first not repeated, none on a straight.

    Parameters
    ----------
    loops, joins
        A tree.
    lattice
        Row places.

    Returns
    -------
    array
        Shape (n, 2) [mm]; empty without loops.
    """
    if not loops:
        return np.empty((0, 2))
    points: _Places = []
    _Tracer(loops, joins, lattice, points).whole(loops[0])
    found = np.fromiter(chain.from_iterable(points), np.float64, 2 * len(points)).reshape(-1, 2)
    across, up = np.abs(found - np.concatenate((found[-1:], found[:-1]))).T
    found = found[(across > _SAME_MM) | (up > _SAME_MM)]
    before = found - np.concatenate((found[-1:], found[:-1]))
    after = np.concatenate((before[1:], before[:1]))
    turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    kept: Points = found[np.abs(turn) > _STRAIGHT]
    return kept


class _Tracer:
    """Walks round loops, the covered floor to the left."""

    def __init__(
        self, loops: Sequence[Loop], joins: Iterable[Join], lattice: Lattice, points: _Places
    ) -> None:
        self._loops = {loop.index: loop for loop in loops}
        self._row_mm = lattice.row_mm
        self._points = points
        self._below: dict[int, list[Join]] = {}
        self._above: dict[int, list[Join]] = {}
        for join in sorted(joins, key=lambda j: j.left_mm):
            self._below.setdefault(join.upper, []).append(join)
            self._above.setdefault(join.lower, []).insert(0, join)

    def whole(self, loop: Loop) -> None:
        """Walk round a loop from its near left corner."""
        self._along_bottom(loop, self._below.get(loop.index, ()))
        self._right_turn(loop)
        self._along_top(loop, self._above.get(loop.index, ()))
        self._left_turn(loop)

    def _from_above(self, loop: Loop, came: Join) -> None:
        """Walk round from one connector on the top row and back to it."""
        above = self._above[loop.index]
        at = above.index(came)
        self._along_top(loop, above[at + 1 :])
        self._left_turn(loop)
        self._along_bottom(loop, self._below.get(loop.index, ()))
        self._right_turn(loop)
        self._along_top(loop, above[:at])

    def _from_below(self, loop: Loop, came: Join) -> None:
        """Walk round from one connector on the bottom row and back to it."""
        below = self._below[loop.index]
        at = below.index(came)
        self._along_bottom(loop, below[at + 1 :])
        self._right_turn(loop)
        self._along_top(loop, self._above.get(loop.index, ()))
        self._left_turn(loop)
        self._along_bottom(loop, below[:at])

    def _along_bottom(self, loop: Loop, joins: Sequence[Join]) -> None:
        """Go left to right, down every connector and up again."""
        here = self._row_mm(loop.bottom)
        for join in joins:
            lower = self._loops[join.lower]
            there = self._row_mm(lower.top)
            self._points += [(join.left_mm, here), (join.left_mm, there)]
            self._from_above(lower, join)
            self._points += [(join.right_mm, there), (join.right_mm, here)]

    def _along_top(self, loop: Loop, joins: Sequence[Join]) -> None:
        """Go right to left, up every connector and down again."""
        here = self._row_mm(loop.top)
        for join in joins:
            upper = self._loops[join.upper]
            there = self._row_mm(upper.bottom)
            self._points += [(join.right_mm, here), (join.right_mm, there)]
            self._from_below(upper, join)
            self._points += [(join.left_mm, there), (join.left_mm, here)]

    def _right_turn(self, loop: Loop) -> None:
        bottom, top = self._row_mm(loop.bottom), self._row_mm(loop.top)
        self._points += [(loop.right_mm, bottom), (loop.right_mm, top)]

    def _left_turn(self, loop: Loop) -> None:
        bottom, top = self._row_mm(loop.bottom), self._row_mm(loop.top)
        self._points += [(loop.left_mm, top), (loop.left_mm, bottom)]
