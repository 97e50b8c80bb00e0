"""Islands of free floor: stretches that no row can be joined from to the largest part of a floor.

Loops and the connectors between them are nowhere narrower than the least distance of two runs,
neither along the rows nor across them.  What hangs together by a narrower neck stays unheated, and
is known to before any rows are chosen.
"""

from collections.abc import Sequence
from itertools import groupby

from sheetcalc.geometry.heating.cable_strips import EXACT_MM, Interval, Strip, bands_of, free_mm


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


def without_islands(
    strips: Sequence[Strip], least_mm: float, places: int
) -> tuple[list[Strip], float]:
    """Take out of strips what hangs together, but not with the largest part.

    Parameters
    ----------
    strips
        Free stretches, front to back; equal neighbours are one object.
    least_mm, places
        Stretches hang together where a piece of floor as long along the rows [mm], and as many
        strips deep, can be pushed from one to the other.

    Returns
    -------
    list of Strip, float
        Equal neighbours are one object still; and the length of what was taken out [mm].
    """
    bands = bands_of(strips, places, least_mm)[places]
    groups, runs = _hung_together(bands, least_mm)
    sizes: dict[int, float] = {}
    for band, count, numbers in runs:
        for (a, b), number in zip(band, numbers, strict=True):
            group = groups.find(number)
            sizes[group] = sizes.get(group, 0.0) + (b - a) * count
    if len(sizes) <= 1:
        return list(strips), 0.0
    largest = max(sizes, key=lambda g: sizes[g])
    pieces: list[list[tuple[Interval, bool]]] = []  # of every band, and which are of the largest
    for band, count, numbers in runs:
        mine = [groups.find(n) == largest for n in numbers]
        pieces += [list(zip(band, mine, strict=True))] * count
    kept: list[Strip] = []
    known: dict[Strip, Strip] = {}
    for k, strip in enumerate(strips):
        over = [piece for band in pieces[max(0, k - places + 1) : k + 1] for piece in band]
        rest = tuple(stretch for stretch in strip if _stays(stretch, over))
        kept.append(strip if rest == strip else known.setdefault(rest, rest))
    return kept, sum(map(free_mm, strips)) - sum(map(free_mm, kept))


def _hung_together(
    bands: Sequence[Strip], least_mm: float
) -> tuple[Groups, list[tuple[Strip, int, list[int]]]]:
    """Group the stretches of bands; give equal bands once, their count, a number a stretch."""
    groups = Groups()
    runs: list[tuple[Strip, int, list[int]]] = []
    for band, alike in groupby(bands):
        numbers = [groups.add() for _ in band]
        if runs:
            for here, (a, b) in zip(numbers, band, strict=True):
                for there, (c, d) in zip(runs[-1][2], runs[-1][0], strict=True):
                    if min(b, d) - max(a, c) >= least_mm - EXACT_MM:
                        groups.join(here, there)
        runs.append((band, sum(1 for _ in alike), numbers))
    return groups, runs


def _stays(stretch: Interval, over: Sequence[tuple[Interval, bool]]) -> bool:
    """Whether the largest part lies over a stretch, or else no part does."""
    mine = [is_mine for (a, b), is_mine in over if a < stretch[1] and b > stretch[0]]
    return any(mine) or not mine
