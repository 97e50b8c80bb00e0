"""Drawings of setting-outs: a floor from above with the door at the bottom, a wall from inside."""

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Circle, PieceKind, Region, Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.drawing.joint_lines import line_sentences, marked_lines
from sheetcalc.drawing.plan import Dimension, Line, MarkedTile, Place, PlanDrawing, Side
from sheetcalc.drawing.tiles import marked_tiles
from sheetcalc.drawing.words import (
    Legend,
    heading,
    room_sentences,
    setting_out_sentences,
    sides_of,
    told,
)


def floor_plan(work: RoomWork, out: SettingOut, letter: str, legend: Legend) -> PlanDrawing:
    """Draw the main floor in its room, or another floor by itself.

    Parameters
    ----------
    work
        The room.
    out
        Setting-out of the surface.
    letter
        Of the surface on its card.
    legend
        How things are put; its job has perimeter gap and smallest cut.
    """
    room = work.room
    whole_room = out.kind is SurfaceKind.FLOOR
    region = room.outline if whole_room else out.region
    holes = next((s.holes for s in room.surfaces if s.key == out.surface), ())
    what = legend.surface(out)
    return PlanDrawing(
        title=_title((letter,), what, (out,), legend),
        short_title=_short_title((letter,), what),
        description=told(
            [
                legend.tell(
                    "Plan of the {surface} from above.", surface=legend.words.named(out.surface)
                ),
                *setting_out_sentences(out, letter, legend),
                *line_sentences(out, legend),
                *(room_sentences(room, legend) if whole_room else ()),
            ]
        ),
        region=region,
        tiles=_tiles((out,), (letter,), legend),
        fixtures=tuple(fixtures_of(room, legend)) if whole_room else (),
        circles=tuple((hole, _hole_name(room, hole, legend)) for hole in holes),
        sides=tuple(sides_of(region, room.walls, room.doorways if whole_room else (), legend)),
        dimensions=tuple(_dimensions(out, legend)),
        starts=tuple(_starts((out,))),
        lines=tuple(marked_lines(work, out, legend)),
    )


def wall_plan(
    work: RoomWork,
    plane: str,
    outs: Sequence[SettingOut],
    letters: Sequence[str],
    legend: Legend,
) -> PlanDrawing:
    """Draw every tiled part of one wall, seen from inside the room.

    Parameters
    ----------
    work
        The room.
    plane
        Name of the wall.
    outs, letters
        Setting-outs of its parts, each with its letter.
    legend
        How things are put; its job has perimeter gap and smallest cut.
    """
    region = Region(tuple(patch for out in outs for patch in out.region.patches))
    name = legend.wall(plane)
    left, bottom, right, _ = region.bounds
    gap = _gap_name(work.room, plane, legend)
    return PlanDrawing(
        title=_title(letters, heading(name), outs, legend),
        short_title=_short_title(letters, heading(name)),
        description=told(
            [
                legend.tell(_OF_A_WALL, wall=name),
                *(
                    sentence
                    for out, letter in zip(outs, letters, strict=True)
                    for sentence in setting_out_sentences(out, letter, legend)
                ),
            ]
        ),
        region=region,
        tiles=_tiles(outs, letters, legend),
        fixtures=tuple((ring, gap) for ring in _gaps(region)),
        sides=(Side((left, 0), (right, 0), legend.name("floor")),) if bottom == 0 else (),
        dimensions=tuple(d for out in outs for d in _dimensions(out, legend)),
        starts=tuple(_starts(outs)),
        lines=tuple(line for out in outs for line in marked_lines(work, out, legend)),
    )


_OF_A_WALL = "The {wall} seen from inside the room, floor at the bottom."


def fixtures_of(
    room: Room, legend: Legend, *, leave_out: PieceKind | None = None
) -> Iterator[tuple[Line, str]]:
    """Outlines of what stands on the floor, with names."""
    for fixture in room.fixtures:
        if fixture.kind is leave_out:
            continue
        if fixture.kind is PieceKind.COLUMN and fixture.circle is not None:
            yield _round(fixture.circle), legend.fixture(fixture)
        elif fixture.region is not None:
            for patch in fixture.region.patches:
                yield patch.shell, legend.fixture(fixture)


_STEPS = 48
"""Corners of a round column as drawn."""


def _round(circle: Circle) -> Line:
    (x, y), radius = circle.centre, circle.diameter_mm320 / 2
    angles = [2 * pi * step / _STEPS for step in range(_STEPS)]
    return tuple((x + radius * cos(a), y + radius * sin(a)) for a in angles)


def round_fixtures(room: Room, legend: Legend) -> Iterator[tuple[Circle, str]]:
    """Round outlets, pipes and drains, with names."""
    for fixture in room.fixtures:
        if fixture.circle is not None and fixture.kind is not PieceKind.COLUMN:
            yield fixture.circle, legend.fixture(fixture)


def _title(letters: Sequence[str], what: str, outs: Sequence[SettingOut], legend: Legend) -> str:
    bonds = (f"{out.tile} {legend.name(out.bond.label)}" for out in outs)
    tiles = ", ".join(dict.fromkeys(bonds))
    return f"{_short_title(letters, what)}: {tiles}"


def _short_title(letters: Sequence[str], what: str) -> str:
    return f"{', '.join(letters)}  {what}"


def _tiles(
    outs: Sequence[SettingOut], letters: Sequence[str], legend: Legend
) -> tuple[MarkedTile, ...]:
    job = legend.job
    return tuple(
        tile
        for out, letter in zip(outs, letters, strict=True)
        for tile in marked_tiles(out, job.perimeter_gap_mm320, job.smallest_cut_share, letter)
    )


def _has_start(out: SettingOut) -> bool:
    return out.whole > 0 and not out.by_area


def _starts(outs: Sequence[SettingOut]) -> Iterator[Place]:
    for out in outs:
        if _has_start(out):
            yield out.origin


def _dimensions(out: SettingOut, legend: Legend) -> Iterator[Dimension]:
    """Two distances to the first tile, as the Setting out tab says them."""
    if not _has_start(out):
        return
    x, y = out.origin
    left, front, _, _ = out.region.bounds
    if out.kind is SurfaceKind.FLOOR:  # drawn in its room, out to the walls
        left, front = x - out.start_left_mm320, y - out.start_front_mm320
    if out.start_left_mm320 > 0:
        begin = x - out.start_left_mm320
        words = _distance(out.start_left_mm320, legend, to_wall=begin < left)
        yield Dimension((max(begin, left), y), (x, y), words)
    if out.start_front_mm320 > 0:
        begin = y - out.start_front_mm320
        words = _distance(out.start_front_mm320, legend, to_wall=begin < front)
        yield Dimension((x, max(begin, front)), (x, y), words)


def _distance(length_mm320: float, legend: Legend, *, to_wall: bool) -> str:
    """Figure of a distance; says so where the wall that it is from lies outside the drawing."""
    figure = legend.tape(length_mm320)
    return legend.write("{distance} to wall", distance=figure) if to_wall else figure


def _hole_name(room: Room, hole: Circle, legend: Legend) -> str:
    return next((legend.fixture(f) for f in room.fixtures if f.circle == hole), "")


def _gaps(region: Region) -> Iterator[Line]:
    """Niches and windows: holes in a wall's tiled parts that nothing else fills."""
    shells = {frozenset(patch.shell) for patch in region.patches}
    for patch in region.patches:
        for ring in patch.holes:
            if frozenset(ring) not in shells:
                yield ring


def _gap_name(room: Room, plane: str, legend: Legend) -> str:
    niche = any(s.key.startswith(f"niche {plane}") for s in room.surfaces)
    opening = any(s.key.startswith(f"opening {plane}") for s in room.surfaces)
    if niche and opening:
        return ""
    return legend.name("niche" if niche else "opening")
