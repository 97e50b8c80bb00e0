"""Our tabs are found and read however a person, or another program, left them."""

from datetime import date, time, timedelta
from pathlib import Path

import openpyxl
import pytest
from books_read import read_book, rooms, values
from edited_books import HEADER_ROW, add, column_of, put, reworked, small_room_bytes
from hand_written_books import write_by_hand
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.workbook import Workbook
from openpyxl.worksheet.table import Table

from sheetcalc.excel.opc.errors import Refused
from sheetcalc.excel.reading import read

pytestmark = pytest.mark.usefixtures("no_child_left")


def test_the_generated_workbook_is_read_by_its_tables(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    book = read_book(path)
    table = book.tables["Rooms"]
    assert (table.table, table.sheet, table.header_row) == ("InRooms", "Rooms", HEADER_ROW)
    assert values(table, "Room") == ["Cloakroom"]
    assert values(table, "Length") == [1.8]
    assert table.headers["Length"] == "Length (m)"
    assert table.rows[0].cells["Length"].address == f"{table.letters['Length']}5"
    assert not table.missing
    assert not table.duplicated
    assert "Resistance log" in book.absent


def test_a_table_is_found_by_its_header_row_where_the_table_object_is_gone(path: Path) -> None:
    def without_tables(book: Workbook) -> None:
        for sheet in book:
            for name in list(sheet.tables):
                del sheet.tables[name]

    table = rooms(reworked(path, without_tables))
    assert (table.table, table.sheet) == ("", "Rooms")
    assert values(table, "Room") == ["Cloakroom"]


def test_a_renamed_tab_is_found_by_its_table_and_without_one_by_its_headers(path: Path) -> None:
    def renamed(book: Workbook) -> None:
        book["Rooms"].title = "Our bathrooms"

    assert rooms(reworked(path, renamed)).sheet == "Our bathrooms"

    def renamed_without_table(book: Workbook) -> None:
        renamed(book)
        del book["Our bathrooms"].tables["InRooms"]

    table = rooms(reworked(path, renamed_without_table))
    assert (table.sheet, table.table) == ("Our bathrooms", "")
    assert values(table, "Length") == [1.8]


def test_a_table_that_was_renamed_for_a_clash_is_still_ours(path: Path) -> None:
    def clash(book: Workbook) -> None:
        sheet = book["Rooms"]
        table = sheet.tables.pop("InRooms")
        table.name = table.displayName = "InRooms_2"
        sheet.add_table(table)
        other = book.create_sheet("Their own", 0)
        other.append(["Song", "Length"])
        other.append(["One", 4])
        other.add_table(Table(displayName="InRooms", ref="A1:B2"))

    assert rooms(reworked(path, clash)).sheet == "Rooms"


def test_columns_in_any_order_any_case_and_with_others_between_are_read(path: Path) -> None:
    def shuffled(book: Workbook) -> None:
        del book["Rooms"]
        sheet = book.create_sheet("Rooms")
        sheet.append(["My bathrooms"])
        sheet.append([])
        sheet.append(["Colour", " WIDTH (M) ", "finish", "Room*", "Length\n(m)", "Price"])
        sheet.append(["red", 1.2, "Plain", "Cloakroom", 1.8, 5])

    table = rooms(reworked(path, shuffled))
    assert table.header_row == 3
    assert table.letters["Width"] == "B"
    assert table.unknown == ("Colour", "Price")
    assert [table.rows[0].cells[h].value for h in ("Room", "Length", "Width", "Finish")] == [
        "Cloakroom", 1.8, 1.2, "Plain",
    ]  # fmt: skip
    assert {"Phase", "Count", "Note"} <= set(table.missing)


def test_rows_under_the_table_count_and_blank_rows_do_not(path: Path) -> None:
    def pasted(book: Workbook) -> None:
        for row in (400, 402):
            put(book, "Rooms", "Room", f"R{row}", row)
        put(book, "Rooms", "Note", "   ", 401)

    table = rooms(reworked(path, pasted))
    assert [row.row for row in table.rows] == [5, 400, 402]
    assert table.last_row == 402


def test_a_totals_row_is_skipped(path: Path) -> None:
    def with_totals(book: Workbook) -> None:
        sheet = book["Rooms"]
        table = sheet.tables["InRooms"]
        left, right = table.ref.split(":")
        column = "".join(c for c in right if c.isalpha())
        table.ref = f"{left}:{column}6"
        table.autoFilter = None
        table.totalsRowCount = 1
        put(book, "Rooms", "Room", "Total", 6)
        put(book, "Rooms", "Room", "Under it", 7)

    assert values(rooms(reworked(path, with_totals)), "Room") == ["Cloakroom", "Under it"]


def test_hidden_rows_count_and_are_counted(path: Path) -> None:
    def filtered(book: Workbook) -> None:
        add(book, "Rooms", Room="Hidden", Finish="Plain")
        book["Rooms"].row_dimensions[6].hidden = True

    table = rooms(reworked(path, filtered))
    assert values(table, "Room") == ["Cloakroom", "Hidden"]
    assert table.filtered == 1


def test_records_above_the_header_are_named_and_titles_are_none(path: Path) -> None:
    """A sort that took the header row along; above it stand a title and a line of the job's."""

    def sorted_with_header(book: Workbook) -> None:
        del book["Rooms"]
        sheet = book.create_sheet("Rooms")
        sheet.append(["Bathrooms of Larch Court"])
        sheet.append(["Architect", None, "15 March"])
        sheet.append(["Attic", 2.0, 1.0, "Plain"])
        sheet.append(["Room", "Length", "Width", "Finish"])
        sheet.append(["Spa", 3.0, 2.0, "Plain"])

    table = rooms(reworked(path, sorted_with_header))
    assert values(table, "Room") == ["Spa"]
    assert table.above == (3,)


def test_rows_with_a_struck_cell_are_named_and_empty_struck_cells_are_not(path: Path) -> None:
    def cancelled(book: Workbook) -> None:
        add(book, "Rooms", Room="Cancelled", Finish="Plain")
        add(book, "Rooms", Room="Kept", Finish="Plain")
        sheet = book["Rooms"]
        sheet["A6"].font = Font(strike=True)
        sheet["B7"].font = Font(strike=True)
        sheet["A7"].font = Font(strike=False)

    table = rooms(reworked(path, cancelled))
    assert values(table, "Room") == ["Cloakroom", "Cancelled", "Kept"]
    assert table.struck == (6,)


def test_ranges_that_a_rule_may_strike_through_are_named_where_they_hold_records(
    path: Path,
) -> None:
    def ruled(book: Workbook) -> None:
        rules = book["Rooms"].conditional_formatting
        strike, colour = Font(strike=True), Font(color="FF0000")
        rules.add("A5:D9", FormulaRule(["$D5=1"], font=colour))
        rules.add("A5:D9 A20:D30", FormulaRule(["$D5=2"], font=strike))
        rules.add("A20:D30", FormulaRule(["$D5=3"], font=strike))
        rules.add("B5", FormulaRule(["$D5=4"], font=Font(strike=False)))

    assert rooms(reworked(path, ruled)).struck_by_rule == ("A5:D9",)


def test_a_column_twice_is_told(path: Path) -> None:
    def doubled(book: Workbook) -> None:
        put(book, "Rooms", "Note", "Length", HEADER_ROW)

    assert rooms(reworked(path, doubled)).duplicated == ("Length",)


def test_cells_keep_what_they_are(path: Path) -> None:
    def typed(book: Workbook) -> None:
        put(book, "Rooms", "Room", 2.1)
        sheet = book["Rooms"]
        sheet.cell(5, column_of(book, "Rooms", "Room")).number_format = "0.00"
        put(book, "Rooms", "Length", "#REF!")
        sheet.cell(5, column_of(book, "Rooms", "Length")).data_type = "e"
        put(book, "Rooms", "Width", date(2027, 3, 4))
        put(book, "Rooms", "Take up thickness", timedelta(hours=60, minutes=30))
        put(book, "Rooms", "Count", True)  # noqa: FBT003 (a ticked cell)
        put(book, "Rooms", "Note", "=1+1")

    cells = rooms(reworked(path, typed)).rows[0].cells
    assert (cells["Room"].value, cells["Room"].number_format) == (2.1, "0.00")
    assert (cells["Length"].value, cells["Length"].error) == (None, "#REF!")
    assert cells["Width"].value == date(2027, 3, 4)
    # 60:30 is stored as 2.52 days, and would be a likely length if it were taken for a number
    assert cells["Take up thickness"].value == time(12, 30)
    assert cells["Count"].value is True
    assert (cells["Note"].formula, cells["Note"].has_value) == ("=1+1", False)


def test_dates_of_a_1904_book_are_read_in_its_epoch(path: Path) -> None:
    def epoch(book: Workbook) -> None:
        book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904  # type: ignore[misc]
        add(book, "Holidays", Date=date(2027, 5, 3))

    book = read_book(reworked(path, epoch))
    assert book.date_1904
    assert values(book.tables["Holidays"], "Date") == [date(2027, 5, 3)]


def test_texts_with_runs_entities_and_spaces_are_read_whole(path: Path) -> None:
    names = ["A & B <C>", 'quo"ted', "🛁 spa", "غرفة", " outer ", "tab\there", "=2+2"]

    def named(book: Workbook) -> None:
        for number, name in enumerate(names):
            cell = book["Rooms"].cell(5 + number, column_of(book, "Rooms", "Room"))
            cell.value = name
            cell.data_type = "s"

    assert values(rooms(reworked(path, named)), "Room") == names


def test_only_our_texts_of_a_large_workbook_are_looked_up(path: Path) -> None:
    def large(book: Workbook) -> None:
        other = book.create_sheet("Stock", 0)
        for number in range(3000):
            other.append([f"part {number}", number])

    book = read_book(reworked(path, large))
    assert values(book.tables["Rooms"], "Room") == ["Cloakroom"]


def test_a_tab_of_the_users_own_is_not_taken_for_ours(path: Path) -> None:
    def other(book: Workbook) -> None:
        del book["Holidays"]
        del book["Suppliers"]
        diary = book.create_sheet("Diary", 0)
        diary.append(["Date", "Note"])
        diary.append([date(2027, 5, 3), "fair"])

    assert {"Holidays", "Suppliers"} <= set(read_book(reworked(path, other)).absent)


def test_a_workbook_without_our_tabs_has_them_all_absent(path: Path) -> None:
    book = Workbook()
    book["Sheet"]["A1"] = "hello"
    book.save(path)
    found = read_book(path)
    assert not found.tables
    assert "Rooms" in found.absent
    assert found.sheets == ("Sheet",)


def test_a_file_that_is_no_workbook_is_refused(path: Path) -> None:
    path.write_bytes(b"hello, this is no workbook")
    with pytest.raises(Refused):
        read_book(path)


def test_a_child_that_dies_is_a_refusal_and_the_next_book_is_read(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    pending = read.start_reading(path)
    pending.kill()
    with pytest.raises(Refused) as refused:
        pending.result()
    assert refused.value.code == "READING-FAILED"
    assert values(rooms(path), "Room") == ["Cloakroom"]


def test_reading_that_takes_too_long_is_given_up(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    with pytest.raises(Refused) as refused:
        read.start_reading(path).result(seconds=0)
    assert refused.value.code == "READING-TAKES-TOO-LONG"


def test_a_workbook_that_takes_too_much_processor_time_is_given_up(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = "<row><c><v>1</v></c><c><v>2.5</v></c></row>"
    write_by_hand(path, row * 200_000)
    monkeypatch.setattr(read, "CPU_SECONDS", -1)
    read.end_idle_children()
    with pytest.raises(Refused) as refused:
        read_book(path)
    assert refused.value.code == "READING-TAKES-TOO-LONG"


def test_a_child_is_used_again_for_the_next_workbook(path: Path) -> None:
    path.write_bytes(small_room_bytes())
    read.end_idle_children()
    first = read.start_reading(path)
    first.result()
    second = read.start_reading(path)
    second.result()
    assert first.process_id == second.process_id
