"""One step: our sheets into a workbook file, safely."""

import contextlib
import filecmp
import os
import re
import shutil
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from msgspec import Struct

from sheetcalc.domain.spread import Spread, alone
from sheetcalc.excel.generating.fresh_book import FreshBook
from sheetcalc.excel.grafting import graft
from sheetcalc.excel.grafting.graft import GraftReport, Placement
from sheetcalc.excel.opc import guards
from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.saving import safe_save
from sheetcalc.excel.saving.new_file import take_name
from sheetcalc.excel.saving.safe_save import Fingerprint
from sheetcalc.excel.saving.save_lock import save_trouble
from sheetcalc.excel.tabs.own_tabs import FoundTabs

_COPY: Final = re.compile(r" \(sheetcalc(?: \d+)?\)$")
_MOST_COPIES: Final = 1000


class WriteReport(Struct, frozen=True):
    """What was written.

    Attributes
    ----------
    path
        The file that holds the result: the book itself, by the name it was given, or a copy
        beside it.
    is_copy
        True where the book is signed or its structure is locked (``graft.copy_reason``).
    changed
        False where the book was already as it should be.
    backup
        The book as it was, or None.
    graft
        What became of each tab.
    """

    path: Path
    is_copy: bool
    changed: bool
    backup: Path | None
    graft: GraftReport


def add_tabs(  # noqa: PLR0913 - each of them is a decision of the caller
    path: Path,
    fresh: bytes | FreshBook,
    placements: Sequence[Placement],
    *,
    expected: Fingerprint,
    backups_kept: int = 10,
    retire_others: bool = False,
    inspected: bool = False,
    spread: Spread = alone,
    found: FoundTabs | None = None,
) -> WriteReport:
    """Graft sheets into a file and save it.

    Parameters
    ----------
    path
        The user's book.
    fresh
        A workbook that holds exactly our sheets, or their frames with the cells apart.
    placements
        What each of its sheets is, in their order.
    expected
        Fingerprint of the book when it was read.
    backups_kept
        How many dated copies stay.
    retire_others
        Remove result tabs of ours that are not among the placements.
    inspected
        The guards have looked the book over since ``expected`` was taken.
    spread
        Who writes the cells of large sheets.
    found
        Our tabs of the book where they have been looked for already.

    Raises
    ------
    Refused, SaveFailed, InUse
        The book is as it was.
    """
    if not inspected:
        guards.inspect(path)
    with graft.prepare(
        path, fresh, placements, retire_others=retire_others, spread=spread, found=found
    ) as plan:
        report = plan.report
        if report.copy_reason:
            copy = _write_copy(path, plan)
            new = copy != path
            return WriteReport(copy, is_copy=new, changed=new, backup=None, graft=report)
        saved = safe_save.replace(
            path, plan.write, expected=expected, backups_kept=backups_kept, verify=plan.verify
        )
    return WriteReport(path, False, saved.changed, saved.backup, report)  # noqa: FBT003 - named in the class


def _write_copy(path: Path, plan: graft.Graft) -> Path:
    """Write beside a book that must stay as it is.

    Returns
    -------
    Path
        The book itself where it holds all this already, a copy that does, or a new one under a
        name that is not there yet.
    """
    temp: Path | None = None
    try:
        descriptor, name = tempfile.mkstemp(".tmp", f".{path.name[:80]}.", path.parent)
        temp = Path(name)
        with os.fdopen(descriptor, "wb") as out:
            plan.write(out)
            out.flush()
            os.fsync(out.fileno())
        plan.verify(temp)
        shutil.copymode(path, temp)
        return _kept_copy(temp, path)
    except OSError as trouble:
        raise save_trouble(trouble, path) from trouble
    finally:
        if temp is not None:
            with contextlib.suppress(OSError):
                temp.unlink()


def _kept_copy(temp: Path, path: Path) -> Path:
    if filecmp.cmp(temp, path, shallow=False):
        return path
    stem = _COPY.sub("", path.stem)  # a copy of a copy is one more copy of the book
    for number in range(1, _MOST_COPIES):
        tail = "sheetcalc" if number == 1 else f"sheetcalc {number}"
        place = path.with_name(f"{stem} ({tail}){path.suffix}")
        if not os.path.lexists(place):
            with contextlib.suppress(FileExistsError):
                take_name(str(temp), place)
                return place
        elif place.is_file() and filecmp.cmp(temp, place, shallow=False):
            return place
    raise SaveFailed(Code.SAVE_FAILED, {"file": path.name, "why": "no free name for a copy"})
