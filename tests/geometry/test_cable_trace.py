"""Borders traced from loop to loop agree with the union of what loops and connectors cover."""

import pytest
import shapely
from invented_zones import invented_zones
from shapely import Polygon, box

from sheetcalc.geometry.heating.cable_loops import Course, Join, Loop, LoopRules, joined, loops_of
from sheetcalc.geometry.heating.cable_row_costs import RowCosts, RowRules
from sheetcalc.geometry.heating.cable_rows import RowTable
from sheetcalc.geometry.heating.cable_strips import Lattice, lattice_for, strips_of
from sheetcalc.geometry.heating.cable_trace import traced

LATTICE = Lattice(10.0, 0.0, 0.0, 20, knobbed=True)
RULES = LoopRules(60.0, 25.0, 60.0)


def test_a_single_loop_has_four_corners() -> None:
    found = traced([Loop(0, 0, 1, 4, 5.0, 105.0)], [], LATTICE)
    assert sorted(found.tolist()) == [
        [5, 10], [5, 40], [105, 10], [105, 40],
    ]  # fmt: skip


def test_two_loops_with_a_connector_between_have_twelve_corners_and_eight_where_it_is_flush() -> (
    None
):
    lower, upper = Loop(0, 0, 0, 2, 0.0, 100.0), Loop(1, 1, 4, 6, 0.0, 100.0)
    for left, corners in ((40.0, 12), (0.0, 8)):
        found = traced([lower, upper], [Join(0, 1, left, left + 20)], LATTICE)
        assert len(found) == corners
        # 100 x 20 twice, and 20 x 20 between
        assert Polygon(found).area == 4400
    assert traced([], [], LATTICE).shape == (0, 2)


def covered(course: Course) -> Polygon:
    """Union of what a course covers."""
    row = course.lattice.row_mm
    by_index = {loop.index: loop for loop in course.loops}
    shapes = [box(x.left_mm, row(x.bottom), x.right_mm, row(x.top)) for x in course.loops]
    shapes += [
        box(j.left_mm, row(by_index[j.lower].top), j.right_mm, row(by_index[j.upper].bottom))
        for j in course.joins
    ]
    union = shapely.union_all(shapes)
    assert isinstance(union, Polygon)
    return union


@pytest.mark.parametrize("pitch", [30.0, 15.0])
def test_the_border_is_that_of_the_union_in_invented_zones(pitch: float) -> None:
    for zone in invented_zones(31, 24):
        part = max(shapely.get_parts(zone.free), key=lambda g: g.area)
        lattice = lattice_for(part, pitch, knobbed=True)
        strips = strips_of(part, lattice, 60.0)
        near = round(90 / pitch)
        table = RowTable(
            RowCosts(strips, RowRules((near, near + 1), pitch, 60.0, 25.0)), part.area / 50
        )
        pairs, _ = table.best(part.area / 120)
        course = joined(loops_of(pairs, RULES), strips, lattice, RULES, spine_left=True)
        assert course.loops
        found = Polygon(traced(course.loops, course.joins, lattice))
        assert found.exterior.is_ccw
        assert found.symmetric_difference(covered(course)).area < 1e-6
        assert found.exterior.is_simple
