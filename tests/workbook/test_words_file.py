"""The office's file of words: what is wrong in it is refused by its line, what it lacks is told."""

from decimal import Decimal
from pathlib import Path

import pytest
from another_language import CAPITALS, LOWER, marked, write_office
from click.testing import CliRunner

from sheetcalc.cli import main
from sheetcalc.comparing import STEPS
from sheetcalc.domain.comparison import Comparison, InputChange, MoneyChange, PackChange
from sheetcalc.domain.words import Words
from sheetcalc.templates_folder import template_file
from sheetcalc.workbook.columns import Kind
from sheetcalc.workbook.formulas import this_row
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.office import Office
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable
from sheetcalc.workbook.results.comparison import comparison_text
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.results.status_words import Counted
from sheetcalc.workbook.sheet import Cell, SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.typed_names import keeping_typed
from sheetcalc.workbook.words import load_words, notes_on_words
from sheetcalc.workflows import notes_on_templates


def written(folder: Path, text: str) -> Path:
    (folder / "words.toml").write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ('"Tax {rate} %" = "Steuer {rete} %"', "line 3: braces"),
        ('"Tax {rate} %" = "Steuer %"', r"line 3: .* has \{rate\}"),
        ('"Tax {rate} %" = "Steuer {rate:d} %"', "line 3: in the braces"),
        ('"Tax {rate} %" = "Steuer {rate!r} %"', "line 3: in the braces"),
        ('"Tax {rate} %" = "Steuer {rate"', "line 3: a brace alone"),
        ('"Goods" = 3', "line 3: .* no text"),
        ('"Goods" = "Waren\\nund mehr"', "line 3: .* a line break"),
        (f'"Goods" = "{"W" * 1001}"', "line 3: .* 1001 signs"),
        ('"Amount" = "Wert"\n[orders]\n"Amount" = "Betrag"', "line 5: other words"),
        ("'Goods' = 3", "line 3: .* no text"),
        ('"Goods" = """\nWaren\n"""', "line 1: .* a line break"),  # its heading's line
    ],
)
def test_a_wrong_entry_is_refused_by_its_line(tmp_path: Path, entry: str, words: str) -> None:
    written(tmp_path, f'[common]\n"Item" = "Artikel"\n{entry}\n')
    with pytest.raises(ValueError, match=rf"words\.toml, {words}"):
        load_words(tmp_path)


def test_the_same_words_may_stand_twice(tmp_path: Path) -> None:
    written(tmp_path, '[common]\n"Amount" = "Betrag"\n[orders]\n"Amount" = "Betrag"\n')
    assert load_words(tmp_path).say("Amount") == "Betrag"


def test_words_left_empty_or_out_are_english_and_told(tmp_path: Path) -> None:
    written(tmp_path, '[common]\n"Item" = "Artikel"\n"Amount" = ""\n')
    assert load_words(tmp_path).say("Amount") == "Amount"
    (told,) = notes_on_words(tmp_path)
    assert "stay English" in told
    assert "complete = false" in told
    written(tmp_path, 'complete = false\n[common]\n"Item" = "Artikel"\n"Amount" = ""\n')
    assert load_words(tmp_path).say("Item") == "Artikel"
    assert notes_on_words(tmp_path) == ()


def test_a_word_missing_from_a_whole_language_is_named(tmp_path: Path) -> None:
    shipped = template_file("words.toml").read_text(encoding="utf-8")
    assert notes_on_words(written(tmp_path, shipped)) == ()
    (told,) = notes_on_words(written(tmp_path, shipped.replace('"Pallets" = "Pallets"\n', "")))
    assert ": 1 of " in told
    assert "'Pallets'" in told


def test_words_that_nobody_asks_for_are_told_by_their_line(tmp_path: Path) -> None:
    written(tmp_path, 'complete = false\n[common]\n"Item" = "Artikel"\n"Itme" = "Artikel"\n')
    assert [note.rpartition(" ")[2] for note in notes_on_words(tmp_path)] == ["4"]


def test_what_is_told_of_the_file_stands_on_standard_error(tmp_path: Path) -> None:
    office = written(tmp_path, '[common]\n"Item" = "Artikel"\n')
    ran = CliRunner().invoke(
        main, ["blank", str(tmp_path / "b.xlsx"), "--json", "--templates", str(office)]
    )
    assert ran.exit_code == 0
    assert "stay English" in ran.stderr
    assert ran.stdout.startswith("{")
    assert notes_on_templates(tmp_path) == notes_on_words(tmp_path)


# --- words that are hard on a workbook ------------------------------------------------------------


@pytest.mark.parametrize("own", ["Wert @ Lager", "Wert  netto", " Wert", "Wert'", "W" * 256])
def test_a_header_that_no_formula_could_name_stays_english(own: str) -> None:
    formula = this_row("OutOrderX", "Amount")
    table = TableModel(
        "OutOrderX", 4, 1, (SheetColumn("Amount"),), ((Cell(1, formula=f"{formula}+0"),),)
    )
    sheet = SheetModel(key="order:x", name="x", title="x", purpose="", tables=(table,))
    (made,) = in_office_style((sheet,), Office(words=Words({"Amount": own})))
    assert made.tables[0].columns[0].header == "Amount"
    assert made.tables[0].rows[0][0].formula == f"{formula}+0"


def test_states_of_the_same_words_are_told_apart() -> None:
    words = Words(said={"error": "Hinweis", "note": "hinweis", "yes": "ja"})
    assert words.apart("error", "note") == {"error": "Hinweis", "note": "hinweis (note)"}
    assert words.apart("yes", "no") == {"yes": "ja", "no": "no"}


def test_a_number_may_stand_anywhere_and_has_two_forms() -> None:
    """The formula by hand: what differs is chosen by the number."""
    english = Counted.of("error", Words())
    assert english.formula("N") == 'N&IF(N=1," error"," errors")'
    own = Counted.of("error", Words(said={
        "{number} error": "ein Fehler ({number})", "{number} errors": "Fehler: {number}",
    }))  # fmt: skip
    assert own.formula("N") == 'IF(N=1,"ein Fehler ("&N&")","Fehler: "&N)'
    assert (own.said(1), own.said(2)) == ("ein Fehler (1)", "Fehler: 2")


# --- what people typed ----------------------------------------------------------------------------

OWN = Words(
    terms={"bath": "Wanne", "curb": "Bord", "wall": "Wand", "no.": "Nr.", "far": "hinten"},
    workings={"{number} cuts": "{number} Schnitte", "as laid": "wie verlegt"},
)


@pytest.mark.parametrize("typed", ["Guest bath", "wall-hung; as laid", "2 cuts", "far (bath)"])
def test_a_typed_name_with_a_word_of_ours_in_it_stays_as_it_is(typed: str) -> None:
    assert {OWN.named(typed), OWN.told(typed)} != {typed}, "it would be changed"
    words = OWN.keeping([typed])
    assert (words.named(typed), words.told(typed), words.called(typed)) == (typed,) * 3
    assert words.named(f"curb {typed} far no. 2") == f"Bord {typed} hinten Nr. 2"
    assert words.told("3 cuts; as laid") == "3 Schnitte; wie verlegt"


def test_a_typed_name_that_is_a_term_is_kept_behind_another_word() -> None:
    words = OWN.keeping(["curb"])
    assert words.named("curb curb far") == "Bord curb hinten"
    assert words.named("curb") == "Bord"


def raw_book(**cells: str) -> RawBook:
    """One row of Floor pieces."""
    row = RawRow(5, {header: RawCell(value, "A5") for header, value in cells.items()})
    headers = dict.fromkeys(cells, "")
    table = RawTable("Floor pieces", "x", "", 4, 5, headers, headers, (), (), (), (row,))
    return RawBook("", {"Floor pieces": table}, (), ())


def test_names_are_kept_and_choices_are_not() -> None:
    raw = raw_book(Room="1", Piece="Guest bath", Kind="bath", Wall="far")
    words = keeping_typed(Office(words=OWN), raw).words
    assert words.kept == {"Guest bath"}
    english = Office()
    assert keeping_typed(english, raw) is english


def test_of_a_setting_its_value_is_typed() -> None:
    cells = {"Setting": "far wall", "Value": "Guest bath", "Guidance": "the bath"}
    row = RawRow(5, {header: RawCell(value, "A5") for header, value in cells.items()})
    headers = dict.fromkeys(cells, "")
    table = RawTable("Job", "x", "", 4, 5, headers, headers, (), (), (), (row,))
    raw = RawBook("", {"Job": table}, (), ())
    assert keeping_typed(Office(words=OWN), raw).words.kept == {"Guest bath"}


def test_every_column_that_people_fill_freely_is_looked_at() -> None:
    """Names, notes and values of settings; choices, numbers and dates are read by what they are."""
    free = {Kind.TEXT, Kind.CODE, Kind.SETTING}
    assert {c.header for tab in INPUT_TABS for c in tab.columns if c.kind in free} >= {
        "Room", "Piece", "Finish", "Phase", "Code", "Supplier", "Description", "Value", "Leg",
        "Task", "Address", "Deliver to", "Note",
    }  # fmt: skip


def test_the_marked_language_of_the_tests_is_whole(tmp_path: Path) -> None:
    office = write_office(tmp_path / "office")
    assert notes_on_words(office) == ()
    assert load_words(office) == marked(load_words())


# --- a comparison ---------------------------------------------------------------------------------


def test_a_comparison_says_what_changed_in_the_offices_words() -> None:
    """On the terminal: titles, headers, kinds of change, steps of the quote."""
    nought, one = Decimal(0), Decimal(1)
    steps = [f"Quote: {step}" for step, _ in STEPS]
    sums = ["Orders to Kiln & Quarry", "Orders to (no supplier)", *steps]
    found = Comparison(
        inputs=tuple(
            InputChange(what, "Rooms", "1.01", "Length", "2", "3")
            for what in ("added", "removed", "changed")
        ),
        packs=(PackChange("Kiln & Quarry", "T-1", "tile", 1, 2, one, None),),
        money=tuple(MoneyChange(what, nought, one) for what in sums),
    )
    text = comparison_text(found, ("old.xlsx", "new.xlsx"), CAPITALS)
    assert set(LOWER.findall(text)) <= {"xlsx", "tile"}
    assert {"Rooms", "Length"} <= set(text.split())
    assert "TO BE PRICED" in text
    assert "NO DIFFERENCE" in text
