"""The Room cards tab: a list of the cards, then a printed page for each room."""

from collections.abc import Iterator, Sequence
from itertools import count as counter
from typing import Final

from msgspec import Struct, field

from sheetcalc.domain.card import CardPictures
from sheetcalc.domain.run import Run
from sheetcalc.workbook.results.cable_plans import CablePage
from sheetcalc.workbook.results.card_content import WIDTHS
from sheetcalc.workbook.results.card_layout import Card
from sheetcalc.workbook.results.frame import Frame, count, text
from sheetcalc.workbook.results.printed_pages import MOST_PAGES, Pages, in_parts
from sheetcalc.workbook.results_tabs import ROOM_CARDS
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "room-cards"


class Cards(Struct, frozen=True):
    """Cards and pages of cables as planned, and the pictures drawn for them."""

    planned: tuple[Card, ...]
    pictures: CardPictures
    cable_pages: tuple[CablePage, ...] = ()
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
    numbers = counter(1)
    return tuple(
        _sheet(part, number, numbers, cards.pictures, frame)
        for number, part in in_parts(cards.planned)
    )


def makes_cards(run: Run, number: int) -> bool:
    """Tell whether a run makes the tab with this number; one without rooms makes the first."""
    cards = sum(max(len(work.room.copies), 1) for work in run.works)
    return max(cards, 1) > (number - 1) * MOST_PAGES


def without_cards(number: int, frame: Frame) -> SheetModel:
    """Make the tab with this number, without any card."""
    return _sheet((), number, counter(1), {}, frame)


def _sheet(
    cards: Sequence[Card],
    number: int,
    numbers: Iterator[int],
    pictures: CardPictures,
    frame: Frame,
) -> SheetModel:
    """Make one tab: its list on the first page, then the cards."""
    pages = Pages(len(cards))
    listed = []
    for card in cards:
        first = pages.begin()
        pages.write(card.above)
        pages.draw(pictures.get(card.room, ()), card.drawing_mm)
        pages.write(card.below)
        if card.second:
            pages.begin()
            pages.write(card.second)
        listed.append(
            {
                "#": count(next(numbers)),
                "Phase": text(card.phase, wrap=True),
                "Room": Cell(card.name, "result_link", link=f"internal:A{first}"),
                "Pages": count(2 if card.second else 1),
                "Alike": count(card.alike),
                "Finish": text(card.finish),  # the last: it may run on
            }
        )
    return pages.sheet(
        ROOM_CARDS, listed, frame, key=KEY, number=number, widths=WIDTHS, nothing="no cards"
    )
