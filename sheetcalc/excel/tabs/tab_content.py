"""A check figure of what the cells of one of our sheets hold.

Spreadsheet programs rewrite a whole file on saving, so the figure is made from what cells hold,
not from the XML: constants exactly, formulas in a normal form, never their live results (what-if
changes those on purpose) and never the columns that people are meant to fill in.
"""

import hashlib
import re
import zlib
from collections.abc import Collection, Iterable, Sequence
from typing import Final, cast

from lxml import etree

from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.tab_cells import Place, TabContent, plain_text


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


def shared_texts_with(package: Package, part: str, marks: Sequence[str]) -> dict[int, str]:
    """Find the shared strings that hold one of some texts, by their numbers.

    Most books have none, which one look over the bytes tells.
    """
    sought = [mark.encode() for mark in marks]
    rest, there = b"", False
    for piece in package.stream(part):
        there = there or any(mark in rest + piece for mark in sought)
        rest = piece[-max(map(len, sought)) :]
    if not there:
        return {}
    all_of_them = _shared_texts(package.stream(part), None)
    return {
        number: held for number, held in all_of_them.items() if any(mark in held for mark in marks)
    }


def _shared_texts(pieces: Iterable[bytes], wanted: set[int] | None) -> dict[int, str]:
    texts: dict[int, str] = {}
    number = -1
    last = max(wanted) if wanted is not None else None
    parser = etree.XMLPullParser(("end",), resolve_entities=False, load_dtd=False, no_network=True)
    for piece in pieces:
        parser.feed(piece)
        for _, event in parser.read_events():
            element = cast("xml.Element", event)
            if xml.local(element) != "si":
                continue
            number += 1
            if wanted is None or number in wanted:
                texts[number] = plain_text(element)
            # let go of what is read: the list may be far larger than our part of it
            element.clear()
            parent = element.getparent()
            while parent is not None and len(parent) > 1:
                del parent[0]
        if last is not None and number >= last:
            break
    return texts


def bare_header(text: str) -> str:
    """Strip a header of case, outer spaces and the unit in brackets."""
    return re.sub(r"\s*\([^()]*\)\s*$", "", text).strip().casefold()


_WHOLE = re.compile(rb"check [0-9a-f]{16}(?P<whole>[0-9a-f]{16})</t>")
_SEARCHED = 1 << 16


def whole_figure(crc: int, size: int) -> str:
    """Figure of a sheet's part as it was written, to the byte.

    It stands behind the check figure, and is made without itself.  A part that still agrees with
    it has been through nobody's hands, so its cells need not be looked at one by one.  Several
    processes can make it of what each has written.

    Parameters
    ----------
    crc, size
        The part's checksum as in a zip, and its bytes.
    """
    return f"{crc:08x}{size:08x}"


def is_as_written(content: bytes) -> bool:
    """Tell whether a sheet's part agrees with the figure that it was written with."""
    match = _WHOLE.search(content[:_SEARCHED])
    if match is None:
        return False
    start, stop = match.span("whole")
    view = memoryview(content)
    crc = zlib.crc32(view[stop:], zlib.crc32(view[:start]))
    return whole_figure(crc, len(content) - (stop - start)) == match["whole"].decode()


def rows_up_to(last: int, content: bytes) -> bytes:
    """Cut a sheet's part, as we write it, off behind a row."""
    start = content.find(b"<sheetData>")
    stop = content.find(b"</row>", content.find(b'<row r="%d"' % last, start))
    if start < 0 or stop < 0:
        return content
    return content[: stop + len(b"</row>")] + b"</sheetData></worksheet>"


BETWEEN: Final = "\x1f"
"""Stands between the parts of what a row holds."""


class CheckFigure:
    """The figure of ``check_figure``, row by row.

    Attributes
    ----------
    head, body
        Digests of the rows down to the header by their numbers, and of those below.
    """

    def __init__(self, anchor_row: int) -> None:
        """Begin a sheet; the header stands in the row below the signature."""
        self._header = anchor_row + 1
        self.head: dict[int, bytes] = {}
        self.body: list[bytes] = []

    def add(self, row: int, held: bytes) -> None:
        """Add a row: letters of columns in order, each followed by what its cell holds."""
        if not held:
            return
        line = hashlib.blake2b(held, digest_size=16).digest()
        if row > self._header:
            self.body.append(line)
        else:
            self.head[row] = line

    def add_all(self, others: "CheckFigure") -> None:
        """Add rows that were added to another figure of the sheet."""
        self.head |= others.head
        self.body += others.body

    def __str__(self) -> str:
        """Sixteen hexadecimal digits; rows below the header count without their order."""
        head = [b"%d %s" % (row - self._header, line) for row, line in sorted(self.head.items())]
        whole = b"".join([*head, b"/", *sorted(self.body)])
        return hashlib.blake2b(whole, digest_size=8).hexdigest()


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
    figure = CheckFigure(anchor[0])
    for row, cells in rows.items():
        cells.sort()
        parts = [part for column, held in cells for part in (column_letters(column), held)]
        figure.add(row, BETWEEN.join(parts).encode())
    return str(figure)
