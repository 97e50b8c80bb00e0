"""Cells within a floor, against shapely's own answer point by point."""

import numpy as np
import pytest
import shapely
from invented_zones import invented_zones
from shapely import MultiPolygon, Point, Polygon, affinity, box

from sheetcalc.geometry.heating.floor_cells import cells_beside, cells_inside


def asked(shape: Polygon | MultiPolygon, xs: np.ndarray, ys: np.ndarray) -> list[list[bool]]:
    return [[shape.contains(Point(x, y)) for x in xs.tolist()] for y in ys.tolist()]


@pytest.mark.parametrize("turned", [0.0, 31.0])
def test_cells_are_inside_where_shapely_says_so(turned: float) -> None:
    for zone in invented_zones(17, 6):
        for free in (zone.free, zone.floor):
            shape = affinity.rotate(free, turned)
            left, front, right, back = shape.bounds
            xs, ys = np.arange(left + 40, right, 90), np.arange(front + 40, back, 90)
            assert cells_inside(shape, xs, ys).tolist() == asked(shape, xs, ys)


def test_a_middle_on_the_border_is_not_inside() -> None:
    # 100 apart from 0: some lie on the sides, on a corner, level with corners, and on an island
    shape = box(0, 0, 500, 400).difference(box(200, 100, 300, 250))
    xs = ys = np.arange(-100.0, 700.0, 100.0)
    found = cells_inside(shape, xs, ys)
    assert found.tolist() == asked(shape, xs, ys)
    assert found.sum() == 4 * 3 - 4


def test_parts_that_are_apart_are_all_inside_and_nothing_is_inside_nothing() -> None:
    parts = shapely.union_all([box(0, 0, 100, 100), box(300, 50, 400, 150)])
    xs, ys = np.arange(10.0, 500.0, 30.0), np.arange(15.0, 200.0, 30.0)
    assert cells_inside(parts, xs, ys).tolist() == asked(parts, xs, ys)
    assert not cells_inside(Polygon(), xs, ys).any()


@pytest.mark.parametrize("turned", [0.0, 17.0])
def test_cells_beside_things_are_inside_what_shapely_leaves_of_the_floor(turned: float) -> None:
    yard = box(600, 600, 1500, 1500).difference(box(800, 800, 1300, 1300))
    for zone in invented_zones(23, 6):
        left, front, right, back = zone.floor.bounds
        # they overlap each other and the floor's edge; one has a hole, one is of two parts
        over = box(right - 300, front - 100, right + 100, back)
        apart = shapely.union_all([box(left, front, left + 90, back), over])
        things = [*(shape for shape, _ in zone.things if shape.area), yard, over, apart]
        floor, *others = (affinity.rotate(s, turned, (0, 0)) for s in (zone.floor, *things))
        left, front, right, back = floor.bounds
        xs, ys = np.arange(left + 41, right, 90), np.arange(front + 43, back, 90)
        rest = floor.difference(shapely.union_all(others))
        assert cells_beside(floor, others, xs, ys).tolist() == asked(rest, xs, ys)
        assert cells_beside(floor, [], xs, ys).tolist() == asked(floor, xs, ys)


def test_a_middle_on_the_border_of_a_thing_is_not_beside_it() -> None:
    floor, thing = box(0, 0, 500, 400), box(200, 100, 300, 250)
    xs = ys = np.arange(-100.0, 700.0, 100.0)
    assert cells_beside(floor, [thing], xs, ys).tolist() == asked(floor.difference(thing), xs, ys)
