"""What the cells of one of our sheets hold, and a check figure of it.

Spreadsheet programs rewrite a whole file on saving, so the figure is made from what cells hold,
not from the XML: constants exactly, formulas in a normal form, never their live results (what-if
changes those on purpose) and never the columns that people are meant to fill in.
"""

import hashlib
import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias, cast

from lxml import etree

from sheetcalc.excel import formula_text
from sheetcalc.excel import xml_tools as xml
from sheetcalc.excel.package import Package

Place: TypeAlias = tuple[int, int]

_ADDRESS = re.compile(r"\$?([A-Za-z]{1,3})\$?(\d+)")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")


@dataclass
class TabContent:
    """Cells of one sheet: row and column (1-based) -> what it holds, with a letter for its kind.

    ``n`` number, ``s`` text, ``b`` true or false, ``e`` error, ``f`` formula in its normal form.
    ``pending`` are texts still to be looked up among the shared strings.
    """

    cells: dict[Place, str] = field(default_factory=dict)
    pending: dict[Place, int] = field(default_factory=dict)

    def text(self, place: Place) -> str:
        """Text of a cell, "" where it holds none."""
        held = self.cells.get(place, "")
        return held[1:] if held.startswith("s") else ""


def place_of(address: str) -> Place | None:
    """Row and column of an address such as ``B7``."""
    match = _ADDRESS.fullmatch(address)
    return (int(match[2]), formula_text.column_number(match[1])) if match else None


def plain_text(parent: xml.Element) -> str:
    """Text of a string item: its runs, without the phonetic ones."""
    found: list[str] = []
    for element in parent.iter():
        if xml.local(element) == "t":
            above = element.getparent()
            if above is None or xml.local(above) != "rPh":
                found.append(element.text or "")
    text = "".join(found).replace("\r", "")
    return _ESCAPED.sub(lambda m: chr(int(m[1], 16)), text)


def _number(text: str) -> str:
    try:
        return repr(float(text))
    except ValueError:
        return text


def parse_cells(content: bytes, part: str) -> TabContent:
    """Cells of a worksheet part."""
    found = TabContent()
    masters: dict[str, tuple[str, Place]] = {}
    row_number, column_number = 0, 0
    root = xml.parse(content, part)
    data = xml.child(root, "sheetData")
    for row in () if data is None else data:
        if xml.local(row) != "row":
            continue
        row_number = xml.whole(row.get("r"), row_number + 1)
        column_number = 0
        for cell in row:
            if xml.local(cell) != "c":
                continue
            place = place_of(cell.get("r") or "") or (row_number, column_number + 1)
            column_number = place[1]
            _hold(found, cell, place, masters)
    return found


def _hold(
    found: TabContent, cell: xml.Element, place: Place, masters: dict[str, tuple[str, Place]]
) -> None:
    kind = cell.get("t") or "n"
    formula, value, inline = (xml.child(cell, name) for name in ("f", "v", "is"))
    if formula is not None:
        found.cells[place] = "f" + _normal(formula, place, masters)
        return
    if inline is not None:
        text = plain_text(inline)
        if text:
            found.cells[place] = "s" + text
        return
    stored = "" if value is None else value.text or ""
    if not stored:
        return
    if kind == "s":
        found.pending[place] = xml.whole(stored)
    elif kind == "n":
        found.cells[place] = "n" + _number(stored)
    elif kind == "b":
        found.cells[place] = "b1" if xml.is_true(stored) else "b0"
    elif kind == "e":
        found.cells[place] = "e" + stored
    else:
        text = _ESCAPED.sub(lambda m: chr(int(m[1], 16)), stored.replace("\r", ""))
        found.cells[place] = "s" + text


def _normal(formula: xml.Element, place: Place, masters: dict[str, tuple[str, Place]]) -> str:
    text, home = formula.text or "", place
    if formula.get("t") == "shared":
        group = formula.get("si") or ""
        if text:
            masters[group] = text, place
        # relative to its own cell, a shared formula reads alike in every cell
        text, home = masters.get(group, ("", place))
    return formula_text.normal_form(text, *home)


def look_up_strings(package: Package, part: str, tabs: Iterable[TabContent]) -> None:
    """Fill in pending texts from the shared strings, read once and piece by piece."""
    waiting = [t for t in tabs if t.pending]
    wanted = {number for tab in waiting for number in tab.pending.values()}
    texts = _shared_texts(package.stream(part), wanted) if wanted and part else {}
    for tab in waiting:
        for place, number in tab.pending.items():
            if text := texts.get(number):
                tab.cells[place] = "s" + text
        tab.pending.clear()


def _shared_texts(pieces: Iterable[bytes], wanted: set[int]) -> dict[int, str]:
    texts: dict[int, str] = {}
    last, number = max(wanted), -1
    parser = etree.XMLPullParser(("end",), resolve_entities=False, load_dtd=False, no_network=True)
    for piece in pieces:
        parser.feed(piece)
        for _, event in parser.read_events():
            element = cast("xml.Element", event)
            if xml.local(element) != "si":
                continue
            number += 1
            if number in wanted:
                texts[number] = plain_text(element)
            # let go of what is read: the list may be far larger than our part of it
            element.clear()
            parent = element.getparent()
            while parent is not None and len(parent) > 1:
                del parent[0]
        if number >= last:
            break
    return texts


def bare_header(text: str) -> str:
    """Strip a header of case, outer spaces and the unit in brackets."""
    return re.sub(r"\s*\([^()]*\)\s*$", "", text).strip().casefold()


def check_figure(tab: TabContent, anchor: Place, typed: Collection[str] = ()) -> str:
    """Sixteen hexadecimal digits that change when a person edits the sheet.

    Parameters
    ----------
    tab
        What its cells hold.
    anchor
        Place of the signature; the header row is the next one.
    typed
        Headers of the columns that people fill in.

    Notes
    -----
    Rows below the header count without their order: sorting a result tab is no edit.
    """
    header = anchor[0] + 1
    wanted = {bare_header(t) for t in typed}
    free = {
        column
        for (row, column) in tab.cells
        if row == header and bare_header(tab.text((row, column))) in wanted
    }
    rows: dict[int, list[tuple[int, str]]] = {}
    for (row, column), held in tab.cells.items():
        if (row, column) == anchor or (row > header and column in free):
            continue
        rows.setdefault(row, []).append((column, held))
    lines: Mapping[int, str] = {row: repr(sorted(cells)) for row, cells in rows.items()}
    head = [f"{row - header} {line}" for row, line in sorted(lines.items()) if row <= header]
    body = sorted(line for row, line in lines.items() if row > header)
    return hashlib.sha256("\n".join([*head, "", *body]).encode()).hexdigest()[:16]
