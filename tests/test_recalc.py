"""The recalculation harness itself: a check that can't fail is no check."""

from pathlib import Path

import pytest
import recalc
from xlsxwriter import Workbook

pytestmark = pytest.mark.libreoffice


TOGETHER = recalc.Together()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    return TOGETHER.recalculated(tmp_path_factory.mktemp("harness"))


@TOGETHER.book
def one_wrong(path: Path) -> None:
    """A sum of 55 whose stored value is a deliberate 999, and a right one beside it."""
    workbook = Workbook(path)
    sheet = workbook.add_worksheet("Sums")
    for row in range(10):
        sheet.write_number(row, 0, row + 1)
    sheet.write_formula(0, 1, "=SUM(A1:A10)", None, 999)
    sheet.write_formula(1, 1, "=SUM(A1:A3)", None, 6)
    workbook.close()


@TOGETHER.book
def no_workbook(path: Path) -> None:
    """A package that is cut off, between two that are whole."""
    path.write_bytes(b"PK\x03\x04 and no more")


@TOGETHER.book
def another_wrong(path: Path) -> None:
    workbook = Workbook(path)
    workbook.add_worksheet("Sums").write_formula(0, 0, "=2*21", None, 999)
    workbook.close()


def test_a_wrong_stored_value_is_corrected_by_recalculating(book: recalc.Books) -> None:
    assert book(one_wrong).before["Sums", "B1"] == 999
    assert book(one_wrong).after["Sums", "B1"] == 55


def test_only_the_wrong_value_counts_as_a_difference(book: recalc.Books) -> None:
    found = recalc.differences(book(one_wrong).before, book(one_wrong).after)
    assert found == ["Sums!B1: stored 999, recalculated 55"]


def test_of_many_each_is_recalculated_for_itself(book: recalc.Books) -> None:
    assert book(another_wrong).after == {("Sums", "A1"): 42}
    assert ("Sums", "A1") in book(one_wrong).after
    assert book(one_wrong).saved != book(another_wrong).saved


def test_what_does_not_open_fails_the_tests_that_ask_for_it(book: recalc.Books) -> None:
    with pytest.raises(AssertionError, match=r"opened nothing that .*no_workbook"):
        book(no_workbook)


def test_one_alone_is_recalculated_too(book: recalc.Books) -> None:
    assert recalc.recalculate(book(another_wrong).path) == {("Sums", "A1"): 42}


def test_a_billionth_is_no_difference_but_for_packs_and_money() -> None:
    place = ("Order", "K5")
    before, after = {place: 2.0}, {place: 2.000000001}
    assert recalc.differences(before, after) == []
    assert len(recalc.differences(before, after, exactly=frozenset({place}))) == 1
