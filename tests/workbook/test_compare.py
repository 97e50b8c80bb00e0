"""Two workbooks compared: inputs by record, and what a change did to quantities, packs, money."""

import json
import shutil
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import edited_books
import pytest
from click.testing import CliRunner
from openpyxl import load_workbook
from result_books import FIRST, bag, catalogue, inputs, line, run_of, tile
from typed_books import TypedBook

from sheetcalc import workflows
from sheetcalc.cli import main
from sheetcalc.comparing import money_changes, pack_changes, quantity_changes
from sheetcalc.domain.comparison import MoneyChange
from sheetcalc.domain.job import Job
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.workbook.compare_inputs import KEYS, compare_inputs
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.text_table import aligned

Edit = Callable[[TypedBook], None]


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


@pytest.fixture
def two(tmp_path: Path) -> Callable[[Edit], tuple[Path, Path]]:
    """The smallest sample, and the same with an edit."""

    def make(edit: Edit) -> tuple[Path, Path]:
        old = edited_books.edited(tmp_path / "old.xlsx", lambda _book: None)
        return old, edited_books.edited(tmp_path / "new.xlsx", edit)

    return make


def found(books: tuple[Path, Path]) -> list[tuple[str, ...]]:
    old, new = (start_reading(book).result() for book in books)
    return [(c.what, c.tab, c.record, c.column, c.old, c.new) for c in compare_inputs(old, new)]


def test_every_input_tab_has_columns_that_tell_its_records_apart() -> None:
    assert set(KEYS) == {tab.key for tab in INPUT_TABS}
    for tab in INPUT_TABS:
        assert set(KEYS[tab.key]) <= set(tab.by_header)


def test_equal_books_differ_in_nothing(two: Callable[[Edit], tuple[Path, Path]]) -> None:
    assert found(two(lambda _book: None)) == []


def test_a_changed_cell_is_told_by_its_record_and_column(
    two: Callable[[Edit], tuple[Path, Path]],
) -> None:
    def edit(book: TypedBook) -> None:
        edited_books.put(book, "Rooms", "Length", 2.4)
        for row in book["Job"].iter_rows(min_row=5):
            if row[0].value == "Overhead":
                row[1].value = 0.2

    assert found(two(edit)) == [
        ("changed", "Job", "Overhead", "Value", "10 %", "20 %"),
        ("changed", "Rooms", "Cloakroom", "Length", "1.8", "2.4"),
    ]


def test_the_order_of_records_means_nothing(two: Callable[[Edit], tuple[Path, Path]]) -> None:
    def edit(book: TypedBook) -> None:
        sheet = book["Bags and pails"]
        rows = [[c.value for c in sheet[row]] for row in (5, 6)]
        for row, values in zip((6, 5), rows, strict=True):
            for cell, value in zip(sheet[row], values, strict=True):
                cell.value = value

    assert found(two(edit)) == []


def test_new_and_vanished_records_are_told_whole(
    two: Callable[[Edit], tuple[Path, Path]],
) -> None:
    def edit(book: TypedBook) -> None:
        edited_books.add(book, "Suppliers", Supplier="Harbour Tiles", Lead_days=5)
        for cell in book["Bags and pails"][5]:
            cell.value = None

    changes = found(two(edit))
    assert ("added", "Suppliers", "Harbour Tiles", "", "", "Lead days 5") in changes
    assert [c[:2] for c in changes if c[0] == "removed"] == [("removed", "Bags and pails")]


def test_records_of_one_key_are_compared_in_their_order(
    two: Callable[[Edit], tuple[Path, Path]],
) -> None:
    def edit(book: TypedBook) -> None:
        for phase in ("a", "b"):
            edited_books.add(
                book, "Received", Phase="1", Supplier="Kiln & Quarry", Code="T-3030", Ordered=phase
            )

    names = [c[2] for c in found(two(edit))]
    assert names == ["1, Kiln & Quarry, T-3030", "1, Kiln & Quarry, T-3030, no. 2"]


def test_quantities_packs_and_money_follow_by_hand() -> None:
    """22 tiles in boxes of 10 at 48.50 are 3 boxes, 145.50; 44 are 5, 242.50."""
    goods = catalogue(tile("T1", FIRST), bag("M1", FIRST))
    old = run_of(inputs(goods), [line("T1", 22), line("M1", 0.0121, line("M1", 0).unit)])
    new = run_of(inputs(goods), [line("T1", 44), line("M1", 0.0121, line("M1", 0).unit)])
    assert [(q.item, q.old, q.new) for q in quantity_changes(old, new)] == [("T1", 22, 44)]
    (packs,) = pack_changes(old, new)
    assert (packs.old_packs, packs.new_packs) == (3, 5)
    assert (packs.old_amount, packs.new_amount) == (Decimal("145.50"), Decimal("242.50"))
    before, after = old.orders[0].total, new.orders[0].total
    assert money_changes(old, new) == (MoneyChange("Orders to Kiln & Quarry", before, after),)
    assert after - before == Decimal("97.00")


def test_a_price_alone_changes_no_packs_but_their_amount() -> None:
    old = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 22)])
    dearer = catalogue(tile("T1", FIRST, price=Decimal("50.00")))
    new = run_of(inputs(dearer), [line("T1", 22)])
    assert quantity_changes(old, new) == ()
    (packs,) = pack_changes(old, new)
    assert packs.new_amount == Decimal("150.00")
    assert packs.old_packs == packs.new_packs == 3


def test_an_item_without_a_price_has_no_amount() -> None:
    old = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 22)])
    new = run_of(inputs(catalogue(tile("T1", FIRST, price=None))), [line("T1", 22)])
    (packs,) = pack_changes(old, new)
    assert packs.new_amount is None


def test_a_price_that_is_gone_is_no_money_saved() -> None:
    """145.50 for three boxes, then no price: the sums differ, and no difference is worked out."""
    old = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 22)])
    new = run_of(inputs(catalogue(tile("T1", FIRST, price=None))), [line("T1", 22)])
    (change,) = money_changes(old, new)
    assert (change.old - change.new, change.difference) == (Decimal("145.50"), None)
    assert change.note == "B lacks prices"
    (back,) = money_changes(new, old)
    assert (back.difference, back.note) == (None, "A lacks prices")


def test_sums_in_two_currencies_are_not_subtracted() -> None:
    goods = catalogue(tile("T1", FIRST))
    euros = run_of(inputs(goods, job=Job(currency="EUR")), [line("T1", 22)])
    dollars = run_of(inputs(goods, job=Job(currency="USD")), [line("T1", 44)])
    (money,) = money_changes(euros, dollars)
    assert (money.difference, money.note) == (None, "A is in EUR, B in USD")
    (packs,) = pack_changes(euros, dollars)
    assert (packs.old_amount, packs.new_amount) == (Decimal("145.50"), Decimal("242.50"))
    assert packs.difference is None


def test_numbers_stand_to_the_right_and_long_text_is_cut() -> None:
    text = aligned(("Item", "Packs"), [("A", 3), ("B" * 60, 12)])
    lines = text.splitlines()
    assert lines[1].endswith("  3")
    assert lines[2].endswith("… " + " " * 4 + "12")
    assert len({len(one) for one in lines[1:]}) == 1


def test_two_books_with_everything_in_a_workbook_of_its_own(
    two: Callable[[Edit], tuple[Path, Path]], tmp_path: Path
) -> None:
    old, new = two(lambda book: edited_books.put(book, "Rooms", "Length", 2.4))
    before = old.read_bytes(), new.read_bytes()
    made = tmp_path / "comparison.xlsx"
    report = workflows.compare(old, new, quiet, to=made)
    assert report.exit_code == 0
    assert (old.read_bytes(), new.read_bytes()) == before
    sheets = load_workbook(made)
    assert sheets.sheetnames == ["Inputs", "Quantities", "Packs", "Money"]
    assert [c.value for c in sheets["Inputs"][5]][:4] == ["changed", "Rooms", "Cloakroom", "Length"]
    again = CliRunner().invoke(main, ["compare", str(old), str(new), "--to", str(made)])
    assert again.exit_code == 3, "a file that is there is not overwritten"
    assert again.output.index("FILE-EXISTS") > again.output.index("Money"), "seen below the tables"


def test_a_book_with_its_backup(two: Callable[[Edit], tuple[Path, Path]]) -> None:
    old, _ = two(lambda _book: None)
    workflows.takeoff(old, quiet, cards=False)
    (backup,) = old.parent.glob("old.backup-*.xlsx")
    report = workflows.compare(backup, old, quiet)
    assert report.exit_code == 0
    assert report.data["inputs"] == []
    assert report.data["packs"] == []


def test_books_with_errors_are_compared_by_their_inputs(
    two: Callable[[Edit], tuple[Path, Path]],
) -> None:
    books = two(lambda book: edited_books.put(book, "Rooms", "Finish", "Plian"))
    report = workflows.compare(*books, quiet)
    assert report.exit_code == 1
    assert "Finish" in report.text
    assert set(report.data) == {"inputs"}
    assert "only its inputs are compared" in report.books[0].summary


def test_the_command_prints_tables_or_json(two: Callable[[Edit], tuple[Path, Path]]) -> None:
    books = [str(b) for b in two(lambda book: edited_books.put(book, "Rooms", "Length", 2.4))]
    shown = CliRunner().invoke(main, ["compare", *books])
    assert shown.exit_code == 0
    assert "Quote: Total" in shown.output
    told = CliRunner().invoke(main, ["compare", *books, "--quiet"]).output
    assert told.startswith("new.xlsx against old.xlsx: differences in inputs: 1, in quantities: ")
    assert told.count("\n") == 1
    data = json.loads(CliRunner().invoke(main, ["compare", *books, "--json"]).output)
    assert data["inputs"][0]["B"] == "2.4"
    assert {"quantities", "packs", "money"} <= set(data)


def test_a_file_that_is_no_workbook_ends_with_3(
    two: Callable[[Edit], tuple[Path, Path]], tmp_path: Path
) -> None:
    old, _ = two(lambda _book: None)
    other = Path(shutil.copy(__file__, tmp_path / "text.xlsx"))
    assert workflows.compare(old, other, quiet).exit_code == 3
