"""What-if in the workbook itself: a spreadsheet program recalculates, and the results follow.

The judge is the program: after a change of something that results look up, recalculating the old
results must give what a new takeoff gives.  LibreOffice is forced to recalculate.
"""

import re
import shutil
from pathlib import Path

import pytest
import recalc
from openpyxl import load_workbook
from openpyxl.utils.cell import coordinate_from_string, range_boundaries
from whole_program import ages, check, example, find, rows_of, run, value_at
from xml_edits import Edits

from sheetcalc.excel.tabs.own_tabs import find_in_file

CHANGES = {
    "Waste factors": {"Waste %": 1.5},
    "Tiles": {"Price": 1.1, "Pieces per box": 2},
    "Bags and pails": {"Pack price": 1.2, "Yield": 0.8, "Coverage": 0.9, "Pack size": 0.5},
    "Rolls and sheets": {"Price": 0.95},
    "Heating cables": {"Price": 1.07},
    "Sundries": {"Pack price": 1.3, "Pack size": 2},
    "Labour": {"Hours per unit": 1.25, "Hourly rate": 1.1},
}
"""Input tab -> header -> factor on every plain number of the column: all are looked up live."""

SHARES = {"Overhead": 0.125, "Profit": 0.07, "Contingency": 0.03}
"""Settings of the Job, and what they are changed to."""

TOGETHER = recalc.Together()


@pytest.fixture(scope="module")
def recalculated(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    """A workbook by the function that wrote it; all were recalculated at once."""
    return TOGETHER.recalculated(tmp_path_factory.mktemp("what-if"))


def results_of(book: Path) -> list[str]:
    return [tab.sheet_name for tab in find_in_file(book).tabs if not tab.key.startswith("input:")]


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


def change(book: Path) -> None:
    """Multiply the live inputs; money stays in cents."""
    typed: list[tuple[str, str, float]] = []
    for tab, headers in CHANGES.items():
        for header, factor in headers.items():
            letters, first = coordinate_from_string(find(book, tab, header))
            for row in range(first, len(rows_of(book, tab)) + 1):
                value = value_at(book, tab, f"{letters}{row}")
                if isinstance(value, int | float):
                    changed = round(value * factor, 2 if "rice" in header else 4)
                    typed.append((tab, f"{letters}{row}", changed))
    typed += [("Job", find(book, "Job", "Value", name), share) for name, share in SHARES.items()]
    with Edits(book) as edits:
        for tab, address, value in typed:
            edits.type(tab, address, value)


@TOGETHER.book
def changed_and_sorted(path: Path) -> Path:
    """Sorted, too: nothing is looked up by its place (a new takeoff lists in the new order)."""
    book = example(path.with_name("changed.xlsx"), cards=True)
    change(book)
    shutil.copyfile(book, path)
    with Edits(path) as edits:
        edits.turn_over("Tiles", 5, 11)
        edits.turn_over("Waste factors", 5, 8)
        edits.turn_over("Bags and pails", 5, 13)
    return book


@pytest.mark.libreoffice
def test_recalculated_results_are_those_of_a_new_takeoff(
    recalculated: recalc.Books, tmp_path: Path
) -> None:
    one = recalculated(changed_and_sorted)
    book, after = one.made, one.after
    before = recalc.cells(example(tmp_path / "before.xlsx", cards=True))
    names = results_of(book)
    assert ages(one.path) == ["RESULTS-FOLLOW"]
    told = {name for name, s in statuses(after, names).items() if s.startswith("OUT OF DATE")}
    assert told == {"Room cards"}, "a card is printed and carried away: its amounts don't follow"
    run(book, cards=True)
    following = [name for name in names if name not in {"Findings", "Room cards"}]
    wanted = numbers(recalc.cells(book), following)
    found = numbers(after, following)
    assert len(found) > 1000
    assert found.keys() == wanted.keys()
    different = {
        place: (found[place], wanted[place])
        for place in wanted
        if found[place] != pytest.approx(wanted[place], rel=1e-9, abs=1e-12)
    }
    assert different == {}
    for name in ("Quote", "Order - Kiln & Quarry"):
        amounts = {place: value for place, value in wanted.items() if place[0] == name}
        assert sum(before[place] != value for place, value in amounts.items()) > len(amounts) / 2


NEW_ROOM = {"Room": "2.01", "Length": 2.0, "Width": 1.5, "Finish": "Standard"}

AS_LONG_AS_BEFORE = (
    ("Finishes", ("Tile",), "T-6060"),  # was T-6030
    ("Build-up", ("Trowel notch", 2), "square 8 x 8 x 8 mm"),  # was 6 x 6 x 6
    (
        "Job",  # was fewest cuts, fewest tiles
        ("Value", "Aims of the setting-out"),
        "no sliver, fewest small cuts, balance, fewest tiles, fewest cuts",
    ),
)
"""Texts of the same length that end alike: only letters in the middle tell them apart."""


@TOGETHER.book
def with_a_room_and_sizes_changed(path: Path) -> None:
    book = example(path)
    typed = [
        ("Rolls and sheets", find(book, "Rolls and sheets", "Length"), 25.0),
        ("Tiles", find(book, "Tiles", "Length"), 598.0),
        *((tab, find(book, tab, *place), value) for tab, place, value in AS_LONG_AS_BEFORE),
        *(("Rooms", find(book, "Rooms", header, 2), value) for header, value in NEW_ROOM.items()),
    ]
    with Edits(book) as edits:
        for tab, address, value in typed:
            edits.type(tab, address, value)


@pytest.mark.libreoffice
def test_what_a_plan_rests_on_makes_every_result_out_of_date(recalculated: recalc.Books) -> None:
    one = recalculated(with_a_room_and_sizes_changed)
    book, cells = one.path, one.after
    found = statuses(cells, results_of(book))
    assert set(found) == set(results_of(book))
    assert {status.partition(":")[0] for status in found.values()} == {"OUT OF DATE"}
    assert ages(book) == ["RESULTS-OUT-OF-DATE"]
    # each of them is enough: its tab says so alone, and no other does
    state, tab = (find(book, "Findings", header).rstrip("0123456789") for header in INPUTS)
    changed = {
        cells["Findings", tab + address.removeprefix(state)]
        for (sheet, address), value in cells.items()
        if sheet == "Findings" and value == "CHANGED" and address.startswith(state)
    }
    assert changed == {"Rolls and sheets", "Tiles", "Rooms", "Finishes", "Build-up", "Job"}


def test_no_formula_reads_a_column_whose_cells_are_links(tmp_path: Path) -> None:
    # each comparison of a linked cell takes LibreOffice longer than the one before
    book = load_workbook(example(tmp_path / "example.xlsx"))
    linked, read = set(), set()
    for sheet in book.worksheets:
        for table in sheet.tables.values():
            first, top, last, bottom = range_boundaries(table.ref)
            rows = list(sheet.iter_rows(top, bottom, first, last))
            linked |= {
                (table.name, head.value)
                for head, *cells in zip(*rows, strict=True)
                if any(cell.hyperlink for cell in cells)
            }
        read |= {
            reference
            for row in sheet.iter_rows()
            for cell in row
            if cell.data_type == "f"
            for reference in COLUMN_READ.findall(cell.value)
        }
    assert {("OutCosts", "Item"), ("OutTakeoff", "Item"), ("InJob", "Setting")} <= read
    assert ("OutTakeoff", "Room") in linked
    assert not linked & read


COLUMN_READ = re.compile(r"(\w+)\[(?:\[#This Row\],\[)?([^\[\]]+)\]")
"""A table and one of its columns, as a formula names them."""

INPUTS = ("State", "Input tab")
"""Headers of what Findings compares."""


def accepted(book: Path) -> list[tuple[object, ...]]:
    return [row[:7] for row in rows_of(book, "Findings")[4:] if row and row[0] == "accepted"]


def test_what_a_decision_accepts_stays_listed_as_accepted(tmp_path: Path) -> None:
    book = example(tmp_path / "example.xlsx")
    listed = accepted(book)
    assert len(listed) == 1
    change(book)
    run(book)
    assert accepted(book) == listed
    assert str(listed[0][1]) in check(book)
    code = find(book, "Decisions", "Code")
    with Edits(book) as edits:
        edits.type("Decisions", code, "TWO-PERSON-LIFT")
    run(book)
    assert listed[0][1] not in [row[1] for row in accepted(book)]
    assert any("warning" in str(value) for value in rows_of(book, "Findings")[0])
