"""Islands of free floor: stretches that no row can be joined from to the largest part of a floor.

A connector takes as much floor over every strip that it passes as the least distance of two runs,
and so do the loops that it joins.  What hangs together by less stays unheated, and is known to
before any rows are chosen.
"""

from collections.abc import Sequence
from itertools import groupby

from sheetcalc.geometry.heating.cable_strips import EXACT_MM, Strip


class Groups:
    """Which of some things hang together (union-find)."""

    def __init__(self, count: int = 0) -> None:
        """Begin with things 0 to ``count - 1``, each alone."""
        self._parent = list(range(count))

    def add(self) -> int:
        """One thing more, alone; return its number."""
        self._parent.append(len(self._parent))
        return len(self._parent) - 1

    def find(self, i: int) -> int:
        """Return what stands for the group that a thing is in."""
        while self._parent[i] != i:
            self._parent[i] = self._parent[self._parent[i]]
            i = self._parent[i]
        return i

    def join(self, a: int, b: int) -> None:
        """Make the groups of two things one."""
        self._parent[self.find(a)] = self.find(b)


def without_islands(strips: Sequence[Strip], least_mm: float) -> tuple[list[Strip], float]:
    """Take out of strips what does not hang together with the largest part.

    Parameters
    ----------
    strips
        Free stretches, front to back; equal neighbours are one object.
    least_mm
        Two stretches of neighbouring strips hang together where they share as much [mm].

    Returns
    -------
    list of Strip, float
        Equal neighbours are one object still; and the length of what was taken out [mm].
    """
    groups = Groups()
    runs: list[tuple[Strip, int, list[int]]] = []  # equal strips, their count, a number a stretch
    for strip, alike in groupby(strips):
        numbers = [groups.add() for _ in strip]
        if runs:
            for here, (a, b) in zip(numbers, strip, strict=True):
                for there, (c, d) in zip(runs[-1][2], runs[-1][0], strict=True):
                    if min(b, d) - max(a, c) >= least_mm - EXACT_MM:
                        groups.join(here, there)
        runs.append((strip, sum(1 for _ in alike), numbers))
    sizes: dict[int, float] = {}
    for strip, count, numbers in runs:
        for (a, b), number in zip(strip, numbers, strict=True):
            group = groups.find(number)
            sizes[group] = sizes.get(group, 0.0) + (b - a) * count
    if len(sizes) <= 1:
        return list(strips), 0.0
    largest = max(sizes, key=lambda g: sizes[g])
    kept: list[Strip] = []
    for strip, count, numbers in runs:
        rest = tuple(s for s, n in zip(strip, numbers, strict=True) if groups.find(n) == largest)
        kept += [strip if len(rest) == len(strip) else rest] * count
    return kept, sum(sizes.values()) - sizes[largest]
