"""Cutting stock: lengths from as few stock lengths as can be found.

Longest first, and what is left of each stock length is filled as exactly as possible by subset
sums (a bitset).  Where that takes more than the lengths add up to, the emptiest stock length is
cut anew together with some others, again and again.
"""

import random
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import accumulate
from math import gcd
from typing import Final

GRID_MM320: Final = 5 * 320
"""Grid of the subset sums where lengths have no common measure; lengths are rounded up to it."""

_MOST_CELLS: Final = 40_000
_ATTEMPTS: Final = 100
_TOGETHER: Final = 5
_LOOSE: Final = 3
_NOISE: Final = (0.7, 1.3)


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
    cells = [-(-lengths[i] // cell) for i in fitting]
    chosen = {fitting[at] for at in _fill(cells, stock // cell)}
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
    cells = [-(-size // cell) for size in sizes]
    order = sorted(range(len(sizes)), key=lambda i: -sizes[i])
    plan = _in_order(order, sizes, cells, room, cell)
    if len(plan) > -(-sum(sizes) // room):
        plan = _with_fewer(plan, sizes, cells, room, cell)
    return plan


def _in_order(
    order: Sequence[int], sizes: Sequence[int], cells: Sequence[int], room: int, cell: int
) -> list[list[int]]:
    """Fill one stock length after the other, each begun with the first that is left."""
    waiting = list(order)
    plan = []
    while waiting:
        first = waiting.pop(0)
        left = room - sizes[first]
        cut = [first]
        for at in _fill([cells[i] for i in waiting], left // cell):
            cut.append(waiting.pop(at))
            left -= sizes[cut[-1]]
        if left >= cell:  # what the rounded cells did not see
            for i in [i for i in waiting if sizes[i] <= left]:
                if sizes[i] <= left:
                    cut.append(i)
                    waiting.remove(i)
                    left -= sizes[i]
        plan.append(sorted(cut, key=lambda i: -sizes[i]))
    return plan


def _with_fewer(
    plan: list[list[int]], sizes: Sequence[int], cells: Sequence[int], room: int, cell: int
) -> list[list[int]]:
    """Cut the emptiest stock length together with some others anew, to empty it altogether.

    A new cutting of them is kept where it is tighter: where the squares of what is used of each
    add up to more.  Chance is the same in every run.
    """
    chance = random.Random(len(sizes))  # noqa: S311 - a search, not a secret
    enough = -(-sum(sizes) // room)
    plan = list(plan)
    used = [sum(sizes[i] for i in cut) for cut in plan]
    for _ in range(_ATTEMPTS):
        if len(plan) <= max(enough, 1):
            break
        worst = min(range(len(plan)), key=used.__getitem__)
        loose = [n for n in range(len(plan)) if n != worst and used[n] < room]
        some = {worst, *chance.sample(loose, min(_LOOSE, len(loose)))}
        some.update(chance.sample(range(len(plan)), min(_TOGETHER, len(plan))))
        pieces = [i for n in some for i in plan[n]]
        pieces.sort(key=lambda i: -sizes[i] * chance.uniform(*_NOISE))
        tried = _in_order(pieces, sizes, cells, room, cell)
        filled = [sum(sizes[i] for i in cut) for cut in tried]
        before = sum(used[n] ** 2 for n in some)
        if len(tried) > len(some) or sum(f**2 for f in filled) <= before:
            continue
        for n in sorted(some, reverse=True):
            del plan[n], used[n]
        plan += tried
        used += filled
    return plan


def _fill(candidates: Sequence[int], room: int) -> list[int]:
    """Choose sizes that add up to as much of the room as can be, the first ones preferred.

    Returns their places, the last first.
    """
    reach = [1]
    tried: list[int] = []
    whole = (1 << (room + 1)) - 1
    goal = 1 << room
    now = 1
    for at, size in enumerate(candidates):
        if size > room:
            continue
        more = (now | now << size) & whole
        if more == now:
            continue
        now = more
        tried.append(at)
        reach.append(now)
        if now & goal:
            break
    top = now.bit_length() - 1
    chosen = []
    for n in range(len(tried) - 1, -1, -1):
        if not reach[n] >> top & 1:
            chosen.append(tried[n])
            top -= candidates[tried[n]]
    return chosen
