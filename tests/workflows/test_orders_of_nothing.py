"""An order's tab goes when nothing is ordered on it any more, but breaks nobody's formulas."""

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
    """One room, its order made; then another supplier sells all of its goods."""
    path = tmp_path / "room.xlsx"
    content = write_book(SAMPLES["small-room.xlsx"](), load_house_style(), named_styles=True)
    path.write_bytes(content)
    run(path)
    workbook = openpyxl.load_workbook(path)
    for tab in ("Tiles", "Bags and pails", "Suppliers"):
        for row in workbook[tab].iter_rows(min_row=5):
            for cell in row:
                if cell.value == OLD:
                    cell.value = NEW
    (table,) = workbook[TAB].tables
    mine = workbook.create_sheet("Mine")
    mine["A1"] = f"=SUM({table}[Amount])+1"
    workbook.save(path)
    return path


def test_the_tab_stays_without_lines_while_a_formula_needs_it(book: Path) -> None:
    report = run(book)
    assert "ORDER-TAB-KEPT" in codes(report)
    assert {TAB, f"Order - {NEW}"} <= set(openpyxl.load_workbook(book).sheetnames)
    assert recalculate(book)["Mine", "A1"] == 1  # nothing, and one
    texts = {cell.value for row in openpyxl.load_workbook(book)[TAB].iter_rows() for cell in row}
    assert {"nothing to order", "nothing is ordered", f"Order - {OLD}"} <= texts
    content = book.read_bytes()
    run(book)
    assert book.read_bytes() == content


def test_the_tab_goes_once_nothing_points_at_it(book: Path) -> None:
    run(book)
    workbook = openpyxl.load_workbook(book)
    del workbook["Mine"]
    workbook.save(book)
    report = run(book)
    assert "ORDER-TAB-KEPT" not in codes(report)
    assert TAB not in openpyxl.load_workbook(book).sheetnames
