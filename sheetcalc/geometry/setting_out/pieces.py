"""The cut pieces of a lattice bond at one start, with their real shapes."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import compress, pairwise

import numpy as np
from msgspec import Struct

from sheetcalc.domain.room import Ring
from sheetcalc.domain.setting_out import CutPiece, CutShape
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.slabs import Slabs
from sheetcalc.geometry.setting_out.tape import whole_mm320
from sheetcalc.geometry.setting_out.tracing import Cells, cells_outlines, shortest_run


class Part(Struct, frozen=True):
    """One connected part of a cut tile, in the tile's own frame.

    Attributes
    ----------
    outline, openings
        Corners, counter-clockwise; straight-sided holes, clockwise.
    is_split
        Whether the tile falls into several such parts.
    holes
        Round holes drilled in it.
    """

    outline: Ring
    openings: tuple[Ring, ...] = ()
    is_split: bool = False
    holes: int = 0


class Span(Struct, frozen=True):
    """Tiles of one axis that lie alike over the slabs.

    Attributes
    ----------
    first, last
        Slabs touched.
    borders
        Where those slabs begin and end under the tile, in the tile's frame.
    full
        Whether the tile lies within the region's bounds on this axis.
    number
        How many tiles lie so, one a period.
    near
        Near edge of the first of them, in the region's frame.
    """

    first: int
    last: int
    borders: tuple[int, ...]
    full: bool
    number: int
    near: int


class Counted(Struct, frozen=True):
    """Every tile of a surface, sorted.

    Attributes
    ----------
    whole, cut, splits
        Tiles.
    parts
        Parts of cut tiles, in the lattice's units, with how often each occurs.
    shortest
        Shortest cut chord in the lattice's units; None where nothing is cut.
    covered
        Area under tile in squared units of the lattice.
    blocks
        Columns and rows whose tiles are whole.
    """

    whole: int
    cut: int
    splits: int
    parts: Counter[Part]
    shortest: int | None
    covered: int
    blocks: tuple[tuple[Span, Span], ...] = ()


def spans(marks: Sequence[int], tile: int, period: int, start: int) -> list[Span]:
    """Sort the tiles of one axis at one start: those across a border, then those within slabs.

    Parameters
    ----------
    marks
        Slab borders.
    tile, period, start
        Size of a tile, distance of near edges, one near edge.
    """
    places = [divmod(mark - start, period) for mark in marks]
    end = len(marks) - 1
    out = []
    before = None  # the tile across the border before
    for i, (index, rest) in enumerate(places):
        across = index if 0 < rest < tile else None
        if across is not None and across != before:
            near = start + index * period
            first, last = max(i - 1, 0), i
            while last < end and marks[last + 1] < near + tile:
                last += 1
            last = min(last, end - 1)
            borders = tuple([min(max(mark - near, 0), tile) for mark in marks[first : last + 2]])
            full = near >= marks[0] and near + tile <= marks[-1]
            out.append(Span(first, last, borders, full, 1, near))
        before = across
    for s in range(end):
        (index, rest), (after, beyond) = places[s], places[s + 1]
        low = index + (rest > 0)
        number = after + (beyond >= tile) - low
        if number > 0:
            out.append(Span(s, s, (0, tile), full=True, number=number, near=start + low * period))
    return out


def count_tiles(slabs: Slabs, lattice: Lattice, choice: Choice) -> Counted:
    """Sort every tile at the chosen start into whole and cut ones, and shape the cuts."""
    whole = cut = splits = covered = 0
    parts: Counter[Part] = Counter()
    whole_blocks = []
    shortest: int | None = None
    for column, row, cells in blocks(slabs, lattice, choice):
        number = column.number * row.number
        if cells is None:
            whole += number
            whole_blocks.append((column, row))
            covered += number * lattice.length * lattice.width
            continue
        cut += number
        made = parts_of(column, row, cells)
        splits += number * (len(made) > 1)
        for part in made:
            parts[part] += number
        run = shortest_run(column.borders, row.borders, cells, lattice.length, lattice.width)
        if run is not None:
            shortest = run if shortest is None else min(shortest, run)
        covered += number * _area(column.borders, row.borders, cells)
    return Counted(whole, cut, splits, parts, shortest, covered, tuple(whole_blocks))


def blocks(
    slabs: Slabs, lattice: Lattice, choice: Choice
) -> Iterator[tuple[Span, Span, Cells | None]]:
    """Every pair of alike columns and rows that lays tile; cells are None where it is whole."""
    p, q = slabs.occupied.shape
    table = np.zeros((p + 1, q + 1), dtype=np.int64)
    table[1:, 1:] = slabs.occupied.cumsum(axis=0).cumsum(axis=1)
    sums, occupied = table.tolist(), slabs.occupied.tolist()
    xs, ys = slabs.xs.tolist(), slabs.ys.tolist()
    for k in range(lattice.cycle):
        shift = lattice.row_shift(k, leftward=choice.leftward)
        columns = spans(xs, lattice.length, lattice.pitch, choice.x + shift)
        rows = spans(ys, lattice.width, lattice.rise * lattice.cycle, choice.y + k * lattice.rise)
        for column in columns:
            low, high = sums[column.first], sums[column.last + 1]
            wide = column.last - column.first + 1
            for row in rows:
                a, b = row.first, row.last + 1
                cells = high[b] - low[b] - high[a] + low[a]
                if cells == 0:
                    continue
                if cells == wide * (b - a) and column.full and row.full:
                    yield column, row, None
                else:
                    under = occupied[column.first : column.last + 1]
                    yield column, row, [line[a:b] for line in under]


def _area(us: Sequence[int], vs: Sequence[int], cells: Cells) -> int:
    """Area of the cells of one tile."""
    heights = [high - low for low, high in pairwise(vs)]
    return sum(
        (right - left) * sum(compress(heights, line))
        for (left, right), line in zip(pairwise(us), cells, strict=True)
    )


def parts_of(column: Span, row: Span, cells: Cells) -> list[Part]:
    """Shape the connected parts of one tile."""
    us, vs = column.borders, row.borders
    if all(map(all, cells)):
        u0, u1, v0, v1 = us[0], us[-1], vs[0], vs[-1]
        return [Part(((u0, v0), (u1, v0), (u1, v1), (u0, v1)))]
    outlines = cells_outlines(us, vs, cells)
    return [Part(shell, holes, len(outlines) > 1) for shell, holes in outlines]


def cut_list(parts: Counter[Part], length: int, width: int, scale: int) -> tuple[CutPiece, ...]:
    """Group parts that are alike after a half turn, in 1/320 mm, largest first.

    Parameters
    ----------
    parts
        In units of which ``scale`` make 1/320 mm.
    length, width
        Tile face, same units.
    """
    alike: Counter[Part] = Counter()
    for part, number in parts.items():
        alike[_upright(part, length, width)] += number
    pieces = []
    for part, number in alike.items():
        outline = _coarse(part.outline, scale)
        us, vs = [u for u, _ in outline], [v for _, v in outline]
        pieces.append(
            CutPiece(
                shape=_shape(part, length, width),
                length_mm320=max(us) - min(us),
                width_mm320=max(vs) - min(vs),
                outline=outline,
                count=number,
                holes=part.holes,
                factory_edges=_factory(part.outline, length, width),
                openings=tuple(_coarse(ring, scale) for ring in part.openings),
            )
        )
    order = list(CutShape)
    pieces.sort(key=lambda c: (order.index(c.shape), -c.length_mm320 * c.width_mm320, c.outline))
    return tuple(pieces)


def _shape(part: Part, length: int, width: int) -> CutShape:
    ring = part.outline
    if part.is_split:
        return CutShape.SPLIT
    if any(a[0] != b[0] and a[1] != b[1] for a, b in _sides(ring)):
        return CutShape.OBLIQUE
    if len(ring) > 4 or part.openings:  # noqa: PLR2004 - more corners than a rectangle
        return CutShape.NOTCHED
    us, vs = [u for u, _ in ring], [v for _, v in ring]
    cut_along, cut_across = max(us) - min(us) < length, max(vs) - min(vs) < width
    if cut_along and cut_across:
        return CutShape.CORNER
    if not cut_along and not cut_across:
        return CutShape.DRILLED
    return CutShape.STRAIGHT


def _sides(ring: Ring) -> Iterator[tuple[tuple[int, int], tuple[int, int]]]:
    return zip(ring, (*ring[1:], ring[0]), strict=True)


def _factory(ring: Ring, length: int, width: int) -> frozenset[str]:
    """Edges of the tile that the piece keeps, at least in part."""
    kept = set()
    for (au, av), (bu, bv) in _sides(ring):
        if au == bu == 0:
            kept.add("left")
        elif au == bu == length:
            kept.add("right")
        if av == bv == 0:
            kept.add("bottom")
        elif av == bv == width:
            kept.add("top")
    return frozenset(kept)


def _upright(part: Part, length: int, width: int) -> Part:
    """Pick one of the two ways round of a part, so that a half turn makes no difference."""
    rings = (part.outline, *part.openings)
    turned = [tuple([(length - u, width - v) for u, v in ring]) for ring in rings]
    outline, openings = min(
        (_from_lowest(shell), tuple(sorted(map(_from_lowest, holes))))
        for shell, *holes in (rings, turned)
    )
    return Part(outline, openings, part.is_split, part.holes)


def _from_lowest(ring: Ring) -> Ring:
    at = ring.index(min(ring))
    return ring[at:] + ring[:at]


def _coarse(ring: Ring, scale: int) -> Ring:
    """Round to whole 1/320 mm, halves away from the piece: what it measures is rounded up."""
    left, low = (min(values) for values in zip(*ring, strict=True))

    def rounded(value: int, first: int) -> int:
        return -whole_mm320(-value, scale) if value == first else whole_mm320(value, scale)

    return tuple((rounded(u, left), rounded(v, low)) for u, v in ring)
