"""Cold leads of a room's cables: where each course opens, its way to the thermostat, its lane."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.domain.room import PieceKind, Room
from sheetcalc.geometry.heating import findings as say
from sheetcalc.geometry.heating.cable_leads import LeadMap, LeadRoute, places_to_open
from sheetcalc.geometry.heating.cable_path import reopened
from sheetcalc.geometry.heating.cable_record import LaidInZone
from sheetcalc.geometry.heating.cable_zone import check_again
from sheetcalc.geometry.heating.free_floor import HeatedZone, circumscribed_mm, region_mm
from sheetcalc.geometry.heating.lead_bundle import Crowded, LeadLine, most_crowded
from sheetcalc.geometry.heating.lead_check import (
    DOORWAY_STRIP_MM,
    LeadKeeps,
    Place,
    check_lead,
)
from sheetcalc.geometry.heating.lead_floor import LeadFloor, lead_floor

LANE_MM: Final = 150.0
"""Kept free of cable before a doorway that a lead has to pass: common practice, no source."""

UNDER_CABINET: Final = "under a fixed cabinet"
THROUGH_SHOWER: Final = "through the shower floor"

_OPENINGS_TRIED: Final = 40
_BLOCKS_LEADS: Final = frozenset(
    {
        PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.COLUMN, PieceKind.TOILET_OUTLET,
        PieceKind.PIPE, PieceKind.DRAIN,
    }
)  # fmt: skip

Way = tuple[LaidInZone, LeadRoute | None]
"""A laid cable with its lead's way; None where there is none, or no thermostat."""


def lane_before_doorways(room: Room) -> BaseGeometry | None:
    """Strip in front of the doorways that leads may pass once no cable lies there [mm].

    Leads keep 100 mm off the doorway itself, where thresholds are screwed down.
    """
    if not room.doorways or not room.thermostats:
        return None
    return shapely.union_all(
        [shapely.buffer(say.doorway_line(d), LANE_MM, cap_style="square") for d in room.doorways]
    )


def too_short(ways: Iterable[Way]) -> list[LaidInZone]:
    """Cables whose cold lead is known not to reach the thermostat."""
    return [
        one
        for one, route in ways
        if one.laid.cable.cold_lead_mm320 is not None
        and (route is None or route.length_mm * MM320_PER_MM > one.laid.cable.cold_lead_mm320)
    ]


class RoomForLeads:
    """What stands in a room, and its floor where leads may lie: looked at once for all cables."""

    def __init__(self, room: Room, room_floor: BaseGeometry) -> None:
        """Look at a room whose outline is given [mm]."""
        self.room_floor = room_floor
        self.has_thermostat = bool(room.thermostats)
        self.doorways = [say.doorway_line(d) for d in room.doorways]
        self._fixed = [s for _, s in _shapes(room, _BLOCKS_LEADS)]
        self._cabinets = [s for _, s in _shapes(room, {PieceKind.CABINET})]
        self._showers = _shapes(room, {PieceKind.SHOWER_FLOOR})
        self._floors: dict[_Barred, LeadFloor] = {}

    def tries(self, zone: HeatedZone) -> Iterator[tuple["_Barred", tuple[str, ...]]]:
        """Yield what bars the leads of a zone, first everything, and what they then run through."""
        own = zone.surface.removeprefix("shower floor ")
        others = tuple(name for name, _ in self._showers if name != own)
        yield _Barred(others, cabinets=True), ()
        if self._cabinets:
            yield _Barred(others, cabinets=False), (UNDER_CABINET,)
        if others:
            yield _Barred((), cabinets=True), (THROUGH_SHOWER,)
        if self._cabinets and others:
            yield _Barred((), cabinets=False), (UNDER_CABINET, THROUGH_SHOWER)

    def things(self, barred: "_Barred") -> list[BaseGeometry]:
        """Shapes of what bars leads [mm]."""
        showers = [shape for name, shape in self._showers if name in barred.showers]
        return [*self.standing(cabinets=barred.cabinets), *showers]

    def standing(self, *, cabinets: bool) -> list[BaseGeometry]:
        """Shapes of what stands on the floor, with its cabinets or without [mm]."""
        return [*self._fixed, *(self._cabinets if cabinets else ())]

    def floor(self, barred: "_Barred") -> LeadFloor:
        """Floor where leads may lie while there are no cables."""
        if barred not in self._floors:
            strips = shapely.buffer(self.doorways, DOORWAY_STRIP_MM, cap_style="flat")
            self._floors[barred] = lead_floor(self.room_floor, [*strips, *self.things(barred)])
        return self._floors[barred]


class _Barred(Struct, frozen=True):
    """What bars leads besides what stands on the floor: shower floors by name, and cabinets."""

    showers: tuple[str, ...]
    cabinets: bool


def with_leads(
    laid: Sequence[tuple[LaidInZone, Place]], about: RoomForLeads, job: Job
) -> list[Way]:
    """Cables opened where their leads are shortest, with the leads' verified ways.

    Leads keep off what stands on the floor, off fixed cabinets, and off the shower floor unless
    the cable lies in it; where there is no such way, first under cabinets, then through a shower.

    Parameters
    ----------
    laid
        Each cable with the place of its thermostat [mm].
    about, job
        What they lie in.
    """
    if not laid or not about.has_thermostat:
        return [(one, None) for one, _ in laid]
    ways = _Ways([one for one, _ in laid], about)
    return [ways.shortest(one, number, place, job) for number, (one, place) in enumerate(laid)]


def crowded(ways: Iterable[Way], about: RoomForLeads) -> Crowded | None:
    """Find the line where the most leads of a room are too many to lie side by side."""
    with_way = [(one, route) for one, route in ways if route is not None]
    lines = [
        LeadLine(
            LineString(route.path),
            2 if one.laid.cable.leads == "both ends" else 1,
            about.standing(cabinets=UNDER_CABINET not in route.passes),
        )
        for one, route in with_way
    ]
    return most_crowded(lines, about.room_floor, [one.laid.check.curve for one, _ in with_way])


class _Ways:
    """Ways between a room's cables to its thermostats, searched once for each set of barriers."""

    def __init__(self, laid: Sequence[LaidInZone], about: RoomForLeads) -> None:
        self._about = about
        self._courses = [np.vstack((x.laid.plan.corners, x.laid.plan.corners[:1])) for x in laid]
        # closed courses of the others: where these are opened, more is free
        self._curves = [LineString(course) for course in self._courses]
        self._maps: dict[tuple[Place, _Barred], LeadMap] = {}

    def shortest(self, one: LaidInZone, number: int, thermostat: Place, job: Job) -> Way:
        """Open a course where its lead is shortest, and give the lead's way; None without one."""
        about = self._about
        for barred, passes in about.tries(one.zone):
            key = (thermostat, barred)
            if key not in self._maps:
                self._maps[key] = LeadMap(about.floor(barred).beside(self._courses), thermostat)
            keep = LeadKeeps(thermostat, about.room_floor, about.doorways, about.things(barred))
            opened = self._opened(one, number, self._maps[key], keep, job)
            if opened is not None:
                found, route = opened
                return found, replace(route, passes=passes)
        return one, None

    def _opened(
        self, one: LaidInZone, number: int, ways: LeadMap, keep: LeadKeeps, job: Job
    ) -> tuple[LaidInZone, LeadRoute] | None:
        """Open a course where cable and lead both verify and the way is shortest."""
        plan, rules = one.laid.plan, one.laid.rules
        straights, middles = places_to_open(plan.corners, plan.gap_mm, rules.radius_mm)
        others = [c for i, c in enumerate(self._curves) if i != number]
        nearest = islice(ways.routes(middles, plan.gap_mm / 2), _OPENINGS_TRIED)
        for place, route in nearest:
            middle = tuple(middles[place].tolist())
            moved = reopened(plan, int(straights[place]), middle, rules.radius_mm)
            start, end = moved.path[0].tolist(), moved.path[-1].tolist()
            splices = [start, end] if one.laid.cable.leads == "both ends" else [start]
            check = check_again(one.zone, moved, rules, job)
            cables = [*others, check.curve]
            wrong = check.wrong or check_lead(
                route.path, route.over_floor_mm, splices, cables, keep
            )
            if not wrong:
                return replace(one, laid=replace(one.laid, plan=moved, check=check)), route
        return None


def _shapes(room: Room, kinds: Iterable[PieceKind]) -> list[tuple[str, BaseGeometry]]:
    """Names and shapes of the fixtures of some kinds [mm]."""
    wanted = set(kinds)
    shapes: list[tuple[str, BaseGeometry]] = []
    for fixture in room.fixtures:
        if fixture.kind in wanted and fixture.circle:
            shapes.append((fixture.name, circumscribed_mm(fixture.circle)))
        elif fixture.kind in wanted and fixture.region:
            shapes.append((fixture.name, region_mm(fixture.region)))
    return shapes
