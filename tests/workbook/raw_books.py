"""Books as found, made by hand: what the reader would hand over for a few cells."""

from collections.abc import Mapping, Sequence

from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable, RawValue

Values = Mapping[str, RawValue | RawCell]

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def table(tab: str, rows: Sequence[Values], headers: Mapping[str, str] | None = None) -> RawTable:
    """A tab with its declared headers in their order, and records from row 5 on."""
    declared = next(t for t in INPUT_TABS if t.key == tab)
    letters = {c.header: LETTERS[i] for i, c in enumerate(declared.columns)}
    return RawTable(
        tab=tab,
        sheet=tab,
        table=declared.table,
        header_row=4,
        last_row=4 + len(rows),
        headers={header: (headers or {}).get(header, header) for header in letters},
        letters=letters,
        unknown=(),
        missing=(),
        duplicated=(),
        rows=tuple(
            RawRow(number, {h: _cell(v, f"{letters[h]}{number}") for h, v in row.items()})
            for number, row in enumerate(rows, 5)
        ),
    )


def _cell(value: RawValue | RawCell, address: str) -> RawCell:
    return value if isinstance(value, RawCell) else RawCell(value, address)


PLAIN_FINISH: Values = {"Finish": "Plain", "Surface": "floor", "Tile": "T-1", "Joint": 3}
PLAIN_TILE: Values = {
    "Code": "T-1", "Description": "Tile", "Length": 600, "Width": 300, "Thickness": 9,
    "Pieces per box": 6,
}  # fmt: skip
PLAIN_ROOM: Values = {"Room": "1", "Length": 2.4, "Width": 1.8, "Finish": "Plain"}


def book(**tabs: Sequence[Values]) -> RawBook:
    """A sound small book with some tabs replaced; keywords are tab names with _ for a space."""
    rows: dict[str, Sequence[Values]] = {
        "Job": [{"Setting": "Job name", "Value": "Small"}],
        "Rooms": [PLAIN_ROOM],
        "Finishes": [PLAIN_FINISH],
        "Tiles": [PLAIN_TILE],
    }
    rows |= {name.replace("_", " ").replace("Build up", "Build-up"): r for name, r in tabs.items()}
    return RawBook(
        path="book.xlsx",
        tables={name: table(name, given) for name, given in rows.items()},
        absent=tuple(t.key for t in INPUT_TABS if t.key not in rows),
        sheets=tuple(rows),
    )


def us_units() -> list[Values]:
    """Rows of the Job tab that make it a US job."""
    units = {
        "Unit of room lengths": "ft",
        "Unit of small lengths": "in",
        "Unit of long lengths": "ft",
        "Unit of area": "ft²",
        "Unit of volume": "US gal",
        "Unit of mass": "lb",
    }
    return [{"Setting": label, "Value": unit} for label, unit in units.items()]
