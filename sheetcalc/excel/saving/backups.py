"""Dated copies of a workbook as it was, beside it; limited in number, never overwritten."""

import contextlib
import hashlib
import os
import re
import shutil
import tempfile
from datetime import datetime
from pathlib import Path
from typing import Final

from sheetcalc.excel.opc.errors import Code, SaveFailed

_STAMP: Final = r"\d{8}-\d{6}(?:-\d+)?"
_BACKUP: Final = re.compile(rf"(?P<stem>.+)\.backup-(?P<stamp>{_STAMP})(?P<suffix>\.[^.]*)?")


def is_backup(path: Path) -> bool:
    """Tell whether a file is a backup by its name, and no workbook to work on.

    >>> is_backup(Path("larch-court.backup-20260131-142233.xlsx"))
    True
    """
    return _BACKUP.fullmatch(path.name) is not None


def book_of(backup: Path) -> Path | None:
    """Return the workbook that a backup is of; None for a file that is no backup.

    >>> book_of(Path("larch-court.backup-20260131-142233.xlsx")).name
    'larch-court.xlsx'
    """
    match = _BACKUP.fullmatch(backup.name)
    return backup.with_name(match["stem"] + (match["suffix"] or "")) if match else None


def backups_of(path: Path) -> list[Path]:
    """Backups of a workbook, oldest first."""
    found: list[tuple[str, int, Path]] = []
    for other in path.parent.iterdir():
        match = _BACKUP.fullmatch(other.name)
        if match and match["stem"] == path.stem and (match["suffix"] or "") == path.suffix:
            day, clock, *more = match["stamp"].split("-")
            found.append((day + clock, int(more[0]) if more else 1, other))
    return [other for _, _, other in sorted(found)]


def copy_unfinished(path: Path, head: str) -> tuple[Path, str]:
    """Copy the file to a name that says it is unfinished; it is on the disk when this returns.

    Parameters
    ----------
    path
        The file.
    head
        Start of the unfinished copy's name.

    Returns
    -------
    tuple
        The copy, and the SHA-256 of what was copied.

    Raises
    ------
    OSError
        Where it can't be written; nothing of it is left then.
    """
    descriptor, name = tempfile.mkstemp(".tmp", head, path.parent)
    temp = Path(name)
    digest = hashlib.sha256()
    try:
        with os.fdopen(descriptor, "wb") as out, path.open("rb") as source:
            while piece := source.read(1 << 20):
                digest.update(piece)
                out.write(piece)
            out.flush()
            os.fsync(out.fileno())
        shutil.copystat(path, temp)
    except BaseException:
        with contextlib.suppress(OSError):
            temp.unlink()
        raise
    return temp, digest.hexdigest()


def give_name(temp: Path, path: Path, now: datetime) -> Path:
    """Give a complete copy its dated name, whichever is free.

    Raises
    ------
    OSError
        Where that can't be done.
    """
    stamp = now.strftime("%Y%m%d-%H%M%S")
    for number in range(1, 10_000):
        tail = f"-{number}" if number > 1 else ""
        place = path.with_name(f"{path.stem}.backup-{stamp}{tail}{path.suffix}")
        if os.path.lexists(place):
            continue
        try:
            os.link(temp, place)  # unlike a rename, never over another file
        except FileExistsError:
            continue
        except OSError:  # a file system without links
            temp.rename(place)
        else:
            temp.unlink()
        return place
    raise SaveFailed(Code.SAVE_FAILED, {"file": path.name, "why": "no free name for a backup"})


def prune_backups(path: Path, keep: int) -> list[Path]:
    """Remove the oldest backups beyond a number; what can't be removed stays."""
    there = backups_of(path)
    gone: list[Path] = []
    for old in there[: max(0, len(there) - keep)]:
        with contextlib.suppress(OSError):
            old.unlink()
            gone.append(old)
    return gone
