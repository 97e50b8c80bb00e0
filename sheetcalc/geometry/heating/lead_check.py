"""Independent check of a cold lead's way: nothing of the grid it was searched on is trusted here.

The drawn way is held with shapely against the room, its doorways, what stands on the floor and
the true curves of all cables.  Everything in millimetres.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot
from typing import Final

import shapely
from msgspec import Struct
from shapely import LineString
from shapely.geometry.base import BaseGeometry

OFF_CABLE_MM: Final = 10.0
"""Between the middles of a lead and a heating cable, at least: common practice, no source."""

DOORWAY_STRIP_MM: Final = 100.0
"""Kept free of leads before a doorway, where thresholds are screwed down: common practice."""

_AT_SPLICE_MM: Final = 150.0
"""Between a cable's end and where its lead begins, at most: no source, the program's own.

The search looks four cells of 25 mm round the end, which is 141 mm from corner to corner.
"""
_SLACK_MM: Final = 0.1

Place = tuple[float, float]


class LeadKeeps(Struct, frozen=True):
    """What a lead's way is held against.

    Attributes
    ----------
    thermostat
        Where it ends.
    room_floor
        The outline of the room, which it stays in.
    doorways
        Lines in the outline that it does not pass.
    things
        What stands on the floor or is cut into it.
    """

    thermostat: Place
    room_floor: BaseGeometry
    doorways: Sequence[LineString]
    things: Sequence[BaseGeometry]


def check_lead(
    way: Sequence[Place],
    reach_mm: float,
    splices: Sequence[Place],
    cables: Sequence[LineString],
    keep: LeadKeeps,
) -> tuple[str, ...]:
    """Measure a lead's way over the floor.

    Parameters
    ----------
    way
        From the splice to the thermostat.
    reach_mm
        Length over the floor that it was reckoned with.
    splices
        Where leads begin: the cable's start, and its end where that has a lead too.
    cables
        True curves of all cables of the room, its own among them.
    keep
        What it is held against.

    Returns
    -------
    tuple of str
        What is wrong, in words; empty where it may be written.
    """
    line = LineString(way)
    wrong: list[str] = []
    if hypot(way[-1][0] - keep.thermostat[0], way[-1][1] - keep.thermostat[1]) > _SLACK_MM:
        wrong.append("does not end at the thermostat")
    drawn = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(way))
    farthest = max(hypot(way[0][0] - x, way[0][1] - y) for x, y in splices)
    if farthest > _AT_SPLICE_MM:
        wrong.append(f"begins {farthest:.0f} mm from the cable's end")
    if drawn + farthest > reach_mm + _SLACK_MM:
        wrong.append(f"is longer than reckoned by {drawn + farthest - reach_mm:.0f} mm")
    if _leaves(line, keep.room_floor):
        wrong.append("leaves the room")
    if any(_passes(line, door) for door in keep.doorways):
        wrong.append("passes a doorway")
    if (shapely.length(shapely.intersection(line, keep.things)) > _SLACK_MM).any():
        wrong.append("runs through what stands on the floor")
    if (shapely.distance(line, cables) < OFF_CABLE_MM - _SLACK_MM).any():
        wrong.append("lies on a heating cable")
    return tuple(wrong)


def _leaves(line: LineString, room_floor: BaseGeometry) -> bool:
    """Whether a way leaves the room; the thermostat stands on the outline itself."""
    if room_floor.covers(line):
        return False
    return bool(line.difference(shapely.buffer(room_floor, _SLACK_MM)).length > 0)


def _passes(line: LineString, door: LineString) -> bool:
    """Whether a way comes into the strip before a doorway."""
    depth = DOORWAY_STRIP_MM - _SLACK_MM
    if line.distance(door) > depth + _SLACK_MM:
        return False  # farther from the doorway than the strip is deep
    return bool(line.intersects(door.buffer(depth, cap_style="flat")))
