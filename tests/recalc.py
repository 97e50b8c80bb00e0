"""Recalculate a workbook with headless LibreOffice, and read what it then holds.

LibreOffice passes stored values of an .xlsx on without recalculating unless its profile says
otherwise, so a comparison would always agree.  The profile made here sets ``OOXMLRecalcMode`` to
0 (always); ``test_recalc.py`` sees a deliberately wrong stored value corrected.
"""

import atexit
import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Hashable, Iterable, Sequence
from datetime import date, datetime, time
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

import pytest
from msgspec import Struct
from office_text import EVERY_SHEET, cells_of_text
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
_SECONDS_MORE = 10
"""Patience with one workbook, and with each that follows."""


def office() -> str:
    """Path of the program; skips where there is none, unless it must be there."""
    found = shutil.which("soffice") or shutil.which("libreoffice")
    if found is None:
        reason = "headless LibreOffice is not installed"
        if os.environ.get("SHEETCALC_NEEDS_LIBREOFFICE") == "1":
            pytest.fail(reason + ", and SHEETCALC_NEEDS_LIBREOFFICE says that it must be")
        pytest.skip(reason)
    return found


@cache
def _profile() -> str:
    """A profile for this process of the tests alone, filled once, as the office is told of it."""
    folder = Path(tempfile.mkdtemp(prefix="sheetcalc-office-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    (folder / "user").mkdir()
    (folder / "user" / "registrymodifications.xcu").write_text(_FORCED, encoding="utf-8")
    return folder.as_uri()


def convert_all(paths: Iterable[Path], to: str, folder: Path) -> dict[str, Path]:
    """Convert workbooks in one start of the office, with a profile that recalculates always.

    Starting takes as long as recalculating ten small workbooks.

    Parameters
    ----------
    paths
        The workbooks, of different names; they are only read.
    to
        ``xlsx``; ``pdf``, all pages; ``csv``, the first sheet; what follows a colon are options
        for the office.
    folder
        Where the results go.

    Returns
    -------
    dict[str, Path]
        Stem of a workbook -> what was made of it; those that do not open are missing.
    """
    books = list(paths)
    suffix = to.partition(":")[0]
    made = {book.stem: folder / f"{book.stem}.{suffix}" for book in books}
    assert len(made) == len(books), "two workbooks of one name would be made into one file"
    for path in made.values():
        path.unlink(missing_ok=True)
    _start_office(books, to, folder)
    return {stem: path for stem, path in made.items() if path.is_file()}


def _start_office(books: Sequence[Path], to: str, folder: Path) -> None:
    program = office()
    folder.mkdir(parents=True, exist_ok=True)
    if books:
        subprocess.run(  # noqa: S603 - the office found on this machine, no shell
            [
                program,
                f"-env:UserInstallation={_profile()}",
                "--headless",
                "--norestore",
                "--convert-to",
                to,
                "--outdir",
                str(folder),
                *map(str, books),
            ],
            check=False,  # it fails where one of the workbooks does not open
            capture_output=True,
            timeout=_SECONDS + _SECONDS_MORE * len(books),
        )


def convert(path: Path, to: str, folder: Path) -> Path:
    """Convert one workbook, which must open."""
    made = convert_all([path], to, folder)
    assert made, f"LibreOffice made no {to} of {path.name}"
    return made[path.stem]


def cells(path: Path) -> CellOf:
    """Stored values of a workbook, to look at and not to change; empty cells are left out."""
    return _cells(path.read_bytes())


@lru_cache(maxsize=8)
def _cells(content: bytes) -> CellOf:
    book = load_workbook(BytesIO(content), data_only=True, read_only=True)
    found = {}
    for sheet in book.worksheets:
        sheet.reset_dimensions()  # believe the rows, not what the sheet says of its size
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value not in {None, ""}:
                    found[sheet.title, cell.coordinate] = cell.value
    return found


def recalculate_all(paths: Sequence[Path]) -> dict[str, CellOf]:
    """Stored values after LibreOffice has recalculated every formula, all in one start.

    It writes each sheet as a text file of its own: writing workbooks takes it twice as long.

    Parameters
    ----------
    paths
        The workbooks, of different names; they are only read.

    Returns
    -------
    dict[str, CellOf]
        Stem of a workbook -> its cells; those that do not open are missing.
    """
    found: dict[str, CellOf] = {}
    with tempfile.TemporaryDirectory() as folder:
        books = {path.stem: Path(folder, f"{at}.xlsx") for at, path in enumerate(paths)}
        for path, copy in zip(paths, books.values(), strict=True):
            shutil.copyfile(path, copy)
        _start_office(list(books.values()), EVERY_SHEET, Path(folder))
        for stem, copy in books.items():
            for file in Path(folder).glob(f"{copy.stem}-*.csv"):
                sheet = file.stem.removeprefix(f"{copy.stem}-")
                cells_here = cells_of_text(file.read_text(encoding="utf-8"))
                found.setdefault(stem, {}).update(
                    {(sheet, address): value for address, value in cells_here.items()}
                )
    return found


def recalculate(path: Path) -> CellOf:
    """Stored values after LibreOffice has recalculated every formula of one workbook."""
    (recalculated,) = recalculate_all([path]).values()
    return recalculated


Writer = TypeVar("Writer", bound=Callable[[Path], object])


class Recalculated(Struct, frozen=True):
    """A workbook that a test wrote, with its stored values before and after a recalculation.

    ``made`` is what its writer returned.
    """

    path: Path
    made: Any
    before: CellOf
    after: CellOf


Books: TypeAlias = Callable[[Hashable], Recalculated]
"""A recalculated workbook by the function that wrote it."""


class Together:
    """Workbooks that the tests of one file write; the office recalculates all of them at once.

    A file declares its writers with ``book``, and a module-scoped fixture calls ``recalculated``.
    """

    def __init__(self) -> None:
        self._writers: list[Callable[[Path], object]] = []

    def book(self, writer: Writer) -> Writer:
        """Declare what writes one of the workbooks; what it returns is kept as ``made``."""
        self._writers.append(writer)
        return writer

    def recalculated(self, folder: Path) -> Books:
        """Write and recalculate all; the answer gives a workbook by its writer."""
        made = {
            writer: (path := folder / f"{number}.xlsx", writer(path))
            for number, writer in enumerate(self._writers)
        }
        after = recalculate_all([path for path, _ in made.values()])

        @cache
        def of(writer: Hashable) -> Recalculated:
            path, returned = made[writer]
            assert path.stem in after, f"LibreOffice opened nothing that {writer} wrote"
            return Recalculated(path, returned, cells(path), after[path.stem])

        return of


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
