"""Sheets described as data become a workbook, exactly as said."""

import io
import re
import zipfile
from datetime import date
from decimal import Decimal

import pytest
from msgspec.structs import replace
from openpyxl import load_workbook
from openpyxl.workbook import Workbook
from xlsxwriter.exceptions import OverlappingRange

from sheetcalc.excel.generating.cells import NotWrittenError
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.generating.layout import row_height
from sheetcalc.excel.tabs.names import unique_sheet_names
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.sheet import (
    BookModel,
    Cell,
    ConditionalStyle,
    Picture,
    SheetColumn,
    SheetModel,
    TableModel,
    Validation,
)

STYLE = load_house_style()


def book(*tables: TableModel, loose: dict[tuple[int, int], Cell] | None = None) -> BookModel:
    sheet = SheetModel("t", "Test", "Title", "Purpose.", tables, loose or {})
    return BookModel((sheet,), {})


def table(*rows: tuple[Cell, ...], **words: int) -> TableModel:
    columns = (SheetColumn("Name", 20), SheetColumn("Amount", 12, "result_number"))
    return TableModel("OutTest", 4, 1, columns, rows, **words)


def read(model: BookModel, *, values: bool = True) -> Workbook:
    return load_workbook(io.BytesIO(write_book(model, STYLE)), data_only=values)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "https://example.com", "101"])
def test_text_stays_text(text: str) -> None:
    cell = read(book(loose={(5, 1): Cell(text)}), values=False)["Test"]["A5"]
    assert cell.value == text
    assert cell.data_type == "s"
    assert cell.hyperlink is None


@pytest.mark.parametrize("text", ["Zoë's bath", "浴室", "חדר", "🛁", 'quote " and <tag> & more'])
def test_any_script_survives(text: str) -> None:
    assert read(book(loose={(5, 1): Cell(text)}))["Test"]["A5"].value == text


def test_every_kind_of_value_is_written_as_itself() -> None:
    cells = {
        (5, 1): Cell(3), (5, 2): Cell(2.5), (5, 3): Cell(Decimal("12.30")),
        (5, 4): Cell(value=True),
        (5, 5): Cell(date(2027, 3, 1), "result_date"), (5, 6): Cell(None), (5, 7): Cell(""),
    }  # fmt: skip
    row = [cell.value for cell in read(book(loose=cells))["Test"][5]]
    assert row[:4] == [3, 2.5, 12.3, True]
    assert row[4].date() == date(2027, 3, 1)
    assert row[5:] == [None, None]


def test_a_formula_carries_its_value() -> None:
    model = book(loose={(5, 1): Cell(Decimal("3.10"), formula="1.55*2")})
    assert read(model)["Test"]["A5"].value == 3.1
    assert read(model, values=False)["Test"]["A5"].value == "=1.55*2"


@pytest.mark.parametrize("name", ["SORT(1)", "MAP(", "FILTER(a)", "{Kiln}", "UNIQUE("])
def test_a_quoted_text_in_a_formula_stays_as_it_is(name: str) -> None:
    formula = f'EXACT(A1,"{name}")'
    cells = {(5, 1): Cell("x", formula=formula)}
    looks = (ConditionalStyle("A5:A9", formula, "error"),)
    model = SheetModel("t", "Test", "Title", "Purpose.", loose=cells, conditional=looks)
    made = read(BookModel((model,), {}), values=False)["Test"]
    assert made["A5"].value == f"={formula}"
    assert [rule.formula for r in made.conditional_formatting for rule in r.rules] == [[formula]]


def test_a_formula_in_a_table_keeps_a_value_in_every_row() -> None:
    """The library's own column formula would store 0 in each."""
    rows = [(Cell("a"), Cell(float(n), "result_number", formula=f"{n}*1")) for n in (1, 2, 3)]
    sheet = read(book(table(*rows)))["Test"]
    assert [sheet[f"B{row}"].value for row in (5, 6, 7)] == [1, 2, 3]


def test_links_are_internal_https_or_mail_only() -> None:
    model = book(loose={(5, 1): Cell("there", "link", link="internal:'Test'!A1")})
    assert read(model)["Test"]["A5"].hyperlink.location == "'Test'!A1"
    for link in ("file:///etc/passwd", "http://example.com", "external:c.xlsx", "javascript:x"):
        with pytest.raises(NotWrittenError):
            write_book(book(loose={(5, 1): Cell("there", "link", link=link)}), STYLE)


def test_a_number_that_is_none_is_refused() -> None:
    with pytest.raises((NotWrittenError, TypeError)):
        write_book(book(loose={(5, 1): Cell(float("nan"))}), STYLE)


def test_text_that_does_not_fit_a_cell_is_refused() -> None:
    """A cell holds 32,767 characters; the library would cut it off with a warning at best."""
    with pytest.raises(NotWrittenError):
        write_book(book(loose={(5, 1): Cell("x" * 32_768)}), STYLE)


def test_an_unknown_style_is_refused() -> None:
    with pytest.raises(KeyError):
        write_book(book(loose={(5, 1): Cell("x", "no such style")}), STYLE)


def test_equal_content_is_equal_bytes_and_names_no_machine() -> None:
    model = book(table((Cell("a"), Cell(1, "result_number"))))
    first = write_book(model, STYLE)
    assert first == write_book(model, STYLE)
    package = zipfile.ZipFile(io.BytesIO(first))
    core = package.read("docProps/core.xml").decode()
    assert "<dc:creator></dc:creator>" in core
    assert re.findall(r"20\d\d-\d\d-\d\d", core) == ["2000-01-01", "2000-01-01"]


def test_a_table_has_its_name_headers_and_empty_rows_for_input() -> None:
    sheet = read(book(table((Cell("a"), Cell(1, "result_number")), empty_rows=3)))["Test"]
    made = sheet.tables["OutTest"]
    assert made.ref == "A4:B8"
    assert made.column_names == ["Name", "Amount"]
    assert sheet["A4"].value == "Name"


def test_a_table_without_records_still_has_a_row() -> None:
    assert read(book(table()))["Test"].tables["OutTest"].ref == "A4:B5"


def test_tables_that_overlap_are_refused() -> None:
    """A program that opens such a file offers to repair it, and drops one of the tables."""
    first = table((Cell("a"), Cell(1)), (Cell("b"), Cell(2)))
    there = replace(first, name="OutOther", row=6, column=2)
    with pytest.raises(OverlappingRange):
        write_book(book(first, there), STYLE)
    write_book(book(first, replace(there, row=7)), STYLE)
    write_book(book(first, replace(there, column=3)), STYLE)


def test_validations_are_enforced_below_the_table_too() -> None:
    columns = (
        SheetColumn("Kind", validation=Validation("list", words=("a", "b"), error="a or b")),
        SheetColumn("Count", validation=Validation("integer", low=1, high=9, message="How many")),
        SheetColumn("Ref", validation=Validation("list", "=names", alert="warning")),
        SheetColumn("Word", validation=Validation("any", message="Anything", enforce=False)),
    )
    model = book(TableModel("OutTest", 4, 1, columns, (), empty_rows=2, validated_rows=100))
    found = read(model)["Test"].data_validations.dataValidation
    by_column = {str(v.sqref)[0]: v for v in found}
    assert {str(v.sqref) for v in found} == {f"{c}5:{c}104" for c in "ABCD"}
    assert by_column["A"].formula1 == '"a,b"'
    assert by_column["A"].showErrorMessage
    assert by_column["A"].errorStyle in {None, "stop"}
    assert (by_column["B"].formula1, by_column["B"].formula2) == ("1", "9")
    assert by_column["C"].errorStyle == "warning"
    assert not by_column["D"].showErrorMessage
    assert by_column["D"].prompt == "Anything"


def test_a_message_too_long_for_a_validation_is_refused() -> None:
    column = SheetColumn("A", validation=Validation("any", message="x" * 256))
    with pytest.raises(NotWrittenError):
        write_book(book(TableModel("OutTest", 4, 1, (column,), ())), STYLE)


def test_every_sheet_prints_one_page_wide_with_its_header_repeated() -> None:
    sheet = read(book(table()))["Test"]
    assert sheet.page_setup.fitToHeight == 0
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert sheet.print_title_rows == "$4:$4"
    assert sheet.freeze_panes == "A5"
    assert sheet.page_setup.paperSize == 9
    letter = BookModel(book(table()).sheets, {}, paper="letter")
    assert read(letter)["Test"].page_setup.paperSize == 1


def test_nothing_is_merged_or_hidden() -> None:
    sheet = read(book(table()))["Test"]
    assert not sheet.merged_cells.ranges
    assert sheet.sheet_state == "visible"
    assert not any(d.hidden for d in sheet.column_dimensions.values())
    assert not any(d.hidden for d in sheet.row_dimensions.values())


def test_named_styles_are_there_for_a_workbook_that_stands_alone() -> None:
    made = write_book(book(table()), STYLE, named_styles=True)
    opened = load_workbook(io.BytesIO(made))
    assert "Sheetcalc header" in opened.named_styles
    assert opened["Test"]["A4"].style == "Sheetcalc header"
    assert opened["Test"]["A1"].style == "Sheetcalc title"


def test_looks_of_a_cell_are_explicit() -> None:
    cell = read(book(loose={(5, 1): Cell("x", "error")}))["Test"]["A5"]
    error = STYLE["error"]
    assert cell.font.color.rgb == "FF" + error.colour[1:]
    assert cell.fill.fgColor.rgb == "FF" + error.fill[1:]
    assert cell.border.left.color.rgb == "FF" + error.border[1:]
    assert cell.font.name == STYLE.font


def test_a_column_keeps_its_number_format_below_the_table() -> None:
    """So that room 2.10 pasted under the table stays 2.10."""
    columns = (SheetColumn("Room", 20, "input_code"),)
    sheet = read(book(TableModel("OutTest", 4, 1, columns, ())))["Test"]
    assert sheet.column_dimensions["A"].number_format == "@"
    assert sheet["A5"].number_format == "@"


def test_conditional_styles_and_pictures_are_written() -> None:
    png = bytes.fromhex(
        "89504e470d0a1a0a0000000d4948445200000001000000010802000000907753de0000000c49444154"
        "08d763f8ffff3f0005fe02fea735810d0000000049454e44ae426082"
    )
    sheet = SheetModel(
        "t", "Test", "Title", "Purpose.",
        conditional=(ConditionalStyle("A5:A9", 'LEFT(A5,5)="error"', "error"),),
        pictures=(Picture(6, 1, png, "A plan of the floor"),),
    )  # fmt: skip
    package = write_book(BookModel((sheet,), {}), STYLE)
    drawing = zipfile.ZipFile(io.BytesIO(package)).read("xl/drawings/drawing1.xml").decode()
    assert 'descr="A plan of the floor"' in drawing
    rules = load_workbook(io.BytesIO(package))["Test"].conditional_formatting
    assert [str(r.sqref) for r in rules] == ["A5:A9"]


def test_defined_names_are_written_for_the_whole_workbook() -> None:
    model = BookModel(book(table()).sheets, {"sheetcalc_tab_1": "Test!$A$1"})
    assert read(model).defined_names["sheetcalc_tab_1"].attr_text == "Test!$A$1"


def test_sheet_names_are_made_legal_and_unique() -> None:
    wanted = ["Order - a/b", "order - A-B", "x" * 40, "x" * 40, "'q'", "", "History", "a\nb"]
    made = unique_sheet_names(wanted)
    assert made[:2] == ["Order - a-b", "order - A-B (2)"]
    assert made[2:4] == ["x" * 31, "x" * 27 + " (2)"]
    assert made[4:] == ["q", "Tab", "History tab", "a b"]
    assert all(len(name) <= 31 for name in made)


@pytest.mark.parametrize(
    "supplier",
    [
        "Tile & Stone of the Quay 'Old' Ltd",  # cut to 31 signs, the name ends at an apostrophe
        "\N{BRICK}" * 30,  # each of these counts twice among the 31
        "'" * 40,
        "the lower quarry, yard no. 2 '' ''",
    ],
)
def test_a_tab_of_a_supplier_of_any_name_can_be_written(supplier: str) -> None:
    model = BookModel(book(table()).sheets, {})
    named = BookModel((replace(model.sheets[0], name=f"Order - {supplier}"),), {})
    (name,) = read(named).sheetnames
    assert len(name.encode("utf-16-le")) <= 2 * 31  # ECMA-376 part 1, 18.2.19: 31 code units
    assert name == name.strip(" '")


def test_wrapped_text_makes_its_row_as_high_as_it_needs() -> None:
    one = row_height("short", 20, 10)
    two = row_height("two lines of text in a narrow column", 20, 10)
    assert one < two
    assert row_height("a\nb\nc", 20, 10) > row_height("a\nb", 20, 10)
    assert row_height("x" * 100, 10, 10) > row_height("x" * 50, 10, 10)
    assert row_height("y" * 100_000, 10, 10) <= 409  # a row is at most 409 points high
