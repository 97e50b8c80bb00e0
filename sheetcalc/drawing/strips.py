"""Drawing of the strips of a roll on the floor of a room."""

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import PieceKind, Ring
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.plan import PlanDrawing
from sheetcalc.drawing.setting_outs import fixtures_of
from sheetcalc.drawing.words import Legend, heading, sides_of, told

_FLOORS = frozenset({SurfaceKind.FLOOR, SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR})
_UPTURN = "upturn"


def strip_plans(work: RoomWork, legend: Legend) -> tuple[PlanDrawing, ...]:
    """Draw the strips on the floor, one drawing a roll.

    Strips for walls and upturns are only listed, and so is a single strip: it has but one place.

    Parameters
    ----------
    work
        The room with its strips.
    legend
        How things are put.
    """
    floors = {s.key for s in work.room.surfaces if s.kind in _FLOORS}
    items = dict.fromkeys(strip.item for strip in work.strips)
    plans = []
    for item in items:
        numbered = [
            (number, strip)
            for number, strip in enumerate((s for s in work.strips if s.item == item), 1)
            if strip.surface in floors and not strip.piece.startswith(_UPTURN)
        ]
        if len(numbered) > 1:
            plans.append(_plan(work, item, numbered, legend))
    return tuple(plans)


def _plan(
    work: RoomWork, item: str, numbered: list[tuple[int, Strip]], legend: Legend
) -> PlanDrawing:
    room = work.room
    what = legend.name(numbered[0][1].piece.split(",")[0])
    sizes = [
        legend.tell(
            "{number}: {length} by {width}",
            number=number,
            length=legend.tape(strip.length_mm320),
            width=legend.tape(strip.width_mm320),
        )
        for number, strip in numbered
    ]
    return PlanDrawing(
        title=legend.write("{what}, strips", what=f"{heading(what)} {item}"),
        short_title=legend.write("{what}, strips", what=heading(what)),
        description=told(
            [
                legend.tell("Plan of the strips of {what} on the floor.", what=f"{what} {item}"),
                legend.tell("Strips {sizes}.", sizes="; ".join(sizes)),
            ]
        ),
        region=room.outline,
        fixtures=tuple(
            (ring, "") for ring, _ in fixtures_of(room, legend, leave_out=PieceKind.SHOWER_FLOOR)
        ),
        sides=tuple(sides_of(room.outline, (), room.doorways, legend)),
        strips=tuple((_ring(s), str(n)) for n, s in numbered),
    )


def _ring(strip: Strip) -> Ring:
    along, across = strip.length_mm320, strip.width_mm320
    wide, deep = (across, along) if strip.turned else (along, across)
    x, y = strip.left_mm320, strip.front_mm320
    return ((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep))
