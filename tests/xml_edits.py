"""Edits of a workbook as a person makes them, part by part: nothing else of the file changes.

openpyxl's saving would empty the stored values of every formula; here a cell is typed into and
all others stay, as in a spreadsheet program.
"""

import io
import re
import zipfile
from pathlib import Path
from typing import Self

from lxml import etree

from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc.book import Book
from sheetcalc.excel.opc.package import Package

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
Value = str | float | bool | None


class Edits:
    """A workbook while it is edited; written where the block ends."""

    def __init__(self, path: Path) -> None:
        self.path = path
        with zipfile.ZipFile(path) as package:
            self.parts = {name: package.read(name) for name in package.namelist()}
        book = Book(Package(io.BytesIO(path.read_bytes())))
        names = {"/" + name.lower(): name for name in self.parts}
        self.part_of = {sheet.name: names[sheet.part] for sheet in book.sheets}
        self.workbook = names[book.package.workbook]
        self._roots: dict[str, etree._Element] = {}

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: object, *_: object) -> None:
        if kind is None:
            for sheet, root in self._roots.items():
                self.parts[self.part_of[sheet]] = etree.tostring(
                    root, encoding="UTF-8", xml_declaration=True, standalone=True
                )
            with zipfile.ZipFile(self.path, "w", zipfile.ZIP_DEFLATED) as package:
                for name, content in self.parts.items():
                    package.writestr(name, content)

    def root(self, sheet: str) -> etree._Element:
        """The sheet's part, taken apart once; what is changed in it is written with the others."""
        if sheet not in self._roots:
            self._roots[sheet] = etree.fromstring(self.parts[self.part_of[sheet]])
        return self._roots[sheet]

    def type(self, sheet: str, address: str, value: Value, formula: str = "") -> None:
        """Type into a cell; None empties it."""
        set_value(cell_at(self.root(sheet), address), value, formula)

    def turn_over(self, sheet: str, first: int, last: int) -> None:
        """Sort rows the other way round, as a person may: what stands in them changes places."""
        root = self.root(sheet)
        data = root.find(f"{{{MAIN}}}sheetData")
        assert data is not None
        rows = {int(row.get("r") or 0): row for row in data}
        for number, row in rows.items():
            if first <= number <= last:
                new = first + last - number
                row.set("r", str(new))
                for cell in row:
                    cell.set("r", re.sub(r"\d+", str(new), cell.get("r") or ""))
        data[:] = sorted(data, key=lambda row: int(row.get("r") or 0))

    def rename(self, sheet: str, name: str) -> None:
        """Rename a tab; names and formulas follow, as in a spreadsheet program."""
        book = etree.fromstring(self.parts[self.workbook])
        for element in book.iter(f"{{{MAIN}}}sheet"):
            if element.get("name") == sheet:
                element.set("name", name)
        follow = {"sheets": {sheet.lower(): name}, "names": {}}
        for element in book.iter(f"{{{MAIN}}}definedName"):
            element.text = formula_text.rename(element.text or "", **follow)
        self.parts[self.workbook] = etree.tostring(book, encoding="UTF-8", xml_declaration=True)
        self.part_of[name] = self.part_of.pop(sheet)
        if sheet in self._roots:
            self._roots[name] = self._roots.pop(sheet)
        for other in self.part_of:
            root = self.root(other)
            for element in root.iter(f"{{{MAIN}}}f", f"{{{MAIN}}}formula", f"{{{MAIN}}}formula1"):
                element.text = formula_text.rename(element.text or "", **follow) or None
            for element in root.iter(f"{{{MAIN}}}hyperlink"):
                if place := element.get("location"):
                    element.set("location", formula_text.rename(place, **follow))

    def move(self, sheet: str, place: int) -> None:
        """Move a tab; what counts tabs follows."""
        book = etree.fromstring(self.parts[self.workbook])
        group = book.find(f"{{{MAIN}}}sheets")
        assert group is not None
        before = [element.get("name") for element in group]
        moved = group[before.index(sheet)]
        group.remove(moved)
        group.insert(place, moved)
        after = [element.get("name") for element in group]
        for element in book.iter(f"{{{MAIN}}}definedName"):
            if (scope := element.get("localSheetId")) is not None:
                element.set("localSheetId", str(after.index(before[int(scope)])))
        self.parts[self.workbook] = etree.tostring(book, encoding="UTF-8", xml_declaration=True)


def set_value(cell: etree._Element, value: Value, formula: str = "") -> None:
    """Put a value, or a formula with its value, into a cell; None empties it."""
    for inner in list(cell):
        cell.remove(inner)
    cell.attrib.pop("t", None)
    if formula:
        etree.SubElement(cell, f"{{{MAIN}}}f").text = formula
    if isinstance(value, bool):
        cell.set("t", "b")
        etree.SubElement(cell, f"{{{MAIN}}}v").text = str(int(value))
    elif isinstance(value, str) and not formula:
        cell.set("t", "inlineStr")
        text = etree.SubElement(etree.SubElement(cell, f"{{{MAIN}}}is"), f"{{{MAIN}}}t")
        text.text = value
    elif isinstance(value, str):
        cell.set("t", "str")
        etree.SubElement(cell, f"{{{MAIN}}}v").text = value
    elif value is not None:
        etree.SubElement(cell, f"{{{MAIN}}}v").text = repr(value)


def cell_at(root: etree._Element, address: str) -> etree._Element:
    """The cell of an address, made where it is not there."""
    data = root.find(f"{{{MAIN}}}sheetData")
    assert data is not None
    letters, digits = re.fullmatch(r"([A-Z]+)(\d+)", address).groups()  # type: ignore[union-attr]
    row = next((r for r in data if r.get("r") == digits), None)
    if row is None:
        after = [r for r in data if int(r.get("r") or 0) < int(digits)]
        row = etree.Element(f"{{{MAIN}}}row", r=digits)
        data.insert(len(after), row)
    for cell in row:
        if cell.get("r") == address:
            return cell
    column = formula_text.column_number(letters)
    before = [
        c for c in row if formula_text.column_number(re.sub(r"\d", "", c.get("r") or "")) < column
    ]
    cell = etree.Element(f"{{{MAIN}}}c", r=address)
    row.insert(len(before), cell)
    return cell
