"""Workbooks for the reader's tests: our tabs as a person, or another program, may leave them."""

from collections.abc import Callable
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TypeAlias

import openpyxl
from openpyxl.formatting.formatting import ConditionalFormattingList
from openpyxl.utils import get_column_letter, range_boundaries
from openpyxl.workbook import Workbook
from samples.small_room import small_room
from typed_books import TypedBook
from xml_edits import Edits

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style

HEADER_ROW = 4
EMPTY_ROWS = 2
"""Rows for more records that stay in each table."""
FIRST_ROW = 5

AnyBook: TypeAlias = Workbook | TypedBook


@cache
def small_room_bytes() -> bytes:
    """The smallest sample, as it is generated."""
    return write_book(small_room(), load_house_style(), named_styles=True)


@cache
def _short_bytes() -> bytes:
    """The smallest sample without what takes long to load and save, and no reader looks at.

    That are most of the empty rows, the Guide, the lists that cells are chosen from, what cells
    may hold, and how they look.
    """
    book = openpyxl.load_workbook(BytesIO(small_room_bytes()))
    for name in ("Guide", "Lists"):
        del book[name]
    for name in [n for n, defined in book.defined_names.items() if "Lists!" in str(defined.value)]:
        del book.defined_names[name]
    for sheet in book:
        sheet.data_validations.dataValidation.clear()
        sheet.conditional_formatting = ConditionalFormattingList()
        for table in sheet.tables.values():
            left, top, right, bottom = range_boundaries(table.ref)
            filled = [row for row in range(top, bottom + 1)
                      if any(sheet.cell(row, at).value is not None
                             for at in range(left, right + 1))]  # fmt: skip
            last = min(bottom, max(filled) + EMPTY_ROWS)
            sheet.delete_rows(last + 1, sheet.max_row - last)
            table.ref = f"{get_column_letter(left)}{top}:{get_column_letter(right)}{last}"
            if table.autoFilter:
                table.autoFilter.ref = table.ref
    short = BytesIO()
    book.save(short)
    return short.getvalue()


def edited(path: Path, edit: Callable[[TypedBook], None]) -> Path:
    """Write the smallest sample with what an edit types into its cells."""
    path.write_bytes(_short_bytes())
    with Edits(path) as edits:
        edit(TypedBook(edits))
    return path


def reworked(path: Path, edit: Callable[[Workbook], None]) -> Path:
    """The same with an edit of more than what stands in cells; it takes twenty times as long."""
    book = openpyxl.load_workbook(BytesIO(_short_bytes()))
    edit(book)
    book.save(path)
    return path


def column_of(book: AnyBook, tab: str, header: str) -> int:
    """Number of the column with a header, its unit in brackets aside."""
    for cell in book[tab][HEADER_ROW]:
        if str(cell.value).partition(" (")[0] == header:
            return int(cell.column)
    message = f"{tab} has no column {header}"
    raise KeyError(message)


def put(book: AnyBook, tab: str, header: str, value: object, row: int = FIRST_ROW) -> None:
    """Type a value into a cell; None empties it."""
    cell = book[tab].cell(row, column_of(book, tab, header))
    cell.value = value


def first_empty_row(book: AnyBook, tab: str) -> int:
    """First row under the header that has nothing in it."""
    row = FIRST_ROW
    while any(cell.value is not None for cell in book[tab][row]):
        row += 1
    return row


def add(book: AnyBook, tab: str, **values: object) -> int:
    """Add a record; keywords are headers with _ for a space and X for a percent sign."""
    row = first_empty_row(book, tab)
    for header, value in values.items():
        put(book, tab, header.replace("_X", " %").replace("_", " "), value, row)
    return row
