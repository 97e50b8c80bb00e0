"""Tabs of printed pages: a list of them on the first, then page after page in fixed rows."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final, TypeAlias, TypeVar

from msgspec.structs import replace

from sheetcalc.domain.card import CardPicture
from sheetcalc.workbook.columns import HEADER_ROW, Tab
from sheetcalc.workbook.results.frame import Frame, sheet_of, table_of
from sheetcalc.workbook.sheet import Cell, Picture, SheetModel

Row: TypeAlias = tuple[float, Mapping[int, Cell]]
"""Height [points] and cells by column."""

Printed = TypeVar("Printed")

MOST_PAGES: Final = 500
"""Entries of one tab: spreadsheet programs take 1,023 page breaks on a sheet, and an entry may
have two."""

MARGINS: Final = (0.4, 0.4, 0.35, 0.5)
"""Left, right, top, bottom [in]."""

PAGE_POINTS: Final = {"A4": 771.0, "letter": 722.0}
"""Height within the margins, less 1 % for programs that round rows up [points]."""

POINTS_A_MM: Final = 72 / 25.4
MOST_DRAWING_MM: Final = 165.0
"""Higher drawings of a room gain nothing: the width of the page limits them."""

_TALLEST: Final = 60.0
_PIXELS_A_MM: Final = 96 / 25.4
_INSET_MM: Final = 0.5


def height_of(rows: Sequence[Row]) -> float:
    """Height of rows below each other [points]."""
    return sum(height for height, _ in rows)


def in_parts(printed: Sequence[Printed]) -> Iterator[tuple[int, Sequence[Printed]]]:
    """Divide entries over as many tabs as they take, numbered from 1; one empty tab for none."""
    for number, at in enumerate(range(0, max(len(printed), 1), MOST_PAGES), 1):
        yield number, printed[at : at + MOST_PAGES]


class Pages:
    """Cells, heights and pictures of page after page."""

    def __init__(self, entries: int) -> None:
        """Begin below a list of so many entries."""
        self._row = HEADER_ROW + max(entries, 1) + 1
        self._cells: dict[tuple[int, int], Cell] = {}
        self._heights: dict[int, float] = {}
        self._pictures: list[Picture] = []
        self._breaks: list[int] = []

    def begin(self) -> int:
        """Begin a page; return its first row."""
        self._breaks.append(self._row)
        return self._row + 1

    def write(self, rows: Sequence[Row]) -> None:
        """Write rows below each other."""
        for height, cells in rows:
            self._row += 1
            self._heights[self._row] = height
            for column, cell in cells.items():
                self._cells[self._row, column] = cell

    def draw(self, pictures: Sequence[CardPicture], height_mm: float) -> None:
        """Leave room for drawings and put them into it; a page without any leaves none."""
        if not pictures:
            return
        first, left = self._row + 1, height_mm * POINTS_A_MM
        while left > 0:
            self._row += 1
            self._heights[self._row] = round(min(left, _TALLEST) / 0.75) * 0.75
            left -= _TALLEST
        self._pictures += [
            Picture(
                first,
                1,
                picture.png,
                picture.description,
                x_offset=round((picture.left_mm + _INSET_MM) * _PIXELS_A_MM),
                y_offset=round(picture.top_mm * _PIXELS_A_MM),
            )
            for picture in pictures
        ]

    def sheet(  # noqa: PLR0913 - the parts of a sheet, each by its name
        self,
        tab: Tab,
        listed: Sequence[Mapping[str, Cell]],
        frame: Frame,
        *,
        key: str,
        number: int,
        widths: Sequence[float],
        nothing: str,
    ) -> SheetModel:
        """Make the tab of these pages.

        Parameters
        ----------
        tab
            Its declaration.
        listed
            Rows of its list, which stands on the first page.
        frame
            Units and status.
        key, number
            Key of the first tab, and which of several this is, from 1.
        widths
            Of its columns [letters].
        nothing
            What the list says without rows.
        """
        ending = f" {number}" if number > 1 else ""
        table = table_of(tab, listed, nothing=nothing, name=f"{tab.table}{ending.strip()}")
        sheet = sheet_of(
            f"{key}:{number}" if number > 1 else key,
            tab,
            frame,
            [table],
            name=f"{tab.key}{ending}",
            widths=widths,
        )
        return replace(
            sheet,
            loose={**sheet.loose, **self._cells},
            landscape=False,
            repeat_row=None,
            widths=dict(enumerate(widths, 1)),
            heights=self._heights,
            pictures=tuple(self._pictures),
            row_breaks=tuple(self._breaks),
            margins=MARGINS,
            printed_columns=len(widths),
            printed_rows=self._row,
        )
