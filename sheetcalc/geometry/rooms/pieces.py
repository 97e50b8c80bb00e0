"""Pieces of a floor: their shapes, and which of them may meet."""

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import hypot
from typing import Final

from msgspec import Struct

from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import Circle, FloorPiece, PieceKind, Region
from sheetcalc.geometry.plane.points import covers_circle, polygon_of_circle, touches_circle
from sheetcalc.geometry.plane.regions import contains, overlaps, rectangle
from sheetcalc.geometry.rooms.reports import Report
from sheetcalc.rules.shower import is_channel

ROUND: Final = frozenset({PieceKind.TOILET_OUTLET, PieceKind.PIPE})
EITHER: Final = frozenset({PieceKind.DRAIN, PieceKind.COLUMN})
POINTS: Final = frozenset({PieceKind.DOORWAY, PieceKind.THERMOSTAT})

_ON_SHOWER_FLOORS: Final = frozenset({PieceKind.BATH, PieceKind.CABINET})
_FIRST: Final = (PieceKind.VOID, PieceKind.COLUMN, PieceKind.CURB)
_BELOW: Final = frozenset({*_FIRST, PieceKind.SHOWER_FLOOR, PieceKind.INSET})


class PlacedPiece(Struct, frozen=True):
    """A piece with its shape on the floor.

    A round column also has the polygon of its area; of other round pieces the region is only the
    square round them, for a first look at what may meet.
    """

    piece: FloorPiece
    region: Region | None
    circle: Circle | None = None

    @property
    def is_hole(self) -> bool:
        """Whether the tile is drilled for it: outlets, pipes and round drains."""
        return self.circle is not None and self.piece.kind is not PieceKind.COLUMN

    @property
    def is_channel(self) -> bool:
        """Whether it is a channel drain."""
        if self.piece.kind is not PieceKind.DRAIN or self.region is None or self.circle:
            return False
        x0, y0, x1, y1 = self.region.bounds
        return is_channel(x1 - x0, y1 - y0)


def place_pieces(pieces: Iterable[FloorPiece], report: Report) -> list[PlacedPiece]:
    """Shape every piece that takes floor; missing and doubtful sizes are findings.

    An empty Left or Front is 0.  Round pieces are placed by their centre, all others by their
    near left corner.
    """
    placed = []
    seen: set[str] = set()
    for piece in pieces:
        if piece.name.casefold() in seen:
            report.error("PIECE-NAME-TWICE", piece.source, "Piece", piece.name, piece=piece.name)
        seen.add(piece.name.casefold())
        if piece.kind not in POINTS:
            shaped = _shape(piece, report)
            if shaped:
                placed.append(shaped)
    return placed


def _shape(piece: FloorPiece, report: Report) -> PlacedPiece | None:
    is_round = piece.kind in ROUND or (piece.kind in EITHER and piece.diameter_mm320 is not None)
    sizes = (
        ("Length", piece.length_mm320),
        ("Width", piece.width_mm320),
        ("Diameter", piece.diameter_mm320),
    )
    wanted = {"Diameter"} if is_round else {"Length", "Width"}
    needed = wanted | ({"Height"} if piece.kind is PieceKind.CURB else set())
    before = len(report.findings)
    for header, size in (*sizes, ("Height", piece.height_mm320)):
        if header in needed and size is None:
            report.error(
                "PIECE-SIZE-MISSING", piece.source, header, piece.name,
                piece=piece.name, kind=piece.kind.value, missing=header,
            )  # fmt: skip
        elif size is not None and size <= 0:
            report.error("SIZE-NOT-POSITIVE", piece.source, header, piece.name, size=Length(size))
        elif size is not None and header not in wanted and header != "Height":
            report.error(
                "PIECE-SHAPE-UNCLEAR", piece.source, header, piece.name,
                piece=piece.name, kind=piece.kind.value,
                shape="round" if is_round else "a rectangle", extra=header,
            )  # fmt: skip
    if len(report.findings) > before:
        return None
    left, front = piece.left_mm320 or 0, piece.front_mm320 or 0
    if is_round:
        circle = Circle((left, front), piece.diameter_mm320 or 0)
        if piece.kind is PieceKind.COLUMN:
            return PlacedPiece(piece, polygon_of_circle(circle), circle)
        across = circle.diameter_mm320
        square = rectangle(left - across // 2, front - across // 2, across, across)
        return PlacedPiece(piece, square, circle)
    length, width = piece.length_mm320 or 0, piece.width_mm320 or 0
    return PlacedPiece(piece, rectangle(left, front, length, width))


def check_overlaps(placed: Sequence[PlacedPiece], report: Report) -> None:
    """Note every two pieces that overlap.

    A drain wholly in a shower floor and a pipe in a cabinet may.  Where a void, a column or a
    curb meets one of these or a shower floor or an inset, precedence decides and a warning says
    so; a hole in an inset, or a pipe or an outlet in a shower floor, is drilled there, and a bath
    or a cabinet stands on a shower floor (in a wet room), with a warning.  Any other overlap is
    an error.
    """
    shaped = [p for p in placed if p.piece.kind is not PieceKind.FLOOR]
    for one, other in combinations(shaped, 2):
        if not _overlap(one, other):
            continue
        first, second = sorted((one, other), key=_precedence)
        verdict = _verdict(first, second)
        takes = second if _stands_on(first, second) else first
        facts = {
            "piece": second.piece.name,
            "kind": second.piece.kind.value,
            "other": first.piece.name,
            "other_kind": first.piece.kind.value,
            "takes": takes.piece.name,
        }
        if verdict == "error":
            report.error("PIECES-OVERLAP", second.piece.source, "Left", second.piece.name, **facts)
        elif verdict == "warning":
            report.remark("PIECES-MEET", second.piece.source, "Left", second.piece.name, **facts)


def _precedence(placed: PlacedPiece) -> int:
    order = (*_FIRST, PieceKind.SHOWER_FLOOR)
    kind = placed.piece.kind
    if placed.is_hole or kind is PieceKind.DRAIN:
        return len(order) + 1
    return order.index(kind) if kind in order else len(order)


def _verdict(first: PlacedPiece, second: PlacedPiece) -> str:
    """Say what an overlap is: "fine", "warning" or "error"; the first takes precedence."""
    kinds = first.piece.kind, second.piece.kind
    if kinds == (PieceKind.SHOWER_FLOOR, PieceKind.DRAIN):
        if first.region is None or second.region is None:
            return "fine"
        inside = (
            covers_circle(first.region, second.circle)
            if second.circle
            else contains(first.region, second.region)
        )
        return "fine" if inside else "error"
    if kinds == (PieceKind.CABINET, PieceKind.PIPE):
        return "fine"
    if kinds == (PieceKind.CURB, PieceKind.CURB):
        return "error"
    if kinds[0] in _FIRST and kinds[1] in _BELOW:
        return "warning"
    drilled = kinds[0] is PieceKind.INSET and (second.is_hole or kinds[1] is PieceKind.DRAIN)
    piped = kinds[0] is PieceKind.SHOWER_FLOOR and kinds[1] in ROUND
    return "warning" if drilled or piped or _stands_on(first, second) else "error"


def _stands_on(first: PlacedPiece, second: PlacedPiece) -> bool:
    """Whether the second stands on a shower floor, as in a wet room, and takes floor from it."""
    return first.piece.kind is PieceKind.SHOWER_FLOOR and second.piece.kind in _ON_SHOWER_FLOORS


def _overlap(one: PlacedPiece, other: PlacedPiece) -> bool:
    """Whether two pieces have floor in common."""
    if one.region is None or other.region is None:
        return False
    a, b = one.region.bounds, other.region.bounds
    if a[0] >= b[2] or b[0] >= a[2] or a[1] >= b[3] or b[1] >= a[3]:
        return False
    if one.circle and other.circle:
        (x0, y0), (x1, y1) = one.circle.centre, other.circle.centre
        apart = hypot(x1 - x0, y1 - y0)
        return apart < (one.circle.diameter_mm320 + other.circle.diameter_mm320) / 2 - 1
    if one.circle:
        return touches_circle(other.region, one.circle)
    if other.circle:
        return touches_circle(one.region, other.circle)
    return overlaps(one.region, other.region)
