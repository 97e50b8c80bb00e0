"""Another language in the workbook itself: formulas say its words, and look for its words.

The judge is LibreOffice, forced to recalculate: what it works out in the other language must be
what is stored, and after a change what a new takeoff says.
"""

import re
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import openpyxl
import pytest
import recalc
from another_language import MARK, write_office
from whole_program import example, find, quiet
from xml_edits import Edits

from sheetcalc import workflows
from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.workbook.words import load_words

LITERAL = re.compile(r'"((?:[^"]|"")*)"')
STATES = frozenset({*load_words().said, "to be priced"})
TOGETHER = recalc.Together()


def take_off(book: Path) -> Path:
    office = write_office(book.parent / "office")
    report = workflows.takeoff(book, quiet, cards=False, templates=office)
    assert report.exit_code == 0, report.summary
    return book


@cache
def made(folder: Path) -> bytes:
    return take_off(example(folder / "example.xlsx", taken_off=False)).read_bytes()


def taken_off(path: Path) -> None:
    """Write the example as it is after a takeoff in the other language."""
    path.write_bytes(made(path.parent))


@pytest.fixture(scope="module")
def recalculated(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    """A workbook by the function that wrote it; all were recalculated at once."""
    return TOGETHER.recalculated(tmp_path_factory.mktemp("language"))


@TOGETHER.book
def as_taken_off(path: Path) -> None:
    taken_off(path)


def formulas(path: Path) -> Iterator[str]:
    """Formulas of our tabs, those of conditional formats too."""
    book = openpyxl.load_workbook(path)
    for tab in find_in_file(path).tabs:
        sheet = book[tab.sheet_name]
        if tab.key.startswith("input:"):
            continue
        for row in sheet.iter_rows():
            yield from (c.value for c in row if isinstance(c.value, str) and c.data_type == "f")
        for rules in sheet.conditional_formatting:
            yield from (formula for rule in rules.rules for formula in rule.formula)


@pytest.mark.libreoffice
def test_recalculating_in_another_language_changes_nothing(recalculated: recalc.Books) -> None:
    one = recalculated(as_taken_off)
    assert recalc.differences(one.before, one.after) == []
    assert one.before["Quote", "C1"] == f"{MARK}OK"


def test_no_formula_has_a_state_in_english(recalculated: recalc.Books) -> None:
    found = {text for f in formulas(recalculated(as_taken_off).path) for text in LITERAL.findall(f)}
    assert any(text.startswith(MARK.replace('"', '""')) for text in found)
    assert found & STATES == set()


READINGS = {
    "Reading": ((0, 9999.0), (1, "OL"), (3, "smudged"), (4, 140.0)),
    "Insulation reading": ((0, 0.2), (1, ">999"), (3, "wet")),
}
"""Header of the Resistance log -> record and what somebody typed."""


@TOGETHER.book
def without_prices_and_with_readings(path: Path) -> Path:
    taken_off(path)
    typed: list[tuple[str, str, str | float | None]] = [
        ("Tiles", find(path, "Tiles", "Price"), None),
        ("Labour", find(path, "Labour", "Hourly rate"), None),
        ("Suppliers", find(path, "Suppliers", "Minimum order", 1), 1e6),
    ]
    for header, cells in READINGS.items():
        typed += [("Resistance log", find(path, "Resistance log", header, n), v) for n, v in cells]
    with Edits(path) as edits:
        for tab, address, value in typed:
            edits.type(tab, address, value)
    again = path.with_name("again.xlsx")
    shutil.copyfile(path, again)
    return take_off(again)


@pytest.mark.libreoffice
def test_what_formulas_say_after_a_change_is_what_a_new_takeoff_says(
    recalculated: recalc.Books,
) -> None:
    one = recalculated(without_prices_and_with_readings)
    again = recalc.cells(one.made)
    told = {
        place: value
        for place, value in one.after.items()
        if isinstance(value, str) and MARK in value and place[0] != "Findings"
    }
    different = {place for place, value in told.items() if again.get(place) != value}
    assert all(is_status(address) for _, address in different), "only what is found is new"
    said = {value.replace(MARK, "") for value in told.values()}
    assert said >= {
        "to be priced", "BELOW THE MINIMUM ORDER", "OUT OF BAND (INSULATION TOO LOW)",
        "OPEN CIRCUIT", "not a number (insulation: not a number)",
        "INCOMPLETE: lines without a price: 1",
    }  # fmt: skip


@TOGETHER.book
def with_a_room_changed(path: Path) -> None:
    taken_off(path)
    with Edits(path) as edits:
        edits.type("Rooms", find(path, "Rooms", "Length"), 3.21)
        edits.type("Waste factors", find(path, "Waste factors", "Waste %"), 0.31)


def status(cells: recalc.CellOf, sheet: str) -> str:
    (found,) = (str(v) for (name, at), v in cells.items() if name == sheet and is_status(at))
    return found.removeprefix(MARK)


def is_status(address: str) -> bool:
    return address != "A1" and re.fullmatch("[A-Z]+1", address) is not None


@pytest.mark.libreoffice
def test_the_status_tells_in_another_language_that_inputs_have_changed(
    recalculated: recalc.Books,
) -> None:
    after = recalculated(with_a_room_changed).after
    assert status(after, "Takeoff") == (
        "OUT OF DATE: inputs have changed since this run; run takeoff again"
    )
    states = {value for (tab, _), value in after.items() if tab == "Findings"}
    assert states >= {f"{MARK}{state}" for state in ("same", "followed", "CHANGED")}
