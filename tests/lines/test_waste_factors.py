"""Which waste factor wins."""

import itertools

import pytest
from hand_made import catalogue
from msgspec.structs import replace

from sheetcalc.domain.catalogue import WasteFactor
from sheetcalc.domain.finding import RowRef
from sheetcalc.lines.waste import check_waste_factors, waste_for


def row(number: int, share: float, **criteria: str) -> WasteFactor:
    plain = WasteFactor("tile", None, None, None, share, RowRef("Waste factors", number))
    return replace(plain, **criteria)


LINE = row(5, 0.01)
LINE_BOND = row(6, 0.02, bond="grid")
LINE_FINISH = row(7, 0.03, finish="F")
LINE_FINISH_BOND = row(8, 0.04, finish="F", bond="grid")


def used(*rows: WasteFactor, finish: str = "F", bond: str = "grid") -> float:
    return waste_for(catalogue(waste=rows), "tile", finish, bond, "setting-out").share


@pytest.mark.parametrize("rows", list(itertools.permutations((LINE, LINE_BOND, LINE_FINISH))))
def test_line_and_finish_win_over_line_and_bond_in_any_order(
    rows: tuple[WasteFactor, ...],
) -> None:
    assert used(*rows) == 0.03


def test_the_most_specific_row_wins() -> None:
    rows = (LINE_FINISH_BOND, LINE, LINE_BOND, LINE_FINISH)
    assert used(*rows) == 0.04
    assert used(*rows, bond="offset 1/2") == 0.03
    assert used(*rows, finish="OTHER") == 0.02
    assert used(*rows, finish="OTHER", bond="offset 1/2") == 0.01


def test_rows_of_other_lines_finishes_bonds_and_counts_do_not_match() -> None:
    rows = (
        row(5, 0.5, line="grout"),
        row(6, 0.5, finish="OTHER"),
        row(7, 0.5, bond="herringbone"),
        row(8, 0.5, counted_by="area"),
    )
    assert used(*rows) == 0.03  # the stated default of tiles from a setting-out


def test_a_row_that_names_counted_by_wins_over_one_that_is_otherwise_alike() -> None:
    assert used(LINE, row(9, 0.09, counted_by="setting-out")) == 0.09
    assert used(LINE_BOND, row(9, 0.09, counted_by="setting-out")) == 0.02


def test_the_winner_can_be_found_again_by_its_criteria() -> None:
    waste = waste_for(catalogue(waste=(LINE, LINE_FINISH)), "tile", "F", "grid", "area")
    assert waste.criteria == ("tile", "F", "", "")
    assert waste.source == RowRef("Waste factors", 7)
    assert waste.note == "waste 3 % by Waste factors (tile + F)"


def test_a_missing_row_uses_the_stated_default_and_says_so() -> None:
    waste = waste_for(catalogue(), "mortar", "F")
    assert (waste.share, waste.source, waste.criteria) == (0.05, None, None)
    assert waste.note.startswith("default waste 5 % for working loss")


def test_a_factor_of_nothing_is_a_factor() -> None:
    assert used(row(5, 0.0)) == 0.0


def test_two_equally_specific_rows_are_a_finding_at_the_later() -> None:
    rows = (LINE, LINE_FINISH, row(9, 0.06, finish="F"))
    (finding,) = check_waste_factors(catalogue(waste=rows))
    assert finding.code == "WASTE-FACTOR-TWICE"
    assert finding.source == RowRef("Waste factors", 9)
    assert finding.facts == {
        "criteria": "tile, F", "other_row": 7, "share": "6 %", "other_share": "3 %",
    }  # fmt: skip


def test_rows_that_differ_by_counted_by_are_no_finding() -> None:
    rows = (row(5, 0.03, counted_by="setting-out"), row(6, 0.10, counted_by="area"))
    assert list(check_waste_factors(catalogue(waste=rows))) == []
