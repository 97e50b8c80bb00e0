"""Wrong workbooks for the findings on tabs, columns and cells."""

from datetime import date

from gallery import (
    Said,
    Wrong,
    cell,
    cleared,
    error_value,
    header,
    hidden,
    hidden_column,
    hidden_tab,
    merged,
    record,
    setting,
    shown_as,
    struck,
    struck_by_rule,
    without_tab,
    without_table,
    wrong,
    wrong_book,
)
from openpyxl.workbook import Workbook


def _only_a_letter(book: Workbook) -> None:
    for name in book.sheetnames[1:]:
        del book[name]
    book.active.title = "Letter"
    for row in book["Letter"].iter_rows():
        for one in row:
            one.value = None


def _without_header_row(book: Workbook) -> None:
    for name in list(book["Rooms"].tables):
        del book["Rooms"].tables[name]
    for one in book["Rooms"][4]:
        one.value = None


def _duplicated(book: Workbook) -> None:
    book.copy_worksheet(book["Rooms"]).title = "Rooms (2)"


def _sorted_with_its_header(book: Workbook) -> None:
    without_table(book, "Rooms")
    sheet = book["Rooms"]
    for header_cell, value_cell in zip(sheet[4], sheet[5], strict=True):
        header_cell.value, value_cell.value = value_cell.value, header_cell.value


TABS: tuple[Wrong, ...] = (
    wrong_book("WORKBOOK-WITHOUT-OUR-TABS", "", _only_a_letter),
    wrong_book("TAB-MISSING", "Rooms", without_tab("Rooms")),
    wrong_book("TAB-WITHOUT-HEADER", "Rooms", _without_header_row),
    wrong_book("TABLE-NOT-READ", "Rooms!A4", _duplicated),
    wrong_book("TAB-EMPTY", "Rooms", cleared("Rooms")),
    wrong_book("COLUMN-MISSING", "Rooms!A4", header("Rooms", "Finish", "Finnish")),
    wrong_book("COLUMN-NOT-READ", "Rooms!A4", header("Rooms", "Count", "Qty")),
    wrong_book("COLUMN-TWICE", "Rooms!E4", header("Rooms", "Note", "Length")),
    wrong_book("HEADER-UNIT-CONTRADICTS", "Rooms!E4", header("Rooms", "Length", "Length (mm)")),
    wrong_book(
        "CELLS-MERGED",
        "Rooms!B6",
        record("Rooms", Room="Second", Length=2, Width=1, Finish="Plain"),
        cell("Rooms", "Phase", "Floor 1"),
        merged("Rooms", "B5:B6"),
    ),
    wrong_book(
        "TAB-HIDDEN",
        "Phases",
        record("Phases", Phase="Floor 1"),
        hidden_tab("Phases"),
    ),
    wrong_book(
        "COLUMNS-HIDDEN",
        "Rooms",
        cell("Rooms", "Phase", "Floor 1"),
        hidden_column("Rooms", "B"),
        hidden_column("Rooms", "D"),  # Copies, empty
    ),
    wrong_book(
        "ROWS-HIDDEN",
        "Rooms",
        record("Rooms", Room="Hidden", Length=2, Width=1, Finish="Plain"),
        hidden("Rooms", 6),
    ),
    wrong_book(
        "ROWS-ABOVE-HEADER",
        "Rooms!A4",
        record("Rooms", Room="Second", Length=2, Width=1, Finish="Plain"),
        _sorted_with_its_header,
    ),
    wrong_book(
        "ROWS-STRUCK-OUT",
        "Rooms!A6",
        record("Rooms", Room="Cancelled", Length=2, Width=1, Finish="Plain"),
        struck("Rooms", 6),
    ),
    wrong_book(
        "ROWS-STRUCK-BY-RULE",
        "Rooms",
        record("Rooms", Room="Second", Length=2, Width=1, Finish="Plain", Note="cancelled"),
        struck_by_rule("Rooms", "A5:L200", '$L5="cancelled"'),
    ),
)

CELLS: tuple[Wrong, ...] = (
    wrong("CELL-EMPTY", "Rooms!I5", cell("Rooms", "Finish", None)),
    wrong_book("CELL-IS-AN-ERROR", "Rooms!E5", error_value("Rooms", "Length")),
    wrong("FORMULA-WITHOUT-VALUE", "Rooms!E5", cell("Rooms", "Length", "=0.9*2")),
    wrong_book("NAME-IS-A-DATE", "Rooms!A5", cell("Rooms", "Room", date(2027, 3, 4))),
    wrong("CHOICE-UNKNOWN", "Rooms!H5", cell("Rooms", "Handed", "maybe")),
    wrong("CHOICE-TWICE", "Job!B26", setting("Aims of the setting-out", "balance, Balance")),
    wrong("DATE-UNREADABLE", "Phases!B5", record("Phases", Phase="A", Start="next spring")),
    wrong("BOND-UNKNOWN", "Finishes!D5", cell("Finishes", "Bond", "1/3")),
    wrong("RUN-UNKNOWN", "Finishes!E5", cell("Finishes", "Run", "sideways")),
    wrong(
        "TURN-UNKNOWN",
        "Wall legs!C5",
        record("Wall legs", Room="Cloakroom", Leg="1", Turn="back", Length=1),
    ),
    wrong("NOTCH-UNREADABLE", "Finishes!G5", cell("Finishes", "Trowel notch", "8 x 8 x 8")),
    wrong("COPIES-NAME-ONE", "Rooms!D5", cell("Rooms", "Copies", "101 / 102")),
    wrong("DATE-OUT-OF-RANGE", "Phases!B5", record("Phases", Phase="A", Start=date(1930, 3, 4))),
    wrong("COPIES-UNREADABLE", "Rooms!D5", cell("Rooms", "Copies", "108-101")),
)

NUMBERS: tuple[Wrong, ...] = (
    wrong("NUMBER-AS-TEXT", "Tiles!O5", cell("Tiles", "Price", "21.90 EUR")),
    wrong("NUMBER-UNREADABLE", "Tiles!N5", cell("Tiles", "Pieces per box", "a dozen")),
    wrong("NUMBER-COMMA", "Tiles!O5", cell("Tiles", "Price", "21,90")),
    wrong("NUMBER-THOUSANDS", "Tiles!Q5", cell("Tiles", "Box weight", "1,500 kg")),
    wrong_book("NUMBER-IS-A-DATE", "Finishes!F5", cell("Finishes", "Joint", date(2027, 3, 4))),
    wrong_book(
        "NUMBER-IS-PERCENT",
        "Rooms!E5",
        cell("Rooms", "Length", 0.018),
        shown_as("Rooms", "Length", "0.0%"),
    ),
    wrong("NUMBER-OUT-OF-RANGE", "Rooms!C5", cell("Rooms", "Count", 0)),
    wrong("NUMBER-UNUSUAL", "Rooms!C5", cell("Rooms", "Count", 600)),
    wrong("TEMPERATURE-UNUSUAL", "Job!B61", setting("Temperature at readings", 45)),
    wrong("NUMBERS-UNREADABLE", "Job!B54", setting("Circuit sizes", "ten and sixteen")),
    wrong("COUNT-NOT-WHOLE", "Rooms!C5", cell("Rooms", "Count", 1.5)),
    wrong("PERCENT-ABOVE-ONE", "Job!B19", setting("Tax", 20)),
)

LENGTHS: tuple[Wrong, ...] = (
    wrong("LENGTH-UNREADABLE", "Rooms!E5", cell("Rooms", "Length", "wide")),
    wrong("LENGTH-OUT-OF-RANGE", "Rooms!E5", cell("Rooms", "Length", 3500)),
    wrong("LENGTH-UNUSUAL", "Rooms!E5", cell("Rooms", "Length", 18)),
    wrong("LENGTH-THOUSANDS", "Rooms!E5", cell("Rooms", "Length", "1,600 mm")),
    wrong("LENGTH-COMMA", "Rooms!E5", cell("Rooms", "Length", "1,8")),
    wrong("LENGTH-TWO-WAYS", "Rooms!E5", cell("Rooms", "Length", "5 3 1/2")),
    wrong("LENGTH-INCHES-BESIDE-FEET", "Rooms!E5", cell("Rooms", "Length", "5' 13\"")),
    wrong("LENGTH-NEGATIVE", "Rooms!E5", cell("Rooms", "Length", -1.8)),
    wrong("LENGTH-UNKNOWN-UNIT", "Rooms!E5", cell("Rooms", "Length", "2 yards")),
    wrong("LENGTH-FRACTION-WITHOUT-UNIT", "Finishes!F5", cell("Finishes", "Joint", "1/8")),
    wrong("LENGTH-ABSURD", "Rooms!E5", cell("Rooms", "Length", 10_000_000)),
)

FILES: tuple[Said, ...] = (
    Said("READING-FAILED", {"why": "the reading process ended with -9"}),
    Said("READING-TAKES-TOO-LONG", {"seconds": "60"}),
    Said("READING-TAKES-TOO-MUCH-MEMORY"),
    Said("NUMBER-NOT-FINITE", {"hint": "type the number again"}),
)

ENTRIES: tuple[Wrong | Said, ...] = (*TABS, *CELLS, *NUMBERS, *LENGTHS, *FILES)
