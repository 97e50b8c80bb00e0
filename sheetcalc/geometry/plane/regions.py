"""Algebra of regions: union, difference, containment, parts, corners; corners stay whole 1/320 mm.

Rectilinear regions are worked exactly in whole numbers (``slabs``).  Regions with an oblique edge
go through shapely with results snapped to the 1/320 mm grid, so a cut across an oblique wall may
lie 3 micrometres off; shapely is imported only when the first such region comes along.
"""

from collections.abc import Iterable, Sequence
from math import hypot
from typing import TYPE_CHECKING, Final

from sheetcalc.domain.room import Patch, Point, Region, Ring
from sheetcalc.geometry.plane.points import doubled_area, is_inside_ring, rings_of
from sheetcalc.geometry.plane.slabs import (
    Keep,
    Slab,
    overlay,
    rings_to_slabs,
    slabs_to_rings,
    without_straight_corners,
)

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

EMPTY: Final = Region(())
"""The region that covers nothing."""

_RECTANGLE_CORNERS: Final = 4
_DUST_MM320: Final = 320.0**2  # snapping leaves specks below 1 mm2 that nobody can tile


def rectangle(left: int, front: int, length: int, width: int) -> Region:
    """Rectangle by its near left corner, its length along left and its width along front.

    All in 1/320 mm; an empty region where a size is not positive.
    """
    if length <= 0 or width <= 0:
        return EMPTY
    right, back = left + length, front + width
    return Region((Patch(((left, front), (right, front), (right, back), (left, back))),))


def is_rectilinear(region: Region) -> bool:
    """Whether every edge runs along one of the axes."""
    for ring in rings_of(region):
        previous_x, previous_y = ring[-1]
        for x, y in ring:
            if x != previous_x and y != previous_y:
                return False
            previous_x, previous_y = x, y
    return True


def is_rectangle(region: Region) -> bool:
    """Whether a region is one axis-parallel rectangle."""
    patches = region.patches
    return (
        len(patches) == 1
        and not patches[0].holes
        and len(patches[0].shell) == _RECTANGLE_CORNERS
        and is_rectilinear(region)
    )


def slabs_of(region: Region) -> list[Slab]:
    """Slabs (left, right, front intervals) of a rectilinear region."""
    if is_rectangle(region):
        x0, y0, x1, y1 = region.bounds
        return [(x0, x1, ((y0, y1),))]
    return rings_to_slabs(rings_of(region))


def region_from_slabs(slabs: Sequence[Slab]) -> Region:
    """Region that covers the slabs (ascending, disjoint)."""
    return region_from_rings(slabs_to_rings(slabs))


def region_from_rings(rings: Iterable[Ring]) -> Region:
    """Region of simple rings that don't cross: counter-clockwise are shells, clockwise holes."""
    shells: list[Ring] = []
    holes: list[Ring] = []
    for ring in rings:
        (shells if doubled_area(ring) > 0 else holes).append(ring)
    held: dict[Ring, list[Ring]] = {shell: [] for shell in shells}
    for hole in holes:
        (x0, y0), (x1, y1) = hole[0], hole[1]
        around = [s for s in shells if is_inside_ring((x0 + x1, y0 + y1), s, scale=2)]
        if around:
            held[min(around, key=doubled_area)].append(hole)
    return Region(tuple(Patch(s, tuple(sorted(held[s]))) for s in sorted(shells)))


def union(regions: Iterable[Region]) -> Region:
    """Everything that any of the regions covers."""
    parts = [r for r in regions if r.patches]
    if len(parts) <= 1:
        return parts[0] if parts else EMPTY
    if all(is_rectilinear(r) for r in parts):
        return region_from_slabs(overlay([s for r in parts for s in slabs_of(r)], []))
    import shapely  # noqa: PLC0415 - heavy, and only oblique rooms need it

    return from_shapely(shapely.union_all([to_shapely(r) for r in parts], grid_size=1.0))


def difference(region: Region, *taken: Region) -> Region:
    """Region less everything that the others cover."""
    return _cut(region, [t for t in taken if t.patches], Keep.DIFFERENCE)


def intersection(first: Region, second: Region) -> Region:
    """Cut out what both regions cover (areas only, not lines or points)."""
    return _cut(first, [second], Keep.INTERSECTION) if second.patches else EMPTY


def _cut(region: Region, others: Sequence[Region], keep: Keep) -> Region:
    if not region.patches or not others:
        return region
    low_x, low_y, high_x, high_y = region.bounds
    near = []
    for other in others:
        x0, y0, x1, y1 = other.bounds
        if x0 < high_x and low_x < x1 and y0 < high_y and low_y < y1:
            near.append(other)
    if not near:
        return region if keep is Keep.DIFFERENCE else EMPTY
    if is_rectilinear(region) and all(is_rectilinear(r) for r in near):
        return region_from_slabs(
            overlay(slabs_of(region), [s for r in near for s in slabs_of(r)], keep)
        )
    import shapely  # noqa: PLC0415 - heavy, and only oblique rooms need it

    other_shape = shapely.union_all([to_shapely(r) for r in near])
    cut = shapely.difference if keep is Keep.DIFFERENCE else shapely.intersection
    return from_shapely(cut(to_shapely(region), other_shape, grid_size=1.0))


def overlaps(first: Region, second: Region) -> bool:
    """Whether two regions have an area in common; touching is not overlapping."""
    return bool(intersection(first, second).patches)


def contains(region: Region, other: Region, slack_mm320: int = 0) -> bool:
    """Whether a region covers another one wholly, edges included.

    ``slack_mm320`` lets the other stick out by so much (walls that were closed by a correction).
    """
    if not other.patches:
        return True
    if is_rectangle(region) and not slack_mm320:
        x0, y0, x1, y1 = region.bounds
        a0, b0, a1, b1 = other.bounds
        return x0 <= a0 and y0 <= b0 and a1 <= x1 and b1 <= y1
    rest = difference(other, region)
    if not rest.patches:
        return True
    if not slack_mm320:
        return False
    around = to_shapely(region).buffer(slack_mm320, join_style="mitre")
    return bool(around.covers(to_shapely(other)))


def components(region: Region) -> tuple[Region, ...]:
    """Give the connected parts, by their near left corners; touching in a point is apart."""
    return tuple(Region((patch,)) for patch in region.patches)


def perimeter_mm320(region: Region) -> float:
    """Length of all edges, holes' too [1/320 mm]; exact where rectilinear."""
    return sum(
        hypot(x1 - x0, y1 - y0)
        for ring in rings_of(region)
        for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True)
    )


def corner_counts(region: Region) -> tuple[int, int]:
    """Inside and outside corners as seen by someone standing on the region."""
    inside = outside = 0
    for ring in rings_of(region):
        for i, (x, y) in enumerate(ring):
            (x0, y0), (x1, y1) = ring[i - 1], ring[(i + 1) % len(ring)]
            if (x - x0) * (y1 - y) > (y - y0) * (x1 - x):
                inside += 1
            else:
                outside += 1
    return inside, outside


def mirrored(region: Region, sum_of_sides: int) -> Region:
    """Region with left and right exchanged: ``left`` becomes ``sum_of_sides - left``."""
    return Region(
        tuple(
            sorted(
                (Patch(_flip(p.shell, sum_of_sides), tuple(
                    sorted(_flip(hole, sum_of_sides) for hole in p.holes)
                )) for p in region.patches),
                key=lambda patch: patch.shell,
            )
        )
    )  # fmt: skip


def to_shapely(region: Region) -> "BaseGeometry":
    """Shapely geometry of a region, in 1/320 mm."""
    from shapely.geometry import MultiPolygon, Polygon  # noqa: PLC0415 - heavy, oblique rooms only

    polygons = [Polygon(p.shell, p.holes) for p in region.patches]
    return polygons[0] if len(polygons) == 1 else MultiPolygon(polygons)


def from_shapely(shape: "BaseGeometry") -> Region:
    """Region of a shapely geometry: areas only, corners rounded to whole 1/320 mm.

    Specks below 1 mm2 are dropped.
    """
    from shapely.geometry.polygon import orient  # noqa: PLC0415 - heavy, oblique rooms only

    patches = []
    for part in getattr(shape, "geoms", (shape,)):
        if part.geom_type == "Polygon" and part.area >= _DUST_MM320:
            polygon = orient(part)
            shell = _rounded_ring(polygon.exterior.coords)
            holes = [_rounded_ring(hole.coords) for hole in polygon.interiors]
            if shell:
                patches.append(Patch(shell, tuple(sorted(h for h in holes if h))))
        elif hasattr(part, "geoms"):
            patches.extend(from_shapely(part).patches)
    return Region(tuple(sorted(patches, key=lambda patch: patch.shell)))


def _flip(ring: Ring, sum_of_sides: int) -> Ring:
    return without_straight_corners([(sum_of_sides - x, y) for x, y in reversed(ring)])


def _rounded_ring(coordinates: Iterable[Sequence[float]]) -> Ring:
    points: list[Point] = []
    for x, y, *_ in coordinates:
        point = (round(x), round(y))
        if not points or points[-1] != point:
            points.append(point)
    while len(points) > 1 and points[0] == points[-1]:
        points.pop()
    return without_straight_corners(points)
