"""Which tabs of a book are ours: two signs that agree.

A workbook-scope defined name points into the tab, and the cell it points at holds our signature.
A copy of our tab that a person made has the signature but not the name (a program copies the name
with the copy's scope), so it is theirs.  A tab that was renamed, moved or hidden keeps both.
Input tabs added to an existing book carry a name only: they are never overwritten.
"""

import hashlib
import re
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Final

from msgspec import Struct

from sheetcalc.excel.opc.book import INPUT_NAME, Book, Sheet, single_cell
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs import tab_content
from sheetcalc.excel.tabs.additions import has_additions
from sheetcalc.excel.tabs.names import unique_sheet_name
from sheetcalc.excel.tabs.tab_cells import Place, TabContent, address_of, parse_cells

SCHEMA: Final = 1
RESULT_NAME: Final = "sheetcalc_tab_"
KEPT_MARK: Final = "kept by sheetcalc because it was edited"
"""Stands in place of the signature of an edited tab that is kept, with the key of what it was."""
INPUT_KEY: Final = "input:"
FIGURE_DIGITS: Final = 16
_SIGNATURE = re.compile(
    r"sheetcalc result tab · (?P<key>.+) · schema (?P<schema>\d+)(?: · check (?P<check>[0-9a-f]+))?"
)


def signature(key: str) -> str:
    """Text of the signature cell of a result tab, before its check figure is added."""
    return f"sheetcalc result tab · {key} · schema {SCHEMA}"


def input_name(tab: str) -> str:
    """Make the defined name of an input tab added to a book.

    >>> input_name("Build-up")
    'sheetcalc_in_Build_2Dup'
    """
    safe = re.sub(r"[^A-Za-z0-9]", lambda m: f"_{ord(m[0]):02X}", tab)
    return INPUT_NAME + safe


def key_of_input(name: str) -> str:
    """Read the key out of the defined name of an input tab.

    >>> key_of_input("sheetcalc_in_Build_2Dup")
    'input:Build-up'
    """
    text = re.sub(r"_([0-9A-F]{2,4})", lambda m: chr(int(m[1], 16)), name[len(INPUT_NAME) :])
    return INPUT_KEY + text


def key_of_signature(text: str) -> str:
    """Read the key out of the text of a signature cell; "" where it is none."""
    match = _SIGNATURE.fullmatch(text.strip())
    return match["key"] if match else ""


class OwnTab(Struct, frozen=True):
    """A tab that is ours.

    Attributes
    ----------
    key
        ``takeoff``, ``order:Kiln & Quarry``, ``input:Rooms``.
    sheet_name
        As it is called now, perhaps by a person.
    part
        Key of its part.
    state
        visible, hidden or veryHidden.
    edited
        A person changed a cell that is not theirs to fill in, or added a comment, a chart, a
        picture.
    defined_name
        The name that points at it.
    anchor
        Address of its signature.
    kept_as
        Under which name its content is kept where it was edited and is made anew.
    """

    key: str
    sheet_name: str
    part: str
    state: str
    edited: bool
    defined_name: str
    anchor: str = "A3"
    kept_as: str = ""


class _Candidate(Struct, frozen=True):
    sheet: Sheet
    defined_name: str
    anchor: Place
    content: TabContent
    as_written: bool


def find_own_tabs(
    book: Book, typed: Mapping[str, Collection[str]] | None = None
) -> tuple[OwnTab, ...]:
    """Our tabs of a book, in the order of its tabs.

    Parameters
    ----------
    book
        The workbook part.
    typed
        Key -> headers of the columns that people fill in.
    """
    inputs: list[OwnTab] = []
    candidates: list[_Candidate] = []
    seen: set[str] = set()
    for element in book.defined_names():
        name = element.get("name") or ""
        lower = name.lower()
        if element.get("localSheetId") is not None or not lower.startswith(
            (RESULT_NAME, INPUT_NAME)
        ):
            continue
        target = single_cell(element.text or "")
        sheet = book.sheet_named(target[0]) if target else None
        if target is None or sheet is None or sheet.part not in book.package.parts:
            continue
        if sheet.kind != "worksheet":
            continue
        if lower.startswith(INPUT_NAME):
            inputs.append(_input_tab(sheet, name))
        elif sheet.part not in seen:
            seen.add(sheet.part)
            candidates.append(_candidate(book, sheet, name, target[1:]))
    tab_content.look_up_strings(
        book.package, book.part_of("sharedStrings"), [c.content for c in candidates]
    )
    order = {s.part: place for place, s in enumerate(book.sheets)}
    results = _results(book, candidates, typed or {}, order)
    return tuple(sorted([*inputs, *results], key=lambda tab: order[tab.part]))


def _candidate(book: Book, sheet: Sheet, name: str, anchor: Place) -> _Candidate:
    """Read a tab that may be ours; one as it was written, up to its signature only."""
    content = book.package.read(sheet.part)
    as_written = tab_content.is_as_written(content)
    if as_written:
        content = tab_content.rows_up_to(anchor[0], content)
    return _Candidate(sheet, name, anchor, parse_cells(content, sheet.part), as_written)


def _input_tab(sheet: Sheet, name: str) -> OwnTab:
    return found_input(key_of_input(name), sheet, name)


def found_input(key: str, sheet: Sheet, name: str = "") -> OwnTab:
    """Make the record of an input tab that is there."""
    return OwnTab(key, sheet.name, sheet.part, sheet.state, edited=False, defined_name=name)


def _results(
    book: Book,
    candidates: list[_Candidate],
    typed: Mapping[str, Collection[str]],
    order: Mapping[str, int],
) -> list[OwnTab]:
    found: dict[str, OwnTab] = {}
    names = {s.name.casefold() for s in book.sheets}
    for candidate in sorted(candidates, key=lambda c: order[c.sheet.part]):
        anchor = candidate.anchor
        match = _SIGNATURE.fullmatch(candidate.content.text(anchor).strip())
        if match is None or match["key"] in found:
            continue
        key, sheet = match["key"], candidate.sheet
        edited = has_additions(book.package, sheet.part) or not (
            candidate.as_written
            or (match["check"] or "")[:FIGURE_DIGITS]
            == tab_content.check_figure(candidate.content, anchor, typed.get(key, ()))
        )
        kept_as = ""
        if edited:
            kept_as = unique_sheet_name(f"{sheet.name} (edited)", names)
            names.add(kept_as.casefold())
        found[key] = OwnTab(
            key,
            sheet.name,
            sheet.part,
            sheet.state,
            edited,
            candidate.defined_name,
            address_of(anchor),
            kept_as,
        )
    return list(found.values())


class FoundTabs(Struct, frozen=True):
    """Our tabs of a workbook file, good for as long as it holds what it held.

    Attributes
    ----------
    sha256
        Of the file that they were found in.
    tabs
        In the order of the book's tabs.
    """

    sha256: str
    tabs: tuple[OwnTab, ...]

    def are_of(self, package: Package) -> bool:
        """Whether a package that is open is, to the byte, the file that they were found in."""
        return self.sha256 == _digest(package)


def find_in_file(path: Path, typed: Mapping[str, Collection[str]] | None = None) -> FoundTabs:
    """Find our tabs of a workbook file, to be used once more while it stays as it is.

    Raises
    ------
    Refused
        Where the file can't be read as a workbook.
    """
    with Package.open(path) as package:
        return FoundTabs(_digest(package), find_own_tabs(Book(package), typed))


def _digest(package: Package) -> str:
    package.file.seek(0)
    return hashlib.file_digest(package.file, "sha256").hexdigest()  # type: ignore[arg-type] # BinaryIO says nothing of readinto
