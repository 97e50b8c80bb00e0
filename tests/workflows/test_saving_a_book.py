"""Whatever keeps a workbook from being saved: it is as it was, and the message says what to do."""

import errno
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from edited_books import small_room_bytes
from whole_program import find, rows_of, run
from xml_edits import Edits

from sheetcalc.cli import main
from sheetcalc.excel.grafting import graft
from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.saving import backups
from sheetcalc.excel.saving.save_lock import own_lock
from sheetcalc.workflows import take_off

Trouble = Callable[[Path, pytest.MonkeyPatch], Iterator[None]]


@pytest.fixture
def book(tmp_path: Path) -> Path:
    (tmp_path / "job").mkdir()
    path = tmp_path / "job" / "larch-court.xlsx"
    path.write_bytes(small_room_bytes())
    return path


def takeoff(book: Path) -> Result:
    return CliRunner().invoke(main, ["takeoff", "--no-cards", str(book)])


def open_elsewhere(book: Path, _patch: pytest.MonkeyPatch) -> Iterator[None]:
    book.with_name(f"~${book.name}").touch()
    yield
    book.with_name(f"~${book.name}").unlink()


def open_in_the_free_office(book: Path, _patch: pytest.MonkeyPatch) -> Iterator[None]:
    book.with_name(f".~lock.{book.name}#").touch()
    yield
    book.with_name(f".~lock.{book.name}#").unlink()


def another_run(book: Path, _patch: pytest.MonkeyPatch) -> Iterator[None]:
    with own_lock(book):
        yield


def changed_meanwhile(book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    calculate = take_off.calculate_book

    def slowly(*given: object, **named: object) -> object:
        os.utime(book, ns=(1, 1))  # somebody saves it again while this run is at work
        return calculate(*given, **named)  # type: ignore[arg-type]

    patch.setattr(take_off, "calculate_book", slowly)
    yield


def two_names(book: Path, _patch: pytest.MonkeyPatch) -> Iterator[None]:
    other = book.parent.with_name("same.xlsx")
    other.hardlink_to(book)
    yield
    other.unlink()


def read_only(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    access = os.access
    patch.setattr(os, "access", lambda p, mode, **k: mode != os.W_OK and access(p, mode, **k))
    yield


def _fails(patch: pytest.MonkeyPatch, target: object, name: str, number: int) -> Iterator[None]:
    def fail(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    patch.setattr(target, name, fail)
    yield


def read_only_folder(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    yield from _fails(patch, tempfile, "mkstemp", errno.EACCES)


def disk_full(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    yield from _fails(patch, os, "fsync", errno.ENOSPC)


def network_rename(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    yield from _fails(patch, Path, "replace", errno.EIO)


def somebody_has_it(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    yield from _fails(patch, Path, "replace", errno.ETXTBSY)


def reads_back_wrong(_book: Path, patch: pytest.MonkeyPatch) -> Iterator[None]:
    def wrong(*_: object) -> None:
        raise SaveFailed(Code.WRITTEN_WRONG, {"part": "xl/workbook.xml"})

    patch.setattr(graft.Graft, "verify", wrong)
    yield


TROUBLES: tuple[tuple[Trouble, str, int], ...] = (
    (open_elsewhere, "FILE-OPEN", 4),
    (open_in_the_free_office, "FILE-OPEN", 4),
    (another_run, "FILE-BUSY", 4),
    (changed_meanwhile, "FILE-CHANGED", 4),
    (somebody_has_it, "FILE-OPEN", 4),
    (two_names, "FILE-LINKED", 3),
    (read_only, "FILE-READ-ONLY", 3),
    (read_only_folder, "FOLDER-READ-ONLY", 3),
    (disk_full, "DISK-FULL", 3),
    (network_rename, "SAVE-FAILED", 3),
    (reads_back_wrong, "WRITTEN-WRONG", 3),
)


@pytest.mark.parametrize(
    ("trouble", "code", "exit_code"), TROUBLES, ids=[t.__name__ for t, _, _ in TROUBLES]
)
def test_the_book_is_as_it_was_and_the_message_says_what_to_do(
    book: Path, monkeypatch: pytest.MonkeyPatch, trouble: Trouble, code: str, exit_code: int
) -> None:
    before = book.read_bytes()
    with contextmanager(trouble)(book, monkeypatch):
        result = takeoff(book)
    monkeypatch.undo()
    assert result.exit_code == exit_code, result.output
    assert code in result.output
    assert "what to do" in result.output
    assert "not touched" in result.output
    assert "Traceback" not in result.output
    assert book.read_bytes() == before
    assert [p.name for p in book.parent.iterdir()] == [book.name]
    if trouble in {open_elsewhere, another_run, disk_full}:
        assert takeoff(book).exit_code == 0, "once the trouble is over, it works"


def test_a_folder_that_vanishes_is_said_so(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    calculate, moved = take_off.calculate_book, book.parent.with_name("moved")

    def slowly(*given: object, **named: object) -> object:
        done = calculate(*given, **named)  # type: ignore[arg-type]
        book.parent.rename(moved)
        return done

    before = book.read_bytes()
    monkeypatch.setattr(take_off, "calculate_book", slowly)
    result = takeoff(book)
    assert result.exit_code == 3
    assert "what to do" in result.output
    assert (moved / book.name).read_bytes() == before
    assert [p.name for p in moved.iterdir()] == [book.name]


def test_a_link_to_a_book_stays_a_link_and_the_book_is_written(book: Path, tmp_path: Path) -> None:
    link = tmp_path / "today.xlsx"
    link.symlink_to(book)
    before = book.read_bytes()
    result = takeoff(link)
    assert result.exit_code == 0
    assert f"{link}: " in result.output, "told by the name that was typed"
    assert link.is_symlink()
    assert book.read_bytes() != before
    (backup,) = backups.backups_of(book)
    assert backup.read_bytes() == before


def setting(book: Path, label: str, value: float) -> None:
    """Type a setting of the Job."""
    names = [row[0] if row else None for row in rows_of(book, "Job")]
    place = find(book, "Job", "Value").rstrip("0123456789") + str(names.index(label) + 1)
    with Edits(book) as edits:
        edits.type("Job", place, value)


def test_backups_are_as_many_as_the_job_says(book: Path) -> None:
    written: list[bytes] = []
    for kept, left in ((10, 1), (10, 2), (10, 3), (2, 2), (1, 1), (3, 2)):
        setting(book, "Backups kept", kept)
        with Edits(book) as edits:
            edits.type("Finishes", find(book, "Finishes", "Joint"), 4.0 + len(written) / 2)
        written.append(book.read_bytes())
        run(book)
        # the newest stay, each as the book was before its run
        found = [backup.read_bytes() for backup in backups.backups_of(book)]
        assert sorted(found) == sorted(written[-left:]), f"{kept} are kept"
    run(book)
    assert len(backups.backups_of(book)) == left, "nothing had changed"
