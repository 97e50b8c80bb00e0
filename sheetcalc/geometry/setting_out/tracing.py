"""Outlines of connected cells in a small block of slabs under one tile."""

from collections.abc import Sequence
from typing import TypeAlias

from sheetcalc.domain.room import Point, Ring

Cells: TypeAlias = Sequence[Sequence[bool]]
"""Whether each slab along x, and in it each along y, is under tile."""

_Cell = tuple[int, int]


def cells_outlines(
    us: Sequence[int], vs: Sequence[int], cells: Cells
) -> list[tuple[Ring, tuple[Ring, ...]]]:
    """Outer ring and holes of each connected part.

    Parameters
    ----------
    us, vs
        Borders of the cells along both axes.
    cells
        ``len(us) - 1`` lines of ``len(vs) - 1``.

    Returns
    -------
    list
        Shell (counter-clockwise) and holes (clockwise) of each part; parts that touch only at a
        corner are apart.
    """
    left = {(a, b) for a, line in enumerate(cells) for b, on in enumerate(line) if on}
    out = []
    while left:
        part = _connected(left)
        left -= part
        rings = _rings(part, us, vs)
        rings.sort(key=_doubled_area, reverse=True)
        out.append((rings[0], tuple(rings[1:])))
    return sorted(out)


def shortest_run(
    us: Sequence[int], vs: Sequence[int], cells: Cells, length: int, width: int
) -> int | None:
    """Shortest chord of a cut tile's parts that is shorter than the tile in its direction."""
    best: int | None = None
    for borders, lines, size in ((us, zip(*cells, strict=True), length), (vs, cells, width)):
        for line in lines:
            run = 0
            for k, on in enumerate([*line, False]):
                if on:
                    run += borders[k + 1] - borders[k]
                elif run:
                    if run < size and (best is None or run < best):
                        best = run
                    run = 0
    return best


def _connected(cells: set[_Cell]) -> set[_Cell]:
    start = min(cells)
    seen, todo = {start}, [start]
    while todo:
        a, b = todo.pop()
        for near in ((a + 1, b), (a - 1, b), (a, b + 1), (a, b - 1)):
            if near in cells and near not in seen:
                seen.add(near)
                todo.append(near)
    return seen


def _rings(part: set[_Cell], us: Sequence[int], vs: Sequence[int]) -> list[Ring]:
    """Chain the border edges of cells into rings, the part on the left."""
    onward: dict[_Cell, list[_Cell]] = {}
    for a, b in part:
        for beside, tail, head in (
            ((a, b - 1), (a, b), (a + 1, b)),
            ((a + 1, b), (a + 1, b), (a + 1, b + 1)),
            ((a, b + 1), (a + 1, b + 1), (a, b + 1)),
            ((a - 1, b), (a, b + 1), (a, b)),
        ):
            if beside not in part:
                onward.setdefault(tail, []).append(head)
    rings = []
    while onward:
        start = min(onward)
        ring = [start]
        here, way = start, None
        while True:
            heads = onward[here]
            # where two edges leave a corner, keep to the same cell: turn left
            if len(heads) > 1 and way is not None:
                left = (here[0] - way[1], here[1] + way[0])
                head = left if left in heads else heads[0]
            else:
                head = heads[0]
            heads.remove(head)
            if not heads:
                del onward[here]
            way = (head[0] - here[0], head[1] - here[1])
            here = head
            if here == start:
                break
            ring.append(here)
        rings.append(_straightened([(us[a], vs[b]) for a, b in ring]))
    return rings


def _straightened(ring: list[Point]) -> Ring:
    """Drop corners where nothing turns."""
    n = len(ring)
    return tuple(
        ring[i]
        for i in range(n)
        if not (
            ring[i - 1][0] == ring[i][0] == ring[(i + 1) % n][0]
            or ring[i - 1][1] == ring[i][1] == ring[(i + 1) % n][1]
        )
    )


def _doubled_area(ring: Ring) -> int:
    return sum(
        x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
