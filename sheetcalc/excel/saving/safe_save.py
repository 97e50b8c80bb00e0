"""Replacing a file so that it is, at every instant, the old one or the new one, complete.

The new content is written beside the file, flushed, read back and compared; the old file is
checked to be the one that was read; a dated backup is made; then one rename puts the new file in
its place.  A process killed at any point leaves the old file, or the new one.
"""

import contextlib
import filecmp
import hashlib
import io
import os
import stat
import tempfile
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from msgspec import Struct

from sheetcalc.excel.opc.errors import Code, InUse, Refused, SaveFailed
from sheetcalc.excel.opc.zip_directory import chunks, read_directory
from sheetcalc.excel.saving import backups
from sheetcalc.excel.saving.save_lock import own_lock, refuse_if_open, save_trouble

_CHUNK = 1 << 20


class Fingerprint(Struct, frozen=True):
    """A file as it was read: size in bytes, time of its last change, SHA-256."""

    size: int
    mtime_ns: int
    sha256: str


class SaveReport(Struct, frozen=True):
    """What was saved.

    Attributes
    ----------
    changed
        False where the new content is the old one: nothing was touched then.
    backup
        Copy of the file as it was; None where nothing changed or none is kept.
    """

    changed: bool
    backup: Path | None


def _digest(file: io.BufferedReader) -> str:
    return hashlib.file_digest(file, "sha256").hexdigest()


def fingerprint(path: Path) -> Fingerprint:
    """Fingerprint of a file.

    Raises
    ------
    Refused
        ``FILE-NOT-READABLE``.
    """
    try:
        # asked before it is opened: opening a pipe would wait for somebody to write into it
        if not stat.S_ISREG(path.stat().st_mode):
            raise Refused(Code.FILE_NOT_READABLE, {"why": "it is not a file"})
        with path.open("rb") as file:
            facts = os.fstat(file.fileno())
            return Fingerprint(facts.st_size, facts.st_mtime_ns, _digest(file))
    except OSError as trouble:
        why = trouble.strerror or "unknown"
        raise Refused(Code.FILE_NOT_READABLE, {"why": why}) from trouble


def zip_test(path: Path) -> None:
    """Unpack every part of a zip and check it.

    Raises
    ------
    SaveFailed
        ``WRITTEN-WRONG``.
    """
    with path.open("rb") as file:
        try:
            for member in read_directory(file):
                for _ in chunks(file, member):
                    pass
        except Refused as trouble:
            raise SaveFailed(Code.WRITTEN_WRONG, trouble.facts) from trouble


def replace(  # noqa: PLR0913 - each of them is a decision of the caller
    path: Path,
    write: Callable[[BinaryIO], None],
    *,
    expected: Fingerprint,
    backups_kept: int,
    verify: Callable[[Path], None] = zip_test,
    now: datetime | None = None,
) -> SaveReport:
    """Replace a file's content safely.

    Parameters
    ----------
    path
        The file, or a link to it.
    write
        Writes the new content to an open file.
    expected
        Fingerprint of the file when it was read.
    backups_kept
        How many dated copies of earlier states stay; 0 for none.
    verify
        Checks the written file before it takes the old one's place.
    now
        For the backup's name; by default the clock's time.

    Raises
    ------
    SaveFailed, InUse
        The file is as it was.
    """
    try:
        real = path.resolve(strict=True)
    except (OSError, RuntimeError) as trouble:
        raise SaveFailed(Code.FILE_GONE, {"file": path.name, "why": str(trouble)}) from trouble
    refuse_if_open(real)
    if real != path:
        refuse_if_open(path)
    _refuse_unsuitable(real)
    with own_lock(real):
        _sweep(real)
        try:
            return _replace(real, write, expected, backups_kept, verify, now or datetime.now())  # noqa: DTZ005 - a backup's name is for people, in their own time
        except OSError as trouble:
            raise save_trouble(trouble, real) from trouble


def _refuse_unsuitable(real: Path) -> None:
    facts = real.stat()
    name = {"file": real.name}
    if not stat.S_ISREG(facts.st_mode):
        raise SaveFailed(Code.SAVE_FAILED, {**name, "why": "it is not a file"})
    if backups.is_backup(real):
        raise SaveFailed(Code.FILE_IS_BACKUP, name)
    if facts.st_nlink > 1:
        raise SaveFailed(Code.FILE_LINKED, {**name, "links": facts.st_nlink})
    if not os.access(real, os.W_OK):
        raise SaveFailed(Code.FILE_READ_ONLY, name)


def _temp_head(real: Path) -> str:
    return f".~{real.name[:80]}.sheetcalc-"


def _sweep(real: Path) -> None:
    """Remove what a killed run left: under our lock, nobody else is writing such files."""
    head = _temp_head(real)
    with contextlib.suppress(OSError):
        for other in real.parent.iterdir():
            if other.name.startswith(head) and other.name.endswith(".tmp"):
                with contextlib.suppress(OSError):
                    other.unlink()


def _replace(  # noqa: PLR0913, PLR0917 - handed on from the public function
    real: Path,
    write: Callable[[BinaryIO], None],
    expected: Fingerprint,
    backups_kept: int,
    verify: Callable[[Path], None],
    now: datetime,
) -> SaveReport:
    descriptor, name = tempfile.mkstemp(".tmp", _temp_head(real), real.parent)
    temp = Path(name)
    unfinished: Path | None = None
    backup: Path | None = None
    try:
        with os.fdopen(descriptor, "wb") as out, ThreadPoolExecutor(1) as beside:
            write(out)
            out.flush()
            wanted = backups_kept > 0 and out.tell() != expected.size
            # reading the old file again takes as long as waiting for the disk: both at once
            reading = beside.submit(_read_again, real, copy=wanted)
            try:
                _same_keeper(real, out.fileno(), temp)
                os.fsync(out.fileno())
                verify(temp)
            finally:
                there, unfinished = reading.result()
        _refuse_other(there, expected, real)
        if filecmp.cmp(temp, real, shallow=False):
            return SaveReport(changed=False, backup=None)
        if backups_kept > 0:
            unfinished = unfinished or backups.copy_unfinished(real, _temp_head(real))[0]
            backup = backups.give_name(unfinished, real, now)
        refuse_if_open(real)
        _refuse_touched(real, expected)
        temp.replace(real)
    except BaseException:
        _remove(backup)
        raise
    finally:
        _remove(temp)
        _remove(unfinished)
    _sync_folder(real.parent)
    if backups_kept > 0:
        backups.prune_backups(real, backups_kept)
    return SaveReport(changed=True, backup=backup)


def _remove(leftover: Path | None) -> None:
    if leftover is not None:
        with contextlib.suppress(OSError):
            leftover.unlink()


def _read_again(real: Path, *, copy: bool) -> tuple[Fingerprint | None, Path | None]:
    """Take the fingerprint of the file as it is now, and a copy of it for the backup."""
    if not copy:
        return _still(real), None
    facts = real.stat()
    temp, digest = backups.copy_unfinished(real, _temp_head(real))
    return Fingerprint(facts.st_size, facts.st_mtime_ns, digest), temp


def _same_keeper(real: Path, descriptor: int, temp: Path) -> None:
    """Give the new file the old one's owner, group, mode and extended attributes."""
    old = real.stat()
    mine = os.fstat(descriptor)
    if (old.st_uid, old.st_gid) != (mine.st_uid, mine.st_gid) and hasattr(os, "fchown"):
        try:
            os.fchown(descriptor, old.st_uid, old.st_gid)
        except OSError as trouble:
            raise SaveFailed(Code.FILE_OWNER, {"file": real.name}) from trouble
    for attribute in _attributes(real):
        with contextlib.suppress(OSError):
            os.setxattr(temp, attribute, os.getxattr(real, attribute))
    # last: changing the owner may clear bits, and mkstemp made it private until now
    if hasattr(os, "fchmod"):
        os.fchmod(descriptor, stat.S_IMODE(old.st_mode))


def _attributes(real: Path) -> list[str]:
    if not hasattr(os, "listxattr"):
        return []
    try:
        return os.listxattr(real)
    except OSError:
        return []


def _refuse_other(there: Fingerprint | None, expected: Fingerprint, real: Path) -> None:
    """Stop where the file is not the one that was read."""
    if there != expected:
        raise InUse(Code.FILE_CHANGED, {"file": real.name})


def _refuse_touched(real: Path, expected: Fingerprint) -> None:
    """Look once more, right before the rename, at size and time only."""
    facts = real.stat()
    if (facts.st_size, facts.st_mtime_ns) != (expected.size, expected.mtime_ns):
        raise InUse(Code.FILE_CHANGED, {"file": real.name})


def _still(real: Path) -> Fingerprint | None:
    """Take the fingerprint of the file as it is now; None where it can't be read any more."""
    try:
        return fingerprint(real)
    except Refused:
        return None


def _sync_folder(folder: Path) -> None:
    """Make the rename last through a power cut, where the system lets a folder be flushed."""
    with contextlib.suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
