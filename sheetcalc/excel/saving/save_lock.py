"""Locks: our own, that keeps two runs apart, and those that other programs leave beside a file."""

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from sheetcalc.excel.opc.errors import Code, InUse, SaveFailed

try:
    import fcntl
except ImportError:  # Windows: there a file that is open can't be replaced, which is lock enough
    fcntl = None  # type: ignore[assignment]

LOCK_TAIL: Final = ".sheetcalc-lock"


def other_locks(path: Path) -> list[Path]:
    """Lock files of spreadsheet programs that say the file is open.

    ``~$name`` is left by the program most offices use, ``.~lock.name#`` by the free one; both
    are removed when the file is closed.
    """
    candidates = [path.with_name("~$" + path.name), path.with_name(f".~lock.{path.name}#")]
    if len(path.name) > 8:  # noqa: PLR2004 - some versions leave out the first two signs of long names
        candidates.append(path.with_name("~$" + path.name[2:]))
    return [c for c in candidates if os.path.lexists(c)]


def refuse_if_open(path: Path) -> None:
    """Stop where another program has the file open.

    Raises
    ------
    InUse
        ``FILE-OPEN``.
    """
    for lock in other_locks(path):
        raise InUse(Code.FILE_OPEN, {"file": path.name, "lock": lock.name})


def lock_path(path: Path) -> Path:
    """Our lock file of a workbook."""
    return path.with_name(f".~{path.name}{LOCK_TAIL}")


@contextlib.contextmanager
def own_lock(path: Path) -> Iterator[None]:
    """Keep other runs away from a file; the lock goes with the process, however it ends.

    Raises
    ------
    InUse
        ``FILE-BUSY`` where another run has it.
    SaveFailed
        Where no file can be made in the folder.
    """
    place = lock_path(path)
    descriptor = _take(place, path)
    try:
        yield
    finally:
        # removed while held: whoever waits for this file sees that it is no longer the one
        with contextlib.suppress(OSError):
            place.unlink()
        os.close(descriptor)


def _take(place: Path, path: Path) -> int:
    for _ in range(100):
        try:
            descriptor = os.open(
                place, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o600
            )
        except OSError as trouble:
            raise save_trouble(trouble, path) from trouble
        if fcntl is None:
            return descriptor
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            os.close(descriptor)
            raise InUse(Code.FILE_BUSY, {"file": path.name}) from None
        except OSError:  # a file system without locks: the fingerprint still guards
            return descriptor
        # between opening and locking, another run may have removed this very file
        try:
            if os.path.samestat(place.stat(), os.fstat(descriptor)):
                return descriptor
        except FileNotFoundError:
            pass
        os.close(descriptor)
    raise InUse(Code.FILE_BUSY, {"file": path.name})


def save_trouble(trouble: OSError, path: Path) -> SaveFailed:
    """Say what stands behind an error of the operating system."""
    import errno  # noqa: PLC0415 - only where something went wrong

    facts: dict[str, str | int] = {"file": path.name, "why": trouble.strerror or str(trouble)}
    if trouble.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        return SaveFailed(Code.DISK_FULL, facts)
    # before the folder is looked for: one that could not be made is not gone
    if trouble.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        if os.name == "nt":  # pragma: no cover - there it means that a program has it open
            return InUse(Code.FILE_OPEN, {**facts, "lock": "its own"})
        return SaveFailed(Code.FOLDER_READ_ONLY, facts)
    if not path.parent.is_dir():
        return SaveFailed(Code.FILE_GONE, facts)
    if trouble.errno in (errno.ETXTBSY, errno.EBUSY):
        return InUse(Code.FILE_OPEN, {**facts, "lock": "its own"})
    return SaveFailed(Code.SAVE_FAILED, facts)
