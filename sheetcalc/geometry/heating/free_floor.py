"""Heated zones of a room and the floor that is free for cable in them.

Free floor is the zone less the clearance from walls, fixed cabinets, outlets and drains.  Round
clearances are circumscribed polygons, corners are mitred: the polygon is never closer to a thing
than its clearance (an inscribed circle would be).  Coordinates are millimetres in the room's frame.
"""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from msgspec import Struct
from msgspec.structs import replace
from shapely import LinearRing, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_MM
from sheetcalc.domain.room import Circle, Fixture, PieceKind, Region, Room, Surface

SQUARE_MM_PER_M2: Final = 1e6
_ROUND_SIDES: Final = 32
_TURN: Final = 2 * math.pi / _ROUND_SIDES
_ROUND: Final = np.array(
    [(math.cos((i + 0.5) * _TURN), math.sin((i + 0.5) * _TURN)) for i in range(_ROUND_SIDES)]
)
"""Directions to the corners: a side, not a corner, faces each of the four directions of rows."""

_MITRE_LIMIT: Final = 5.0

_WALL_LIKE: Final = frozenset({PieceKind.COLUMN, PieceKind.VOID})
_CABINET_LIKE: Final = frozenset(
    {PieceKind.CABINET, PieceKind.BATH, PieceKind.SHOWER_TRAY, PieceKind.CURB}
)
_OUTLET_LIKE: Final = frozenset({PieceKind.TOILET_OUTLET, PieceKind.PIPE})


class Obstacle(Struct, frozen=True):
    """Something that the cable keeps away from.

    Attributes
    ----------
    name
        Of the piece.
    shape
        Its true shape, a circle's centre [mm].
    clearance_mm
        True distance that the cable keeps from ``shape``; a circle's radius is in it [mm].
    kept_off
        Polygon that the cable keeps out of; nowhere nearer than the clearance [mm].
    """

    name: str
    shape: BaseGeometry
    clearance_mm: float
    kept_off: BaseGeometry


class HeatedZone(Struct, frozen=True):
    """A part of the floor that is heated by cables of its own.

    Attributes
    ----------
    name
        ``main floor``, or the key of the inset or shower floor.
    surface
        Key of the surface that the cable is booked on.
    kind
        Row of the finish that names the heating and the layers.
    heating_range
        Range of Heating cables named there.
    floor
        The zone out to its borders [mm].
    room_floor
        The room's outline, for clearances from walls and for the leads [mm].
    obstacles
        What stands on or in the floor, and other zones (half the distance kept on each side).
    free
        Floor that is free for cable [mm].
    """

    name: str
    surface: str
    kind: SurfaceKind
    heating_range: str
    floor: BaseGeometry
    room_floor: BaseGeometry
    obstacles: tuple[Obstacle, ...]
    free: BaseGeometry
    source: RowRef

    @property
    def free_m2(self) -> float:
        """Free floor [m²]."""
        return float(self.free.area) / SQUARE_MM_PER_M2


def region_mm(region: Region) -> BaseGeometry:
    """Turn a region into a shapely geometry in millimetres."""
    polygons = [
        shapely.polygons(_ring_mm(patch.shell), [_ring_mm(hole) for hole in patch.holes] or None)
        for patch in region.patches
    ]
    return polygons[0] if len(polygons) == 1 else MultiPolygon(polygons)


def _ring_mm(corners: Sequence[tuple[int, int]]) -> LinearRing:
    """Close a ring through corners given in 1/320 mm [mm]."""
    return shapely.linearrings(np.array(corners) / MM320_PER_MM)


def circumscribed_mm(circle: Circle, clearance_mm: float = 0.0) -> Polygon:
    """Polygon round a circle and its clearance, no point of it inside them.

    Parameters
    ----------
    circle
        Round fixture.
    clearance_mm
        Added to its radius [mm].

    Returns
    -------
    shapely.Polygon
        Regular polygon whose sides touch the circle from outside.
    """
    radius = circle.diameter_mm320 / 2 / MM320_PER_MM + clearance_mm
    corner = radius / math.cos(math.pi / _ROUND_SIDES)
    return shapely.polygons(np.array(circle.centre) / MM320_PER_MM + corner * _ROUND)


def kept_off(shape: BaseGeometry, clearance_mm: float) -> BaseGeometry:
    """Shape grown by a clearance with mitred corners; shrunk where it is negative [mm]."""
    if not clearance_mm:
        return shape
    return shapely.buffer(
        shape, clearance_mm, join_style="mitre", mitre_limit=_MITRE_LIMIT, quad_segs=1
    )


def clearance_of(kind: PieceKind, job: Job) -> float | None:
    """Clearance that the Job asks for round a kind of piece [mm]; None: the cable may pass."""
    if kind in _WALL_LIKE:
        return job.clearance_wall_mm320 / MM320_PER_MM
    if kind in _CABINET_LIKE:
        return job.clearance_cabinet_mm320 / MM320_PER_MM
    if kind in _OUTLET_LIKE:
        return job.clearance_outlet_mm320 / MM320_PER_MM
    if kind is PieceKind.DRAIN:
        return job.clearance_drain_mm320 / MM320_PER_MM
    return None


def heated_zones(room: Room, finish: Finish, job: Job, between_mm: float) -> tuple[HeatedZone, ...]:
    """Zones of a room that the finish heats, each with cables of its own.

    The main floor is one, insets with it; an inset whose row of Finishes has a Heating of its own
    is another; so is each shower floor.

    Parameters
    ----------
    room, finish, job
        What is heated, and the clearances.
    between_mm
        Distance kept between the cables of neighbouring zones [mm].

    Returns
    -------
    tuple of HeatedZone
        In the order of the room's surfaces; the free floor may be empty.
    """
    parts = _zone_parts(room, finish)
    if not parts:
        return ()
    outline = region_mm(room.outline)
    # voids are holes of the outline, so they are kept off like walls
    inside = kept_off(outline, -job.clearance_wall_mm320 / MM320_PER_MM)
    fixed = [
        _obstacle(fixture, clearance)
        for fixture in room.fixtures
        if (clearance := clearance_of(fixture.kind, job)) is not None
    ]
    zones = []
    for part in parts:
        others = [
            Obstacle(o.name, o.floor, between_mm / 2, kept_off(o.floor, between_mm / 2))
            for o in parts
            if o is not part
        ]
        obstacles = (*fixed, *others)
        free = shapely.intersection(part.floor, inside)
        if obstacles:
            free = shapely.difference(free, shapely.union_all([o.kept_off for o in obstacles]))
        zones.append(replace(part, room_floor=outline, obstacles=obstacles, free=areas_only(free)))
    return tuple(zones)


def _zone_parts(room: Room, finish: Finish) -> list[HeatedZone]:
    """Heated zones before anything is kept off."""

    def part(name: str, surfaces: Sequence[Surface], spec: SurfaceSpec) -> HeatedZone:
        regions = [region_mm(s.region) for s in surfaces]
        single = len(regions) == 1 and regions[0].geom_type == "Polygon"
        floor = regions[0] if single else shapely.union_all(regions)
        key, kind = surfaces[0].key, surfaces[0].kind
        heating = spec.heating_range or ""
        return HeatedZone(name, key, kind, heating, floor, floor, (), floor, spec.source)

    floors = [s for s in room.surfaces if s.kind is SurfaceKind.FLOOR]
    # an inset of a wall has the same row of Finishes
    insets = [
        s for s in room.surfaces if s.kind is SurfaceKind.INSET and not s.key.startswith("wall")
    ]
    parts: list[HeatedZone] = []
    spec = finish.surfaces.get(SurfaceKind.FLOOR)
    own = finish.surfaces.get(SurfaceKind.INSET)
    if own and own.heating_range:
        parts += [part(inset.key, [inset], own) for inset in insets]
        insets = []
    if spec and spec.heating_range and (floors or insets):
        parts.insert(0, part("main floor", [*floors, *insets], spec))
    spec = finish.surfaces.get(SurfaceKind.SHOWER_FLOOR)
    if spec and spec.heating_range:
        showers = [s for s in room.surfaces if s.kind is SurfaceKind.SHOWER_FLOOR]
        parts += [part(shower.key, [shower], spec) for shower in showers]
    return parts


def _obstacle(fixture: Fixture, clearance_mm: float) -> Obstacle:
    """Turn a fixture into what the cable keeps off; a circle is its centre and its radius."""
    if fixture.circle is not None:
        x, y = (c / MM320_PER_MM for c in fixture.circle.centre)
        radius = fixture.circle.diameter_mm320 / 2 / MM320_PER_MM
        return Obstacle(
            fixture.name,
            Point(x, y),
            radius + clearance_mm,
            circumscribed_mm(fixture.circle, clearance_mm),
        )
    if fixture.region is None:
        message = f"fixture {fixture.name} has neither a region nor a circle"
        raise ValueError(message)
    shape = region_mm(fixture.region)
    return Obstacle(fixture.name, shape, clearance_mm, kept_off(shape, clearance_mm))


def areas_only(shape: BaseGeometry) -> BaseGeometry:
    """Drop points and lines that an intersection may leave."""
    if shape.geom_type in {"Polygon", "MultiPolygon"}:
        return shape
    polygons = [g for g in shapely.get_parts(shape) if g.geom_type == "Polygon" and g.area > 0]
    return shapely.union_all(polygons) if polygons else Polygon()
