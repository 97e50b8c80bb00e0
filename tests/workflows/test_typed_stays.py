"""What people type into result tabs is never lost."""

from pathlib import Path

import openpyxl
import pytest
from whole_program import codes, example, find, quiet, rows_of, run, tabs, value_at
from xml_edits import Edits, Value

from sheetcalc import workflows
from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.workbook.results import TYPED_HEADERS


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return example(tmp_path / "example.xlsx")


@pytest.fixture
def with_cards(tmp_path: Path) -> Path:
    return example(tmp_path / "example.xlsx", cards=True)


EDITS: tuple[tuple[str, str, Value], ...] = (
    ("Takeoff", "Net", 99.0),
    ("Takeoff", "Gross", 99.0),  # over a formula
    ("Takeoff", "Basis", "as Rosa measured it"),
    ("Takeoff", "Phase", None),
    ("Order - Kiln & Quarry", "Packs", 7.0),
    ("Setting out", "Whole", "many"),
    ("Cable schedule", "Cable", "H-0100"),
    ("Room cards", "", "a note under the drawing"),
)


def place_of(book: Path, sheet: str, header: str) -> str:
    return find(book, sheet, header) if header else "B60"


@pytest.mark.parametrize(("sheet", "header", "value"), EDITS)
def test_any_one_edit_is_found(with_cards: Path, sheet: str, header: str, value: Value) -> None:
    book = with_cards
    assert not [tab for tab in find_in_file(book, TYPED_HEADERS).tabs if tab.edited]
    with Edits(book) as edits:
        edits.type(sheet, place_of(book, sheet, header), value)
    edited = [tab for tab in find_in_file(book, TYPED_HEADERS).tabs if tab.edited]
    assert [(tab.sheet_name, tab.kept_as) for tab in edited] == [(sheet, f"{sheet} (edited)"[:31])]


def test_edits_are_kept_and_a_finding_each_says_where_they_belong(with_cards: Path) -> None:
    book = with_cards
    typed = [(sheet, place_of(book, sheet, header), value) for sheet, header, value in EDITS]
    original = {(sheet, place): value_at(book, sheet, place) for sheet, place, _ in typed}
    with Edits(book) as edits:
        for sheet, place, value in typed:
            edits.type(sheet, place, value)
    report = run(book, cards=True)
    kept = {}
    for finding in report.findings:
        if finding.code == "RESULT-TAB-EDITED":
            assert finding.status == "warning"
            assert "input tab" in finding.what_to_do
            kept[finding.found.split('"')[1]] = finding.what_to_do.split('"')[1]
    assert set(kept) == {sheet for sheet, _, _ in typed}
    for sheet, place, value in typed:
        assert kept[sheet].endswith("(edited)")
        assert value_at(book, kept[sheet], place) == value
        assert value_at(book, sheet, place) == original[sheet, place]
    assert "RESULT-TAB-EDITED" in [row[1] for row in rows_of(book, "Findings") if len(row) > 1]
    once = book.read_bytes()
    assert codes(run(book, cards=True)) == codes(report)
    assert book.read_bytes() == once


def test_the_finding_goes_with_the_kept_tab(book: Path) -> None:
    place = find(book, "Takeoff", "Net")
    with Edits(book) as edits:
        edits.type("Takeoff", place, 99.0)
    run(book)
    workbook = openpyxl.load_workbook(book)
    del workbook["Takeoff (edited)"]
    workbook.save(book)
    assert "RESULT-TAB-EDITED" not in codes(run(book))


def test_a_kept_tab_may_be_changed_and_stays_as_it_is(book: Path) -> None:
    place = find(book, "Takeoff", "Net")
    for value in (99.0, 101.0):
        with Edits(book) as edits:
            edits.type("Takeoff", place, value)
        run(book)
    with Edits(book) as edits:
        edits.type("Takeoff (edited)", "A1", "Rosa's figures")
    run(book)
    assert value_at(book, "Takeoff (edited)", "A1") == "Rosa's figures"
    assert value_at(book, "Takeoff (edited)", place) == 99.0
    assert value_at(book, "Takeoff (edited) (2)", place) == 101.0
    assert "Takeoff (edited) (3)" not in tabs(book)


def test_an_edit_outlives_a_run_that_errors_stop(book: Path) -> None:
    place, finish = find(book, "Takeoff", "Net"), find(book, "Rooms", "Finish")
    with Edits(book) as edits:
        edits.type("Takeoff", place, 99.0)
        edits.type("Rooms", finish, "no such finish")
    assert workflows.takeoff(book, quiet).exit_code == 1
    assert value_at(book, "Takeoff", place) == 99.0
    with Edits(book) as edits:
        edits.type("Rooms", finish, "Standard")
    assert "RESULT-TAB-EDITED" in codes(run(book))
    assert value_at(book, "Takeoff (edited)", place) == 99.0


def test_the_edited_order_of_a_supplier_that_is_gone_stays(book: Path) -> None:
    order = "Order - Hollin Stores"
    place = find(book, order, "Packs")
    with Edits(book) as edits:
        edits.type(order, place, 7.0)
        for row in range(12):
            supplier = find(book, "Sundries", "Supplier", row)
            if value_at(book, "Sundries", supplier) == "Hollin Stores":
                edits.type("Sundries", supplier, "Ember Coil")
    first = run(book)
    assert value_at(book, order, place) == 7.0
    (foreign,) = [f for f in first.findings if f.code == "RESULT-TAB-FOREIGN"]
    assert f'"{order}"' in foreign.found
    once = book.read_bytes()
    assert codes(run(book)) == codes(first)
    assert book.read_bytes() == once


READING = {"Reading": 108.5, "Insulation reading": 550.0, "By": "R. Oduya", "Date": 46053.0}


def type_reading(book: Path, sheet: str = "Resistance log", row: int = 1) -> tuple[object, ...]:
    """Type a reading as a person on site does; says which cable and stage it is of."""
    places = {find(book, sheet, header, row): value for header, value in READING.items()}
    with Edits(book) as edits:
        for address, value in places.items():
            edits.type(sheet, address, value)
    return key_at(book, sheet, row)


def key_at(book: Path, sheet: str, row: int) -> tuple[object, ...]:
    headers = ("Room", "Zone", "Cable", "Stage")
    return tuple(value_at(book, sheet, find(book, sheet, header, row)) for header in headers)


def reading_at(book: Path, sheet: str, row: int) -> list[object]:
    return [value_at(book, sheet, find(book, sheet, header, row)) for header in READING]


def readings(book: Path, sheet: str = "Resistance log") -> dict[tuple[object, ...], list[object]]:
    """Key -> what was typed, of the rows that hold anything."""
    found = {}
    for row in range(30):
        typed = reading_at(book, sheet, row)
        if any(value not in {None, ""} for value in typed):
            found[key_at(book, sheet, row)] = [
                f"{value:g}" if isinstance(value, float | int) else str(value)[:10]
                for value in typed
            ]
    return found


TYPED = ["108.5", "550", "R. Oduya", "2026-01-31"]


def test_readings_survive_any_number_of_runs(book: Path) -> None:
    key = type_reading(book)
    for _ in range(2):
        report = run(book)
        assert "RESULT-TAB-EDITED" not in codes(report)
        assert readings(book) == {key: TYPED}


def test_readings_survive_a_renamed_moved_and_sorted_tab(book: Path) -> None:
    key = type_reading(book)
    log = "Measured by Rosa"
    with Edits(book) as edits:
        edits.turn_over("Resistance log", 5, 16)
        edits.rename("Resistance log", log)
        edits.move(log, 3)
    report = run(book)
    assert "RESULT-TAB-EDITED" not in codes(report)
    assert "Resistance log" not in tabs(book)
    assert readings(book, log) == {key: TYPED}


def test_readings_survive_a_renamed_table_on_a_renamed_tab(book: Path) -> None:
    key = type_reading(book)
    workbook = openpyxl.load_workbook(book)
    sheet = workbook["Resistance log"]
    table = sheet.tables.pop("OutReadings")
    table.name = table.displayName = "Rosas"
    sheet.add_table(table)
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell.value, str):
                cell.value = cell.value.replace("OutReadings[", "Rosas[")
    workbook.save(book)
    with Edits(book) as edits:
        edits.rename("Resistance log", "Rosa's log")
    run(book)
    assert readings(book, "Rosa's log") == {key: TYPED}


def test_readings_survive_a_run_that_errors_stop_and_a_changed_job(book: Path) -> None:
    key = type_reading(book)
    finish = find(book, "Rooms", "Finish")
    with Edits(book) as edits:
        edits.type("Rooms", finish, "no such finish")
    assert workflows.takeoff(book, quiet).exit_code == 1
    assert readings(book) == {key: TYPED}
    with Edits(book) as edits:
        edits.type("Rooms", finish, "Standard")
        edits.type("Finishes", find(book, "Finishes", "Joint"), 5.0)
    run(book)
    assert readings(book) == {key: TYPED}


def test_readings_in_an_edited_log_are_carried_over_and_kept(book: Path) -> None:
    key = type_reading(book)
    low = find(book, "Resistance log", "Expected low")
    with Edits(book) as edits:
        edits.type("Resistance log", low, 1.0)
    report = run(book)
    assert "RESULT-TAB-EDITED" in codes(report)
    assert readings(book) == {key: TYPED}
    assert value_at(book, "Resistance log (edited)", low) == 1.0
    assert readings(book, "Resistance log (edited)") == {key: TYPED}


def test_readings_survive_when_somebody_deletes_the_signature(book: Path) -> None:
    key = type_reading(book)
    with Edits(book) as edits:
        edits.type("Resistance log", "A3", None)
    run(book)
    assert readings(book) == {key: TYPED}  # theirs now
    assert readings(book, "Resistance log (2)") == {key: TYPED}
