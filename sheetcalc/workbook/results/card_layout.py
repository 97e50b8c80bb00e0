"""The cards of a run: which way each is printed, and how much of its page is left for drawings."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from sheetcalc.domain.card import drawn_surfaces, is_small
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.workbook.results.card_content import LARGE, SMALL, TINY, About, Content
from sheetcalc.workbook.results.card_cuts import cable_texts, cut_texts
from sheetcalc.workbook.results.card_items import carried
from sheetcalc.workbook.results.card_work import cautions, checks, steps
from sheetcalc.workbook.results.findings import Worded
from sheetcalc.workbook.results.printed_pages import (
    MOST_DRAWING_MM,
    PAGE_POINTS,
    POINTS_A_MM,
    Row,
    height_of,
)

if TYPE_CHECKING:
    from sheetcalc.domain.quantity import QuantityLine

_UNFOLDED_MM: Final = 34.0
"""Height that a row of unfolded curbs and niches takes where it can still be read."""


class Card(Struct, frozen=True):
    """One card: the rows above its drawings, those below, and the room left between.

    Attributes
    ----------
    room
        Name of the row of Rooms whose pictures it shows.
    name, phase, finish, alike
        Of this copy, and how many rooms are like it.
    above, below
        Rows of the first page.
    drawing_mm
        Height left for drawings.
    second
        Rows of a second page, where one page would leave too little for the drawings.
    """

    room: str
    name: str
    phase: str
    finish: str
    alike: int
    above: tuple[Row, ...]
    below: tuple[Row, ...]
    drawing_mm: float
    second: tuple[Row, ...] = ()


def plan_cards(run: Run, findings: Sequence[Worded], words: Words = ENGLISH) -> tuple[Card, ...]:
    """Plan the card of every room, in the order of the phases.

    Parameters
    ----------
    run
        What was calculated.
    findings
        In words; warnings about a room stand on its card.
    words
        The office's.

    Returns
    -------
    tuple of Card
        One for each copy of a row of Rooms.
    """
    of_room: defaultdict[str, list[QuantityLine]] = defaultdict(list)
    for line in run.lines:
        of_room[line.room].append(line)
    rolls = {(plan.phase, plan.item): plan for plan in run.roll_plans}
    told: defaultdict[str, list[Worded]] = defaultdict(list)
    for finding in findings:
        told[finding.room].append(finding)
    places = {name: at for at, name in enumerate(run.inputs.phases)}
    works = sorted(run.works, key=lambda w: places.get(w.room.phase or "", len(places)))
    total = sum(max(len(w.room.copies), 1) for w in works)
    page = PAGE_POINTS[run.inputs.job.units.paper]
    cards: list[Card] = []
    for work in works:
        copies = work.room.copies or (work.room.name,)
        lines, inputs = of_room[work.room.name], run.inputs
        about = About(
            run,
            work,
            rolls,
            words,
            cuts=tuple(cut_texts(work, inputs.job, words)),
            cables=tuple(cable_texts(work, inputs.job, words)),
            goods=carried(lines, work, inputs.catalogue, words),
            steps=steps(run, work, lines, words),
            tests=tuple(checks(work, inputs.finishes.get(work.room.finish), inputs, words)),
            cautions=tuple(cautions(run, work, lines, told[work.room.name], words)),
            total=total,
        )
        numbers = [
            words.fill("card {number} of {total}", number=len(cards) + n, total=total)
            for n in range(1, len(copies) + 1)
        ]
        cards += _cards(about, copies, numbers, page)
    return tuple(cards)


def _cards(
    about: About, copies: Sequence[str], numbers: Sequence[str], page: float
) -> Iterator[Card]:
    """Print the cards of alike rooms alike: large, small, tiny, or on two pages."""
    for way in (LARGE, SMALL, TINY):
        content = Content(about, way)
        lists = content.lists_alike(copies)
        table = tuple(content.table())
        heading = tuple(content.heading(copies[0], numbers[0]))
        left = page - height_of((*heading, *lists[0], *table))
        least = way.least_mm + (_UNFOLDED_MM if _has_unfolded(about.work) else 0.0)
        if left >= least * POINTS_A_MM:
            break
    two_pages = left < least * POINTS_A_MM
    if two_pages:
        content = Content(about, LARGE)
        table = tuple(content.table())
        left = page - height_of((*content.heading(copies[0], numbers[0]), *lists[0]))
    drawing = min(max(left / POINTS_A_MM // 2 * 2, TINY.least_mm), MOST_DRAWING_MM)
    room = about.work.room
    for name, number, listed in zip(copies, numbers, lists, strict=True):
        above = tuple(content.heading(name, number))
        again = about.words.fill("{card}, second page", card=number)
        second = (*content.heading(name, again), *table) if two_pages else ()
        below = listed if two_pages else (*listed, *table)
        yield Card(
            room.name,
            name,
            room.phase or "",
            room.finish,
            room.count,
            above,
            below,
            drawing,
            second,
        )


def _has_unfolded(work: RoomWork) -> bool:
    """Whether a row of unfolded curbs and niches stands below the other drawings."""
    return any(is_small(work.setting_outs[key]) for key in drawn_surfaces(work))
