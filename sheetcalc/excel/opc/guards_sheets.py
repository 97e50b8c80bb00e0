"""What a sheet's cells may span, seen as its bytes go by.

The stated dimension is never believed; cells are counted and placed as they come.  Half a million
cells take a fraction of a second, so the patterns work on pieces, not on elements.
"""

import re
from typing import Any, Final

from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.formula_text import column_number

WORKSHEET: Final = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
SHARED_STRINGS: Final = (
    "application/vnd.openxmlformats-officedocument.spreadsheetml.sharedstrings+xml"
)
LARGEST_SPAN_READ: Final = 2_000_000
"""Cells spanned by a sheet that is read cell by cell."""
MOST_CELLS_COPIED: Final = 12_000_000
"""Cells that stand in a sheet that is only copied."""
LARGEST_SPAN_COPIED: Final = 1 << 30
"""Cells spanned by such a sheet: a stray cell in the last row or in the last column is common, and
costs a copy nothing; one in both, far from everything else, is nobody's work."""
LONGEST_TEXT: Final = 4 * 1024 * 1024
LAST_ROW: Final = 1_048_576
LAST_COLUMN: Final = 16_384
MOST_RANGES: Final = 200_000
LARGEST_RANGE_READ: Final = 2_000_000
LARGEST_RANGE_COPIED: Final = 1 << 27
"""Cells of one merge or link: a few whole columns or rows, never the whole sheet."""

_PLAIN_COLUMN = re.compile(rb'<c r="([A-Z]+)')
_PLAIN_ROW = re.compile(rb'<c r="[A-Z]+([0-9]+)"')
_PLACE = re.compile(rb"""<(?:\w+:)?c\s(?:[^<>]*?\s)?r\s*=\s*["']\s*([A-Za-z]+)([0-9]+)\s*["']""")
_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
_OTHER_CELL = re.compile(rb"<c[\t\r\n]|<c/[^>]")
_PLAIN_ROWS = re.compile(rb'<row r="([0-9]+)"')
_ROW = re.compile(rb"""<(?:\w+:)?row\s(?:[^<>]*?\s)?r\s*=\s*["']\s*([0-9]+)\s*["']""")
_RANGE = re.compile(rb"""<(?:\w+:)?(mergeCell|hyperlink)\b[^<>]*?\bref\s*=\s*["']([^"'<]*)["']""")
_RULE = re.compile(rb"<(?:\w+:)?dataValidation\s")
_CELLS_OF_RANGE = re.compile(rb"\$?([A-Za-z]+)\$?([0-9]+)")


def _cells_of(data: bytes) -> tuple[int, set[bytes], set[bytes]]:
    """Count cells, and find the columns and the rows that they say.

    The shape that nearly every program writes goes through the cheapest patterns.
    """
    plain = data.count(b'<c r="')
    bare = data.count(b"<c>") + data.count(b"<c/>")
    tags = bare + data.count(b"<c ")
    odd = b":c" in data or _OTHER_CELL.search(data)
    if not odd and tags == plain:
        return plain, set(_PLAIN_COLUMN.findall(data)), set(_PLAIN_ROW.findall(data))
    if not odd and tags == bare:
        return tags, set(), set()
    places = _PLACE.findall(data)
    cells = len(_CELL.findall(data))
    return cells, {letters for letters, _ in places}, {digits for _, digits in places}


def _rows_of(data: bytes) -> list[bytes]:
    """Find the numbers that rows say, by the cheaper pattern where all are written plainly."""
    plain = _PLAIN_ROWS.findall(data)
    if len(plain) == data.count(b"<row") and b":row" not in data:
        return plain
    return _ROW.findall(data)


def _found(pattern: re.Pattern[bytes], data: bytes, *words: bytes) -> list[Any]:
    """Find elements by a pattern, from the first on that holds one of its words."""
    first = min((at for word in words if (at := data.find(word)) >= 0), default=None)
    return [] if first is None else pattern.findall(data, max(data.rfind(b"<", 0, first), 0))


class TextWatch:
    """Refuses a text that goes on without an end."""

    def __init__(self, part: str) -> None:
        self.part = part
        self._rest = b""

    def feed(self, piece: bytes) -> None:
        """Look at the next piece."""
        data = self._rest + piece
        cut = data.rfind(b"<")
        cut = max(cut, 0)
        if len(data) - cut > LONGEST_TEXT:
            raise Refused(Code.CELL_TOO_LONG, {"part": self.part})
        self._rest = data[cut:]
        self.look(data[:cut])

    def look(self, data: bytes) -> None:
        """Look at whole elements."""

    def finish(self) -> None:
        """Look at what is left."""
        self.look(self._rest)


class SheetWatch(TextWatch):
    """Counts and places the cells of a worksheet; looks at its ranges."""

    def __init__(self, part: str, *, narrow: bool) -> None:
        super().__init__(part)
        self.limit = LARGEST_SPAN_READ if narrow else LARGEST_SPAN_COPIED
        self._most_cells = LARGEST_SPAN_READ if narrow else MOST_CELLS_COPIED
        self._largest_range = LARGEST_RANGE_READ if narrow else LARGEST_RANGE_COPIED
        self._cells = 0
        self._ranges = 0
        self._columns: set[bytes] = set()
        self._low_row, self._high_row = LAST_ROW, 0

    def look(self, data: bytes) -> None:
        """Look at whole elements."""
        cells, columns, rows = _cells_of(data)
        self._cells += cells
        if self._cells > self._most_cells:
            raise Refused(Code.SHEET_TOO_WIDE, {"part": self.part, "most": self._most_cells})
        if rows:
            self._columns |= columns
            if max(map(len, rows)) > 7:  # noqa: PLR2004 - the last row has seven digits
                raise Refused(Code.BAD_REFERENCE, {"part": self.part, "reference": "a row"})
            numbers = [int(digits) for digits in rows]
            self._low_row = min(self._low_row, *numbers)
            self._high_row = max(self._high_row, *numbers)
            self._judge()
        for digits in _rows_of(data):
            if len(digits) > 7 or int(digits) > LAST_ROW:  # noqa: PLR2004 - as above
                raise Refused(
                    Code.BAD_REFERENCE,
                    {"part": self.part, "reference": f"row {digits[:20].decode()}"},
                )
        for kind, reference in _found(_RANGE, data, b"mergeCell", b"hyperlink"):
            self._count_ranges(1)
            self._look_at_range(kind, reference)
        # over whole columns is common, and costs a reader nothing
        self._count_ranges(len(_found(_RULE, data, b"dataValidation")))

    def _judge(self) -> None:
        columns = []
        for letters in self._columns:
            number = column_number(letters.decode()) if len(letters) <= 3 else LAST_COLUMN + 1  # noqa: PLR2004 - the last column has three letters
            if number > LAST_COLUMN:
                reference = letters[:20].decode()
                raise Refused(Code.BAD_REFERENCE, {"part": self.part, "reference": reference})
            columns.append(number)
        if self._high_row > LAST_ROW or self._low_row < 1:
            raise Refused(
                Code.BAD_REFERENCE, {"part": self.part, "reference": f"row {self._high_row}"}
            )
        span = (max(columns) - min(columns) + 1) * (self._high_row - self._low_row + 1)
        if span > self.limit:
            raise Refused(
                Code.SHEET_TOO_WIDE, {"part": self.part, "most": self.limit, "span": span}
            )

    def _count_ranges(self, more: int) -> None:
        self._ranges += more
        if self._ranges > MOST_RANGES:
            raise Refused(Code.TOO_MANY_RANGES, {"part": self.part, "most": MOST_RANGES})

    def _look_at_range(self, kind: bytes, reference: bytes) -> None:
        corners = _CELLS_OF_RANGE.findall(reference[:64])
        if len(corners) != 2:  # noqa: PLR2004 - two corners
            return
        (left, top), (right, bottom) = corners
        if max(len(left), len(right)) > 3 or max(len(top), len(bottom)) > 7:  # noqa: PLR2004 - as above
            raise Refused(
                Code.BAD_REFERENCE,
                {"part": self.part, "reference": reference[:40].decode("latin-1")},
            )
        width = abs(column_number(right.decode()) - column_number(left.decode())) + 1
        height = abs(int(bottom) - int(top)) + 1
        if width * height > self._largest_range:
            raise Refused(
                Code.TOO_MANY_RANGES,
                {"part": self.part, "most": self._largest_range, "kind": kind.decode()},
            )
