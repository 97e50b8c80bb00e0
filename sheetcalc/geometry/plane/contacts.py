"""Where edges lie along one another: floor against wall, bath against wall, curb against floor.

A line is a start and an end; positions along it are whole 1/320 mm from its start.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from math import hypot
from operator import itemgetter
from typing import Final, TypeAlias

from sheetcalc.domain.room import Point, Region
from sheetcalc.geometry.plane.points import rings_of
from sheetcalc.geometry.plane.slabs import Interval, Keep, combine_intervals

Line: TypeAlias = tuple[Point, Point]

_FEW: Final = 60  # up to so many lines, looking at all of them is quicker than an index
_OBLIQUE: Final = (-1, 0)
_LEAST_SQUARE: Final = 32_000  # 100 mm
_MOST_SQUARES: Final = 4_000


class Edges(list[Line]):
    """Lines that others are laid against; many of them are looked up by where they lie."""

    _index: dict[tuple[int, int], list[tuple[int, Line]]] | None = None
    _longest: dict[tuple[int, int], int]
    _squares: "_Squares | None" = None

    def near(self, line: Line, slack_mm320: int) -> Iterable[Line]:
        """Lines that may lie on another one: all of them, or where many those about it."""
        if len(self) <= _FEW:
            return self
        if slack_mm320:
            if self._squares is None:
                self._squares = _Squares(self)
            return self._squares.about(line, slack_mm320)
        if self._index is None:
            self._index = self._sorted()
        axis = _axis(line)
        if axis is None:
            return [found for _, found in self._index.get(_OBLIQUE, ())]
        key = (axis, line[0][1 - axis])
        level = self._index.get(key, [])
        low, high = _ascending(line[0][axis], line[1][axis])
        begin = bisect_left(level, low - self._longest.get(key, 0), key=itemgetter(0))
        end = bisect_left(level, high, key=itemgetter(0))
        return [found for _, found in level[begin:end]]

    def _sorted(self) -> dict[tuple[int, int], list[tuple[int, Line]]]:
        """Group lines by axis and level, each group by where its lines begin."""
        index: dict[tuple[int, int], list[tuple[int, Line]]] = {}
        self._longest = {}
        for line in self:
            axis = _axis(line)
            if axis is None:
                index.setdefault(_OBLIQUE, []).append((0, line))
                continue
            low, high = _ascending(line[0][axis], line[1][axis])
            key = (axis, line[0][1 - axis])
            self._longest[key] = max(self._longest.get(key, 0), high - low)
            index.setdefault(key, []).append((low, line))
        for group in index.values():
            group.sort()
        return index


class _Squares:
    """Lines by the squares of a net that they pass, for those that lie on another but for a slack.

    A line that would pass very many squares is looked at every time.
    """

    def __init__(self, lines: Sequence[Line]) -> None:
        self._lines = lines
        self._size = max(sum(map(length_of, lines)) // len(lines), _LEAST_SQUARE)
        self._in: dict[tuple[int, int], list[int]] = {}
        self._always: list[int] = []
        for number, line in enumerate(lines):
            columns, rows = self._range(line, 0)
            if len(columns) * len(rows) > _MOST_SQUARES:
                self._always.append(number)
                continue
            for column in columns:
                for row in rows:
                    self._in.setdefault((column, row), []).append(number)

    def _range(self, line: Line, slack: int) -> tuple[range, range]:
        """Columns and rows of squares that hold a line."""
        (x0, y0), (x1, y1) = line
        size = self._size
        columns = range((min(x0, x1) - slack) // size, (max(x0, x1) + slack) // size + 1)
        return columns, range((min(y0, y1) - slack) // size, (max(y0, y1) + slack) // size + 1)

    def about(self, line: Line, slack: int) -> Iterable[Line]:
        """Lines in the squares that a line passes, in their order."""
        columns, rows = self._range(line, slack)
        if len(columns) * len(rows) > _MOST_SQUARES:
            return self._lines
        found = set(self._always)
        for column in columns:
            for row in rows:
                found.update(self._in.get((column, row), ()))
        return [self._lines[number] for number in sorted(found)]


def edges_of(*regions: Region) -> Edges:
    """List every edge of some regions, walked with the area on the left."""
    return Edges(
        (ring[i - 1], ring[i])
        for region in regions
        for ring in rings_of(region)
        for i in range(len(ring))
    )


def _axis(line: Line) -> int | None:
    """Axis that a line runs along: 0 left, 1 front, None oblique."""
    (x0, y0), (x1, y1) = line
    if y0 == y1:
        return 0
    return 1 if x0 == x1 else None


def length_of(line: Line) -> int:
    """Length of a line, rounded to 1/320 mm (exact along an axis)."""
    (x0, y0), (x1, y1) = line
    return abs(x1 - x0) + abs(y1 - y0) if x0 == x1 or y0 == y1 else round(hypot(x1 - x0, y1 - y0))


def point_at(line: Line, position: int) -> Point:
    """Point on a line at a distance from its start."""
    (x0, y0), (x1, y1) = line
    whole = length_of(line)
    return x0 + round((x1 - x0) * position / whole), y0 + round((y1 - y0) * position / whole)


def contact(line: Line, edges: Iterable[Line], slack_mm320: int = 0) -> tuple[Interval, ...]:
    """Find the stretches of a line that lie on some edges, walked either way.

    Parameters
    ----------
    line
        The line that is measured.
    edges
        What may lie on it.
    slack_mm320
        How far off the line an edge may lie and still count; an oblique line always has 2.
    """
    (x0, y0), (x1, y1) = line
    if isinstance(edges, Edges):
        edges = edges.near(line, slack_mm320)
    found: list[Interval] = []
    if x0 == x1 or y0 == y1:
        axis, across = (0, 1) if y0 == y1 else (1, 0)
        start, least = line[0][axis], line[0][across] - slack_mm320
        most = least + 2 * slack_mm320
        sign = 1 if line[1][axis] > start else -1
        length = length_of(line)
        for a, b in edges:
            if least <= a[across] <= most and least <= b[across] <= most:
                low, high = _ascending(sign * (a[axis] - start), sign * (b[axis] - start))
                if low < length and high > 0:
                    found.append((low, high))
    else:
        found = _oblique_contact(line, edges, max(slack_mm320, 2))
    if len(found) == 1:
        low, high = max(found[0][0], 0), min(found[0][1], length_of(line))
        return ((low, high),) if low < high else ()
    return combine_intervals(found, ((0, length_of(line)),), Keep.INTERSECTION) if found else ()


def _oblique_contact(line: Line, edges: Iterable[Line], slack: int) -> list[Interval]:
    (x0, y0), (x1, y1) = line
    length = hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    found = []
    for a, b in edges:
        ax, ay, bx, by = a[0] - x0, a[1] - y0, b[0] - x0, b[1] - y0
        if abs(ux * ay - uy * ax) <= slack and abs(ux * by - uy * bx) <= slack:
            found.append(_ascending(round(ux * ax + uy * ay), round(ux * bx + uy * by)))
    return found


def _ascending(one: int, other: int) -> Interval:
    return (one, other) if one <= other else (other, one)


def less(intervals: Sequence[Interval], *taken: Sequence[Interval]) -> tuple[Interval, ...]:
    """Take others from intervals."""
    return combine_intervals(intervals, [i for t in taken for i in t], Keep.DIFFERENCE)


def within(intervals: Sequence[Interval], others: Sequence[Interval]) -> tuple[Interval, ...]:
    """Keep what two sets of intervals have in common."""
    return combine_intervals(intervals, others, Keep.INTERSECTION)


def together(*sets: Sequence[Interval]) -> tuple[Interval, ...]:
    """Join everything that any of the sets covers."""
    return combine_intervals([i for s in sets for i in s], (), Keep.UNION)


def total(intervals: Iterable[Interval]) -> int:
    """Length of intervals that don't overlap."""
    return sum(high - low for low, high in intervals)


def shared_length(lines: Sequence[Line], edges: Sequence[Line], slack_mm320: int = 0) -> int:
    """Length of the lines that lies on the edges [1/320 mm]."""
    return sum(total(contact(line, edges, slack_mm320)) for line in lines)
