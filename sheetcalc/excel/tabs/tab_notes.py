"""Findings about a book as such: result tabs that people changed, or that are no longer ours."""

import re
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

from sheetcalc.domain.finding import Finding
from sheetcalc.excel.opc.book import Book, Sheet
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.own_tabs import find_own_tabs
from sheetcalc.excel.tabs.tab_content import shared_texts_with

_MARK = b"sheetcalc result tab "  # without the dot, which may be written as a number
_STRING_CELL = re.compile(
    rb"""<(?:\w+:)?c\s[^<>]*?r=["'][A-Z]+[1-9]["'][^<>]*>\s*<(?:\w+:)?v>(\d+)</"""
)


def book_notes(
    path: Path, typed: Mapping[str, Collection[str]], keys: Collection[str] | None = None
) -> tuple[Finding, ...]:
    """Find what a person should know about the tabs of a book before results are written to it.

    Parameters
    ----------
    path
        The workbook.
    typed
        Key of a result tab -> headers of the columns that people fill in.
    keys
        Keys of the tabs that this run makes anew; None where it makes all of them anew.

    Returns
    -------
    tuple
        ``RESULT-TAB-EDITED`` (tab, kept), ``RESULT-TAB-FOREIGN`` (tab), ``BOOK-SIGNED``,
        ``BOOK-LOCKED``.

    Raises
    ------
    Refused
        Where the file can't be read as a workbook.
    """
    with Package.open(path) as package:
        book = Book(package)
        own = find_own_tabs(book, typed)
        found = [Finding("BOOK-SIGNED")] if package.signed else []
        if book.structure_locked:
            found.append(Finding("BOOK-LOCKED"))
        found += [
            Finding("RESULT-TAB-EDITED", facts={"tab": tab.sheet_name, "kept": tab.kept_as})
            for tab in own
            if tab.edited and (keys is None or tab.key in keys)
        ]
        ours = {tab.part for tab in own}
        others = [s for s in book.sheets if s.kind == "worksheet" and s.part not in ours]
        found += [
            Finding("RESULT-TAB-FOREIGN", facts={"tab": sheet.name})
            for sheet in _with_signature(book, others)
        ]
        return tuple(found)


def _with_signature(book: Book, sheets: list[Sheet]) -> Iterator[Sheet]:
    """Find tabs that carry our signature in their first rows."""
    strings = book.part_of("sharedStrings")
    numbers = shared_texts_with(book.package, strings, _MARK) if strings else frozenset()
    for sheet in sheets:
        if sheet.part not in book.package.parts:
            continue
        stream = book.package.stream(sheet.part)
        head = next(stream, b"")
        stream.close()
        if _MARK in head or (
            numbers and any(int(n) in numbers for n in _STRING_CELL.findall(head[: 1 << 16]))
        ):
            yield sheet
