"""Working out a graft: which tab goes where, under which name, with which parts.

Nothing is written here; the plan yields edited parts, parts to leave out and parts to add.
"""

import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.spread import Spread, alone
from sheetcalc.excel.generating.cell_text import BookTerms
from sheetcalc.excel.generating.elsewhere import CellsElsewhere, Elsewhere, Filled, Wanted
from sheetcalc.excel.generating.fresh_book import FreshBook
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.grafting.filling import fill
from sheetcalc.excel.grafting.graft_names import NamePlan, plan_names
from sheetcalc.excel.grafting.kept import keep_edited
from sheetcalc.excel.grafting.parts import RELS_TYPE, FreeNames, NewParts, SheetCopier, left_behind
from sheetcalc.excel.grafting.sheets import DAYS_BETWEEN_EPOCHS, SheetTerms, shared_strings
from sheetcalc.excel.grafting.slots import (
    SIGNATURE_CELL,
    GraftReport,
    Placement,
    Slot,
    check_signature,
    make_slots,
    sign,
)
from sheetcalc.excel.grafting.styles import StyleMerger, theme_colours
from sheetcalc.excel.grafting.workbook_part import (
    STYLES_TYPE,
    WORKSHEET_TYPE,
    ContentTypesEditor,
    WorkbookEditor,
)
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.book import INPUT_NAME, Book, single_cell
from sheetcalc.excel.opc.formula_text import quote_sheet
from sheetcalc.excel.opc.package import CONTENT_TYPES_PART, Package
from sheetcalc.excel.opc.packing import Packed
from sheetcalc.excel.tabs.own_tabs import RESULT_NAME, FoundTabs, OwnTab, input_name

CELLS_WORTH_SHARING: Final = 100_000
"""Fewer cells are written sooner here than by processes that are started for them; measured."""


class _Waiting(Struct, frozen=True):
    """A sheet whose cells are still to be written."""

    part: str
    key: str
    cells: SheetCells | CellsElsewhere
    wanted: Wanted


class Plan:
    """One graft while it is worked out."""

    def __init__(
        self, book: Book, fresh: Book, slots: Sequence[Slot], retired: Sequence[OwnTab]
    ) -> None:
        self.book = book
        self.fresh = fresh
        self.cells: Mapping[str, SheetCells | CellsElsewhere] = {}
        self.elsewhere: Elsewhere | None = None
        self.formats: Mapping[str, int] = {}
        self.spread: Spread = alone
        self.slots = slots
        self.retired = retired
        self.report = GraftReport()
        if book.package.signed:
            self.report.copy_reason = "signed"
        elif book.structure_locked:
            self.report.copy_reason = "locked"
        package = book.package
        self.part_name = package.parts[package.workbook].name.replace("\\", "/").lstrip("/")
        folder, slash, _ = self.part_name.rpartition("/")
        self.folder = folder + slash
        self.editor = WorkbookEditor(book, self.part_name)
        self.types = ContentTypesEditor(package.read(CONTENT_TYPES_PART))
        self.edits: dict[str, bytes] = {}
        self.removed: set[str] = set()
        self.out = NewParts()
        self.kept_parts = NewParts()
        self.stale = self._stale_names()

    # -- the steps ---------------------------------------------------------------------------

    def parts(
        self,
    ) -> tuple[dict[str, bytes], set[str], dict[str, bytes | Packed], GraftReport]:
        """Edited parts, parts to leave out, parts to add, and the report."""
        live = [s for s in self.slots if not (s.placement.is_input and s.own)]
        self._leave_out(live)
        in_place = {s.own.part for s in live if s.own}
        there = set(self.book.package.parts) - self.removed
        taken = there | in_place | self.book.package.missing()
        self.free = FreeNames(taken, self.folder)
        self._keep_edited(live)
        names = plan_names(
            self.book,
            self.fresh,
            [(s.fresh, s.own) for s in self.slots],
            self.removed,
            self.kept_tables,
        )
        styles, styles_root = self._styles()
        terms = self._terms(names, styles)
        self._retire()
        contains_formulas = self._place_sheets(live, names, terms)
        self._write_names(live, names)
        if contains_formulas or self.retired or any(s.own for s in live):
            self._drop_calculation_chain()
        if contains_formulas:
            self.editor.calculate_on_load()
        self.editor.finish()
        self._finish_styles(styles, styles_root)
        self._finish_parts()
        report = self.report
        if report.copy_reason == "locked" and not (report.added or report.retired or report.kept):
            report.copy_reason = ""  # the lock is on which tabs there are, and they stay
        return (
            self.edits,
            self.removed,
            {**self.kept_parts.contents, **self.out.contents},
            self.report,
        )

    def _leave_out(self, live: Sequence[Slot]) -> None:
        """Parts of our own tabs that are made anew or retired; edited ones keep what they had."""
        package = self.book.package
        gone = [s.own for s in live if s.own] + list(self.retired)
        whole = [tab.part for tab in gone if not tab.edited]
        edited = [s.own for s in live if s.own and s.own.edited]
        self.removed = left_behind(package, whole) if whole else set()
        for tab in edited:
            self.removed.add(tab.part)
        for key in list(self.removed):
            rels = _rels_of(key)
            if rels in package.parts:
                self.removed.add(rels)

    def _keep_edited(self, live: Sequence[Slot]) -> None:
        """Content that a person changed stays, as a tab of theirs under a new name."""
        self.kept_tables: dict[str, str] = {}
        for slot in live:
            if slot.own is None or not slot.own.edited:
                continue
            kept = keep_edited(self.book, slot.own, self.free)
            self.kept_parts.add(kept.part, kept.content, WORKSHEET_TYPE)
            if kept.relations:
                self.kept_parts.add(kept.relations_part, kept.relations, RELS_TYPE)
            self.edits.update(kept.tables)
            self.kept_tables.update(kept.table_names)
            self.editor.add_sheet(slot.own.kept_as, kept.part)
            self.report.kept[slot.own.sheet_name] = slot.own.kept_as

    def _styles(self) -> tuple[StyleMerger, xml.Element]:
        fresh_package = self.fresh.package
        key = self.book.part_of("styles")
        if key:
            spaces = [xml.MAIN, xml.STRICT_MAIN]
            root = xml.parse_as(self.book.package.read(key), key, "styleSheet", spaces)
        else:
            space = self.book.space
            root = xml.parse(f'<styleSheet xmlns="{space}"/>'.encode(), "styles")
        theme = self.fresh.part_of("theme")
        colours = theme_colours(fresh_package.read(theme) if theme else None)
        self.colours = colours
        fresh_key = self.fresh.part_of("styles")
        fresh_root = xml.parse(fresh_package.read(fresh_key), fresh_key)
        return StyleMerger(root, fresh_root, colours), root

    def _terms(self, names: NamePlan, styles: StyleMerger) -> SheetTerms:
        strings = self.fresh.part_of("sharedStrings")
        texts = shared_strings(self.fresh.package.read(strings) if strings else None, self.colours)
        shift = DAYS_BETWEEN_EPOCHS * (int(self.fresh.date_1904) - int(self.book.date_1904))
        return SheetTerms(styles, texts, names.renaming, shift)

    def _retire(self) -> None:
        for tab in self.retired:
            self.editor.drop_names([tab.defined_name])
            if tab.edited:  # it stays, as theirs
                self.report.kept[tab.sheet_name] = tab.sheet_name
                continue
            sheet = next(s for s in self.book.sheets if s.part == tab.part)
            self.editor.remove_sheet(sheet)
            self.report.retired.append(tab.sheet_name)

    def _place_sheets(self, live: Sequence[Slot], names: NamePlan, terms: SheetTerms) -> bool:
        copier = SheetCopier(
            self.fresh.package,
            self.free,
            terms,
            self.book.strict,
            self.out,
            names.tables,
            names.table_numbers,
        )
        formulas = False
        waiting: list[_Waiting] = []
        for slot in self.slots:
            key = slot.placement.key
            if slot not in live and slot.own is not None:
                self.report.left.append(key)
                self.report.sheet_names[key] = slot.own.sheet_name
                continue
            name = names.sheets[slot.fresh.name.lower()]
            if slot.own is not None:
                member = self.book.package.parts[slot.own.part]
                part = member.name.replace("\\", "/").lstrip("/")
                self.report.replaced.append(key)
            else:
                part = self.free.next("worksheets", "sheet", ".xml")
                self.editor.add_sheet(name, part)
                self.report.added.append(key)
            self.report.sheet_names[key] = name
            # the sheet itself comes before what it points at
            self.out.add(part, b"", WORKSHEET_TYPE)
            cells = self.cells.get(slot.fresh.name)
            if cells is not None:
                names_here = self._book_terms(slot.placement, cells, terms)
                frame = copier.frame(slot.fresh.part, part)
                wanted = Wanted(
                    frame, names_here, slot.placement.typed, self.book.strict, cells.sheet.loose
                )
                waiting.append(_Waiting(part, key, cells, wanted))
                continue
            content = copier.sheet(slot.fresh.part, part)
            formulas = formulas or b"<f" in content
            self.out.contents[part] = (
                content if slot.placement.is_input else sign(content, slot.placement)
            )
        self.report.table_names = dict(names.table_report)
        return self._write_cells(waiting) or formulas

    def _write_cells(self, waiting: Sequence["_Waiting"]) -> bool:
        """Write the sheets whose cells come apart from their frames; tell whether any is live."""
        mine = [(sheet, sheet.cells) for sheet in waiting if isinstance(sheet.cells, SheetCells)]
        others = [sheet for sheet in waiting if isinstance(sheet.cells, CellsElsewhere)]
        if self.elsewhere and others:
            self.elsewhere.ask({sheet.key: sheet.wanted for sheet in others})
        # the longest first, so that whoever shares the work is done at about the same time
        mine.sort(key=lambda sheet: sheet[1].size(), reverse=True)

        def written(places: Sequence[int]) -> Iterator[Filled]:
            for sheet, cells in (mine[place] for place in places):
                yield fill(cells, sheet.wanted)

        total = sum(cells.size() for _, cells in mine)
        spread = self.spread if total >= CELLS_WORTH_SHARING else alone
        done = spread(written, range(len(mine)), in_memory=True)
        made = {sheet.part: filled for (sheet, _), filled in zip(mine, done, strict=True)}
        if self.elsewhere and others:
            filled = self.elsewhere.filled()
            made |= {sheet.part: filled[sheet.key] for sheet in others}
        self.out.contents |= {part: filled.content for part, filled in made.items()}
        return any(filled.is_live for filled in made.values())

    def _book_terms(
        self, placement: Placement, cells: SheetCells | CellsElsewhere, terms: SheetTerms
    ) -> BookTerms:
        """Find what the book calls the formats that the cells of a sheet use."""
        if not placement.is_input:
            check_signature(cells.sheet.signature, placement)
        styles = cells.styles()
        numbers = {key: self.formats[key] for key in styles}
        return BookTerms(
            {key: terms.styles.xf(number) for key, number in numbers.items()},
            {key for key, number in numbers.items() if terms.styles.is_date(number)},
            terms.renaming,
            terms.day_shift,
        )

    def _write_names(self, live: Sequence[Slot], names: NamePlan) -> None:
        editor = self.editor
        known = {s.own.defined_name for s in live if s.own}
        editor.drop_names(known)
        editor.drop_names(self.stale)
        used = {(e.get("name") or "").lower() for e in self.book.defined_names()}
        for name, text in names.new_names:
            editor.add_name(name, text, {})
        number = 0
        for slot in live:
            tab = names.sheets[slot.fresh.name.lower()]
            sheet = self.book.sheet_named(tab)
            if sheet is None:  # pragma: no cover - it was placed just before
                continue
            place = quote_sheet(tab)
            if slot.placement.is_input:
                name = input_name(slot.placement.key.removeprefix("input:"))
                editor.drop_names([name])
                editor.add_name(name, f"{place}!$A$1", {})
            else:
                if slot.own is not None:
                    name = slot.own.defined_name
                else:
                    number += 1
                    while f"{RESULT_NAME}{number}" in used | known:
                        number += 1
                    name = f"{RESULT_NAME}{number}"
                editor.add_name(name, f"{place}!${SIGNATURE_CELL[0]}${SIGNATURE_CELL[1:]}", {})
            editor.drop_built_in(sheet)
            index = self.book.sheets.index(sheet)
            for local, text, attributes in names.local_names(slot.fresh):
                editor.add_name(local, text, {"localSheetId": str(index), **attributes})

    def _stale_names(self) -> list[str]:
        """Find names of ours whose tab a person, or a program, has deleted."""
        found: list[str] = []
        for element in self.book.defined_names():
            name, text = element.get("name") or "", element.text or ""
            if not name.lower().startswith((RESULT_NAME, INPUT_NAME)):
                continue
            target = single_cell(text)
            gone = target is not None and self.book.sheet_named(target[0]) is None
            if gone or "#REF!" in text.upper():
                found.append(name)
        return found

    def _drop_calculation_chain(self) -> None:
        for relation in self.book.relationships:
            if relation.type == "calcChain":
                self.editor.unrelate(relation.target)
                self.removed.add(relation.target)

    def _finish_styles(self, styles: StyleMerger, root: xml.Element) -> None:
        key = self.book.part_of("styles")
        if key and styles.changed:
            self.edits[key] = xml.write(root)
        elif not key:
            name = self.free.plain("styles", ".xml")
            self.editor.relate("styles", name)
            # with what is kept: at the next run it is one of the parts that are there
            self.kept_parts.add(name, xml.write(root), STYLES_TYPE)

    def _finish_parts(self) -> None:
        package = self.book.package
        self.types.drop(self.removed)
        for parts in (self.kept_parts, self.out):
            for name, kind in parts.types.items():
                self.types.add(name, kind)
        self.edits[package.workbook] = xml.write(self.book.root)
        self.edits[self.editor.rels_key] = xml.write(self.editor.rels)
        self.edits[CONTENT_TYPES_PART] = xml.write(self.types.root)
        for key in list(self.edits):
            if self.edits[key] == package.read(key):
                del self.edits[key]


def _rels_of(key: str) -> str:
    folder, _, name = key.rpartition("/")
    return f"{folder}/_rels/{name}.rels"


def make_plan(  # noqa: PLR0913 - handed on from the public function
    book: Book,
    fresh: bytes | FreshBook,
    placements: Sequence[Placement],
    *,
    retire_others: bool,
    spread: Spread = alone,
    found: FoundTabs | None = None,
) -> Plan:
    """Make the plan of a graft; with ``retire_others`` result tabs that are not placed go."""
    package = Package(io.BytesIO(fresh)) if isinstance(fresh, bytes) else fresh.package
    fresh_book = Book(package)
    slots, others = make_slots(book, fresh_book, placements, found)
    plan = Plan(book, fresh_book, slots, others if retire_others else [])
    if not isinstance(fresh, bytes):
        plan.cells, plan.formats, plan.spread = fresh.cells, fresh.formats, spread
        plan.elsewhere = fresh.elsewhere
    return plan
