"""Drawings of setting-outs: a floor from above with the door at the bottom, a wall from inside."""

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, PieceKind, Region, Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.drawing.joint_lines import line_sentences, marked_lines
from sheetcalc.drawing.plan import Dimension, Line, MarkedTile, Place, PlanDrawing, Side
from sheetcalc.drawing.tiles import marked_tiles
from sheetcalc.drawing.words import (
    fixture_name,
    room_sentences,
    setting_out_sentences,
    sides_of,
    told,
    wall_words,
)
from sheetcalc.drawing.words import tape as tape_words


def floor_plan(work: RoomWork, out: SettingOut, letter: str, job: Job) -> PlanDrawing:
    """Draw the main floor in its room, or another floor by itself.

    Parameters
    ----------
    work
        The room.
    out
        Setting-out of the surface.
    letter
        Of the surface on its card.
    job
        Perimeter gap, smallest cut, units.
    """
    room = work.room
    whole_room = out.kind is SurfaceKind.FLOOR
    region = room.outline if whole_room else out.region
    holes = next((s.holes for s in room.surfaces if s.key == out.surface), ())
    what = out.surface[:1].upper() + out.surface[1:]
    return PlanDrawing(
        title=_title((letter,), what, (out,)),
        short_title=_short_title((letter,), what),
        description=told(
            [
                f"Plan of the {out.surface} from above.",
                *setting_out_sentences(out, letter, job),
                *line_sentences(out, job),
                *(room_sentences(room) if whole_room else ()),
            ]
        ),
        region=region,
        tiles=_tiles((out,), (letter,), job),
        fixtures=tuple(fixtures_of(room)) if whole_room else (),
        circles=tuple((hole, _hole_name(room, hole)) for hole in holes),
        sides=tuple(sides_of(region, room.walls, room.doorways if whole_room else ())),
        dimensions=tuple(_dimensions(out, job)),
        starts=tuple(_starts((out,))),
        lines=tuple(marked_lines(work, out, job)),
    )


def wall_plan(
    work: RoomWork, plane: str, outs: Sequence[SettingOut], letters: Sequence[str], job: Job
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
    job
        Perimeter gap, smallest cut, units.
    """
    region = Region(tuple(patch for out in outs for patch in out.region.patches))
    name = wall_words(plane)
    what = name[:1].upper() + name[1:]
    left, bottom, right, _ = region.bounds
    gap = _gap_name(work.room, plane)
    return PlanDrawing(
        title=_title(letters, what, outs),
        short_title=_short_title(letters, what),
        description=told(
            [
                f"The {name} seen from inside the room, floor at the bottom.",
                *(
                    sentence
                    for out, letter in zip(outs, letters, strict=True)
                    for sentence in setting_out_sentences(out, letter, job)
                ),
            ]
        ),
        region=region,
        tiles=_tiles(outs, letters, job),
        fixtures=tuple((ring, gap) for ring in _gaps(region)),
        sides=(Side((left, 0), (right, 0), "floor"),) if bottom == 0 else (),
        dimensions=tuple(d for out in outs for d in _dimensions(out, job)),
        starts=tuple(_starts(outs)),
        lines=tuple(line for out in outs for line in marked_lines(work, out, job)),
    )


def fixtures_of(room: Room, *, leave_out: PieceKind | None = None) -> Iterator[tuple[Line, str]]:
    """Outlines of what stands on the floor, with names."""
    for fixture in room.fixtures:
        if fixture.kind is leave_out:
            continue
        if fixture.kind is PieceKind.COLUMN and fixture.circle is not None:
            yield _round(fixture.circle), fixture_name(fixture)
        elif fixture.region is not None:
            for patch in fixture.region.patches:
                yield patch.shell, fixture_name(fixture)


_STEPS = 48
"""Corners of a round column as drawn."""


def _round(circle: Circle) -> Line:
    (x, y), radius = circle.centre, circle.diameter_mm320 / 2
    angles = [2 * pi * step / _STEPS for step in range(_STEPS)]
    return tuple((x + radius * cos(a), y + radius * sin(a)) for a in angles)


def round_fixtures(room: Room) -> Iterator[tuple[Circle, str]]:
    """Round outlets, pipes and drains, with names."""
    for fixture in room.fixtures:
        if fixture.circle is not None and fixture.kind is not PieceKind.COLUMN:
            yield fixture.circle, fixture_name(fixture)


def _title(letters: Sequence[str], what: str, outs: Sequence[SettingOut]) -> str:
    tiles = ", ".join(dict.fromkeys(f"{out.tile} {out.bond.label}" for out in outs))
    return f"{_short_title(letters, what)}: {tiles}"


def _short_title(letters: Sequence[str], what: str) -> str:
    return f"{', '.join(letters)}  {what}"


def _tiles(outs: Sequence[SettingOut], letters: Sequence[str], job: Job) -> tuple[MarkedTile, ...]:
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


def _dimensions(out: SettingOut, job: Job) -> Iterator[Dimension]:
    """Two distances to the first tile, as the Setting out tab says them."""
    if not _has_start(out):
        return
    x, y = out.origin
    left, front, _, _ = out.region.bounds
    if out.kind is SurfaceKind.FLOOR:  # drawn in its room, out to the walls
        left, front = x - out.start_left_mm320, y - out.start_front_mm320
    if out.start_left_mm320 > 0:
        begin = x - out.start_left_mm320
        words = tape_words(out.start_left_mm320, job) + _TO_WALL * (begin < left)
        yield Dimension((max(begin, left), y), (x, y), words)
    if out.start_front_mm320 > 0:
        begin = y - out.start_front_mm320
        words = tape_words(out.start_front_mm320, job) + _TO_WALL * (begin < front)
        yield Dimension((x, max(begin, front)), (x, y), words)


_TO_WALL = " to wall"
"""Added where the wall that a distance is measured from lies outside the drawing."""


def _hole_name(room: Room, hole: Circle) -> str:
    return next((fixture_name(f) for f in room.fixtures if f.circle == hole), "")


def _gaps(region: Region) -> Iterator[Line]:
    """Niches and windows: holes in a wall's tiled parts that nothing else fills."""
    shells = {frozenset(patch.shell) for patch in region.patches}
    for patch in region.patches:
        for ring in patch.holes:
            if frozenset(ring) not in shells:
                yield ring


def _gap_name(room: Room, plane: str) -> str:
    niche = any(s.key.startswith(f"niche {plane}") for s in room.surfaces)
    opening = any(s.key.startswith(f"opening {plane}") for s in room.surfaces)
    return "niche" if niche and not opening else "opening" if not niche else ""
