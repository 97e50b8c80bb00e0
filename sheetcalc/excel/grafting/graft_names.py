"""Names of the sheets, tables and defined names of a graft, none of them taken in the book."""

import itertools
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct, field

from sheetcalc.excel.grafting.sheets import Renaming
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.book import TABLE_TYPE, Book, Sheet
from sheetcalc.excel.tabs.names import unique_name, unique_sheet_name
from sheetcalc.excel.tabs.own_tabs import OwnTab
from sheetcalc.excel.tabs.tab_content import bare_header

_HIGH_NUMBER: Final = 1 << 30


class NamePlan(Struct):
    """What everything of the fresh workbook is called in the book.

    Attributes
    ----------
    sheets, tables
        Fresh name in lower case -> name in the book.
    table_report
        Fresh table name -> name in the book.
    table_numbers
        Ids for new tables, none of them taken.
    new_names
        Workbook-scope names to add: name and text.
    renaming
        Of formulas, only what had to change.
    """

    sheets: dict[str, str] = field(default_factory=dict)
    tables: dict[str, str] = field(default_factory=dict)
    table_report: dict[str, str] = field(default_factory=dict)
    table_numbers: Iterator[int] = field(default_factory=lambda: itertools.count(1))
    new_names: list[tuple[str, str]] = field(default_factory=list)
    renaming: Renaming = field(default_factory=lambda: Renaming({}, {}))
    _local: dict[str, list[tuple[str, str, dict[str, str]]]] = field(default_factory=dict)

    def local_names(self, fresh: Sheet) -> list[tuple[str, str, dict[str, str]]]:
        """Names of the scope of one fresh sheet: name, text, other attributes."""
        return self._local.get(fresh.name, [])


def tables_with_headers(book: Book) -> list[tuple[Sheet, str, frozenset[str]]]:
    """Sheet, casefolded name and bare headers of every table of a book."""
    found: list[tuple[Sheet, str, frozenset[str]]] = []
    for sheet in book.sheets:
        for key in book.package.related(sheet.part, "table") if sheet.part else ():
            if book.package.content_type(key) != TABLE_TYPE:
                continue
            root = xml.parse(book.package.read(key), key)
            heads = frozenset(
                bare_header(e.get("name") or "")
                for e in root.iter()
                if xml.local(e) == "tableColumn"
            )
            name = root.get("displayName") or root.get("name") or ""
            found.append((sheet, name.casefold(), heads))
    return found


def plan_names(
    book: Book,
    fresh: Book,
    slots: Sequence[tuple[Sheet, OwnTab | None]],
    removed: Collection[str],
    renamed: Mapping[str, str],
) -> NamePlan:
    """Choose names.

    Parameters
    ----------
    book, fresh
        The user's book and ours.
    slots
        Each fresh sheet, and the tab of the book that it replaces.
    removed
        Keys of parts of the book that go: their tables' names are free.
    renamed
        Part -> new name of the tables of edited tabs that are kept.
    """
    plan = NamePlan()
    _sheets(book, slots, plan)
    there = [t for t in book.tables() if t.part not in removed]
    numbers = {t.number for t in there}
    # after the highest, as programs do; a table of another maker may have the highest there is
    start = max((n for n in numbers if n < _HIGH_NUMBER), default=0) + 1
    plan.table_numbers = (n for n in itertools.count(start) if n not in numbers)
    taken = {renamed.get(t.part, t.name).casefold() for t in there}
    _tables(book, fresh, slots, taken, plan)
    _defined(book, fresh, plan)
    return plan


def _sheets(book: Book, slots: Sequence[tuple[Sheet, OwnTab | None]], plan: NamePlan) -> None:
    taken = {s.name.casefold() for s in book.sheets}
    for sheet, own in slots:
        if own is not None:
            plan.sheets[sheet.name.lower()] = own.sheet_name
    for sheet, own in slots:
        if own is None:
            name = unique_sheet_name(sheet.name, taken)
            taken.add(name.casefold())
            plan.sheets[sheet.name.lower()] = name


def _tables(
    book: Book,
    fresh: Book,
    slots: Sequence[tuple[Sheet, OwnTab | None]],
    taken: set[str],
    plan: NamePlan,
) -> None:
    taken |= {(e.get("name") or "").casefold() for e in book.defined_names()}
    pairs = [pair for sheet, own in slots for pair in _pairs(book, fresh, sheet, own)]
    waiting: list[str] = []
    for name, old in pairs:
        if old and old.casefold() not in taken:
            plan.tables[name.lower()] = old
            taken.add(old.casefold())
        else:
            waiting.append(name)
    for name in waiting:
        new = unique_name(name, taken)
        taken.add(new.casefold())
        plan.tables[name.lower()] = new
    plan.table_report = {name: plan.tables[name.lower()] for name, _ in pairs}


def _pairs(book: Book, fresh: Book, sheet: Sheet, own: OwnTab | None) -> list[tuple[str, str]]:
    """Tables of a fresh sheet, each with the name of the one that it replaces, or ""."""
    names = [table.name for table in fresh.tables_of(sheet.part)]
    old = [] if own is None else [table.name for table in book.tables_of(own.part)]
    return list(itertools.zip_longest(names, old[: len(names)], fillvalue=""))


def _defined(book: Book, fresh: Book, plan: NamePlan) -> None:
    sheets = {
        s.name.lower(): plan.sheets[s.name.lower()]
        for s in fresh.sheets
        if plan.sheets[s.name.lower()] != s.name
    }
    tables = {old: new for old, new in plan.tables.items() if old != new.lower()}
    # the text of a name is put into the book's terms before it is compared with what is there
    renaming = Renaming(sheets, dict(tables))
    there = {
        (e.get("name") or "").casefold(): e.text or ""
        for e in book.defined_names()
        if e.get("localSheetId") is None
    }
    taken = set(there) | {n.casefold() for n in plan.tables.values()}
    taken |= {t.name.casefold() for t in book.tables()}
    names = dict(tables)
    for element in fresh.defined_names():
        name, text = element.get("name") or "", renaming(element.text or "")
        scope = element.get("localSheetId")
        if scope is not None:
            sheet = fresh.sheets[xml.whole(scope)].name
            attributes = {
                str(k): str(v)
                for k, v in element.attrib.items()
                if k not in ("name", "localSheetId")
            }
            plan._local.setdefault(sheet, []).append((name, text, attributes))  # noqa: SLF001 - its own maker
            continue
        new, number = name, 1
        while new.casefold() in taken and there.get(new.casefold()) != text:
            number += 1
            new = f"{name}_{number}"
        if new != name:
            names[name.lower()] = new
        if new.casefold() not in taken:
            plan.new_names.append((new, text))
            taken.add(new.casefold())
    plan.renaming = Renaming(sheets, names)
