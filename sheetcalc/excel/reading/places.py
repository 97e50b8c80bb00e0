"""Where our tabs are in a workbook that may hold other people's, named alike.

In this order: the tab that a defined name of ours points at; the table object of the declared
name; a sheet of the declared name with our headers; any sheet with all required headers.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from msgspec import Struct

from sheetcalc.excel.reading.cells import Row
from sheetcalc.excel.reading.reduced import SheetPart, SourcePackage, TableObject
from sheetcalc.excel.reading.sheets import ROWS_SEARCHED, SheetLoader
from sheetcalc.excel.tabs.own_tabs import INPUT_KEY, key_of_input, key_of_signature

FEWEST_HEADERS = 3
"""A table on a tab of another name needs this many of our headers to be taken for ours.

So many cells a row above the header needs to be taken for a record, too.
"""

_SIGNED_ROWS = 4
_MOST_HEADERS = 1 << 12
_BRACKETS = re.compile(r"\s*[\(\[][^\(\)\[\]]*[\)\]]\s*$")


class WantedTab(Struct, frozen=True):
    """A tab as declared: key, table name, headers, those required, and whether a result.

    ``typed`` are the headers that people fill in: all of an input tab.
    """

    key: str
    table: str
    headers: tuple[str, ...]
    required: tuple[str, ...]
    typed: tuple[str, ...]
    result: bool

    @property
    def signature(self) -> str:
        """Key in the signature of a result tab, as ``signed_key`` reads it."""
        return self.key.casefold().replace(" ", "-")


class Place(Struct, frozen=True):
    """Where a tab was found: sheet, header row, and the table object if there is one."""

    sheet: SheetPart
    header_row: int
    table: TableObject | None


def plain_header(text: object) -> str:
    """Header without case, outer spaces, line breaks and a unit in brackets at its end."""
    return _plain(str(text))


@lru_cache(_MOST_HEADERS)
def _plain(text: str) -> str:
    """Make it plain; ours are asked about again and again, and the next workbook has them too."""
    tidy = " ".join(text.split()).casefold()
    return _BRACKETS.sub("", tidy).strip(" *:") or tidy


def find_places(
    source: SourcePackage, wanted: Sequence[WantedTab], loader: SheetLoader
) -> dict[str, Place]:
    """Find the tabs wanted; those that are not there are left out.

    Parameters
    ----------
    source
        The workbook.
    wanted
        Tabs as declared.
    loader
        Reads sheets when they are asked for.
    """
    places: dict[str, Place] = {}
    sheets = [s for s in source.sheets if s.name not in source.result_tabs]
    marked = _marked(source)
    tables = {t.key: list(_with_table(source.sheets if t.result else sheets, t)) for t in wanted}
    named = {tab.key: list(_named(sheets, tab)) for tab in wanted}
    loader.load(marked.values())
    loader.load(s for t in wanted if t.key not in marked for s, _ in tables[t.key])
    for tab in wanted:
        place = _on_marked(tab, marked.get(tab.key), loader)
        place = place or _best_table(tab, tables[tab.key], loader)
        place = place or _best_named(tab, named[tab.key], loader)
        if place is not None:
            places[tab.key] = place
    _find_results(source, [t for t in wanted if t.result and t.key not in places], loader, places)
    missing = [tab for tab in wanted if tab.key not in places and not tab.result]
    taken = {place.sheet.name for place in places.values()}
    for sheet in [s for s in sheets if s.name not in taken] if missing else []:
        rows = loader.peek(sheet)
        if signed_key(rows) is not None:
            continue
        for tab in missing:
            place = best_header(tab, sheet, rows, strict=True)
            if place is not None and tab.key not in places:
                places[tab.key] = place
                break
    return places


def _marked(source: SourcePackage) -> dict[str, SheetPart]:
    """Input tabs, by key, that names of ours point at: they were added to somebody's workbook."""
    by_name = {sheet.name: sheet for sheet in source.sheets}
    keys = {key_of_input(name): by_name[tab] for name, tab in source.input_tabs.items()}
    return {key.removeprefix(INPUT_KEY): sheet for key, sheet in keys.items()}


def _on_marked(tab: WantedTab, sheet: SheetPart | None, loader: SheetLoader) -> Place | None:
    """Find the table on the tab that our name points at; another's table may bear its name."""
    if sheet is None:
        return None
    with_header = [(sheet, table) for table in sheet.tables if table.header_rows]
    place = _best_table(tab, with_header, loader)
    if place is not None and _matches(tab, loader[sheet].rows[place.header_row - 1]) > 1:
        return place
    return best_header(tab, sheet, loader[sheet].rows)


def _named(sheets: Iterable[SheetPart], tab: WantedTab) -> Iterator[SheetPart]:
    """Yield sheets of the declared name, or of that name made unique with a number."""
    name = re.compile(rf"{re.escape(tab.key)}(?: ?\([0-9]+\))?", re.IGNORECASE)
    for sheet in sheets:
        if name.fullmatch(sheet.name.strip()):
            yield sheet


def _best_named(tab: WantedTab, named: Sequence[SheetPart], loader: SheetLoader) -> Place | None:
    """Find the header row with the most of our headers; the plain name wins a tie."""
    found: list[tuple[int, bool, int, Place]] = []
    for number, sheet in enumerate(named):
        rows = loader[sheet].rows
        place = best_header(tab, sheet, rows)
        if place is not None:
            plain = sheet.name.strip().casefold() == tab.key.casefold()
            found.append((_matches(tab, rows[place.header_row - 1]), plain, -number, place))
    return max(found, key=lambda entry: entry[:3])[3] if found else None


def _find_results(
    source: SourcePackage,
    wanted: Sequence[WantedTab],
    loader: SheetLoader,
    places: dict[str, Place],
) -> None:
    """Find result tabs whose table and sheet a person has renamed, by their signatures."""
    for sheet in source.sheets if wanted else ():
        if sheet.name not in source.result_tabs:
            continue
        rows = loader.peek(sheet)
        key = signed_key(rows)
        for tab in wanted:
            if key == tab.signature and tab.key not in places:
                place = best_header(tab, sheet, loader[sheet].rows)
                if place is not None:
                    places[tab.key] = place


def _with_table(
    sheets: Iterable[SheetPart], tab: WantedTab
) -> Iterator[tuple[SheetPart, TableObject]]:
    """Yield table objects of the declared name, or of that name made unique with a number."""
    name = re.compile(rf"{re.escape(tab.table)}(?:_?[0-9]+)?", re.IGNORECASE)
    for sheet in sheets:
        for table in sheet.tables:
            if table.header_rows and name.fullmatch(table.name):
                yield sheet, table


def _best_table(
    tab: WantedTab, candidates: Iterable[tuple[SheetPart, TableObject]], loader: SheetLoader
) -> Place | None:
    best: tuple[tuple[int, bool], Place] | None = None
    for sheet, table in candidates:
        rows = loader[sheet].rows
        row = rows[table.first_row - 1] if table.first_row <= len(rows) else ()
        exact = table.name.casefold() == tab.table.casefold()
        score = (_matches(tab, row), exact)
        if score[0] and (best is None or score > best[0]):
            best = score, Place(sheet, table.first_row, table)
    return best[1] if best else None


def best_header(
    tab: WantedTab, sheet: SheetPart, rows: Sequence[Row], *, strict: bool = False
) -> Place | None:
    """Find the row with the most of the tab's headers; ``strict`` asks for all required."""
    scores = [(_matches(tab, row), -i) for i, row in enumerate(rows[:ROWS_SEARCHED], 1)]
    score, row = max(scores, default=(0, 0))
    if score < min(2, len(tab.headers)):
        return None
    if strict:
        found = {plain_header(c.value) for c in rows[-row - 1] if isinstance(c.value, str)}
        if score < FEWEST_HEADERS or not {plain_header(h) for h in tab.required} <= found:
            return None
    return Place(sheet, -row, None)


def _matches(tab: WantedTab, row: Row) -> int:
    found = {plain_header(cell.value) for cell in row if cell.value is not None}
    return len({plain_header(h) for h in tab.headers} & found)


def signed_key(rows: Sequence[Row]) -> str | None:
    """Key of the result tab whose signature stands in the first rows; None for none."""
    for row in rows[:_SIGNED_ROWS]:
        for cell in row[:1]:
            key = key_of_signature(cell.value) if isinstance(cell.value, str) else ""
            if key:
                return key.casefold()
    return None
