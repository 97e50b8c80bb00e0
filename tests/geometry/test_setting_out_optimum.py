"""The best start against brute force at every millimetre, with measures of its own."""

import random
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from tiling_cases import MM, NO_GAP, dice_of, laid, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Patch, Region, Surface
from sheetcalc.geometry.setting_out.aims import Aim, aims_of
from sheetcalc.geometry.setting_out.request import lattice_of, request
from sheetcalc.geometry.setting_out.search import best_start
from sheetcalc.geometry.setting_out.slabs import slabs_of

Cells = np.ndarray


def invented_cells(rng: random.Random) -> Cells:
    """A small room as millimetre cells, with niches and piers."""
    cells = np.ones((rng.randint(60, 200), rng.randint(60, 160)), dtype=bool)
    p, q = cells.shape
    for _ in range(rng.choice([0, 1, 2, 3])):
        a, b = rng.randint(0, p - 10), rng.randint(0, q - 10)
        if rng.random() < 0.5:
            a = 0
        cells[a : a + rng.randint(5, p // 2), b : b + rng.randint(5, q // 2)] = False
    xs, ys = np.flatnonzero(cells.any(axis=1)), np.flatnonzero(cells.any(axis=0))
    return cells[xs[0] : xs[-1] + 1, ys[0] : ys[-1] + 1]


def region_of(cells: Cells) -> Region:
    """Rectangles side by side: touching patches are one region."""
    changes = (cells[1:] != cells[:-1]).any(axis=1)
    marks = [0, *(int(k) + 1 for k in np.flatnonzero(changes)), len(cells)]
    patches = []
    for left, right in pairwise(marks):
        column = cells[left].astype(int)
        ends = np.flatnonzero(np.diff(np.concatenate([[0], column, [0]])))
        for low, high in zip(ends[::2], ends[1::2], strict=True):
            a, b, c, d = (int(v) * MM for v in (left, low, right, high))
            patches.append(Patch(((a, b), (c, b), (c, d), (a, d))))
    return Region(tuple(patches))


def shortest_run(block: Cells) -> int:
    """Length of the shortest unbroken run along the first axis."""
    if block.all():
        return len(block)
    padded = np.zeros((block.shape[0] + 2, block.shape[1]), dtype=int)
    padded[1:-1] = block
    step = np.diff(padded, axis=0).T
    return int((np.argwhere(step == -1)[:, 1] - np.argwhere(step == 1)[:, 1]).min())


class Brute:
    """Lays tile by tile on millimetre cells."""

    def __init__(self, cells: Cells, face: tuple[int, int], joint: int, steps: Sequence[int],
                 parts: int) -> None:  # fmt: skip
        self.cells, (self.long, self.wide), self.joint = cells, face, joint
        self.steps, self.parts = steps, parts

    def measure(self, ox: int, oy: int) -> dict[Aim, float]:
        """Every aim at one start."""
        p, q = self.cells.shape
        pitch, rise = self.long + self.joint, self.wide + self.joint
        short, small, cut, laid_ = 0.0, 0, 0, 0
        first = -(self.wide + oy) // rise - 1
        for row in range(first, (q - oy) // rise + 2):
            y = oy + row * rise
            start = ox + self.steps[row % len(self.steps)] * pitch // self.parts
            for column in range(-(self.long + start) // pitch - 1, (p - start) // pitch + 2):
                x = start + column * pitch
                block = self.cells[max(x, 0) : max(x + self.long, 0),
                                   max(y, 0) : max(y + self.wide, 0)]  # fmt: skip
                if not block.any():
                    continue
                laid_ += 1
                if block.shape == (self.long, self.wide) and block.all():
                    continue
                cut += 1
                along = shortest_run(block) / self.long
                across = shortest_run(block.T) / self.wide
                short = max(short, 0.5 - along, 0.5 - across)
                small += min(along, across) < 0.5
        return {
            Aim.NO_SLIVER: round(short, 9),
            Aim.FEWEST_SMALL: small,
            Aim.BALANCE: self._balance(ox, oy),
            Aim.FEWEST_CUTS: cut,
            Aim.FEWEST_TILES: laid_,
        }

    def _balance(self, ox: int, oy: int) -> float:
        pitch, rise = self.long + self.joint, self.wide + self.joint
        ends = [
            outer(self.cells.shape[0], ox + s * pitch // self.parts, self.long, pitch)
            for s in self.steps
        ]
        firsts, lasts = (sorted(e[k] for e in ends) for k in (0, 1))
        sides = outer(self.cells.shape[1], oy, self.wide, rise)
        worst = max(abs(a - b) for a, b in zip(firsts, lasts, strict=True))
        return max(worst, abs(sides[0] - sides[1]))


def outer(size: int, start: int, face: int, period: int) -> tuple[int, int]:
    """First and last tile along an axis; a joint at the edge leaves the tile whole."""
    near, far = -start % period, (size - start) % period
    if -start // period == (size - start - 1) // period and near < face:
        alone = min(size, face - near)
        return alone, alone
    return (
        face if near == 0 or near >= face else face - near,
        face if far == 0 or far >= face else far,
    )


@pytest.mark.parametrize("number", range(12))
def test_no_start_at_any_millimetre_is_better(number: int) -> None:
    rng = dice_of(1000 + number)
    cells = invented_cells(rng)
    divisor, alternate = rng.choice([(1, False), (1, False), (2, False), (3, False), (3, True)])
    long, wide, joint = rng.randint(35, 60), rng.randint(25, 35), rng.randint(0, 3)
    long += -(long + joint) % divisor
    steps = (0,) if divisor == 1 else (0, 1) if alternate else tuple(range(divisor))
    aims = list(Aim)
    if number % 2:
        rng.shuffle(aims)
    bond = Bond(BondKind.OFFSET, divisor, alternate) if divisor > 1 else Bond()
    how = spec(bond, Run("degrees", 0.0), joint * MM)
    req = request("1", Surface("f", SurfaceKind.FLOOR, region_of(cells)), how, tile(long, wide),
                  NO_GAP)  # fmt: skip
    lattice = lattice_of(req)
    choice = best_start(slabs_of(region_of(cells)).scaled(lattice.scale), lattice, aims)
    found = choice.rank(aims)[:-1]
    brute = Brute(cells, (long, wide), joint, steps, divisor)
    tall = (wide + joint) * (2 if alternate else 1)
    best = min(
        tuple(float(measures[a]) * (MM * lattice.scale if a is Aim.BALANCE else 1) for a in aims)
        for measures in (brute.measure(x, y) for x in range(long + joint) for y in range(tall))
    )
    assert choice.proven
    assert found <= best


@pytest.mark.parametrize("number", range(12))
def test_the_chosen_start_measures_as_it_says(number: int) -> None:
    # where the start lies on a whole millimetre, brute force at that start agrees in every aim
    rng = dice_of(2000 + number)
    cells = invented_cells(rng)
    out = laid(region_of(cells), tile(40, 30), spec(Bond(), Run("degrees", 0.0), 2 * MM),
               origin=(rng.randint(0, 41) * MM, rng.randint(0, 31) * MM))  # fmt: skip
    start = (out.origin[0] // MM, out.origin[1] // MM)
    measures = Brute(cells, (40, 30), 2, (0,), 1).measure(*start)
    assert out.cut == measures[Aim.FEWEST_CUTS]
    assert out.whole + out.cut == measures[Aim.FEWEST_TILES]
    assert out.small == measures[Aim.FEWEST_SMALL]
    assert out.balance_mm320 == measures[Aim.BALANCE] * MM


def test_the_job_orders_the_aims() -> None:
    assert aims_of("fewest tiles; No  Sliver")[:2] == (Aim.FEWEST_TILES, Aim.NO_SLIVER)
    assert aims_of(Job().aims) == tuple(Aim)
