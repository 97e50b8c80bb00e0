"""Sheets to be written, as data: typed cells with named styles, tables, lists, pictures.

``excel.generate`` writes them with a library; nothing here knows which.
"""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.workbook.columns import Tells

CellValue: TypeAlias = str | int | float | Decimal | bool | date | None


class Cell(Struct, frozen=True, cache_hash=True):
    """One cell.

    Attributes
    ----------
    value
        What a reader that does not calculate sees.  Text is always written as a string.
    style
        Name in the house style (see ``templates/house_style.toml``).
    formula
        Without the leading ``=``; its stored value is ``value``.
    link
        ``internal:'Tab'!A1`` or an https address; None for no link.
    """

    value: CellValue = None
    style: str = "text"
    formula: str | None = None
    link: str | None = None


class Validation(Struct, frozen=True):
    """A validation over rows of one column: a list by defined name or words, or a formula rule."""

    kind: str  # "list", "decimal", "integer", "date", "custom", "any"
    source: str = ""  # "=DefinedName", a formula for custom, or ""
    words: tuple[str, ...] = ()
    low: float | date | None = None
    high: float | date | None = None
    title: str = ""
    message: str = ""  # at most 255 characters
    error: str = ""
    error_title: str = "Please check"
    enforce: bool = True
    alert: str = "stop"  # or "warning": asks, and lets the value through


class SheetColumn(Struct, frozen=True):
    """A table column as written."""

    header: str
    width: float = 12
    style: str = "text"  # of empty rows, and the column format
    validation: Validation | None = None
    header_style: str = "header"
    tells: Tells | None = None  # its records are put into the office's words


class TableModel(Struct, frozen=True):
    """A table: its header row and its records.

    ``empty_rows`` blank records are added inside the table for input; ``validated_rows`` rows
    below the header carry the validations (also below the table, where people paste).  The
    headers of a table that is ``read_back`` by later runs are the same in every language.  The only
    row of one that is ``without_records`` says so.
    """

    name: str
    row: int  # sheet row of the header, 1-based
    column: int  # sheet column, 1-based
    columns: tuple[SheetColumn, ...]
    rows: tuple[tuple[Cell, ...], ...]
    empty_rows: int = 0
    validated_rows: int = 0
    read_back: bool = False
    without_records: bool = False

    @property
    def records(self) -> int:
        """Rows below the header: a table has one at least."""
        return max(1, len(self.rows) + self.empty_rows)


class Picture(Struct, frozen=True):
    """A picture anchored at a cell; offsets from the cell's corner are in pixels of 1/96 in."""

    row: int
    column: int
    png: bytes
    description: str  # alternative text
    scale: float = 1.0
    x_offset: int = 0
    y_offset: int = 0


class ConditionalStyle(Struct, frozen=True):
    """Give cells of a range a style while a formula holds (relative to its first cell)."""

    cells: str
    formula: str
    style: str


class SheetModel(Struct, frozen=True):
    """A whole sheet.

    ``key`` is how the tool finds its own tab again (``takeoff``, ``order:Kiln & Quarry``);
    ``name`` the sheet name wanted, made legal and unique on writing.
    """

    key: str
    name: str
    title: str
    purpose: str
    tables: tuple[TableModel, ...] = ()
    loose: Mapping[tuple[int, int], Cell] = None  # type: ignore[assignment]
    freeze: tuple[int, int] | None = (5, 1)  # first unfrozen row and column, 1-based
    landscape: bool = True
    fit_one_page_wide: bool = True
    repeat_row: int | None = 4
    widths: Mapping[int, float] | None = None  # 1-based column -> width, outside tables
    heights: Mapping[int, float] | None = None
    conditional: tuple[ConditionalStyle, ...] = ()
    pictures: tuple[Picture, ...] = ()
    tab_style: str = "input"  # colour of the tab: input, result, order, guide
    signature: str = ""  # written to A3 of result tabs
    row_breaks: tuple[int, ...] = ()
    margins: tuple[float, float, float, float] | None = None  # left, right, top, bottom [in]
    printed_columns: int | None = None  # print these first columns only; None: all
    printed_rows: int | None = None  # with printed_columns: down to this row; None: the last filled
    cell_validations: tuple[tuple[int, int, Validation], ...] = ()  # row, column, 1-based


class BookModel(Struct, frozen=True):
    """Sheets and workbook-scope defined names (name -> formula without ``=``).

    ``paper`` is ``A4`` or ``letter``; ``title`` stands in the document's properties.
    """

    sheets: tuple[SheetModel, ...]
    names: Mapping[str, str]
    paper: str = "A4"
    title: str = ""
