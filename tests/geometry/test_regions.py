"""Region algebra by hand, and against shapely as an independent judge."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetcalc.domain.room import Circle, Patch, Region
from sheetcalc.geometry.plane.boxes import boxes_within
from sheetcalc.geometry.plane.points import covers_circle, covers_point, polygon_of_circle
from sheetcalc.geometry.plane.regions import (
    components,
    contains,
    corner_counts,
    difference,
    from_shapely,
    intersection,
    mirrored,
    overlaps,
    perimeter_mm320,
    rectangle,
    region_from_slabs,
    slabs_of,
    to_shapely,
    union,
)

RECTANGLES = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 9), st.integers(1, 5), st.integers(1, 5)),
    min_size=1,
    max_size=7,
)


def joined(boxes: list[tuple[int, int, int, int]]) -> Region:
    return union(rectangle(*box) for box in boxes)


def joined_by_shapely(boxes: list[tuple[int, int, int, int]]) -> shapely.Geometry:
    return shapely.union_all([shapely.box(x, y, x + a, y + b) for x, y, a, b in boxes])


def same(region: Region, shape: shapely.Geometry) -> bool:
    if not region.patches:
        return bool(shape.area == 0)
    own = to_shapely(region)
    return bool(own.is_valid and own.symmetric_difference(shape).area == 0)


def test_two_rectangles_side_by_side_are_one() -> None:
    assert joined([(0, 0, 2, 3), (2, 0, 1, 3)]) == rectangle(0, 0, 3, 3)


def test_rectangles_that_touch_in_a_corner_stay_two_parts() -> None:
    region = joined([(0, 0, 1, 1), (1, 1, 1, 1)])
    assert len(components(region)) == 2


def test_a_frame_has_a_hole() -> None:
    frame = difference(rectangle(0, 0, 4, 4), rectangle(1, 1, 2, 2))
    assert frame.area_mm320 == 12
    assert perimeter_mm320(frame) == 16 + 8
    assert corner_counts(frame) == (4, 4)


def test_a_hole_that_touches_the_edge_in_a_corner_keeps_the_shell_simple() -> None:
    region = difference(rectangle(0, 0, 3, 3), rectangle(1, 1, 1, 1), rectangle(2, 2, 1, 1))
    assert to_shapely(region).is_valid
    assert region.area_mm320 == 7


def test_an_l_has_five_inside_corners_and_one_outside() -> None:
    assert corner_counts(joined([(0, 0, 4, 2), (0, 2, 2, 2)])) == (5, 1)


def test_touching_is_not_overlapping() -> None:
    assert not overlaps(rectangle(0, 0, 2, 2), rectangle(2, 0, 2, 2))


def test_a_region_contains_what_ends_at_its_edge_and_nothing_beyond() -> None:
    room = joined([(0, 0, 4, 2), (0, 2, 2, 2)])
    assert contains(room, rectangle(0, 2, 2, 2))
    assert not contains(room, rectangle(1, 2, 2, 1))


def test_slack_lets_a_piece_stick_out_by_so_much() -> None:
    room = joined([(0, 0, 40, 20), (0, 20, 20, 20)])
    assert contains(room, rectangle(-2, 0, 20, 20), slack_mm320=2)
    assert not contains(room, rectangle(-3, 0, 20, 20), slack_mm320=2)


def test_a_point_on_the_edge_is_covered() -> None:
    frame = difference(rectangle(0, 0, 4, 4), rectangle(1, 1, 2, 2))
    assert covers_point(frame, (0, 2))
    assert covers_point(frame, (1, 2))
    assert not covers_point(frame, (2, 2))


def test_a_circle_may_touch_the_wall_but_not_pass_it() -> None:
    room = rectangle(0, 0, 1000, 1000)
    assert covers_circle(room, Circle((100, 500), 200))
    assert not covers_circle(room, Circle((98, 500), 200))


def test_a_polygon_has_the_area_of_its_circle_within_a_hundred_thousandth() -> None:
    polygon = polygon_of_circle(Circle((0, 0), 320_000))
    assert abs(polygon.area_m2 / 0.7853981633974483 - 1) < 1e-5  # pi / 4 m2


def test_an_oblique_cut_keeps_whole_corners_and_the_area() -> None:
    triangle = from_shapely(shapely.Polygon([(0, 0), (320_000, 0), (0, 320_000)]))
    cut = difference(triangle, rectangle(0, 0, 160_000, 160_000))
    assert cut.area_m2 == 0.25
    assert all(isinstance(x, int) for p in cut.patches for point in p.shell for x in point)


@given(RECTANGLES, RECTANGLES)
@settings(max_examples=150, deadline=None)
def test_algebra_agrees_with_shapely(
    first: list[tuple[int, int, int, int]], second: list[tuple[int, int, int, int]]
) -> None:
    a, b = joined(first), joined(second)
    shape_a, shape_b = joined_by_shapely(first), joined_by_shapely(second)
    assert same(a, shape_a)
    assert same(difference(a, b), shape_a.difference(shape_b))
    assert same(intersection(a, b), shape_a.intersection(shape_b))
    assert contains(a, b) == shape_a.covers(shape_b)
    assert abs(perimeter_mm320(a) - shape_a.length) < 1e-9


@given(RECTANGLES)
@settings(max_examples=100, deadline=None)
def test_slabs_and_mirror_give_the_region_back(
    boxes: list[tuple[int, int, int, int]],
) -> None:
    region = joined(boxes)
    assert region_from_slabs(slabs_of(region)) == region
    assert mirrored(mirrored(region, 7), 7) == region
    assert mirrored(region, 7).area_mm320 == region.area_mm320


@given(
    boxes=RECTANGLES,
    corner=st.tuples(st.integers(-1, 8), st.integers(-1, 8)),
    size=st.tuples(st.integers(1, 12), st.integers(1, 12)),
)
def test_what_a_box_cuts_out_of_a_region_has_the_bounds_that_shapely_finds(
    boxes: list[tuple[int, int, int, int]], corner: tuple[int, int], size: tuple[int, int]
) -> None:
    (left, front), (length, width) = corner, size
    box = (left, front, left + length, front + width)
    found = boxes_within(joined(boxes), box)
    cut = joined_by_shapely(boxes).intersection(shapely.box(*box))
    parts = [part for part in shapely.get_parts(cut) if part.area]
    assert sorted(found) == sorted(tuple(map(int, part.bounds)) for part in parts)


def test_what_a_box_cuts_out_comes_by_its_near_left_corners_also_with_an_oblique_edge() -> None:
    comb = joined([(0, 0, 1, 9), (0, 0, 9, 1), (4, 0, 1, 9), (8, 0, 1, 9)])
    assert boxes_within(comb, (0, 3, 9, 6)) == [(0, 3, 1, 6), (4, 3, 5, 6), (8, 3, 9, 6)]
    slanted = Region((Patch(((0, 0), (60_000, 0), (0, 30_000))),))
    assert boxes_within(slanted, (20_000, 0, 40_000, 40_000)) == [(20_000, 0, 40_000, 20_000)]
