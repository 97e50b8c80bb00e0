"""Shortest chord of a cut piece of any straight-sided shape."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

from sheetcalc.domain.room import Point, Ring

_TIP = 320.0
"""A chord shorter than 1 mm is the tip of a pointed piece, not its size [1/320 mm]."""

_TENTH = 32


def shortest_chords(
    outline: Ring, openings: Sequence[Ring], length: float, width: float
) -> tuple[float | None, float | None]:
    """Shortest unbroken chords along and across the tile that are shorter than the tile.

    Between two corners a chord grows or shrinks evenly, so the shortest is at a corner.  Towards
    the tip of a pointed piece chords shrink to nothing whatever its size: there the mean of the
    stretch counts.

    Parameters
    ----------
    outline, openings
        Of the piece, in the tile's frame [1/320 mm].
    length, width
        The tile's sides [1/320 mm].

    Returns
    -------
    tuple
        Along the tile's length, and across it, in 1/320 mm; None where no chord that way is
        shorter than the tile.
    """
    rings = (outline, *openings)
    along = min((c for c in _chords(rings, 1) if c < length - _TENTH), default=None)
    across = min((c for c in _chords(rings, 0) if c < width - _TENTH), default=None)
    return along, across


def _chords(rings: Sequence[Ring], axis: int) -> Iterator[float]:
    """Shortest chords at constant coordinate of an axis, stretch by stretch."""
    marks = sorted({point[axis] for ring in rings for point in ring})
    places = {mark: at for at, mark in enumerate(marks)}
    crossing: list[list[_Edge]] = [[] for _ in marks]
    for ring in rings:
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True):
            low, high = sorted((places[a[axis]], places[b[axis]]))
            for stretch in crossing[low:high]:
                stretch.append((a, b))
    for (low, high), edges in zip(pairwise(marks), crossing, strict=False):
        if high - low < _TIP:
            continue
        near = _at(edges, axis, low + (high - low) / 4)
        far = _at(edges, axis, high - (high - low) / 4)
        for one, two in zip(near, far, strict=True):
            ends = (one - (two - one) / 2, two + (two - one) / 2)
            yield min(ends) if min(ends) >= _TIP else (one + two) / 2


_Edge: TypeAlias = tuple[Point, Point]


def _at(edges: Sequence[_Edge], axis: int, at: float) -> list[float]:
    """Lengths of the unbroken chords at one coordinate that all of some edges cross, in order."""
    crossings = crossings_at(edges, axis, at)
    return [second - first for first, second in zip(crossings[::2], crossings[1::2], strict=True)]


def crossings_at(edges: Iterable[_Edge], axis: int, at: float) -> list[float]:
    """Places, in order, where edges cross the line at one coordinate of an axis; all of them do.

    Parameters
    ----------
    edges
        None of them along the line.
    axis
        0 for an upright line (the coordinate is left), 1 for a level one.
    at
        The coordinate, in the unit of the edges.
    """
    across = 1 - axis
    return sorted(
        a[across] + (b[across] - a[across]) * (at - a[axis]) / (b[axis] - a[axis]) for a, b in edges
    )
