"""The recalculation harness itself: a check that can't fail is no check."""

from pathlib import Path

import pytest
import recalc
from xlsxwriter import Workbook

pytestmark = pytest.mark.libreoffice


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A sum of 55 whose stored value is a deliberate 999, and a right one beside it."""
    path = tmp_path / "wrong.xlsx"
    workbook = Workbook(path)
    sheet = workbook.add_worksheet("Sums")
    for row in range(10):
        sheet.write_number(row, 0, row + 1)
    sheet.write_formula(0, 1, "=SUM(A1:A10)", None, 999)
    sheet.write_formula(1, 1, "=SUM(A1:A3)", None, 6)
    workbook.close()
    return path


def test_a_wrong_stored_value_is_corrected_by_recalculating(book: Path) -> None:
    assert recalc.cells(book)["Sums", "B1"] == 999
    assert recalc.recalculate(book)["Sums", "B1"] == 55


def test_only_the_wrong_value_counts_as_a_difference(book: Path) -> None:
    found = recalc.differences(recalc.cells(book), recalc.recalculate(book))
    assert found == ["Sums!B1: stored 999, recalculated 55"]


def test_a_billionth_is_no_difference_but_for_packs_and_money() -> None:
    place = ("Order", "K5")
    before, after = {place: 2.0}, {place: 2.000000001}
    assert recalc.differences(before, after) == []
    assert len(recalc.differences(before, after, exactly=frozenset({place}))) == 1
