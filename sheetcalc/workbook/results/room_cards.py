"""The Room cards tab: a list of the cards, then a printed page for each room."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Final

from sheetcalc.domain.card import CardPicture, CardPictures
from sheetcalc.workbook.columns import HEADER_ROW
from sheetcalc.workbook.results.card_layout import MARGINS, WIDTHS, Card, Row
from sheetcalc.workbook.results.frame import Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import ROOM_CARDS
from sheetcalc.workbook.sheet import Cell, Picture, SheetModel

if TYPE_CHECKING:
    from sheetcalc.workbook.results.cable_plans import CablePage

KEY: Final = "room-cards"

MOST_CARDS: Final = 500
"""Cards of one tab: spreadsheet programs take 1,023 page breaks on a sheet."""

_TALLEST: Final = 60.0
_POINTS_A_MM: Final = 72 / 25.4
_PIXELS_A_MM: Final = 96 / 25.4
_INSET_MM: Final = 0.5


@dataclass(frozen=True, slots=True)
class Cards:
    """Cards and pages of cables as planned, and the pictures drawn for them."""

    planned: tuple[Card, ...]
    pictures: CardPictures
    cable_pages: tuple["CablePage", ...] = ()
    cable_pictures: CardPictures = field(default_factory=dict)


def drawing_heights(cards: Sequence[Card]) -> dict[str, float]:
    """Height left for the drawings of each row of Rooms [mm], alike on all of its cards."""
    return {card.room: card.drawing_mm for card in cards}


def room_cards_sheets(cards: Cards, frame: Frame) -> tuple[SheetModel, ...]:
    """Make the Room cards tab; with very many rooms, several.

    Quantities are those of the run: a card is printed and carried away, so nothing on it is live
    but the status, which says so when an amount has changed since.

    Parameters
    ----------
    cards
        Cards with their pictures.
    frame
        Units and status.
    """
    planned = cards.planned
    parts = [planned[at : at + MOST_CARDS] for at in range(0, len(planned), MOST_CARDS)] or [()]
    return tuple(
        _sheet(part, number, at * MOST_CARDS, cards.pictures, frame)
        for at, (number, part) in enumerate(enumerate(parts, 1))
    )


def _sheet(
    cards: Sequence[Card], number: int, before: int, pictures: CardPictures, frame: Frame
) -> SheetModel:
    """Make one tab: its list on the first page, then the cards."""
    page = Pages(HEADER_ROW + max(len(cards), 1) + 1)
    rows = []
    for at, card in enumerate(cards, before + 1):
        first = page.begin()
        page.write(card.above)
        page.draw(pictures.get(card.room, ()), card.drawing_mm)
        page.write(card.below)
        if card.second:
            page.begin()
            page.write(card.second)
        rows.append(
            {
                "#": count(at),
                "Phase": text(card.phase),
                "Room": Cell(card.name, "result_link", link=f"internal:A{first}"),
                "Pages": count(2 if card.second else 1),
                "Alike": count(card.alike),
                "Finish": text(card.finish),
            }
        )
    ending = f" {number}" if number > 1 else ""
    table = table_of(
        ROOM_CARDS, rows, nothing="no room", name=f"{ROOM_CARDS.table}{ending.strip()}"
    )
    key = f"{KEY}:{number}" if number > 1 else KEY
    sheet = sheet_of(key, ROOM_CARDS, frame, [table], name=f"{ROOM_CARDS.key}{ending}")
    return replace(
        sheet,
        loose={**sheet.loose, **page.cells},
        landscape=False,
        repeat_row=None,
        widths=dict(enumerate(WIDTHS, 1)),
        heights=page.heights,
        pictures=tuple(page.pictures),
        row_breaks=tuple(page.breaks),
        margins=MARGINS,
        printed_columns=len(WIDTHS),
        printed_rows=page.last,
    )


class Pages:
    """Cells, heights and pictures of page after page."""

    def __init__(self, last: int) -> None:
        self._row = last
        self.cells: dict[tuple[int, int], Cell] = {}
        self.heights: dict[int, float] = {}
        self.pictures: list[Picture] = []
        self.breaks: list[int] = []

    @property
    def last(self) -> int:
        """Last row written."""
        return self._row

    def begin(self) -> int:
        """Begin a page; return its first row."""
        self.breaks.append(self._row)
        return self._row + 1

    def write(self, rows: Sequence[Row]) -> None:
        """Write rows below each other."""
        for height, cells in rows:
            self._row += 1
            self.heights[self._row] = height
            for column, cell in cells.items():
                self.cells[self._row, column] = cell

    def draw(self, pictures: Sequence[CardPicture], height_mm: float) -> None:
        """Leave room for drawings and put them into it; a card without any leaves none."""
        if not pictures:
            return
        first, left = self._row + 1, height_mm * _POINTS_A_MM
        while left > 0:
            self._row += 1
            self.heights[self._row] = round(min(left, _TALLEST) / 0.75) * 0.75
            left -= _TALLEST
        self.pictures += [
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
