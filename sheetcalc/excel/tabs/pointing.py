"""What of a person's points at a tab that is not in the book, or that nothing is put on any more.

Nothing may be ordered from a supplier any more, or nothing heated.  If that tab went, a person's
summary that adds its total up would show an error, and a spreadsheet program may take such
formulas out when it opens the file.  So what points at a tab is looked for first: in cells, in
rules and lists of choices, in defined names, charts and pivot tables, by the tab's name and by its
tables' names.
"""

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc.book import INPUT_NAME, Book
from sheetcalc.excel.opc.escapes import escaped
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.own_tabs import RESULT_NAME, OwnTab

_OF_CHARTS: Final = (  # content types without case
    "application/vnd.openxmlformats-officedocument.drawingml.chart+xml",
    "application/vnd.ms-office.chartex+xml",
)
_OF_PIVOTS: Final = (
    "application/vnd.openxmlformats-officedocument.spreadsheetml.pivotcachedefinition+xml"
)
_BUILT_IN: Final = "_xlnm."
_LONGEST_CELL: Final = 1 << 16
"""Bytes that a cell with its formula takes at most: 8,192 signs, escaped."""
_FORMULA = re.compile(rb"<(?:\w+:)?(?:f|formula[12]?)(?:\s[^<>]*)?>([^<]*)<")
_CELL = re.compile(rb"<(?:\w+:)?c\s([^<>]*)>\s*")
_ADDRESS = re.compile(rb"""(?:^|\s)r\s*=\s*["']\s*([A-Za-z]+[0-9]+)""")
_PIVOT_SOURCE = re.compile(rb"<(?:\w+:)?worksheetSource\s[^<>]*>")
_PIVOT_TERM = re.compile(r"""\s(sheet|name|id|\w+:id)\s*=\s*(?:"([^"]*)"|'([^']*)')""")


def pointed_at(
    book: Book, ours: Sequence[OwnTab], idle: Iterable[OwnTab] = ()
) -> dict[str, list[str]]:
    """Find tabs that a person's formulas point at though they are not there, or idle.

    Parameters
    ----------
    book
        The workbook.
    ours
        Our tabs in it: what they point at is made anew with them.
    idle
        Those of them that nothing is put on any more.

    Returns
    -------
    dict
        Name of a tab -> what points at it, in book order: cells as ``Sheet!B4``, ``a rule on
        Sheet``, ``the name Total``, ``a chart``, ``a pivot table``.
    """
    of_tables = {
        table.name.casefold(): tab.sheet_name for tab in idle for table in book.tables_of(tab.part)
    }
    of_idle = {tab.sheet_name.casefold(): tab.sheet_name for tab in idle}
    there = {s.name.casefold() for s in book.sheets} - of_idle.keys()
    found: dict[str, dict[str, None]] = {}
    for place, formula in _formulas(book, {tab.part for tab in ours}, of_tables):
        named = [n for n in formula_text.sheets_of(formula) if n.casefold() not in there]
        if of_tables:
            words = map(str.casefold, formula_text.names_of(formula))
            named += [of_tables[word] for word in words if word in of_tables]
        for name in named:
            found.setdefault(of_idle.get(name.casefold(), name), {})[place] = None
    return {name: list(places) for name, places in found.items()}


def _formulas(book: Book, ours: set[str], names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Yield formulas that may hold a reference to a tab, or one of the names, and where."""
    signs = b"|".join([b"!", *(re.escape(escaped(name).encode()) for name in names)])
    sign = re.compile(signs, re.IGNORECASE)
    for sheet in book.sheets:
        if sheet.kind == "worksheet" and sheet.part in book.package.parts.keys() - ours:
            on_sheet = formula_text.quote_sheet(sheet.name)
            for cell, formula in _in_part(book.package, sheet.part, sign):
                yield f"{on_sheet}!{cell}" if cell else f"a rule on {on_sheet}", formula
    for element in book.defined_names():
        name = element.get("name") or ""
        if not name.lower().startswith((RESULT_NAME, INPUT_NAME, _BUILT_IN)):
            yield f"the name {name}", element.text or ""
    yield from _of_objects(book.package, sign)


def _of_objects(package: Package, sign: re.Pattern[bytes]) -> Iterator[tuple[str, str]]:
    for part in package.parts:
        kind = package.content_type(part)
        if kind in _OF_CHARTS:
            for _, formula in _in_part(package, part, sign):
                yield "a chart", formula
        elif kind == _OF_PIVOTS:
            for source in _PIVOT_SOURCE.findall(b"".join(package.stream(part))):
                yield "a pivot table", _source_of_pivot(html.unescape(source.decode()))


def _in_part(package: Package, part: str, sign: re.Pattern[bytes]) -> Iterator[tuple[str, str]]:
    """Yield formulas with a sign in them, each with the address of its cell, if it has one.

    From a sign it is a short way back to the element that it stands in; most of a part has none.
    What lies where two pieces of the part meet may come twice.
    """
    rest = b""
    for piece in package.stream(part):
        data, done = rest + piece, 0
        for found in sign.finditer(data):
            if found.start() < done:
                continue
            start = data.rfind(b"<", 0, found.start())
            element = _FORMULA.match(data, max(start, 0))
            if element is None:  # a text: none of its other signs is looked at
                end = data.find(b"<", found.end())
                done = len(data) if end < 0 else end
                continue
            done = element.end()
            cell = _CELL.fullmatch(data, max(data.rfind(b"<", 0, start), 0), start)
            address = _ADDRESS.search(cell[1]) if cell else None
            yield (
                address[1].decode().upper() if address else "",
                html.unescape(element[1].decode(errors="replace")),
            )
        rest = data[-_LONGEST_CELL:]


def _source_of_pivot(element: str) -> str:
    """Write the source of a pivot table as a formula would name it; nothing of another book."""
    terms: dict[str, str] = {
        key: double or single for key, double, single in _PIVOT_TERM.findall(element)
    }
    if any(key.endswith("id") for key in terms):
        return ""
    if "sheet" in terms:
        return f"{formula_text.quote_sheet(terms['sheet'])}!A1"
    return terms.get("name", "")
