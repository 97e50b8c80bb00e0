"""Points and circles against regions: inside, near, wholly within; in 1/320 mm.

Whether a point is inside is decided in whole numbers, so a point on an edge is on it exactly.
"""

from collections.abc import Iterable
from math import cos, hypot, pi, sin, sqrt

from sheetcalc.domain.room import Circle, Patch, Point, Region, Ring
from sheetcalc.geometry.plane.slabs import without_straight_corners


def rings_of(region: Region) -> Iterable[Ring]:
    """Every ring of a region: shells, and holes (clockwise)."""
    for patch in region.patches:
        yield patch.shell
        yield from patch.holes


def doubled_area(ring: Ring) -> int:
    """Twice the signed area of a ring: positive where it runs counter-clockwise."""
    total = 0
    x0, y0 = ring[-1]
    for x, y in ring:
        total += x0 * y - x * y0
        x0, y0 = x, y
    return total


def is_inside_ring(point: Point, ring: Ring, scale: int, *, on_edge: bool = False) -> bool:
    """Whether a point (given ``scale`` times) lies inside a ring, by crossings of a ray."""
    px, py = point
    inside = False
    x0, y0 = ring[-1][0] * scale, ring[-1][1] * scale
    for corner in ring:
        x1, y1 = corner[0] * scale, corner[1] * scale
        turn = (x1 - x0) * (py - y0) - (y1 - y0) * (px - x0)
        if turn == 0 and min(x0, x1) <= px <= max(x0, x1) and min(y0, y1) <= py <= max(y0, y1):
            return on_edge
        if (y0 > py) != (y1 > py) and (turn > 0) == (y1 > y0):
            inside = not inside
        x0, y0 = x1, y1
    return inside


def covers_point(region: Region, point: Point) -> bool:
    """Whether a point lies inside a region or on its edge."""
    return any(
        is_inside_ring(point, p.shell, scale=1, on_edge=True)
        and not any(is_inside_ring(point, hole, scale=1) for hole in p.holes)
        for p in region.patches
    )


def covers_circle(region: Region, circle: Circle, slack_mm320: int = 1) -> bool:
    """Whether a circle lies wholly inside a region, give or take the slack."""
    if not covers_point(region, circle.centre):
        return False
    reach = circle.diameter_mm320 / 2 - slack_mm320
    return distance_to_edge(region, circle.centre) >= reach


def touches_circle(region: Region, circle: Circle) -> bool:
    """Whether a circle and a region have an area in common."""
    if not region.patches:
        return False
    return (
        covers_point(region, circle.centre)
        or distance_to_edge(region, circle.centre) < circle.diameter_mm320 / 2 - 1
    )


def distance_to_edge(region: Region, point: Point) -> float:
    """Distance from a point to the nearest edge of a region [1/320 mm]."""
    return min(
        _distance_to_segment(point, ring[i - 1], ring[i])
        for ring in rings_of(region)
        for i in range(len(ring))
    )


def _distance_to_segment(point: Point, start: Point, end: Point) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    px, py = point[0] - start[0], point[1] - start[1]
    share = min(1.0, max(0.0, (px * dx + py * dy) / (dx * dx + dy * dy)))
    return hypot(px - share * dx, py - share * dy)


def polygon_of_circle(circle: Circle, corners: int = 64) -> Region:
    """Regular polygon with the area of a circle, corners on the 1/320 mm grid.

    With 64 corners its edge is nowhere more than 0.1 % of the radius off the circle.
    """
    radius = circle.diameter_mm320 / 2
    step = 2 * pi / corners
    reach = radius * sqrt(step / sin(step))
    x, y = circle.centre
    points = [
        (x + round(reach * cos(i * step)), y + round(reach * sin(i * step))) for i in range(corners)
    ]
    ring = without_straight_corners(points)
    return Region((Patch(ring),)) if ring else Region(())
