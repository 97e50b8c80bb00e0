"""The recalculation harness itself: a check that can't fail is no check."""

from datetime import datetime
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


VALUES = (
    12, "12", 0.1 + 0.2, 1e-9, -3.5e20, True, "TRUE", "7.5%", "2027-06-07", "#N/A", "=1+1",
    '6" tile, grey', "two\nlines", "1/2", " spaces ", "ванная",
)  # fmt: skip


@TOGETHER.book
def of_every_kind(path: Path) -> None:
    workbook = Workbook(path, {"default_date_format": "yyyy-mm-dd"})
    share, inches = (workbook.add_format({"num_format": f}) for f in ("0%", "# ?/?"))
    sheet = workbook.add_worksheet("Kinds <&> 'odd', 100 %")
    for row, value in enumerate(VALUES):
        write = sheet.write_string if isinstance(value, str) else sheet.write
        write(row, 1, value)
    sheet.write_number(0, 2, 0.0812345678901, share)
    sheet.write_number(1, 2, 0.3333333333333, inches)
    sheet.write_datetime(2, 2, datetime(2027, 6, 7))  # noqa: DTZ001 - days have no zone
    sheet.write_formula(3, 2, "=1/0", None, "#DIV/0!")
    sheet.write_formula(4, 2, '=""', None, "")
    workbook.close()


def test_values_keep_their_kind_and_all_of_their_digits(book: recalc.Books) -> None:
    one = book(of_every_kind)
    assert len(one.after) == len(VALUES) + 4
    assert recalc.differences(one.before, one.after) == []
    assert {k: type(v) for k, v in one.after.items()} == {k: type(v) for k, v in one.before.items()}


def test_a_wrong_stored_value_is_corrected_by_recalculating(book: recalc.Books) -> None:
    assert book(one_wrong).before["Sums", "B1"] == 999
    assert book(one_wrong).after["Sums", "B1"] == 55


def test_only_the_wrong_value_counts_as_a_difference(book: recalc.Books) -> None:
    found = recalc.differences(book(one_wrong).before, book(one_wrong).after)
    assert found == ["Sums!B1: stored 999, recalculated 55"]


def test_of_many_each_is_recalculated_for_itself(book: recalc.Books) -> None:
    assert book(another_wrong).after == {("Sums", "A1"): 42}
    assert book(one_wrong).after["Sums", "A1"] == 1


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
