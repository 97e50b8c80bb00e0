"""Cut pieces of tiles laid one by one, with their real shapes, cut out with shapely."""

from collections import Counter

import numpy as np
import shapely
from msgspec import Struct, field
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.room import Point, Ring
from sheetcalc.geometry.setting_out.chords import shortest_chords
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.patterns import Pattern
from sheetcalc.geometry.setting_out.pieces import Part
from sheetcalc.geometry.setting_out.plane import Plane, cosine_sine, parts_of_shape
from sheetcalc.geometry.setting_out.request import Request
from sheetcalc.geometry.setting_out.sampling import SPECK, Sampled

_TENTH = 32
"""Corners of cut pieces are given to 0.1 mm, so that alike pieces group [1/320 mm]."""

_MANY_CORNERS = 300


class Cuts(Struct):
    """Cut tiles with their shapes.

    Attributes
    ----------
    parts
        Parts of cut tiles, and whole tiles that are drilled, with how often each occurs.
    limits
        Chords along and across a tile that are smaller than these are small [1/320 mm].
    tiles, small, splits, holed
        Cut tiles, those with a small chord, those that fall into several parts, tiles with a
        round hole.
    shortest
        Shortest chord of a cut piece; at the tip of a pointed one its mean there [1/320 mm].
    neck
        Thinnest strip beside a hole [1/320 mm].
    sizes
        Shortest chords along and across the tile of parts met so far.
    """

    parts: Counter[Part]
    limits: tuple[float, float] = (0.0, 0.0)
    tiles: int = 0
    small: int = 0
    splits: int = 0
    holed: int = 0
    shortest: float | None = None
    neck: float | None = None
    sizes: dict[Part, tuple[float | None, float | None]] = field(default_factory=dict)


def cut_pieces(req: Request, plane: Plane, pattern: Pattern, sampled: Sampled) -> Cuts:
    """Cut the region to every tile that is not whole, or that a hole meets.

    Parameters
    ----------
    req
        What is set out.
    plane
        What is tiled, in the tile's frame.
    pattern
        The bond.
    sampled
        Where its tiles lie.
    """
    whole = sampled.areas >= pattern.length * pattern.width - SPECK
    circles = _circles(req)
    boxes = sampled.boxes
    check = ~whole
    for x, y, radius in circles:
        dx = np.maximum(np.maximum(boxes[:, 0] - x, x - boxes[:, 2]), 0)
        dy = np.maximum(np.maximum(boxes[:, 1] - y, y - boxes[:, 3]), 0)
        check |= dx * dx + dy * dy < radius * radius
    index = np.flatnonzero(check)
    cuts = Cuts(Counter(), (req.small_length, req.small_width))
    for place, shape in zip(index.tolist(), _cut_out(plane.shape, boxes[index]), strict=True):
        turned = bool(pattern.turned[int(sampled.member[place])])
        _one(cuts, pattern, circles, _Laid(boxes[place], turned, bool(whole[place])), shape)
    return cuts


class _Laid(Struct, frozen=True):
    """One tile: its box, whether its length runs along y, whether it is whole."""

    box: Floats
    turned: bool
    whole: bool


def _one(
    cuts: Cuts,
    pattern: Pattern,
    circles: list[tuple[float, float, float]],
    tile: _Laid,
    shape: BaseGeometry,
) -> None:
    """Note the parts of one tile."""
    pieces = [p for p in parts_of_shape(shape) if p.area > SPECK]
    if tile.whole:
        pieces = [shapely.box(*tile.box)]
    cuts.tiles += not tile.whole
    cuts.splits += len(pieces) > 1
    drilled = too_small = False
    for piece in pieces:
        own = [(x, y, r) for x, y, r in circles if piece.distance(shapely.Point(x, y)) < r]
        drilled = drilled or bool(own)
        if tile.whole and not own:
            continue
        part = _part(piece, tile, split=len(pieces) > 1, holes=len(own))
        cuts.parts[part] += 1
        if not tile.whole:
            sizes = cuts.sizes.get(part)
            if sizes is None:
                sizes = shortest_chords(part.outline, part.openings, pattern.length, pattern.width)
                cuts.sizes[part] = sizes
            too_small = too_small or _below(sizes, cuts.limits)
            for size in sizes:
                if size is not None:
                    cuts.shortest = size if cuts.shortest is None else min(cuts.shortest, size)
        for x, y, r in own:
            gap = piece.exterior.distance(shapely.Point(x, y)) - r
            if gap > 0:
                cuts.neck = gap if cuts.neck is None else min(cuts.neck, gap)
    cuts.holed += drilled
    cuts.small += too_small


def _below(sizes: tuple[float | None, float | None], limits: tuple[float, float]) -> bool:
    return any(s is not None and s < limit for s, limit in zip(sizes, limits, strict=True))


def _cut_out(shape: BaseGeometry, boxes: Floats) -> list[BaseGeometry]:
    """Cut the region to each box; region with very many corners strip by strip."""
    if shapely.get_num_coordinates(shape) <= _MANY_CORNERS:
        return list(shapely.intersection(shape, shapely.box(*boxes.T)))
    out: list[BaseGeometry] = []
    strips: dict[tuple[float, float], BaseGeometry] = {}
    for x0, y0, x1, y1 in boxes.tolist():
        if (x0, x1) not in strips:
            strip = shapely.clip_by_rect(shape, x0, -1e12, x1, 1e12)
            strips[x0, x1] = strip if strip.is_valid else shapely.make_valid(strip)
        out.append(shapely.intersection(strips[x0, x1], shapely.box(x0, y0, x1, y1)))
    return out


def _part(piece: shapely.Polygon, tile: _Laid, *, split: bool, holes: int) -> Part:
    """Put a piece into the tile's own frame, corners to 0.1 mm."""
    x0, y0, x1, _ = tile.box.tolist()
    width = x1 - x0

    def corners(line: shapely.LinearRing, *, outer: bool) -> Ring:
        points = shapely.get_coordinates(line)[:-1] - (x0, y0)
        if bool(shapely.is_ccw(line)) is not outer:  # shells counter-clockwise, holes clockwise
            points = np.concatenate((points[:1], points[:0:-1]))
        if tile.turned:  # the tile's length runs along y: turn it back by a right angle
            points = np.stack((points[:, 1], width - points[:, 0]), axis=1)
        grid = np.rint(points / _TENTH).astype(np.int64) * _TENTH
        return _plain([(u, v) for u, v in grid.tolist()])

    inner = tuple(corners(hole, outer=False) for hole in piece.interiors)
    return Part(corners(piece.exterior, outer=True), inner, split, holes)


def _plain(points: list[Point]) -> Ring:
    """Drop repeated corners and those on a straight line."""
    ring = [p for k, p in enumerate(points) if p != points[k - 1]]
    out = []
    for k, (x, y) in enumerate(ring):
        ax, ay = ring[k - 1]
        bx, by = ring[(k + 1) % len(ring)]
        if (x - ax) * (by - y) != (y - ay) * (bx - x):
            out.append((x, y))
    return tuple(out) if len(out) > 2 else tuple(ring)  # noqa: PLR2004 - a triangle at least


def _circles(req: Request) -> list[tuple[float, float, float]]:
    out = []
    for hole in req.surface.holes:
        x, y = turned_point(hole.centre, -req.degrees)
        out.append((float(x), float(y), hole.diameter_mm320 / 2))
    return out


def turned_point(point: Point, degrees: float) -> Floats:
    """Turn a point about the frame's origin, counter-clockwise."""
    c, s = cosine_sine(degrees)
    return np.array([c * point[0] - s * point[1], s * point[0] + c * point[1]])
