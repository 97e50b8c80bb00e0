"""Whatever happens while a file is replaced, it is the old one or the new one, complete."""

import errno
import os
import stat
import subprocess
import sys
import zipfile
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

import pytest
from grafting import parts
from odd_packages import Features, write_book

from sheetcalc.excel.opc.errors import InUse, Refused, SaveFailed
from sheetcalc.excel.saving import backups, safe_save, save_lock

NOON = datetime(2026, 1, 31, 12, 0, 0)  # noqa: DTZ001 - names of backups are in people's own time


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_book(tmp_path / "larch-court.xlsx", Features())


def new_content(out: BinaryIO) -> None:
    """A small zip that reads back well."""
    with zipfile.ZipFile(out, "w") as package:
        package.writestr("a.txt", b"new")


def save(path: Path, **options: object) -> safe_save.SaveReport:
    given = {"backups_kept": 3, "now": NOON} | options
    given.setdefault("expected", path.exists() and safe_save.fingerprint(path))
    return safe_save.replace(path, new_content, **given)  # type: ignore[arg-type]


def assert_untouched(path: Path, before: bytes) -> None:
    """The file is as it was, and nothing lies about beside it."""
    assert path.read_bytes() == before
    beside = [p.name for p in path.parent.iterdir() if p.name.startswith((".~larch", "larch"))]
    assert [name for name in beside if "sheetcalc" in name or "backup" in name] == []


def test_the_new_content_takes_the_place_and_the_old_is_kept(book: Path) -> None:
    before = book.read_bytes()
    report = save(book)
    assert parts(book) == {"a.txt": b"new"}
    assert report.backup is not None
    assert report.backup.name == "larch-court.backup-20260131-120000.xlsx"
    assert report.backup.read_bytes() == before


def test_the_same_content_touches_nothing(book: Path) -> None:
    save(book)
    when = book.stat().st_mtime_ns
    report = save(book)
    assert not report.changed
    assert report.backup is None
    assert book.stat().st_mtime_ns == when
    assert len(backups.backups_of(book)) == 1


def test_backups_of_one_second_never_overwrite_each_other(book: Path) -> None:
    contents = [book.read_bytes()]
    for number in range(2):
        report = save(book)
        assert report.backup is not None
        book.write_bytes(f"state {number}".encode())
        contents.append(book.read_bytes())
    save(book)
    kept = backups.backups_of(book)
    assert [k.read_bytes() for k in kept] == contents
    assert [k.name.partition("backup-")[2] for k in kept] == [
        "20260131-120000.xlsx",
        "20260131-120000-2.xlsx",
        "20260131-120000-3.xlsx",
    ]


def test_the_oldest_backups_go_and_other_files_stay(book: Path) -> None:
    other = book.with_name("larch-court-2.backup-20200101-000000.xlsx")
    other.write_bytes(b"of another book")
    own = book.with_name("larch-court.backup of mine.xlsx")
    own.write_bytes(b"made by hand")
    for day in range(1, 6):
        book.write_bytes(f"state {day}".encode())
        save(book, now=datetime(2026, 1, day), backups_kept=2)  # noqa: DTZ001 - as above
    assert [b.read_bytes() for b in backups.backups_of(book)] == [b"state 4", b"state 5"]
    assert other.read_bytes() == b"of another book"
    assert own.exists()
    assert not backups.is_backup(own)


def test_a_backup_is_never_written_to(book: Path) -> None:
    backup = save(book).backup
    assert backup is not None
    before = backup.read_bytes()
    with pytest.raises(SaveFailed) as refused:
        save(backup)
    assert refused.value.code == "FILE-IS-BACKUP"
    assert backup.read_bytes() == before


def test_no_backup_is_made_where_none_is_kept(book: Path) -> None:
    assert save(book, backups_kept=0).backup is None
    assert backups.backups_of(book) == []


def test_a_link_stays_a_link(book: Path, tmp_path: Path) -> None:
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    link = folder / "link.xlsx"
    link.symlink_to(book)
    save(link)
    assert link.is_symlink()
    assert parts(book) == {"a.txt": b"new"}
    assert list(folder.iterdir()) == [link]


@pytest.mark.parametrize("mode", [0o644, 0o600, 0o664, 0o755])
def test_permissions_stay_as_they_are(book: Path, mode: int) -> None:
    book.chmod(mode)
    save(book)
    assert stat.S_IMODE(book.stat().st_mode) == mode


def test_owner_and_group_stay_as_they_are(book: Path) -> None:
    owner = (4242, 4343) if os.geteuid() == 0 else (os.getuid(), os.getgid())
    os.chown(book, *owner)
    book.chmod(0o2664)
    save(book)
    facts = book.stat()
    assert (facts.st_uid, facts.st_gid, stat.S_IMODE(facts.st_mode)) == (*owner, 0o2664)


def test_a_pipe_is_no_workbook_and_nobody_waits_for_it(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.xlsx"
    os.mkfifo(pipe)
    with pytest.raises(Refused) as refusal:
        safe_save.fingerprint(pipe)
    assert refusal.value.code == "FILE-NOT-READABLE"


def test_a_file_with_two_names_is_refused(book: Path) -> None:
    before = book.read_bytes()
    os.link(book, book.with_name("other name.xlsx"))
    with pytest.raises(SaveFailed) as trouble:
        save(book)
    assert trouble.value.code == "FILE-LINKED"
    assert_untouched(book, before)


@pytest.mark.parametrize(
    "name", ["~$larch-court.xlsx", "~$rch-court.xlsx", ".~lock.larch-court.xlsx#"]
)
def test_a_file_that_is_open_elsewhere_is_left_alone(book: Path, name: str) -> None:
    before = book.read_bytes()
    book.with_name(name).write_bytes(b"somebody")
    with pytest.raises(InUse) as trouble:
        save(book)
    assert (trouble.value.code, trouble.value.exit_code) == ("FILE-OPEN", 4)
    assert trouble.value.facts["lock"] == name
    assert_untouched(book, before)


def test_a_file_that_was_opened_meanwhile_is_left_alone(book: Path) -> None:
    before = book.read_bytes()

    def slowly(out: BinaryIO) -> None:
        new_content(out)
        book.with_name("~$larch-court.xlsx").write_bytes(b"somebody")

    with pytest.raises(InUse):
        safe_save.replace(
            book, slowly, expected=safe_save.fingerprint(book), backups_kept=3, now=NOON
        )
    assert_untouched(book, before)


@pytest.mark.parametrize("how", ["content", "time", "size"])
def test_a_file_that_changed_meanwhile_is_left_alone(book: Path, how: str) -> None:
    expected = safe_save.fingerprint(book)
    if how == "content":
        data = bytearray(book.read_bytes())
        data[-1] ^= 1
        book.write_bytes(data)
        os.utime(book, ns=(expected.mtime_ns, expected.mtime_ns))
    elif how == "time":
        os.utime(book, ns=(1, 1))
    else:
        book.write_bytes(book.read_bytes() + b" ")
    before = book.read_bytes()
    with pytest.raises(InUse) as trouble:
        save(book, expected=expected)
    assert (trouble.value.code, trouble.value.exit_code) == ("FILE-CHANGED", 4)
    assert_untouched(book, before)


def test_a_second_run_at_the_same_time_stops(book: Path) -> None:
    before = book.read_bytes()
    with save_lock.own_lock(book), pytest.raises(InUse) as trouble:
        save(book)
    assert (trouble.value.code, trouble.value.exit_code) == ("FILE-BUSY", 4)
    assert_untouched(book, before)
    assert save(book).changed


def test_a_lock_of_a_run_that_was_killed_does_not_hold(book: Path) -> None:
    save_lock.lock_path(book).write_bytes(b"")
    assert save(book).changed
    assert not save_lock.lock_path(book).exists()


def test_what_a_killed_run_left_is_swept(book: Path) -> None:
    left = book.with_name(".~larch-court.xlsx.sheetcalc-abc.tmp")
    left.write_bytes(b"half a file")
    other = book.with_name(".~other.xlsx.sheetcalc-abc.tmp")
    other.write_bytes(b"of another book")
    save(book)
    assert not left.exists()
    assert other.exists()


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (errno.ENOSPC, ("DISK-FULL", 3)),
        (errno.EDQUOT, ("DISK-FULL", 3)),
        (errno.EROFS, ("FOLDER-READ-ONLY", 3)),
        (errno.EACCES, ("FOLDER-READ-ONLY", 3)),
        (errno.EIO, ("SAVE-FAILED", 3)),
        (errno.ETXTBSY, ("FILE-OPEN", 4)),
        (errno.EXDEV, ("SAVE-FAILED", 3)),
    ],
)
@pytest.mark.parametrize("where", ["write", "fsync", "rename", "backup"])
def test_an_error_of_the_system_at_any_step_leaves_the_file(
    book: Path, monkeypatch: pytest.MonkeyPatch, number: int, told: tuple[str, int], where: str
) -> None:
    before = book.read_bytes()

    def fails(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    write = new_content
    if where == "write":
        write = fails
    elif where == "fsync":
        monkeypatch.setattr(os, "fsync", fails)
    elif where == "rename":
        monkeypatch.setattr(Path, "replace", fails)
    else:
        monkeypatch.setattr(backups, "copy_unfinished", fails)
    with pytest.raises(SaveFailed) as trouble:
        safe_save.replace(
            book, write, expected=safe_save.fingerprint(book), backups_kept=3, now=NOON
        )
    assert (trouble.value.code, trouble.value.exit_code) == told
    assert_untouched(book, before)


def test_a_disk_that_is_full_leaves_the_file(book: Path) -> None:
    """A limit on file sizes stands in for the disk: the system refuses to write on."""
    before = book.read_bytes()
    code = (
        "import resource, signal, sys; from pathlib import Path\n"
        "from sheetcalc.excel.opc.errors import SaveFailed\n"
        "from sheetcalc.excel.saving import safe_save\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "path = Path(sys.argv[1]); expected = safe_save.fingerprint(path)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))\n"
        "def write(out): out.write(bytes(100_000))\n"
        "try: safe_save.replace(path, write, expected=expected, backups_kept=3)\n"
        "except SaveFailed as trouble: print(trouble.code, trouble.exit_code)\n"
    )
    result = subprocess.run(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", code, str(book)], capture_output=True, check=True, text=True
    )
    assert result.stdout.split() == ["DISK-FULL", "3"]
    assert_untouched(book, before)


def test_a_folder_that_vanished_is_said_so(book: Path) -> None:
    expected = safe_save.fingerprint(book)
    book.rename(book.parent.parent / "moved.xlsx")
    with pytest.raises(SaveFailed) as trouble:
        save(book, expected=expected)
    assert trouble.value.code == "FILE-GONE"
    (book.parent.parent / "moved.xlsx").unlink()


def test_a_folder_that_vanishes_while_it_is_written_is_said_so(tmp_path: Path) -> None:
    folder = tmp_path / "share"
    folder.mkdir()
    book = write_book(folder / "larch-court.xlsx", Features())
    content = book.read_bytes()

    def gone(out: BinaryIO) -> None:
        new_content(out)
        folder.rename(tmp_path / "share that came back")

    with pytest.raises(SaveFailed) as trouble:
        safe_save.replace(
            book, gone, expected=safe_save.fingerprint(book), backups_kept=3, now=NOON
        )
    assert trouble.value.code in {"FILE-GONE", "FILE-CHANGED"}
    assert (tmp_path / "share that came back" / "larch-court.xlsx").read_bytes() == content


def test_what_reads_back_wrong_does_not_take_the_place(book: Path) -> None:
    before = book.read_bytes()

    def half(out: BinaryIO) -> None:
        new_content(out)
        out.truncate(out.tell() - 30)

    with pytest.raises(SaveFailed) as trouble:
        safe_save.replace(
            book, half, expected=safe_save.fingerprint(book), backups_kept=3, now=NOON
        )
    assert trouble.value.code == "WRITTEN-WRONG"
    assert_untouched(book, before)


def test_a_file_that_may_not_be_written_is_left_alone(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = book.read_bytes()
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(SaveFailed) as trouble:
        save(book)
    assert trouble.value.code == "FILE-READ-ONLY"
    assert_untouched(book, before)


def test_a_file_of_somebody_else_that_can_not_stay_theirs_is_left_alone(
    book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = book.read_bytes()
    real = Path.stat

    def of_somebody(path: Path, **options: bool) -> os.stat_result:
        facts = real(path, **options)
        if path != book:
            return facts
        return os.stat_result((*facts[:4], 4242, *facts[5:10]), {"st_mtime_ns": facts.st_mtime_ns})

    def not_allowed(*_: object) -> None:
        raise PermissionError(errno.EPERM, "not allowed")

    expected = safe_save.fingerprint(book)
    monkeypatch.setattr(Path, "stat", of_somebody)
    monkeypatch.setattr(os, "fchown", not_allowed)
    with pytest.raises(SaveFailed) as trouble:
        save(book, expected=expected)
    assert trouble.value.code == "FILE-OWNER"
    monkeypatch.undo()
    assert_untouched(book, before)


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.EPERM])
def test_a_folder_that_can_not_be_made_is_read_only_and_not_gone(
    number: int, tmp_path: Path
) -> None:
    trouble = save_lock.save_trouble(
        OSError(number, "refused"), tmp_path / "not made" / "quote.xlsx"
    )
    assert trouble.code == "FOLDER-READ-ONLY"
