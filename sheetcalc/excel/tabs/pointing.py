"""What of a person's points at a tab that is not in the book any more, or goes with this run.

An order tab goes when nothing is ordered from its supplier any more.  A person's summary that
added its total up then shows an error, and nobody would know why.
"""

import html
import re
from collections.abc import Collection, Iterator
from typing import Final

from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc.book import Book
from sheetcalc.excel.opc.package import Package

CHART: Final = "application/vnd.openxmlformats-officedocument.drawingml.chart+xml"
_A_CHART: Final = "a chart"
_FORMULA: Final = rb"<(?:\w+:)?f(?:\s[^<>]*)?>([^<]*![^<]*)<"
_CELL_FORMULA = re.compile(rb"<(?:\w+:)?c\s([^<>]*)>\s*" + _FORMULA)
_CHART_FORMULA = re.compile(_FORMULA)
_LONGEST_CELL: Final = 1 << 16
"""Bytes that a cell with its formula takes at most: 8,192 signs, escaped."""
_PLACE = re.compile(rb"""(?:^|\s)r\s*=\s*["']\s*([A-Za-z]+[0-9]+)""")


def lost_references(
    book: Book, ours: Collection[str], going: Collection[str]
) -> dict[str, list[str]]:
    """Find formulas that point at tabs that are not there.

    Parameters
    ----------
    book
        The workbook.
    ours
        Parts of the tabs that are made anew: what they point at is made with them.
    going
        Names of tabs that this run takes away.

    Returns
    -------
    dict
        Name of a tab that is missing -> cells as ``Sheet!B4``, and ``a chart``, in book order.
    """
    gone = {name.casefold() for name in going}
    there = {s.name.casefold() for s in book.sheets} - gone
    found: dict[str, dict[str, None]] = {}
    for place, formula in _formulas(book, ours):
        for name in formula_text.sheets_of(formula):
            if name.casefold() not in there:
                found.setdefault(name, {})[place] = None
    return {name: list(places) for name, places in found.items()}


def _formulas(book: Book, ours: Collection[str]) -> Iterator[tuple[str, str]]:
    """Yield the formulas that hold a reference to a tab, of cells and of charts, and where."""
    package = book.package
    for sheet in book.sheets:
        if sheet.kind != "worksheet" or sheet.part in ours or sheet.part not in package.parts:
            continue
        for attributes, text in _matches(package, sheet.part, _CELL_FORMULA):
            place = _PLACE.search(attributes)
            cell = f"!{place[1].decode().upper()}" if place else ""
            yield f"{formula_text.quote_sheet(sheet.name)}{cell}", text
    for part in package.parts:
        if package.content_type(part) == CHART:
            for _, text in _matches(package, part, _CHART_FORMULA):
                yield _A_CHART, text


def _matches(
    package: Package, part: str, pattern: re.Pattern[bytes]
) -> Iterator[tuple[bytes, str]]:
    """Yield what the pattern finds in a part; what lies where two pieces meet may come twice."""
    rest = b""
    for piece in package.stream(part):
        data = rest + piece
        if b"!" in data:
            for match in pattern.finditer(data):
                text = match[match.lastindex or 0].decode(errors="replace")
                yield match[1], html.unescape(text)
        rest = data[-_LONGEST_CELL:]
