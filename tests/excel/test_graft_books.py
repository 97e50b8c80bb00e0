"""The promise of the graft on books of every kind.

Three collections: those made by ``odd_packages`` and ``twisted_packages``, and a folder of real
workbooks that ``SHEETCALC_BOOKS`` names.
"""

import os
import shutil
from pathlib import Path

import pytest
from grafting import assert_kept, graft_into
from odd_packages import ODD, Features, write_book
from readable_books import cells_of, opened
from twisted_packages import TWISTED, Twist, write_twisted

from sheetcalc.excel.opc import guards
from sheetcalc.excel.tabs.own_tabs import find_in_file

_FOLDER = os.environ.get("SHEETCALC_BOOKS", "")
_REAL = sorted(Path(_FOLDER).glob("*.xls[xm]")) if _FOLDER else []
_ALL: dict[str, Path | Features | Twist] = {
    **ODD,
    **TWISTED,
    **{path.name: path for path in _REAL},
}


def the_book(name: str, folder: Path) -> tuple[Path, frozenset[str]]:
    """A copy of a book, and the parts of it that a graft may add to."""
    kind = _ALL[name]
    if isinstance(kind, Path):
        path = folder / kind.name
        shutil.copyfile(kind, path)
        base, book = "xl/", "workbook.xml"
    elif not isinstance(kind, Features):
        path = write_twisted(folder / "book.xlsx", name)
        base, book = "xl/", "workbook.xml"
    else:
        path = write_book(folder / f"book.{'xlsm' if kind.macros else 'xlsx'}", kind)
        base, book = (f"{kind.folder}/" if kind.folder else ""), kind.workbook_name
    edited = {"[content_types].xml", base + book, f"{base}_rels/{book}.rels", f"{base}styles.xml"}
    edited.add("xl/my.styles")
    return path, frozenset(part.lower() for part in edited)


@pytest.mark.parametrize("name", _ALL)
def test_every_part_and_cell_is_kept_and_a_second_run_changes_no_byte(
    name: str, tmp_path: Path
) -> None:
    book, edited = the_book(name, tmp_path)
    cells = cells_of(book)
    once, twice = tmp_path / f"once{book.suffix}", tmp_path / f"twice{book.suffix}"
    guards.inspect(book)
    graft_into(book, out=once)
    assert_kept(book, once, edited)
    graft_into(once, out=twice)
    assert once.read_bytes() == twice.read_bytes()
    guards.inspect(once)
    assert [(tab.key, tab.edited) for tab in find_in_file(once).tabs] == [
        ("findings", False),
        ("takeoff", False),
    ]
    if cells:  # where openpyxl can load the original; it finds no sheets at all in a strict book
        after = cells_of(once)
        assert after is not None
        assert {title: after[title] for title in cells} == cells
        assert len(after) == len(cells) + 2


@pytest.mark.libreoffice
def test_libreoffice_opens_every_book_that_it_could_open_before(tmp_path: Path) -> None:
    after, before = tmp_path / "after", tmp_path / "before"
    after.mkdir()
    before.mkdir()
    for number, name in enumerate(_ALL):
        folder = tmp_path / str(number)
        folder.mkdir()
        book, _ = the_book(name, folder)
        graft_into(book, out=after / f"{number}{book.suffix}")
    those = opened(after)
    assert len(those) > 0.9 * len(_ALL)
    # one that it can't open may have been so before
    for number, name in enumerate(_ALL):
        if str(number) not in those:
            book, _ = the_book(name, tmp_path / str(number))
            book.rename(before / f"{number}{book.suffix}")
    assert not {list(_ALL)[int(number)] for number in opened(before)}
