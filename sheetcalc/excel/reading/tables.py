"""Read the cells of our tabs in a workbook: values as stored, and formulas."""

import math
from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import Any, Final, TypeAlias

from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.reading.cells import EMPTY, Cell, Row
from sheetcalc.excel.reading.copies import find_copies
from sheetcalc.excel.reading.places import (
    FEWEST_HEADERS,
    Place,
    WantedTab,
    find_places,
    plain_header,
)
from sheetcalc.excel.reading.reduced import SourcePackage, TableObject, spanned
from sheetcalc.excel.reading.sheets import LoadedSheet, SheetLoader

__all__ = ["WantedTab", "read_grids", "read_tabs"]

Json: TypeAlias = dict[str, Any]

_MIDNIGHT: Final = datetime(1900, 1, 1, tzinfo=UTC)


def read_tabs(source: SourcePackage, wanted: Sequence[WantedTab]) -> Json:
    """Read the wanted tabs; the answer is plain data (see ``read_answer``)."""
    loader = SheetLoader(source)
    places = find_places(source, wanted, loader)
    return {
        "sheets": [s.name for s in source.sheets if s.name not in source.result_tabs],
        "date_1904": source.date_1904,
        "tables": {
            tab.key: _read(tab, places[tab.key], loader) for tab in wanted if tab.key in places
        },
        "absent": [tab.key for tab in wanted if tab.key not in places],
        "copies": list(find_copies(source, wanted, places, loader)),
    }


def read_grids(source: SourcePackage) -> list[Json]:
    """Read the values of every sheet, row by row; what has only a format is left out.

    An error value stands as its text, and a formula that nobody has calculated as its own: neither
    is an empty cell.
    """
    loader = SheetLoader(source)
    loader.load(source.sheets)
    return [{"name": s.name, "rows": _grid(loader[s])} for s in source.sheets]


def _grid(sheet: LoadedSheet) -> list[list[Any]]:
    rows: list[list[Any]] = []
    for row in sheet.rows:
        found = [_value(cell.value, cell) for cell in row]
        rows.append([extra.get("e", value) for value, extra in found])
    for (number, index), formula in sheet.formulas.items():
        cells, row = sheet.rows[number - 1], rows[number - 1]
        cell = cells[index] if index < len(cells) else EMPTY
        if cell.value is None and cell.data_type == "n":
            row += [None] * (index + 1 - len(row))
            row[index] = formula
    return rows


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
        "above": [] if tab.result else _rows_above(tab, place.header_row, sheet, columns),
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
        "merged": _merged_records(sheet, columns, {row[0] for row in rows}),
        "filtered": sum(1 for row in rows if row[0] in sheet.hidden),
        "hidden": place.sheet.hidden,
        "hidden_columns": _hidden_columns(sheet, columns, rows),
        "struck": [row[0] for row in rows if row[0] in sheet.struck],
        "struck_by_rule": _struck_by_rule(sheet, columns, rows),
    }


def _struck_by_rule(
    sheet: LoadedSheet, columns: Mapping[str, int], rows: Sequence[list[Any]]
) -> list[str]:
    """List the ranges of such rules that hold cells of records."""
    found = []
    for cells in sheet.struck_by_rule:
        top, left, bottom, right = spanned(cells) or (0, 0, 0, 0)
        across = any(left <= index + 1 <= right for index in columns.values())
        if across and any(top <= row[0] <= bottom for row in rows):
            found.append(cells)
    return found


def _hidden_columns(
    sheet: LoadedSheet, columns: Mapping[str, int], rows: Sequence[list[Any]]
) -> list[str]:
    """List the columns that nobody sees and that hold something."""
    return [
        header
        for position, (header, index) in enumerate(columns.items())
        if any(first <= index + 1 <= last for first, last in sheet.hidden_columns)
        and any(row[1][position] is not None for row in rows)
    ]


def _rows_above(
    tab: WantedTab, header_row: int, sheet: LoadedSheet, columns: Mapping[str, int]
) -> list[int]:
    """List the rows above the header row that have what a record must have, and some cells more.

    A sort that took the header row along leaves some there; titles and hints have fewer cells.
    """
    found: list[int] = []
    for number, cells in enumerate(sheet.rows[: header_row - 1], 1):
        record = _record(number, cells, columns, sheet.formulas)
        pairs = zip(columns, record[1], strict=True) if record else ()
        filled = {header for header, value in pairs if value is not None}
        if len(filled) >= FEWEST_HEADERS and filled.issuperset(columns.keys() & {*tab.required}):
            found.append(number)
    return found


def _merged_records(
    sheet: LoadedSheet, columns: Mapping[str, int], rows: set[int]
) -> list[tuple[str, int, str]]:
    """List merged cells that take cells of records away: header and row of the first, range.

    Only the first cell of a range holds anything.
    """
    found: list[tuple[str, int, str]] = []
    last = max(rows, default=0)
    for top, left, bottom, right in sheet.merged:
        inside = [h for h, index in columns.items() if left <= index + 1 <= right]
        under = [row for row in range(top, min(bottom, last) + 1) if row in rows]
        lost = [(h, row) for row in under for h in inside if (row, columns[h] + 1) != (top, left)]
        if lost:
            ends = f"{column_letters(left)}{top}:{column_letters(right)}{bottom}"
            found.append((*lost[0], ends))
    return found


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
        cell = cells[index] if index < width else EMPTY
        value = cell.value
        formula = formulas.get((number, index)) if formulas else None
        if value is None and formula is None:
            values.append(None)
            continue
        value, extra = _value(value, cell)
        if formula is not None:
            if value is None and not extra and cell.data_type != "n":
                values.append(None)  # =IF(A9="","",2) shows an empty cell, and is one
                continue
            extra["f"] = formula
            if cell.value is None and cell.data_type == "n":
                extra["v"] = False
        values.append(value)
        if extra:
            extras[position] = extra
    if all(value is None for value in values) and not any(x.keys() & "fe" for x in extras.values()):
        return None
    return [number, values, extras] if extras else [number, values]


def _value(value: object, cell: Cell) -> tuple[str | float | bool | None, Json]:
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
    if isinstance(value, timedelta):  # 60:30 typed for a length is as little a number as 3/4
        value = (_MIDNIGHT + value % timedelta(days=1)).time()
    if isinstance(value, datetime) and value.time() == time(0):
        value = value.date()
    if isinstance(value, datetime | date | time):
        extra["t"] = type(value).__name__
        return value.isoformat()
    return str(value)
