"""A tab goes when there is nothing for it any more, but breaks nobody's formulas."""

import shutil
from pathlib import Path

import openpyxl
import pytest
from edited_books import small_room_bytes
from recalc import convert
from whole_program import codes, rows_of, run, tabs, value_at

OLD, NEW = "Kiln & Quarry", "Other Stone"
TAB = f"Order - {OLD}"


@pytest.fixture(scope="module")
def of_another_supplier(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One room, its order and card made; then another supplier sells all of its goods."""
    path = tmp_path_factory.mktemp("tabs") / "room.xlsx"
    path.write_bytes(small_room_bytes())
    run(path, cards=True)
    workbook = openpyxl.load_workbook(path)
    for tab in ("Tiles", "Bags and pails", "Suppliers"):
        for row in workbook[tab].iter_rows(min_row=5):
            for cell in row:
                if cell.value == OLD:
                    cell.value = NEW
    (table,) = workbook[TAB].tables
    mine = workbook.create_sheet("Mine", 0)
    mine["A1"] = f"=SUM({table}[Amount])+1"
    mine["A2"] = "=SUM('Room cards'!A5:A6)+1"
    workbook.save(path)
    return path


@pytest.fixture
def book(of_another_supplier: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(of_another_supplier, tmp_path))


def test_tabs_stay_without_lines_while_a_formula_needs_them(book: Path, tmp_path: Path) -> None:
    before = tabs(book)
    report = run(book)
    assert codes(report).count("RESULT-TAB-KEPT") == 2
    after = tabs(book)
    assert {TAB, f"Order - {NEW}", "Room cards"} <= set(after)
    assert [name for name in after if name in before] == before
    first_tab = convert(book, "csv", tmp_path / "recalculated").read_text()
    assert first_tab.split() == ["1", "1"]  # nothing, and one
    assert value_at(book, "Room cards", "A5") == "no cards"
    texts = {value for row in rows_of(book, TAB) for value in row}
    assert {"nothing to order", "nothing is ordered", f"Order - {OLD}"} <= texts
    content = book.read_bytes()
    run(book)
    assert book.read_bytes() == content


def test_tabs_go_once_nothing_points_at_them(book: Path) -> None:
    run(book)
    workbook = openpyxl.load_workbook(book)
    del workbook["Mine"]
    workbook.save(book)
    report = run(book)
    assert "RESULT-TAB-KEPT" not in codes(report)
    assert not {TAB, "Room cards"} & set(tabs(book))
