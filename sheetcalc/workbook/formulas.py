"""Building live formulas: references to tables, literals, look-ups by key.

No text from a cell ever becomes a formula: text gets into one only as a literal in quotes, made
by ``text_literal``.  Look-ups go by key, never by the address of a row that a person may sort,
and give an error, not 0, once the row is gone.  Only functions and references that both common
programs evaluate are used: no ``[@Net]``, no totals rows, no XLOOKUP, FILTER, LET or AGGREGATE.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time
from typing import Final, TypeAlias

from msgspec import Struct, field
from msgspec.structs import force_setattr

from sheetcalc.workbook.raw import RawCell, RawRow, RawTable

LONGEST_LITERAL: Final = 250
"""Characters of one text literal: spreadsheet programs refuse more than 255."""

_LEADS_NOWHERE: Final = re.compile(r"[\x00-\x1f@]|^\s|\s$|  |'$")
"""Headers that a structured reference cannot name alike in all programs."""

LONGEST_HEADER: Final = 255
"""Of a table's column, in spreadsheet programs."""

_PLAIN_CRITERION: Final = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:[ .\-][A-Za-z0-9]+)*")
_WORDS_OF_THEIR_OWN: Final = frozenset({"true", "false"})
_MONTHS: Final = frozenset(
    ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
)
_ESCAPES: Final = str.maketrans({sign: f"'{sign}" for sign in "[]#'"})

Key: TypeAlias = tuple[str, str | float]
"""A range, and the text or number that its cell must hold."""


def text_literal(text: str) -> str:
    """Text as a literal: quotes doubled, longer text joined of pieces.

    Examples
    --------
    >>> text_literal('6" tile')
    '"6"" tile"'
    """
    if len(text) > LONGEST_LITERAL:
        return f"{text_literal(text[:LONGEST_LITERAL])}&{text_literal(text[LONGEST_LITERAL:])}"
    return '"' + text.replace('"', '""') + '"'


def number_literal(value: float) -> str:
    """Give a number as a literal that reads as the same float again."""
    if isinstance(value, int) or float(value).is_integer():
        return str(int(value))
    return repr(float(value)).replace("e", "E")


def sheet_prefix(sheet: str) -> str:
    """Name of a sheet with its exclamation mark, always in quotes.

    Examples
    --------
    >>> sheet_prefix("Ann's rooms")
    "'Ann''s rooms'!"
    """
    return "'" + sheet.replace("'", "''") + "'!"


def structured(table: str, header: str) -> str:
    """Refer to the records of a table's column; brackets, # and ' in its header are escaped.

    Examples
    --------
    >>> structured("InTiles", "Price [EUR]")
    "InTiles[Price '[EUR']]"
    """
    return f"{table}[{_escaped(header)}]"


def can_be_named(header: str) -> bool:
    """Whether structured references may name a header."""
    return not _LEADS_NOWHERE.search(header) and len(header) <= LONGEST_HEADER


def this_row(table: str, header: str) -> str:
    """Refer to the cell of a table's column in the formula's own row."""
    return f"{table}[[#This Row],[{_escaped(header)}]]"


def _escaped(header: str) -> str:
    return header.translate(_ESCAPES)


def matches(keys: Iterable[Key]) -> str:
    """Product that is 1 in the rows that hold all keys, else 0.

    Text is compared exactly, case included, and without wildcards; empty text matches an empty
    cell.
    """
    factors = [
        f"EXACT({where},{text_literal(wanted)})"
        if isinstance(wanted, str)
        else f"({where}={number_literal(wanted)})"
        for where, wanted in keys
    ]
    return "*".join([*factors, "1"] if len(factors) == 1 else factors)


def looked_up(keys: Sequence[Key], values: str) -> str:
    """Value of the row that holds all keys; an error once that row is gone."""
    found = matches(keys)
    return f"SUMPRODUCT({found},{values})/SUMPRODUCT({found})"


def share_with_number(keys: Sequence[Key], values: str) -> str:
    """1 where the row that holds all keys has a number, 0 where not; an error without a row."""
    found = matches(keys)
    return f"SUMPRODUCT({found}*ISNUMBER({values}))/SUMPRODUCT({found})"


def sum_product(values: str, *equal: tuple[str, str]) -> str:
    """Sum of the rows whose texts are exactly those of the formula's own row.

    Parameters
    ----------
    values
        Range that is summed; text in it counts as nothing.
    equal
        A range, and the reference that its cell must equal.
    """
    found = "*".join(f"EXACT({where},{wanted})" for where, wanted in equal)
    if len(equal) == 1:
        found += "*1"
    return f"SUMPRODUCT({found},{values})"


def summed_where(values: str, keys: Sequence[Key], *, plainly: bool) -> str:
    """Sum of the rows that hold all keys.

    Parameters
    ----------
    values
        Range that is summed.
    keys
        What the rows hold.
    plainly
        Whether SUMIFS, which is quick but blind to case, may be used where the keys allow it.
    """
    if not keys:
        return f"SUM({values})"
    if plainly and all(isinstance(k, str) and is_plain_criterion(k) for _, k in keys):
        criteria = ",".join(f"{where},{text_literal(str(k))}" for where, k in keys)
        return f"SUMIFS({values},{criteria})"
    return f"SUMPRODUCT({matches(keys)},{values})"


def is_plain_criterion(text: str) -> bool:
    """Whether SUMIFS takes a text for itself: no operator, wildcard, number or date in it.

    A spreadsheet program reads a criterion such as ``DEC-12`` as a date, so digits after a space
    or hyphen, and names of months before digits, are not plain.
    """
    words = _PLAIN_CRITERION.fullmatch(text)
    if words is None or len(text) > LONGEST_LITERAL or text.casefold() in _WORDS_OF_THEIR_OWN:
        return False
    has_digits = any(c.isdigit() for c in text)
    return not has_digits or (text.isalnum() and text[:3].casefold() not in _MONTHS)


class InputTable(Struct, frozen=True):
    """An input tab as a formula sees it.

    Attributes
    ----------
    raw
        The tab as found in the workbook.
    """

    raw: RawTable
    _by_row: Mapping[int, RawRow] = field(default_factory=dict)
    _columns: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Index records and columns: ten thousand order lines each look one up."""
        force_setattr(self, "_by_row", {row.row: row for row in self.raw.rows})
        columns = {header: self._range(header, said) for header, said in self.raw.headers.items()}
        force_setattr(self, "_columns", columns)

    def column(self, header: str) -> str | None:
        """Range of a declared column's records; None where the tab has no such column.

        The table's own reference, so that rows that a person adds count at once; the plain range
        where there is no table object, where records stand under it, or where the header cannot
        be named in a reference.
        """
        return self._columns.get(header)

    def _range(self, header: str, said: str) -> str:
        inside = not self.raw.end_row or self.raw.last_row <= self.raw.end_row
        inside = inside and header not in self.raw.beside
        if self.raw.table and inside and can_be_named(said):
            return structured(self.raw.table, said)
        letters = self.raw.letters[header]
        first = self.raw.header_row + 1
        last = max(self.raw.last_row, self.raw.end_row, first)
        return f"{sheet_prefix(self.raw.sheet)}${letters}${first}:${letters}${last}"

    def row(self, number: int | None) -> RawRow | None:
        """Record in a sheet row."""
        return None if number is None else self._by_row.get(number)

    def keys(self, number: int | None, headers: Iterable[str]) -> tuple[Key, ...]:
        """Keys that find a record again: what its cells hold in these columns.

        Columns that the tab does not have are passed over, so that a lookup by code and supplier
        works without a Supplier column.
        """
        record = self.row(number)
        keys: list[Key] = []
        for header in headers:
            where = self.column(header)
            if record is None or where is None:
                continue
            keys.append((where, _as_key(record.cells.get(header))))
        return tuple(keys)

    def number(self, number: int | None, header: str) -> float | None:
        """Plain number in a record's cell; None for text, such as ``12 L``, and empty cells."""
        record = self.row(number)
        cell = record.cells.get(header) if record else None
        if cell is None or isinstance(cell.value, bool) or not isinstance(cell.value, int | float):
            return None
        return cell.value

    def link(self, number: int | None, header: str = "") -> str | None:
        """Link to a record's cell; None without a row."""
        if number is None:
            return None
        letters = self.raw.letters.get(header) or next(iter(self.raw.letters.values()), "A")
        return f"internal:{sheet_prefix(self.raw.sheet)}{letters}{number}"


def _as_key(cell: RawCell | None) -> str | float:
    value = cell.value if cell else None
    if value is None:
        return ""
    if isinstance(value, bool | date | datetime | time):
        return str(value).upper()
    return value
