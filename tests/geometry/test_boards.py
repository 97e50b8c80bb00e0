"""Boards and mats in a grid, by hand."""

from sheetcalc.geometry.boards import boards_over
from sheetcalc.geometry.regions import rectangle, union


def test_an_exact_multiple_has_no_cuts() -> None:
    # 2.4 x 1.8 m in boards of 1.2 x 0.6 m: 2 x 3
    boards = boards_over(rectangle(0, 0, 2400, 1800), 1200, 600)
    assert (boards.whole, boards.cut, boards.lower_bound) == (6, 0, 6)


def test_the_better_direction_is_kept() -> None:
    # 0.6 x 2.4 m: two boards end to end, not four side by side
    assert boards_over(rectangle(0, 0, 600, 2400), 1200, 600).count == 2


def test_one_above_a_multiple_needs_another_row_of_cuts() -> None:
    boards = boards_over(rectangle(0, 0, 2401, 1800), 1200, 600)
    assert (boards.whole, boards.cut, boards.lower_bound) == (6, 3, 7)


def test_no_board_lies_beyond_an_l() -> None:
    # 2.4 x 0.6 m and 1.2 x 0.6 m beyond: three boards
    region = union([rectangle(0, 0, 2400, 600), rectangle(0, 600, 1200, 600)])
    assert boards_over(region, 1200, 600).count == 3
