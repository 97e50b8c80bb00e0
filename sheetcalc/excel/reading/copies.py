"""Copies of our tables: a person duplicated one, and only one of the two is read.

A spreadsheet program puts ``Rooms (2)``, ``Rooms_2`` or ``Rooms Copy`` beside the tab, or a second
table stands on the tab itself, and the rooms that somebody fills in there would silently not count.
A copy is told by its header row, whatever it is called: it has the headers of the one that is read.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Final

from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.reading.cells import Row
from sheetcalc.excel.reading.places import (
    FEWEST_HEADERS,
    Place,
    WantedTab,
    best_header,
    plain_header,
    signed_key,
)
from sheetcalc.excel.reading.reduced import SourcePackage
from sheetcalc.excel.reading.sheets import SheetLoader

LEAST_SHARE: Final = 3 / 4
"""Share of the headers of the table read which a copy of it has; people take some away."""

_FARTHEST: Final = 1 << 14
"""Columns of a sheet (ECMA-376)."""

WITHOUT_RECORDS: Final = frozenset({"Guide", "Lists"})
"""Tabs of the blank workbook that nobody fills in: no time is spent on them."""


def find_copies(
    source: SourcePackage,
    wanted: Sequence[WantedTab],
    places: Mapping[str, Place],
    loader: SheetLoader,
) -> Iterator[tuple[str, str]]:
    """Yield the tables that are like one which is read, and have something filled in.

    Parameters
    ----------
    source
        The workbook.
    wanted
        Tabs as declared.
    places
        Where each is read.
    loader
        Reads sheets when they are asked for.

    Yields
    ------
    tuple
        Key of the tab that is read, and where the first header of the other table stands, such as
        ``Rooms (2)!A4``.
    """
    read = [_Read(tab, places[tab.key], loader) for tab in wanted if tab.key in places]
    for one in read:
        others = () if one.tab.result else one.others_on_the_tab()
        for first in dict.fromkeys(table.first for table in others if one.is_like(table)):
            yield one.tab.key, f"{one.place.sheet.name}!{first}"
    read.sort(key=lambda one: -len(one.headers))  # a tab of many headers may have all of another's
    taken = {place.sheet.name for place in places.values()} | source.result_tabs | WITHOUT_RECORDS
    for sheet in source.sheets:
        texts = loader.texts_at_start(sheet) if sheet.name not in taken else ()
        headers = {plain_header(text) for text in texts}
        if not any(one.shares(headers) for one in read):
            continue
        rows = loader.peek(sheet)
        signed = signed_key(rows)
        for one in read:
            if signed != (one.tab.signature if one.tab.result else None):
                continue
            if len(one.headers) < FEWEST_HEADERS and not _is_called_like(one.tab, sheet.name):
                continue  # a date and a note are anybody's headers
            place = best_header(one.tab, sheet, rows)
            copy = _Table(one.tab, rows, place.header_row) if place else None
            if copy and one.is_like(copy):
                yield one.tab.key, f"{sheet.name}!{copy.first}"
                break


class _Table:
    """Headers of a tab that stand in a row, and what is under them.

    Parameters
    ----------
    tab
        Whose headers are looked for.
    rows
        Of the sheet.
    header_row
        Number of the row, from 1.
    inside
        Column indices that belong to it; all by default.
    """

    def __init__(
        self, tab: WantedTab, rows: Sequence[Row], header_row: int, inside: range | None = None
    ) -> None:
        row = rows[header_row - 1] if header_row <= len(rows) else ()
        ours = {plain_header(header) for header in tab.headers}
        self.columns = {
            at: plain_header(cell.value)
            for at, cell in enumerate(row)
            if (inside is None or at in inside) and plain_header(cell.value) in ours
        }
        self.header_row = header_row
        self.rows = rows[header_row:]

    @property
    def first(self) -> str:
        """Address of the first header."""
        return f"{column_letters(min(self.columns, default=0) + 1)}{self.header_row}"

    def is_filled(self, typed: Collection[str]) -> bool:
        """Whether a cell under one of these headers has anything in it."""
        columns = [at for at, header in self.columns.items() if header in typed]
        return any(
            row[at].value is not None for row in self.rows for at in columns if at < len(row)
        )


class _Read:
    """A tab that is read, where it is."""

    def __init__(self, tab: WantedTab, place: Place, loader: SheetLoader) -> None:
        self.tab, self.place = tab, place
        self._rows = loader[place.sheet].rows
        table = place.table
        self._inside = range(table.first_column - 1, table.last_column) if table else None
        own = _Table(tab, self._rows, place.header_row, self._inside)
        self.headers = frozenset(own.columns.values())

    def is_like(self, table: _Table) -> bool:
        """Whether another table has nearly all headers of this one, and something filled in."""
        there = frozenset(table.columns.values())
        return (
            {plain_header(header) for header in self.tab.required} <= there
            and self.shares(there)
            and table.is_filled({plain_header(header) for header in self.tab.typed})
        )

    def shares(self, headers: Iterable[str]) -> bool:
        """Whether nearly all headers of this table are among others."""
        return len(self.headers.intersection(headers)) >= LEAST_SHARE * len(self.headers)

    def others_on_the_tab(self) -> Iterator[_Table]:
        """Yield the other tables on its sheet, and the headers in its row beyond its columns."""
        row, inside = self.place.header_row, self._inside
        for other in self.place.sheet.tables:
            if other != self.place.table and other.header_rows:
                columns = range(other.first_column - 1, other.last_column)
                yield _Table(self.tab, self._rows, other.first_row, columns)
        if inside is not None:
            yield _Table(self.tab, self._rows, row, range(inside.stop, _FARTHEST))
            yield _Table(self.tab, self._rows, row, range(inside.start))


def _is_called_like(tab: WantedTab, name: str) -> bool:
    return bool(re.search(rf"(?<![a-z]){re.escape(tab.key)}(?![a-z])", name, re.IGNORECASE))
