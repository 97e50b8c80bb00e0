"""Editing the workbook part, its relationships and the content types: additions, and our own."""

import re
from collections.abc import Collection, Mapping
from typing import Final

from sheetcalc.excel.grafting.parts import relative
from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.book import ORDER, Book, Sheet
from sheetcalc.excel.opc.package import CONTENT_TYPES_PART, key_of, rels_key
from sheetcalc.excel.opc.xml_tools import Element

HIGHEST_SHEET_ID: Final = 65534
WORKSHEET_TYPE: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
_POINTING: Final = frozenset({xml.RELATIONS, xml.STRICT_RELATIONS})
STYLES_TYPE: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"


class WorkbookEditor:
    """Edits the workbook part and its relationships part."""

    def __init__(self, book: Book, part_name: str) -> None:
        self.book = book
        self.part_name = part_name
        key = rels_key(book.package.workbook)
        self.rels_key = key
        self.rels = xml.parse_as(
            book.package.read(key), key, "Relationships", [xml.PACKAGE_RELATIONS]
        )
        ids = {e.get("Id") or "" for e in self.rels if isinstance(e.tag, str)}
        # an id that the workbook uses without a relationship must not come to mean ours
        for element in book.root.iter():
            spaces = (str(name).partition("}")[0][1:] for name in element.attrib)
            if any(space in _POINTING for space in spaces):
                ids |= {str(value) for value in element.attrib.values()}
        numbers = (int(m[1]) for i in ids if (m := re.fullmatch(r"rId(\d{1,9})", i)))
        self._highest_id = max(numbers, default=0)

    # -- relationships -----------------------------------------------------------------------

    def relate(self, kind: str, target: str) -> str:
        """Add a relationship from the workbook to a part; returns its id."""
        self._highest_id += 1
        new = f"rId{self._highest_id}"
        full = f"{self.book.relations_space}/{kind}"
        place = relative(self.part_name, target)
        xml.append(self.rels, "Relationship", (("Id", new), ("Type", full), ("Target", place)))
        return new

    def unrelate(self, target: str) -> None:
        """Remove the relationships that point at a part."""
        gone = {r.id for r in self.book.relationships if r.target == target}
        for element in list(self.rels):
            if element.get("Id") in gone:
                self.rels.remove(element)

    # -- sheets ------------------------------------------------------------------------------

    def add_sheet(self, name: str, part: str) -> Sheet:
        """Add a tab at the end."""
        used = {s.sheet_id for s in self.book.sheets}
        number = max(used) + 1
        if number > HIGHEST_SHEET_ID:
            number = next(n for n in range(1, HIGHEST_SHEET_ID) if n not in used)
        rel_id = self.relate("worksheet", part)
        group = xml.child_in_order(self.book.root, "sheets", ORDER)
        element = xml.append(group, "sheet", (("name", name), ("sheetId", str(number))))
        element.set(f"{{{self.book.relations_space}}}id", rel_id)
        sheet = Sheet(element, name, number, rel_id, key_of(part), "worksheet", "visible")
        self.book.sheets.append(sheet)
        return sheet

    def remove_sheet(self, sheet: Sheet) -> None:
        """Remove a tab, and put every count of tabs right."""
        book = self.book
        place = book.sheets.index(sheet)
        self._names_without(sheet, place)
        for view in self._views():
            for counter in ("activeTab", "firstSheet"):
                if (value := view.get(counter)) is not None:
                    number = xml.whole(value)
                    last = len(book.sheets) - 2
                    number = number - 1 if number > place else min(number, last)
                    view.set(counter, str(max(0, number)))
        parent = sheet.element.getparent()
        if parent is not None:
            parent.remove(sheet.element)
        book.sheets.remove(sheet)
        self._mend_active()
        for view in book.root.iter(f"{{{book.space}}}customWorkbookView"):
            if xml.whole(view.get("activeSheetId")) == sheet.sheet_id:
                view.set("activeSheetId", str(book.sheets[0].sheet_id))
        self.unrelate(sheet.part)

    def _names_without(self, sheet: Sheet, place: int) -> None:
        """Put the names right for a tab that goes: its own go, what pointed at it is #REF!."""
        gone = {sheet.name.lower(): formula_text.GONE}
        for element in self.book.defined_names():
            scope = xml.whole(element.get("localSheetId"), -1)
            if scope == place:
                self._drop(element)
                continue
            if scope > place:
                element.set("localSheetId", str(scope - 1))
            if element.text:
                element.text = formula_text.rename(element.text, sheets=gone, names={})

    def _views(self) -> list[Element]:
        group = xml.child(self.book.root, "bookViews")
        return [] if group is None else xml.children(group, "workbookView")

    def _mend_active(self) -> None:
        """See to it that the tab in front is one that is shown."""
        shown = [n for n, s in enumerate(self.book.sheets) if s.state == "visible"]
        for view in self._views():
            active = xml.whole(view.get("activeTab"))
            if shown and active not in shown and view.get("activeTab") is not None:
                nearest = min(shown, key=lambda n: (abs(n - active), n))
                view.set("activeTab", str(nearest))

    # -- names -------------------------------------------------------------------------------

    @staticmethod
    def _drop(element: Element) -> None:
        parent = element.getparent()
        if parent is not None:
            parent.remove(element)

    def drop_names(self, names: Collection[str]) -> None:
        """Remove workbook-scope names."""
        gone = {n.lower() for n in names}
        for element in self.book.defined_names():
            scope, name = element.get("localSheetId"), (element.get("name") or "").lower()
            if scope is None and name in gone:
                self._drop(element)

    def drop_built_in(self, sheet: Sheet) -> None:
        """Remove print titles, print area and filter of one of our tabs: they are made anew."""
        place = self.book.sheets.index(sheet)
        for element in self.book.defined_names():
            local = xml.whole(element.get("localSheetId"), -1) == place
            if local and (element.get("name") or "").lower().startswith("_xlnm."):
                self._drop(element)

    def add_name(self, name: str, text: str, attributes: Mapping[str, str]) -> None:
        """Add a defined name."""
        group = xml.child_in_order(self.book.root, "definedNames", ORDER)
        element = xml.append(group, "definedName", (("name", name), *attributes.items()))
        element.text = text

    def finish(self) -> None:
        """Tidy up: an empty list of names is not allowed; everything is calculated on opening."""
        group = xml.child(self.book.root, "definedNames")
        if group is not None and not len(group):
            self.book.root.remove(group)

    def calculate_on_load(self) -> None:
        """Ask the program that opens the file to calculate everything."""
        xml.child_in_order(self.book.root, "calcPr", ORDER).set("fullCalcOnLoad", "1")


class ContentTypesEditor:
    """Edits [Content_Types].xml."""

    def __init__(self, content: bytes) -> None:
        self.root = xml.parse_as(content, CONTENT_TYPES_PART, "Types", [xml.CONTENT_TYPES])

    def drop(self, keys: Collection[str]) -> None:
        """Remove the overrides of parts that are gone."""
        for element in list(self.root):
            if xml.local(element) == "Override" and key_of(element.get("PartName") or "") in keys:
                self.root.remove(element)

    def add(self, name: str, kind: str) -> None:
        """Say what a new part is."""
        extension = name.rpartition(".")[2].lower()
        if kind.startswith("image/") or extension == "rels":
            defaults = {
                (e.get("Extension") or "").lower(): (e.get("ContentType") or "").lower()
                for e in xml.children(self.root, "Default")
            }
            if defaults.get(extension) == kind:
                return
            if extension not in defaults:
                element = xml.make(
                    self.root, "Default", (("Extension", extension), ("ContentType", kind))
                )
                self.root.insert(0, element)
                return
        xml.append(self.root, "Override", (("PartName", "/" + name), ("ContentType", kind)))
