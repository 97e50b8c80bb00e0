"""Recalculate a workbook with headless LibreOffice, and read what it then holds.

LibreOffice passes stored values of an .xlsx on without recalculating unless its profile says
otherwise, so a comparison would always agree.  The profile made here sets ``OOXMLRecalcMode`` to
0 (always); ``test_recalc.py`` sees a deliberately wrong stored value corrected.
"""

import fcntl
import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time
from pathlib import Path
from typing import Any, TypeAlias

import pytest
from openpyxl import load_workbook

CellOf: TypeAlias = dict[tuple[str, str], Any]
"""Sheet and address -> stored value."""

_FORCED = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"
 oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="ODFRecalcMode"
 oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""

_SECONDS = 240


def office() -> str:
    """Path of the program; skips where there is none, unless it must be there."""
    found = shutil.which("soffice") or shutil.which("libreoffice")
    if found is None:
        reason = "headless LibreOffice is not installed"
        if os.environ.get("SHEETCALC_NEEDS_LIBREOFFICE") == "1":
            pytest.fail(reason + ", and SHEETCALC_NEEDS_LIBREOFFICE says that it must be")
        pytest.skip(reason)
    return found


@contextmanager
def _alone() -> Iterator[None]:
    """One office at a time on this machine: two compete for memory."""
    with (Path(tempfile.gettempdir()) / "sheetcalc-office.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def convert(path: Path, to: str, folder: Path) -> Path:
    """Convert a workbook with a profile of its own that recalculates always.

    Parameters
    ----------
    path
        The workbook; it is only read.
    to
        ``xlsx`` or ``pdf``.
    folder
        Where the result goes.
    """
    program = office()
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as profile, _alone():
        user = Path(profile) / "user"
        user.mkdir()
        (user / "registrymodifications.xcu").write_text(_FORCED, encoding="utf-8")
        subprocess.run(  # noqa: S603 - the office found on this machine, no shell
            [
                program,
                f"-env:UserInstallation=file://{profile}",
                "--headless",
                "--norestore",
                "--convert-to",
                to,
                "--outdir",
                str(folder),
                str(path),
            ],
            check=True,
            capture_output=True,
            timeout=_SECONDS,
        )
    made = folder / f"{path.stem}.{to}"
    assert made.is_file(), f"LibreOffice made no {to} of {path.name}"
    return made


def cells(path: Path) -> CellOf:
    """Stored values of a workbook; empty cells are left out."""
    book = load_workbook(path, data_only=True)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if cell.value not in {None, ""}
    }


def recalculate(path: Path) -> CellOf:
    """Stored values after LibreOffice has recalculated every formula."""
    with tempfile.TemporaryDirectory() as folder:
        return cells(convert(path, "xlsx", Path(folder)))


def differences(
    before: CellOf, after: CellOf, *, exactly: frozenset[tuple[str, str]] = frozenset()
) -> list[str]:
    """Cells that a recalculation has changed, in words.

    Parameters
    ----------
    before, after
        Stored values of both.
    exactly
        Cells that must not differ at all (packs and money); other numbers to 1e-9 relative.
    """
    found = []
    for place in sorted(before.keys() | after.keys()):
        old, new = before.get(place), after.get(place)
        if not _same(old, new, exact=place in exactly):
            found.append(f"{place[0]}!{place[1]}: stored {old!r}, recalculated {new!r}")
    return found


def _same(old: object, new: object, *, exact: bool) -> bool:
    if isinstance(old, datetime | date | time) or isinstance(new, datetime | date | time):
        return str(old) == str(new)
    if isinstance(old, int | float) and isinstance(new, int | float):
        if exact:
            return old == new
        return abs(old - new) <= 1e-9 * max(abs(old), abs(new))
    return old == new
