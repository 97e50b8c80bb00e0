"""Read the cells of a worksheet part with openpyxl's parser, each where it says that it is.

openpyxl's own read-only sheets leave out what does not stand in order: a row after one with a
higher number, and the cells of a row beyond its last one as stored.  Programs that show a sheet
place such cells all the same, so a person would see what the reader does not.
"""

import io
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final, TypeAlias

from msgspec import Struct
from openpyxl.styles.numbers import builtin_format_code, is_date_format, is_timedelta_format
from openpyxl.utils.datetime import CALENDAR_MAC_1904, CALENDAR_WINDOWS_1900
from openpyxl.worksheet._reader import WorkSheetParser

from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.opc.xml_tools import is_true
from sheetcalc.excel.reading.strings import SharedStrings

KINDS: Final = frozenset({"n", "s", "b", "e", "d", "f", "str", "inlineStr"})
"""What a cell may hold (ECMA-376 part 1, 18.18.11), and ``f`` for a formula."""


class Cell(Struct, frozen=True):
    """A cell as stored: its value, its kind, and the format that its number is shown in."""

    value: object = None
    data_type: str = "n"
    number_format: str = "General"


Row: TypeAlias = Sequence[Cell]
_Placed: TypeAlias = dict[int, Cell]

EMPTY: Final = Cell()


class CellFormats:
    """Number formats by the number of a cell's style, and which of them make a date or a time.

    Parameters
    ----------
    custom
        Formats of the workbook's own, by their id.
    styles
        Format id of each cell style, in order.
    struck
        Whether the font of each is struck through.
    """

    def __init__(
        self, custom: Mapping[int, str], styles: Sequence[int], struck: Sequence[bool]
    ) -> None:
        codes = [custom.get(i) or builtin_format_code(i) or "General" for i in styles]
        self.codes: Mapping[int, str] = dict(enumerate(codes))
        self.struck: Collection[int] = {i for i, is_struck in enumerate(struck) if is_struck}
        self.dates: Collection[int] = {i for i, c in enumerate(codes) if is_date_format(c)}
        self.spans: Collection[int] = {i for i, c in enumerate(codes) if is_timedelta_format(c)}


class CellReader:
    """Reads worksheet parts that are cut down to their cells."""

    def __init__(self, strings: SharedStrings, formats: CellFormats, *, date_1904: bool) -> None:
        self._strings = strings
        self._formats = formats
        self._epoch = CALENDAR_MAC_1904 if date_1904 else CALENDAR_WINDOWS_1900
        self._parser = self._parser_of(b"", data_only=True)
        self.struck: set[int] = set()
        """Numbers of the rows of the part read last in which a filled cell is struck through."""

    @property
    def place(self) -> str:
        """Address of the cell that was read last, for a message about it."""
        column = max(self._parser.col_counter, 1)
        return f"{column_letters(column)}{self._parser.row_counter}"

    @property
    def hidden(self) -> frozenset[int]:
        """Numbers of the rows that the part read last hides, by a filter as a rule."""
        rows = self._parser.row_dimensions.items()
        return frozenset(int(number) for number, row in rows if is_true(row.get("hidden")))

    def rows(self, xml: bytes, *, data_only: bool) -> list[Row]:
        """Rows from row 1 on, with stored values or with formulas.

        Raises
        ------
        ValueError
            Where a cell stands twice, is of no known kind or style, or says another row than the
            one that it stands in; and what openpyxl raises, of many kinds.
        """
        self._parser = self._parser_of(xml, data_only=data_only)
        rows: dict[int, _Placed] = {}
        codes, struck = self._formats.codes, self._formats.struck
        self.struck = set()
        for number, cells in self._parser.parse():
            row = rows.setdefault(number, {})
            for cell in cells:
                column, kind, value = cell["column"], cell["data_type"], cell["value"]
                if cell["row"] != number or number < 1 or kind not in KINDS:
                    why = f"it says row {cell['row']}, kind {kind}"
                    raise ValueError(why)
                if value is None and kind == "n":
                    continue  # it only has a format
                if column in row:
                    why = "it stands there twice"
                    raise ValueError(why)
                style = cell["style_id"]
                if style not in codes:
                    why = f"it asks for style {style}, and the file has {len(codes)}, from 0 on"
                    raise ValueError(why)
                if style in struck:
                    self.struck.add(number)
                row[column] = Cell(value, kind, codes[style])
        return list(_in_order(rows))

    def _parser_of(self, xml: bytes, *, data_only: bool) -> WorkSheetParser:
        return WorkSheetParser(
            io.BytesIO(xml),
            self._strings,
            data_only=data_only,
            epoch=self._epoch,
            date_formats=self._formats.dates,
            timedelta_formats=self._formats.spans,
        )


def _in_order(rows: Mapping[int, _Placed]) -> Iterator[Row]:
    """Yield each row from row 1 on, its cells from column A on, with empty ones between."""
    for number in range(1, max(rows, default=0) + 1):
        placed = rows.get(number)
        if placed:
            yield [placed.get(column, EMPTY) for column in range(1, max(placed) + 1)]
        else:
            yield ()
