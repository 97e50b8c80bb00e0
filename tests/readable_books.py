"""Whether other programs read a book: openpyxl every cell, LibreOffice opens it, makes pages."""

import re
import warnings
from collections.abc import Iterable
from pathlib import Path

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet
from recalc import convert_all


def cells_of(path: Path) -> dict[str, dict[str, object]] | None:
    """Every cell of every worksheet, as openpyxl reads it; None where it can't load the book."""
    with warnings.catch_warnings(), path.open("rb") as file:
        warnings.simplefilter("ignore")  # about features of the book that openpyxl does not know
        try:
            return _cells(openpyxl.load_workbook(file).worksheets)
        except Exception:  # noqa: BLE001 - a library that can't load a book fails in many ways
            return None


def cells_of_sheets(path: Path, titles: Iterable[str]) -> dict[str, dict[str, object]]:
    """The same of some sheets; the others are not gone through, which is most of the time."""
    with warnings.catch_warnings(), path.open("rb") as file:
        warnings.simplefilter("ignore")
        book = openpyxl.load_workbook(file, read_only=True)
        return _cells(book[title] for title in titles)


def _cells(sheets: Iterable[Worksheet]) -> dict[str, dict[str, object]]:
    return {
        sheet.title: {
            c.coordinate: plain(c.value)
            for row in sheet.iter_rows()
            for c in row
            if c.value is not None
        }
        for sheet in sheets
    }


def plain(value: object) -> object:
    """A value that compares by what it says: array formulas are objects without equality."""
    text, area = getattr(value, "text", None), getattr(value, "ref", None)
    return (text, area) if text is not None else value


def opened(folder: Path) -> set[str]:
    """Stems of the books in a folder that LibreOffice opens, and writes its first sheet of."""
    return set(convert_all(sorted(folder.glob("*.xls[xm]")), "csv", folder / "opened"))


_TWO_PAGES = 'pdf:calc_pdf_Export:{"PageRange":{"type":"string","value":"1,20"}}'
_PAGE = re.compile(rb"/Type\s*/Page\b")


def as_pages(folder: Path) -> dict[str, int]:
    """How many of two pages LibreOffice makes of each book in a folder, by its stem.

    It divides all sheets into pages, and writes the first and the twentieth: twenty of them take
    half as long again.  Books that it does not open are missing.
    """
    made = convert_all(sorted(folder.glob("*.xls[xm]")), _TWO_PAGES, folder / "pages")
    return {stem: len(_PAGE.findall(path.read_bytes())) for stem, path in made.items()}
