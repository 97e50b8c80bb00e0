"""Read the cells of sheets with openpyxl: values as stored, formulas, and which rows are hidden."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from msgspec import Struct, field
from openpyxl import load_workbook

from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.reading.reduced import (
    SheetPart,
    SourcePackage,
    cells_only,
    mended_numbers,
    reduced_package,
)
from sheetcalc.excel.reading.strings import SharedStrings

ROWS_SEARCHED = 60
"""A header row stands near the top; further down nothing is looked for."""

Row: TypeAlias = Sequence[Any]


class LoadedSheet(Struct):
    """Cells of one sheet: rows from row 1 on, hidden rows, formulas by row and column index."""

    rows: list[Row]
    hidden: frozenset[int]
    formulas: Mapping[tuple[int, int], str] = field(default_factory=dict)


class SheetLoader:
    """Sheets by name, loaded when asked for."""

    def __init__(self, source: SourcePackage) -> None:
        self._source = source
        self._loaded: dict[str, LoadedSheet] = {}
        try:
            self._strings = SharedStrings(source.shared_strings())
        except (ValueError, *_DAMAGE) as damage:
            raise _broken(["shared strings"], damage) from damage

    def load(self, sheets: Iterable[SheetPart]) -> None:
        """Read sheets that are not there yet, in one package."""
        new = {s.name: s for s in sheets if s.name not in self._loaded}
        if not new:
            return
        cells = {name: cells_only(self._source.bytes_of(s.part)) for name, s in new.items()}
        values = self._rows(cells, data_only=True)
        with_formulas = {n: xml for n, xml in cells.items() if _FORMULA.search(xml)}
        formulas = {
            name: dict(_formulas(rows))
            for name, rows in self._rows(with_formulas, data_only=False).items()
        }
        for name, rows in values.items():
            self._loaded[name] = LoadedSheet(rows, _hidden(cells[name]), formulas.get(name, {}))

    def peek(self, sheet: SheetPart) -> list[Row]:
        """First rows of a sheet that may not be ours; none where it can't be read."""
        if sheet.name in self._loaded:
            return self._loaded[sheet.name].rows[:ROWS_SEARCHED]
        try:
            start = self._source.start_of(sheet.part)
            rows = self._rows({sheet.name: cells_only(start, whole=False)}, data_only=True)
        except Refused:
            return []  # an odd sheet of the user's is copied, whatever is in it
        return rows[sheet.name][:ROWS_SEARCHED]

    def __getitem__(self, sheet: SheetPart) -> LoadedSheet:
        """Return a sheet, read whole."""
        self.load([sheet])
        return self._loaded[sheet.name]

    def _rows(self, cells: Mapping[str, bytes], *, data_only: bool) -> dict[str, list[Row]]:
        if not cells:
            return {}
        try:
            return self._rows_as_stored(cells, data_only=data_only)
        except ValueError:
            mended = {name: mended_numbers(xml) for name, xml in cells.items()}
        except _DAMAGE as damage:
            raise _broken(cells, damage) from damage
        try:
            return self._rows_as_stored(mended, data_only=data_only)
        except (ValueError, *_DAMAGE) as damage:
            raise _broken(cells, damage) from damage

    def _rows_as_stored(
        self, cells: Mapping[str, bytes], *, data_only: bool
    ) -> dict[str, list[Row]]:
        # names of our own: a user's may be one that openpyxl refuses
        numbered = {f"s{i}": xml for i, xml in enumerate(cells.values())}
        package = reduced_package(numbered, self._source)
        book = load_workbook(package, read_only=True, data_only=data_only, keep_links=False)
        read: dict[str, list[Row]] = {}
        for name, sheet in zip(cells, book.worksheets, strict=True):
            sheet.reset_dimensions()
            sheet._shared_strings = self._strings  # type: ignore[attr-defined] # noqa: SLF001 (looked up one by one: loading all of a user's texts would cost seconds)
            read[name] = list(sheet.iter_rows())
        book.close()
        return read


_DAMAGE = (SyntaxError, LookupError, TypeError, AttributeError, OverflowError)
"""What openpyxl comes to grief with on cells that are not as the format says."""


def _broken(cells: Iterable[str], damage: Exception) -> Refused:
    why = f"{type(damage).__name__}: {damage}"[:200]
    return Refused(Code.XML_BROKEN, {"part": ", ".join(cells)[:200], "why": why})


_FORMULA = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?f[\s/>]")
_ROW = re.compile(rb"<(?:[A-Za-z_][\w.-]*:)?row\b([^>]*)>")
_ROW_NUMBER = re.compile(rb'\br="([0-9]+)"')
_HIDDEN = re.compile(rb'\bhidden="(?:1|true)"')


def _hidden(xml: bytes) -> frozenset[int]:
    """Sheet rows that are hidden, by a filter as a rule."""
    if b"hidden" not in xml:
        return frozenset()
    hidden, number = set(), 0
    for row in _ROW.finditer(xml):
        given = _ROW_NUMBER.search(row[1])
        number = int(given[1]) if given else number + 1
        if _HIDDEN.search(row[1]):
            hidden.add(number)
    return frozenset(hidden)


def _formulas(rows: Iterable[Row]) -> Iterator[tuple[tuple[int, int], str]]:
    for row in rows:
        for index, cell in enumerate(row):
            if cell.data_type == "f":
                text = (
                    cell.value if isinstance(cell.value, str) else getattr(cell.value, "text", "")
                )
                yield (cell.row, index), text or "="
