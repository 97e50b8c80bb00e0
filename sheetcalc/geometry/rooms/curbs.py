"""Curbs: top, faces, ends where they are free, and the bends and corners to seal."""

from collections.abc import Sequence
from math import hypot

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Region, Surface
from sheetcalc.geometry.plane.contacts import (
    Line,
    contact,
    edges_of,
    length_of,
    less,
    shared_length,
    total,
)
from sheetcalc.geometry.plane.regions import EMPTY, rectangle
from sheetcalc.geometry.rooms.outline_shape import Outline
from sheetcalc.geometry.rooms.pieces import PlacedPiece


class CurbWork(Struct, frozen=True):
    """One curb: its place, its free sides and the ends that meet a wall."""

    placed: PlacedPiece
    region: Region
    surfaces: tuple[Surface, ...]
    wall_contacts: int
    wall_contact_mm320: int


def curb_work(
    placed: PlacedPiece,
    region: Region,
    solid: Sequence[Region],
    outline: Outline,
) -> CurbWork:
    """Top, faces and ends of a curb; a side has none where it meets a wall or what stands there.

    The faces run along the long side, the ends across it.  Open edges: the free sides of the top.
    """
    piece = placed.piece
    height = piece.height_mm320 or 0
    left, front = piece.left_mm320 or 0, piece.front_mm320 or 0
    length, width = piece.length_mm320 or 0, piece.width_mm320 or 0
    near, far = (
        ((left, front), (left + length, front)),
        (
            (left, front + width),
            (left + length, front + width),
        ),
    )
    sides: list[Line] = [near, far, (near[0], far[0]), (near[1], far[1])]
    if length < width:
        sides = sides[2:] + sides[:2]
    walls = edges_of(outline.region)
    blocks = edges_of(*solid)
    wall_contacts = wall_contact = 0
    free: list[int] = []
    for side in sides:
        on_walls = contact(side, walls, outline.slack_mm320)
        wall_contacts += len(on_walls)
        wall_contact += total(on_walls)
        whole = ((0, length_of(side)),)
        free.append(total(less(whole, on_walls, contact(side, blocks, outline.slack_mm320))))
    name = f"curb {piece.name}"
    made = [Surface(f"{name} top", SurfaceKind.CURB, region, (), sum(free), piece.source)]
    for label, size in zip(("face 1", "face 2", "end 1", "end 2"), free, strict=True):
        side_region = rectangle(0, 0, size, height) if size else EMPTY
        made.append(Surface(f"{name} {label}", SurfaceKind.CURB, side_region, source=piece.source))
    return CurbWork(
        placed,
        region,
        tuple(s for s in made if s.region.patches),
        wall_contacts,
        wall_contact,
    )


def bends_of_curbs(curbs: Sequence[CurbWork], tiled_edges: Sequence[Line], slack_mm320: int) -> int:
    """Measure the bends of curbs: their foot on the main floor, and up and over at the walls."""
    if not curbs:
        return 0
    foot = shared_length(edges_of(*(c.region for c in curbs)), tiled_edges, slack_mm320)
    return foot + sum(
        2 * c.wall_contacts * (c.placed.piece.height_mm320 or 0) + c.wall_contact_mm320
        for c in curbs
    )


def corners_of_curbs(curbs: Sequence[CurbWork], upstands: Sequence[Line], slack_mm320: int) -> int:
    """Count outside corner pieces: one where a curb meets a wall, one at each free corner."""
    count = sum(c.wall_contacts for c in curbs)
    for curb in curbs:
        solid = [*upstands, *edges_of(*(c.region for c in curbs if c is not curb))]
        count += sum(
            not any(_on(line, point, slack_mm320) for line in solid)
            for patch in curb.region.patches
            for point in patch.shell
        )
    return count


def _on(line: Line, point: tuple[int, int], slack: int) -> bool:
    (x0, y0), (x1, y1) = line
    px, py = point
    if not (
        min(x0, x1) - slack <= px <= max(x0, x1) + slack
        and min(y0, y1) - slack <= py <= max(y0, y1) + slack
    ):
        return False
    off = abs((x1 - x0) * (py - y0) - (y1 - y0) * (px - x0)) / hypot(x1 - x0, y1 - y0)
    return off <= max(slack, 2 if x0 != x1 and y0 != y1 else 0)
