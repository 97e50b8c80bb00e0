"""Values typed into a user's cells: only those cells of those sheet parts change.

For a price list written into the catalogue tabs.  A cell that holds a formula is never written;
formats stay; a cell that was not there gets the format of the one above it.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.excel.grafting.graft import Graft
from sheetcalc.excel.grafting.slots import GraftReport
from sheetcalc.excel.opc import guards
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.book import ORDER, Book
from sheetcalc.excel.opc.errors import Code, SaveFailed
from sheetcalc.excel.opc.formula_text import column_number
from sheetcalc.excel.opc.package import Package
from sheetcalc.excel.opc.placing import cells_of, row_number
from sheetcalc.excel.opc.xml_tools import Element
from sheetcalc.excel.saving import safe_save
from sheetcalc.excel.saving.safe_save import Fingerprint, SaveReport

CellContent: TypeAlias = str | int | float | date

_ADDRESS: Final = re.compile(r"([A-Z]{1,3})([1-9][0-9]{0,6})")
_UNWRITABLE: Final = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_EPOCH: Final = date(1899, 12, 30)
_DAYS_TO_1904: Final = 1462


class CellEdit(Struct, frozen=True):
    """One cell and what it is to hold.

    Attributes
    ----------
    sheet
        Name of the sheet.
    cell
        Address, such as ``F12``.
    value
        Text is written as text, whatever it begins with.
    empty
        The cell must be empty, or nothing at all is written.
    """

    sheet: str
    cell: str
    value: CellContent
    empty: bool = False


def edit_cells(
    path: Path, edits: Sequence[CellEdit], *, expected: Fingerprint, backups_kept: int = 10
) -> SaveReport:
    """Write values into cells of a workbook, safely.

    The workbook is asked to be calculated anew when it is opened, because formulas that look at
    the cells keep their old values in the file.

    Parameters
    ----------
    path
        The user's book.
    edits
        Cells of its worksheets.
    expected
        Fingerprint of the book when it was read.
    backups_kept
        How many dated copies stay.

    Raises
    ------
    Refused, SaveFailed, InUse
        The book is as it was.
    """
    guards.inspect(path)
    with _prepared(path, edits) as plan:
        return safe_save.replace(
            path, plan.write, expected=expected, backups_kept=backups_kept, verify=plan.verify
        )


def _prepared(path: Path, edits: Sequence[CellEdit]) -> Graft:
    package = Package.open(path)
    try:
        parts = _parts(Book(package), edits, path.name)
    except BaseException:
        package.close()
        raise
    return Graft(package, parts, (), {}, GraftReport())


def _parts(book: Book, edits: Sequence[CellEdit], file: str) -> dict[str, bytes]:
    """Edited parts by their keys."""
    package = book.package
    if package.signed:
        raise SaveFailed(Code.SAVE_FAILED, {"file": file, "why": "it is signed"})
    by_sheet: dict[str, list[CellEdit]] = defaultdict(list)
    for edit in edits:
        by_sheet[edit.sheet].append(edit)
    parts: dict[str, bytes] = {}
    for name, mine in by_sheet.items():
        sheet = book.sheet_named(name)
        if sheet is None or sheet.kind != "worksheet":
            raise SaveFailed(Code.SAVE_FAILED, {"file": file, "why": f"it has no tab {name}"})
        content = package.read(sheet.part)
        parts[sheet.part] = edited(content, mine, sheet.part, date_1904=book.date_1904)
    if parts:
        xml.child_in_order(book.root, "calcPr", ORDER).set("fullCalcOnLoad", "1")
        parts[package.workbook] = xml.write(book.root)
    return parts


def edited(
    content: bytes, edits: Iterable[CellEdit], part: str, *, date_1904: bool = False
) -> bytes:
    """Sheet part with other values in some of its cells.

    Parameters
    ----------
    content
        The part.
    edits
        Cells of this sheet.
    part
        Its name, for messages.
    date_1904
        Dates count from 1904.

    Raises
    ------
    SaveFailed
        Where a cell holds a formula, or should be empty and is not.
    """
    root = xml.parse(content, part)
    data = xml.child(root, "sheetData")
    if data is None:
        raise SaveFailed(Code.SAVE_FAILED, {"file": part, "why": "the tab has no cells"})
    rows = _Rows(data)
    for edit in edits:
        _edit(rows, edit, part, date_1904=date_1904)
    return xml.write(root)


class _Rows:
    """Rows of a sheet by number, in whatever order they and their cells are stored."""

    def __init__(self, data: Element) -> None:
        self._data = data
        self._rows: dict[int, list[Element]] = {}
        number = 0
        for row in xml.children(data, "row"):
            number = row_number(row, number)
            self._rows.setdefault(number, []).append(row)

    def cell(self, letters: str, number: int) -> Element:
        """Find a cell, made at its place where it is not there."""
        if number not in self._rows:
            self._new_row(number)
        wanted, before = column_number(letters), None
        for cell, column in self._cells(number):
            if column == wanted:
                return cell
            if column < wanted:
                before = cell
        row = self._rows[number][0]
        cell = xml.make(row, "c", (("r", f"{letters}{number}"),))
        style = self._style_above(wanted, number)
        if style:
            cell.set("s", style)
        if before is None:
            row.insert(0, cell)
        else:
            before.addnext(cell)
        return cell

    def _cells(self, number: int) -> Iterator[tuple[Element, int]]:
        """Yield the cells of the rows with a number, each with its column."""
        for row in self._rows.get(number, ()):
            yield from cells_of(row, number)

    def _new_row(self, number: int) -> None:
        row = xml.make(self._data, "row", (("r", str(number)),))
        before = [n for n in self._rows if n < number]
        if before:
            last = self._rows[max(before)][-1]
            last.addnext(row)
        else:
            self._data.insert(0, row)
        self._rows[number] = [row]

    def _style_above(self, wanted: int, number: int) -> str:
        above = self._cells(number - 1)
        return next((cell.get("s") or "" for cell, column in above if column == wanted), "")


def _edit(rows: _Rows, edit: CellEdit, part: str, *, date_1904: bool) -> None:
    match = _ADDRESS.fullmatch(edit.cell)
    if match is None:
        raise SaveFailed(Code.SAVE_FAILED, {"file": part, "why": f"{edit.cell} is no cell"})
    cell = rows.cell(match[1], int(match[2]))
    if xml.child(cell, "f") is not None:
        raise SaveFailed(Code.SAVE_FAILED, {"file": part, "why": f"{edit.cell} holds a formula"})
    held = xml.child(cell, "v") is not None or xml.child(cell, "is") is not None
    if edit.empty and held:
        raise SaveFailed(Code.SAVE_FAILED, {"file": part, "why": f"{edit.cell} is not empty"})
    for name in ("v", "is"):
        for old in xml.children(cell, name):
            cell.remove(old)
    if "t" in cell.attrib:
        del cell.attrib["t"]
    _fill(cell, edit.value, date_1904=date_1904)


def _fill(cell: Element, value: CellContent, *, date_1904: bool) -> None:
    """Put the value in; children of a cell stand in the order v, is, extLst."""
    if isinstance(value, str):
        cell.set("t", "inlineStr")
        inside = xml.make(cell, "is")
        text = xml.append(inside, "t")
        value = _UNWRITABLE.sub("", value).replace("_x", "_x005F_x")
        text.text = value
        if value != value.strip():
            text.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
        cell.insert(0, inside)
        return
    if isinstance(value, date):
        value = (value - _EPOCH).days - (_DAYS_TO_1904 if date_1904 else 0)
    number = xml.make(cell, "v")
    number.text = repr(value)
    cell.insert(0, number)
