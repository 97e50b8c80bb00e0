"""Floors of several rooms laid through their doorways as one surface."""

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import Room, RoomDescription, Span, Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import overlaps
from sheetcalc.geometry.setting_out.common_frame import Part
from sheetcalc.geometry.setting_out.fields import laid_alike
from sheetcalc.geometry.setting_out.request import direction
from sheetcalc.geometry.setting_out.slabs import turn_point
from sheetcalc.geometry.setting_out.through import set_out_through

_ALIKE = 320
"""Doorways that differ by less than 1 mm meet [1/320 mm]."""


class _Floor(Struct, frozen=True):
    """The main floor of a room and how it is tiled."""

    room: Room
    surface: Surface
    spec: SurfaceSpec
    tile: Tile


class _Passage(Struct, frozen=True):
    """A doorway of one room that meets a doorway of another."""

    here: str
    door: Span
    there: str
    other: Span

    def turned(self) -> "_Passage":
        """Give the passage seen from the other room."""
        return _Passage(self.there, self.other, self.here, self.door)


class ThroughFloors(Struct):
    """What is known of floors laid through doorways.

    Attributes
    ----------
    floors
        Setting-out of the main floor, by the name of the row of Rooms.
    alike
        What tells the rooms they are laid through with apart, by the name of the row.
    findings
        Doorways that nothing can run through, with the reason.
    """

    floors: dict[str, SettingOut] = field(default_factory=dict)
    alike: dict[str, str] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)


def lay_through(
    rooms: Sequence[Room],
    descriptions: Sequence[RoomDescription],
    finishes: Mapping[str, Finish],
    tiles: Mapping[str, Tile],
    job: Job,
) -> ThroughFloors:
    """Set out the floors that run through doorways.

    The first room of several, in the order of the workbook, gives the direction of the tile.  A
    room described by Same as is joined to the room that is the same as the one named: the first
    pair of rooms, the second pair, and so on.

    Parameters
    ----------
    rooms
        Resolved.
    descriptions
        Rows of Rooms, for Same as.
    finishes, tiles
        What is laid.
    job
        Settings.
    """
    found = ThroughFloors()
    if not any(door.through_to for room in rooms for door in room.doorways):
        return found
    joiner = _Joiner(rooms, descriptions, finishes, tiles)
    passages = list(joiner.passages(found.findings))
    known: dict[str, list[SettingOut] | None] = {}
    for name in joiner.floors:
        if name in found.alike:
            continue
        free = [p for p in passages if p.here not in found.alike and p.there not in found.alike]
        parts = joiner.parts(name, free, found.findings)
        if len(parts) < 2:  # noqa: PLR2004 - a room by itself
            continue
        handed = joiner.floors[name].room.handed
        key = repr(
            [handed, *((p.surface.region, p.turns, p.shift, p.beyond, p.spec) for p in parts)]
        )
        if key not in known:
            first = parts[0]
            degrees = direction(first.surface, first.spec)
            known[key] = set_out_through(
                parts, joiner.floors[name].tile, job, degrees=degrees, handed=handed
            )
        outs = known[key]
        for at, part in enumerate(parts):
            found.alike[part.room] = f"{at} of {key}"
            if outs is not None:
                found.floors[part.room] = replace(outs[at], room=part.room)
    return found


class _Joiner:
    """Finds which doorways meet, and brings floors into one frame."""

    def __init__(
        self,
        rooms: Sequence[Room],
        descriptions: Sequence[RoomDescription],
        finishes: Mapping[str, Finish],
        tiles: Mapping[str, Tile],
    ) -> None:
        self._rooms = {room.name: room for room in rooms}
        self._root = _roots(descriptions)
        self.floors: dict[str, _Floor] = {}
        for room in rooms:
            finish = finishes.get(room.finish)
            spec = finish.surfaces.get(SurfaceKind.FLOOR) if finish else None
            tile = tiles.get(spec.tile) if spec and spec.tile else None
            surface = next((s for s in room.surfaces if s.key == "floor"), None)
            if spec and tile and surface and surface.region.patches:
                self.floors[room.name] = _Floor(room, surface, spec, tile)

    def passages(self, findings: list[Finding]) -> Iterator[_Passage]:
        """Every doorway that tile can run through; the others with a reason."""
        joined: set[tuple[str, str]] = set()
        for room in self._rooms.values():
            for door in room.doorways:
                if not door.through_to or (room.name, door.name) in joined:
                    continue
                there = self._partner(room.name, door.through_to)
                why, other = self._meets(room, door, there)
                if other is None:
                    findings.append(_finding(room, door, door.through_to, why))
                    continue
                joined |= {(room.name, door.name), (there, other.name)}
                yield _Passage(room.name, door, there, other)

    def _partner(self, name: str, named: str) -> str:
        """Room that a doorway leads to: as named, or the like one for a room described as same."""
        if self._root.get(name, name) == name:
            return named
        own = [n for n, root in self._root.items() if root == self._root[name]]
        target = self._root.get(named, named)
        theirs = [n for n, root in self._root.items() if root == target]
        at = own.index(name)
        return theirs[at] if at < len(theirs) else named

    def _meets(self, room: Room, door: Span, there: str) -> tuple[str, Span | None]:
        """Doorway of the other room, or why the tile can't run through."""
        beyond = self._rooms.get(there)
        if beyond is None:
            return f"room {there} could not be measured", None
        why = next(self._against(room, beyond), "")
        other = None if why else self._other_door(room, door, beyond)
        if not why and other is None:
            why = f"room {there} has several doorways: name {room.name} in Through to of one"
        if other is not None:
            why = next(_doors_against(door, other), "")
        return (why, None) if why else ("", other)

    def _against(self, room: Room, beyond: Room) -> Iterator[str]:
        """Reasons why the floors of two rooms can't be laid as one."""
        if beyond.name == room.name:
            yield "it leads to its own room"
        mine, theirs = self.floors.get(room.name), self.floors.get(beyond.name)
        if mine is None or theirs is None:
            yield "one of the two has no tiled main floor"
        elif mine.tile.code != theirs.tile.code or not laid_alike(mine.spec, theirs.spec):
            yield "tile, bond, run or joint of the two floors differ"
        if (room.count, room.phase) != (beyond.count, beyond.phase):
            yield "the two rows of Rooms differ in Count or Phase"

    def _other_door(self, room: Room, door: Span, beyond: Room) -> Span | None:
        back = [d for d in beyond.doorways if self._leads_back(d, room, beyond)]
        if len(back) == 1:
            return back[0]
        width = _width(door)
        alike = [d for d in beyond.doorways if abs(_width(d) - width) < _ALIKE]
        free = [d for d in alike if not d.through_to]
        if len(beyond.doorways) == 1:
            return beyond.doorways[0]
        return free[0] if len(free) == 1 and not back else None

    def _leads_back(self, door: Span, room: Room, beyond: Room) -> bool:
        return bool(door.through_to) and self._partner(beyond.name, door.through_to) == room.name

    def parts(
        self, first: str, passages: Sequence[_Passage], findings: list[Finding]
    ) -> list[Part]:
        """Floors that a floor runs on into, each with its way into the first one's frame."""
        start = self.floors[first]
        parts = {first: Part(first, start.surface, start.spec, start.room.walls)}
        both_ways = [p for one in passages for p in (one, one.turned())]
        todo = [first]
        while todo:
            here = todo.pop(0)
            for passage in (p for p in both_ways if p.here == here):
                if passage.there in parts:
                    continue
                part = self._beyond(parts[here], passage)
                common = part.region(part.surface.region)
                if any(overlaps(common, p.region(p.surface.region)) for p in parts.values()):
                    why = "the rooms would overlap: look where the doorways lie"
                    room = self._rooms[here]
                    findings.append(_finding(room, passage.door, passage.there, why))
                    continue
                parts[passage.there] = part
                todo.append(passage.there)
                for name, door in ((here, passage.door), (passage.there, passage.other)):
                    old = parts[name]
                    parts[name] = replace(old, beyond=(*old.beyond, door.name))
        return list(parts.values())

    def _beyond(self, part: Part, passage: _Passage) -> Part:
        """Turn and shift the floor beyond so that the two doorways meet."""
        floor = self.floors[passage.there]
        start, end = part.point(passage.door.start), part.point(passage.door.end)
        wanted = _sign(start[0] - end[0]), _sign(start[1] - end[1])
        a, b = passage.other.start, passage.other.end
        own = _sign(b[0] - a[0]), _sign(b[1] - a[1])
        turns = next(n for n in range(4) if turn_point(own, n) == wanted)
        x, y = turn_point(a, turns)
        shift = end[0] - x, end[1] - y
        return Part(
            passage.there, floor.surface, floor.spec, floor.room.walls, turns=turns, shift=shift
        )


def _doors_against(door: Span, other: Span) -> Iterator[str]:
    """Reasons why two doorways can't lie on each other."""
    apart = abs(_width(door) - _width(other))
    if apart >= _ALIKE:
        yield f"the doorways differ in width by {apart // 320} mm"
    if any(d.start[0] != d.end[0] and d.start[1] != d.end[1] for d in (door, other)):
        yield "a doorway lies in an oblique wall"


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)


def _width(door: Span) -> int:
    return abs(door.end[0] - door.start[0]) + abs(door.end[1] - door.start[1])


def _roots(descriptions: Sequence[RoomDescription]) -> dict[str, str]:
    """Room that each room is described by, at the end of its chain of Same as."""
    by_key = {_key(d.name): d for d in descriptions}
    roots = {}
    for description in descriptions:
        here, steps = description, 0
        while here.same_as and _key(here.same_as) in by_key and steps < len(by_key):
            here, steps = by_key[_key(here.same_as)], steps + 1
        roots[description.name] = here.name
    return roots


def _key(name: str) -> str:
    return " ".join(name.split()).casefold()


def _finding(room: Room, door: Span, there: str, why: str) -> Finding:
    facts: dict[str, Fact] = {
        "door": door.name,
        "there": there,
        "why": why,
        "width": Length(_width(door), small=False),
    }
    return Finding("THROUGH-NOT-POSSIBLE", door.source, "Through to", facts, room.name, "floor")
