"""Stretches that no row can be joined from to the rest, against a walk of a connector."""

import random
from collections.abc import Iterator

from shapely import LineString, Polygon, box

from sheetcalc.geometry.heating.cable_islands import without_islands
from sheetcalc.geometry.heating.cable_path import plan_path
from sheetcalc.geometry.heating.cable_spacing import CableRules
from sheetcalc.geometry.heating.cable_strips import Strip

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


def walks(strips: list[Strip]) -> Iterator[set[tuple[int, int]]]:
    """Sets of (strip, place) that a connector gets to from each other, going a cell at a time."""
    stands = {
        (k, x)
        for k, strip in enumerate(strips)
        for a, b in strip
        for x in range(int(a) // CELL, int(b) // CELL - CONNECTOR + 1)
    }
    while stands:
        seen, edge = set(), [stands.pop()]
        while edge:
            k, x = edge.pop()
            seen.add((k, x))
            near = {(k - 1, x), (k + 1, x), (k, x - 1), (k, x + 1)} & stands
            stands -= near
            edge += near
        yield seen


def covered(walk: set[tuple[int, int]], strips: list[Strip]) -> list[Strip]:
    """Stretches that a walk stands in."""
    return [
        tuple(s for s in strip if (k, int(s[0]) // CELL) in walk) for k, strip in enumerate(strips)
    ]


def length_of(strips: list[Strip]) -> float:
    return sum(b - a for strip in strips for a, b in strip)


def test_what_is_kept_is_the_largest_floor_that_a_connector_can_walk() -> None:
    dice = random.Random(7)  # noqa: S311 - invented floors
    several = 0
    for _ in range(400):
        strips = invented_strips(dice)
        parts = [covered(walk, strips) for walk in walks(strips)]
        kept, taken_mm = without_islands(strips, CONNECTOR * CELL)
        largest = max(map(length_of, parts), default=0.0)
        assert kept in [p for p in parts if length_of(p) == largest] or not parts
        assert length_of(kept) == largest
        assert taken_mm == length_of(strips) - largest
        several += len(parts) > 1
    assert several > 100


def test_equal_neighbours_stay_one_object() -> None:
    strip: Strip = ((0.0, 300.0), (500.0, 600.0))
    kept, taken_mm = without_islands([strip] * 3, 60.0)
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
