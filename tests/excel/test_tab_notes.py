"""What is said of a book's tabs before results are written into it."""

from pathlib import Path

import openpyxl
import pytest
from grafting import graft_into
from odd_packages import Features, write_book

from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.excel.tabs.tab_notes import book_notes

KEYS = ("findings", "takeoff")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = write_book(tmp_path / "book.xlsx", Features())
    graft_into(path, KEYS)
    return path


def change(path: Path, sheet: str, cell: str, value: object) -> None:
    workbook = openpyxl.load_workbook(path)
    workbook[sheet][cell] = value
    workbook.save(path)


def notes(path: Path, keys: tuple[str, ...] | None = None) -> list[tuple[str, object]]:
    return [(f.code, f.facts.get("tab")) for f in book_notes(path, find_in_file(path).tabs, keys)]


def test_a_book_as_the_last_run_left_it_needs_no_word(book: Path) -> None:
    assert notes(book) == []


def test_an_edited_tab_is_a_finding_as_long_as_it_is_kept(book: Path) -> None:
    change(book, "Takeoff", "A5", 7)
    (finding,) = book_notes(book, find_in_file(book).tabs)
    report = graft_into(book, KEYS)
    assert finding.code == "RESULT-TAB-EDITED"
    assert report.kept == {finding.facts["tab"]: finding.facts["kept"]}
    assert book_notes(book, find_in_file(book).tabs) == (finding,)
    change(book, "Takeoff (edited)", "B2", "looked at")  # texts go to the shared strings
    assert book_notes(book, find_in_file(book).tabs) == (finding,)
    workbook = openpyxl.load_workbook(book)
    del workbook["Takeoff (edited)"]
    workbook.save(book)
    assert notes(book) == []


def test_an_edited_order_that_no_run_makes_any_more_is_the_users_at_once(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features())
    graft_into(path, (*KEYS, "order:A & B"))
    change(path, "Order A & B", "A5", 7)
    told = book_notes(path, find_in_file(path).tabs, None, {"order:A & B"})
    assert [(f.code, f.facts) for f in told] == [("RESULT-TAB-FOREIGN", {"tab": "Order A & B"})]
    graft_into(path, KEYS, retire_others=True)
    assert book_notes(path, find_in_file(path).tabs, None, {"order:A & B"}) == told


def test_an_edited_order_is_told_of_by_its_name_again(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features())
    keys = (*KEYS, "order:A & B")
    graft_into(path, keys)
    change(path, "Order A & B", "A5", 7)
    told = book_notes(path, find_in_file(path).tabs)
    graft_into(path, keys)
    assert book_notes(path, find_in_file(path).tabs) == told


def test_an_edited_tab_that_this_run_leaves_alone_needs_no_word(book: Path) -> None:
    change(book, "Takeoff", "A5", 7)
    assert notes(book, ("findings",)) == []


def test_a_tab_with_our_signature_alone_is_a_finding(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook.copy_worksheet(workbook["Takeoff"]).title = "Takeoff of last week"
    workbook.save(book)
    assert notes(book) == [("RESULT-TAB-FOREIGN", "Takeoff of last week")]
    workbook = openpyxl.load_workbook(book)
    del workbook.defined_names["sheetcalc_tab_1"]
    workbook.save(book)
    assert ("RESULT-TAB-FOREIGN", "Findings") in notes(book)


def test_signed_and_locked_books_are_findings(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features(signed=True, locked=True))
    assert notes(path) == [("BOOK-SIGNED", None), ("BOOK-LOCKED", None)]
