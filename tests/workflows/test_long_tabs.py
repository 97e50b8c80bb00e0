"""Long tabs made and written by copies of the process: the same file, to the byte."""

import os
import signal
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hand_made import catalogue, room
from msgspec.structs import replace
from result_books import inputs, raw_book, run_of
from whole_program import example, quiet

from sheetcalc import workflows
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.excel.generating import elsewhere, sheet_cells
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.grafting import filling, plan
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.office import PLAIN
from sheetcalc.workbook.results import ResultTabs
from sheetcalc.workbook.sheet import Cell, SheetColumn, SheetModel, TableModel
from sheetcalc.workflows import result_tabs
from sheetcalc.workflows.spreading import OverCores

HERE = os.getpid()
COPIED = pytest.mark.skipif(sys.platform != "linux", reason="copies are made there only")


LONG = {"takeoff", "setting-out", "cut-list", "roll-plan", "cable-schedule", "resistance-log"}


@pytest.fixture(scope="module", autouse=True)
def _short_blocks() -> Iterator[None]:
    """A few rows are a long table."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sheet_cells, "ROWS_A_BLOCK", 20)
        yield


@pytest.fixture(scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The example taken off by one process."""
    return taken_off(tmp_path_factory.mktemp("alone"), cores=1)


def taken_off(folder: Path, *, cores: int) -> bytes:
    book = example(folder / "book.xlsx", taken_off=False)
    report = workflows.takeoff(book, quiet, cards=False, cores=cores)
    assert report.exit_code == 0, report.summary
    return book.read_bytes()


@pytest.fixture
def filled_by(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Every tab, however short, is worth a copy; which process fills it is noted in a file."""
    monkeypatch.setattr(result_tabs, "FEWEST_CELLS", 1)
    notes, fill = tmp_path / "notes", filling.fill_part

    def noted(cells: SheetCells, wanted: elsewhere.Wanted) -> filling.FilledPart:
        with notes.open("a") as file:
            file.write(f"{os.getpid()} {cells.sheet.key}\n")
        return fill(cells, wanted)

    monkeypatch.setattr(filling, "fill_part", noted)
    return notes


@COPIED
@pytest.mark.parametrize("cores", [2, 3])
def test_a_file_is_the_same_however_many_processes_make_its_tabs(
    tmp_path: Path, alone: bytes, filled_by: Path, cores: int
) -> None:
    assert taken_off(tmp_path, cores=cores) == alone
    by: dict[str, set[str]] = {}
    for line in filled_by.read_text().splitlines():
        process, tab = line.split(" ", 1)
        by.setdefault(tab, set()).add(process)
    assert {"takeoff", "cut-list", "setting-out", "roll-plan"} <= by.keys()
    assert len(by["takeoff"]) == cores
    assert all(len(processes) == 1 for tab, processes in by.items() if tab != "takeoff")
    # this process has all the others to make
    assert not [tab for tab in LONG & by.keys() if str(HERE) in by[tab]]
    # those that the takeoff is not waited for with have copies of their own
    assert not by["takeoff"] & by["cut-list"]


@COPIED
def test_a_file_is_the_same_where_processes_share_what_is_to_be_written(
    tmp_path: Path, alone: bytes, filled_by: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(result_tabs, "FEWEST_CELLS", 1 << 30)
    monkeypatch.setattr(plan, "CELLS_WORTH_SHARING", 1)
    assert taken_off(tmp_path, cores=2) == alone
    processes = [line.split()[0] for line in filled_by.read_text().splitlines()]
    assert len(set(processes)) == 2
    assert str(HERE) not in processes


@COPIED
def test_tabs_begun_for_a_run_that_came_to_nothing_are_not_those_of_the_next(
    filled_by: Path,
) -> None:
    assert filled_by
    first, second = (
        replace(run_of(inputs(catalogue()), []), works=(RoomWork(room(name=name)),))
        for name in ("1.01", "1.02")
    )
    raw = raw_book({})
    with result_tabs.LongTabs(raw, OverCores(2), PLAIN) as long:
        long.planned(first)
        long.taken_off(first)
        long.priced(second)
        tabs = ResultTabs(second, (), raw)
        sheets = long.made(second, tabs)
        assert not long.sheets
        assert sheets == tabs.made_long()


@COPIED
def test_a_copy_that_is_killed_loses_no_tab(
    tmp_path: Path, alone: bytes, filled_by: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill = filling.fill_part

    def killed(cells: SheetCells, wanted: elsewhere.Wanted) -> filling.FilledPart:
        if os.getpid() != HERE:
            os.kill(os.getpid(), signal.SIGKILL)
        return fill(cells, wanted)

    monkeypatch.setattr(filling, "fill_part", killed)
    assert taken_off(tmp_path, cores=2) == alone
    assert {line.split()[0] for line in filled_by.read_text().splitlines()} == {str(HERE)}


def test_no_copies_are_made_where_they_would_start_afresh(
    tmp_path: Path, alone: bytes, filled_by: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", "another")
    assert taken_off(tmp_path, cores=2) == alone
    assert {line.split()[0] for line in filled_by.read_text().splitlines()} == {str(HERE)}


def test_a_record_with_a_link_that_leaves_the_book_is_not_kept_from_the_frame() -> None:
    outside = Cell("mail", "result_link", link="mailto:office@example.org")
    table = TableModel("OutTakeoff", 4, 1, (SheetColumn("Column"),), ((outside,),))
    model = SheetModel("takeoff", "Takeoff", "Takeoff", "What is needed.", (table,))
    with pytest.raises(ValueError, match="leaves the book"):
        elsewhere.kept_here(SheetCells(model, load_house_style()))


def test_records_that_something_stands_below_are_not_apart() -> None:
    table = TableModel("OutTakeoff", 4, 1, (SheetColumn("Column"),), ((Cell("a"),),))
    model = SheetModel("takeoff", "Takeoff", "Takeoff", "What is needed.", (table,))
    below = replace(model, loose={(9, 1): Cell("below")})
    style = load_house_style()
    parts = [elsewhere.kept_here(SheetCells(below, style, before)) for before in (0, 1)]
    with pytest.raises(ValueError, match="can't be apart"):
        elsewhere.together(parts, style)
