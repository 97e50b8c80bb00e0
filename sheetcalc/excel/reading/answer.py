"""The reading child's request and answer, as plain data and as records."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, time
from typing import Any, TypeAlias

from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable, RawValue

Json: TypeAlias = Mapping[str, Any]


def request_for(path: str, tabs: Iterable[Tab]) -> dict[str, Any]:
    """Say which tabs are wanted, with everything that finding them takes."""
    return {
        "path": path,
        "tabs": [
            {
                "key": tab.key,
                "table": tab.table,
                "headers": [c.header for c in tab.columns],
                "required": [c.header for c in tab.columns if c.required],
                "typed": [c.header for c in tab.columns if c.typed or not tab.result],
                "result": tab.result,
            }
            for tab in tabs
        ],
    }


def book_from(path: str, answer: Json) -> RawBook:
    """Make the records of an answer."""
    return RawBook(
        path=path,
        tables={key: _table(key, found) for key, found in answer["tables"].items()},
        absent=tuple(answer["absent"]),
        sheets=tuple(answer["sheets"]),
        date_1904=answer["date_1904"],
        copies=tuple((key, sheet) for key, sheet in answer["copies"]),
    )


def _table(key: str, found: Json) -> RawTable:
    letters = found["letters"]
    columns = list(letters.items())
    return RawTable(
        tab=key,
        sheet=found["sheet"],
        table=found["table"],
        header_row=found["header_row"],
        last_row=found["last_row"],
        headers=found["headers"],
        letters=letters,
        unknown=tuple(found["unknown"]),
        missing=tuple(found["missing"]),
        duplicated=tuple(found["duplicated"]),
        rows=tuple(_row(row, columns) for row in found["rows"]),
        filtered=found["filtered"],
        hidden=found["hidden"],
        hidden_columns=tuple(found["hidden_columns"]),
        struck=tuple(found["struck"]),
        struck_by_rule=tuple(found["struck_by_rule"]),
        above=tuple(found["above"]),
        merged=tuple((header, row, cells) for header, row, cells in found["merged"]),
        end_row=found["end_row"],
        beside=tuple(found["beside"]),
    )


_NOTHING: dict[str, Any] = {}


def _row(row: list[Any], columns: list[tuple[str, str]]) -> RawRow:
    number, values = row[0], row[1]
    extras = row[2] if len(row) > 2 else _NOTHING  # noqa: PLR2004 (number, values, extras)
    cells: dict[str, RawCell] = {}
    for position, (header, letters) in enumerate(columns):
        value = values[position]
        extra = extras.get(str(position)) if extras else None
        if extra is not None:
            cells[header] = _special(value, f"{letters}{number}", extra)
        elif value is not None:
            cells[header] = RawCell(value, f"{letters}{number}")
    return RawRow(number, cells)


_TYPES: Mapping[str, Callable[[str], date | time]] = {
    "date": date.fromisoformat,
    "datetime": datetime.fromisoformat,
    "time": time.fromisoformat,
}


def _special(value: RawValue, address: str, extra: Json) -> RawCell:
    if "t" in extra and isinstance(value, str):
        value = _TYPES[extra["t"]](value)
    return RawCell(
        value,
        address,
        error=extra.get("e", ""),
        formula=extra.get("f", ""),
        has_value=extra.get("v", True),
        number_format=extra.get("n", "General"),
    )
