"""What-if on a finished workbook gives what a run on the changed inputs gives."""

from pathlib import Path

import pytest
import recalc
from openpyxl import load_workbook

from sheetcalc import workflows

pytestmark = pytest.mark.libreoffice

CHANGES = {
    "Waste factors": {"Waste %": 1.5},
    "Tiles": {"Price": 1.1, "Pieces per box": 2},
    "Bags and pails": {"Pack price": 1.2, "Yield": 0.8, "Coverage": 0.9, "Pack size": 0.5},
    "Rolls and sheets": {"Price": 0.95},
    "Heating cables": {"Price": 1.07},
    "Sundries": {"Pack price": 1.3, "Pack size": 2},
    "Labour": {"Hours per unit": 1.25, "Hourly rate": 1.1},
}
"""Input tab -> header -> factor on every plain number of the column."""

SHARES = {"Overhead": 0.125, "Profit": 0.07, "Contingency": 0.03}
"""Settings of the Job, and what they are changed to."""

LIVE = (
    "Net", "Waste %", "Gross", "Cost", "Needed", "Pack", "Packs", "Pack price", "Amount", "Weight",
    "Materials", "Labour", "Price", "Each", "Per area", "Cost per unit", "Hours per unit", "Hours",
    "Hourly rate",
)  # fmt: skip


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


def change(path: Path) -> None:
    """Multiply the live inputs; money stays in cents."""
    book = load_workbook(path)
    for tab, headers in CHANGES.items():
        sheet = book[tab]
        names = {str(c.value).partition(" (")[0]: c.column for c in sheet[4] if c.value}
        for header, factor in headers.items():
            for row in range(5, sheet.max_row + 1):
                cell = sheet.cell(row, names[header])
                if isinstance(cell.value, int | float):
                    cell.value = round(cell.value * factor, 4 if "rice" not in header else 2)
    for row in book["Job"].iter_rows(min_row=5):
        if row[0].value in SHARES:
            row[1].value = SHARES[row[0].value]
    book.save(path)


def live_cells(cells: recalc.CellOf) -> dict[tuple[str, int, str], object]:
    """Cells of the live columns of Takeoff and orders, by sheet, row and header."""
    heads: dict[tuple[str, str], tuple[int, str]] = {}
    for (sheet, address), value in cells.items():
        letters = "".join(filter(str.isalpha, address))
        row = int(address[len(letters) :])
        name = str(value).partition(" (")[0]
        if sheet.startswith(("Takeoff", "Order - ", "Quote")) and name in LIVE:
            heads[sheet, letters] = (row, name)  # the table's header stands below the block's
    found = {}
    for (sheet, address), value in cells.items():
        letters = "".join(filter(str.isalpha, address))
        row = int(address[len(letters) :])
        top, name = heads.get((sheet, letters), (row, ""))
        if row > top:
            found[sheet, row, name] = value
    return found


def test_changing_live_inputs_in_place_gives_what_a_new_run_gives(tmp_path: Path) -> None:
    path = tmp_path / "example.xlsx"
    workflows.blank(path, units="metric", example=True)
    workflows.takeoff(path, quiet)
    before = live_cells(recalc.cells(path))
    change(path)
    in_place = recalc.recalculate(path)
    stale = {sheet for (sheet, _), value in in_place.items() if "OUT OF DATE" in str(value)}
    assert stale == {"Room cards"}, "cards are printed: their amounts don't follow"
    workflows.takeoff(path, quiet)
    anew = live_cells(recalc.cells(path))
    ours = live_cells(in_place)
    assert len(ours) > 500
    assert ours.keys() == anew.keys()
    wrong = {
        place: (value, anew[place])
        for place, value in ours.items()
        if isinstance(value, int | float)
        and value != pytest.approx(anew[place], rel=1e-9, abs=1e-12)
    }
    assert wrong == {}
    assert sum(before[place] != value for place, value in ours.items()) > len(ours) / 2
