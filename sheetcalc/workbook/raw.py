"""What a reader hands over: cells as found, with nothing decided about them yet."""

from collections.abc import Mapping
from datetime import date, datetime, time
from typing import TypeAlias

from msgspec import Struct

RawValue: TypeAlias = str | int | float | bool | date | datetime | time | None


class RawCell(Struct, frozen=True):
    """One cell as stored.

    Attributes
    ----------
    value
        The stored value: text, number, bool, date; None where empty.
    address
        ``D14``.
    error
        An error value such as ``#REF!``, else "".
    formula
        The formula's text with its ``=``, else "".
    has_value
        False for a formula without a stored value.
    number_format
        As in the file, so that 101 in a text column counts as displayed.
    """

    value: RawValue
    address: str
    error: str = ""
    formula: str = ""
    has_value: bool = True
    number_format: str = "General"


class RawRow(Struct, frozen=True):
    """One record: sheet row, and cells by declared header (missing: empty)."""

    row: int
    cells: Mapping[str, RawCell]


class RawTable(Struct, frozen=True):
    """One declared tab as found in the book.

    Attributes
    ----------
    tab
        Declared key, such as ``Rooms``.
    sheet
        Name of the sheet it was found on.
    table
        Name of the table object, or "" when found by its header row.
    header_row, last_row
        Sheet rows (1-based) of the header and of the last used record.
    headers
        Declared header -> header text as found (``Length`` -> ``Length (m)``).
    letters
        Declared header -> column letters.
    unknown
        Headers found that are not declared (the user's own columns).
    missing
        Declared headers that were not found.
    duplicated
        Declared headers found twice or more.
    rows
        Records with anything in them, in sheet order.
    filtered
        Rows hidden by a filter.
    hidden
        Whether the tab itself is.
    hidden_columns
        Declared headers of hidden columns that hold something.
    above
        Rows above the header row that have what a record must have.
    struck
        Rows of records in which a cell is struck through.
    struck_by_rule
        Ranges with records whose text a rule of conditional formatting strikes through while it
        holds.
    merged
        Merged cells that take cells of records away: header and row of the first, and the range.
    end_row
        Last record row inside the table object, its totals row not counted; 0 where there is no
        table object or it is not known.  Records under it are not in the table's own ranges.
    beside
        Declared headers of columns that stand beside the table object, not in it.
    """

    tab: str
    sheet: str
    table: str
    header_row: int
    last_row: int
    headers: Mapping[str, str]
    letters: Mapping[str, str]
    unknown: tuple[str, ...]
    missing: tuple[str, ...]
    duplicated: tuple[str, ...]
    rows: tuple[RawRow, ...]
    filtered: int = 0
    hidden: bool = False
    hidden_columns: tuple[str, ...] = ()
    struck: tuple[int, ...] = ()
    struck_by_rule: tuple[str, ...] = ()
    above: tuple[int, ...] = ()
    merged: tuple[tuple[str, int, str], ...] = ()
    end_row: int = 0
    beside: tuple[str, ...] = ()


class RawBook(Struct, frozen=True):
    """All declared tabs of a workbook, input and result, as found; ``absent`` are not there.

    ``copies`` are filled-in tables that look like a declared one which is read elsewhere: key of
    the tab, and where the first header stands.
    """

    path: str
    tables: Mapping[str, RawTable]
    absent: tuple[str, ...]
    sheets: tuple[str, ...]
    date_1904: bool = False
    copies: tuple[tuple[str, str], ...] = ()
