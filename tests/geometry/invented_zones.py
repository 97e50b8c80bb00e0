"""Invented zones for the cable planner: rectangles, L, alcoves, columns, drains, toilets, showers.

Any seed gives another thousand.  A zone is a free floor in millimetres with what it was made from.
"""

import random
from dataclasses import dataclass

import shapely
from shapely import Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.room import Circle
from sheetcalc.geometry.free_floor import circumscribed_mm, kept_off

WALL, CABINET, OUTLET, DRAIN = 76.0, 50.0, 50.0, 150.0


@dataclass(frozen=True)
class InventedZone:
    """A zone: its kind, its walls, what stands in it with clearances, and the free floor."""

    kind: str
    floor: Polygon
    things: tuple[tuple[BaseGeometry, float], ...]
    free: BaseGeometry
    thermostat: tuple[float, float]


def invented_zones(seed: int, count: int) -> list[InventedZone]:
    """Zones of every kind in turn."""
    dice = random.Random(seed)
    kinds = ("rectangle", "L", "alcove", "column", "drain", "toilet", "shower floor", "bathroom")
    return [_zone(kinds[i % len(kinds)], dice) for i in range(count)]


def _tape(dice: random.Random, low: int, high: int) -> float:
    """A length as a tape gives it: whole 5 mm."""
    return float(dice.randrange(low, high + 1, 5))


def _zone(kind: str, dice: random.Random) -> InventedZone:
    if kind == "shower floor":
        width, depth = _tape(dice, 800, 1800), _tape(dice, 800, 1600)
    else:
        width, depth = _tape(dice, 1500, 4000), _tape(dice, 1300, 3200)
    floor: BaseGeometry = box(0, 0, width, depth)
    things: list[tuple[BaseGeometry, float]] = []
    if kind == "L":
        cut_x = _tape(dice, int(width * 0.25), int(width * 0.6))
        cut_y = _tape(dice, int(depth * 0.25), int(depth * 0.6))
        left = dice.random() < 0.5
        top = dice.random() < 0.5
        x = 0.0 if left else width - cut_x
        y = depth - cut_y if top else 0.0
        floor = floor.difference(box(x, y, x + cut_x, y + cut_y))
    if kind == "alcove":
        at = _tape(dice, 0, int(width * 0.5))
        wide = _tape(dice, 500, int(max(505, width - at)))
        deep = _tape(dice, 150, 900)
        floor = floor.union(box(at, depth, min(width, at + wide), depth + deep))
    if kind in {"column", "bathroom"} and (kind == "column" or dice.random() < 0.3):
        size = _tape(dice, 150, 400)
        x = _tape(dice, 0, int(width - size))
        y = _tape(dice, 0, int(depth - size))
        if dice.random() < 0.4:
            things.append((Point(x + size / 2, y + size / 2), WALL + size / 2))
        else:
            things.append((box(x, y, x + size, y + size), WALL))
    if kind == "drain" or (kind == "shower floor"):
        if kind == "shower floor" and dice.random() < 0.3:  # a channel along the far wall
            length = width * dice.uniform(0.5, 0.9)
            x = (width - length) / 2
            things.append((box(x, depth - 160, x + length, depth - 90), DRAIN))
        else:
            x = dice.choice((width / 2, _tape(dice, 150, int(width - 150))))
            y = dice.choice((depth / 2, _tape(dice, 150, int(depth - 150))))
            things.append((Point(x, y), DRAIN + 55))
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
    x, y = _on_wall(floor, dice)
    assert isinstance(floor, Polygon)
    return InventedZone(kind, floor, tuple(things), free, (x, y))


def _grown(shape: BaseGeometry, clearance: float) -> BaseGeometry:
    if isinstance(shape, Point):
        circle = Circle((round(shape.x * 320), round(shape.y * 320)), round(clearance * 640))
        return circumscribed_mm(circle)
    return kept_off(shape, clearance)


def _on_wall(floor: BaseGeometry, dice: random.Random) -> tuple[float, float]:
    point = shapely.line_interpolate_point(floor.boundary, dice.random(), normalized=True)
    return float(point.x), float(point.y)
