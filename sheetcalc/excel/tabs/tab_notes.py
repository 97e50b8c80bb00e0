"""Findings about a book as such: result tabs that people changed, or that are no longer ours."""

import html
import re
from collections.abc import Collection, Iterator, Sequence
from pathlib import Path
from typing import Final

from sheetcalc.domain.finding import Finding
from sheetcalc.excel.opc.book import Book, Sheet
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.own_tabs import KEPT_MARK, OwnTab
from sheetcalc.excel.tabs.pointing import pointed_at
from sheetcalc.excel.tabs.tab_content import shared_texts_with
from sheetcalc.workbook.wording.together import listed

_MARK: Final = "sheetcalc result tab "  # without the dot, which may be written as a number
_KEY_OF_KEPT = re.compile(re.escape(KEPT_MARK) + r" (?:·|&#183;|&#x[bB]7;) ([^<]+)")
_STRING_CELL = re.compile(
    rb"""<(?:\w+:)?c\s[^<>]*?r=["'][A-Z]+[1-9]["'][^<>]*>\s*<(?:\w+:)?v>(\d+)</"""
)
_HEAD: Final = 1 << 16


def book_notes(
    path: Path,
    own: Sequence[OwnTab],
    keys: Collection[str] | None = None,
    idle: Collection[str] = (),
) -> tuple[Finding, ...]:
    """Find what a person should know about the tabs of a book before results are written to it.

    What became of a tab that a person had changed is told as long as the kept tab is there, so
    that a second run finds what the first one found.

    Parameters
    ----------
    path
        The workbook.
    own
        Our tabs of the book.
    keys
        Keys of the tabs that this run makes anew; None where it makes all of them anew.
    idle
        Keys of tabs that it makes nothing for, where it makes all tabs anew: an edited one stays
        where it is, as the user's.

    Returns
    -------
    tuple
        ``RESULT-TAB-EDITED`` (tab, kept), ``RESULT-TAB-FOREIGN`` (tab), ``BOOK-SIGNED``,
        ``BOOK-LOCKED``, ``POINTS-AT-NO-TAB`` and ``RESULT-TAB-KEPT`` (tab, cells).

    Raises
    ------
    Refused
        Where the file can't be read as a workbook.
    """
    with Package.open(path) as package:
        book = Book(package)
        found = [Finding("BOOK-SIGNED")] if package.signed else []
        if book.structure_locked:
            found.append(Finding("BOOK-LOCKED"))
        for tab in own:
            if not tab.edited or (keys is not None and tab.key not in keys):
                continue
            if tab.key in idle:
                found.append(Finding("RESULT-TAB-FOREIGN", facts={"tab": tab.sheet_name}))
            else:
                found.append(_edited(tab.sheet_name, tab.kept_as))
        ours = _ours(own, idle)
        there = {tab.sheet_name for tab in ours}
        for name, places in pointed_at(book, own, ours).items():
            code = "RESULT-TAB-KEPT" if name in there else "POINTS-AT-NO-TAB"
            found.append(Finding(code, facts={"tab": name, "cells": listed(places)}))
        names = {tab.key: tab.sheet_name for tab in own}
        for sheet, text in _marked(book, {tab.part for tab in own}):
            kept = _KEY_OF_KEPT.search(text)
            if kept is None:
                found.append(Finding("RESULT-TAB-FOREIGN", facts={"tab": sheet.name}))
            else:
                key = html.unescape(kept[1].strip())
                found.append(_edited(names.get(key, key), sheet.name))
        return tuple(found)


def kept_tabs(path: Path, own: Sequence[OwnTab], idle: Collection[str]) -> tuple[str, ...]:
    """Keys of tabs that stay, empty, because something of a person's points at them.

    Parameters
    ----------
    path, own
        The workbook, and our tabs of it.
    idle
        Keys of tabs that the run makes nothing for.
    """
    ours = _ours(own, idle)
    if not ours:
        return ()
    with Package.open(path) as package:
        pointed = pointed_at(Book(package), own, ours)
    return tuple(tab.key for tab in ours if tab.sheet_name in pointed)


def _ours(own: Sequence[OwnTab], idle: Collection[str]) -> list[OwnTab]:
    """Idle tabs; a person's own changes make one theirs instead."""
    return [tab for tab in own if tab.key in idle and not tab.edited]


def _edited(tab: str, kept: str) -> Finding:
    return Finding("RESULT-TAB-EDITED", facts={"tab": tab, "kept": kept})


def _marked(book: Book, ours: Collection[str]) -> Iterator[tuple[Sheet, str]]:
    """Find tabs of others that carry a mark of ours in their first rows, and the text of it."""
    marks = (_MARK, KEPT_MARK)
    strings = book.part_of("sharedStrings")
    texts = shared_texts_with(book.package, strings, marks) if strings else {}
    for sheet in book.sheets:
        if sheet.kind != "worksheet" or sheet.part in ours or sheet.part not in book.package.parts:
            continue
        stream = book.package.stream(sheet.part)
        head = next(stream, b"")
        stream.close()
        numbers = _STRING_CELL.findall(head[:_HEAD]) if texts else ()
        shared = next((texts[int(n)] for n in numbers if int(n) in texts), "")
        if any(mark.encode() in head for mark in marks):
            yield sheet, head[:_HEAD].decode(errors="replace")
        elif shared:
            yield sheet, shared
