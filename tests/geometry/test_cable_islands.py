"""Stretches that no row can be joined from to the rest, against a walk of a connector."""

import random
from collections.abc import Iterator
from typing import TypeAlias

import pytest
from shapely import LineString, Polygon, box

from sheetcalc.geometry.heating.cable_islands import without_islands
from sheetcalc.geometry.heating.cable_path import plan_path
from sheetcalc.geometry.heating.cable_spacing import CableRules
from sheetcalc.geometry.heating.cable_strips import Interval, Strip

Cells: TypeAlias = set[tuple[int, int]]

CELL = 10
CONNECTOR = 6
"""Cells that a connector takes along the rows."""


def invented_strips(dice: random.Random) -> list[Strip]:
    """Up to eight strips of stretches at least a connector long, some like the one before."""
    strips: list[Strip] = []
    for _ in range(dice.randrange(1, 9)):
        if strips and dice.random() < 0.4:
            strips.append(strips[-1])
            continue
        ends = sorted(dice.sample(range(60), 2 * dice.randrange(4)))
        strips.append(
            tuple(
                (float(a * CELL), float(b * CELL))
                for a, b in zip(ends[::2], ends[1::2], strict=True)
                if b - a >= CONNECTOR
            )
        )
    return strips


def walks(strips: list[Strip], deep: int) -> Iterator[Cells]:
    """Corners of a piece of floor, pushed a cell at a time as far as it goes."""
    free = {
        (k, x)
        for k, strip in enumerate(strips)
        for a, b in strip
        for x in range(int(a) // CELL, int(b) // CELL)
    }
    stands = {at for at in free if over({at}, deep) <= free}
    while stands:
        seen, edge = set(), [stands.pop()]
        while edge:
            k, x = edge.pop()
            seen.add((k, x))
            near = {(k - 1, x), (k + 1, x), (k, x - 1), (k, x + 1)} & stands
            stands -= near
            edge += near
        yield seen


def over(corners: Cells, deep: int) -> Cells:
    """Cells that a piece of floor lies on with its corner at one of some."""
    return {(k + i, x + j) for k, x in corners for i in range(deep) for j in range(CONNECTOR)}


def without(taken: Cells, kept: Cells, strips: list[Strip]) -> list[Strip]:
    """Stretches less those that reach cells that are taken and none that are kept."""

    def stays(k: int, stretch: Interval) -> bool:
        cells = {(k, x) for x in range(int(stretch[0]) // CELL, int(stretch[1]) // CELL)}
        return bool(cells & kept) or not cells & taken

    return [tuple(s for s in strip if stays(k, s)) for k, strip in enumerate(strips)]


def length_of(strips: list[Strip]) -> float:
    return sum(b - a for strip in strips for a, b in strip)


@pytest.mark.parametrize("deep", [1, 2, 3])
def test_only_what_the_largest_walk_of_a_connector_does_not_reach_is_taken_out(deep: int) -> None:
    dice = random.Random(7)  # noqa: S311 - invented floors
    several = 0
    for _ in range(400):
        strips = invented_strips(dice)
        found = list(walks(strips, deep))
        sizes = [len(over(walk, 1)) for walk in found]
        every = over(set().union(*found), deep)
        right = [
            without(every, over(walk, deep), strips)
            for walk, size in zip(found, sizes, strict=True)
            if size == max(sizes)
        ]
        kept, taken_mm = without_islands(strips, CONNECTOR * CELL, deep)
        assert kept in (right or [strips])
        assert taken_mm == length_of(strips) - length_of(kept)
        several += len(found) > 1
    assert several > 50


def test_equal_neighbours_stay_one_object() -> None:
    strip: Strip = ((0.0, 300.0), (500.0, 600.0))
    kept, taken_mm = without_islands([strip] * 3, 60.0, 2)
    assert kept[0] is kept[1] is kept[2]
    assert (kept[0], taken_mm) == (((0.0, 300.0),), 300.0)


def test_a_floor_behind_a_neck_too_narrow_for_two_runs_does_not_keep_the_rest_from_a_plan() -> None:
    # 50 mm of neck between two floors: a connector needs 60 mm of it
    front, neck, back = box(0, 0, 1200, 1500), box(0, 1500, 50, 1560), box(0, 1560, 900, 2300)
    floor = front.union(neck).union(back)
    assert isinstance(floor, Polygon)
    rules = CableRules(18_000.0, 60.0, 25.0, 30.0)
    plan, why = plan_path(floor, rules, (0.0, 0.0))
    assert plan is not None, why
    assert front.covers(LineString(plan.path))
    assert plan.cold_mm2 >= back.area


def test_a_neck_one_strip_deep_joins_nothing_where_runs_need_two() -> None:
    # a column 510 mm wide, one strip across, and a wider column: two runs are two strips apart
    column, across, wider = (87.5, 597.5), (87.5, 1467.5), (787.5, 1467.5)
    strips: list[Strip] = [(column,)] * 15 + [(across,)] + [(wider,)] * 23
    assert without_islands(strips, 60.0, 1) == (strips, 0.0)
    kept, taken_mm = without_islands(strips, 60.0, 2)
    assert kept == [()] * 15 + [(across,)] + [(wider,)] * 23
    assert taken_mm == 15 * 510.0


def test_a_cable_is_laid_in_the_larger_of_two_floors_that_one_strip_joins() -> None:
    # 30 mm of floor between the two, on knobs of 30 mm: no two runs pass there
    floor = box(0, 0, 600, 600).union(box(0, 600, 1500, 630)).union(box(700, 630, 1500, 2000))
    assert isinstance(floor, Polygon)
    plan, why = plan_path(floor, CableRules(9_000.0, 50.0, 25.0, 30.0), (0.0, 0.0))
    assert plan is not None, why
    assert box(690, 600, 1500, 2000).covers(LineString(plan.path))
