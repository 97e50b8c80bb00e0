"""Cutting stock: lengths from as few stock lengths as can be found.

Longest first, and what is left of each stock length is filled as exactly as possible by subset
sums (a bitset).
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import gcd
from typing import Final

GRID_MM320: Final = 5 * 320
"""Grid of the subset sums where lengths have no common measure; lengths are rounded up to it."""

_MOST_CELLS: Final = 40_000


def pack_stock(
    lengths: Sequence[int], stock: int, kerf: int = 0, grid: int = GRID_MM320
) -> list[list[int]]:
    """Plan the cutting of lengths from equal stock lengths.

    Parameters
    ----------
    lengths
        Wanted lengths, in the unit of ``stock`` (1/320 mm in this project).
    stock
        Length of one piece of stock.
    kerf
        Lost with every cut; none after a last piece that ends at the stock's end.
    grid
        Grid of the subset sums, used only where a common measure of all lengths is finer than
        about 1/40,000 of the stock.

    Returns
    -------
    list[list[int]]
        For each stock length, the indices of what is cut from it, longest first.

    Raises
    ------
    ValueError
        If a length is not positive, or longer than the stock.
    """
    if not lengths:
        return []
    if min(lengths) <= 0 or max(lengths) > stock:
        message = f"lengths from {min(lengths)} to {max(lengths)} can't be cut from {stock}"
        raise ValueError(message)
    sizes = [length + kerf for length in lengths]
    room = stock + kerf
    return _longest_first(sizes, room, grid)


def fill_stock(lengths: Sequence[int], stock: int, grid: int = GRID_MM320) -> list[int]:
    """Choose lengths that use up one piece of stock as far as can be; indices, longest first."""
    fitting = sorted((i for i, size in enumerate(lengths) if size <= stock),
                     key=lambda i: -lengths[i])  # fmt: skip
    if not fitting:
        return []
    cell = _cell([lengths[i] for i in fitting], stock, grid)
    cells = [-(-size // cell) for size in lengths]
    chosen = set(_fill(fitting, cells, stock // cell))
    left = stock - sum(lengths[i] for i in chosen)
    for i in fitting:  # what the rounded cells did not see
        if i not in chosen and lengths[i] <= left:
            chosen.add(i)
            left -= lengths[i]
    return [i for i in fitting if i in chosen]


def least_stock(sizes: Sequence[int], room: int) -> int:
    """Lower bound: by total length, and by pieces too long to share (Martello and Toth's L2).

    The second bound is from memory, not verified; it is checked in the tests against solved cases.
    """
    best = -(-sum(sizes) // room)
    ordered = sorted(sizes)
    sums = [0, *accumulate(ordered)]
    half = bisect_right(ordered, room // 2)  # from here on two do not fit
    for small in {0, *ordered[:half]}:
        alone = bisect_right(ordered, room - small)  # from here on none fits beside them
        first = bisect_left(ordered, small)
        large = sums[alone] - sums[half]
        gaps = (alone - half) * room - large
        rest = sums[half] - sums[first] - gaps
        best = max(best, len(ordered) - half + max(0, -(-rest // room)))
    return best


def _cell(sizes: Sequence[int], room: int, grid: int) -> int:
    """Cell of the bitset: the common measure of all sizes, or the grid where that is too fine."""
    measure = gcd(room, *sizes)
    return measure if room // measure <= _MOST_CELLS else max(grid, room // _MOST_CELLS)


def _longest_first(sizes: Sequence[int], room: int, grid: int) -> list[list[int]]:
    """Open a stock length for the longest that is left, and fill the rest by subset sums."""
    cell = _cell(sizes, room, grid)
    waiting = sorted(range(len(sizes)), key=lambda i: -sizes[i])
    cells = [-(-size // cell) for size in sizes]
    plan = []
    while waiting:
        first, rest = waiting[0], waiting[1:]
        taken = _fill(rest, cells, (room - sizes[first]) // cell)
        chosen = {first, *taken}
        left = room - sum(sizes[i] for i in chosen)
        for i in rest:  # what the rounded cells did not see
            if sizes[i] <= left and i not in chosen:
                chosen.add(i)
                left -= sizes[i]
        plan.append([i for i in waiting if i in chosen])
        waiting = [i for i in waiting if i not in chosen]
    return plan


def _fill(candidates: Sequence[int], cells: Sequence[int], room: int) -> list[int]:
    """Choose candidates whose cells add up to as much of the room as can be, longest preferred."""
    reach = [1]
    tried: list[int] = []
    whole = (1 << (room + 1)) - 1
    goal = 1 << room
    for i in candidates:
        if cells[i] > room:
            continue
        now = (reach[-1] | reach[-1] << cells[i]) & whole
        if now == reach[-1]:
            continue
        tried.append(i)
        reach.append(now)
        if now & goal:
            break
    at = reach[-1].bit_length() - 1
    chosen = []
    for i, (before, _) in zip(reversed(tried), reversed(list(pairwise(reach))), strict=True):
        if not before >> at & 1:
            chosen.append(i)
            at -= cells[i]
    return chosen
