"""Find our tabs in a workbook and read their cells: values as stored, and formulas.

Tables are found by the name of the table object; where that is gone, by the header row.
"""

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Any, TypeAlias

from sheetcalc.excel.read_package import (
    SheetPart,
    SourcePackage,
    TableObject,
    column_letters,
)
from sheetcalc.excel.read_sheets import ROWS_SEARCHED, Row, SheetLoader

FEWEST_HEADERS = 3
"""A table on a tab of another name needs this many of our headers to be taken for ours."""

RESULT_SIGNATURE = "sheetcalc result tab"

Json: TypeAlias = dict[str, Any]


@dataclass(frozen=True, slots=True)
class WantedTab:
    """A tab as declared: key, table name, headers, those required, and whether a result."""

    key: str
    table: str
    headers: tuple[str, ...]
    required: tuple[str, ...]
    result: bool


@dataclass(frozen=True, slots=True)
class Place:
    """Where a tab was found: sheet, header row, and the table object if there is one."""

    sheet: SheetPart
    header_row: int
    table: TableObject | None


_BRACKETS = re.compile(r"\s*[\(\[][^\(\)\[\]]*[\)\]]\s*$")


def plain_header(text: object) -> str:
    """Header without case, outer spaces, line breaks and a unit in brackets at its end."""
    tidy = " ".join(str(text).split()).casefold()
    return _BRACKETS.sub("", tidy).strip(" *:") or tidy


def read_tabs(source: SourcePackage, wanted: Sequence[WantedTab]) -> Json:
    """Read the wanted tabs; the answer is plain data (see ``read_answer``)."""
    loader = SheetLoader(source)
    places = _find(source, wanted, loader)
    return {
        "sheets": [sheet.name for sheet in source.sheets],
        "date_1904": source.date_1904,
        "tables": {
            tab.key: _read(tab, places[tab.key], loader) for tab in wanted if tab.key in places
        },
        "absent": [tab.key for tab in wanted if tab.key not in places],
    }


# --- finding --------------------------------------------------------------------------------------


def _find(
    source: SourcePackage, wanted: Sequence[WantedTab], loader: SheetLoader
) -> dict[str, Place]:
    places: dict[str, Place] = {}
    by_table = {tab.key: list(_with_table(source, tab)) for tab in wanted}
    by_name = {s.name.strip().casefold(): s for s in source.sheets}
    named = {t.key: by_name[t.key.casefold()] for t in wanted if t.key.casefold() in by_name}
    loader.load(sheet for candidates in by_table.values() for sheet, _ in candidates)
    loader.load(sheet for key, sheet in named.items() if not by_table[key])
    for tab in wanted:
        place = _best_table(tab, by_table[tab.key], loader)
        if place is None and tab.key in named:
            place = _best_header(tab, named[tab.key], loader[named[tab.key]].rows)
        if place is not None:
            places[tab.key] = place
    missing = [tab for tab in wanted if tab.key not in places and not tab.result]
    taken = {place.sheet.name for place in places.values()}
    others = [s for s in source.sheets if s.name not in taken] if missing else []
    for sheet in others:
        rows = loader.peek(sheet)
        if _is_result(rows):
            continue
        for tab in missing:
            place = _best_header(tab, sheet, rows, strict=True)
            if place is not None and tab.key not in places:
                places[tab.key] = place
                break
    return places


def _with_table(source: SourcePackage, tab: WantedTab) -> Iterator[tuple[SheetPart, TableObject]]:
    """Yield table objects of the declared name, or of that name made unique with a number."""
    name = re.compile(rf"{re.escape(tab.table)}(?:_?[0-9]+)?", re.IGNORECASE)
    for sheet in source.sheets:
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


def _best_header(
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


def _is_result(rows: Sequence[Row]) -> bool:
    return any(
        isinstance(c.value, str) and c.value.startswith(RESULT_SIGNATURE)
        for row in rows[:4]
        for c in row[:1]
    )


# --- reading --------------------------------------------------------------------------------------


def _read(tab: WantedTab, place: Place, loader: SheetLoader) -> Json:
    sheet = loader[place.sheet]
    columns, headers, unknown, duplicated = _columns(tab, place, sheet.rows)
    last, skipped = _end(place, columns)
    rows: list[list[Any]] = []
    for number, cells in enumerate(sheet.rows[place.header_row :], place.header_row + 1):
        if last is not None and number > last:
            break
        if number not in skipped:
            record = _record(number, cells, columns, sheet.formulas)
            if record is not None:
                rows.append(record)
    return {
        "sheet": place.sheet.name,
        "table": place.table.name if place.table else "",
        "header_row": place.header_row,
        "last_row": rows[-1][0] if rows else place.header_row,
        "headers": headers,
        "letters": {header: column_letters(index + 1) for header, index in columns.items()},
        "unknown": unknown,
        "missing": [h for h in tab.headers if h not in columns],
        "duplicated": duplicated,
        "rows": rows,
        "end_row": place.table.last_row - place.table.totals_rows if place.table else 0,
        "beside": [h for h, i in columns.items() if not _is_inside(place.table, i)],
        "filtered": sum(1 for row in rows if row[0] in sheet.hidden),
    }


def _is_inside(table: TableObject | None, index: int) -> bool:
    """Whether a column belongs to the table object; without one, every column does."""
    return table is None or table.first_column <= index + 1 <= table.last_column


def _columns(
    tab: WantedTab, place: Place, rows: Sequence[Row]
) -> tuple[dict[str, int], dict[str, str], list[str], list[str]]:
    """Match the header cells: declared header -> column index, and what else is there."""
    declared = {plain_header(h): h for h in tab.headers}
    columns: dict[str, int] = {}
    headers: dict[str, str] = {}
    unknown: list[str] = []
    duplicated: list[str] = []
    cells = list(enumerate(rows[place.header_row - 1]))
    if place.table is not None:
        inside = range(place.table.first_column - 1, place.table.last_column)
        # a column beside the table is taken only where the table has none of that name
        cells.sort(key=lambda pair: pair[0] not in inside)
    for index, cell in cells:
        if cell.value is None or not str(cell.value).strip():
            continue
        header = declared.get(plain_header(cell.value))
        if header is None:
            unknown.append(str(cell.value))
        elif header in columns:
            if place.table is None or index in inside:
                duplicated.append(header)
        else:
            columns[header] = index
            headers[header] = str(cell.value)
    return columns, headers, unknown, duplicated


def _end(place: Place, columns: Mapping[str, int]) -> tuple[int | None, frozenset[int]]:
    """Last row that may be ours, and rows to skip: totals, and tables that stand below."""
    skipped: set[int] = set()
    if place.table is not None and place.table.totals_rows:
        last = place.table.last_row
        skipped = set(range(last - place.table.totals_rows + 1, last + 1))
    below = [
        table.first_row - 1
        for table in place.sheet.tables
        if table.first_row > place.header_row
        and any(table.first_column <= i + 1 <= table.last_column for i in columns.values())
    ]
    return min(below, default=None), frozenset(skipped)


def _record(
    number: int,
    cells: Row,
    columns: Mapping[str, int],
    formulas: Mapping[tuple[int, int], str],
) -> list[Any] | None:
    """One row as ``[number, values]`` or ``[number, values, extras]``; None where it is blank."""
    values: list[Any] = []
    extras: dict[int, Json] = {}
    width = len(cells)
    for position, index in enumerate(columns.values()):
        cell = cells[index] if index < width else None
        value = cell.value if cell is not None else None
        formula = formulas.get((number, index)) if formulas else None
        if cell is None or (value is None and formula is None):
            values.append(None)
            continue
        value, extra = _value(value, cell)
        if formula is not None:
            extra["f"] = formula
            if cell.value is None and cell.data_type == "n":
                extra["v"] = False
        values.append(value)
        if extra:
            extras[position] = extra
    if all(value is None for value in values) and not any(x.keys() & "fe" for x in extras.values()):
        return None
    return [number, values, extras] if extras else [number, values]


def _value(value: object, cell: Any) -> tuple[str | float | bool | None, Json]:  # noqa: ANN401 (a cell of openpyxl)
    """Value of a cell and what else must be known of it."""
    if isinstance(value, str):
        if cell.data_type == "e":
            return None, {"e": value}
        return (value if value.strip() else None), {}
    extra: Json = {}
    plain = _plain(value, extra)
    if plain is not None and cell.number_format != "General":
        extra["n"] = cell.number_format
    return plain, extra


def _plain(value: object, extra: Json) -> str | float | bool | None:
    """Value as JSON can carry it; dates as text with their type in ``extra``."""
    if value is None:
        return None
    if isinstance(value, bool | int | float):
        if isinstance(value, float) and not math.isfinite(value):
            extra["e"] = "#NUM!"
            return None
        return value
    if isinstance(value, datetime) and value.time() == time(0):
        value = value.date()
    if isinstance(value, datetime | date | time):
        extra["t"] = type(value).__name__
        return value.isoformat()
    if isinstance(value, timedelta):
        return value / timedelta(days=1)
    return str(value)
