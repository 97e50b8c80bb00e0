"""Tiles of a setting-out as polygons, for drawings; worked out only when asked for."""

import numpy as np
import shapely
from msgspec import Struct
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.finish import Bond
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.patterns import pattern_for, repeats_over
from sheetcalc.geometry.setting_out.plane import (
    cosine_sine,
    gapped,
    parted,
    parts_of_shape,
    turn_shape,
)
from sheetcalc.geometry.setting_out.sampling import SPECK
from sheetcalc.geometry.setting_out.slabs import Flags


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

    ring: tuple[tuple[float, float], ...]
    openings: tuple[tuple[tuple[float, float], ...], ...]
    cut: bool
    small: bool
    own: tuple[tuple[float, float], ...] = ()


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
    gap = out.gap_mm320 if out.gap_mm320 >= 0 else gap_mm320
    region = union(out.through) if out.through else out.region
    shape = gapped(region, gap, out.joint_edges, out.joint_mm320)
    shape = parted(shape, out.hips, out.hip_mm320)
    turned = turn_shape(shape, -out.turn_degrees)
    bond = Bond() if out.sheet_chips != (0, 0) else out.bond
    pattern = pattern_for(
        bond, out.face_mm320, out.joint_mm320, leftward=out.laid_rows == "to the left"
    )
    start = np.array(out.anchor)
    x0, y0, x1, y1 = turned.bounds
    shifts = repeats_over(pattern, (x0 - start[0], y0 - start[1], x1 - start[0], y1 - start[1]))
    low = (shifts[:, None, :] + pattern.motif[None]).reshape(-1, 2) + start
    high = low + np.tile(pattern.sizes(), (len(shifts), 1))
    shapely.prepare(turned)
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    meets = shapely.intersects(turned, boxes)
    if out.through:
        meets &= _is_own(out, turned, np.concatenate([low, high], axis=1))
    boxes, low = boxes[meets], low[meets]
    across = np.tile(pattern.turned, len(shifts))[meets]
    inside = shapely.covers(turned, boxes)
    full = out.face_mm320[0] * out.face_mm320[1]
    drawn = []
    for box, corner, upright, uncut in zip(
        boxes, low.tolist(), across.tolist(), inside.tolist(), strict=True
    ):
        pieces = [box] if uncut else parts_of_shape(shapely.intersection(turned, box))
        drawn += [
            DrawnTile(
                _ring(piece.exterior, out.turn_degrees),
                tuple(_ring(hole, out.turn_degrees) for hole in piece.interiors),
                bool(piece.area < full - SPECK),
                bool(piece.area < small_share * full),
                () if uncut else _own(piece, corner, out.face_mm320[1] if upright else None),
            )
            for piece in pieces
            if piece.area > SPECK
        ]
    return tuple(drawn)


def _is_own(out: SettingOut, plane: BaseGeometry, boxes: Floats) -> Flags:
    """Whether a tile belongs to this of several surfaces that are laid through as one."""
    from sheetcalc.geometry.setting_out.through import (  # noqa: PLC0415 - only where needed
        areas_within,
        owners,
        parts_within,
    )

    shapes = parts_within(out.through, plane, out.turn_degrees)
    return np.asarray(owners(areas_within(shapes, boxes)) == out.through_at)


def _own(
    piece: shapely.Polygon, corner: list[float], upright_width: int | None
) -> tuple[tuple[float, float], ...]:
    """Corners of a piece in its tile's frame; a tile whose length runs along y is turned back."""
    points = [(x - corner[0], y - corner[1]) for x, y in piece.exterior.coords[:-1]]
    if upright_width is None:
        return tuple(points)
    return tuple((v, upright_width - u) for u, v in points)


def _ring(ring: shapely.LinearRing, degrees: float) -> tuple[tuple[float, float], ...]:
    c, s = cosine_sine(degrees)
    return tuple((c * x - s * y, s * x + c * y) for x, y in ring.coords[:-1])
