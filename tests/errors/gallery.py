"""The gallery: one wrong workbook for every finding code, and what people read then.

An entry is data: a code, where the finding stands, and the edits that make the smallest sample
wrong.  The words themselves stand in ``gallery.txt``, which is read and reviewed as text; run the
tests with SHEETCALC_UPDATE_GOLDEN=1 to write it anew.  To add codes, add entries to a module
``wrong_<subject>.py`` and list it in ``test_gallery``.
"""

from collections.abc import Callable, Mapping
from pathlib import Path

from edited_books import FIRST_ROW, HEADER_ROW, AnyBook, add, column_of, edited, put, reworked
from msgspec import Struct, field
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.workbook import Workbook
from typed_books import TypedBook

from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.measure import JobUnits
from sheetcalc.domain.progress import silent
from sheetcalc.excel.opc.errors import FileTrouble
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.wording import WordedFinding, word, word_all

Edit = Callable[[Workbook], None] | Callable[[TypedBook], None]


class Wrong(Struct, frozen=True):
    """A wrong workbook.

    ``calculated`` entries run the whole check; the others end with the reading, which is where
    their findings come from.  ``reworked`` ones change more than what stands in cells.
    """

    code: str
    place: str  # Rooms!E5, or the tab's name where no cell is meant
    edits: tuple[Edit, ...]
    calculated: bool = False
    reworked: bool = False


class Said(Struct, frozen=True):
    """A finding that no edit of a small workbook brings about: its facts, for its words."""

    code: str
    facts: Mapping[str, Fact] = field(default_factory=dict)


def wrong(code: str, place: str, *edits: Edit, calculated: bool = False) -> Wrong:
    """Make an entry from its edits, which type into cells."""
    return Wrong(code, place, edits, calculated)


def wrong_book(code: str, place: str, *edits: Edit) -> Wrong:
    """Make an entry from edits that change more: formats, tables, tabs, rows, merged cells."""
    return Wrong(code, place, edits, reworked=True)


# --- edits --------------------------------------------------------------------------------------


def cell(tab: str, header: str, value: object, row: int = FIRST_ROW) -> Edit:
    """Type a value into a cell; None empties it."""
    return lambda book: put(book, tab, header, value, row)


def shown_as(tab: str, header: str, number_format: str, row: int = FIRST_ROW) -> Edit:
    """Format a cell."""

    def edit(book: Workbook) -> None:
        book[tab].cell(row, column_of(book, tab, header)).number_format = number_format

    return edit


def error_value(tab: str, header: str, error: str = "#REF!", row: int = FIRST_ROW) -> Edit:
    """Put an error value into a cell."""

    def edit(book: Workbook) -> None:
        put(book, tab, header, error, row)
        book[tab].cell(row, column_of(book, tab, header)).data_type = "e"

    return edit


def record(tab: str, **values: object) -> Edit:
    """Add a row; keywords are headers with _ for a space."""

    def edit(book: TypedBook) -> None:
        add(book, tab, **values)

    return edit


def setting(label: str, value: object, header: str = "Value") -> Edit:
    """Type the value (or another cell) of a setting."""

    def edit(book: TypedBook) -> None:
        put(book, "Job", header, value, setting_row(book, label))

    return edit


def setting_row(book: AnyBook, label: str) -> int:
    """Row of a setting."""
    column = column_of(book, "Job", "Setting")
    for row in book["Job"].iter_rows(FIRST_ROW):
        for cell in row:
            if cell.column == column and cell.value == label:
                return cell.row
    raise KeyError(label)


def header(tab: str, old: str, new: str | None) -> Edit:
    """Rename a header; None empties it."""

    def edit(book: Workbook) -> None:
        column = column_of(book, tab, old)
        without_table(book, tab)
        book[tab].cell(HEADER_ROW, column).value = new

    return edit


def without_table(book: Workbook, tab: str) -> None:
    """Take the table object off a tab; its cells stay."""
    for name in list(book[tab].tables):
        del book[tab].tables[name]


def without_tab(tab: str) -> Edit:
    """Delete a tab."""

    def edit(book: Workbook) -> None:
        del book[tab]

    return edit


def cleared(tab: str, first: int = FIRST_ROW, last: int = 200) -> Edit:
    """Empty rows of a tab."""

    def edit(book: Workbook) -> None:
        for row in book[tab].iter_rows(min_row=first, max_row=last):
            for one in row:
                one.value = None

    return edit


def hidden(tab: str, row: int) -> Edit:
    """Hide a row, as a filter does."""

    def edit(book: Workbook) -> None:
        book[tab].row_dimensions[row].hidden = True

    return edit


def hidden_column(tab: str, letters: str) -> Edit:
    """Hide a column."""

    def edit(book: Workbook) -> None:
        book[tab].column_dimensions[letters].hidden = True

    return edit


def hidden_tab(tab: str) -> Edit:
    """Hide a tab."""

    def edit(book: Workbook) -> None:
        book[tab].sheet_state = "hidden"

    return edit


def struck(tab: str, row: int) -> Edit:
    """Strike a row through, as people do with what is cancelled."""

    def edit(book: Workbook) -> None:
        for one in book[tab][row]:
            one.font = Font(strike=True)

    return edit


def struck_by_rule(tab: str, cells: str, formula: str) -> Edit:
    """Strike cells through by a rule of conditional formatting."""

    def edit(book: Workbook) -> None:
        rule = FormulaRule([formula], font=Font(strike=True))
        book[tab].conditional_formatting.add(cells, rule)

    return edit


def merged(tab: str, cells: str) -> Edit:
    """Merge cells, as people do with a value that several rows have."""

    def edit(book: Workbook) -> None:
        book[tab].merge_cells(cells)

    return edit


# --- what people read ---------------------------------------------------------------------------


def read_words(entry: Wrong | Said, folder: Path) -> WordedFinding:
    """Return the finding of an entry in words."""
    if isinstance(entry, Said):
        return word(Finding(entry.code, facts=entry.facts), JobUnits())
    write = reworked if entry.reworked else edited
    path = write(folder / "wrong.xlsx", lambda book: _apply(entry, book))
    worded = _calculated(path) if entry.calculated else _read(path)
    of_code = [w for w in worded if w.code == entry.code]
    for one in of_code:
        if one.place == entry.place:
            return one
    found = ", ".join(f"{w.code} at {w.place}" for w in worded) or "nothing"
    message = f"{entry.code} was expected at {entry.place}; found: {found}"
    raise AssertionError(message)


def _apply(entry: Wrong, book: AnyBook) -> None:
    for edit in entry.edits:
        edit(book)


def _read(path: Path) -> tuple[WordedFinding, ...]:
    try:
        raw = start_reading(path).result()
    except FileTrouble as trouble:
        return (word(Finding(trouble.code, facts=trouble.facts), JobUnits()),)
    inputs, findings = to_inputs(raw)
    units = inputs.job.units if inputs else JobUnits()
    return word_all(findings, raw, units, inputs.decisions if inputs else ())


def _calculated(path: Path) -> tuple[WordedFinding, ...]:
    from sheetcalc import workflows  # noqa: PLC0415 (the reader's entries need none of it)

    return workflows.check(path, silent).findings
