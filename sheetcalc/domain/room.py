"""Rooms: as described in the workbook, and as resolved into regions and surfaces.

The frame is the one of the workbook: standing in the doorway, the origin is the near left corner
of the rectangle round the outline; left is measured to the right from it, front away from it.
On a wall, the two coordinates are left (seen from inside the room) and bottom.
"""

from enum import StrEnum
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.finding import IN_ROOMS, RowRef
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room_measures import RoomMeasures

Point: TypeAlias = tuple[int, int]
"""Left and front (or left and bottom on a wall) [1/320 mm]."""

Ring: TypeAlias = tuple[Point, ...]
"""Corners of a closed line, counter-clockwise, the first not repeated, no collinear corners."""


class Patch(Struct, frozen=True):
    """A connected area: an outer ring (counter-clockwise) and its holes (clockwise)."""

    shell: Ring
    holes: tuple[Ring, ...] = ()


class Region(Struct, frozen=True):
    """A set of the plane: disjoint patches.  Vertices are whole 1/320 mm; edges may be oblique."""

    patches: tuple[Patch, ...]

    @property
    def area_mm320(self) -> float:
        """Area in squared 1/320 mm; exact for rooms up to 30 m."""
        return sum(_doubled_area(ring) for p in self.patches for ring in (p.shell, *p.holes)) / 2

    @property
    def area_m2(self) -> float:
        """Area [m2]."""
        return self.area_mm320 / 320_000**2

    @property
    def bounds(self) -> tuple[int, int, int, int]:
        """Smallest left, smallest front, largest left, largest front [1/320 mm]."""
        xs, ys = zip(*[corner for p in self.patches for corner in p.shell], strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def _doubled_area(ring: Ring) -> int:
    """Twice the signed area of a ring (shoelace formula)."""
    doubled = 0
    x1, y1 = ring[-1]
    for x2, y2 in ring:
        doubled += x1 * y2 - x2 * y1
        x1, y1 = x2, y2
    return doubled


class Circle(Struct, frozen=True):
    """A round hole or fixture: centre and diameter [1/320 mm]."""

    centre: Point
    diameter_mm320: int


class PieceKind(StrEnum):
    """Kinds of the Floor pieces tab."""

    FLOOR = "floor"
    VOID = "void"
    INSET = "inset"
    SHOWER_FLOOR = "shower floor"
    CURB = "curb"
    BATH = "bath"
    SHOWER_TRAY = "shower tray"
    CABINET = "cabinet"
    TOILET_OUTLET = "toilet outlet"
    PIPE = "pipe"
    DRAIN = "drain"
    COLUMN = "column"
    DOORWAY = "doorway"
    THERMOSTAT = "thermostat"


class PartKind(StrEnum):
    """Kinds of the Wall faces tab's Part."""

    FACE = "face"
    OPENING = "opening"
    NICHE = "niche"
    WET_AREA = "wet area"
    INSET = "inset"


class FloorPiece(Struct, frozen=True):
    """One row of Floor pieces, as typed; lengths None where the cell is empty."""

    room: str
    name: str
    kind: PieceKind
    wall: str | None
    left_mm320: int | None
    front_mm320: int | None
    length_mm320: int | None
    width_mm320: int | None
    diameter_mm320: int | None
    height_mm320: int | None
    note: str
    source: RowRef
    through_to: str = ""


class WallLeg(Struct, frozen=True):
    """One row of Wall legs: turn from the last leg in degrees (left positive), then a length."""

    room: str
    leg: str
    turn_degrees: float
    length_mm320: int
    note: str
    source: RowRef


class WallFace(Struct, frozen=True):
    """One row of Wall faces, as typed."""

    room: str
    wall: str
    part: PartKind
    left_mm320: int
    bottom_mm320: int
    length_mm320: int
    height_mm320: int
    depth_mm320: int | None
    note: str
    source: RowRef


class RoomDescription(Struct, frozen=True):
    """One row of Rooms with the rows of other tabs that name it, before any geometry."""

    name: str
    phase: str | None
    count: int
    copies: tuple[str, ...]
    length_mm320: int | None
    width_mm320: int | None
    same_as: str | None
    handed: bool
    finish: str
    take_up: str | None
    take_up_thickness_mm320: int | None
    note: str
    pieces: tuple[FloorPiece, ...]
    legs: tuple[WallLeg, ...]
    faces: tuple[WallFace, ...]
    source: RowRef


class Wall(Struct, frozen=True):
    """One straight side of the outline, walked counter-clockwise (the room on the left)."""

    name: str  # near, right, far, left, or a leg's name; "near 2" where a side has several
    start: Point
    end: Point


class Span(Struct, frozen=True):
    """A stretch of the outline, such as a doorway.

    ``through_to`` names the room beyond a doorway that the floor tile runs on into.
    """

    name: str
    wall: str
    start: Point
    end: Point
    source: RowRef
    through_to: str = ""


class Fixture(Struct, frozen=True):
    """A placed piece that takes floor: its shape on the floor, exact or round."""

    name: str
    kind: PieceKind
    region: Region | None
    circle: Circle | None
    height_mm320: int | None
    source: RowRef


class Surface(Struct, frozen=True):
    """One plane that may be tiled: the floor, a shower floor, a wall, a curb's top, a niche's back.

    Attributes
    ----------
    key
        Unique in the room: ``floor``, ``shower floor S1``, ``wall far``, ``curb C1 top``.
    kind
        Which row of Finishes applies.
    region
        What is covered, in the plane's own frame, out to the walls (no perimeter gap taken off).
    holes
        Round holes to drill in it (outlets, pipes, round drains).
    open_edges_mm320
        Length of edge that ends in nothing: where edge trim may go.
    joined_edges
        Stretches of its edge where it meets another tiled surface flush (an inset, a shower floor
        without a curb): a joint, with no perimeter gap.
    falls_to
        Of a shower floor that falls four ways: the middle of its only drain; None where it falls
        to a channel, to several drains, or where no drain is drawn.
    source
        The row that it came from.
    let_into
        An inset's: kind of the surface round it, whose layers go on behind it.
    """

    key: str
    kind: SurfaceKind
    region: Region
    holes: tuple[Circle, ...] = ()
    open_edges_mm320: int = 0
    source: RowRef = IN_ROOMS
    joined_edges: tuple[tuple[Point, Point], ...] = ()
    let_into: SurfaceKind | None = None
    falls_to: Point | None = None

    @property
    def plane(self) -> SurfaceKind:
        """Kind of the plane that it lies in: its own, an inset's that of the surface round it."""
        return self.let_into or self.kind


class Room(Struct, frozen=True):
    """A room resolved: everything that the lines of a takeoff measure.

    Attributes
    ----------
    shape
        Rooms with equal shape have equal geometry: results may be shared between them.
    copies
        Names of the rooms that the row stands for; ``(name,)`` where only one.
    outline
        Inside of the walls, voids taken out.
    floor_m2
        Area of the outline [m2].
    surfaces
        Every plane that a finish can tile, tiled or not: main floor, insets, shower floors, wall
        faces, wet areas, curb sides, niche sides.
    fixtures
        Pieces that take floor, in the order of the workbook.
    """

    name: str
    phase: str | None
    count: int
    copies: tuple[str, ...]
    finish: str
    take_up: str | None
    take_up_thickness_mm320: int | None
    handed: bool
    note: str
    source: RowRef
    shape: str
    outline: Region
    walls: tuple[Wall, ...]
    surfaces: tuple[Surface, ...]
    fixtures: tuple[Fixture, ...]
    doorways: tuple[Span, ...]
    thermostats: tuple[Span, ...]
    measures: RoomMeasures

    @property
    def names(self) -> tuple[str, ...]:
        """Names of all rooms that the row stands for.

        Where it counts more rooms than it names, they are numbered: ``2.07 (3)``.
        """
        if len(self.copies) == self.count:
            return self.copies
        return tuple(f"{self.name} ({i})" for i in range(1, self.count + 1))
