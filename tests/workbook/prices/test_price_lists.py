"""Suppliers' price lists: headers matched, values read strictly, changes shown before written."""

import shutil
from pathlib import Path

import edited_books
import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook
from typed_books import TypedBook

from sheetcalc import workflows
from sheetcalc.domain.measure import JobUnits
from sheetcalc.domain.price_list import Grid, PricePlan
from sheetcalc.excel.reading.price_list import read_price_list
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.workbook.prices.headers import find_table, implied_per
from sheetcalc.workbook.prices.plan import Wanted, plan_prices
from sheetcalc.workbook.raw import RawBook

UNITS = JobUnits()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The smallest sample, its tile with a supplier's code, and the same code elsewhere."""

    def edit(made: TypedBook) -> None:
        edited_books.put(made, "Tiles", "Supplier code", "KQ-30302")
        edited_books.put(made, "Tiles", "Price", 21.9)
        edited_books.put(made, "Tiles", "Lead days", None)
        made["Sundries"].cell(2, 2).value = "=1+1"

    return edited_books.edited(tmp_path_factory.mktemp("prices") / "book.xlsx", edit)


@pytest.fixture(scope="module")
def raw(book: Path) -> RawBook:
    return start_reading(book).result()


def plan(
    raw: RawBook, text: str, wanted: Wanted | None = None, *, comma: bool = False
) -> PricePlan:
    """Plan of a list with bars between its cells."""
    rows = tuple(
        tuple(cell.strip() or None for cell in line.split("|"))
        for line in text.strip().splitlines()
    )
    return plan_prices((Grid("", rows, comma=comma),), raw, UNITS, wanted)


def changes(made: PricePlan) -> dict[str, tuple[str, str, str]]:
    return {change.column: (change.what, change.old, change.new) for change in made.changes}


def codes(made: PricePlan) -> list[str]:
    return [finding.code for finding in made.findings]


# --- matching -----------------------------------------------------------------------------------


def test_the_preview_tells_what_is_known_and_what_is_taken(raw: RawBook) -> None:
    """Nothing is taken of a list whose only item is not in the workbook; its columns are known."""
    made = plan(raw, "Code | Net price | Colour\nNOWHERE | 31.5 | red")
    assert [(c.found, c.meant, c.known) for c in made.columns] == [
        ("Code", "Code", "Code"), ("Net price", "", "Price"), ("Colour", "", ""),
    ]  # fmt: skip
    made = plan(raw, "Code | Net price | Colour\nT-3030 | 31.5 | red")
    assert [c.meant for c in made.columns] == ["Code", "Price", ""]


def test_items_are_found_by_our_code_or_by_the_suppliers(raw: RawBook) -> None:
    for header, code in (("Code", "T-3030"), ("Art. No.", "KQ-30302"), ("SKU", "kq-30302")):
        made = plan(raw, f"{header}|Price\n{code}|23.90")
        assert changes(made) == {"Price": ("changed", "21.9", "23.9")}, header


def test_a_header_called_code_may_hold_the_suppliers_codes(raw: RawBook) -> None:
    assert changes(plan(raw, "Code|Price\nKQ-30302|23.90"))["Price"][2] == "23.9"


def test_the_table_is_found_below_a_letterhead(raw: RawBook) -> None:
    text = (
        "Kiln & Quarry||\nValid from 1 March||\n||\nArticle no.|Text|Net price (EUR)\nKQ-30302|x|25"
    )
    made = plan(raw, text)
    assert made.header_row == 4
    assert changes(made)["Price"] == ("changed", "21.9", "25")
    assert [(c.found, c.meant) for c in made.columns] == [
        ("Article no.", "Supplier code"), ("Text", "Description"), ("Net price (EUR)", "Price"),
    ]  # fmt: skip


def test_a_list_without_codes_or_prices_is_a_finding(raw: RawBook) -> None:
    assert codes(plan(raw, "Colour|Remarks\nred|none")) == ["PRICE-LIST-NO-TABLE"]


def test_what_agrees_already_is_no_change(raw: RawBook) -> None:
    made = plan(raw, "Code|Price\nT-3030|21.90")
    assert made.changes == ()
    assert made.same == 1


def test_other_columns_only_fill_empty_cells_unless_told(raw: RawBook) -> None:
    text = "Code|Price|Description|Lead days\nT-3030|21.90|Another name|12"
    assert changes(plan(raw, text)) == {"Lead days": ("filled", "", "12")}
    everything = changes(plan(raw, text, Wanted(everything=True)))
    assert everything["Description"][2] == "Another name"


def test_codes_that_the_workbook_has_not_are_named(raw: RawBook) -> None:
    made = plan(raw, "Code|Price\nT-3030|23\nT-9999|9")
    assert made.unknown == ("T-9999",)


def test_a_new_item_is_added_where_the_list_says_all_that_its_tab_must_have(raw: RawBook) -> None:
    text = (
        "Code|Description|Length (mm)|Width (mm)|Thickness (mm)|Pieces per box|Price\n"
        "T-9999|Large|900|450|10|4|39.50"
    )
    made = plan(raw, text)
    row = raw.tables["Tiles"].last_row + 1
    assert {(c.what, c.tab) for c in made.changes} == {("added", "Tiles")}
    assert {int("".join(filter(str.isdigit, c.cell))) for c in made.changes} == {row}


def test_prices_by_area_say_so_in_their_header(raw: RawBook) -> None:
    made = changes(plan(raw, "Code|Price/m²\nT-3030|21.90"))
    assert made == {"Price per": ("filled", "", "area")}


def test_prices_for_another_unit_of_area_are_refused(raw: RawBook) -> None:
    assert codes(plan(raw, "Code|Price per ft²\nT-3030|2.90")) == ["PRICE-LIST-UNIT"]


@pytest.mark.parametrize(
    ("words", "per"),
    [
        ("Price per box", "box"),
        ("Price/piece", "piece"),
        ("Price each", "piece"),
        ("Price per m2", "area"),
    ],
)
def test_what_a_price_is_for_is_read_from_its_header(words: str, per: str) -> None:
    table = find_table((Grid("", (("Code", words),)),))
    assert table is not None
    assert implied_per(table.headings[1])[0] == per


# --- values -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "comma", "value"),
    [
        ("23.90", False, 23.9), ("1,234.50", False, 1234.5), ("EUR 23.90", False, 23.9),
        ("23,90 €", True, 23.9), ("1.234,50", True, 1234.5), ("1 234,50", True, 1234.5),
        ("2'100.00", False, 2100.0), ("CHF 2\u2019100.00", False, 2100.0),
        ("1\u202f044,80 €", True, 1044.8),
    ],
)  # fmt: skip
def test_prices_are_read_with_their_currency_and_marks(
    raw: RawBook, text: str, value: float, *, comma: bool
) -> None:
    made = plan(raw, f"Code|Price\nT-3030|{text}", comma=comma)
    assert [change.value for change in made.changes] == [value]


@pytest.mark.parametrize("text", ["from 31.5", "1,234", "12.50-", "-3.00", "23,90"])
def test_a_price_that_may_mean_two_things_or_none_is_a_finding(raw: RawBook, text: str) -> None:
    made = plan(raw, f"Code|Price\nT-3030|{text}")
    assert codes(made) == ["PRICE-LIST-VALUE"]
    assert made.changes == ()


@pytest.mark.parametrize("text", ["=B2*1.05", "#DIV/0!", "#N/A"])
@pytest.mark.parametrize("column", ["Price", "Description"])
def test_what_the_list_has_not_worked_out_is_a_finding(
    raw: RawBook, column: str, text: str
) -> None:
    made = plan(raw, f"Code|Supplier code|{column}\nT-3030|ours|{text}")
    assert codes(made) == ["PRICE-LIST-VALUE"]
    assert column not in {change.column for change in made.changes}


@pytest.mark.parametrize(
    ("text", "comma", "hint"),
    [
        ("28.5", True, "this list is read with a decimal comma"),
        ("28,5", False, "this list is read with a decimal point"),
        ("-4", False, "from 0 to 1000000"),
        ("from 31.5", False, "a number is wanted"),
    ],
)
def test_a_price_that_is_refused_is_told_why(
    raw: RawBook, text: str, hint: str, *, comma: bool
) -> None:
    (found,) = plan(raw, f"Code|Price\nT-3030|{text}", comma=comma).findings
    assert found.facts["hint"] == hint


def test_a_code_twice_with_different_prices_is_a_finding_and_is_not_taken(raw: RawBook) -> None:
    made = plan(raw, "Code|Price\nT-3030|23\nT-3030|24")
    assert codes(made) == ["PRICE-LIST-CODE-TWICE"]
    assert made.findings[0].facts["rows"] == "2, 3"
    assert made.changes == ()


@pytest.mark.parametrize(
    ("price", "asked"),
    [
        ("43.70", False),
        ("43.80", True),
        ("2190", True),
        ("11", False),
        ("10.95", True),
        ("0", True),
    ],
)
def test_a_price_that_doubles_or_halves_is_asked_about(
    raw: RawBook, price: str, *, asked: bool
) -> None:
    """The tile costs 21.90; twice that is 43.80, half of it 10.95."""
    made = plan(raw, f"Code|Price\nT-3030|{price}")
    assert codes(made) == (["PRICE-LIST-LEAP"] if asked else [])
    assert len(made.changes) == 1, "a warning: it is written where that is asked"


def test_a_price_for_something_else_than_before_is_no_leap(raw: RawBook) -> None:
    made = plan(raw, "Code|Price per piece\nT-3030|1.99")
    assert changes(made).keys() == {"Price", "Price per"}
    assert codes(made) == []


def test_a_supplier_that_the_workbook_has_not_is_a_finding(raw: RawBook) -> None:
    made = plan(raw, "Code|Price\nT-3030|22.40", Wanted(supplier="Klin & Quarry"))
    assert codes(made) == ["PRICE-LIST-SUPPLIER-UNKNOWN"]
    assert "Kiln & Quarry" in str(made.findings[0].facts["suppliers"])
    assert codes(plan(raw, "Code|Price\nT-3030|22.40", Wanted(supplier=" kiln & quarry"))) == []


def test_a_row_that_stands_twice_alike_does_no_harm(raw: RawBook) -> None:
    made = plan(raw, "Code|Price\nT-3030|23\nT-3030|23")
    assert codes(made) == []
    assert len(made.changes) == 1


def test_a_code_of_two_suppliers_asks_whose_list_it_is(tmp_path: Path) -> None:
    def edit(made: TypedBook) -> None:
        edited_books.add(
            made, "Tiles", Code="T-3030", Supplier="Harbour", Description="x", Length=298,
            Width=298, Thickness=8, Pieces_per_box=11, Price=20,
        )  # fmt: skip

    raw = start_reading(edited_books.edited(tmp_path / "two.xlsx", edit)).result()
    text = "Code|Price\nT-3030|23"
    assert codes(plan(raw, text)) == ["PRICE-LIST-SUPPLIER-UNCLEAR"]
    made = plan(raw, text, Wanted(supplier="harbour"))
    assert [(c.supplier, c.old) for c in made.changes] == [("Harbour", "20")]
    by_column = plan(raw, "Code|Supplier|Price\nT-3030|Harbour|23")
    assert [(c.supplier, c.old) for c in by_column.changes] == [("Harbour", "20")]


def test_a_cell_with_a_formula_is_left_alone_and_named(tmp_path: Path) -> None:
    def edit(made: TypedBook) -> None:
        edited_books.put(made, "Tiles", "Price", "=20*1.1")

    path = edited_books.edited(tmp_path / "formula.xlsx", edit)
    made = plan(start_reading(path).result(), "Code|Price\nT-3030|23")
    assert made.changes == ()
    assert len(made.kept) == 1


# --- files --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("content", "comma"),
    [
        (b"Code;Price\nT-3030;23,90\n", True),
        ("\ufeffCode;Price\r\nT-3030;23,90\r\n".encode(), True),
        ("Code,Price\nT-3030,23.90\n".encode("cp1252"), False),
        ("Code\tPrice\nT-3030\t23.90\n".encode("utf-16"), False),
        ("Code|Price €\nT-3030|23,90\n".encode("cp1252"), True),
    ],
)
def test_text_lists_of_many_makes_are_read(
    raw: RawBook, tmp_path: Path, content: bytes, *, comma: bool
) -> None:
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    grids = read_price_list(path)
    assert grids[0].comma == comma
    assert [c.value for c in plan_prices(grids, raw, UNITS).changes] == [23.9]


def test_a_list_may_be_a_workbook_with_its_table_on_any_sheet(raw: RawBook, tmp_path: Path) -> None:
    made = Workbook()
    made.active.append(["Dear customer,"])  # type: ignore[union-attr]
    sheet = made.create_sheet("Prices")
    for row in (["Spring"], ["Article", "Price"], ["KQ-30302", 23.9]):
        sheet.append(row)
    path = tmp_path / "list.xlsx"
    made.save(path)
    planned = plan_prices(read_price_list(path), raw, UNITS)
    assert planned.sheet == "Prices"
    assert [c.value for c in planned.changes] == [23.9]


def test_a_preview_writes_nothing(book: Path, tmp_path: Path) -> None:
    copy, prices = _files(book, tmp_path)
    before = copy.read_bytes()
    report = workflows.prices(copy, prices)
    assert report.exit_code == 0
    assert "--apply" in report.summary
    assert "23.9" in report.text
    assert copy.read_bytes() == before
    assert [p.name for p in tmp_path.glob("*.xlsx")] == [copy.name]


def test_apply_writes_what_the_preview_said_and_keeps_a_backup(book: Path, tmp_path: Path) -> None:
    copy, prices = _files(book, tmp_path)
    report = workflows.prices(copy, prices, apply=True)
    assert report.exit_code == 0
    assert report.backup is not None
    tiles = load_workbook(copy)["Tiles"]
    column = edited_books.column_of(load_workbook(copy), "Tiles", "Price")
    assert tiles.cell(5, column).value == 23.9
    again = workflows.prices(copy, prices, apply=True)
    assert again.written is None, "a second time there is nothing to change"


def test_a_list_with_errors_writes_nothing_even_if_told(book: Path, tmp_path: Path) -> None:
    copy, prices = _files(book, tmp_path, "Code,Price\nT-3030,23.90\nT-3030,24.00\n")
    before = copy.read_bytes()
    report = workflows.prices(copy, prices, apply=True)
    assert report.exit_code == 1
    assert copy.read_bytes() == before


def test_an_added_item_is_read_by_the_next_check(book: Path, tmp_path: Path) -> None:
    copy, prices = _files(
        book, tmp_path,
        "Code,Description,Length,Width,Thickness,Pieces per box,Price\n=T-9,New,600,300,9,6,30\n",
    )  # fmt: skip
    assert workflows.prices(copy, prices, apply=True).exit_code == 0
    raw = start_reading(copy).result()
    assert raw.tables["Tiles"].rows[-1].cells["Code"].value == "=T-9"
    assert raw.tables["Tiles"].rows[-1].cells["Code"].formula == ""
    report = workflows.check(copy, lambda _stage, _done, _of: None)
    assert report.exit_code == 0


def test_a_list_that_is_no_list_ends_with_3(book: Path, tmp_path: Path) -> None:
    copy, prices = _files(book, tmp_path)
    prices.write_bytes(b"\x00\x01\x02" * 50)
    assert workflows.prices(copy, prices).exit_code == 3


def _files(
    book: Path, folder: Path, content: str = "Code,Price\nT-3030,23.90\n"
) -> tuple[Path, Path]:
    prices = folder / "list.csv"
    prices.write_text(content, encoding="utf-8")
    return Path(shutil.copy(book, folder / "copy.xlsx")), prices


# --- rows without a price -----------------------------------------------------------------------


@pytest.mark.parametrize("words", ["on request", "n/a", "-", "Preis auf Anfrage"])
def test_a_row_with_words_for_a_price_is_left_out_and_told_the_others_are_taken(
    raw: RawBook, words: str
) -> None:
    listed = f"Code | Net price | Lead days\nG-GREY | {words} | 9\nT-3030 | 31.5 | 4"
    made = plan(raw, listed)
    assert codes(made) == ["PRICE-LIST-NO-PRICE"]
    assert made.findings[0].facts["rows"] == f'G-GREY, row 2 ("{words}")'
    assert made.left_out == ("G-GREY",)
    assert {change.code for change in made.changes} == {"T-3030"}
    assert changes(made)["Price"][2] == "31.5"


def test_a_price_with_digits_that_cannot_be_read_still_stops_the_list(raw: RawBook) -> None:
    made = plan(raw, "Code | Net price\nT-3030 | from 31.5 upwards")
    assert codes(made) == ["PRICE-LIST-VALUE"]
    assert made.left_out == ()


def test_words_for_a_price_of_what_the_workbook_does_not_have_are_no_trouble(raw: RawBook) -> None:
    made = plan(raw, "Code | Net price\nNOWHERE | on request\nT-3030 | 31.5")
    assert codes(made) == []
    assert made.unknown == ("NOWHERE",)
