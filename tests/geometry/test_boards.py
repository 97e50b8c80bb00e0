"""Boards and mats in a grid, by hand."""

from msgspec.structs import replace
from roll_checker import plan_rolls, roll_of
from room_rows import one_room

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Region
from sheetcalc.geometry.plane.regions import rectangle, union
from sheetcalc.geometry.rolls.boards import pieces_for

ROOM = one_room(length=3000, width=2400)
BOARD = replace(roll_of(600, length=1200), code="B", kind=RollKind.BACKER_BOARD)


def box(left: int, front: int, length: int, width: int) -> Region:
    return rectangle(left * 320, front * 320, length * 320, width * 320)


def pieces(region: Region, board: Roll = BOARD) -> tuple[Strip, ...]:
    return pieces_for(ROOM, "floor", region, board, "backer board")


def sizes(found: tuple[Strip, ...]) -> list[tuple[int, int]]:
    return [(s.length_mm320 // 320, s.width_mm320 // 320) for s in found]


def test_an_exact_multiple_has_no_cuts() -> None:
    # 2.4 x 1.8 m in boards of 1.2 x 0.6 m: 2 x 3
    assert sizes(pieces(box(0, 0, 2400, 1800))) == [(1200, 600)] * 6


def test_the_better_direction_is_kept() -> None:
    # 0.6 x 2.4 m: two boards end to end, not four side by side
    found = pieces(box(0, 0, 600, 2400))
    assert sizes(found) == [(1200, 600)] * 2
    assert all(s.turned for s in found)


def test_one_above_a_multiple_needs_another_row_of_cuts() -> None:
    assert sorted(sizes(pieces(box(0, 0, 2401, 1800)))) == [(1, 600)] * 3 + [(1200, 600)] * 6


def test_no_board_lies_beyond_an_l() -> None:
    # 2.4 x 0.6 m and 1.2 x 0.6 m beyond: three boards
    region = union([box(0, 0, 2400, 600), box(0, 600, 1200, 600)])
    assert sizes(pieces(region)) == [(1200, 600)] * 3


def test_offcuts_are_laid_in_other_rooms_with_a_saw_cut_between() -> None:
    # three rooms of 1.2 x 0.2 m: 3 x 200 mm and 2 cuts of 3 mm are wider than a board of 600 mm
    wanted = [replace(s, room=name) for name in "123" for s in pieces(box(0, 0, 1200, 200))]
    sawn, _ = plan_rolls(wanted, BOARD, "", Job())
    assert (sawn.rolls, sawn.lower_bound) == (2, 1)
    knife, _ = plan_rolls(wanted, BOARD, "", Job(kerf_mm320=0))
    assert knife.rolls == 1


def test_a_board_without_a_size_is_refused() -> None:
    found = pieces(box(0, 0, 1200, 600), replace(BOARD, width_mm320=0))
    plan, findings = plan_rolls(found, replace(BOARD, width_mm320=0), "", Job())
    assert ([f.code for f in findings], plan.rolls) == (["ROLL-TOO-SMALL"], 0)
