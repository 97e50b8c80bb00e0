"""Drawing of the heating cables of a room: rows numbered, start, end, splice, sensor, leads."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.domain.room import PieceKind
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.plan import (
    DrawnPath,
    Label,
    MarkedPoint,
    Place,
    PlanDrawing,
    PointMark,
)
from sheetcalc.drawing.setting_outs import fixtures_of, round_fixtures
from sheetcalc.drawing.words import Legend, room_sentences, sides_of, told
from sheetcalc.units import show_place, show_quantity

_INWARD_M = 0.09
"""A row's number stands this far from where the row begins [m]."""

_TURN_M = 0.001


def cable_plan(work: RoomWork, legend: Legend) -> PlanDrawing | None:
    """Draw every cable of a room that has a path; None where none has.

    Parameters
    ----------
    work
        The room with its cables.
    legend
        How things are put.
    """
    cables = [plan for plan in work.cables if plan.path]
    if not cables:
        return None
    room = work.room
    several = len(cables) > 1
    numbers = [f" {n}" if several else "" for n in range(1, len(cables) + 1)]
    points = [p for c, n in zip(cables, numbers, strict=True) for p in _points(c, n, legend)]
    points += [
        MarkedPoint(t.start, PointMark.BOX, _thermostat(t.name, cables, legend))
        for t in room.thermostats
    ]
    showers = fixtures_of_kind(work, PieceKind.SHOWER_FLOOR)
    heading = legend.write("Heating cable")
    return PlanDrawing(
        title=f"{heading}: {', '.join(dict.fromkeys(c.cable for c in cables))}",
        short_title=heading,
        description=told(
            [
                legend.tell("Plan of the heating cables from above."),
                *(
                    sentence
                    for cable, number in zip(cables, numbers, strict=True)
                    for sentence in _sentences(cable, number, legend)
                ),
                *room_sentences(room, legend),
            ]
        ),
        region=room.outline,
        fixtures=tuple(fixtures_of(room, legend, leave_out=PieceKind.SHOWER_FLOOR)),
        circles=tuple((circle, "") for circle, _ in round_fixtures(room, legend)),
        sides=tuple(sides_of(room.outline, room.walls, room.doorways, legend)),
        strips=tuple((ring, "") for ring in showers),
        labels=tuple(label for c in cables for label in row_numbers(c)),
        points=tuple(points),
        paths=tuple(path for c in cables for path in _paths(c)),
    )


def _thermostat(name: str, cables: Sequence[CablePlan], legend: Legend) -> str:
    """Label of a thermostat: its name where there are two, and whether it switches nothing."""
    used = {plan.thermostat.removesuffix(" (showers)") for plan in cables}
    if name not in used:
        return legend.write("{name}: no cable", name=name)
    if len(used) == 1:
        return legend.write("thermostat")
    return legend.write("thermostat {name}", name=name)


def fixtures_of_kind(work: RoomWork, kind: PieceKind) -> list[Sequence[Place]]:
    """Outlines of the fixtures of one kind."""
    return [
        patch.shell
        for fixture in work.room.fixtures
        if fixture.kind is kind and fixture.region
        for patch in fixture.region.patches
    ]


def row_numbers(plan: CablePlan) -> Iterator[Label]:
    """Write the number of every row of a path near where it begins."""
    along = 1 if plan.rows_along == "width" else 0
    number = 0
    for start, end in pairwise(plan.path):
        step = end[along] - start[along]
        if abs(step) <= _TURN_M:
            continue
        number += 1
        inward = min(_INWARD_M, abs(step) / 2) * (1 if step > 0 else -1)
        at = (start[0] + inward, start[1]) if along == 0 else (start[0], start[1] + inward)
        yield Label(_place(at), str(number))


def _place(point: Sequence[float]) -> Place:
    return point[0] * MM320_PER_METRE, point[1] * MM320_PER_METRE


def _paths(plan: CablePlan) -> Iterator[DrawnPath]:
    yield DrawnPath(tuple(_place(p) for p in plan.path))
    if plan.lead_path:
        yield DrawnPath(tuple(_place(p) for p in plan.lead_path), dashed=True)


def _points(plan: CablePlan, number: str, legend: Legend) -> Iterator[MarkedPoint]:
    both = plan.leads == "both ends"
    yield MarkedPoint(_place(plan.path[0]), PointMark.DOT, legend.write("start") + number)
    yield MarkedPoint(
        _place(plan.path[-1]),
        PointMark.DOT if both else PointMark.BAR,
        legend.write("end") + number,
    )
    if plan.sensor is not None:
        words = legend.write("sensor") + number
        yield MarkedPoint(_place(plan.sensor), PointMark.RING, words)


def _sentences(plan: CablePlan, number: str, legend: Legend) -> Iterator[str]:
    unit = legend.job.units.long_length
    yield legend.tell(
        _BOTH_ENDS if plan.leads == "both ends" else _ONE_END,
        name=legend.tell("Cable") + number,
        cable=plan.cable,
        zone=legend.words.named(plan.zone),
        length=show_quantity(plan.length_m, unit),
        rows=plan.rows,
        spacing=legend.words.named(plan.spacing_words) or show_quantity(plan.spacing_m, unit),
        along=legend.tell(plan.rows_along or "length"),
    )
    if plan.sensor is not None:
        left, front = (show_place(v, unit) for v in plan.sensor)
        yield legend.tell(_SENSOR, left=left, front=front)


_ONE_END = (
    "{name} {cable} in {zone}: {length} in {rows} rows at {spacing}, rows along the room's "
    "{along}, numbered from the start, where the cold lead is spliced on."
)
_BOTH_ENDS = f"{_ONE_END.removesuffix('.')}; so it is at the end."
_SENSOR = "Sensor {left} from the left wall and {front} from the near wall, between two runs."
