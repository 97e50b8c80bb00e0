"""Whether leads that are drawn on one line find room side by side.

Every lead's way is the shortest for itself, so several run on one line where they go together.
Everything in millimetres.
"""

from collections.abc import Iterator, Sequence
from typing import Final

import shapely
from msgspec import Struct
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from sheetcalc.geometry.heating.lead_check import OFF_CABLE_MM

BESIDE_LEAD_MM: Final = 10.0
"""Between the middles of two leads side by side: common practice, no source."""

_SLACK_MM: Final = 0.1
_SAME_LINE_MM: Final = 1.0
_NOTEWORTHY_MM: Final = 100.0
"""Leads may be pressed together over less than this: no source, the program's own."""


class LeadLine(Struct, frozen=True):
    """Leads of one cable: their way over the floor, how many they are, what they keep off."""

    way: LineString
    leads: int
    things: Sequence[BaseGeometry]


class Crowded(Struct, frozen=True):
    """So many leads on one line where so many find room side by side."""

    leads: int
    fitting: int


def most_crowded(
    lines: Sequence[LeadLine], room_floor: BaseGeometry, cables: Sequence[LineString]
) -> Crowded | None:
    """Find the line where the most leads are too many; None where all find room.

    At every point of it a square as wide as the leads has to find room about the line, clear of
    the heating cables and within the floor between walls and what stands on it.

    Parameters
    ----------
    lines
        Of all the room's cables.
    room_floor
        The outline of the room.
    cables
        True curves of all its cables.
    """
    found = [
        Crowded(leads, fitting)
        for leads, stretch, things in _together(lines)
        if (fitting := _fitting(leads, stretch, room_floor, [*things], cables)) < leads
    ]
    return max(found, key=lambda c: (c.leads - c.fitting, c.leads), default=None)


def _together(
    lines: Sequence[LeadLine],
) -> Iterator[tuple[int, BaseGeometry, list[BaseGeometry]]]:
    """Yield how many leads lie on one line, where, and what any of them keeps off."""
    if len(lines) < 2:  # noqa: PLR2004 - one cable's own leads are not held against each other
        return
    pieces = shapely.get_parts(shapely.union_all([x.way for x in lines]))
    there = [shapely.buffer(x.way, _SAME_LINE_MM) for x in lines]
    by_leads: dict[tuple[int, ...], list[LineString]] = {}
    for piece in pieces:
        on_it = tuple(i for i, near in enumerate(there) if near.covers(piece))
        if len(on_it) > 1:
            by_leads.setdefault(on_it, []).append(piece)
    for on_it, stretch in by_leads.items():
        if sum(piece.length for piece in stretch) >= _NOTEWORTHY_MM:
            things = [thing for i in on_it for thing in lines[i].things]
            yield sum(lines[i].leads for i in on_it), shapely.union_all(stretch), things


def _fitting(
    leads: int,
    stretch: BaseGeometry,
    room_floor: BaseGeometry,
    things: list[BaseGeometry],
    cables: Sequence[LineString],
) -> int:
    """How many of some leads find room side by side all along a stretch."""
    widest = (leads - 1) * BESIDE_LEAD_MM
    near = shapely.buffer(stretch, widest + OFF_CABLE_MM, cap_style="square", join_style="mitre")
    runs = shapely.buffer(shapely.intersection(near, [*cables]), OFF_CABLE_MM)
    taken = shapely.union_all([*runs, *things])
    free = shapely.difference(shapely.intersection(room_floor, near), taken)
    for fitting in range(leads, 1, -1):
        half = (fitting - 1) * BESIDE_LEAD_MM / 2 - _SLACK_MM
        core = shapely.buffer(free, -half, join_style="mitre")
        room = shapely.buffer(core, half + _SAME_LINE_MM, join_style="mitre")
        if shapely.length(shapely.difference(stretch, room)) < _NOTEWORTHY_MM:
            return fitting
    return 1
