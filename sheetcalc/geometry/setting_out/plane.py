"""What can be tiled of any surface, in the tile's frame, and how much of it lies under boxes."""

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from msgspec import Struct
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.room import Point, Region
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.request import Request
from sheetcalc.geometry.setting_out.slabs import Segment, Slabs, edges_of, stretches

_FLAT = 0.5
# an edge that rises less across a box is taken as level there [1/320 mm]


class Plane(Struct, frozen=True):
    """A region of straight edges, in the tile's frame [1/320 mm].

    Attributes
    ----------
    shape
        For exact cutting.
    edges
        Shape (E, 4): from x, y to x, y, with the region on the left.
    slabs
        The same where it is rectilinear in the tile's frame and small enough, else None.
    """

    shape: BaseGeometry
    edges: Floats
    slabs: Slabs | None

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Smallest x, y and largest x, y."""
        low = np.minimum(self.edges[:, :2], self.edges[:, 2:]).min(axis=0)
        high = np.maximum(self.edges[:, :2], self.edges[:, 2:]).max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def areas(self, boxes: Floats) -> Floats:
        """Area of the region within boxes, shape (..., 4) as x0, y0, x1, y1; without shapely.

        Green's theorem with coordinates held to the box: minus the sum over the edges of the
        integral of y dx.
        """
        if self.slabs is not None:
            return _slab_areas(self.slabs, boxes)
        rising = self.edges[self.edges[:, 0] != self.edges[:, 2]]
        flat = boxes.reshape(-1, 4)
        if len(flat) < len(rising):  # loop over the fewer of the two
            edges = rising.T
            low, high = np.minimum(edges[0], edges[2]), np.maximum(edges[0], edges[2])
            sums = [  # edges beside a box add nothing
                float(_beneath(edges[:, (low < b[2]) & (high > b[0])], b).sum())
                for b in flat[:, :, None]
            ]
            return np.array(sums).reshape(boxes.shape[:-1])
        total = np.zeros(len(flat))
        columns = flat.T
        for edge in rising.tolist():
            total += _beneath(edge, columns)
        return total.reshape(boxes.shape[:-1])


def _beneath(edge: Sequence[float] | Floats, box: Floats) -> Floats:
    """Area that an edge adds to a box; one of the two may hold many, coordinates first.

    Heights are taken from the foot of each box: feet cancel round a closed outline.
    """
    ax, ay, bx, by = edge
    x0, y0, x1, y1 = box
    left, right = np.clip(ax, x0, x1), np.clip(bx, x0, x1)
    tall = y1 - y0
    slope = (by - ay) / (bx - ax)
    low, high = ay - y0 + slope * (left - ax), ay - y0 + slope * (right - ax)
    rise = high - low
    level = np.abs(rise) < _FLAT
    mean = np.where(
        level,
        np.clip((low + high) / 2, 0, tall),
        (_held(high, tall) - _held(low, tall)) / np.where(level, 1.0, rise),
    )
    return np.asarray(mean * (left - right))


def _held(height: Floats, tall: Floats) -> Floats:
    """Integral from 0 of a height held between 0 and a box's."""
    within = np.clip(height, 0, tall)
    return np.asarray((height - within / 2) * within)


def _slab_areas(slabs: Slabs, boxes: Floats) -> Floats:
    xs, ys = slabs.xs.astype(np.float64), slabs.ys.astype(np.float64)
    across = np.minimum(boxes[..., 2, None], xs[1:]) - np.maximum(boxes[..., 0, None], xs[:-1])
    along = np.minimum(boxes[..., 3, None], ys[1:]) - np.maximum(boxes[..., 1, None], ys[:-1])
    np.maximum(across, 0, out=across)
    np.maximum(along, 0, out=along)
    return np.asarray(
        np.einsum("...i,...i->...", across @ slabs.occupied.astype(np.float64), along)
    )


def shape_of(region: Region) -> BaseGeometry:
    """Shapely geometry of a region."""
    polygons = [shapely.Polygon(p.shell, p.holes) for p in region.patches]
    return polygons[0] if len(polygons) == 1 else shapely.MultiPolygon(polygons)


def gapped(region: Region, gap: int, joint_edges: Collection[Segment], joint: int) -> BaseGeometry:
    """Take the perimeter gap off a region.

    Mitred, so that straight walls keep straight gaps.  Where another tiled surface goes on, half
    a joint is left instead of the gap.

    Parameters
    ----------
    region
        Out to the walls.
    gap, joint
        Perimeter gap and grout joint [1/320 mm].
    joint_edges
        Stretches where another tiled surface of the same plane goes on.
    """
    shape = shape_of(region)
    if not shape.is_valid:
        shape = shapely.make_valid(shape)
    half = joint // 2
    less, more = sorted((gap, half)) if joint_edges else (gap, gap)
    inner = shape.buffer(-less, join_style="mitre", mitre_limit=10) if less else shape
    if more == less:
        return inner
    lines = [
        line
        for edge in edges_of(region)
        for line, is_joint in _sorted_lines(edge, joint_edges)
        if (half if is_joint else gap) == more
    ]
    if not lines:
        return inner
    chains = shapely.line_merge(shapely.MultiLineString(lines))
    bands = chains.buffer(more, cap_style="square", join_style="mitre", mitre_limit=10)
    return inner.difference(bands)


_OFF_THE_LINE = 2
"""Ends of a stretch of an oblique edge are whole 1/320 mm, and lie this near to it."""


def _sorted_lines(
    edge: Segment, joint_edges: Collection[Segment]
) -> Iterator[tuple[Sequence[Point | tuple[float, ...]], bool]]:
    """Split an edge into stretches, and tell which are joints with another tiled surface."""
    if edge[0][0] == edge[1][0] or edge[0][1] == edge[1][1]:
        for start, end, is_joint in stretches(edge, joint_edges, gap=0, half_joint=1):
            yield (start, end), bool(is_joint)
        return
    line = shapely.LineString(edge)
    near = shapely.MultiLineString([list(each) for each in joint_edges])
    beside = near.buffer(_OFF_THE_LINE, cap_style="flat")
    for part, is_joint in ((line.difference(beside), False), (line.intersection(beside), True)):
        for each in shapely.get_parts(part):
            if each.length > 2 * _OFF_THE_LINE:
                yield list(each.coords), is_joint


def parted(shape: BaseGeometry, lines: Collection[Segment], width: int) -> BaseGeometry:
    """Part what can be tiled along lines that are cut through it.

    Parameters
    ----------
    shape
        In the surface's frame [1/320 mm].
    lines
        Cut lines, such as the hips of a shower floor.
    width
        Of the joint along them [1/320 mm].
    """
    if not lines:
        return shape
    strips = shapely.MultiLineString([list(line) for line in lines])
    return shape.difference(strips.buffer(width / 2, cap_style="square", join_style="mitre"))


def plane_of(req: Request, cuts: Collection[Segment] = (), width: int = 0) -> Plane | None:
    """Take the perimeter gap off a surface and turn it into the tile's frame.

    None where nothing is left.

    Parameters
    ----------
    req
        What is set out.
    cuts, width
        Lines that are cut through its tiles, and the joint along them [1/320 mm].
    """
    shape = gapped(req.surface.region, req.gap, req.joint_edges, req.joint)
    shape = parted(shape, cuts, width)
    if shape.is_empty:
        return None
    plane = straight_plane(turn_shape(shape, -req.degrees))
    return plane if len(plane.edges) else None


def straight_plane(shape: BaseGeometry) -> Plane:
    """Make a plane of a shape in the tile's frame, with its edges and without slabs."""
    edges = [
        (*a, *b)
        for polygon in parts_of_shape(shape)
        for ring in _rings(polygon)
        for a, b in pairwise(ring)
        if a != b
    ]
    return Plane(shape, np.array(edges, dtype=np.float64).reshape(-1, 4), None)


def _rings(polygon: shapely.Polygon) -> Iterable[list[tuple[float, float]]]:
    oriented = shapely.geometry.polygon.orient(polygon)
    for ring in (oriented.exterior, *oriented.interiors):
        yield [(float(x), float(y)) for x, y in ring.coords]


def turn_shape(shape: BaseGeometry, degrees: float) -> BaseGeometry:
    """Turn about the frame's origin, counter-clockwise; quarter turns exactly."""
    if degrees % 360 == 0:
        return shape
    c, s = cosine_sine(degrees)
    return shapely.transform(
        shape, lambda xy: np.stack([c * xy[:, 0] - s * xy[:, 1], s * xy[:, 0] + c * xy[:, 1]], 1)
    )


def cosine_sine(degrees: float) -> tuple[float, float]:
    """Cosine and sine, exact at quarter turns."""
    if degrees % 90 == 0:
        n = round(degrees / 90) % 4
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[n]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def parts_of_shape(shape: BaseGeometry) -> list[shapely.Polygon]:
    """Polygons of any geometry, in order; lines and points fall away."""
    if shape.geom_type == "Polygon":
        return [] if shape.is_empty else [shape]
    if hasattr(shape, "geoms"):
        return [p for part in shape.geoms for p in parts_of_shape(part)]
    return []
