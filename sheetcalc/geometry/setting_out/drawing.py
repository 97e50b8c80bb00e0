"""Tiles of a setting-out as polygons, for drawings; worked out only when asked for."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import TypeAlias

import numpy as np
import shapely
from msgspec import Struct

from sheetcalc.domain.finish import Bond
from sheetcalc.domain.room import Point, Region
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.ownership import owners_of_pieces, parts_within
from sheetcalc.geometry.setting_out.patterns import Pattern, pattern_for, repeats_over
from sheetcalc.geometry.setting_out.plane import (
    cosine_sine,
    gapped,
    parted,
    turn_shape,
)
from sheetcalc.geometry.setting_out.sampling import SPECK
from sheetcalc.geometry.setting_out.slabs import Flags, Ints, Segment

Ring: TypeAlias = tuple[tuple[float, float], ...]
"""Corners, the first not repeated."""


class DrawnTile(Struct, frozen=True):
    """One piece of tile as it lies.

    Attributes
    ----------
    ring
        Corners in the surface's frame [1/320 mm], the first not repeated.
    openings
        Straight-sided holes in it, alike.
    cut
        Whether it is cut.
    small
        Whether less than the share asked for is left of it.
    own
        Of a cut piece, its corners in the tile's own frame, as in the cut list [1/320 mm].
    """

    ring: Ring
    openings: tuple[Ring, ...]
    cut: bool
    small: bool
    own: Ring = ()


def tiles_of(
    out: SettingOut, gap_mm320: int = 0, small_share: float = 0.0, most: int = 20_000
) -> tuple[DrawnTile, ...]:
    """Lay out every tile of a surface; sheets of a mosaic, not chips.

    Parameters
    ----------
    out
        The setting-out.
    gap_mm320
        Perimeter gap, where the setting-out does not say its own [1/320 mm].
    small_share
        Cuts with less of a tile than this are marked small.
    most
        Above so many tiles none is drawn.

    Returns
    -------
    tuple of DrawnTile
        Empty where tiles were counted by area.
    """
    if out.by_area or not out.region.patches or out.whole + out.cut == 0:
        return ()
    if out.whole + out.cut > most:
        return ()
    laid = _laid_over(
        _Plane(
            regions=out.through or (out.region,),
            gap=out.gap_mm320 if out.gap_mm320 >= 0 else gap_mm320,
            joint_edges=out.joint_edges,
            joint=out.joint_mm320,
            hips=out.hips,
            hip=out.hip_mm320,
            degrees=out.turn_degrees,
            bond=Bond() if out.sheet_chips != (0, 0) else out.bond,
            face=out.face_mm320,
            leftward=out.laid_rows == "to the left",
            anchor=out.anchor,
        )
    )
    own = laid.owners == out.through_at
    polygons, boxes, upright, areas = (
        each[own] for each in (laid.polygons, laid.boxes, laid.upright, laid.areas)
    )
    full = out.face_mm320[0] * out.face_mm320[1]
    corners, of = shapely.get_coordinates(shapely.get_exterior_ring(polygons), return_index=True)
    in_tile = _in_own_tile(corners, boxes[of], upright[of], out.face_mm320[1])
    return tuple(
        DrawnTile(ring, openings, is_cut, is_small, cut_out if is_clipped else ())
        for ring, openings, is_cut, is_small, cut_out, is_clipped in zip(
            _rings(_turned(corners, out.turn_degrees), of),
            _openings(polygons, out.turn_degrees),
            (areas < full - SPECK).tolist(),
            (areas < small_share * full).tolist(),
            _rings(in_tile, of),
            laid.clipped[own].tolist(),
            strict=True,
        )
    )


class _Plane(Struct, frozen=True):
    """What tiles are laid over: one surface, or several through which they run as one."""

    regions: tuple[Region, ...]
    gap: int
    joint_edges: tuple[Segment, ...]
    joint: int
    hips: tuple[Segment, ...]
    hip: int
    degrees: float
    bond: Bond
    face: Point
    leftward: bool
    anchor: tuple[float, float]


class _Laid(Struct, frozen=True):
    """Pieces of tile in the tile's frame, and of each piece: its tile, its area, whose it is."""

    polygons: np.ndarray
    boxes: Floats
    upright: Flags
    clipped: Flags
    areas: Floats
    owners: np.ndarray


@lru_cache(maxsize=4)
def _laid_over(plane: _Plane) -> _Laid:
    """Cut the tiles of a plane; parts that it has in common are drawn one after another."""
    region = union(plane.regions)
    shape = gapped(region, plane.gap, plane.joint_edges, plane.joint)
    shape = turn_shape(parted(shape, plane.hips, plane.hip), -plane.degrees)
    pattern = pattern_for(plane.bond, plane.face, plane.joint, leftward=plane.leftward)
    boxes, upright = _boxes_over(shape.bounds, pattern, plane.anchor)
    shapely.prepare(shape)
    pieces = shapely.box(*boxes.T)
    meets = shapely.intersects(shape, pieces)
    pieces, boxes, upright = pieces[meets], boxes[meets], upright[meets]
    clipped = ~shapely.covers(shape, pieces)
    pieces[clipped] = shapely.intersection(shape, pieces[clipped])
    polygons, tile = shapely.get_parts(pieces, return_index=True)
    areas = shapely.area(polygons)
    laid = areas > SPECK  # lines and points have no area
    polygons, tile, areas = polygons[laid], tile[laid], areas[laid]
    boxes, upright, clipped = boxes[tile], upright[tile], clipped[tile]
    owners = np.zeros(len(tile), np.int64)
    if len(plane.regions) > 1:
        shapes = parts_within(plane.regions, shape, plane.degrees)
        owners = owners_of_pieces(shapes, boxes, polygons, tile)
    return _Laid(polygons, boxes, upright, clipped, areas, owners)


def _boxes_over(
    bounds: tuple[float, float, float, float], pattern: Pattern, anchor: tuple[float, float]
) -> tuple[Floats, Flags]:
    """Tiles that overlap a rectangle: shape (n, 4) as x0, y0, x1, y1, and which stand upright."""
    x, y = anchor
    x0, y0, x1, y1 = bounds
    shifts = repeats_over(pattern, (x0 - x, y0 - y, x1 - x, y1 - y))
    low = (shifts[:, None, :] + pattern.motif[None]).reshape(-1, 2) + np.array(anchor)
    boxes = np.concatenate([low, low + np.tile(pattern.sizes(), (len(shifts), 1))], axis=1)
    near = ((low < (x1, y1)) & (boxes[:, 2:] > (x0, y0))).all(axis=1)
    return boxes[near], np.tile(pattern.turned, len(shifts))[near]


def _in_own_tile(corners: Floats, boxes: Floats, upright: Flags, width: int) -> Floats:
    """Corners in their tile's frame; a tile whose length runs along y is turned back."""
    u, v = (corners - boxes[:, :2]).T
    return np.where(upright, (v, width - u), (u, v)).T


def _turned(corners: Floats, degrees: float) -> Floats:
    """Corners turned about the frame's origin, counter-clockwise."""
    c, s = cosine_sine(degrees)
    x, y = corners.T
    return np.stack([c * x - s * y, s * x + c * y], axis=1)


def _rings(corners: Floats, of: Ints) -> Iterator[Ring]:
    """Corners of many closed rings below each other, ring by ring, the first not repeated."""
    points = list(map(tuple, corners.tolist()))
    ends = np.cumsum(np.bincount(of)).tolist()
    return (tuple(points[start : end - 1]) for start, end in pairwise((0, *ends)))


def _openings(polygons: np.ndarray, degrees: float) -> Iterator[tuple[Ring, ...]]:
    """Give the openings of each polygon; few have any."""
    for polygon, number in zip(polygons, shapely.get_num_interior_rings(polygons), strict=True):
        if not number:
            yield ()
            continue
        corners, of = shapely.get_coordinates(polygon.interiors, return_index=True)
        yield tuple(_rings(_turned(corners, degrees), of))
