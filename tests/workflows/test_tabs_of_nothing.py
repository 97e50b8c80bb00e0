"""A tab goes when there is nothing for it any more, but breaks nobody's formulas."""

from pathlib import Path

import openpyxl
import pytest
from recalc import recalculate
from samples import SAMPLES
from whole_program import codes, run

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style

OLD, NEW = "Kiln & Quarry", "Other Stone"
TAB = f"Order - {OLD}"


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """One room, its order and card made; then another supplier sells all of its goods."""
    path = tmp_path / "room.xlsx"
    content = write_book(SAMPLES["small-room.xlsx"](), load_house_style(), named_styles=True)
    path.write_bytes(content)
    run(path, cards=True)
    workbook = openpyxl.load_workbook(path)
    for tab in ("Tiles", "Bags and pails", "Suppliers"):
        for row in workbook[tab].iter_rows(min_row=5):
            for cell in row:
                if cell.value == OLD:
                    cell.value = NEW
    (table,) = workbook[TAB].tables
    mine = workbook.create_sheet("Mine")
    mine["A1"] = f"=SUM({table}[Amount])+1"
    mine["A2"] = "=SUM('Room cards'!A5:A6)+1"
    workbook.save(path)
    return path


def test_tabs_stay_without_lines_while_a_formula_needs_them(book: Path) -> None:
    before = openpyxl.load_workbook(book).sheetnames
    report = run(book)
    assert codes(report).count("RESULT-TAB-KEPT") == 2
    after = openpyxl.load_workbook(book).sheetnames
    assert {TAB, f"Order - {NEW}", "Room cards"} <= set(after)
    assert [name for name in after if name in before] == before
    made = recalculate(book)
    assert (made["Mine", "A1"], made["Mine", "A2"]) == (1, 1)  # nothing, and one
    assert made["Room cards", "A5"] == "no cards"
    texts = {cell.value for row in openpyxl.load_workbook(book)[TAB].iter_rows() for cell in row}
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
    assert not {TAB, "Room cards"} & set(openpyxl.load_workbook(book).sheetnames)
