"""Another language is one file: everything that people read is in it, and reaches the workbook.

The language here is English with a sign before each entry, so that what was not found is seen.
"""

import ast
import json
import os
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
import words_file
from msgspec.structs import replace
from openpyxl import load_workbook

from sheetcalc import workflows
from sheetcalc.domain.comparison import Comparison
from sheetcalc.domain.words import Words
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.rules.packages import PACKAGE_CODES, several
from sheetcalc.templates_folder import template_file
from sheetcalc.workbook import results
from sheetcalc.workbook.blank import blank_book
from sheetcalc.workbook.guide import guide_sheet
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.office import PLAIN
from sheetcalc.workbook.results.client_quote import client_quote_book
from sheetcalc.workbook.results.comparison import comparison_book, sections_of
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.results.order import CALLED_OFF
from sheetcalc.workbook.results.takeoff import IN_PLAN, WHOLE_JOB
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.settings import SETTINGS
from sheetcalc.workbook.sheet import SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.translate_inputs import inputs_in_words
from sheetcalc.workbook.wording import WORDINGS
from sheetcalc.workbook.wording.render import RECORDS
from sheetcalc.workbook.words import load_words
from sheetcalc.workflows.calculation import calculate_book

SIGN = "\N{SECTION SIGN}"
SHIPPED = load_words()
SIGNED = Words(*({e: f"{SIGN}{e}" for e in part} for part in (
    SHIPPED.table, SHIPPED.terms, SHIPPED.said, SHIPPED.workings,
)))  # fmt: skip


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An office whose every word has the sign."""
    folder = tmp_path_factory.mktemp("office")
    parts = (
        ("any", SIGNED.table),
        ("names", SIGNED.terms),
        ("findings", SIGNED.said),
        ("workings", SIGNED.workings),
    )
    lines = []
    for heading, part in parts:
        lines.append(f"[{heading}]")
        lines += [f"{json.dumps(english)} = {json.dumps(own)}" for english, own in part.items()]
    (folder / "words.toml").write_text("\n".join(lines), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def book(office: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example, blank and taken off in the office's words."""
    path = tmp_path_factory.mktemp("signed") / "example.xlsx"
    workflows.blank(path, units="metric", example=True, templates=office)
    report = workflows.takeoff(path, quiet, templates=office)
    assert report.exit_code == 0, report.summary
    return path


# --- the file is complete -----------------------------------------------------------------------


def test_the_shipped_words_are_english() -> None:
    assert SHIPPED.english


TABS = (*INPUT_TABS, *RESULT_TABS)
DECLARED = {
    "results": [
        *(tab.key for tab in RESULT_TABS),
        *(tab.purpose for tab in RESULT_TABS),
        *(column.header for tab in RESULT_TABS for column in tab.columns if not column.typed),
    ],
    "inputs": [
        *(tab.record for tab in INPUT_TABS),
        *(tab.purpose for tab in INPUT_TABS),
        *(column.help for tab in INPUT_TABS for column in tab.columns),
        *(
            column.default
            for tab in INPUT_TABS
            for column in tab.columns
            if re.search("[a-z]{3}", column.default) and column.default not in column.choices
        ),
    ],
    "comparison": [
        text
        for section in sections_of(Comparison(()))
        for text in (section.title, section.purpose, *(header for header, _, _ in section.headers))
    ],
    "settings": [setting.guidance for setting in SETTINGS],
    "cards": [word for package in PACKAGE_CODES for word in (package, several(package))],
    "findings": [
        "{column} of {record}",
        *RECORDS.values(),
        *(part for w in WORDINGS.values() for part in (w.found, w.expected, w.what_to_do)),
    ],
}
"""Section of the file -> what the code declares, in its order."""


@pytest.mark.parametrize("section", DECLARED)
def test_what_is_declared_is_in_the_file(section: str) -> None:
    if os.environ.get("SHEETCALC_UPDATE_GOLDEN") == "1":
        words_file.complete(section, DECLARED[section], only=section == "findings")
    known = load_words()
    missing = set(DECLARED[section]) - set(known.table) - set(known.said)
    assert missing == set(), (
        f"templates/words.toml lacks {len(missing)} of [{section}]; run this test with "
        "SHEETCALC_UPDATE_GOLDEN=1 to add them"
    )


def test_what_a_table_without_records_says_is_in_the_file() -> None:
    texts = {
        keyword.value.value
        for module in Path(results.__file__).parent.glob("*.py")
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        for keyword in node.keywords
        if keyword.arg == "nothing" and isinstance(keyword.value, ast.Constant)
    }
    assert len(texts) > 10
    assert texts - set(SHIPPED.table) == set()
    assert {IN_PLAN, CALLED_OFF, WHOLE_JOB} <= set(SHIPPED.table)


def test_what_result_tabs_ask_words_for_is_in_the_file() -> None:
    """The samples do not come by all of it: rooms that are counted without names, for one."""
    asked = {
        node.args[0].value
        for module in Path(results.__file__).parent.glob("*.py")
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args
        if node.func.attr in {"fill", "say"} and isinstance(node.args[0], ast.Constant)
    }
    assert len(asked) > 50
    assert asked - {*SHIPPED.table, *SHIPPED.said} == set()


def test_no_message_is_in_the_file_that_nobody_says() -> None:
    file = tomllib.loads(template_file("words.toml").read_text(encoding="utf-8"))
    assert set(file["findings"]) - set(DECLARED["findings"]) == set()


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_sentence_of_the_guide_is_in_the_file(system: str) -> None:
    cells = (guide_sheet(system).loose or {}).values()
    told = {
        cell.value
        for cell in cells
        if isinstance(cell.value, str) and cell.style in {"wrapped", "section", "hint"}
    }
    assert len(told) > 50
    assert {text for text in told if SIGNED.shown(text) == text} == set()


def test_no_other_words_are_asked_for_by_quotes_and_cards(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a run with everything on; symbols of units are international and may be missing."""
    asked: set[str] = set()
    monkeypatch.setattr(Words, "say", lambda _self, english: asked.add(english) or english)
    raw = start_reading(book).result()
    work = calculate_book(raw, quiet, leave_out_faulty=False)
    work.sheets(raw, quiet)
    assert work.run is not None
    assert work.run.quote is not None
    client_quote_book(work.run, work.run.quote, PLAIN)
    assert len(asked) > 60
    unknown = asked - {*SHIPPED.table, *SHIPPED.said}
    assert {word for word in unknown if not re.fullmatch(r"m[m²³]?|L|mL|kg|g", word)} == set()


# --- and everything in it reaches the workbook --------------------------------------------------


def labels(path: Path) -> Iterator[tuple[str, str]]:
    """Title, second line and headers of each result tab."""
    for sheet in load_workbook(path).worksheets:
        if str(sheet["A3"].value).startswith("sheetcalc result tab"):
            yield sheet.title, str(sheet["A1"].value)
            yield sheet.title, str(sheet["A2"].value)
            for table in sheet.tables.values():
                kept = table.name in {"OutReadings", "OutInputs"}
                for cell in () if kept else sheet[table.ref][0]:
                    yield sheet.title, str(cell.value)


def test_every_label_of_every_result_tab_is_in_the_offices_words(book: Path) -> None:
    found = list(labels(book))
    assert len(found) > 150
    suppliers = re.compile("Order - .*")
    plain = [
        (tab, label)
        for tab, label in found
        if not label.startswith(SIGN) and not suppliers.fullmatch(label)
    ]
    assert {label for _, label in plain} == set()


def test_the_cards_sentences_are_in_the_offices_words(book: Path) -> None:
    sheet = load_workbook(book)["Room cards"]
    shown = [str(c.value) for row in sheet.iter_rows() for c in row if c.value is not None]
    begin = (
        "Room 1.01", "Cuts: how many of", "Cable, and strips", "To carry to the room",
        "Order of the work", "Resistance of the cables", "Done by", "Water test:", "Base flat to",
        "Wet areas:", "Strips of U-KNOB", "Two people to lift:", "Building of 1974:",
    )  # fmt: skip
    for words in begin:
        assert any(text.removeprefix("! ").startswith(f"{SIGN}{words}") for text in shown), words
        assert not any(text.startswith(words) for text in shown), words
    assert any(f"{SIGN}wet area {SIGN}far" in text for text in shown)
    assert any(re.search(rf"\d {SIGN}bags", text) for text in shown)


def test_findings_say_what_they_say_in_the_offices_words(book: Path, office: Path) -> None:
    sheet = load_workbook(book)["Findings"]
    table = next(iter(sheet.tables.values()))
    header, *rows = ([c.value for c in row] for row in sheet[table.ref])
    for name in ("Found", "Expected", "What to do"):
        at = header.index(f"{SIGN}{name}")
        assert all(str(row[at]).startswith(SIGN) for row in rows), name
    assert {row[header.index(f"{SIGN}Severity")] for row in rows} == {
        f"{SIGN}accepted",
        f"{SIGN}note",
    }
    told = [finding.found for finding in workflows.check(book, quiet, templates=office).findings]
    assert told
    assert all(found.startswith(SIGN) for found in told)


def test_the_guide_names_tabs_as_they_are_called_and_findings_as_they_are_told(book: Path) -> None:
    sheet = load_workbook(book)["Guide"]
    shown = {str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value}
    tabs = {tab.key for tab in TABS} - {"Order"}
    plain = {text for text in shown if not text.startswith(SIGN) and not text.isdigit()}
    assert plain == tabs | {"Lists"}
    assert {f"{SIGN}{word}" for word in ("error", "warning", "note", "OK", "Dark header")} <= shown


def test_what_a_workbook_is_read_by_is_the_same_in_every_language(book: Path) -> None:
    plain = {sheet.key: sheet for sheet in blank_book("metric").sheets}
    for key, sheet in ((s.key, s) for s in inputs_in_words(blank_book("metric"), SIGNED).sheets):
        assert sheet.name == plain[key].name
        for own, english in zip(sheet.tables, plain[key].tables, strict=True):
            assert [c.header for c in own.columns] == [c.header for c in english.columns]
            assert [r[:3] for r in own.rows] == [r[:3] for r in english.rows]
    typed = load_workbook(book)["Resistance log"].tables["OutReadings"]
    assert {column.name for column in typed.tableColumns} >= {"Cable", "Stage"}


def test_help_and_guidance_stand_in_the_offices_words_within_a_messages_length() -> None:
    made = inputs_in_words(blank_book("us"), SIGNED)
    rules = [
        column.validation
        for sheet in made.sheets
        for table in sheet.tables
        for column in table.columns
        if column.validation is not None
    ]
    rules += [rule for sheet in made.sheets for _, _, rule in sheet.cell_validations]
    told = [rule.message for rule in rules if rule.message]
    assert len(told) > 200
    assert all(message.startswith(SIGN) and len(message) <= 255 for message in told)
    assert all(rule.error.startswith(SIGN) for rule in rules if rule.error)


def test_a_comparison_is_in_the_offices_words() -> None:
    made = comparison_book(Comparison(()), ("old.xlsx", "new.xlsx"), SIGNED)
    assert len(made.sheets) == 4
    for sheet in made.sheets:
        (table,) = sheet.tables
        told = [sheet.title, sheet.purpose, *(column.header for column in table.columns)]
        assert all(text.startswith(SIGN) for text in told), told
        assert table.rows[0][0].value == f"{SIGN}no difference"


# --- nothing is lost by it ----------------------------------------------------------------------


def test_a_second_run_in_the_same_words_changes_nothing(book: Path, office: Path) -> None:
    before = book.read_bytes()
    report = workflows.takeoff(book, quiet, templates=office)
    assert "nothing had changed" in report.summary
    assert book.read_bytes() == before


def test_headers_with_a_unit_are_found_without_it() -> None:
    table = TableModel("OutX", 4, 1, (SheetColumn("Length (m)"), SheetColumn("Watts (W)")), ())
    sheet = SheetModel(key="x", name="x", title="x", purpose="", tables=(table,))
    words = Words({"Length": "Länge", "Watts (W)": "Leistung [W]"})
    (made,) = in_office_style((sheet,), replace(PLAIN, words=words))
    assert [c.header for c in made.tables[0].columns] == ["Länge (m)", "Leistung [W]"]
