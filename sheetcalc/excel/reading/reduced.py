"""Find the parts of a workbook by its relationships, and cut it down to the tabs wanted.

What openpyxl then reads is the cells of those tabs, and nothing else.  So a style sheet, a drawing
or a property that it cannot load never stands between a person and their findings, and a large
workbook costs no more than its own tabs.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import islice

from msgspec import Struct

from sheetcalc.excel.opc import xml_tools
from sheetcalc.excel.opc.book import INPUT_NAME, single_cell
from sheetcalc.excel.opc.errors import Refused
from sheetcalc.excel.opc.formula_text import column_number
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.tabs.own_tabs import RESULT_NAME

PEEKED_BYTES = 65_536
"""How far into a tab the reader looks for a header row when no table object names it."""

_MAIN = xml_tools.MAIN

_ROOT_TAG = re.compile(rb"<(?:(?P<prefix>[A-Za-z_][\w.-]*):)?worksheet\b[^>]*>")
_ROW_END = re.compile(rb"</(?:[A-Za-z_][\w.-]*:)?row\s*>")


class TableObject(Struct, frozen=True):
    """A table definition: its name and the sheet rows and columns that it spans (1-based)."""

    name: str
    first_row: int
    first_column: int
    last_row: int
    last_column: int
    header_rows: int
    totals_rows: int


class SheetPart(Struct, frozen=True):
    """A worksheet as the workbook lists it."""

    name: str
    part: str
    tables: tuple[TableObject, ...]
    hidden: bool


class SourcePackage:
    """The parts of a workbook file that reading needs.

    Attributes
    ----------
    date_1904
        Dates count from 1904.
    sheets
        Worksheets, in the order of the tabs.
    input_tabs
        Defined name of ours -> name of the input tab that it points at.
    result_tabs
        Names of the tabs that our names of result tabs point at.
    """

    def __init__(self, package: Package) -> None:
        self._package = package
        self._workbook = package.workbook
        book = xml_tools.parse(self._package.read(self._workbook), self._workbook)
        properties = xml_tools.child(book, "workbookPr")
        self.date_1904 = properties is not None and xml_tools.is_true(properties.get("date1904"))
        self.sheets = tuple(self._sheets(book))
        self.input_tabs = _pointed_at(book, self.sheets, INPUT_NAME)
        self.result_tabs = frozenset(_pointed_at(book, self.sheets, RESULT_NAME).values())

    def bytes_of(self, part: str) -> bytes:
        """Return the content of a part, in UTF-8."""
        return _as_utf8(self._package.read(part))

    def start_of(self, part: str) -> bytes:
        """Return the beginning of a part, enough to find a header row in, in UTF-8."""
        start = bytearray()
        for piece in self._package.stream(part):
            start += piece
            if len(start) >= PEEKED_BYTES:
                break
        return _as_utf8(bytes(start[:PEEKED_BYTES]))

    def shared_strings(self) -> bytes:
        """Return the part with the shared texts; empty if there is none."""
        parts = self._package.related(self._workbook, "sharedStrings")
        return self.bytes_of(parts[0]) if parts else b""

    def _sheets(self, book: xml_tools.Element) -> Iterator[SheetPart]:
        relations = {r.id: r for r in self._package.relationships(self._workbook)}
        listed = xml_tools.child(book, "sheets")
        for sheet in xml_tools.children(listed, "sheet") if listed is not None else ():
            identity = sheet.get(f"{{{xml_tools.RELATIONS}}}id") or sheet.get(
                f"{{{xml_tools.STRICT_RELATIONS}}}id", ""
            )
            relation = relations.get(identity or "")
            if relation is None or relation.type != "worksheet":
                continue
            if relation.target in self._package.parts:
                part = relation.target
                hidden = sheet.get("state", "visible") != "visible"
                yield SheetPart(sheet.get("name", ""), part, tuple(self._tables(part)), hidden)

    def _tables(self, sheet_part: str) -> Iterator[TableObject]:
        for part in self._package.related(sheet_part, "table"):
            root = xml_tools.parse(self._package.read(part), part)
            span = spanned(root.get("ref", ""))
            if span is not None:
                yield TableObject(
                    root.get("displayName") or root.get("name") or "",
                    *span,
                    header_rows=xml_tools.whole(root.get("headerRowCount"), 1),
                    totals_rows=xml_tools.whole(root.get("totalsRowCount")),
                )

    def number_formats(self) -> tuple[Mapping[int, str], Sequence[int], Sequence[bool]]:
        """Return custom number formats by id, and of each cell style, in order, two things.

        The id of its number format, and whether its font is struck through.
        """
        parts = self._package.related(self._workbook, "styles")
        if not parts:
            return {}, (0,), (False,)
        root = xml_tools.parse(self._package.read(parts[0]), parts[0])
        custom = {
            xml_tools.whole(element.get("numFmtId")): element.get("formatCode", "General")
            for formats in xml_tools.children(root, "numFmts")
            for element in xml_tools.children(formats, "numFmt")
        }
        struck = [
            _strikes(font)
            for fonts in xml_tools.children(root, "fonts")
            for font in xml_tools.children(fonts, "font")
        ]
        styles = [
            (xml_tools.whole(element.get("numFmtId")), xml_tools.whole(element.get("fontId")))
            for formats in xml_tools.children(root, "cellXfs")
            for element in xml_tools.children(formats, "xf")
        ] or [(0, 0)]
        known = dict(enumerate(struck))
        return custom, [form for form, _ in styles], [known.get(font, False) for _, font in styles]

    @cached_property
    def striking_formats(self) -> frozenset[int]:
        """Numbers of the formats of conditional formatting that strike text through."""
        parts = self._package.related(self._workbook, "styles")
        root = xml_tools.parse(self._package.read(parts[0]), parts[0]) if parts else None
        group = xml_tools.child(root, "dxfs") if root is not None else None
        formats = xml_tools.children(group, "dxf") if group is not None else ()
        return frozenset(
            number
            for number, found in enumerate(formats)
            if any(_strikes(font) for font in xml_tools.children(found, "font"))
        )


def _strikes(font: xml_tools.Element) -> bool:
    """Whether a font strikes text through."""
    strikes = xml_tools.children(font, "strike")
    return any(xml_tools.is_true(element.get("val", "1")) for element in strikes)


def _pointed_at(
    book: xml_tools.Element, sheets: Sequence[SheetPart], start: str
) -> Mapping[str, str]:
    """Find names of the workbook's scope that start so, and the tab that each points at."""
    tabs = {sheet.name.casefold(): sheet.name for sheet in sheets}
    group = xml_tools.child(book, "definedNames")
    found: dict[str, str] = {}
    for element in xml_tools.children(group, "definedName") if group is not None else ():
        name = element.get("name") or ""
        if element.get("localSheetId") is None and name.lower().startswith(start):
            target = single_cell(element.text or "")
            if target is not None and target[0].casefold() in tabs:
                found[name] = tabs[target[0].casefold()]
    return found


_REF = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})(?::\$?([A-Z]{1,3})\$?([0-9]{1,7}))?")


def spanned(ref: str) -> tuple[int, int, int, int] | None:
    """First row, first column, last row and last column of a range, from 1; None for others."""
    found = _REF.fullmatch(ref)
    if found is None:
        return None
    left, top = column_number(found[1]), int(found[2])
    return top, left, int(found[4] or top), column_number(found[3] or found[1])


# --- cutting down ---------------------------------------------------------------------------------


def cells_only(xml: bytes, *, rows: int | None = None) -> bytes:
    """Cut a worksheet part in UTF-8 down to its root and its cells that are not only styled.

    With ``rows``, the first so many are kept that are complete: the part may have been read in its
    first bytes only.  The strict variant's namespace becomes the one that openpyxl knows.
    """
    root = _ROOT_TAG.search(xml)
    if root is None:
        why = "it has no worksheet element"
        raise _broken(why)
    prefix = root["prefix"] + b":" if root["prefix"] else b""
    head = root[0].replace(xml_tools.STRICT_MAIN.encode(), _MAIN.encode())
    if head.endswith(b"/>"):
        head = head[:-2] + b">"
    start = re.compile(rb"<" + prefix + rb"sheetData\b[^>]*>").search(xml, root.end())
    cells = b""
    if start is not None and not start[0].endswith(b"/>"):
        if rows is None:
            end = xml.rfind(b"</" + prefix + b"sheetData")
        else:
            ends = (m.end() for m in islice(_ROW_END.finditer(xml), rows))
            end = max(ends, default=start.end())
        cells = _without_empty(xml[start.end() : end])
    return b"".join(
        (
            b'<?xml version="1.0" encoding="UTF-8"?>',
            head,
            b"<" + prefix + b"sheetData>",
            cells,
            b"</" + prefix + b"sheetData></" + prefix + b"worksheet>",
        )
    )


_UNPLACED_CELL = re.compile(rb'<c(?! r="[A-Z]+[0-9]+")[\s/>]')
_EMPTY_CELL = re.compile(rb'<c r="[A-Z]+[0-9]+"[^<>]*/>')


def _without_empty(cells: bytes) -> bytes:
    """Leave out cells that hold nothing: half of those of a tab that is there to be filled in.

    Only where every cell says its place, as nearly every program has it: one that does not stands
    after the cell before it.
    """
    if b"<!" in cells or _UNPLACED_CELL.search(cells):
        return cells
    return _EMPTY_CELL.sub(b"", cells)


def _broken(why: str) -> Refused:
    return Refused("XML-BROKEN", {"part": "worksheet", "why": why})


_DECLARED = re.compile(rb"^\s*<\?xml[^>]*encoding\s*=\s*[\"']([A-Za-z0-9._-]+)[\"'][^>]*>")
_DECLARATION = re.compile(r"^\ufeff?\s*<\?xml[^>]*\?>")


def _as_utf8(xml: bytes) -> bytes:
    """Recode a part that is not in UTF-8; almost every part is."""
    encoding = "utf-16" if xml.startswith((b"\xff\xfe", b"\xfe\xff")) else ""
    if not encoding:
        declared = _DECLARED.match(xml[:200])
        if declared is None or declared[1].lower() in {b"utf-8", b"us-ascii"}:
            return xml.removeprefix(b"\xef\xbb\xbf")
        encoding = declared[1].decode()
    errors = "replace" if encoding == "utf-16" else "strict"  # a first piece may end in a letter
    try:
        return _DECLARATION.sub("", xml.decode(encoding, errors), count=1).encode()
    except (LookupError, UnicodeError) as error:
        raise _broken(str(error)[:200]) from error
