"""Room cards: what every card shows is drawn here, once for all alike rooms.

Drawing is the longest work of a run that nothing else waits for: it is begun, and asked for when
everything else is made.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

from msgspec import Struct, field

from sheetcalc.domain.card import CARD_WIDTH_MM, CardPicture, CardPictures
from sheetcalc.domain.progress import Progress, silent
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.spread import Spread, alone
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.drawing.room import cable_pictures, room_pictures
from sheetcalc.drawing.words import Legend


class Drawings(Struct, frozen=True):
    """What the cards show, and the pages with the cables of a room alone."""

    cards: CardPictures
    cable_plans: CardPictures


class _Wanted(Struct, frozen=True):
    """A row of Rooms to draw, and the height that there is [mm]."""

    work: RoomWork
    height_mm: float
    cables_only: bool = False


class Space(Struct, frozen=True):
    """Room for drawings on paper, by the name of the row of Rooms.

    Attributes
    ----------
    cards_mm
        Height on the card [mm]; rows that are not named are not drawn.
    cables_mm
        The same of the pages with a room's cables alone, which are drawn over the whole width.
    """

    cards_mm: Mapping[str, float]
    cables_mm: Mapping[str, float] = field(default_factory=dict)


def begin_drawings(
    run: Run,
    space: Space,
    words: Words = ENGLISH,
    step: Progress = silent,
    spread: Spread = alone,
) -> Callable[[], Drawings]:
    """Begin to draw what the cards of a run show.

    Parameters
    ----------
    run
        What was calculated.
    space
        Which rooms are drawn, and how high.
    words
        The office's.
    step
        Told of progress.
    spread
        Where it is drawn.

    Returns
    -------
    Callable
        Waits for the drawings.  Alike rooms share the pictures of their cards, byte for byte the
        same at every run.
    """
    looks: dict[str, tuple[object, ...]] = {}
    wanted: dict[tuple[object, ...], _Wanted] = {}
    for work in run.works:
        if (height := space.cards_mm.get(work.room.name)) is not None:
            height_mm = round(height, 1)
            look = looks[work.room.name] = (_look(work), height_mm)
            wanted.setdefault(look, _Wanted(work, height_mm))
    heated = [work for work in run.works if work.room.name in space.cables_mm]
    plans = [_Wanted(work, space.cables_mm[work.room.name], cables_only=True) for work in heated]
    begun = spread(partial(_draw, Legend(run.inputs.job, words)), [*wanted.values(), *plans])

    def drawn() -> Drawings:
        made = iter(begun)
        cards: dict[tuple[object, ...], tuple[CardPicture, ...]] = {}
        for look, pictures in zip(wanted, made, strict=False):  # those of the plans follow
            cards[look] = pictures
            step("cards", len(cards), len(wanted))
        return Drawings(
            {name: cards[look] for name, look in looks.items()},
            {work.room.name: pictures for work, pictures in zip(heated, made, strict=True)},
        )

    return drawn


def _draw(legend: Legend, sheets: Sequence[_Wanted]) -> Iterator[tuple[CardPicture, ...]]:
    for sheet in sheets:
        draw = cable_pictures if sheet.cables_only else room_pictures
        yield draw(sheet.work, legend, CARD_WIDTH_MM, sheet.height_mm)


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
