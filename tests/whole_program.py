"""The program from end to end on the invented example: workbooks before and after a takeoff."""

import shutil
import tempfile
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path

import openpyxl

from sheetcalc import workflows
from sheetcalc.workflows import BookReport


def quiet(_stage: str, _done: int, _of: int) -> None:
    """Nobody listens."""


def run(book: Path, *, cards: bool = False, **options: bool) -> BookReport:
    """A takeoff that must end well; drawing the room cards takes half of its time."""
    report = workflows.takeoff(book, quiet, cards=cards, **options)
    assert report.exit_code == 0, report.summary
    return report


def codes(report: BookReport) -> list[str]:
    """Codes of a report's findings."""
    return [finding.code for finding in report.findings]


def check(book: Path) -> list[str]:
    """Codes of what ``check`` finds; it must leave the file alone."""
    before = book.read_bytes()
    report = workflows.check(book, quiet)
    assert book.read_bytes() == before
    return codes(report)


def ages(book: Path) -> list[str]:
    """What ``check`` says about the age of results."""
    return [code for code in check(book) if code.startswith("RESULTS-")]


@cache
def _example(*, taken_off: bool, cards: bool) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder) / "example.xlsx"
        report = workflows.blank(book, units="metric", example=True)
        assert report.exit_code == 0, report.summary
        if taken_off:
            run(book, cards=cards)
        return book.read_bytes()


def example(path: Path, *, taken_off: bool = True, cards: bool = False) -> Path:
    """Write the example workbook, after a takeoff (with room cards, or without) or before."""
    path.write_bytes(_example(taken_off=taken_off, cards=taken_off and cards))
    return path


def example_into(path: Path, book: Path) -> Path:
    """Copy somebody's workbook and add the example to it."""
    shutil.copyfile(book, path)
    report = workflows.blank_into(path, units="metric", example=True)
    assert report.exit_code == 0, report.summary
    return path


@lru_cache(maxsize=4)
def _loaded(content: bytes) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(content), data_only=True)


def stored(path: Path) -> openpyxl.Workbook:
    """A workbook with the values that are stored in it; to look at, not to change."""
    return _loaded(path.read_bytes())


def find(book: Path, sheet: str, header: str, row: int | str = 0) -> str:
    """Address of a cell by its column's header; ``row`` counts records, or is the first cell."""
    tab = stored(book)[sheet]
    for cells in tab.iter_rows(max_row=60):
        for cell in cells:
            if str(cell.value).partition(" (")[0] == header:
                number = cell.row + 1
                if isinstance(row, int):
                    return f"{cell.column_letter}{number + row}"
                while tab.cell(number, 1).value != row:
                    number += 1
                return f"{cell.column_letter}{number}"
    message = f"{sheet} has no column {header}"
    raise KeyError(message)
