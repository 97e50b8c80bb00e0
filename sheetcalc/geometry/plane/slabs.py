"""Rectilinear areas as slabs: exact whole-number algebra without a geometry library.

A slab is a stretch of the left axis on which the area has the same front intervals throughout.
A rectilinear area is a list of slabs, ascending and disjoint.  Everything is whole 1/320 mm, so
unions and differences are exact; cost grows with corners, not with size.
"""

from bisect import bisect_left, insort
from collections.abc import Iterable, Sequence
from enum import Enum
from itertools import pairwise
from typing import TypeAlias

from sheetcalc.domain.room import Point, Ring

Interval: TypeAlias = tuple[int, int]
Slab: TypeAlias = tuple[int, int, tuple[Interval, ...]]


class Keep(Enum):
    """Which part of two overlaid areas is kept."""

    UNION = "union"
    DIFFERENCE = "difference"
    INTERSECTION = "intersection"


def rings_to_slabs(rings: Iterable[Ring]) -> list[Slab]:
    """Slabs of an area given by its rings (shells and holes alike, every edge axis-parallel)."""
    opening: dict[int, list[int]] = {}
    closing: dict[int, list[int]] = {}
    for ring in rings:
        previous_x, previous_y = ring[-1]
        for x, y in ring:
            if y == previous_y and x != previous_x:
                low, high = (x, previous_x) if x < previous_x else (previous_x, x)
                opening.setdefault(low, []).append(y)
                closing.setdefault(high, []).append(y)
            previous_x, previous_y = x, y
    lefts = sorted(opening.keys() | closing.keys())
    active: list[int] = []
    slabs: list[Slab] = []
    for left, right in pairwise(lefts):
        for y in closing.get(left, ()):
            del active[bisect_left(active, y)]
        for y in opening.get(left, ()):
            insort(active, y)
        if active:
            slabs.append((left, right, tuple(zip(active[::2], active[1::2], strict=True))))
    return slabs


def overlay(first: Sequence[Slab], second: Sequence[Slab], keep: Keep = Keep.UNION) -> list[Slab]:
    """Overlay two lists of slabs; the slabs within one list may overlap each other.

    ``first`` is what is kept or cut, ``second`` what is added, taken away or kept within.
    """
    lefts = sorted({x for slab in (*first, *second) for x in slab[:2]})
    place = {x: i for i, x in enumerate(lefts)}
    columns_1: list[list[Interval]] = [[] for _ in lefts]
    columns_2: list[list[Interval]] = [[] for _ in lefts]
    for slabs, columns in ((first, columns_1), (second, columns_2)):
        for left, right, intervals in slabs:
            for i in range(place[left], place[right]):
                columns[i].extend(intervals)
    result: list[Slab] = []
    for i, left in enumerate(lefts[:-1]):
        intervals = combine_intervals(columns_1[i], columns_2[i], keep)
        if not intervals:
            continue
        if result and result[-1][1] == left and result[-1][2] == intervals:
            result[-1] = (result[-1][0], lefts[i + 1], intervals)
        else:
            result.append((left, lefts[i + 1], intervals))
    return result


def combine_intervals(
    first: Sequence[Interval], second: Sequence[Interval], keep: Keep
) -> tuple[Interval, ...]:
    """Combine two sets of intervals of one axis; results are ascending, apart, and not empty."""
    if not second:
        if keep is Keep.INTERSECTION:
            return ()
        if len(first) <= 1:
            return tuple(i for i in first if i[0] < i[1])
    elif not first and keep is not Keep.UNION:
        return ()
    elif len(first) == len(second) == 1 and keep is not Keep.UNION:
        return _of_two(first[0], second[0], keep)
    return _sweep(first, second, keep)


def _of_two(first: Interval, second: Interval, keep: Keep) -> tuple[Interval, ...]:
    """Give what an interval has in common with another, or what the other leaves of it."""
    (low, high), (begin, end) = first, second
    if begin >= end:  # it covers nothing
        begin = end = high
    kept = (
        ((max(low, begin), min(high, end)),)
        if keep is Keep.INTERSECTION
        else ((low, min(high, begin)), (max(low, end), high))
    )
    return tuple([interval for interval in kept if interval[0] < interval[1]])


def _sweep(
    first: Sequence[Interval], second: Sequence[Interval], keep: Keep
) -> tuple[Interval, ...]:
    """Pass along the axis, counting how many of either set are open."""
    events = [event for low, high in first for event in ((low, 1, 0), (high, -1, 0))]
    events += [event for low, high in second for event in ((low, 0, 1), (high, 0, -1))]
    events.sort()
    result: list[Interval] = []
    in_first = in_second = begun = 0
    inside = False
    for i, (at, d_first, d_second) in enumerate(events):
        in_first += d_first
        in_second += d_second
        if i + 1 < len(events) and events[i + 1][0] == at:
            continue
        if keep is Keep.UNION:
            now = in_first > 0 or in_second > 0
        elif keep is Keep.DIFFERENCE:
            now = in_first > 0 and in_second == 0
        else:
            now = in_first > 0 and in_second > 0
        if now and not inside:
            begun = at
        elif inside and not now:
            result.append((begun, at))
        inside = now
    return tuple(result)


def slabs_to_rings(slabs: Sequence[Slab]) -> list[Ring]:
    """Draw simple rings round the slabs, the area always on the left of the walk.

    Shells come out counter-clockwise and holes clockwise; areas that only touch in a point come
    out as rings of their own.
    """
    onward: dict[Point, list[Point]] = {}
    _add_fronts(slabs, onward)
    _add_sides(slabs, onward)
    rings: list[Ring] = []
    for start in sorted(onward):
        while onward[start]:
            rings.extend(_simple_rings(_walk(start, onward)))
    return rings


def _add_fronts(slabs: Sequence[Slab], onward: dict[Point, list[Point]]) -> None:
    """Add the edges along the left axis: bottoms to the right, tops back."""
    for left, right, intervals in slabs:
        for low, high in intervals:
            onward.setdefault((left, low), []).append((right, low))
            onward.setdefault((right, high), []).append((left, high))


def _add_sides(slabs: Sequence[Slab], onward: dict[Point, list[Point]]) -> None:
    """Add the edges along the front axis, where neighbouring slabs differ."""
    ending = {slab[1]: slab[2] for slab in slabs}
    starting = {slab[0]: slab[2] for slab in slabs}
    for x in ending.keys() | starting.keys():
        before, after = ending.get(x, ()), starting.get(x, ())
        if before == after:
            continue
        for low, high in combine_intervals(before, after, Keep.DIFFERENCE):
            onward.setdefault((x, low), []).append((x, high))
        for low, high in combine_intervals(after, before, Keep.DIFFERENCE):
            onward.setdefault((x, high), []).append((x, low))


def _walk(start: Point, onward: dict[Point, list[Point]]) -> list[Point]:
    """Walk one ring and use up its edges, turning left where two ways lead on."""
    ring = [start]
    here, ahead = start, onward[start].pop()
    while ahead != start:
        ring.append(ahead)
        ways = onward[ahead]
        way = 0
        if len(ways) > 1:
            dx, dy = ahead[0] - here[0], ahead[1] - here[1]
            turns = [dx * (y - ahead[1]) - dy * (x - ahead[0]) for x, y in ways]
            way = turns.index(max(turns))
        here, ahead = ahead, ways.pop(way)
    return ring


def _simple_rings(walk: list[Point]) -> list[Ring]:
    """Split a walk that passes a point twice into simple rings; drop corners that are none."""
    if len(set(walk)) == len(walk):
        return [without_straight_corners(walk)]
    rings: list[Ring] = []
    path: list[Point] = []
    seen: dict[Point, int] = {}
    for point in walk:
        if point in seen:
            loop = path[seen[point] :]
            for passed in loop[1:]:
                del seen[passed]
            del path[seen[point] + 1 :]
            rings.append(without_straight_corners(loop))
        else:
            seen[point] = len(path)
            path.append(point)
    rings.append(without_straight_corners(path))
    return [ring for ring in rings if ring]


def without_straight_corners(points: Sequence[Point]) -> Ring:
    """Ring without corners at which it goes straight on, begun at its smallest corner."""
    count = len(points)
    corners = []
    for i, (x, y) in enumerate(points):
        x0, y0 = points[i - 1]
        x1, y1 = points[(i + 1) % count]
        if (x - x0) * (y1 - y) != (y - y0) * (x1 - x):
            corners.append((x, y))
    if not corners:
        return ()
    first = corners.index(min(corners))
    return tuple(corners[first:] + corners[:first])
