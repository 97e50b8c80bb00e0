"""The workbook part: its sheets, its defined names, where they are and what they are called."""

import re
from collections.abc import Iterable
from typing import Final

from msgspec import Struct

from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.package import Package, Relationship
from sheetcalc.excel.opc.xml_tools import Element

ORDER: Final = (
    "fileVersion",
    "fileSharing",
    "workbookPr",
    "workbookProtection",
    "bookViews",
    "sheets",
    "functionGroups",
    "externalReferences",
    "definedNames",
    "calcPr",
    "oleSize",
    "customWorkbookViews",
    "pivotCaches",
    "smartTagPr",
    "smartTagTypes",
    "webPublishing",
    "fileRecoveryPr",
    "webPublishObjects",
    "extLst",
)
INPUT_NAME: Final = "sheetcalc_in_"
"""Start of the defined names that point at input tabs of ours."""
TABLE_TYPE: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"


class Sheet(Struct):
    """One tab, of any kind (worksheet, chart sheet, dialog sheet, macro sheet)."""

    element: Element
    name: str
    sheet_id: int
    rel_id: str
    part: str
    kind: str
    state: str


class TableName(Struct, frozen=True):
    """A table of the book: its part, its id, its name."""

    part: str
    number: int
    name: str


class Book:
    """The workbook part of a package, parsed."""

    def __init__(self, package: Package) -> None:
        self.package = package
        self.root = xml.parse(package.read(package.workbook), package.workbook)
        self.space = xml.space_of(self.root)
        if self.space not in (xml.MAIN, xml.STRICT_MAIN) or xml.local(self.root) != "workbook":
            raise Refused(Code.XML_BROKEN, {"part": package.workbook, "why": "it is no workbook"})
        self.strict = self.space == xml.STRICT_MAIN
        self.relations_space = xml.STRICT_RELATIONS if self.strict else xml.RELATIONS
        self.relationships = package.relationships(package.workbook)
        self.sheets = self._read_sheets()
        self._read_tables: dict[str, TableName] = {}

    def _read_sheets(self) -> list[Sheet]:
        by_id = {r.id: r for r in self.relationships}
        group = xml.child(self.root, "sheets")
        found: list[Sheet] = []
        for element in [] if group is None else xml.children(group, "sheet"):
            rel_id = self._rel_id(element)
            relation: Relationship | None = by_id.get(rel_id)
            found.append(
                Sheet(
                    element,
                    element.get("name") or "",
                    xml.whole(element.get("sheetId")),
                    rel_id,
                    relation.target if relation else "",
                    relation.type if relation else "",
                    element.get("state") or "visible",
                )
            )
        if not found:
            raise Refused(Code.NOT_A_WORKBOOK, {"why": "it has no sheets"})
        return found

    @staticmethod
    def _rel_id(element: Element) -> str:
        for space in (xml.RELATIONS, xml.STRICT_RELATIONS):
            value = element.get(f"{{{space}}}id")
            if value is not None:
                return value
        return ""

    # -- settings ----------------------------------------------------------------------------

    @property
    def date_1904(self) -> bool:
        """Dates count from 1904."""
        settings = xml.child(self.root, "workbookPr")
        return settings is not None and xml.is_true(settings.get("date1904"))

    @property
    def structure_locked(self) -> bool:
        """Its owner has locked which tabs it has."""
        lock = xml.child(self.root, "workbookProtection")
        return lock is not None and xml.is_true(lock.get("lockStructure"))

    def part_of(self, kind: str) -> str:
        """Key of a part that the workbook points at by a type of relationship; "" for none."""
        found = self.package.related(self.package.workbook, kind)
        return found[0] if found else ""

    # -- names -------------------------------------------------------------------------------

    def defined_names(self) -> list[Element]:
        """Elements of all defined names, of every scope."""
        group = xml.child(self.root, "definedNames")
        return [] if group is None else xml.children(group, "definedName")

    def sheet_named(self, name: str) -> Sheet | None:
        """Find the sheet of a name, without case."""
        wanted = name.casefold()
        return next((s for s in self.sheets if s.name.casefold() == wanted), None)

    def tables(self) -> list[TableName]:
        """Every table of the book."""
        return self._tables(self.package.parts)

    def tables_of(self, part: str) -> list[TableName]:
        """Find the tables of a sheet, in the order that it points at them."""
        return self._tables(self.package.related(part, "table"))

    def _tables(self, parts: Iterable[str]) -> list[TableName]:
        return [self._table(k) for k in parts if self.package.content_type(k) == TABLE_TYPE]

    def _table(self, key: str) -> TableName:
        if key not in self._read_tables:
            root = xml.parse(self.package.read(key), key)
            name = root.get("displayName") or root.get("name") or ""
            self._read_tables[key] = TableName(key, xml.whole(root.get("id")), name)
        return self._read_tables[key]


_PLACE = re.compile(r"\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})")


def single_cell(reference: str) -> tuple[str, int, int] | None:
    """Sheet name, row and column of a reference to one cell; None for anything else.

    >>> single_cell("'Bob''s tab'!$A$3")
    ("Bob's tab", 3, 1)
    """
    sheet, mark, cell = reference.strip().rpartition("!")
    match = _PLACE.fullmatch(cell)
    if not mark or match is None:
        return None
    name = sheet[1:-1].replace("''", "'") if sheet.startswith("'") else sheet
    return name, int(match[2]), formula_text.column_number(match[1])
