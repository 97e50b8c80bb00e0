"""An edited result tab, made into a tab of the user's own."""

from msgspec import Struct, field

from sheetcalc.excel.grafting.parts import FreeNames, rels_name, rels_part
from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.book import TABLE_TYPE, Book
from sheetcalc.excel.opc.package import Relationship
from sheetcalc.excel.tabs.names import unique_name
from sheetcalc.excel.tabs.own_tabs import KEPT_MARK, OwnTab


class KeptTab(Struct):
    """Parts of the kept tab: its sheet under a new part name, its tables under new names."""

    part: str
    content: bytes
    relations_part: str = ""
    relations: bytes = b""
    tables: dict[str, bytes] = field(default_factory=dict)
    table_names: dict[str, str] = field(default_factory=dict)


def keep_edited(book: Book, own: OwnTab, free: FreeNames) -> KeptTab:
    """Move the content of an edited tab to a sheet part of its own.

    Its tables give up their names, which formulas elsewhere mean the live tab by, and the
    formulas of the kept tab follow.
    """
    package = book.package
    kept = KeptTab(free.next("worksheets", "sheet", ".xml"), b"")
    taken = {t.name.casefold() for t in book.tables()}
    taken |= {(e.get("name") or "").casefold() for e in book.defined_names()}
    renamed: dict[str, str] = {}
    roots: list[tuple[str, xml.Element]] = []
    for key in package.related(own.part, "table"):
        if package.content_type(key) != TABLE_TYPE:
            continue
        root = xml.parse(package.read(key), key)
        old = root.get("displayName") or root.get("name") or ""
        new = unique_name(f"{old}_edited", taken)
        taken.add(new.casefold())
        renamed[old.lower()] = new
        root.set("name", new)
        root.set("displayName", new)
        roots.append((key, root))
        kept.table_names[key] = new
    for key, root in roots:
        _rename(root, ("calculatedColumnFormula", "totalsRowFormula"), renamed)
        kept.tables[key] = xml.write(root)
    root = xml.parse(package.read(own.part), own.part)
    _rename(root, ("f", "formula", "formula1", "formula2"), renamed)
    _unsign(root, own)
    for view in root.iter():
        if xml.local(view) == "sheetView":
            view.attrib.pop("tabSelected", "")
    kept.content = xml.write(root)
    items = [
        (r.id, r.full_type, r.raw_target if r.external else _absolute(book, r), r.external)
        for r in package.relationships(own.part)
        if r.external or r.target in package.parts
    ]
    if items:
        kept.relations_part = rels_name(kept.part)
        kept.relations = rels_part(items)
    return kept


def _unsign(root: xml.Element, own: OwnTab) -> None:
    """Say in place of the signature what the tab is now, or it would look like a result tab."""
    for cell in root.iter(f"{{{xml.space_of(root)}}}c"):
        if cell.get("r") == own.anchor:
            for inner in list(cell):
                cell.remove(inner)
            cell.set("t", "inlineStr")
            text = xml.append(xml.append(cell, "is"), "t")
            text.text = f"{KEPT_MARK} · {own.key}"
            return


def _absolute(book: Book, relation: Relationship) -> str:
    name = book.package.parts[relation.target].name.replace("\\", "/").lstrip("/")
    return "/" + name


def _rename(root: xml.Element, tags: tuple[str, ...], names: dict[str, str]) -> None:
    for element in root.iter():
        if element.text and xml.local(element) in tags:
            element.text = formula_text.rename(element.text, sheets={}, names=names)
