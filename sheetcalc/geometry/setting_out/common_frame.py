"""Surfaces of several frames brought into one: quarter turns and a shift."""

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceSpec
from sheetcalc.domain.room import Patch, Point, Region, Surface, Wall
from sheetcalc.geometry.setting_out.lattice import Floats
from sheetcalc.geometry.setting_out.slabs import Segment, turn_point, turned


class Part(Struct, frozen=True):
    """One surface of several that are laid through.

    Attributes
    ----------
    room, surface, spec
        In the surface's own frame.
    walls
        Of its room, to measure from.
    beyond
        Names of its doorways that the tile runs through, where the other parts are other rooms.
    turns, shift
        Quarter turns counter-clockwise and then a shift [1/320 mm] that bring its frame into the
        common one.
    """

    room: str
    surface: Surface
    spec: SurfaceSpec
    walls: tuple[Wall, ...] = ()
    turns: int = 0
    shift: Point = (0, 0)
    beyond: tuple[str, ...] = ()

    def point(self, at: Point) -> Point:
        """Bring a point into the common frame."""
        x, y = turn_point(at, self.turns)
        return x + self.shift[0], y + self.shift[1]

    def segment(self, edge: Segment) -> Segment:
        """Bring an edge into the common frame."""
        return self.point(edge[0]), self.point(edge[1])

    def region(self, own: Region) -> Region:
        """Bring a region into the common frame."""
        return shifted(turned(own, self.turns), self.shift)

    def own(self, common: Region) -> Region:
        """Bring a region of the common frame into this part's."""
        return turned(shifted(common, (-self.shift[0], -self.shift[1])), -self.turns)


def shifted(region: Region, by: Point) -> Region:
    """Move a region."""

    def moved(ring: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((x + by[0], y + by[1]) for x, y in ring)

    return Region(tuple(Patch(moved(p.shell), tuple(map(moved, p.holes))) for p in region.patches))


def turned_module(module: Point, turns: int) -> Point:
    """Give the module along the axes of a frame that is turned by quarters."""
    return (module[1], module[0]) if turns % 2 else module


def own_degrees(degrees: float, turns: int) -> float:
    """Direction of the tile's long side in a part's own frame."""
    return (degrees - 90 * turns) % 180


def own_point(part: Part, at: Point) -> Point:
    """Bring a point of the common frame into the part's."""
    return turn_point((at[0] - part.shift[0], at[1] - part.shift[1]), -part.turns)


def own_segment(part: Part, edge: Segment) -> Segment:
    """Bring an edge of the common frame into the part's."""
    return own_point(part, edge[0]), own_point(part, edge[1])


def own_corner(part: Part, corner: Point, degrees: float, box: Floats) -> Point:
    """Near left corner, in the part's frame, of a tile given in the common one."""
    if degrees % 90:
        return own_point(part, corner)
    upright = round(degrees / 90) % 2 == 1
    size = (box[3] - box[1], box[2] - box[0]) if upright else (box[2] - box[0], box[3] - box[1])
    far = corner[0] + round(size[0]), corner[1] + round(size[1])
    one, two = own_point(part, corner), own_point(part, far)
    return min(one[0], two[0]), min(one[1], two[1])
