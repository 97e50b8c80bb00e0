"""Invented zones for the cable planner: rectangles, L, alcoves, columns, drains, toilets, showers.

Any seed gives another thousand.  A zone is a free floor in millimetres with what it was made from.
"""

import random

import shapely
from msgspec import Struct
from shapely import Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.room import Circle
from sheetcalc.geometry.heating.free_floor import circumscribed_mm, kept_off

WALL, CABINET, OUTLET, DRAIN = 76.0, 50.0, 50.0, 150.0


class InventedZone(Struct, frozen=True):
    """A zone: its kind, its walls, what stands in it with clearances, and the free floor."""

    kind: str
    floor: Polygon
    things: tuple[tuple[BaseGeometry, float], ...]
    free: BaseGeometry
    thermostat: tuple[float, float]


def invented_zones(seed: int, count: int) -> list[InventedZone]:
    """Zones of every kind in turn, the same for the same seed."""
    dice = random.Random(seed)  # noqa: S311 - nothing is kept secret with it
    kinds = ("rectangle", "L", "alcove", "column", "drain", "toilet", "shower floor", "bathroom")
    return [_zone(kinds[i % len(kinds)], dice) for i in range(count)]


def _tape(dice: random.Random, low: int, high: int) -> float:
    """A length as a tape gives it: whole 5 mm."""
    return float(dice.randrange(low, high + 1, 5))


def _zone(kind: str, dice: random.Random) -> InventedZone:
    small = kind == "shower floor"
    width = _tape(dice, 800, 1800) if small else _tape(dice, 1500, 4000)
    depth = _tape(dice, 800, 1600) if small else _tape(dice, 1300, 3200)
    floor = _floor(kind, width, depth, dice)
    things: list[tuple[BaseGeometry, float]] = []
    if kind == "column" or (kind == "bathroom" and dice.random() < 0.3):
        things.append(_column(width, depth, dice))
    if kind in {"drain", "shower floor"}:
        things.append(_drain(width, depth, dice, channel=small and dice.random() < 0.3))
    if kind in {"toilet", "bathroom"}:
        x = _tape(dice, 350, int(width - 350))
        things.append((Point(x, depth - 305), OUTLET + 55))
    if kind == "bathroom":
        long, deep = _tape(dice, 500, 1200), _tape(dice, 450, 600)
        x = dice.choice((0.0, width - long))
        things.append((box(x, 0, x + long, deep), CABINET))
        if dice.random() < 0.5:
            things.append((box(0, depth - 700, min(1600.0, width * 0.6), depth), CABINET))
    free = kept_off(floor, -WALL)
    for shape, clearance in things:
        free = free.difference(_grown(shape, clearance))
    point = shapely.line_interpolate_point(floor.boundary, dice.random(), normalized=True)
    return InventedZone(kind, floor, tuple(things), free, (float(point.x), float(point.y)))


def _floor(kind: str, width: float, depth: float, dice: random.Random) -> Polygon:
    """Walls: a rectangle, less a corner for an L, with a piece behind it for an alcove."""
    floor: BaseGeometry = box(0, 0, width, depth)
    if kind == "L":
        cut_x = _tape(dice, int(width * 0.25), int(width * 0.6))
        cut_y = _tape(dice, int(depth * 0.25), int(depth * 0.6))
        x = dice.choice((0.0, width - cut_x))
        y = dice.choice((0.0, depth - cut_y))
        floor = floor.difference(box(x, y, x + cut_x, y + cut_y))
    if kind == "alcove":
        at = _tape(dice, 0, int(width * 0.5))
        wide = _tape(dice, 500, int(max(505, width - at)))
        floor = floor.union(box(at, depth, min(width, at + wide), depth + _tape(dice, 150, 900)))
    assert isinstance(floor, Polygon)
    return floor


def _column(width: float, depth: float, dice: random.Random) -> tuple[BaseGeometry, float]:
    """A round or a rectangular column anywhere, against a wall too."""
    size = _tape(dice, 150, 400)
    x, y = _tape(dice, 0, int(width - size)), _tape(dice, 0, int(depth - size))
    if dice.random() < 0.4:
        return Point(x + size / 2, y + size / 2), WALL + size / 2
    return box(x, y, x + size, y + size), WALL


def _drain(
    width: float, depth: float, dice: random.Random, *, channel: bool
) -> tuple[BaseGeometry, float]:
    """A round drain in the middle or anywhere, in a corner too; or a channel at the far wall."""
    if channel:
        length = width * dice.uniform(0.5, 0.9)
        x = (width - length) / 2
        return box(x, depth - 160, x + length, depth - 90), DRAIN
    x = dice.choice((width / 2, _tape(dice, 150, int(width - 150))))
    y = dice.choice((depth / 2, _tape(dice, 150, int(depth - 150))))
    return Point(x, y), DRAIN + 55


def _grown(shape: BaseGeometry, clearance: float) -> BaseGeometry:
    if isinstance(shape, Point):
        circle = Circle((round(shape.x * 320), round(shape.y * 320)), round(clearance * 640))
        return circumscribed_mm(circle)
    return kept_off(shape, clearance)
