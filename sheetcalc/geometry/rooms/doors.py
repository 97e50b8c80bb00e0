"""Doorways and thermostats: stretches and points of the outline."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import FloorPiece, PieceKind, Span
from sheetcalc.geometry.plane.contacts import Line, contact
from sheetcalc.geometry.rooms.reports import Report, nearest_names
from sheetcalc.geometry.rooms.walls import (
    PlacedWall,
    stretch_at_point,
    stretch_on_wall,
    walls_of_side,
)

_NEAR_ENOUGH_MM320: Final = 320  # a point within 1 mm of a wall is on it


def place_spans(
    pieces: Sequence[FloorPiece], walls: Sequence[PlacedWall], slack_mm320: int, report: Report
) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """Doorways and thermostats of a room, with what is impossible noted.

    A doorway or thermostat that names its wall gives one distance: Left on the near or far wall,
    Front on the right or left wall (whichever of the two is filled counts where only one is),
    from the start of a leg otherwise.
    """
    doorways = _spans(pieces, PieceKind.DOORWAY, walls, slack_mm320, report)
    thermostats = _spans(pieces, PieceKind.THERMOSTAT, walls, slack_mm320, report)
    for i, door in enumerate(doorways):
        for other in doorways[:i]:
            if contact((door.start, door.end), [(other.start, other.end)]):
                report.error(
                    "DOORWAYS-OVERLAP", door.source, "Left", door.name,
                    piece=door.name, other=other.name,
                )  # fmt: skip
    return doorways, thermostats


def _spans(
    pieces: Sequence[FloorPiece],
    kind: PieceKind,
    walls: Sequence[PlacedWall],
    slack: int,
    report: Report,
) -> tuple[Span, ...]:
    spans = []
    for piece in pieces:
        if piece.kind is kind:
            found = _stretch(piece, walls, slack, report)
            if found:
                index, (start, end) = found
                name = walls[index].wall.name
                spans.append(Span(piece.name, name, start, end, piece.source, piece.through_to))
    return tuple(spans)


def _stretch(
    piece: FloorPiece, walls: Sequence[PlacedWall], slack: int, report: Report
) -> tuple[int, Line] | None:
    """Stretch of a wall that a doorway or thermostat takes, or None with a finding noted."""
    length, width = _sizes(piece, report)
    if piece.kind is PieceKind.DOORWAY and not (length or width):
        if not report.stopped or piece.length_mm320 is None:
            report.error(
                "PIECE-SIZE-MISSING", piece.source, "Length", piece.name,
                piece=piece.name, kind=piece.kind.value, missing="Length",
            )  # fmt: skip
        return None
    given = [at for at in (piece.left_mm320, piece.front_mm320) if at is not None]
    if not given:
        report.error(
            "PIECE-PLACE-MISSING", piece.source, "Left", piece.name,
            piece=piece.name, kind=piece.kind.value,
        )  # fmt: skip
        return None
    if piece.wall:
        candidates = walls_of_side(piece.wall, walls)
        if not candidates:
            report.error(
                "WALL-UNKNOWN", piece.source, "Wall", piece.name, wall=piece.wall,
                known=nearest_names(piece.wall, [w.wall.name for w in walls]),
            )  # fmt: skip
            return None
        on_front = walls[candidates[0]].side in ("right", "left")
        both = len(given) > 1
        distance = given[1 if both and on_front else 0]
        found = stretch_on_wall(piece.wall, distance, length or width, walls)
    else:
        point = (piece.left_mm320 or 0, piece.front_mm320 or 0)
        near = max(slack, _NEAR_ENOUGH_MM320)
        found = stretch_at_point(point, length, width, walls, near)
    if found is None:
        thermostat = piece.kind is PieceKind.THERMOSTAT
        report.error(
            "THERMOSTAT-NOT-ON-OUTLINE" if thermostat else "DOORWAY-NOT-ON-OUTLINE",
            piece.source, "Left" if piece.left_mm320 is not None else "Front", piece.name,
            piece=piece.name, wall=piece.wall or "any wall",
            left=Length(piece.left_mm320 or 0, small=False),
            front=Length(piece.front_mm320 or 0, small=False),
            size=Length(length or width, small=False),
        )  # fmt: skip
    return found


def _sizes(piece: FloorPiece, report: Report) -> tuple[int, int]:
    """Length and width of a doorway; a thermostat is a point whatever is typed."""
    for header, size in (("Length", piece.length_mm320), ("Width", piece.width_mm320)):
        if size is not None and size <= 0:
            report.error("SIZE-NOT-POSITIVE", piece.source, header, piece.name, size=Length(size))
    if piece.kind is PieceKind.THERMOSTAT:
        return 0, 0
    return max(piece.length_mm320 or 0, 0), max(piece.width_mm320 or 0, 0)
