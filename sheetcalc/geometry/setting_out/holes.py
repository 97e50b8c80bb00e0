"""Round holes: which tiles are drilled, and how thin a neck a hole leaves."""

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.room import Circle
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.pieces import Part, Span, parts_of
from sheetcalc.geometry.setting_out.slabs import Ints, Slabs


class Drilled(Struct, frozen=True):
    """Tiles with round holes.

    Attributes
    ----------
    tiles
        How many tiles are drilled or cut round.
    parts
        The cut list with those tiles moved into groups of their own.
    neck
        Thinnest strip of tile left between a hole and an edge; None where there is none.
    """

    tiles: int
    parts: Counter[Part]
    neck: float | None


def drill(
    slabs: Slabs,
    lattice: Lattice,
    choice: Choice,
    circles: Sequence[Circle],
    parts: Counter[Part],
) -> Drilled:
    """Find the tiles that round holes meet.

    Parameters
    ----------
    slabs, lattice, choice
        The setting-out, in the lattice's units.
    circles
        In the same frame [1/320 mm].
    parts
        Cut list without holes.

    Returns
    -------
    Drilled
    """
    met: dict[tuple[int, int], list[Circle]] = {}
    for circle in circles:
        for near in _tiles_met(lattice, choice, circle):
            met.setdefault(near, []).append(circle)
    out = Counter(parts)
    tiles = 0
    necks = []
    for (x, y), holes in met.items():
        column = span_at(slabs.xs, lattice.length, x)
        row = span_at(slabs.ys, lattice.width, y)
        if column is None or row is None:
            continue
        under = slabs.occupied[column.first : column.last + 1, row.first : row.last + 1]
        cells = under.tolist()
        if not under.any():
            continue
        tiles += 1
        for part in parts_of(column, row, cells):
            own = [h for h in holes if _meets_box(part, h, x, y, lattice.scale)]
            if not own:
                continue
            if out[part] > 0:
                out[part] -= 1
            out[replace(part, holes=len(own))] += 1
            necks += [n for h in own if (n := _neck(part, h, x, y, lattice.scale)) is not None]
    return Drilled(tiles, +out, min(necks, default=None))


def span_at(edges: Ints, tile: int, near: int) -> Span | None:
    """Slabs under one tile whose near edge is given; None where it misses them all."""
    marks = edges.tolist()
    under = [s for s in range(len(marks) - 1) if marks[s] < near + tile and marks[s + 1] > near]
    if not under:
        return None
    first, last = under[0], under[-1]
    borders = tuple(min(max(mark - near, 0), tile) for mark in marks[first : last + 2])
    return Span(first, last, borders, near >= marks[0] and near + tile <= marks[-1], 1, near)


def _tiles_met(lattice: Lattice, choice: Choice, circle: Circle) -> Iterator[tuple[int, int]]:
    """Near corners of the tiles that a circle overlaps."""
    scale = lattice.scale
    cx, cy = circle.centre[0] * scale, circle.centre[1] * scale
    radius = circle.diameter_mm320 * scale / 2
    low = int(np.floor((cy - radius - choice.y - lattice.width) / lattice.rise))
    high = int(np.ceil((cy + radius - choice.y) / lattice.rise))
    for r in range(low, high + 1):
        y = choice.y + r * lattice.rise
        start = choice.x + lattice.row_shift(r, leftward=choice.leftward)
        first = int(np.floor((cx - radius - start - lattice.length) / lattice.pitch))
        last = int(np.ceil((cx + radius - start) / lattice.pitch))
        for c in range(first, last + 1):
            x = start + c * lattice.pitch
            dx = max(x - cx, 0, cx - x - lattice.length)
            dy = max(y - cy, 0, cy - y - lattice.width)
            if dx * dx + dy * dy < radius * radius:
                yield x, y


def _box(part: Part) -> tuple[int, int, int, int]:
    us, vs = [u for u, _ in part.outline], [v for _, v in part.outline]
    return min(us), min(vs), max(us), max(vs)


def _meets_box(part: Part, circle: Circle, x: int, y: int, scale: int) -> bool:
    u, v = circle.centre[0] * scale - x, circle.centre[1] * scale - y
    left, low, right, high = _box(part)
    radius = circle.diameter_mm320 * scale / 2
    du, dv = max(left - u, 0, u - right), max(low - v, 0, v - high)
    return bool(du * du + dv * dv < radius * radius)


def _neck(part: Part, circle: Circle, x: int, y: int, scale: int) -> float | None:
    """Least distance from the hole to an edge that it does not break through."""
    u, v = circle.centre[0] * scale - x, circle.centre[1] * scale - y
    left, low, right, high = _box(part)
    radius = circle.diameter_mm320 * scale / 2
    gaps = [g - radius for g in (u - left, right - u, v - low, high - v)]
    return min((g for g in gaps if g > 0), default=None)
