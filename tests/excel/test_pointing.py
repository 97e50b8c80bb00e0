"""What of a person's points at tabs that are not there, or that nothing is put on any more."""

import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import openpyxl.chart
import pytest
from grafting import graft_into
from odd_packages import Features, write_book
from openpyxl.formatting.rule import FormulaRule
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation

from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.excel.tabs.tab_notes import book_notes, kept_tabs

KEYS = ("findings", "takeoff")
ORDER = "order:A & B"


def told(path: Path, idle: set[str] | None = None) -> list[tuple[str, object, object]]:
    notes = book_notes(path, find_in_file(path).tabs, None, idle or ())
    about = ("POINTS-AT-NO-TAB", "RESULT-TAB-KEPT")
    return [(f.code, f.facts["tab"], f.facts["cells"]) for f in notes if f.code in about]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = write_book(tmp_path / "book.xlsx", Features())
    graft_into(path, (*KEYS, ORDER))
    return path


def add(path: Path, change: Callable[[openpyxl.Workbook], object]) -> None:
    workbook = openpyxl.load_workbook(path)
    change(workbook)
    workbook.save(path)


def sums(workbook: openpyxl.Workbook) -> None:
    sheet = workbook.create_sheet("Bob's sums")
    sheet["B4"] = "='Order A & B'!A5+Takeoff!A5"
    sheet["B5"] = "=SUM('Order A & B'!A1:A9)&\"Order C!\""
    sheet["B6"] = "='[other.xlsx]Order A & B'!A5"
    sheet["B7"] = "=Takeoff!A5"


def test_cells_that_point_at_an_order_of_nothing_keep_its_tab(book: Path) -> None:
    add(book, sums)
    assert told(book) == []
    cells = "'Bob''s sums'!B4, 'Bob''s sums'!B5"
    assert told(book, {ORDER}) == [("RESULT-TAB-KEPT", "Order A & B", cells)]
    assert kept_tabs(book, find_in_file(book).tabs, {ORDER}) == (ORDER,)
    assert kept_tabs(book, find_in_file(book).tabs, ()) == ()


def test_cells_that_point_at_a_tab_that_has_gone_are_named(book: Path) -> None:
    add(book, sums)
    graft_into(book, KEYS, retire_others=True)
    cells = "'Bob''s sums'!B4, 'Bob''s sums'!B5"
    assert told(book, {ORDER}) == [("POINTS-AT-NO-TAB", "Order A & B", cells)]
    assert kept_tabs(book, find_in_file(book).tabs, {ORDER}) == ()


def by_span(workbook: openpyxl.Workbook) -> None:
    workbook.create_sheet("Mine")["C2"] = "=SUM('Takeoff:Order A & B'!A5)"


def by_table(workbook: openpyxl.Workbook) -> None:
    workbook.create_sheet("Mine")["C2"] = "=SUM(outorderab[Net])"


def by_rule(workbook: openpyxl.Workbook) -> None:
    rule = FormulaRule(formula=["A1>'Order A & B'!$A$5"])
    workbook.create_sheet("Mine").conditional_formatting.add("A1:A3", rule)


def by_choices(workbook: openpyxl.Workbook) -> None:
    choices = DataValidation(type="list", formula1="'Order A & B'!$A$5:$A$6")
    choices.add("A1")
    workbook.create_sheet("Mine").add_data_validation(choices)


def by_name(workbook: openpyxl.Workbook) -> None:
    workbook.defined_names["Goods"] = DefinedName("Goods", attr_text="'Order A & B'!$A$5")


def by_chart(workbook: openpyxl.Workbook) -> None:
    chart = openpyxl.chart.BarChart()
    sheet = workbook["Order A & B"]
    chart.add_data(openpyxl.chart.Reference(sheet, min_col=1, min_row=5, max_row=6))
    workbook.create_sheet("Mine").add_chart(chart)


@pytest.mark.parametrize(
    ("change", "place"),
    [
        (by_span, "Mine!C2"),
        (by_table, "Mine!C2"),
        (by_rule, "a rule on Mine"),
        (by_choices, "a rule on Mine"),
        (by_name, "the name Goods"),
        (by_chart, "a chart"),
    ],
)
def test_an_order_is_reached_in_many_ways(
    book: Path, change: Callable[[openpyxl.Workbook], None], place: str
) -> None:
    add(book, change)
    assert told(book) == []
    assert told(book, {ORDER}) == [("RESULT-TAB-KEPT", "Order A & B", place)]


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('sheet="Order A &amp; B" ref="A4:E6"', True),
        ('name="OutOrderAB"', True),
        ('sheet="Takeoff" ref="A4:E6"', False),
        ('r:id="rId1" sheet="Order A &amp; B" ref="A4:E6"', False),  # of another workbook
    ],
)
def test_a_pivot_table_of_an_order_keeps_its_tab(book: Path, source: str, *, found: bool) -> None:
    cache = (
        '<pivotCacheDefinition xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
        'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">'
        f'<cacheSource type="worksheet"><worksheetSource {source}/></cacheSource>'
        "</pivotCacheDefinition>"
    )
    kind = (
        '<Override PartName="/xl/pivotCache/pivotCacheDefinition9.xml" ContentType="application/'
        'vnd.openxmlformats-officedocument.spreadsheetml.pivotCacheDefinition+xml"/></Types>'
    )
    with zipfile.ZipFile(book) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    types = parts["[Content_Types].xml"].decode()
    parts["[Content_Types].xml"] = types.replace("</Types>", kind).encode()
    parts["xl/pivotCache/pivotCacheDefinition9.xml"] = cache.encode()
    with zipfile.ZipFile(book, "w") as new:
        for name, content in parts.items():
            new.writestr(name, content)
    kept = [("RESULT-TAB-KEPT", "Order A & B", "a pivot table")]
    assert told(book, {ORDER}) == (kept if found else [])


def test_a_chart_of_a_tab_that_is_missing_is_named_too(tmp_path: Path) -> None:
    path = tmp_path / "book.xlsx"
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    assert sheet
    sheet["A1"] = 1
    chart = openpyxl.chart.BarChart()
    chart.add_data(openpyxl.chart.Reference(sheet, min_col=1, min_row=1))
    chart.series[0].val.numRef.f = "'Gone'!$A$1"
    sheet.add_chart(chart)
    workbook.save(path)
    assert told(path) == [("POINTS-AT-NO-TAB", "Gone", "a chart")]


def test_a_formula_is_found_wherever_the_pieces_of_a_part_are_cut(tmp_path: Path) -> None:
    path = tmp_path / "book.xlsx"
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    assert sheet
    for row in range(1, 4001):
        sheet.cell(row, 1, f"=Gone!A{row}")
    workbook.save(path)
    ((_, _, cells),) = told(path)
    assert str(cells).endswith("Sheet!A12 and 3988 more")
