"""A new workbook where none was: complete, or not there."""

import contextlib
import os
import tempfile
from pathlib import Path

from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.saving.save_lock import save_trouble

_MOST_NUMBERS = 1000


def create(path: Path, content: bytes) -> None:
    """Write a new file; one that is there already stays.

    Raises
    ------
    SaveFailed
        ``FILE-EXISTS``, or what keeps it from being written; nothing is left behind then.
    """
    temp = ""
    try:
        descriptor, temp = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
        with os.fdopen(descriptor, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        Path(temp).chmod(0o666 & ~_umask())
        take_name(temp, path)
    except FileExistsError as trouble:
        raise SaveFailed(Code.FILE_EXISTS, {"file": path.name}) from trouble
    except OSError as trouble:
        raise save_trouble(trouble, path) from trouble
    finally:
        with contextlib.suppress(OSError):
            if temp:
                Path(temp).unlink()


def create_numbered(path: Path, content: bytes) -> Path:
    """Write a new file beside those that are there: nothing is overwritten.

    Parameters
    ----------
    path
        Name wanted; its folder is made where it is not there.
    content
        The file.

    Returns
    -------
    Path
        The file that holds the content: one that held it already, or a new one, with a number
        where the name was taken.

    Raises
    ------
    SaveFailed
        What keeps it from being written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        for number in range(1, _MOST_NUMBERS):
            tail = "" if number == 1 else f" ({number})"
            place = path.with_name(f"{path.stem}{tail}{path.suffix}")
            if not place.exists():
                create(place, content)
                return place
            if place.read_bytes() == content:
                return place
    except OSError as trouble:
        raise save_trouble(trouble, path) from trouble
    raise SaveFailed(Code.FILE_EXISTS, {"file": path.name})


def take_name(temp: str, path: Path) -> None:
    """Give a file its name, unless that is taken: a plain rename would overwrite.

    Raises
    ------
    FileExistsError
        Where the name is taken.
    """
    try:
        os.link(temp, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without links: claim the name, then rename over it
        path.open("xb").close()
        Path(temp).replace(path)


def _umask() -> int:
    """Ask for the mask that new files get; it can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
