"""Room cards in a real workbook: made, made again, left out."""

import zipfile
from pathlib import Path

import pytest
from openpyxl import load_workbook
from openpyxl.drawing.spreadsheet_drawing import OneCellAnchor
from PIL import Image
from samples.small_room import small_room

from sheetcalc import workflows
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style


def silent(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "small-room.xlsx"
    path.write_bytes(write_book(small_room(), load_house_style()))
    return path


def tabs_and_pictures(path: Path) -> tuple[bool, int]:
    """Whether there is a Room cards tab, and how many pictures are in the file."""
    with zipfile.ZipFile(path) as package:
        names = package.namelist()
        tabs = package.read("xl/workbook.xml").decode()
    return 'name="Room cards"' in tabs, sum("/media/" in name for name in names)


def drawings(path: Path) -> str:
    with zipfile.ZipFile(path) as package:
        return "".join(
            package.read(name).decode()
            for name in package.namelist()
            if "/drawings/" in name and name.endswith(".xml")
        )


def test_a_takeoff_puts_a_drawing_with_its_words_into_the_file(book: Path) -> None:
    assert workflows.takeoff(book, silent).exit_code == 0
    assert tabs_and_pictures(book) == (True, 1)
    assert "Plan of the floor from above. A floor: 8 whole and 16 cut tiles" in drawings(book)


def test_a_drawing_has_its_size_whatever_font_makes_the_columns_wide(book: Path) -> None:
    """As openpyxl reads it: held at one cell, 200 dots an inch (914,400 EMU, ISO/IEC 29500-1)."""
    workflows.takeoff(book, silent)
    (picture,) = load_workbook(book)["Room cards"]._images  # noqa: SLF001 - no other way to ask
    across, along = Image.open(picture.ref).size
    assert isinstance(picture.anchor, OneCellAnchor)
    one_pixel = 914_400 / 96
    assert picture.anchor.ext.cx == pytest.approx(across / 200 * 914_400, abs=one_pixel)
    assert picture.anchor.ext.cy == pytest.approx(along / 200 * 914_400, abs=one_pixel)


def test_a_second_run_changes_no_byte(book: Path) -> None:
    workflows.takeoff(book, silent)
    before = book.read_bytes()
    workflows.takeoff(book, silent)
    assert book.read_bytes() == before


def test_cards_can_be_left_out_and_are_then_taken_away(book: Path) -> None:
    workflows.takeoff(book, silent)
    workflows.takeoff(book, silent, cards=False)
    assert tabs_and_pictures(book) == (False, 0)
    assert drawings(book) == ""


def test_a_book_taken_off_without_cards_gets_them_at_a_later_run(book: Path) -> None:
    workflows.takeoff(book, silent, cards=False)
    assert tabs_and_pictures(book) == (False, 0)
    workflows.takeoff(book, silent)
    assert tabs_and_pictures(book) == (True, 1)
