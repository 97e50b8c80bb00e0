"""One shower floor: its falls to the drain, and the upstands round it."""

from collections.abc import Sequence
from math import hypot

from msgspec import Struct

from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.domain.room import PieceKind, Point, Region
from sheetcalc.domain.room_measures import ShowerMeasures
from sheetcalc.geometry.plane.contacts import (
    Edges,
    Line,
    contact,
    edges_of,
    length_of,
    less,
    shared_length,
    together,
    total,
)
from sheetcalc.geometry.plane.points import rings_of, touches_circle
from sheetcalc.geometry.plane.regions import contains
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.pieces import PlacedPiece


class Surroundings(Struct, frozen=True):
    """What a shower floor may lie against.

    Attributes
    ----------
    walls
        Every wall with its doorways.
    curb_edges
        Edges of all curbs.
    drains
        All drains of the room.
    slack_mm320
        How far an edge may lie off a wall and still count as on it.
    """

    walls: Sequence[tuple[Line, tuple[Interval, ...]]]
    curb_edges: Sequence[Line]
    drains: Sequence[PlacedPiece]
    slack_mm320: int


def measure_shower(placed: PlacedPiece, region: Region, around: Surroundings) -> ShowerMeasures:
    """Measure a shower floor: the piece, and what columns, curbs and square drains leave of it."""
    walls, curb_edges, slack_mm320 = around.walls, around.curb_edges, around.slack_mm320
    edges = edges_of(region)
    own_drains = [d for d in around.drains if _lies_in(d, placed)]
    wall_lines = [line for line, _ in walls]
    on_walls = sum(total(less(contact(line, edges, slack_mm320), doors)) for line, doors in walls)
    on_curbs = shared_length(edges, curb_edges, slack_mm320)
    inside, outside = upstand_corners(region, [*wall_lines, *curb_edges], slack_mm320)
    edge, corner, channel = _falls(region, own_drains)
    return ShowerMeasures(
        surface=f"shower floor {placed.piece.name}",
        area_m2=region.area_m2,
        drains=len(own_drains),
        channel=channel,
        edge_distance_m=edge / MM320_PER_METRE,
        corner_distance_m=corner / MM320_PER_METRE,
        wall_edge_m=on_walls / MM320_PER_METRE,
        curb_edge_m=on_curbs / MM320_PER_METRE,
        inside_corners=inside,
        outside_corners=outside,
    )


def _lies_in(drain: PlacedPiece, shower: PlacedPiece) -> bool:
    if drain.piece.kind is not PieceKind.DRAIN or not (drain.region and shower.region):
        return False
    if drain.circle:
        return touches_circle(shower.region, drain.circle)
    return contains(shower.region, drain.region)


def upstand_corners(region: Region, upstands: Sequence[Line], slack: int) -> tuple[int, int]:
    """Count inside and outside corners at which both sides run along a wall or a curb."""
    inside = outside = 0
    upstands = upstands if isinstance(upstands, Edges) else Edges(upstands)
    for ring in rings_of(region):
        count = len(ring)
        held = []
        for i in range(count):
            line = (ring[i], ring[(i + 1) % count])
            found = together(contact(line, upstands, slack))
            held.append(
                (
                    bool(found) and found[0][0] <= slack,
                    bool(found) and found[-1][1] >= length_of(line) - slack,
                )
            )
        for i, (x, y) in enumerate(ring):
            if not (held[i - 1][1] and held[i][0]):
                continue
            (x0, y0), (x1, y1) = ring[i - 1], ring[(i + 1) % count]
            turn = (x - x0) * (y1 - y) - (y - y0) * (x1 - x)
            inside += turn > 0
            outside += turn < 0
    return inside, outside


def falls_to(shower: PlacedPiece, drains: Sequence[PlacedPiece]) -> Point | None:
    """Give the middle of the only drain of a shower floor; None for a channel, several or none."""
    own = [drain for drain in drains if _lies_in(drain, shower)]
    return _centre(own[0]) if len(own) == 1 and not own[0].is_channel else None


def _falls(region: Region, drains: Sequence[PlacedPiece]) -> tuple[float, float, bool]:
    """Longest fall square to an edge, longest to a corner [1/320 mm], and whether to a channel."""
    x0, y0, x1, y1 = region.bounds
    if not drains:
        return 0.0, 0.0, False
    channel = next((d for d in drains if d.is_channel and d.region), None)
    if channel and channel.region:
        a0, b0, a1, b1 = channel.region.bounds
        across = (y1 - b1, b0 - y0) if a1 - a0 >= b1 - b0 else (x1 - a1, a0 - x0)
        fall = float(max(across))
        return fall, fall, True
    centres = [_centre(d) for d in drains]
    corners = [p for patch in region.patches for p in patch.shell]
    edge = (
        max(min(abs(x - cx) for cx, _ in centres) for x in (x0, x1)),
        max(min(abs(y - cy) for _, cy in centres) for y in (y0, y1)),
    )
    corner = max(min(hypot(px - cx, py - cy) for cx, cy in centres) for px, py in corners)
    return float(max(edge)), corner, False


def _centre(drain: PlacedPiece) -> Point:
    if drain.circle:
        return drain.circle.centre
    x0, y0, x1, y1 = drain.region.bounds if drain.region else (0, 0, 0, 0)
    return (x0 + x1) // 2, (y0 + y1) // 2
