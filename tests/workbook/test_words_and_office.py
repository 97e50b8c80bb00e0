"""An office's own words, logo, name, terms and price lists reach what is printed and sent out."""

import re
import shutil
from pathlib import Path

import grafting
import pytest
from openpyxl import load_workbook

from sheetcalc import workflows
from sheetcalc.domain.words import Words
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.templates_folder import template_file, templates_folder
from sheetcalc.workbook.blank import blank_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.office import PLAIN, load_office
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.sheet import Cell, SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.template_data import template_records
from sheetcalc.workbook.words import load_words
from sheetcalc.workflows.calculation import Work, calculate_book
from tests.samples import SAMPLES

GERMAN = """
[any]
"Quote" = "Angebot"
"Total ({currency})" = "Gesamtbetrag ({currency})"
"Price" = "Preis"
"Type of room" = "Raumtyp"
"This price assumes" = "Der Preis setzt voraus"
"Floor heating" = "Fußbodenheizung"
"Order number" = "Bestellnummer"
"Amount" = "Betrag"
"""


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


def office_folder(folder: Path, **files: str) -> Path:
    """A folder of templates with text files; names have _ for the dot."""
    folder.mkdir(exist_ok=True)
    for name, content in files.items():
        (folder / name.replace("_toml", ".toml")).write_text(content, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def larch(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Larch Court, not yet taken off."""
    path = tmp_path_factory.mktemp("larch") / "larch-court.xlsx"
    book = write_book(SAMPLES["larch-court.xlsx"](), load_house_style(), named_styles=True)
    path.write_bytes(book)
    return path


@pytest.fixture(scope="module")
def calculated(larch: Path) -> Work:
    raw = start_reading(larch).result()
    return calculate_book(raw, quiet, leave_out_faulty=False)


def test_a_word_with_braces_is_found_by_what_is_filled_in() -> None:
    words = Words({"Total ({currency})": "Summe ({currency})", "Total": "Summe"})
    assert words.shown("Total (EUR)") == "Summe (EUR)"
    assert words.shown("Total") == "Summe"
    assert words.shown("Larch Court") == "Larch Court"


def test_braces_that_the_english_has_not_are_refused(tmp_path: Path) -> None:
    folder = office_folder(tmp_path / "o", words_toml='[a]\n"Total" = "Summe {x}"\n')
    with pytest.raises(ValueError, match=r"words\.toml.*braces"):
        load_words(folder)


def test_an_office_may_have_its_quotes_in_another_language(larch: Path, tmp_path: Path) -> None:
    folder = office_folder(tmp_path / "o", words_toml=GERMAN)
    report = workflows.quote(larch, quiet, to=tmp_path / "out", templates=folder)
    assert report.written is not None
    assert report.written.name == "larch-court - angebot.xlsx"
    sheet = load_workbook(report.written)["Angebot"]
    shown = {str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value}
    assert {"Angebot", "Raumtyp", "Preis", "Gesamtbetrag (EUR)", "Der Preis setzt voraus"} <= shown
    assert any(text.startswith("-  Fußbodenheizung: in 1.06") for text in shown)


def test_renamed_headers_are_renamed_in_every_formula_too(calculated: Work, larch: Path) -> None:
    raw = start_reading(larch).result()
    plain = calculated.sheets(raw, quiet, cards=False)
    words = Words({"Amount": "Betrag", "Price": "Preis", "Order number": "Bestell-Nr. [neu]"})
    sheets = in_office_style(plain, load_office())
    assert sheets == tuple(plain)
    made = {s.key: s for s in in_office_style(plain, with_words(words))}
    order = next(sheet for key, sheet in made.items() if key.startswith("order:"))
    headers = [column.header for column in order.tables[0].columns]
    assert "Betrag" in headers
    assert "Bestell-Nr. [neu]" in headers
    formulas = [
        cell.formula
        for sheet in made.values()
        for cells in (*(row for t in sheet.tables for row in t.rows), (sheet.loose or {}).values())
        for cell in cells
        if cell.formula
    ]
    orders = re.compile(r"OutOrder\w+\[(?:\[#This Row\],\[)?Amount\]")
    assert not any(orders.search(formula) for formula in formulas)
    assert any("[Betrag]" in formula for formula in formulas)


def with_words(words: Words) -> object:
    from msgspec.structs import replace  # noqa: PLC0415 - one helper

    return replace(PLAIN, words=words)


def test_two_headers_never_get_the_same_word() -> None:
    table = TableModel("OutOrderX", 4, 1, (SheetColumn("Pack"), SheetColumn("Packs")), ())
    sheet = SheetModel(key="order:x", name="x", title="x", purpose="", tables=(table,))
    words = Words({"Pack": "Gebinde", "Packs": "Gebinde"})
    made = in_office_style((sheet,), with_words(words))  # type: ignore[arg-type]
    assert [c.header for c in made[0].tables[0].columns] == ["Gebinde", "Gebinde (Packs)"]


def test_what_people_typed_is_never_translated() -> None:
    sheet = SheetModel(
        key="order:x", name="x", title="x", purpose="",
        tables=(TableModel("OutOrderX", 4, 1, (SheetColumn("Item"),), ((Cell("Total"),),)),),
        loose={(1, 1): Cell("Total", "text"), (2, 1): Cell("Total", "hint")},
    )  # fmt: skip
    made = in_office_style((sheet,), with_words(Words({"Total": "Summe"})))  # type: ignore[arg-type]
    assert made[0].loose[1, 1].value == "Total"
    assert made[0].loose[2, 1].value == "Summe"
    assert made[0].tables[0].rows[0][0].value == "Total"


# --- logo, name, terms, price lists ---------------------------------------------------------------


def test_a_logo_stands_on_orders_and_quotes(larch: Path, tmp_path: Path) -> None:
    folder = office_folder(tmp_path / "o", office_toml='name = "Wharf Street"\n')
    (folder / "logo.png").write_bytes(grafting.tiny_png())
    book = Path(shutil.copy(larch, tmp_path))
    workflows.takeoff(book, quiet, cards=False, templates=folder)
    written = load_workbook(book)
    with_logo = {sheet.title for sheet in written.worksheets if sheet._images}  # type: ignore[attr-defined] # noqa: SLF001 - openpyxl has no other way
    assert "Quote" in with_logo
    assert {name for name in written.sheetnames if name.startswith("Order - ")} <= with_logo
    assert "Takeoff" not in with_logo
    before = book.read_bytes()
    workflows.takeoff(book, quiet, cards=False, templates=folder)
    assert book.read_bytes() == before


def test_terms_of_the_office_stand_on_orders_and_quotes(larch: Path, tmp_path: Path) -> None:
    folder = office_folder(
        tmp_path / "o",
        office_toml='order_terms = ["Deliver before 10 am."]\n'
        'quote_assumes = ["Water and power on site."]\nquote_leaves_out = ["Scaffolding."]\n',
    )
    book = Path(shutil.copy(larch, tmp_path))
    workflows.takeoff(book, quiet, cards=False, templates=folder)
    written = load_workbook(book)
    for sheet in written.worksheets:
        shown = {str(c.value) for row in sheet.iter_rows() for c in row if c.value}
        assert ("Deliver before 10 am." in shown) == sheet.title.startswith("Order - ")
        quoted = {"-  Water and power on site.", "-  Scaffolding."} <= shown
        assert quoted == (sheet.title == "Quote")


def test_a_new_workbook_has_the_offices_name_and_price_lists(tmp_path: Path) -> None:
    folder = office_folder(tmp_path / "o", office_toml='name = "Wharf Street"\n')
    (folder / "metric").mkdir()
    (folder / "metric" / "tiles.csv").write_text(
        "Code,Description,Length,Width,Thickness,Pieces per box,Price\n"
        "T-1,Own tile,600,300,9,6,30\n",
        encoding="utf-8",
    )
    model = blank_book("metric", folder=folder, buyer=load_office(folder).name)
    sheets = {sheet.name: sheet for sheet in model.sheets}
    assert sheets["Tiles"].tables[0].rows[0][0].value == "T-1"
    assert not sheets["Sundries"].tables[0].rows
    assert sheets["Labour"].tables[0].rows, "allowances that the office has not come from ours"
    job = {row[0].value: row[1].value for row in sheets["Job"].tables[0].rows}
    assert job["Buyer"] == "Wharf Street"


@pytest.mark.parametrize("start", ["", "\ufeff"], ids=["plain", "with a mark"])
def test_a_price_list_saved_by_a_spreadsheet_program_is_read(start: str, tmp_path: Path) -> None:
    (tmp_path / "metric").mkdir()
    (tmp_path / "metric" / "tiles.csv").write_text(
        f'{start}Code;Description;Length;Width;Thickness;Pieces per box;Price\r\nT-1;"Own; tile";'
        "600;300;9;6;30\r\n",
        encoding="utf-8",
    )
    tiles = template_records("metric", tmp_path)["Tiles"]
    assert [(row["Code"], row["Description"], row["Price"]) for row in tiles] == [
        ("T-1", "Own; tile", 30)
    ]


# RFC 4180, 2.6: a field in quotation marks may hold line breaks; other signs break no line
@pytest.mark.parametrize("cell", ['"Own\ntile"', '"Own\r\ntile"', "Own\u2028tile", "Own\x0btile"])
def test_a_cell_that_holds_a_line_break_is_one_cell(tmp_path: Path, cell: str) -> None:
    (tmp_path / "metric").mkdir()
    (tmp_path / "metric" / "tiles.csv").write_bytes(
        f"Code,Description,Length\r\nT-1,{cell},600\r\nT-2,Other,300\r\n".encode()
    )
    tiles = template_records("metric", tmp_path)["Tiles"]
    assert [(row["Code"], row["Description"]) for row in tiles] == [
        ("T-1", cell.strip('"')),
        ("T-2", "Other"),
    ]


def test_a_file_that_an_office_has_not_comes_from_the_program(tmp_path: Path) -> None:
    folder = office_folder(tmp_path / "o", words_toml=GERMAN)
    assert template_file("house_style.toml", folder) == templates_folder() / "house_style.toml"
    assert load_house_style(folder) == load_house_style()


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("office.toml", "name = [", "office.toml"),
        ("office.toml", 'order_terms = "one"', "order_terms is a list"),
        ("logo.png", "not a picture", "no PNG"),
        ("words.toml", '[a]\n"Total" = 3', "no text"),
        ("words.toml", "[a", "words.toml"),
        ("house_style.toml", "[a", "house_style.toml"),
        ("metric/tiles.csv", "Code,Description\nT-1,white, matt\n", "tiles.csv, line 2"),
        ("metric/tiles.csv", b"Code,Description\nT-1,gr\xfcn\n", "tiles.csv is no UTF-8"),
    ],
)
def test_a_template_that_is_wrong_is_named(
    tmp_path: Path, name: str, content: str | bytes, words: str
) -> None:
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_bytes(content if isinstance(content, bytes) else content.encode())
    assert words in workflows.trouble_with_templates(tmp_path)
