"""Our tabs when another program has rewritten the file, and input tabs, which are the user's."""

from pathlib import Path

import openpyxl
import pytest
from excel.own_tab_books import KEYS, change, keys, names, with_results
from grafting import fresh_book, graft_into
from odd_packages import Features, write_book
from recalc import convert

from sheetcalc.excel.tabs.own_tabs import input_name


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return with_results(tmp_path / "book.xlsx")


def test_input_tabs_are_added_once_and_belong_to_the_user(tmp_path: Path) -> None:
    path = write_book(tmp_path / "book.xlsx", Features())
    first = graft_into(path, ("input:Rooms", "input:Build-up"))
    assert first.added == ["input:Rooms", "input:Build-up"]
    change(path, "Rooms", "A5", 3.5)
    second = graft_into(path, ("input:Rooms", "input:Build-up", "input:Tiles"))
    assert (second.left, second.added) == (["input:Rooms", "input:Build-up"], ["input:Tiles"])
    assert openpyxl.load_workbook(path)["Rooms"]["A5"].value == 3.5
    assert input_name("Build-up") in openpyxl.load_workbook(path).defined_names


def test_input_tabs_without_our_names_are_known_by_their_tables(tmp_path: Path) -> None:
    fresh, _ = fresh_book(("input:Rooms", "input:Tiles"))
    path = tmp_path / "blank.xlsx"
    path.write_bytes(fresh)
    report = graft_into(path, ("input:Rooms", "input:Tiles"))
    assert (report.left, report.added) == (["input:Rooms", "input:Tiles"], [])


@pytest.mark.libreoffice
def test_our_tabs_are_known_again_after_libreoffice_has_rewritten_the_file(
    book: Path, tmp_path: Path
) -> None:
    saved = convert(book, "xlsx", tmp_path / "office")
    assert keys(saved) == keys(book)
    graft_into(saved, KEYS)
    assert names(saved) == names(book)
    workbook = openpyxl.load_workbook(saved)
    assert workbook["Takeoff"].freeze_panes == "B5"
    assert workbook["Takeoff"].tables["OutTakeoff"].tableStyleInfo.name == "TableStyleLight1"


def test_our_tabs_are_known_again_after_openpyxl_has_rewritten_the_file(book: Path) -> None:
    workbook = openpyxl.load_workbook(book)
    workbook.save(book)
    assert [edited for _, _, edited in keys(book)] == [False, False, False]
    graft_into(book, KEYS)
    assert len(names(book)) == 6


def test_tabs_that_pandas_wrote_again_are_the_users(book: Path, tmp_path: Path) -> None:
    pandas = pytest.importorskip("pandas")
    frames = pandas.read_excel(book, sheet_name=None, header=None)
    saved = tmp_path / "frames.xlsx"
    with pandas.ExcelWriter(saved) as writer:
        for name, frame in frames.items():
            frame.to_excel(writer, sheet_name=name, header=False, index=False)
    assert keys(saved) == []
    report = graft_into(saved, KEYS)
    assert report.sheet_names["takeoff"] == "Takeoff (2)"
