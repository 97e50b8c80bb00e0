"""What each sheet of a graft is, and which tab of the book it replaces."""

from collections.abc import Sequence

from msgspec import Struct, field

from sheetcalc.excel.grafting.graft_names import tables_with_headers
from sheetcalc.excel.opc.book import Book, Sheet
from sheetcalc.excel.opc.escapes import escaped
from sheetcalc.excel.tabs import tab_content
from sheetcalc.excel.tabs.own_tabs import (
    INPUT_KEY,
    FoundTabs,
    OwnTab,
    find_own_tabs,
    found_input,
    key_of_signature,
    signature,
)
from sheetcalc.excel.tabs.tab_cells import parse_cells

SIGNATURE_CELL = "A3"
SIGNATURE_PLACE = (3, 1)


class Placement(Struct, frozen=True):
    """What a sheet of the fresh workbook is.

    Attributes
    ----------
    key
        ``takeoff``, ``order:Kiln & Quarry``; ``input:Rooms`` for a tab that is only added and
        never overwritten.
    sheet
        Its name as wanted; the fresh workbook's sheets are taken in the order of placements.
    typed
        Headers of the columns that people fill in.
    """

    key: str
    sheet: str
    typed: tuple[str, ...] = ()

    @property
    def is_input(self) -> bool:
        """It is added once and belongs to the user from then on."""
        return self.key.startswith(INPUT_KEY)


class GraftReport(Struct):
    """What a graft did.

    Attributes
    ----------
    sheet_names
        Key -> name of its tab in the book.
    table_names
        Name of a table in the fresh workbook -> its name in the book.
    added, replaced, left
        Keys of tabs that are new, made anew in place, or left as they are (input tabs).
    retired
        Names of tabs that were removed.
    kept
        Name of an edited tab -> name under which it is kept.
    copy_reason
        "signed" or "locked" where the book itself must not be changed, else "".
    """

    sheet_names: dict[str, str] = field(default_factory=dict)
    table_names: dict[str, str] = field(default_factory=dict)
    added: list[str] = field(default_factory=list)
    replaced: list[str] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    retired: list[str] = field(default_factory=list)
    kept: dict[str, str] = field(default_factory=dict)
    copy_reason: str = ""


class Slot(Struct):
    """A placement, its sheet in the fresh workbook, and the tab of ours that it replaces."""

    placement: Placement
    fresh: Sheet
    own: OwnTab | None


def _find_inputs(book: Book, fresh: Book, slots: Sequence[Slot]) -> None:
    """Find input tabs that are there without a name of ours, as in a blank workbook.

    Such a tab has a table of the same name with all of our headers; a tab without a table (the
    Guide) is known by its name, once others were found.
    """
    open_slots = [s for s in slots if s.placement.is_input and s.own is None]
    if not open_slots:
        return
    tables = {name: (sheet, heads) for sheet, name, heads in tables_with_headers(book)}
    ours = {sheet.part: (name, heads) for sheet, name, heads in tables_with_headers(fresh)}
    for slot in open_slots:
        name, heads = ours.get(slot.fresh.part, ("", frozenset()))
        there = tables.get(name)
        if there and heads <= there[1]:
            slot.own = found_input(slot.placement.key, there[0])
    if not any(s.own for s in slots if s.placement.is_input):
        return
    for slot in open_slots:
        sheet = book.sheet_named(slot.fresh.name)
        if slot.own is None and slot.fresh.part not in ours and sheet is not None:
            slot.own = found_input(slot.placement.key, sheet)


def make_slots(
    book: Book, fresh: Book, placements: Sequence[Placement], found: FoundTabs | None = None
) -> tuple[list[Slot], list[OwnTab]]:
    """Find out which tab of the book each placement replaces; the other tabs of ours come too.

    Parameters
    ----------
    book, fresh
        The user's book and ours.
    placements
        What each sheet of ours is.
    found
        Our tabs of the book where they have been looked for; of use while it is as it was.

    Raises
    ------
    ValueError
        Where the fresh workbook has not as many sheets as there are placements.
    """
    if len(placements) != len(fresh.sheets):
        msg = f"{len(placements)} placements for {len(fresh.sheets)} sheets"
        raise ValueError(msg)
    if found is not None and found.are_of(book.package):
        own = found.tabs
    else:
        own = find_own_tabs(book, {p.key: p.typed for p in placements})
    by_key = {tab.key: tab for tab in own}
    pairs = zip(placements, fresh.sheets, strict=True)
    slots = [Slot(p, sheet, by_key.get(p.key)) for p, sheet in pairs]
    _find_inputs(book, fresh, slots)
    wanted = {p.key for p in placements}
    others = [t for t in own if t.key not in wanted and not t.key.startswith(INPUT_KEY)]
    return slots, others


def check_signature(text: str, placement: Placement) -> None:
    """Check that a result sheet is signed as what it is placed as.

    Raises
    ------
    ValueError
        Where it is not.
    """
    if key_of_signature(text) != placement.key:
        msg = f"{placement.sheet}: {SIGNATURE_CELL} must hold {signature(placement.key)!r}"
        raise ValueError(msg)


def sign(content: bytes, placement: Placement) -> bytes:
    """Put a result sheet's check figure behind its signature."""
    tab = parse_cells(content, placement.sheet)
    text = tab.text(SIGNATURE_PLACE)
    check_signature(text, placement)
    figure = tab_content.check_figure(tab, SIGNATURE_PLACE, placement.typed)
    plain = escaped(text).encode()
    head, found, tail = content.partition(plain)
    if not found:
        msg = f"{placement.sheet}: the signature is not written as plain text"
        raise ValueError(msg)
    return head + plain + f" · check {figure}".encode() + tail
