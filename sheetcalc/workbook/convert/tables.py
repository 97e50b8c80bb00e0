"""What is wrong with whole tabs and columns: absent, empty, doubled, in another unit."""

import re
from collections.abc import Iterator, Sequence

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.measure import JobUnits
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.convert.nearest import nearest
from sheetcalc.workbook.headers import unit_words
from sheetcalc.workbook.raw import RawBook, RawTable

_MOST_ROWS = 12
"""Rows that a finding names."""

_BRACKETS = re.compile(r"[\(\[]([^\(\)\[\]]*)[\)\]]\s*$")

_SAME_UNIT = {
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "millimetre": "mm", "millimetres": "mm", "inch": "in", "inches": "in", '"': "in",
    "foot": "ft", "feet": "ft", "'": "ft",
    "m2": "m²", "sq m": "m²", "ft2": "ft²", "sq ft": "ft²", "sqft": "ft²",
    "l": "l", "litre": "l", "litres": "l", "liter": "l", "liters": "l",
    "m3": "m³", "ft3": "ft³", "cu ft": "ft³", "gal": "us gal", "lbs": "lb",
    "ohm": "ω", "ohms": "ω", "1/k": "1/k", "w": "w", "v": "v", "h": "h", "°": "°",
}  # fmt: skip
_UNITS = frozenset(_SAME_UNIT.values()) | {"cm", "kg", "g", "lb", "ml", "yd", "km", "us fl oz"}


def check_tables(raw: RawBook, tabs: Sequence[Tab]) -> Iterator[Finding]:
    """Yield findings on tabs and columns that are absent, empty or doubled."""
    found = [tab for tab in tabs if tab.key in raw.tables]
    if not found:
        yield Finding("WORKBOOK-WITHOUT-OUR-TABS", facts={"sheets": _listed(raw.sheets)})
        return
    for tab in tabs:
        table = raw.tables.get(tab.key)
        if table is None:
            yield from _absent(raw, tab)
        else:
            yield from _columns(tab, table)
    for key, where in raw.copies:
        table = raw.tables[key]
        read = f"{table.sheet}!{next(iter(table.letters.values()), 'A')}{table.header_row}"
        facts = {"where": where, "tab": key, "read": read}
        yield Finding("TABLE-NOT-READ", RowRef(key, table.header_row), facts=facts)


def _listed(names: Sequence[str]) -> str:
    most = 8
    shown = ", ".join(f'"{name}"' for name in names[:most]) or "none"
    return shown + (f" and {len(names) - most} more" if len(names) > most else "")


def _absent(raw: RawBook, tab: Tab) -> Iterator[Finding]:
    source = RowRef(tab.key)
    by_name = {sheet.strip().casefold(): sheet for sheet in raw.sheets}
    if tab.key.casefold() in by_name:
        yield Finding(
            "TAB-WITHOUT-HEADER",
            source,
            facts={
                "tab": tab.key,
                "headers": ", ".join(c.header for c in tab.columns if c.required),
            },
        )
    elif tab.needed:
        taken = {table.sheet for table in raw.tables.values()}
        close = nearest(tab.key, [sheet for sheet in raw.sheets if sheet not in taken])
        yield Finding(
            "TAB-MISSING",
            source,
            facts={
                "tab": tab.key,
                "hint": f"rename {close} to {tab.key}, if that is it"
                if close
                else "add the tab with 'sheetcalc blank --into'",
            },
        )


def _columns(tab: Tab, table: RawTable) -> Iterator[Finding]:
    source = RowRef(tab.key, table.header_row)
    for header in table.duplicated:
        yield Finding("COLUMN-TWICE", source, header, {"header": header})
    for column in tab.columns:
        if column.required and column.header in table.missing:
            close = nearest(column.header, table.unknown)
            yield Finding(
                "COLUMN-MISSING",
                source,
                None,
                {
                    "header": column.header,
                    "nearest": close or "none of the headers is like it",
                    "hint": f"rename {close} to {column.header}, if that is it"
                    if close
                    else f"add a column headed {column.header}",
                },
            )
    yield from _perhaps_renamed(tab, table, source)
    if tab.needed and not table.rows:
        yield Finding("TAB-EMPTY", RowRef(tab.key), facts={"tab": tab.key, "record": tab.record})
    for header, row, cells in table.merged:
        yield Finding("CELLS-MERGED", RowRef(tab.key, row), header, {"cells": cells})
    yield from _unseen(tab, table)
    if table.struck_by_rule:
        more = "…" if len(table.struck_by_rule) > _MOST_ROWS else ""
        cells = ", ".join(table.struck_by_rule[:_MOST_ROWS]) + more
        yield Finding("ROWS-STRUCK-BY-RULE", RowRef(tab.key), facts={"cells": cells})
    for code, rows in (("ROWS-STRUCK-OUT", table.struck), ("ROWS-ABOVE-HEADER", table.above)):
        if rows:
            more = "…" if len(rows) > _MOST_ROWS else ""
            shown = ", ".join(map(str, rows[:_MOST_ROWS])) + more
            yield Finding(code, RowRef(tab.key, rows[0]), facts={"count": len(rows), "rows": shown})


def _unseen(tab: Tab, table: RawTable) -> Iterator[Finding]:
    """Tell what counts though nobody sees it."""
    if table.hidden and table.rows:
        yield Finding("TAB-HIDDEN", RowRef(tab.key), facts={"count": len(table.rows)})
    elif table.hidden_columns:
        hidden = _listed(table.hidden_columns)
        yield Finding("COLUMNS-HIDDEN", RowRef(tab.key), facts={"columns": hidden})
    if table.filtered:
        yield Finding("ROWS-HIDDEN", RowRef(tab.key), facts={"count": table.filtered})


def _perhaps_renamed(tab: Tab, table: RawTable, source: RowRef) -> Iterator[Finding]:
    """Yield a finding where a column that may be left out is missing, and others are not read.

    A column of eight rooms whose header says Qty would else be a silent Count of 1.
    """
    missing = [
        column.header
        for column in tab.columns
        if column.header in table.missing and column.default and not column.required
    ]
    if not (missing and table.unknown and table.rows):
        return
    likely = [header for header in missing if nearest(header, table.unknown, most=1)]
    facts = {"unread": _listed(table.unknown), "missing": _listed(likely or missing)}
    yield Finding("COLUMN-NOT-READ", source, None, facts)


def check_header_units(raw: RawBook, tabs: Sequence[Tab], units: JobUnits) -> Iterator[Finding]:
    """Yield findings on headers whose unit in brackets is not the one that numbers count in."""
    for tab in tabs:
        table = raw.tables.get(tab.key)
        for header, text in table.headers.items() if table else ():
            column = tab.by_header[header]
            expected = unit_words(column.kind, units, column.unit)
            bracket = _BRACKETS.search(text)
            if table is None or bracket is None or not expected:
                continue
            shown = _plain_unit(bracket[1])
            if _is_unit(shown) and shown != _plain_unit(expected):
                yield Finding(
                    "HEADER-UNIT-CONTRADICTS",
                    RowRef(tab.key, table.header_row),
                    header,
                    {"found": text, "header": header, "unit": expected, "typed": bracket[1]},
                )


def _plain_unit(text: str) -> str:
    parts = [part.strip() for part in " ".join(text.split()).casefold().strip(" .").split("/")]
    return "/".join(_SAME_UNIT.get(part, part) for part in parts)


def _is_unit(shown: str) -> bool:
    return all(part in _UNITS or part == "1" for part in shown.split("/"))
