"""Cells of a workbook to read and type into, by the names that openpyxl has for them.

Only the parts of sheets that are typed into are taken apart: loading and saving a whole workbook
with openpyxl takes twenty times as long.
"""

import re
from collections.abc import Iterator
from datetime import date

from lxml import etree
from xml_edits import MAIN, Edits, cell_at, set_value

from sheetcalc.excel.opc.formula_text import column_letters, column_number

_BEFORE_DAY_1 = date(1899, 12, 30)


class TypedBook:
    """The sheets of a workbook that is being edited."""

    def __init__(self, edits: Edits) -> None:
        self._edits = edits

    def __getitem__(self, tab: str) -> "TypedSheet":
        return TypedSheet(self._edits.root(tab))


class TypedSheet:
    """Cells of a sheet, made where one is asked for that is not there."""

    def __init__(self, root: etree._Element) -> None:
        self._root = root

    def cell(self, row: int, column: int) -> "TypedCell":
        return TypedCell(cell_at(self._root, f"{column_letters(column)}{row}"))

    def __getitem__(self, number: int) -> tuple["TypedCell", ...]:
        return next(self.iter_rows(number, number), ())

    def iter_rows(
        self, min_row: int = 1, max_row: int | None = None, max_col: int | None = None
    ) -> Iterator[tuple["TypedCell", ...]]:
        """The rows that are there, each with the cells that are there."""
        for row in self._root.iterfind(f"{{{MAIN}}}sheetData/{{{MAIN}}}row"):
            number = int(row.get("r") or 0)
            if min_row <= number and (max_row is None or number <= max_row):
                cells = map(TypedCell, row)
                yield tuple(c for c in cells if max_col is None or c.column <= max_col)


class TypedCell:
    """A cell; its texts stand in it, as the workbooks of ``edited_books`` have them."""

    def __init__(self, element: etree._Element) -> None:
        self._element = element

    @property
    def row(self) -> int:
        return int(re.sub(r"\D", "", self._element.get("r") or ""))

    @property
    def column(self) -> int:
        return column_number(re.sub(r"\d", "", self._element.get("r") or ""))

    @property
    def value(self) -> str | float | bool | None:
        kind, text = self._element.get("t", "n"), "".join(self._element.itertext())
        if kind == "inlineStr":
            return text
        assert kind == "n", f"the value of a cell of kind {kind} is not asked for"
        return float(text) if text else None

    @value.setter
    def value(self, value: object) -> None:
        if isinstance(value, date):
            value = (value - _BEFORE_DAY_1).days
        if isinstance(value, str) and value.startswith("="):
            set_value(self._element, None, value[1:])
        else:
            set_value(self._element, value)  # type: ignore[arg-type]
