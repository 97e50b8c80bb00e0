"""Read the cells of sheets with openpyxl: values as stored, formulas, and which rows are hidden."""

import contextlib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypeVar

from msgspec import Struct, field

from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.xml_tools import is_true, whole
from sheetcalc.excel.reading.cells import CellFormats, CellReader, Row
from sheetcalc.excel.reading.mending import is_odd, spelled_out
from sheetcalc.excel.reading.reduced import SheetPart, SourcePackage, cells_only, spanned
from sheetcalc.excel.reading.strings import SharedStrings

SHARED_TEXTS = "shared strings"
ROWS_SEARCHED = 60
"""A header row stands near the top; further down nothing is looked for."""

_Read = TypeVar("_Read")


class LoadedSheet(Struct):
    """Cells of one sheet: rows from row 1 on, those hidden, formulas by row and column index.

    ``struck`` are rows in which a filled cell is struck through.

    ``struck_by_rule`` are ranges whose text a rule of conditional formatting strikes through while
    it holds.

    ``merged`` are ranges of merged cells: first row, first column, last row, last column, from 1.

    ``hidden_columns`` are first and last column, from 1, of each group that is hidden.
    """

    rows: list[Row]
    hidden: frozenset[int]
    formulas: Mapping[tuple[int, int], str] = field(default_factory=dict)
    struck: frozenset[int] = frozenset()
    struck_by_rule: tuple[str, ...] = ()
    merged: tuple[tuple[int, int, int, int], ...] = ()
    hidden_columns: tuple[tuple[int, int], ...] = ()


class SheetLoader:
    """Sheets by name, loaded when asked for."""

    def __init__(self, source: SourcePackage) -> None:
        self._source = source
        self._loaded: dict[str, LoadedSheet] = {}
        self._peeked: dict[str, list[Row]] = {}
        try:
            strings = SharedStrings(source.shared_strings())
        except DAMAGE as damage:
            raise _broken(SHARED_TEXTS, str(damage)) from damage
        formats = CellFormats(*source.number_formats())
        self._strings = strings
        self._cells = CellReader(strings, formats, date_1904=source.date_1904)

    def load(self, sheets: Iterable[SheetPart]) -> None:
        """Read sheets that are not there yet."""
        for sheet in sheets:
            if sheet.name not in self._loaded:
                xml = self._source.bytes_of(sheet.part)
                loaded = self._read(sheet.name, cells_only(xml), self._sheet)
                loaded.merged = tuple(_merged(xml))
                loaded.hidden_columns = tuple(_hidden_columns(xml))
                loaded.struck_by_rule = tuple(dict.fromkeys(self._struck_by_rule(xml)))
                self._loaded[sheet.name] = loaded

    def peek(self, sheet: SheetPart) -> list[Row]:
        """First rows of a sheet that may not be ours; none where it can't be read."""
        if sheet.name in self._loaded:
            return self._loaded[sheet.name].rows[:ROWS_SEARCHED]
        if sheet.name not in self._peeked:
            self._peeked[sheet.name] = []
            # an odd sheet of the user's is copied, whatever is in it
            with contextlib.suppress(Refused):
                xml = cells_only(self._source.start_of(sheet.part), rows=ROWS_SEARCHED)
                rows = self._read(sheet.name, xml, self._values)
                self._peeked[sheet.name] = rows[:ROWS_SEARCHED]
        return self._peeked[sheet.name]

    def texts_at_start(self, sheet: SheetPart) -> set[str]:
        """Texts in the first rows of a sheet; of shared ones those that were read before.

        They are looked for among the bytes, for a hundredth of what reading the rows costs.
        """
        with contextlib.suppress(Refused):
            start = self._source.start_of(sheet.part)
            shared = self._strings.known(map(int, _SHARED_TEXT.findall(start)))
            return shared | {text.decode("utf-8", "replace") for text in _TEXT.findall(start)}
        return set()

    def __getitem__(self, sheet: SheetPart) -> LoadedSheet:
        """Return a sheet, read whole."""
        self.load([sheet])
        return self._loaded[sheet.name]

    def _read(self, name: str, xml: bytes, read: Callable[[bytes], _Read]) -> _Read:
        """Read a part, as it is or else spelled out."""
        if not is_odd(xml):
            with contextlib.suppress(*DAMAGE):
                return read(xml)
        try:
            xml = spelled_out(xml)
        except DAMAGE as damage:
            raise _broken(name, str(damage)) from damage
        try:
            return read(xml)
        except DAMAGE as damage:
            raise _broken(name, f"cell {self._cells.place}: {damage}") from damage

    def _struck_by_rule(self, xml: bytes) -> Iterator[str]:
        """Ranges of rules with such a format; those of later programs, which hold their own, not.

        Whether a rule holds is a formula's matter, which nobody calculates here.
        """
        ranges: list[str] = []
        # they stand behind the cells, which are nearly all of a sheet
        for found in _CONDITIONAL.finditer(xml, max(xml.rfind(b"sheetData"), 0)):
            said = dict(_ATTRIBUTE.findall(found[0]))
            if found[1] == b"conditionalFormatting":
                ranges = said.get(b"sqref", b"").decode("ascii", "replace").split()
            elif ranges and self._strikes(said.get(b"dxfId")):
                yield from ranges
                ranges = []  # once, however many rules they have

    def _strikes(self, number: bytes | None) -> bool:
        """Whether a format of conditional formatting strikes text through."""
        return number is not None and (
            whole(number.decode("ascii", "replace"), -1) in self._source.striking_formats
        )

    def _values(self, xml: bytes) -> list[Row]:
        return self._cells.rows(xml, data_only=True)

    def _sheet(self, xml: bytes) -> LoadedSheet:
        values = self._values(xml)
        loaded = LoadedSheet(values, self._cells.hidden, struck=frozenset(self._cells.struck))
        if _FORMULA.search(xml):
            loaded.formulas = dict(_formulas(self._cells.rows(xml, data_only=False)))
        return loaded


_TEXT = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?t(?:\s[^<>]*)?>([^<]*)<")
_SHARED_TEXT = re.compile(rb"""\bt=["']s["'][^<>]*>\s*<(?:[A-Za-z_][\w.-]*:)?v>([0-9]{1,9})<""")


def _merged(xml: bytes) -> Iterator[tuple[int, int, int, int]]:
    # they stand behind the cells, which are nearly all of a sheet
    for found in _MERGE.finditer(xml, max(xml.rfind(b"sheetData"), 0)):
        span = spanned(found[1].decode("ascii", "replace"))
        if span is not None:
            yield span


_MERGE = re.compile(rb"""<(?:[A-Za-z_][\w.-]*:)?mergeCell\b[^<>]*?\bref\s*=\s*["']([^"'<]*)["']""")


_CONDITIONAL = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?(conditionalFormatting|cfRule)\b[^<>]*>")


def _hidden_columns(xml: bytes) -> Iterator[tuple[int, int]]:
    # they stand before the cells
    for found in _COLUMNS.finditer(xml, 0, max(xml.find(b"sheetData"), 0)):
        said = dict(_ATTRIBUTE.findall(found[0]))
        first, last = said.get(b"min", b""), said.get(b"max", b"")
        if is_true(said.get(b"hidden", b"").decode("ascii", "replace")) and first.isdigit():
            yield int(first), int(last) if last.isdigit() else int(first)


_COLUMNS = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?col\s[^<>]*>")
_ATTRIBUTE = re.compile(rb"""\b(min|max|hidden|sqref|dxfId)\s*=\s*["']([^"'<]*)["']""")

DAMAGE = (ValueError, SyntaxError, LookupError, TypeError, AttributeError, OverflowError)
"""What openpyxl comes to grief with on cells that are not as the format says."""


def _broken(part: str, why: str) -> Refused:
    return Refused(Code.XML_BROKEN, {"part": part[:200], "why": why[:200]})


_FORMULA = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?f[\s/>]")


def _formulas(rows: Iterable[Row]) -> Iterator[tuple[tuple[int, int], str]]:
    for number, row in enumerate(rows, 1):
        for index, cell in enumerate(row):
            if cell.data_type == "f":
                text = (
                    cell.value if isinstance(cell.value, str) else getattr(cell.value, "text", "")
                )
                yield (number, index), text or "="
