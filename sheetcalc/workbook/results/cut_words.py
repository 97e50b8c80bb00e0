"""What is cut out of a piece, in words for the person at the saw."""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise

from sheetcalc.domain.measure import Unit
from sheetcalc.domain.room import Point
from sheetcalc.domain.setting_out import CutPiece
from sheetcalc.units import show_tape

_Box = tuple[int, int, int, int]
_Cell = tuple[int, int]

_MOST_CORNERS = 12


def cut_out_words(piece: CutPiece, unit: Unit) -> str:
    """Say what is missing from the rectangle round a piece; "" where nothing is.

    Rectangles are named by size and place; anything else by its corners.  Measured from the left
    bottom corner of the rectangle, the tile's length running from left to right.

    Parameters
    ----------
    piece
        From a cut list.
    unit
        The Job's unit of small lengths.
    """
    if not piece.outline:
        return ""
    if _is_whole_rectangle(piece):
        return ""  # most pieces are
    left, bottom = min(u for u, _ in piece.outline), min(v for _, v in piece.outline)
    rings = [[(u - left, v - bottom) for u, v in r] for r in (piece.outline, *piece.openings)]
    size = piece.length_mm320, piece.width_mm320
    if any(a[0] != b[0] and a[1] != b[1] for ring in rings for a, b in _sides(ring)):
        return _corners(rings[0], unit)
    boxes = list(_missing(rings, size))
    if any(box is None for box in boxes):
        return _corners(rings[0], unit)
    return "; ".join(_box_words(box, size, unit) for box in boxes if box)


def _is_whole_rectangle(piece: CutPiece) -> bool:
    left, bottom = min(piece.outline)
    right, top = left + piece.length_mm320, bottom + piece.width_mm320
    corners = {(left, bottom), (right, bottom), (right, top), (left, top)}
    return not piece.openings and corners == set(piece.outline)


def _sides(ring: Iterable[Point]) -> Iterator[tuple[Point, Point]]:
    points = list(ring)
    return zip(points, points[1:] + points[:1], strict=True)


def _corners(ring: Sequence[Point], unit: Unit) -> str:
    if len(ring) > _MOST_CORNERS:
        return f"{len(ring)} corners: see the room card"
    words = ", ".join(f"{_bare(u, unit)} / {_bare(v, unit)}" for u, v in ring)
    return f"corners at {words}"


def _bare(length_mm320: int, unit: Unit) -> str:
    return show_tape(length_mm320, unit).removesuffix(" mm")


def _box_words(box: _Box, size: Point, unit: Unit) -> str:
    left, bottom, right, top = box
    what = f"{_bare(right - left, unit)} x {_bare(top - bottom, unit)}"
    beside = "left" if left == 0 else "right" if right == size[0] else ""
    above = "bottom" if bottom == 0 else "top" if top == size[1] else ""
    if beside and above:
        return f"{what} at the {beside} {above}"
    if above:
        return f"{what} from the {above}, {_bare(left, unit)} from the left"
    if beside:
        return f"{what} from the {beside}, {_bare(bottom, unit)} from the bottom"
    return (
        f"a hole of {what}, {_bare(left, unit)} from the left, {_bare(bottom, unit)} from the "
        "bottom"
    )


def _missing(rings: list[list[Point]], size: Point) -> Iterator[_Box | None]:
    """Parts of the rectangle that the piece lacks; None for one that is no rectangle."""
    us = sorted({0, size[0], *(u for ring in rings for u, _ in ring)})
    vs = sorted({0, size[1], *(v for ring in rings for _, v in ring)})
    left = {
        (i, j)
        for i, (a, b) in enumerate(pairwise(us))
        for j, (c, d) in enumerate(pairwise(vs))
        if not _inside((a + b) / 2, (c + d) / 2, rings)
    }
    while left:
        part = _connected(left)
        left -= part
        columns, rows = {i for i, _ in part}, {j for _, j in part}
        whole = len(part) == len(columns) * len(rows)
        box = us[min(columns)], vs[min(rows)], us[max(columns) + 1], vs[max(rows) + 1]
        yield box if whole else None


def _connected(cells: set[_Cell]) -> set[_Cell]:
    start = min(cells)
    seen, todo = {start}, [start]
    while todo:
        i, j = todo.pop()
        for near in ((i + 1, j), (i - 1, j), (i, j + 1), (i, j - 1)):
            if near in cells and near not in seen:
                seen.add(near)
                todo.append(near)
    return seen


def _inside(u: float, v: float, rings: Iterable[Iterable[Point]]) -> bool:
    """Whether a point lies within a ring and outside its holes (even-odd)."""
    crossings = 0
    for ring in rings:
        for (au, av), (bu, bv) in _sides(ring):
            if (av > v) != (bv > v) and au + (bu - au) * (v - av) / (bv - av) > u:
                crossings += 1
    return crossings % 2 == 1


def edges_kept(piece: CutPiece) -> str:
    """Name the tile's edges that a piece keeps, at least in part; from the left round."""
    return _in_order(piece.factory_edges)


@cache
def _in_order(edges: frozenset[str]) -> str:
    return ", ".join(e for e in ("left", "bottom", "right", "top") if e in edges)
