"""A folder that is watched: what is due when, and the whole thing running."""

import os
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workflows import BookCommand, BookReport, watch
from sheetcalc.workflows.watch_folder import FolderWatch
from tests.samples import SAMPLES

SECONDS = 60.0
"""Longest that anything may take on a busy machine."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "old.xlsx").write_bytes(b"was there before")
    return tmp_path


def saved(path: Path, content: bytes = b"saved") -> Path:
    path.write_bytes(content)
    return path


def report_of(path: Path, code: int = 0) -> BookReport:
    return BookReport(path, code, str(path), written=None if code else path)


def test_what_was_there_before_is_not_due(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    assert state.begin() == 1
    assert state.look(100) == []


def test_a_saved_workbook_is_due_when_it_has_been_left_alone(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "new.xlsx")
    assert state.look(10) == []
    assert state.look(10.9) == []
    assert state.look(11) == [book]


def test_a_workbook_that_is_still_being_written_is_waited_for(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "new.xlsx")
    state.look(10)
    saved(book, b"saved, and more")
    assert state.look(11) == []
    assert state.look(12) == [book]


@pytest.mark.parametrize("lock", ["~$new.xlsx", ".~lock.new.xlsx#"])
def test_an_open_workbook_is_left_alone_until_it_is_closed(folder: Path, lock: str) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "new.xlsx")
    (folder / lock).touch()
    state.look(10)
    assert state.look(20) == []
    assert list(state.open_ones()) == [book]
    assert list(state.open_ones()) == []  # told once
    (folder / lock).unlink()
    assert state.look(21) == [book]


def test_a_workbook_that_grows_while_it_is_open_is_told_of_once(folder: Path) -> None:
    """A program writes a large workbook in many pieces, and each wakes the watch."""
    state = FolderWatch(folder, settle=1)
    state.begin()
    (folder / "~$new.xlsx").touch()
    told = []
    for size in range(1, 6):
        book = saved(folder / "new.xlsx", b"x" * size)
        state.look(10 + size / 100)
        told += state.open_ones()
    assert told == [book]


def test_what_the_run_itself_wrote_is_no_change(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "new.xlsx")
    state.look(10)
    assert state.look(11) == [book]
    saved(book, b"with results")
    assert state.done(report_of(book), 12)
    assert state.look(20) == []
    assert not state.is_waiting


def test_a_copy_that_was_written_beside_a_locked_book_is_no_change(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "signed.xlsx")
    state.look(10)
    copy = saved(folder / "signed (sheetcalc).xlsx")
    state.done(BookReport(book, 0, "", written=copy), 12)
    assert state.look(20) == []
    assert state.look(30) == []


def test_what_was_saved_while_a_bad_file_was_read_is_done_too(folder: Path) -> None:
    """A slow copy: the first half is read and refused when the second half arrives."""
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "slow.xlsx", b"first half")
    state.look(10)
    assert state.look(11) == [book]
    saved(book, b"first half, second half")
    assert state.done(report_of(book, 3), 12)
    state.look(20)
    assert state.look(21) == [book]


def test_a_bad_file_is_not_tried_again_before_it_changes(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "bad.xlsx")
    state.look(10)
    state.look(11)
    assert state.done(report_of(book, 3), 11)
    assert state.look(20) == []
    saved(book, b"better now")
    state.look(30)
    assert state.look(31) == [book]


def test_a_file_in_use_is_tried_again_and_told_of_once(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    book = saved(folder / "new.xlsx")
    state.look(10)
    assert state.look(11) == [book]
    assert state.done(report_of(book, 4), 11)
    assert state.look(11.5) == []
    assert state.look(12) == [book]
    assert not state.done(report_of(book, 4), 12)


def test_a_workbook_that_went_and_came_back_is_due(folder: Path) -> None:
    state = FolderWatch(folder, settle=1)
    state.begin()
    content = (folder / "old.xlsx").read_bytes()
    (folder / "old.xlsx").unlink()
    assert state.look(10) == []
    saved(folder / "old.xlsx", content)
    state.look(11)
    assert state.look(12) == [folder / "old.xlsx"]


# --- the whole of it ----------------------------------------------------------------------------


class Watch:
    """A watch that runs in a thread, and what it told."""

    def __init__(self, folder: Path) -> None:
        self.reports: list[BookReport] = []
        self.said: list[str] = []
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, args=(folder,))
        self._thread.start()

    def _run(self, folder: Path) -> None:
        watch(
            folder,
            BookCommand("takeoff", cards=False),
            self.reports.append,
            say=self.said.append,
            stop=self._stop,
            settle=0.3,
        )

    def until(self, done: Callable[[], bool]) -> None:
        deadline = time.monotonic() + SECONDS
        while not done():
            assert time.monotonic() < deadline, (self.said, self.reports)
            assert self._thread.is_alive(), self.said
            time.sleep(0.02)

    def end(self) -> None:
        self._stop.set()
        self._thread.join(SECONDS)
        assert not self._thread.is_alive()


@pytest.fixture
def watched(folder: Path) -> Iterator[Watch]:
    running = Watch(folder)
    running.until(lambda: bool(running.said))
    yield running
    running.end()


def test_each_saving_is_followed_by_one_takeoff_and_bad_files_are_survived(
    watched: Watch, folder: Path
) -> None:
    small = write_book(SAMPLES["small-room.xlsx"](), load_house_style())
    book = saved(folder / "room é ½.xlsx", small)
    watched.until(lambda: len(watched.reports) == 1)
    assert (watched.reports[0].path, watched.reports[0].exit_code) == (book, 0)
    assert book.read_bytes() != small

    saved(folder / "bad.xlsx", b"PK\x03\x04 cut off")
    watched.until(lambda: len(watched.reports) == 2)
    assert watched.reports[1].exit_code == 3

    # as spreadsheet programs save: a new file in the place of the old one
    shutil.copyfile(book, folder / "saving.tmp")
    with (folder / "saving.tmp").open("ab") as file:
        file.write(b"")
    os.utime(folder / "saving.tmp", (1, 1))
    (folder / "saving.tmp").replace(book)
    watched.until(lambda: len(watched.reports) == 3)
    assert (watched.reports[2].path, watched.reports[2].exit_code) == (book, 0)
    time.sleep(1)
    assert len(watched.reports) == 3, "what it wrote itself is no reason to run again"


def test_a_watch_ends_with_its_folder(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    folder.mkdir()
    running = Watch(folder)
    running.until(lambda: bool(running.said))
    folder.rmdir()
    running.end()
    assert running.said[-1] == f"no longer watching {folder}"
