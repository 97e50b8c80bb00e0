"""What differs in the inputs of two workbooks: record by record, found by its key."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, time
from typing import Final

from msgspec import Struct

from sheetcalc.domain.comparison import InputChange
from sheetcalc.workbook.columns import Kind, Tab
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable
from sheetcalc.workbook.shown import displayed, plain_number

KEYS: Final[Mapping[str, tuple[str, ...]]] = {
    "Job": ("Setting",),
    "Phases": ("Phase",),
    "Rooms": ("Room",),
    "Floor pieces": ("Room", "Piece"),
    "Wall legs": ("Room", "Leg"),
    "Wall faces": ("Room", "Wall", "Part"),
    "Finishes": ("Finish", "Surface"),
    "Build-up": ("Finish", "Surface", "Order"),
    "Tiles": ("Code", "Supplier"),
    "Bags and pails": ("Code", "Supplier"),
    "Rolls and sheets": ("Code", "Supplier"),
    "Heating cables": ("Code", "Supplier"),
    "Sundries": ("Code", "Supplier"),
    "Waste factors": ("Line", "Finish", "Bond", "Counted by"),
    "Labour": ("Task", "Basis", "Finish", "Surface"),
    "Suppliers": ("Supplier",),
    "Holidays": ("Date",),
    "Received": ("Phase", "Supplier", "Code"),
    "Decisions": ("Code", "Room", "Surface"),
}
"""Tab -> the columns that tell its records apart; records that they don't are counted."""

_NOT_COMPARED: Final = {"Job": frozenset({"Guidance", "Source"})}


class _Record(Struct, frozen=True):
    """A row, and what it is called."""

    name: str
    row: RawRow


def compare_inputs(old: RawBook, new: RawBook) -> tuple[InputChange, ...]:
    """Compare the input tabs of two workbooks, as found.

    Parameters
    ----------
    old, new
        The order of records and columns has no meaning, and no cell address is compared.
    """
    return tuple(change for tab in INPUT_TABS for change in _of_tab(tab, old, new))


def _of_tab(tab: Tab, old: RawBook, new: RawBook) -> Iterator[InputChange]:
    before, after = _records(old.tables.get(tab.key), tab), _records(new.tables.get(tab.key), tab)
    for key in dict.fromkeys([*after, *before]):
        first, second = before.get(key), after.get(key)
        if first is None and second is not None:
            yield InputChange("added", tab.key, second.name, "", "", _in_words(second.row, tab))
        elif second is None and first is not None:
            yield InputChange("removed", tab.key, first.name, "", _in_words(first.row, tab), "")
        elif first is not None and second is not None:
            yield from _of_record(tab, second.name, first.row, second.row)


def _of_record(tab: Tab, name: str, first: RawRow, second: RawRow) -> Iterator[InputChange]:
    for column in tab.columns:
        if column.header in _NOT_COMPARED.get(tab.key, ()):
            continue
        old, new = first.cells.get(column.header), second.cells.get(column.header)
        if _value(old) != _value(new):
            percent = column.kind is Kind.PERCENT
            yield InputChange(
                "changed", tab.key, name, column.header,
                _shown(old, percent=percent), _shown(new, percent=percent),
            )  # fmt: skip


def _records(table: RawTable | None, tab: Tab) -> dict[tuple[str, ...], _Record]:
    """Find the records by their key, whatever its case; those of one key count in their order."""
    found: dict[tuple[str, ...], _Record] = {}
    seen: Counter[tuple[str, ...]] = Counter()
    for row in table.rows if table else ():
        parts = [_shown(row.cells.get(header)) for header in KEYS[tab.key]]
        same = tuple(part.casefold() for part in parts)
        seen[same] += 1
        if seen[same] > 1:
            parts.append(f"no. {seen[same]}")
        found[*same, str(seen[same])] = _Record(", ".join(p for p in parts if p), row)
    return found


def _value(cell: RawCell | None) -> str | float | bool:
    """Value to compare: numbers as numbers, everything else as displayed."""
    if cell is None:
        return ""
    if cell.error or (cell.formula and not cell.has_value):
        return cell.error or cell.formula
    if isinstance(cell.value, int | float):
        return cell.value
    return displayed(cell)


def _shown(cell: RawCell | None, *, percent: bool = False) -> str:
    if cell is None:
        return ""
    if cell.error or (cell.formula and not cell.has_value):
        return cell.error or cell.formula
    value = cell.value
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if is_number and (percent or "%" in cell.number_format):
        return f"{plain_number(round(float(value) * 100, 9))} %"  # type: ignore[arg-type]
    if isinstance(value, datetime) and value.time() == time():
        return date(value.year, value.month, value.day).isoformat()
    return displayed(cell)


def _in_words(row: RawRow, tab: Tab) -> str:
    """Name the cells of a record that are no part of its key."""
    return "; ".join(
        f"{header} {_shown(cell)}"
        for header, cell in _in_order(row, tab)
        if header not in KEYS[tab.key] and header not in _NOT_COMPARED.get(tab.key, ())
    )


def _in_order(row: RawRow, tab: Tab) -> Sequence[tuple[str, RawCell]]:
    return [(c.header, row.cells[c.header]) for c in tab.columns if c.header in row.cells]
