"""The commands quote and prices as a person types them, and what they never say."""

import json
import shutil
from pathlib import Path

import edited_books
import pytest
from click.testing import CliRunner, Result
from openpyxl import load_workbook
from typed_books import TypedBook
from whole_program import example
from xml_edits import Edits

from sheetcalc.cli import main
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from tests.samples import SAMPLES


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(a) for a in arguments])


@pytest.fixture(scope="module")
def alder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("alder") / "alder-street-us.xlsx"
    style = load_house_style()
    path.write_bytes(write_book(SAMPLES["alder-street-us.xlsx"](), style, named_styles=True))
    return path


def shown(path: Path) -> list[str]:
    book = load_workbook(path)
    return [str(c.value) for s in book.worksheets for row in s.iter_rows() for c in row if c.value]


def test_the_clients_quote_has_prices_and_terms_and_no_word_of_costs(
    alder: Path, tmp_path: Path
) -> None:
    result = run("quote", alder, "--to", tmp_path / "out")
    assert result.exit_code == 0, result.output
    (made,) = (tmp_path / "out").iterdir()
    words = shown(made)
    assert {"Price", "Total (USD)", "This price assumes", "This price does not include"} <= {*words}
    secret = ("overhead", "profit", "contingency", "labour", "materials and", "cost", "margin")
    assert [w for w in words if any(s in w.casefold() for s in secret)] == []
    assert not any(w.startswith("=") for w in words), "a client's quote has no formulas"
    suppliers = ("Redstem", "Plumb Line", "Tideline", "Ember")
    assert [w for w in words if any(s in w for s in suppliers)] == []


def test_a_second_quote_of_the_same_workbook_is_the_same_file(alder: Path, tmp_path: Path) -> None:
    for _ in range(2):
        assert run("quote", alder, "--to", tmp_path / "out").exit_code == 0
    assert len(list((tmp_path / "out").iterdir())) == 1


def test_a_quote_that_was_sent_is_not_replaced(alder: Path, tmp_path: Path) -> None:
    book = Path(shutil.copy(alder, tmp_path / "job.xlsx"))
    run("quote", book, "--to", tmp_path / "out")
    sent = (tmp_path / "out" / "job - quote.xlsx").read_bytes()
    changed = load_workbook(book)
    for row in changed["Job"].iter_rows(min_row=5):
        if row[0].value == "Profit":
            row[1].value = 0.2
    changed.save(book)
    run("quote", book, "--to", tmp_path / "out")
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == ["job - quote (2).xlsx", "job - quote.xlsx"]
    assert (tmp_path / "out" / "job - quote.xlsx").read_bytes() == sent


def test_a_quote_leaves_the_workbook_as_it_was(alder: Path, tmp_path: Path) -> None:
    book = Path(shutil.copy(alder, tmp_path / "job.xlsx"))
    before = book.read_bytes()
    run("quote", book, "--to", tmp_path / "out")
    assert book.read_bytes() == before


def test_quote_and_orders_tell_only_what_the_findings_tab_does_not_tell_yet(tmp_path: Path) -> None:
    book = example(tmp_path / "job.xlsx")
    for command in ("quote", "orders"):
        told = run(command, book, "--to", tmp_path / command).output
        assert len(told.splitlines()) == 1
        assert told.endswith("1 accepted, 7 notes, all told on the Findings tab\n")
    with Edits(book) as edits:
        edits.type("Job", setting_cell(book, "Currency"), "Euro")
    told = run("quote", book, "--to", tmp_path / "quote").output
    assert [line.split()[1] for line in told.splitlines() if "job.xlsx " in line] == [
        "CURRENCY-UNKNOWN"
    ]
    assert told.endswith("1 warning, 1 accepted, 7 notes, 8 told on the Findings tab\n")
    document = json.loads(run("quote", book, "--to", tmp_path / "quote", "--json").output)
    assert len(document["books"][0]["findings"]) == 9, "a program is told all of them"


def setting_cell(book: Path, label: str) -> str:
    rows = load_workbook(book, read_only=True)["Job"].iter_rows(min_row=5, max_col=1)
    return next(f"B{row[0].row}" for row in rows if row[0].value == label)


def test_what_has_no_price_is_to_be_priced_and_the_quote_incomplete(tmp_path: Path) -> None:
    def edit(book: TypedBook) -> None:
        edited_books.put(book, "Tiles", "Price", None)

    book = edited_books.edited(tmp_path / "job.xlsx", edit)
    result = run("quote", book, "--to", tmp_path / "out")
    assert result.exit_code == 0
    assert "INCOMPLETE, not yet priced: T-3030" in result.output
    words = shown(tmp_path / "out" / "job - quote.xlsx")
    assert "INCOMPLETE: not everything is priced yet" in words
    assert words.count("to be priced") == 6, "each, price, per area; and the three sums"
    assert run("takeoff", book, "--no-cards").exit_code == 0
    quote = load_workbook(book, data_only=True)["Quote"]
    below = [str(c.value) for row in quote.iter_rows() for c in row if c.value]
    assert any(w.startswith("INCOMPLETE: lines still to be priced") for w in below)


def test_rooms_left_out_are_named_in_the_quote(tmp_path: Path) -> None:
    def edit(book: TypedBook) -> None:
        edited_books.add(book, "Rooms", Room="Attic", Length=-1, Width=2, Finish="Plain")

    book = edited_books.edited(tmp_path / "job.xlsx", edit)
    assert run("quote", book, "--to", tmp_path / "out").exit_code == 1
    assert not (tmp_path / "out").exists()
    result = run("quote", book, "--to", tmp_path / "out", "--leave-out-faulty")
    assert result.exit_code == 1
    words = shown(tmp_path / "out" / "job - quote.xlsx")
    assert "INCOMPLETE: rooms are left out, see below" in words
    assert "-  Rooms left out: Attic." in words


def test_tax_above_100_percent_is_an_error(tmp_path: Path) -> None:
    def edit(book: TypedBook) -> None:
        for row in book["Job"].iter_rows(min_row=5):
            if row[0].value == "Tax":
                row[1].value = 20

    book = edited_books.edited(tmp_path / "job.xlsx", edit)
    result = run("check", book)
    assert result.exit_code == 1
    assert "PERCENT-ABOVE-ONE" in result.output


def test_a_folder_that_holds_no_templates_is_wrong_usage(alder: Path, tmp_path: Path) -> None:
    result = run("quote", alder, "--to", tmp_path / "out", "--templates", tmp_path)
    assert result.exit_code == 2
    assert "no folder of templates" in result.output


def test_prices_are_shown_first_and_written_when_told(tmp_path: Path) -> None:
    book = edited_books.edited(tmp_path / "job.xlsx", lambda _book: None)
    prices = tmp_path / "list.csv"
    prices.write_text("Code;Net price\nT-3030;23,90\n", encoding="utf-8")
    preview = run("prices", book, "--from", prices)
    assert preview.exit_code == 0
    assert "nothing written" in preview.output
    assert "+9.1%" in preview.output, "23.90 by 21.90"
    told = run("prices", book, "--from", prices, "--quiet").output
    assert told == f"{book}: 1 item changed; nothing written, add --apply to write this\n"
    data = json.loads(run("prices", book, "--from", prices, "--json").output)
    assert [c["new"] for c in data["changes"]] == ["23.9"]
    assert run("prices", book, "--from", prices, "--apply").exit_code == 0
    assert run("takeoff", book, "--no-cards").exit_code == 0


def test_headers_of_another_language_are_named_on_the_command_line(tmp_path: Path) -> None:
    book = edited_books.edited(tmp_path / "job.xlsx", lambda _book: None)
    prices = tmp_path / "liste.csv"
    prices.write_text("Artikel;Preis\nT-3030;23,90\n", encoding="utf-8")
    asked = ("prices", book, "--from", prices, "--column", "Artikel=Code", "--column")
    data = json.loads(run(*asked, "Preis=Price", "--json").output)
    assert [c["new"] for c in data["changes"]] == ["23.9"]
    wrong = run(*asked, "Preis=Prize")
    assert wrong.exit_code == 2
    assert "want THEIRS=OURS" in wrong.output


def test_a_tab_that_is_no_catalogue_is_wrong_usage(tmp_path: Path) -> None:
    wrong = run("prices", tmp_path / "job.xlsx", "--from", tmp_path / "list.csv", "--tab", "Tyles")
    assert wrong.exit_code == 2
    assert "want one of Tiles, Bags and pails" in wrong.output


def test_a_list_with_a_code_twice_ends_with_1_and_says_what_to_do(tmp_path: Path) -> None:
    book = edited_books.edited(tmp_path / "job.xlsx", lambda _book: None)
    prices = tmp_path / "list.csv"
    prices.write_text("Code,Price\nT-3030,23.90\nT-3030,24.90\n", encoding="utf-8")
    result = run("prices", book, "--from", prices, "--apply")
    assert result.exit_code == 1
    assert "PRICE-LIST-CODE-TWICE" in result.output
    assert "what to do" in result.output


def test_a_command_that_a_person_stops_leaves_as_shells_expect(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_given: object, **_named: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("sheetcalc.workflows.quote", stopped)
    result = run("quote", tmp_path / "job.xlsx", "--to", tmp_path / "out")
    assert result.exit_code == 130, "1 would say that the workbook has errors"
    assert "interrupted" in result.output
