"""Room cards: what every card shows is drawn here, once for all alike rooms."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from sheetcalc.domain.card import CARD_WIDTH_MM, CardPicture, CardPictures
from sheetcalc.domain.job import Job
from sheetcalc.domain.progress import Progress, silent
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.spread import Spread, alone
from sheetcalc.drawing.room import cable_pictures, room_pictures


def draw_cards(
    run: Run, heights_mm: Mapping[str, float], step: Progress = silent, spread: Spread = alone
) -> CardPictures:
    """Draw what the cards of a run show.

    Parameters
    ----------
    run
        What was calculated.
    heights_mm
        Room on the card for drawings, by the name of the row of Rooms [mm]; rows that are not
        named are not drawn.
    step
        Told of progress.
    spread
        Where it is drawn.

    Returns
    -------
    CardPictures
        Alike rooms share their pictures, byte for byte the same at every run.
    """
    looks: dict[str, tuple[object, ...]] = {}
    sheets: dict[tuple[object, ...], tuple[RoomWork, float]] = {}
    for work in run.works:
        if work.room.name in heights_mm:
            height = round(heights_mm[work.room.name], 1)
            look = looks[work.room.name] = (_look(work), height)
            sheets.setdefault(look, (work, height))
    drawn: dict[tuple[object, ...], tuple[CardPicture, ...]] = {}
    draw = partial(_draw, run.inputs.job)
    for key, pictures in zip(sheets, spread(draw, list(sheets.values())), strict=True):
        drawn[key] = pictures
        step("cards", len(drawn), len(sheets))
    return {name: drawn[key] for name, key in looks.items()}


def _draw(job: Job, sheets: Sequence[tuple[RoomWork, float]]) -> Iterator[tuple[CardPicture, ...]]:
    for work, height in sheets:
        yield room_pictures(work, job, CARD_WIDTH_MM, height)


def draw_cable_plans(
    run: Run, heights_mm: Mapping[str, float], spread: Spread = alone
) -> CardPictures:
    """Draw the cables of rooms large, each over the whole width of a page.

    Parameters
    ----------
    run
        What was calculated.
    heights_mm
        Height of each drawing, by the name of the row of Rooms [mm].
    spread
        Where it is drawn.
    """
    works = [work for work in run.works if work.room.name in heights_mm]
    draw = partial(_draw_cables, run.inputs.job)
    sheets = [(work, heights_mm[work.room.name]) for work in works]
    drawn = spread(draw, sheets)
    return {work.room.name: made for work, made in zip(works, drawn, strict=True)}


def _draw_cables(
    job: Job, sheets: Sequence[tuple[RoomWork, float]]
) -> Iterator[tuple[CardPicture, ...]]:
    for work, height in sheets:
        yield cable_pictures(work, job, CARD_WIDTH_MM, height)


def _look(work: RoomWork) -> tuple[object, ...]:
    """Everything that tells the drawings of two rooms apart."""
    room = work.room
    return (
        room.shape,
        room.finish,
        tuple(fixture.name for fixture in room.fixtures),
        tuple(door.name for door in room.doorways),
        tuple((plan.cable, plan.zone, plan.path) for plan in work.cables),
        tuple((s.item, s.surface, s.piece, s.length_mm320, s.left_mm320) for s in work.strips),
        tuple((key, out.pieces) for key, out in work.setting_outs.items()),
    )
