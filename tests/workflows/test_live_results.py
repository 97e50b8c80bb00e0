"""What-if in the workbook itself: a spreadsheet program recalculates, and the results follow.

The judge is the program: after a change of something that results look up, recalculating the old
results must give what a new takeoff gives.  LibreOffice is forced to recalculate.
"""

import shutil
from pathlib import Path

import pytest
import recalc
from whole_program import ages, check, example, find, run, stored
from xml_edits import Edits

from sheetcalc.excel.tabs.own_tabs import read_own_tabs

WHAT_IF = (
    ("Waste factors", "Waste %", 0, 0.35),
    ("Tiles", "Price", 0, 51.25),
    ("Tiles", "Pieces per box", 0, 4.0),
    ("Bags and pails", "Pack price", 0, 31.4),
    ("Bags and pails", "Pack size", 2, 2.5),
    ("Bags and pails", "Yield", 0, 11.1),
    ("Sundries", "Pack size", 4, 50.0),
    ("Labour", "Hours per unit", 0, 0.9),
)
"""Tab, header, record, new value: all looked up live."""


def results_of(book: Path) -> list[str]:
    return [tab.sheet_name for tab in read_own_tabs(book) if not tab.key.startswith("input:")]


def statuses(cells: recalc.CellOf, names: list[str]) -> dict[str, str]:
    """Status in row 1 of each result tab."""
    found: dict[str, str] = {}
    for (sheet, address), value in cells.items():
        if sheet in names and address[1:] == "1" and address != "A1":
            found[sheet] = str(value)
    return found


def numbers(cells: recalc.CellOf, names: list[str]) -> dict[tuple[str, str], float]:
    return {
        place: value
        for place, value in cells.items()
        if place[0] in names and isinstance(value, int | float) and not isinstance(value, bool)
    }


def change(book: Path, *changes: tuple[str, str, int, float]) -> None:
    places = [(sheet, find(book, sheet, header, row), v) for sheet, header, row, v in changes]
    with Edits(book) as edits:
        for sheet, address, value in places:
            edits.type(sheet, address, value)


@pytest.mark.libreoffice
def test_recalculated_results_are_those_of_a_new_takeoff(tmp_path: Path) -> None:
    book = example(tmp_path / "example.xlsx", cards=True)
    before = stored(book)
    change(book, *WHAT_IF)
    # sorted, too: nothing is looked up by its place (a new takeoff lists in the new order)
    turned = tmp_path / "turned.xlsx"
    shutil.copyfile(book, turned)
    with Edits(turned) as edits:
        edits.turn_over("Tiles", 5, 11)
        edits.turn_over("Waste factors", 5, 8)
        edits.turn_over("Bags and pails", 5, 13)
    names = results_of(book)
    after = recalc.recalculate(turned)
    assert ages(turned) == ["RESULTS-FOLLOW"]
    told = {name for name, s in statuses(after, names).items() if s.startswith("OUT OF DATE")}
    assert told == {"Room cards"}, "a card is printed and carried away: its amounts don't follow"
    run(book, cards=True)
    following = [name for name in names if name not in {"Findings", "Room cards"}]
    wanted = numbers(recalc.cells(book), following)
    found = numbers(after, following)
    assert found.keys() == wanted.keys()
    different = {
        place: (found[place], wanted[place])
        for place in wanted
        if found[place] != pytest.approx(wanted[place], rel=1e-9)
    }
    assert different == {}
    order = "Order - Kiln & Quarry"
    amount = find(book, order, "Amount")
    assert wanted[order, amount] != before[order][amount].value


NEW_ROOM = {"Room": "2.01", "Length": 2.0, "Width": 1.5, "Finish": "Standard"}


@pytest.mark.libreoffice
def test_what_a_plan_rests_on_makes_every_result_out_of_date(tmp_path: Path) -> None:
    book = example(tmp_path / "example.xlsx")
    change(book, ("Rolls and sheets", "Length", 0, 25.0), ("Tiles", "Length", 0, 598.0))
    with Edits(book) as edits:
        for header, value in NEW_ROOM.items():
            edits.type("Rooms", find(book, "Rooms", header, 2), value)
    cells = recalc.recalculate(book)
    found = statuses(cells, results_of(book))
    assert set(found) == set(results_of(book))
    assert {status.partition(":")[0] for status in found.values()} == {"OUT OF DATE"}
    assert ages(book) == ["RESULTS-OUT-OF-DATE"]
    # each of the three is enough: its tab says so alone, and no other does
    state, tab = (find(book, "Findings", header).rstrip("0123456789") for header in INPUTS)
    changed = {
        cells["Findings", tab + address.removeprefix(state)]
        for (sheet, address), value in cells.items()
        if sheet == "Findings" and value == "CHANGED" and address.startswith(state)
    }
    assert changed == {"Rolls and sheets", "Tiles", "Rooms"}


INPUTS = ("State", "Input tab")
"""Headers of what Findings compares."""


def accepted(book: Path) -> list[tuple[object, ...]]:
    rows = stored(book)["Findings"].iter_rows(min_row=5, max_col=7, values_only=True)
    return [row for row in rows if row[0] == "accepted"]


def test_what_a_decision_accepts_stays_listed_as_accepted(tmp_path: Path) -> None:
    book = example(tmp_path / "example.xlsx")
    listed = accepted(book)
    assert len(listed) == 1
    change(book, *WHAT_IF[:3])
    run(book)
    assert accepted(book) == listed
    assert str(listed[0][1]) in check(book)
    code = find(book, "Decisions", "Code")
    with Edits(book) as edits:
        edits.type("Decisions", code, "TWO-PERSON-LIFT")
    run(book)
    assert listed[0][1] not in [row[1] for row in accepted(book)]
    statuses_now = stored(book)["Findings"][1]
    assert any("warning" in str(cell.value) for cell in statuses_now)
