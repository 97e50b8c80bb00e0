"""Strips and roll plans, by hand; a checker replays every plan strip by strip."""

import random

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from pace import within
from roll_checker import check_cover, check_plan, lp_bound, plan_rolls, roll_of
from room_rows import one_room, piece, surface

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Leftover, Strip
from sheetcalc.domain.room import Region
from sheetcalc.geometry.plane.regions import rectangle, to_shapely, union
from sheetcalc.geometry.rolls.rolls import strips_of_copies
from sheetcalc.geometry.rolls.sections import Cutting, make_sections
from sheetcalc.geometry.rolls.strips import strips_across, strips_for

ROOM = one_room(length=3000, width=2400)
SHARED, OWN = Job(), Job(rolls_shared="each room")


def strips(region: Region, roll: Roll, job: Job = SHARED) -> tuple[Strip, ...]:
    return strips_for(ROOM, "floor", region, roll, "underlay", job)


def floor(length: int, width: int) -> Region:
    return rectangle(0, 0, length * 320, width * 320)


@pytest.mark.parametrize(
    ("width", "roll", "overlap", "count"),
    [
        (2400, 1000, 0, 3),
        (2400, 1000, 50, 3),  # 2.35 / 0.95 = 2.47
        (2900, 1000, 50, 3),  # exactly 3, where binary floats say 4
        (2899, 1000, 50, 3),
        (2901, 1000, 50, 4),
        (1000, 1000, 50, 1),
        (30, 1000, 50, 1),
    ],
)
def test_strips_across_a_width(width: int, roll: int, overlap: int, count: int) -> None:
    assert strips_across(width, roll, overlap) == count


def test_both_directions_are_tried() -> None:
    # by hand: along 3.0 m 3 strips = 9.0 m of roll, along 2.4 m 3 strips = 7.2 m, no trim
    laid = strips(floor(3000, 2400), roll_of(1000), OWN)
    assert [s.length_mm320 for s in laid] == [2400 * 320] * 3
    assert all(s.turned and s.width_mm320 == 1000 * 320 for s in laid)


def test_the_last_strip_is_a_rip_of_what_is_left() -> None:
    # 0.9 x 1.3 m: strips of 0.9 m, one whole and one ripped to 0.3 m (a third of a width),
    # are 1.2 m of roll; turned, one strip of 1.3 m ripped to 0.9 m wastes the rest
    laid = strips(floor(900, 1300), roll_of(1000))
    assert [(s.length_mm320 // 320, s.width_mm320 // 320) for s in laid] == [
        (900, 1000),
        (900, 300),
    ]
    assert [s.front_mm320 // 320 for s in laid] == [0, 1000]


def test_strips_of_an_l_end_with_the_floor() -> None:
    # 3 x 1 m and 1 x 1 m beyond it: strips of 3 m and 1 m, not two of 3 m
    region = union([floor(3000, 1000), rectangle(0, 320_000, 320_000, 320_000)])
    laid = strips(region, roll_of(1000))
    assert sorted(s.length_mm320 // 320 for s in laid) in ([1000, 3000], [1000, 1000, 2000])
    assert sum(s.length_mm320 for s in laid) == 4000 * 320


def test_knobs_of_lapping_strips_meet_in_whole_pitches() -> None:
    # 1 m roll, lap at least 50 mm, knobs 30 mm apart: 950 mm is 31 pitches, so a step of 930 mm
    laid = strips(floor(2000, 1900), roll_of(1000, overlap=50, pitch=30))
    starts = sorted({(s.left_mm320 if s.turned else s.front_mm320) // 320 for s in laid})
    assert all(at % 930 == 0 for at in starts)


def test_one_way_goods_are_cut_in_whole_pitches() -> None:
    laid = strips(floor(2000, 1000), roll_of(1000, pitch=30, one_way=True))
    assert all(s.length_mm320 % (30 * 320) == 0 for s in laid)


def test_a_drain_saves_nothing() -> None:
    room = one_room(piece("D", "drain", 1000, 1000, diameter=110), length=2000, width=2000)
    region = surface(room, "floor").region
    assert sum(s.length_mm320 for s in strips(region, roll_of(1000))) == 4000 * 320


def test_rips_of_several_rooms_lie_side_by_side_in_one_section() -> None:
    rips = [Strip("U", "", str(i), "floor", "p", 3000 * 320, 250 * 320) for i in range(4)]
    (section,) = make_sections(rips, Cutting(1000 * 320))
    assert section.length == 3000 * 320
    assert len(section.columns) == 4


def test_a_short_rip_goes_onto_the_end_of_a_column() -> None:
    rips = [
        Strip("U", "", "1", "floor", "p", 3000 * 320, 600 * 320),
        Strip("U", "", "2", "floor", "p", 1500 * 320, 400 * 320),
        Strip("U", "", "3", "floor", "p", 1500 * 320, 400 * 320),
    ]
    assert len(make_sections(rips, Cutting(1000 * 320))) == 1


def test_rooms_share_rolls_or_each_has_its_own() -> None:
    # 2 x 1 m in ten rooms from 10 m rolls: 20 m in two rolls, or ten rolls
    roll = roll_of(1000, length=10_000)
    wanted = [Strip("U", "", str(i), "floor", "p", 640_000, 320_000) for i in range(10)]
    shared, _ = plan_rolls(wanted, roll, "", SHARED)
    own, _ = plan_rolls(wanted, roll, "", OWN)
    assert (shared.rolls, shared.lower_bound, own.rolls) == (2, 2, 10)
    check_plan(shared, wanted, roll)
    check_plan(own, wanted, roll)


def test_a_phase_uses_the_leftovers_of_the_one_before() -> None:
    roll = roll_of(1000, length=10_000)
    first, _ = plan_rolls([_full(6000)], roll, "1", SHARED)
    assert first.leftovers == (Leftover("1", 1, 6000 * 320, 4000 * 320),)
    second, _ = plan_rolls([_full(4000), _full(9000)], roll, "2", SHARED, first.leftovers)
    assert second.rolls == 1
    (from_before,) = [p for p in second.placed if p.leftover_of]
    assert (from_before.leftover_of, from_before.roll, from_before.position_mm320) == (
        "1", 1, 6000 * 320,
    )  # fmt: skip
    check_plan(second, [_full(4000), _full(9000)], roll, first.leftovers)


def test_a_rest_shorter_than_the_useful_leftover_is_not_kept() -> None:
    roll = roll_of(1000, length=10_000)
    plan, _ = plan_rolls([_full(9001)], roll, "1", SHARED)
    assert plan.leftovers == ()
    plan, _ = plan_rolls([_full(9000)], roll, "1", SHARED)
    assert len(plan.leftovers) == 1


def _full(length: int) -> Strip:
    return Strip("U", "", "R", "floor", "p", length * 320, 1000 * 320)


def test_a_strip_longer_than_the_roll_is_joined_with_a_finding() -> None:
    # 12 m from 10 m rolls with a lap of 50 mm: 10 m, and 2.05 m that begins 9.95 m along
    roll = roll_of(1000, length=10_000, overlap=50)
    plan, findings = plan_rolls([_full(12_000)], roll, "", SHARED)
    assert [f.code for f in findings] == ["STRIP-JOINED"]
    assert sorted(p.strip.length_mm320 // 320 for p in plan.placed) == [2050, 10_000]
    assert [p.strip.left_mm320 // 320 for p in plan.placed if p.strip.left_mm320] == [9950]


def test_a_strip_longer_than_the_roll_is_refused_where_the_job_says_so() -> None:
    roll = roll_of(1000, length=10_000, overlap=50)
    plan, findings = plan_rolls([_full(12_000)], roll, "", Job(long_strips="refuse"))
    assert [f.code for f in findings] == ["STRIP-LONGER-THAN-ROLL"]
    assert (plan.rolls, plan.placed) == (0, ())


def test_a_direction_without_joints_is_preferred() -> None:
    # 2.6 x 1.9 m from rolls of 2 m: along 2.6 m two joined strips, turned three of 1.9 m
    laid = strips(floor(2600, 1900), roll_of(1000, length=2000))
    assert [s.length_mm320 // 320 for s in laid] == [1900] * 3


def test_parts_of_one_way_goods_lap_and_end_in_whole_pitches() -> None:
    # 10 m are 333 pitches of 30 mm, the lap of 50 mm is 2: parts of 9.99 m and 2.07 m
    roll = roll_of(1000, length=10_000, overlap=50, pitch=30, one_way=True)
    wanted = [_full(12_000)]
    plan, _ = plan_rolls(wanted, roll, "", SHARED)
    assert sorted(p.strip.length_mm320 // 320 for p in plan.placed) == [2070, 9990]
    check_plan(plan, wanted, roll)


@pytest.mark.parametrize(
    ("lined_up", "goods", "length"),
    [
        ("as the roll says", "one way", 720),
        ("as the roll says", "either way", 700),
        ("all rolls", "either way", 720),
        ("no rolls", "one way", 700),
    ],
)
def test_the_job_may_overrule_whether_knobs_line_up(lined_up: str, goods: str, length: int) -> None:
    # 0.7 m is 23.3 pitches of 30 mm, so strips that line up are 24 pitches long
    roll = roll_of(1000, pitch=30, one_way=goods == "one way")
    (laid,) = strips(floor(700, 700), roll, Job(lined_up=lined_up))
    assert laid.length_mm320 == length * 320


@pytest.mark.parametrize("tail", ["far", "near"])
def test_one_way_goods_begin_at_the_side_that_takes_less_roll(tail: str) -> None:
    # 2010 x 990 mm, a roll's step, and a tail of 510 x 240 behind or before it: one strip of
    # 2010 x 1000 and one of 510 mm; begun at the tail the second would be 2010 mm long too
    main, behind = (240, 0) if tail == "near" else (0, 990)
    boxes = ((0, main, 2010, 990), (0, behind, 510, 240))
    region = union(rectangle(*(v * 320 for v in box)) for box in boxes)
    roll = roll_of(1000, pitch=30, one_way=True)
    laid = strips(region, roll)
    assert sorted(s.length_mm320 // 320 for s in laid) == [510, 2010]
    check_cover(laid, to_shapely(region), roll)


def test_one_way_goods_all_begin_at_one_side() -> None:
    # two floors apart, the tail of one behind it and of the other before it: what both take
    # together decides, so the strips of one of them are the longer
    boxes = ((0, 0, 2010, 990), (0, 990, 510, 240), (3000, 240, 1500, 990), (3000, 0, 510, 240))
    region = union(rectangle(*(v * 320 for v in box)) for box in boxes)
    laid = strips(region, roll_of(1000, pitch=30, one_way=True))
    assert sorted(s.length_mm320 // 320 for s in laid) == [510, 1500, 1500, 2010]


def test_rips_that_line_up_begin_at_whole_pitches_across_the_roll() -> None:
    # 250 mm is 8.3 pitches of 30 mm: the rips lie 270 mm apart, and three fit on 1 m
    roll = roll_of(1000, pitch=30, one_way=True)
    rips = [Strip("U", "", str(i), "floor", "p", 3000 * 320, 250 * 320) for i in range(4)]
    plan, _ = plan_rolls(rips, roll, "", SHARED)
    assert sorted(p.across_mm320 // 320 for p in plan.placed) == [0, 0, 270, 540]
    check_plan(plan, rips, roll)


@pytest.mark.parametrize("roll", [roll_of(0), roll_of(50, overlap=50), roll_of(40, overlap=50)])
def test_a_roll_no_wider_than_its_lap_is_an_error(roll: Roll) -> None:
    plan, findings = plan_rolls(strips(floor(2000, 1000), roll), roll, "", SHARED)
    assert [f.code for f in findings] == ["ROLL-TOO-SMALL"]
    assert plan.rolls == 0


def test_nothing_wanted_is_no_roll() -> None:
    plan, findings = plan_rolls([], roll_of(1000), "", SHARED)
    assert (plan.rolls, plan.lower_bound, plan.placed, findings) == (0, 0, (), ())


def test_every_copy_of_a_room_has_its_own_strips() -> None:
    alike = one_room(length=2000, width=1000)
    assert [s.room for s in strips_of_copies(alike, [_full(2000)])] == ["R"]


REGIONS = st.lists(
    st.tuples(st.integers(0, 3000), st.integers(0, 3000), st.integers(100, 4000),
              st.integers(100, 4000)),
    min_size=1, max_size=3,
)  # fmt: skip


@given(
    REGIONS,
    st.integers(300, 1500),
    st.integers(0, 100),
    st.sampled_from([None, 30]),
    st.sampled_from(("one way", "either way")),
)
@example([(0, 1, 241, 100), (242, 0, 100, 100)], 300, 100, 30, "one way")  # one reaches over
@settings(max_examples=100, deadline=None)
def test_strips_cover_every_region_and_lap_enough(
    boxes: list[tuple[int, int, int, int]],
    width: int,
    overlap: int,
    pitch: int | None,
    goods: str,
) -> None:
    region = union(rectangle(*(v * 320 for v in box)) for box in boxes)
    roll = roll_of(width, overlap=overlap, pitch=pitch, one_way=goods == "one way")
    laid = strips(region, roll)
    check_cover(laid, to_shapely(region), roll)


@given(
    st.lists(st.tuples(st.integers(100, 6000), st.integers(50, 1000)), max_size=40),
    st.sampled_from(["whole phase", "each room"]),
)
@settings(max_examples=100, deadline=None)
def test_every_plan_can_be_cut(sizes: list[tuple[int, int]], shared: str) -> None:
    roll = roll_of(1000, length=5000)
    wanted = [
        Strip("U", "", str(i % 5), "floor", f"p{i}", length * 320, width * 320)
        for i, (length, width) in enumerate(sizes)
    ]
    plan, _ = plan_rolls(wanted, roll, "", Job(rolls_shared=shared))
    check_plan(plan, wanted, roll)


def a_block(rooms: int, seed: int, roll: Roll) -> list[Strip]:
    """Strips of a block of invented bathrooms, sizes in steps of 5 mm."""
    chance = random.Random(seed)  # noqa: S311 - a test's own invention
    wanted: list[Strip] = []
    for i in range(rooms):
        length, width = chance.randrange(1500, 4000, 5), chance.randrange(1200, 3600, 5)
        wanted += [
            Strip(roll.code, "", str(i), "floor", s.piece, s.length_mm320, s.width_mm320)
            for s in strips(floor(length, width), roll)
        ]
    return wanted


def test_two_hundred_rooms_reach_the_bound_in_nine_of_ten_blocks() -> None:
    # the bound: linear programming over all patterns of the sections, by a solver
    roll = roll_of(1000, length=10_000)
    above = []
    for seed in range(10):
        wanted = a_block(200, seed, roll)
        plan, _ = plan_rolls(wanted, roll, "", SHARED)
        check_plan(plan, wanted, roll)
        lengths = [s.length for s in make_sections(wanted, Cutting(roll.width_mm320))]
        above.append(plan.rolls - lp_bound(lengths, roll.length_mm320, plan.rolls))
    assert above.count(0) >= 9
    assert max(above) <= 1


def test_a_thousand_rooms_are_planned_quickly_and_within_two_of_the_bound() -> None:
    roll = roll_of(1000, length=10_000)
    wanted = a_block(1000, 1, roll)
    with within(2):  # 0.15 s on an idle core; benchmarks hold the real limit
        plan, _ = plan_rolls(wanted, roll, "", SHARED)
    lengths = [s.length for s in make_sections(wanted, Cutting(roll.width_mm320))]
    assert plan.rolls - lp_bound(lengths, roll.length_mm320, plan.rolls) <= 2


def test_the_bound_by_linear_programming_is_that_of_the_known_instances() -> None:
    # 73 and 453 are optima of published instances that the bounds 72.707 and 452.25 round up to
    encyclopaedia = {
        1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10,
        2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
    }  # fmt: skip
    for stock, demand, optimum in (
        (5600, encyclopaedia, 73),
        (100, {45: 97, 36: 610, 31: 395, 14: 211}, 453),
    ):
        lengths = [size for size, count in demand.items() for _ in range(count)]
        assert lp_bound(lengths, stock, 10**6) == optimum


def test_strips_of_an_oblique_room_cover_it() -> None:
    triangle = shapely.Polygon([(0, 0), (960_000, 0), (0, 960_000)])
    from sheetcalc.geometry.plane.regions import from_shapely  # noqa: PLC0415 - only here

    roll = roll_of(1000)
    check_cover(strips(from_shapely(triangle), roll), triangle, roll)
