"""The outline of one room: from its sizes, its floor pieces or its wall legs, less the voids."""

from collections.abc import Sequence

from msgspec import Struct

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import FloorPiece, PieceKind, Point, Region, RoomDescription
from sheetcalc.geometry.plane.regions import (
    EMPTY,
    components,
    contains,
    difference,
    overlaps,
    rectangle,
    union,
)
from sheetcalc.geometry.rooms.legs import ClosedWalk, close_walk
from sheetcalc.geometry.rooms.pieces import PlacedPiece
from sheetcalc.geometry.rooms.reports import Report


class Outline(Struct, frozen=True):
    """Inside of a room's walls.

    Attributes
    ----------
    region
        With the voids taken out.
    full
        Before voids.
    sum_of_sides
        Left side plus right side of the frame's rectangle: mirroring turns left into this less
        left.
    legs
        Name, start, end of the wall legs, counter-clockwise; empty where there are none.
    slack_mm320
        How far a piece may miss the walls, because a misclosure was spread over them.
    """

    region: Region
    full: Region
    sum_of_sides: int
    legs: tuple[tuple[str, Point, Point], ...] = ()
    slack_mm320: int = 0


def outline_of(
    description: RoomDescription, placed: Sequence[PlacedPiece], job: Job, report: Report
) -> Outline | None:
    """Outline of a room, or None with the findings noted."""
    own = Report(report.room)
    outline = _outline(description, placed, job, own)
    report.add(own)
    return outline


def _outline(
    description: RoomDescription, placed: Sequence[PlacedPiece], job: Job, report: Report
) -> Outline | None:
    walk = close_walk(description.legs, job, report) if description.legs else None
    frame = _given_rectangle(description, report)
    if report.stopped:
        return None
    if walk and frame and not _agree(walk, frame, job):
        _note_disagreement(description, walk, report)
        return None
    floors = [p for p in placed if p.piece.kind is PieceKind.FLOOR and p.region]
    base = walk.region if walk else frame
    full = _with_floors(base, floors, report)
    if not full.patches:
        if not report.stopped:
            report.error("ROOM-WITHOUT-OUTLINE", description.source, "Length")
        return None
    voids = [p for p in placed if p.piece.kind is PieceKind.VOID and p.region]
    slack = walk.shift_mm320 + 2 if walk and walk.shift_mm320 else 0
    _check_voids(voids, full, slack, report)
    region = difference(full, *(v.region for v in voids if v.region)) if voids else full
    _check_parts(region, voids, description, report)
    if report.stopped:
        return None
    low, _, high, _ = frame.bounds if frame.patches else full.bounds
    return Outline(region, full, low + high, walk.legs if walk else (), slack)


def _given_rectangle(description: RoomDescription, report: Report) -> Region:
    """Give the rectangle of Length and Width; empty where neither is given."""
    length, width = description.length_mm320, description.width_mm320
    for header, size in (("Length", length), ("Width", width)):
        if size is not None and size <= 0:
            report.error("SIZE-NOT-POSITIVE", description.source, header, size=Length(size))
    if (length is None) != (width is None):
        missing = "Length" if length is None else "Width"
        report.error("ROOM-SIZE-INCOMPLETE", description.source, missing, missing=missing)
    if length is None or width is None:
        return EMPTY
    return rectangle(0, 0, length, width)


def _agree(walk: ClosedWalk, frame: Region, job: Job) -> bool:
    """Whether a walk and a rectangle are one outline, within the misclosure tolerance."""
    if not frame.patches:
        return True
    x0, y0, x1, y1 = walk.region.bounds
    _, _, length, width = frame.bounds
    tolerance = job.misclosure_tolerance_mm320
    off = (x1 - x0 - length, y1 - y0 - width)
    missing = (x1 - x0) * (y1 - y0) - walk.region.area_mm320
    return max(map(abs, off)) <= tolerance and missing <= tolerance * (length + width)


def _note_disagreement(description: RoomDescription, walk: ClosedWalk, report: Report) -> None:
    x0, y0, x1, y1 = walk.region.bounds
    report.error(
        "OUTLINES-DISAGREE",
        description.source,
        "Length",
        length=Length(description.length_mm320 or 0, small=False),
        width=Length(description.width_mm320 or 0, small=False),
        other="the wall legs",
        other_length=Length(x1 - x0, small=False),
        other_width=Length(y1 - y0, small=False),
    )


def _with_floors(base: Region, floors: Sequence[PlacedPiece], report: Report) -> Region:
    """Join base and floor pieces, which may touch each other but not overlap."""
    for i, floor in enumerate(floors):
        if floor.region and base.patches and overlaps(base, floor.region):
            report.error(
                "FLOOR-PIECE-OVERLAPS",
                floor.piece.source,
                "Left",
                floor.piece.name,
                piece=floor.piece.name,
                other="the outline that Rooms or Wall legs give",
            )
        for other in floors[:i]:
            if floor.region and other.region and overlaps(floor.region, other.region):
                report.error(
                    "FLOOR-PIECE-OVERLAPS",
                    floor.piece.source,
                    "Left",
                    floor.piece.name,
                    piece=floor.piece.name,
                    other=other.piece.name,
                )
    return union([base, *(f.region for f in floors if f.region)])


def _check_voids(voids: Sequence[PlacedPiece], full: Region, slack: int, report: Report) -> None:
    for void in voids:
        if void.region and not contains(full, void.region, slack):
            note_outside(void.piece, full, report)


def note_outside(piece: FloorPiece, outline: Region, report: Report) -> None:
    """Note that a piece sticks out of the outline, with the rectangle round the outline."""
    x0, y0, x1, y1 = outline.bounds
    report.error(
        "PIECE-OUTSIDE-OUTLINE",
        piece.source,
        "Left",
        piece.name,
        piece=piece.name,
        kind=piece.kind.value,
        least_left=Length(x0, small=False),
        least_front=Length(y0, small=False),
        most_left=Length(x1, small=False),
        most_front=Length(y1, small=False),
    )


def _check_parts(
    region: Region, voids: Sequence[PlacedPiece], description: RoomDescription, report: Report
) -> None:
    """Note a room that is in several parts, or that voids leave nothing of."""
    parts = components(region)
    if not parts:
        report.error("ROOM-WITHOUT-FLOOR", description.source, None)
    elif len(parts) > 1:
        cause = voids[0].piece.source if voids else description.source
        report.error("ROOM-IN-TWO-PARTS", cause, None, parts=len(parts))
