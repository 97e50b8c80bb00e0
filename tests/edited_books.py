"""Workbooks for the reader's tests: our tabs as a person, or another program, may leave them."""

from collections.abc import Callable
from functools import cache
from io import BytesIO
from pathlib import Path

import openpyxl
from openpyxl.workbook import Workbook
from samples.small_room import small_room

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style

HEADER_ROW = 4
FIRST_ROW = 5


@cache
def small_room_bytes() -> bytes:
    """The smallest sample, as it is generated."""
    return write_book(small_room(), load_house_style(), named_styles=True)


def edited(path: Path, edit: Callable[[Workbook], None]) -> Path:
    """Write the smallest sample with an edit."""
    book = openpyxl.load_workbook(BytesIO(small_room_bytes()))
    edit(book)
    book.save(path)
    return path


def column_of(book: Workbook, tab: str, header: str) -> int:
    """Number of the column with a header, its unit in brackets aside."""
    for cell in book[tab][HEADER_ROW]:
        if str(cell.value).partition(" (")[0] == header:
            return int(cell.column)
    message = f"{tab} has no column {header}"
    raise KeyError(message)


def put(book: Workbook, tab: str, header: str, value: object, row: int = FIRST_ROW) -> None:
    """Type a value into a cell; None empties it."""
    cell = book[tab].cell(row, column_of(book, tab, header))
    cell.value = value  # type: ignore[assignment]


def first_empty_row(book: Workbook, tab: str) -> int:
    """First row under the header that has nothing in it."""
    row = FIRST_ROW
    while any(cell.value is not None for cell in book[tab][row]):
        row += 1
    return row


def add(book: Workbook, tab: str, **values: object) -> int:
    """Add a record; keywords are headers with _ for a space and X for a percent sign."""
    row = first_empty_row(book, tab)
    for header, value in values.items():
        put(book, tab, header.replace("_X", " %").replace("_", " "), value, row)
    return row
