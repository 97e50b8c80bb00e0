"""One room worked out from its description, for one finish."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import (
    Fixture,
    FloorPiece,
    PartKind,
    PieceKind,
    Room,
    RoomDescription,
)
from sheetcalc.geometry.plane.contacts import edges_of
from sheetcalc.geometry.plane.points import covers_circle
from sheetcalc.geometry.plane.regions import contains
from sheetcalc.geometry.rooms.backing import backed_stretches, stretches_with
from sheetcalc.geometry.rooms.doors import place_spans
from sheetcalc.geometry.rooms.faces import place_faces
from sheetcalc.geometry.rooms.floor_surfaces import STANDING, floor_surfaces
from sheetcalc.geometry.rooms.measures import Measured, measure_room
from sheetcalc.geometry.rooms.outline_shape import Outline, note_outside, outline_of
from sheetcalc.geometry.rooms.pieces import PlacedPiece, check_overlaps, place_pieces
from sheetcalc.geometry.rooms.reports import Report
from sheetcalc.geometry.rooms.tiled_over import note_tiled_over
from sheetcalc.geometry.rooms.wall_surfaces import wall_surfaces
from sheetcalc.geometry.rooms.walls import name_walls

_OUTLINE_KINDS: Final = frozenset({PieceKind.FLOOR, PieceKind.VOID})
_NEEDS_ROW: Final[Mapping[PieceKind | PartKind, SurfaceKind]] = {
    PieceKind.INSET: SurfaceKind.INSET,
    PieceKind.SHOWER_FLOOR: SurfaceKind.SHOWER_FLOOR,
    PieceKind.CURB: SurfaceKind.CURB,
    PartKind.FACE: SurfaceKind.WALL,
    PartKind.NICHE: SurfaceKind.NICHE,
    PartKind.INSET: SurfaceKind.INSET,
}


class RoomPlan(Struct, frozen=True):
    """A room worked out as described, and what mirroring it needs."""

    room: Room
    sum_of_sides: int
    wall_planes: Mapping[str, int]


def plan_room(
    description: RoomDescription, finish: Finish | None, job: Job, report: Report
) -> RoomPlan | None:
    """Work a room out, or None where it is impossible; what is found is noted all at once."""
    placed = place_pieces(description.pieces, report)
    check_overlaps(placed, report)
    _check_wet_areas(description, finish, report)
    if _outline_pieces(description.pieces) != _outline_pieces(p.piece for p in placed):
        return None  # a part of the outline has no size: anything else said would mislead
    outline = outline_of(description, placed, job, report)
    if outline is None:
        return None
    slack = outline.slack_mm320
    _check_inside(placed, outline, report)
    walls = name_walls(outline.region, outline.legs, slack)
    doorways, thermostats = place_spans(description.pieces, walls, slack, report)
    sheets = place_faces(description.faces, walls, slack, report)
    if report.stopped:
        return None
    note_tiled_over(sheets, walls, doorways, placed, finish, report)
    floor = floor_surfaces(placed, outline, job)
    standing = [x.region for x in placed if x.piece.kind in STANDING and x.region]
    below = [*edges_of(*standing), *((door.start, door.end) for door in doorways)]
    wall_work = wall_surfaces(sheets, walls, finish, below, slack)
    measures = measure_room(
        Measured(
            outline,
            walls,
            tuple(placed),
            doorways,
            floor,
            wall_work,
            job,
            backed_stretches(sheets, walls),
            stretches_with(PartKind.FACE, sheets, walls),
            stretches_with(PartKind.WET_AREA, sheets, walls),
        )
    )
    for shower in measures.showers:
        if not shower.drains:
            name = shower.surface
            source = next(s.source for s in floor.surfaces if s.key == name)
            report.remark("SHOWER-WITHOUT-DRAIN", source, "Piece", name, piece=name)
    room = Room(
        name=description.name,
        phase=description.phase,
        count=description.count,
        copies=description.copies or (description.name,),
        finish=description.finish,
        take_up=description.take_up,
        take_up_thickness_mm320=description.take_up_thickness_mm320,
        handed=False,
        note=description.note,
        source=description.source,
        shape="",
        outline=outline.region,
        walls=tuple(w.wall for w in walls),
        surfaces=(*floor.surfaces, *wall_work.surfaces),
        fixtures=_fixtures(placed),
        doorways=doorways,
        thermostats=thermostats,
        measures=measures,
    )
    return RoomPlan(room, outline.sum_of_sides, wall_work.planes)


def _outline_pieces(pieces: Iterable[FloorPiece]) -> int:
    """Count the pieces that make the outline."""
    return sum(p.kind in _OUTLINE_KINDS for p in pieces)


def _fixtures(placed: Sequence[PlacedPiece]) -> tuple[Fixture, ...]:
    """Every placed piece but those that make the outline; a round one has only its circle."""
    return tuple(
        Fixture(
            p.piece.name,
            p.piece.kind,
            None if p.circle else p.region,
            p.circle,
            p.piece.height_mm320,
            p.piece.source,
        )
        for p in placed
        if p.piece.kind not in _OUTLINE_KINDS
    )


def _check_inside(placed: Sequence[PlacedPiece], outline: Outline, report: Report) -> None:
    """Note pieces that stick out of the walls; one in a void is noted as an overlap."""
    slack = outline.slack_mm320
    for p in placed:
        if p.piece.kind in _OUTLINE_KINDS or p.region is None:
            continue
        inside = (
            covers_circle(outline.full, p.circle, max(slack, 1))
            if p.circle
            else contains(outline.full, p.region, slack)
        )
        if not inside:
            note_outside(p.piece, outline.full, report)


def _check_wet_areas(description: RoomDescription, finish: Finish | None, report: Report) -> None:
    """Note wet areas whose finish has no row for them: they would stay untiled silently."""
    if finish is None or _has_row(finish, SurfaceKind.WET_AREA):
        return
    for face in description.faces:
        if face.part is PartKind.WET_AREA:
            report.error(
                "WET-AREA-WITHOUT-FINISH", face.source, "Part", face.wall,
                wall=face.wall, finish=finish.name,
            )  # fmt: skip
            return


def _has_row(finish: Finish, kind: SurfaceKind) -> bool:
    return kind in finish.surfaces or bool(finish.layers.get(kind))


def untiled_parts(description: RoomDescription, finish: Finish) -> list[Finding]:
    """Warnings for what was measured but has no row in the finish, once a kind."""
    findings = {}
    for row, source, name in _measured_parts(description):
        kind = _NEEDS_ROW.get(row)
        if kind and kind not in findings and not _has_row(finish, kind):
            facts = {"surface": kind.value, "finish": finish.name, "part": name}
            column = "Kind" if isinstance(row, PieceKind) else "Part"
            findings[kind] = Finding(
                "SURFACE-NOT-TILED", source, column, facts, description.name, kind.value
            )
    return list(findings.values())


def _measured_parts(
    description: RoomDescription,
) -> Iterator[tuple[PieceKind | PartKind, RowRef, str]]:
    for piece in description.pieces:
        yield piece.kind, piece.source, piece.name
    for face in description.faces:
        yield face.part, face.source, f"{face.part.value} on {face.wall}"
