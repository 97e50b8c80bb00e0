"""Somebody's workbook from ``blank --into`` to orders: everything that was in it stays.

Books made by ``odd_packages``, and real ones from the folder that ``SHEETCALC_BOOKS`` names: one in
twelve of them, so that the suite stays quick; every one where ``SHEETCALC_EVERY_BOOK=1`` is set.
"""

import os
import shutil
from pathlib import Path

import pytest
from grafting import assert_kept
from odd_packages import ODD, Features, write_book
from readable_books import as_pages, cells_of, cells_of_sheets
from whole_program import codes, quiet

from sheetcalc import workflows
from sheetcalc.excel.opc import guards
from sheetcalc.excel.opc.book import Book
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.own_tabs import find_in_file
from sheetcalc.workflows import BookReport

_EVERY = os.environ.get("SHEETCALC_EVERY_BOOK") == "1"
_FOLDER = os.environ.get("SHEETCALC_BOOKS", "")
_REAL = sorted(Path(_FOLDER).glob("*.xls[xm]")) if _FOLDER else []
_BOOKS: dict[str, Path | Features] = {
    "structure locked": Features(locked=True, states=("visible", "hidden")),
    "signed": Features(signed=True),
    **dict(list(ODD.items())[:: 1 if _EVERY else 5]),
    **{path.name: path for path in _REAL[:: 1 if _EVERY else 24]},
}
_AS_PAGES = list(_BOOKS)[:: 1 if _EVERY else 5]


def the_book(name: str, folder: Path) -> tuple[Path, frozenset[str]]:
    """A copy of a book, and the parts of it that may be added to."""
    kind = _BOOKS[name]
    if isinstance(kind, Path):
        path = Path(shutil.copy(kind, folder / kind.name))
        base, book = "xl/", "workbook.xml"
    else:
        path = write_book(folder / f"book.{'xlsm' if kind.macros else 'xlsx'}", kind)
        base, book = (f"{kind.folder}/" if kind.folder else ""), kind.workbook_name
    edited = {"[content_types].xml", base + book, f"{base}_rels/{book}.rels", f"{base}styles.xml"}
    return path, frozenset(part.lower() for part in edited)


def finished(book: Path) -> tuple[Path, BookReport]:
    """Add the example's tabs and take it off; results may be in a copy beside a locked book."""
    added = workflows.blank_into(book, units="metric", example=True)
    assert added.exit_code == 0, added.summary
    assert added.written is not None
    report = workflows.takeoff(added.written, quiet, cards=False)
    assert report.exit_code == 0, report.summary
    assert report.written is not None
    return report.written, report


@pytest.mark.parametrize("name", _BOOKS)
def test_everything_stays_and_a_second_run_changes_no_byte(name: str, tmp_path: Path) -> None:
    book, edited = the_book(name, tmp_path)
    original = Path(shutil.copy(book, tmp_path / f"original{book.suffix}"))
    cells = cells_of(original)
    result, report = finished(book)
    assert_kept(original, result, edited)
    once = result.read_bytes()
    again = workflows.takeoff(result, quiet, cards=False)
    assert again.exit_code == 0
    assert again.written == result
    assert result.read_bytes() == once
    assert codes(again) == codes(report)
    guards.inspect(result)
    assert not any(tab.edited for tab in find_in_file(result).tabs)
    assert_one_of_each_name(result)
    if cells:
        assert cells_of_sheets(result, cells) == cells


def assert_one_of_each_name(path: Path) -> None:
    """Sheet names, table names and ids, sheet ids: each of them once, without case."""
    with Package.open(path) as package:
        book = Book(package)
        tables = book.tables()
        for names in (
            [s.name.casefold() for s in book.sheets],
            [str(s.sheet_id) for s in book.sheets],
            [s.part for s in book.sheets],
            [t.name.casefold() for t in tables],
            [str(t.number) for t in tables],
        ):
            assert len(set(names)) == len(names)


@pytest.mark.libreoffice
def test_libreoffice_makes_pages_of_every_finished_book(tmp_path: Path) -> None:
    before, after = tmp_path / "before", tmp_path / "after"
    before.mkdir()
    after.mkdir()
    for number, name in enumerate(_AS_PAGES):
        folder = tmp_path / str(number)
        folder.mkdir()
        book, _ = the_book(name, folder)
        shutil.copy(book, before / f"{number}{book.suffix}")
        result, _ = finished(book)
        shutil.copy(result, after / f"{number}{book.suffix}")
    printed = as_pages(after)
    assert len(printed) > 0.9 * len(_AS_PAGES)
    assert set(printed.values()) == {2}, "a page of what was there, and one of ours behind it"
    # one that it can't open may have been so before
    for done in printed:
        next(before.glob(f"{done}.xls[xm]")).unlink()
    assert not {_AS_PAGES[int(number)] for number in as_pages(before)}
