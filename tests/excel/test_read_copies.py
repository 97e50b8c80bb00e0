"""A tab or table that somebody duplicated is told: only one of the two is read."""

from collections.abc import Callable
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
import xlsxwriter
from books_read import read_book, values
from edited_books import FIRST_ROW, add, put, reworked, small_room_bytes
from openpyxl import load_workbook
from openpyxl.utils import get_column_letter
from openpyxl.workbook import Workbook
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.table import Table

from sheetcalc.excel.reading.copies import WITHOUT_RECORDS
from sheetcalc.excel.tabs.own_tabs import RESULT_NAME, signature
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.results_tabs_heating import RESISTANCE_LOG

HEADERS = [column.header for column in RESISTANCE_LOG.columns]


pytestmark = pytest.mark.usefixtures("no_child_left")


def duplicated(tab: str, name: str) -> Callable[[Workbook], None]:
    """Duplicate a tab, as programs do that leave the table object behind."""

    def edit(book: Workbook) -> None:
        book.copy_worksheet(book[tab]).title = name

    return edit


@pytest.mark.parametrize(
    "name", ["Rooms (2)", "Rooms_2", "Rooms Copy", "Copy of Rooms", "Second floor"]
)
def test_a_duplicated_rooms_tab_is_told_whatever_it_is_called(path: Path, name: str) -> None:
    assert read_book(reworked(path, duplicated("Rooms", name))).copies == (("Rooms", f"{name}!A4"),)


@pytest.mark.parametrize("tab", [tab.key for tab in INPUT_TABS])
def test_every_input_tab_that_was_duplicated_is_told(path: Path, tab: str) -> None:
    name = f"{tab} (2)"

    def edit(book: Workbook) -> None:
        duplicated(tab, name)(book)
        book[name].cell(FIRST_ROW, 1).value = "something"

    assert read_book(reworked(path, edit)).copies == ((tab, f"{name}!A4"),)


def test_a_copy_that_brought_its_table_object_along_is_told_and_the_first_is_read(
    path: Path,
) -> None:
    def edit(book: Workbook) -> None:
        duplicated("Rooms", "Rooms (2)")(book)
        put(book, "Rooms (2)", "Room", "Bath of floor two")
        table = book["Rooms"].tables["InRooms"]
        book["Rooms (2)"].add_table(Table(displayName="InRooms3", ref=table.ref))

    book = read_book(reworked(path, edit))
    assert book.copies == (("Rooms", "Rooms (2)!A4"),)
    assert values(book.tables["Rooms"], "Room") == ["Cloakroom"]


def test_the_other_tab_is_told_where_the_copy_is_the_one_that_is_read(path: Path) -> None:
    """Columns were deleted from the first tab, so the second has more of our headers."""

    def edit(book: Workbook) -> None:
        duplicated("Rooms", "Rooms (2)")(book)
        del book["Rooms"].tables["InRooms"]
        book["Rooms"].delete_cols(12)

    book = read_book(reworked(path, edit))
    assert book.tables["Rooms"].sheet == "Rooms (2)"
    assert book.copies == (("Rooms", "Rooms!A4"),)


def test_a_copy_with_columns_taken_away_is_still_a_copy(path: Path) -> None:
    """Rooms has twelve columns; nine are three quarters."""

    def edit(book: Workbook) -> None:
        duplicated("Rooms", "Rooms (2)")(book)
        book["Rooms (2)"].delete_cols(10, 3)

    assert read_book(reworked(path, edit)).copies == (("Rooms", "Rooms (2)!A4"),)


@pytest.mark.parametrize(("column", "row"), [(1, 20), (20, 4), (20, 9)])
def test_a_second_table_on_the_tab_is_told(path: Path, column: int, row: int) -> None:
    """Below the first one, beside it, and beside and lower, each a table of its own."""

    def edit(book: Workbook) -> None:
        sheet = book["Rooms"]
        for down, source in enumerate(sheet.iter_rows(min_row=4, max_row=5)):
            for across, cell in enumerate(source):
                sheet.cell(row + down, column + across).value = cell.value
        last = sheet.cell(row + 1, column + 11).coordinate
        first = sheet.cell(row, column).coordinate
        sheet.add_table(Table(displayName="InRooms4", ref=f"{first}:{last}"))

    book = read_book(reworked(path, edit))
    where = f"Rooms!{get_column_letter(column)}{row}"
    assert book.copies == (("Rooms", where),)
    assert values(book.tables["Rooms"], "Room") == ["Cloakroom"]


def test_headers_typed_beside_the_table_with_rooms_under_them_are_told(path: Path) -> None:
    def edit(book: Workbook) -> None:
        headers = [cell.value for cell in book["Rooms"][4]][:12]
        for at, header in enumerate(headers):
            book["Rooms"].cell(4, 14 + at).value = header
        book["Rooms"].cell(5, 14).value = "Bath of floor two"

    assert read_book(reworked(path, edit)).copies == (("Rooms", "Rooms!N4"),)


def test_a_copy_whose_texts_are_shared_with_the_first_is_told(path: Path) -> None:
    """As most programs store them; what the other workbooks here have stands in their cells."""
    with xlsxwriter.Workbook(path) as book:
        for name, room in (("Rooms", "Attic"), ("Level 2", "Spa"), ("Diary", None)):
            sheet = book.add_worksheet(name)
            sheet.write_row(3, 0, ["Room", "Length", "Width", "Finish"] if room else ["Room"])
            sheet.write_row(4, 0, [room or "Attic", 2, 1, "Plain"])
    assert read_book(path).copies == (("Rooms", "Level 2!A4"),)


def test_an_empty_copy_and_a_tab_with_a_few_of_our_headers_are_left_alone(path: Path) -> None:
    def edit(book: Workbook) -> None:
        duplicated("Rooms", "Rooms (2)")(book)
        book["Rooms (2)"].delete_rows(5, 50)
        own = book.create_sheet("Overview")
        own.append(["Room", "Finish", "Length", "Width", "Painted by"])
        own.append(["Cloakroom", "Plain", 1.8, 1.2, "us"])

    assert not read_book(reworked(path, edit)).copies


def test_no_time_is_spent_on_the_tabs_that_nobody_fills_in() -> None:
    book = load_workbook(BytesIO(small_room_bytes()), read_only=True)
    assert set(book.sheetnames) - {tab.key for tab in INPUT_TABS} == WITHOUT_RECORDS


def test_dates_and_notes_are_a_copy_of_holidays_only_where_the_tab_is_called_so(path: Path) -> None:
    def edit(book: Workbook) -> None:
        add(book, "Holidays", Date=date(2027, 5, 3))
        duplicated("Holidays", "Holidays 2028")(book)
        duplicated("Holidays", "Site diary")(book)

    assert read_book(reworked(path, edit)).copies == (("Holidays", "Holidays 2028!A4"),)


@pytest.mark.parametrize("reading", [None, 52.1])
def test_a_copy_of_the_resistance_log_is_told_where_readings_stand_in_it(
    path: Path, reading: float | None
) -> None:
    def edit(book: Workbook) -> None:
        log = book.create_sheet(RESISTANCE_LOG.key)
        for row in ([RESISTANCE_LOG.key], [], [signature("resistance-log")], HEADERS, ["C1"]):
            log.append(row)
        name = f"{RESULT_NAME}resistance_log"
        book.defined_names[name] = DefinedName(name, attr_text=f"'{log.title}'!$A$3")
        log.add_table(
            Table(
                displayName=RESISTANCE_LOG.table, ref=f"A4:{log.cell(5, len(HEADERS)).coordinate}"
            )
        )
        copy = book.copy_worksheet(log)
        copy.title = "Log of block B"
        copy.cell(5, HEADERS.index("Reading") + 1).value = reading

    expected = () if reading is None else ((RESISTANCE_LOG.key, "Log of block B!A4"),)
    assert read_book(reworked(path, edit)).copies == expected
