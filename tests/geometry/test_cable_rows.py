"""The table of rows against every way of laying pairs of rows, listed one by one."""

import random
from collections.abc import Iterator
from math import inf

import pytest
import shapely
from shapely import box

from sheetcalc.geometry.heating.cable_row_costs import RowCosts, RowRules
from sheetcalc.geometry.heating.cable_rows import RowTable
from sheetcalc.geometry.heating.cable_strips import lattice_for, strips_of

PITCH = 30.0
ROOMS = 40
SHORTEST = 60.0


def costs_of(dice: random.Random, steps: tuple[int, ...]) -> RowCosts:
    """Rows over a floor of at most 17 strips with up to two things standing on it."""
    wide, deep = dice.randrange(300, 1200), dice.randrange(150, 520)
    corners = [(dice.randrange(wide), dice.randrange(deep)) for _ in range(dice.randrange(3))]
    things = [
        box(x, y, x + dice.randrange(50, 400), y + dice.randrange(20, 200)) for x, y in corners
    ]
    floor = shapely.difference(box(0, 0, wide, deep), shapely.union_all(things))
    part = max(shapely.get_parts(floor), key=lambda g: float(g.area))
    strips = strips_of(part, lattice_for(part, PITCH, knobbed=True), SHORTEST)
    return RowCosts(strips, RowRules(steps, PITCH, SHORTEST, 25.0))


def every_way(costs: RowCosts) -> Iterator[tuple[list[tuple[int, int]], int, float]]:
    """Every choice of pairs from front to back, its length in bins, and what it leaves cold."""
    starts = costs.starts().tolist()
    gaps = dict(zip(costs.rules.steps, costs.gaps().T.tolist(), strict=True))
    pairs = dict(zip(costs.rules.steps, costs.pairs().T.tolist(), strict=True))

    def onward(
        chosen: list[tuple[int, int]], place: int, length: int, cold: float
    ) -> Iterator[tuple[list[tuple[int, int]], int, float]]:
        for step in costs.rules.steps:
            if place + step > costs.count or not costs.lengths[step][place]:
                continue
            here = [*chosen, (place, place + step)]
            top, longer = place + step, length + costs.lengths[step][place]
            colder = cold + pairs[step][place]
            yield here, longer, colder + costs.end(top)
            for gap in costs.rules.steps:
                if top + gap < costs.count:
                    yield from onward(here, top + gap, longer, colder + gaps[gap][top + gap])

    for place in range(costs.count):
        yield from onward([], place, 0, starts[place])


@pytest.mark.parametrize("steps", [(1, 2), (2, 3), (3,), (2, 3, 4), (1, 3)])
def test_no_way_of_laying_rows_leaves_less_cold_than_the_tables(steps: tuple[int, ...]) -> None:
    dice = random.Random(steps[-1] * 10 + len(steps))  # noqa: S311 - invented floors
    found = 0
    for _ in range(ROOMS if steps[0] > 1 else ROOMS // 8):
        costs = costs_of(dice, steps)
        ways = list(every_way(costs))
        longest = max((length for _, length, _ in ways), default=0)
        needed = dice.uniform(0.2, 1.05) * longest * costs.rules.bin_mm + 1.0
        least = costs.bins(needed)
        wanted = [
            (cold + float(costs.cut_back_mm2(needed, length - least)), chosen)
            for chosen, length, cold in ways
            if length >= least
        ]
        pairs, cold = RowTable(costs, longest * costs.rules.bin_mm, needed).best(needed)
        if not wanted:
            assert (pairs, costs.least_mm2(needed)) == ((), inf)
            continue
        found += 1
        assert cold == pytest.approx(min(wanted)[0], abs=1e-3)
        assert [(p.bottom, p.top) for p in pairs] in [c for w, c in wanted if w < cold + 1e-3]
        # the bound: what is to be cut back at the shortest length that may be reached
        shortest = min(length for _, length, _ in ways if length >= least)
        bound = float(costs.cut_back_mm2(needed, shortest - least))
        assert costs.least_mm2(needed) == pytest.approx(bound)
        assert costs.least_mm2(needed) <= cold + 1e-3
    assert found
