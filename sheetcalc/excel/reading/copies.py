"""Copies of our tabs: a person duplicated one, and only one of the two is read.

A spreadsheet program puts ``Rooms (2)``, ``Rooms_2`` or ``Rooms Copy`` beside the tab, and the
rooms that somebody fills in there would silently not count.  A copy is told by its header row,
whatever it is called: it has the headers of the tab that is read.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from sheetcalc.excel.reading.cells import Row
from sheetcalc.excel.reading.places import (
    FEWEST_HEADERS,
    Place,
    WantedTab,
    best_header,
    headers_in,
    plain_header,
    signed_key,
)
from sheetcalc.excel.reading.reduced import SourcePackage
from sheetcalc.excel.reading.sheets import SheetLoader

LEAST_SHARE: Final = 3 / 4
"""Share of the headers of the tab that is read which a copy of it has; people take some away."""

WITHOUT_RECORDS: Final = frozenset({"Guide", "Lists"})
"""Tabs of the blank workbook that nobody fills in: no time is spent on them."""


def find_copies(
    source: SourcePackage,
    wanted: Sequence[WantedTab],
    places: Mapping[str, Place],
    loader: SheetLoader,
) -> Iterator[tuple[str, str]]:
    """Yield the tabs that are like one which is read, and have something filled in.

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
        Key of the tab that is read, and name of the sheet like it.
    """
    read = [(tab, _headers(tab, places[tab.key], loader)) for tab in wanted if tab.key in places]
    read.sort(key=lambda pair: -len(pair[1]))  # a tab of many headers may have all of another's
    taken = {place.sheet.name for place in places.values()} | source.result_tabs | WITHOUT_RECORDS
    for sheet in source.sheets:
        rows = loader.peek(sheet) if sheet.name not in taken else []
        signed = signed_key(rows)
        for tab, headers in read if rows else ():
            if signed != (tab.signature if tab.result else None):
                continue
            if len(headers) < FEWEST_HEADERS and not _is_called_like(tab, sheet.name):
                continue  # a date and a note are anybody's headers
            place = best_header(tab, sheet, rows)
            if place and _is_like(tab, headers, rows, place) and _is_filled(tab, rows, place):
                yield tab.key, sheet.name
                break


def _headers(tab: WantedTab, place: Place, loader: SheetLoader) -> frozenset[str]:
    return headers_in(tab, loader[place.sheet].rows[place.header_row - 1])


def _is_called_like(tab: WantedTab, name: str) -> bool:
    return bool(re.search(rf"(?<![a-z]){re.escape(tab.key)}(?![a-z])", name, re.IGNORECASE))


def _is_like(tab: WantedTab, read: Collection[str], rows: Sequence[Row], place: Place) -> bool:
    there = headers_in(tab, rows[place.header_row - 1])
    required = {plain_header(header) for header in tab.required}
    return required <= there and len(there.intersection(read)) >= LEAST_SHARE * len(read)


def _is_filled(tab: WantedTab, rows: Sequence[Row], place: Place) -> bool:
    """Whether a row under the header has something that people fill in."""
    typed = {plain_header(header) for header in tab.typed}
    header = rows[place.header_row - 1]
    columns = [at for at, cell in enumerate(header) if plain_header(cell.value) in typed]
    return any(
        row[at].value is not None
        for row in rows[place.header_row :]
        for at in columns
        if at < len(row)
    )
