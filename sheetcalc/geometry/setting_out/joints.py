"""Joints of a lattice bond at one start: length between neighbours, and crossings."""

from collections.abc import Sequence

from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.pieces import Span, spans
from sheetcalc.geometry.setting_out.slabs import Slabs

_Cells = list[list[bool]]


def joint_lengths(slabs: Slabs, lattice: Lattice, choice: Choice) -> tuple[float, int]:
    """Length of tile edges with a neighbour, each joint once, and number of crossings.

    In a grid four tiles meet at a crossing; in a 1/n bond each upright joint ends in one at
    either end.  A joint is taken as a strip that reaches one unit into the tiles on either side:
    only where the region holds both sides is it a joint.

    Returns
    -------
    tuple
        Length in the lattice's units; crossings.
    """
    xs, ys = slabs.xs.tolist(), slabs.ys.tolist()
    cells: _Cells = slabs.occupied.tolist()
    turned: _Cells = slabs.occupied.T.tolist()
    cycle, period = lattice.cycle, lattice.rise * lattice.cycle
    columns, ups = [], []
    for k in range(cycle):
        start = choice.x + lattice.row_shift(k, leftward=choice.leftward)
        columns.append(_covered(xs, spans(xs, lattice.length, lattice.pitch, start)))
        joint = lattice.pitch - lattice.length
        ups.append(spans(xs, joint + 2, lattice.pitch, start + lattice.length - 1))
    length = 0.0
    crossings = 0
    for k in range(cycle):
        start = choice.y + k * lattice.rise
        rows = _covered(ys, spans(ys, lattice.width, period, start))
        joint = lattice.rise - lattice.width
        across = spans(ys, joint + 2, period, start + lattice.width - 1)
        above = (k + 1) % cycle
        length += _along(ups[k], cells, rows)
        length += _along(across, turned, columns[k]) / 2
        length += _along(across, turned, columns[above]) / 2
        crossings += _meetings(ups[k], across, cells)
        if cycle > 1:
            crossings += _meetings(ups[above], across, cells)
    return length, crossings


def _covered(marks: Sequence[int], tiles: Sequence[Span]) -> list[int]:
    """Length of each slab under tile."""
    out = [0] * (len(marks) - 1)
    for span in tiles:
        for s in range(span.first, span.last + 1):
            at = s - span.first
            out[s] += span.number * (span.borders[at + 1] - span.borders[at])
    return out


def _along(strips: Sequence[Span], cells: _Cells, covered: Sequence[int]) -> int:
    """Length of joints beside tiles: strips that the region holds on both sides."""
    total = 0
    for strip in strips:
        if not strip.full:
            continue
        slabs = cells[strip.first : strip.last + 1]
        held = zip(*slabs, strict=True) if len(slabs) > 1 else ((c,) for c in slabs[0])
        total += strip.number * sum(
            size for size, both in zip(covered, held, strict=True) if all(both)
        )
    return total


def _meetings(ups: Sequence[Span], across: Sequence[Span], cells: _Cells) -> int:
    """Count places where an upright strip and a level strip meet within the region."""
    total = 0
    for strip in across:
        for up in ups:
            if (
                strip.full
                and up.full
                and all(
                    all(column[strip.first : strip.last + 1])
                    for column in cells[up.first : up.last + 1]
                )
            ):
                total += strip.number * up.number
    return total
