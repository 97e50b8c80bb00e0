"""What every result tab has: title, live status, signature, one table by the declaration."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from itertools import accumulate
from typing import Final

from msgspec import Struct, field
from msgspec.structs import force_setattr, replace

from sheetcalc.domain.measure import (
    INCH,
    MM320_PER_INCH,
    MM320_PER_METRE,
    Dimension,
    JobUnits,
    Unit,
)
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.workbook.columns import HEADER_ROW, Tab
from sheetcalc.workbook.formulas import InputTable
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.results.status_words import (
    ERROR,
    INCOMPLETE,
    OK,
    OUT_OF_DATE,
    WARNING,
    Counted,
    says,
)
from sheetcalc.workbook.sheet import (
    Cell,
    CellValue,
    ConditionalStyle,
    SheetColumn,
    SheetModel,
    TableModel,
)

SCHEMA: Final = 1
"""Counts up when a result tab's signature or columns change in a way that old runs don't know."""

BLANK: Final = Cell(None, "result")
_STATUS_WIDTH: Final = 14
"""Width that shows a short status, such as ten warnings, in bold."""
_LARGER: Final = 2.0
"""Width of a letter of the title, in letters of the table."""
_MOST_SHARED: Final = 1 << 16
"""Cells that are kept to be used again: a job of 1,000 rooms has a million, of which few differ."""

_LENGTH_STYLES: Final = {"m": "result_number3", "ft": "result_number"}
_SIXTY_FOURTH: Final = MM320_PER_INCH / 64


AWAITED: Final = Cell(None, "status")
"""Stands for the status on tabs that are made before it is known."""


class Frame(Struct, frozen=True):
    """What the result tabs of one run share.

    Attributes
    ----------
    raw
        The workbook as found: formulas look inputs up in it.
    units
        Units that results are shown in.
    status
        The live status that stands in row 1 of every tab.
    words
        The office's, for what formulas say; labels are put into words when all tabs are made.
    inputs
        Input tabs as formulas see them, by their declared names.
    """

    raw: RawBook
    units: JobUnits
    status: Cell
    words: Words = ENGLISH
    inputs: Mapping[str, InputTable] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Wrap the tables as found, unless another frame has done so."""
        if not self.inputs:
            inputs = {tab: InputTable(table) for tab, table in self.raw.tables.items()}
            force_setattr(self, "inputs", inputs)

    def link(self, tab: str, row: int | None, header: str = "") -> str | None:
        """Link to an input row; None where there is nothing to point at."""
        table = self.inputs.get(tab)
        return table.link(row, header) if table else None


def signature(key: str) -> str:
    """Text in A3 by which a result tab is known again."""
    return f"sheetcalc result tab · {key} · schema {SCHEMA}"


@lru_cache(_MOST_SHARED)
def text(value: str, *, wrap: bool = False) -> Cell:
    """Text of a result."""
    return Cell(value or None, "result_wrapped" if wrap else "result")


def described(description: str, link: str | None) -> Cell:
    """Give a description that leads to the row it comes from.

    The link stands here and not on the item's code because formulas look codes up: LibreOffice
    composes the text of a linked cell anew at each comparison, more slowly each time, which was
    nine tenths of a recalculation of 200 rooms.
    """
    if not description or link is None:
        return text(description, wrap=True)
    return Cell(description, "result_wrapped_link", link=link)


@lru_cache(_MOST_SHARED, typed=True)
def shared(
    value: CellValue, style: str, formula: str | None = None, link: str | None = None
) -> Cell:
    """Cell of a result that may stand in many places: the same object in all of them."""
    return Cell(value, style, formula, link)


@lru_cache(_MOST_SHARED, typed=True)
def count(value: float) -> Cell:
    """Whole number of a result."""
    return Cell(value, "result_count")


def money(value: Decimal | None) -> Cell:
    """Amount of money; blank where it is not known."""
    return Cell(value, "result_money")


def quantity(value: float, unit: Unit, formula: str | None = None) -> Cell:
    """Quantity with the digits that an estimator works with; only its display is rounded."""
    if unit.dimension is Dimension.COUNT:
        if float(value).is_integer():
            return shared(int(value), "result_count", formula)
        return shared(value, "result_number", formula)
    looks = "result_number3" if unit.symbol in {"m³", "ft³"} else "result_number"
    return shared(value, looks, formula)


def length(length_mm320: float | None, unit: Unit) -> Cell:
    """Length in a unit; inches to the nearest 1/64, shown as a fraction."""
    if length_mm320 is None:
        return BLANK
    if unit == INCH:
        return shared(round(length_mm320 / _SIXTY_FOURTH) / 64, "result_fraction")
    value = length_mm320 / float(unit.si_factor * MM320_PER_METRE)
    return shared(value, _LENGTH_STYLES.get(unit.symbol, "result_general"))


def table_of(  # noqa: PLR0913 - the parts of a table, each by its name
    tab: Tab,
    rows: Sequence[Mapping[str, Cell]],
    *,
    nothing: str,
    row: int = HEADER_ROW,
    name: str = "",
    units: Mapping[str, Unit | str] | None = None,
    styles: Mapping[str, str] | None = None,
) -> TableModel:
    """Table of a result tab, in the declared columns.

    Parameters
    ----------
    tab
        The declaration.
    rows
        Cells by declared header; a header that is left out is blank.
    nothing
        What the only row says where there are no records.
    row
        Sheet row of the header.
    name
        Of the table object; the declared one where empty.
    units
        Units that stand in brackets behind headers.
    styles
        Column styles other than plain text.
    """
    units, styles = units or {}, styles or {}
    columns = tuple(
        SheetColumn(
            header=_with_unit(column.header, units.get(column.header) or column.unit),
            width=column.width,
            style=styles.get(column.header, "result"),
            tells=column.tells,
        )
        for column in tab.columns
    )
    headers, blanks = [column.header for column in tab.columns], [BLANK] * len(tab.columns)
    cells = [tuple(map(record.get, headers, blanks)) for record in rows]
    if not cells:
        cells = [(Cell(nothing, "result"), *(BLANK for _ in tab.columns[1:]))]
    typed = any(column.typed for column in tab.columns)
    return TableModel(
        name or tab.table,
        row,
        1,
        columns,
        tuple(cells),
        read_back=typed,
        without_records=not rows,
    )


def _with_unit(header: str, unit: Unit | str) -> str:
    symbol = unit if isinstance(unit, str) else unit.symbol
    return f"{header} ({symbol})" if symbol else header


def sheet_of(  # noqa: PLR0913 - the parts of a sheet, each by its name
    key: str,
    tab: Tab,
    frame: Frame,
    tables: Sequence[TableModel],
    *,
    name: str = "",
    loose: Mapping[tuple[int, int], Cell] | None = None,
    conditional: Sequence[ConditionalStyle] = (),
    style: str = "result",
    widths: Sequence[float] = (),
) -> SheetModel:
    """Make a result tab with its title, status and signature.

    Its columns have the widths of the first table's, or those given.
    """
    widths = widths or [column.width for column in tables[0].columns]
    at, last = _status_columns(widths, name or tab.key)
    cell = f"${column_letter(at)}$1"
    shown = f"{cell}:${column_letter(last)}$1" if last > at else cell
    words = frame.words
    status = [
        ConditionalStyle(shown, says(words.say(state), cell), looks)
        for state, looks in ((OK, "ok"), (OUT_OF_DATE, "warning"), (INCOMPLETE, "warning"))
    ]
    status += [
        ConditionalStyle(shown, Counted.of(severity, words).found_in(cell), severity)
        for severity in (ERROR, WARNING)
    ]
    told = replace(frame.status, style="status_across") if last > at else frame.status
    header = tables[0].row
    return SheetModel(
        key=key,
        name=name or tab.key,
        title=name or tab.key,
        purpose=tab.purpose,
        tables=tuple(tables),
        loose={(1, at): told, **(loose or {})},
        freeze=(header + 1, 1),
        repeat_row=header,
        conditional=(*status, *conditional),
        tab_style=style,
        signature=signature(key),
        printed_columns=tab.printed_columns,
    )


def with_status(sheet: SheetModel, status: Cell) -> SheetModel:
    """Put in the status that a tab was made without."""
    loose = {place: status if cell == AWAITED else cell for place, cell in sheet.loose.items()}
    return replace(sheet, loose=loose)


def _status_columns(widths: Sequence[float], title: str) -> tuple[int, int]:
    """First and last column that leave room for the title to their left and hold a short status.

    One column where any is wide enough, else several; never beyond the last.
    """
    right = list(accumulate(widths))
    clear = _LARGER * len(title) + 2
    beyond = [at for at, end in enumerate(right, 1) if end - widths[at - 1] >= clear]
    wide = (at for at in beyond if widths[at - 1] >= _STATUS_WIDTH)
    first = next(wide, 0)
    if first:
        return first, first
    first = beyond[0] if beyond else len(widths)
    held = right[first - 1] - widths[first - 1] + _STATUS_WIDTH
    return first, next((at for at in beyond if right[at - 1] >= held), len(widths))


def column_letter(column: int) -> str:
    """Letters of a 1-based column, such as ``AB``."""
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
