"""A room of the other hand: left and right exchanged, on the floor and on the walls."""

from collections.abc import Mapping
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.room import Circle, Fixture, Point, Room, Span, Surface, Wall
from sheetcalc.geometry.plane.regions import mirrored

_OTHER_HAND: Final = {"left": "right", "right": "left"}
_ON_THE_FLOOR: Final = ("floor", "inset ", "shower floor ")


def mirror_room(room: Room, sum_of_sides: int, wall_planes: Mapping[str, int]) -> Room:
    """Mirror a resolved room: ``left`` becomes ``sum_of_sides - left``.

    Measures stay.  Names follow: ``wall left`` becomes ``wall right``.

    Parameters
    ----------
    room
        The room as described.
    sum_of_sides
        Left side plus right side of the rectangle that it is mirrored in [1/320 mm].
    wall_planes
        Length of the wall plane of every surface that is measured from a wall's end, by key;
        other upright surfaces (reveals, sides of niches) are mirrored within themselves.
    """

    def point(at: Point) -> Point:
        return sum_of_sides - at[0], at[1]

    def circle(hole: Circle) -> Circle:
        return replace(hole, centre=point(hole.centre))

    def wall(old: Wall) -> Wall:
        return Wall(other_hand(old.name), point(old.end), point(old.start))

    def span(old: Span) -> Span:
        return replace(old, wall=other_hand(old.wall), start=point(old.end), end=point(old.start))

    def fixture(old: Fixture) -> Fixture:
        return replace(
            old,
            region=mirrored(old.region, sum_of_sides) if old.region else None,
            circle=circle(old.circle) if old.circle else None,
        )

    def surface(old: Surface) -> Surface:
        if old.key.startswith(_ON_THE_FLOOR) or (_is_curb(old) and old.key.endswith(" top")):
            return replace(
                old,
                region=mirrored(old.region, sum_of_sides),
                holes=tuple(circle(h) for h in old.holes),
                joined_edges=tuple((point(b), point(a)) for a, b in old.joined_edges),
                falls_to=point(old.falls_to) if old.falls_to else None,
            )
        if _is_curb(old):
            return old
        low, _, high, _ = old.region.bounds
        plane = wall_planes.get(old.key, low + high)
        return replace(
            old,
            key=_other_hand_key(old.key),
            region=mirrored(old.region, plane),
            joined_edges=tuple(
                ((plane - x1, y1), (plane - x0, y0)) for (x0, y0), (x1, y1) in old.joined_edges
            ),
        )

    return replace(
        room,
        outline=mirrored(room.outline, sum_of_sides),
        walls=tuple(wall(w) for w in reversed(room.walls)),
        surfaces=tuple(surface(s) for s in room.surfaces),
        fixtures=tuple(fixture(f) for f in room.fixtures),
        doorways=tuple(span(d) for d in room.doorways),
        thermostats=tuple(span(t) for t in room.thermostats),
        handed=True,
    )


def other_hand(name: str) -> str:
    """Give a wall's name in the mirrored room: left and right change places, numbers stay."""
    first, _, rest = name.partition(" ")
    return " ".join(filter(None, (_OTHER_HAND.get(first, first), rest)))


def _other_hand_key(key: str) -> str:
    return " ".join(_OTHER_HAND.get(word, word) for word in key.split(" "))


def _is_curb(surface: Surface) -> bool:
    return surface.key.startswith("curb ")
