"""The program from end to end on the invented example: workbooks before and after a takeoff."""

import tempfile
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path

import openpyxl
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple

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


@lru_cache(maxsize=4)
def _opened(content: bytes) -> openpyxl.Workbook:
    """A workbook with the values that are stored in it, its sheets not read yet."""
    return openpyxl.load_workbook(BytesIO(content), data_only=True, read_only=True)


@lru_cache(maxsize=64)
def _values(content: bytes, sheet: str) -> tuple[tuple[object, ...], ...]:
    """Stored values of one sheet, row by row; a quarter of the time of loading all."""
    tab = _opened(content)[sheet]
    tab.reset_dimensions()
    return tuple(tab.iter_rows(values_only=True))


def rows_of(book: Path, sheet: str) -> tuple[tuple[object, ...], ...]:
    """Stored values of one sheet, row by row; rows end where their cells do."""
    return _values(book.read_bytes(), sheet)


def value_at(book: Path, sheet: str, address: str) -> object:
    """Stored value of one cell; None where it is empty."""
    rows, (row, column) = rows_of(book, sheet), coordinate_to_tuple(address)
    values = rows[row - 1] if row <= len(rows) else ()
    return values[column - 1] if column <= len(values) else None


def tabs(book: Path) -> list[str]:
    """Names of a workbook's sheets, in their order."""
    return _opened(book.read_bytes()).sheetnames


def find(book: Path, sheet: str, header: str, row: int | str = 0) -> str:
    """Address of a cell by its column's header; ``row`` counts records, or is the first cell."""
    rows = rows_of(book, sheet)
    for number, values in enumerate(rows, start=1):
        for column, value in enumerate(values, start=1):
            if str(value).partition(" (")[0] == header:
                if not isinstance(row, int):
                    row = [below[0] if below else None for below in rows[number:]].index(row)
                return f"{get_column_letter(column)}{number + 1 + row}"
    message = f"{sheet} has no column {header}"
    raise KeyError(message)
