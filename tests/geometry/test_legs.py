"""Walks round a room: closing, balancing, crossing."""

from math import sqrt

import pytest
from pace import within
from room_rows import codes, face, leg, mm, one_room, piece, resolve, room_row, surface

from sheetcalc.domain.job import Job
from sheetcalc.geometry.rooms.legs import compass_rule

# Departures and latitudes of a five-sided traverse and their balanced values, as printed in a
# surveying handbook: from memory, not verified.  The arithmetic is redone in the tests below.
TRAVERSE = (
    (517.451, -388.815),
    (5.966, -202.942),
    (192.889, 694.045),
    (-590.565, 153.708),
    (-125.715, -255.919),
)
BALANCED = (
    (517.444, -388.835),
    (5.964, -202.948),
    (192.881, 694.022),
    (-590.571, 153.689),
    (-125.718, -255.928),
)
LENGTHS = (647.25, 203.03, 720.35, 610.24, 285.13)


def test_the_handbook_traverse_is_consistent_in_itself() -> None:
    for (east, north), length in zip(TRAVERSE, LENGTHS, strict=True):
        assert sqrt(east**2 + north**2) == pytest.approx(length, abs=0.006)
    assert sum(e for e, _ in TRAVERSE) == pytest.approx(0.026, abs=1e-9)
    assert sum(n for _, n in TRAVERSE) == pytest.approx(0.077, abs=1e-9)
    # first leg by hand: 0.026 * 647.25 / 2466.00 = 0.0068, 0.077 * 647.25 / 2466.00 = 0.0202
    assert BALANCED[0] == pytest.approx((517.451 - 0.0068, -388.815 - 0.0202), abs=0.001)


def test_the_compass_rule_balances_the_handbook_traverse() -> None:
    balanced = compass_rule(TRAVERSE)
    for own, printed in zip(balanced, BALANCED, strict=True):
        assert own == pytest.approx(printed, abs=0.001)
    assert sum(e for e, _ in balanced) == pytest.approx(0, abs=1e-9)
    assert sum(n for _, n in balanced) == pytest.approx(0, abs=1e-9)


def test_four_legs_that_close_are_the_rectangle() -> None:
    room = one_room(leg("1", 0, 2000), leg("2", 90, 3000), leg("3", 90, 2000), leg("4", 90, 3000))
    assert room.outline == one_room(length=2000, width=3000).outline
    assert [w.name for w in room.walls] == ["1", "2", "3", "4"]


def test_a_walk_that_turns_right_has_the_room_before_its_near_wall_too() -> None:
    room = one_room(
        leg("1", 0, 2000), leg("2", -90, 3000), leg("3", -90, 2000), leg("4", -90, 3000)
    )
    assert room.outline.bounds == (mm(-2000), 0, 0, mm(3000))


def test_a_corner_cut_off_at_45_degrees() -> None:
    # 3 x 3 m with a corner of 1 m cut off: 9 - 0.5 m2
    room = one_room(
        leg("a", 0, 3000), leg("b", 90, 2000), leg("c", 45, 1000 * sqrt(2)),
        leg("d", 45, 2000), leg("e", 90, 3000),
    )  # fmt: skip
    assert room.outline.area_m2 == pytest.approx(8.5, abs=1e-5)
    assert room.measures.outline_perimeter_m == pytest.approx(10 + sqrt(2), abs=1e-5)
    assert room.measures.inside_corners == 5


def test_a_leg_that_goes_straight_on_is_a_wall_of_its_own() -> None:
    room = one_room(
        leg("1", 0, 800), leg("2", 0, 1200), leg("3", 90, 3000), leg("4", 90, 2000),
        leg("5", 90, 3000), face("2", 1200, 2000),
    )  # fmt: skip
    assert [w.name for w in room.walls] == ["1", "2", "3", "4", "5"]
    assert room.measures.inside_corners == 4
    assert surface(room, "wall 2").region.area_m2 == pytest.approx(2.4)


def test_a_misclosure_within_tolerance_is_closed_and_stated() -> None:
    (room,), findings = resolve(
        room_row(leg("1", 0, 2000), leg("2", 90, 3000), leg("3", 90, 1990), leg("4", 90, 3000))
    )
    assert [f.code for f in findings] == ["LEGS-CLOSED"]
    # 10 mm to the right over 9.99 m: the corners move 2.002, 5.005 and 6.997 mm to the left
    corners = room.outline.patches[0].shell
    moved = (10 * 2000 / 9990, 10 * 5000 / 9990, 10 * 6990 / 9990)
    expected = [
        (0, 0),
        (mm(2000 - moved[0]), 0),
        (mm(2000 - moved[1]), mm(3000)),
        (mm(10 - moved[2]), mm(3000)),
    ]
    assert sorted(corners) == sorted(expected)


def test_pieces_against_a_closed_wall_are_inside_and_seal_against_it() -> None:
    (room,), findings = resolve(
        room_row(
            leg("1", 0, 2000), leg("2", 90, 3000), leg("3", 90, 1990), leg("4", 90, 3000),
            piece("B", "bath", 1300, 0, 700, 1700), face("2", 3000, 2000),
            piece("D", "doorway", 300, length=800, wall="near"),
        )
    )  # fmt: skip
    assert [f.code for f in findings] == ["LEGS-CLOSED"]
    # round the bath 4.8 m, of which 0.7 m on an untiled wall
    assert room.measures.fixture_edge_m == pytest.approx(4.1, abs=0.02)
    assert len(room.doorways) == 1


def test_a_misclosure_beyond_tolerance_is_an_error_with_its_size() -> None:
    legs = (leg("1", 0, 2000), leg("2", 90, 3000), leg("3", 90, 1900), leg("4", 90, 3000))
    rooms, findings = resolve(room_row(*legs))
    assert [f.code for f in findings] == ["LEGS-DO-NOT-CLOSE"]
    assert rooms == ()
    wide = Job(misclosure_tolerance_mm320=100 * 320)
    assert len(resolve(room_row(*legs), job=wide)[0]) == 1
    just_short = Job(misclosure_tolerance_mm320=100 * 320 - 1)
    assert resolve(room_row(*legs), job=just_short)[0] == ()


def test_a_figure_of_eight_crosses_itself() -> None:
    # right 2, up 2, left 1, down 3, left 1, up 1: leg 4 goes down through leg 1
    assert codes(
        leg("1", 0, 2000), leg("2", 90, 2000), leg("3", 90, 1000), leg("4", 90, 3000),
        leg("5", -90, 1000), leg("6", -90, 1000),
    ) == ["LEGS-CROSS"]  # fmt: skip


def test_two_legs_enclose_nothing_and_names_stand_once() -> None:
    assert codes(leg("1", 0, 2000), leg("1", 180, 2000)) == ["LEGS-TOO-FEW", "LEG-NAME-TWICE"]


def test_turns_that_are_not_a_full_turn_are_an_error_where_leg_1_has_one() -> None:
    assert codes(
        leg("1", 45, 2000), leg("2", 90, 3000), leg("3", 90, 2000), leg("4", 90, 3000)
    ) == ["LEGS-TURNS-OFF"]


def test_ten_thousand_corners_are_walked_within_two_seconds() -> None:
    # a comb: 2,500 notches of 5 x 10 mm in the far wall of 25 x 2 m
    notches = 2_500
    legs = [leg("near", 0, notches * 10), leg("right", 90, 2000)]
    for i in range(notches):
        legs += [
            leg(f"a{i}", 90, 5), leg(f"b{i}", 90, 10), leg(f"c{i}", -90, 5), leg(f"d{i}", -90, 10),
        ]  # fmt: skip
    legs[-1] = leg("left", 90, 1990)
    with within(2):
        room = one_room(*legs)
    assert room.outline.area_m2 == pytest.approx(50 - notches * 0.005 * 0.010)
