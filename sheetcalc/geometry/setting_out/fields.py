"""The tiled surfaces of a room, those together that are set out as one."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finding import IN_ROOMS
from sheetcalc.domain.finish import BondKind, Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.geometry.setting_out.request import FREE, Start, direction
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of
from sheetcalc.geometry.setting_out.start import FLOORS

_PLANES = ("wall inset ", "wet area ", "wall ")
_PARTS = frozenset({SurfaceKind.WALL, SurfaceKind.WET_AREA})
"""Kinds that go on in each other where they touch."""

_LEVEL = frozenset({(BondKind.GRID, 0.0), (BondKind.GRID, 90.0), (BondKind.OFFSET, 0.0)})
"""Bonds, and directions of the tile [degrees], that make level courses on a wall."""

_Tiled: TypeAlias = tuple[Surface, SurfaceSpec, Tile]


class Field(Struct, frozen=True):
    """Parts of a wall that touch and are tiled alike, or any other surface by itself.

    Attributes
    ----------
    room
        Name of its room.
    parts
        The surfaces, and how each is tiled, in the order of the room.
    tile
        The tile of all of them.
    beside
        Tiled surfaces in the same plane of a wall, the parts among them.
    edges
        Where each part meets others of its wall.
    walls
        Of the room, to measure from, and for joints that keep to the floor's.
    handed
        Whether the room is the mirrored one of a pair.
    """

    room: str
    parts: tuple[tuple[Surface, SurfaceSpec], ...]
    tile: Tile
    beside: tuple[Surface, ...]
    edges: tuple[tuple[Segment, ...], ...]
    walls: tuple[Wall, ...]
    handed: bool

    @property
    def first(self) -> Surface:
        """The part that the others go on from."""
        return self.parts[0][0]

    @property
    def keeps_to_floor(self) -> bool:
        """Whether it is laid by the joints of the floor."""
        return self.parts[0][1].run.along == "floor"

    @property
    def courses(self) -> Hashable:
        """What the level courses of a wall depend on, their height apart; None without any."""
        surface, spec = self.parts[0]
        if surface.kind not in _PARTS or wall_plane(surface) is None:
            return None
        degrees = direction(surface, spec)
        level = (spec.bond.kind, degrees) in _LEVEL
        return (self.tile.code, spec.joint_mm320, degrees) if level else None

    def like(self, start: Start = FREE) -> Hashable:
        """Everything that its setting-out depends on, the Job apart.

        Parameters
        ----------
        start
            What is taken over from the floor.
        """
        alike = tuple((replace(part, source=IN_ROOMS), spec) for part, spec in self.parts)
        near = self.walls if self.first.kind in FLOORS else ()
        return alike, self.tile, self.edges, start, near, self.handed


class TiledRoom(Struct, frozen=True):
    """A room as it is set out; ``surfaces`` are the keys of those that are tiled, in order."""

    name: str
    surfaces: tuple[str, ...]
    fields: tuple[Field, ...]

    def in_order(self) -> Iterator[tuple[Field, Field | None]]:
        """Give the fields in the order to set them out, and the wall whose courses each takes.

        The floor comes before those that keep to it.  Courses of alike tile run on round the
        room's corners, so the largest wall sets their height, and the others take it over: common
        practice, no source.
        """
        leading: dict[Hashable, Field] = {}
        for field in sorted(self.fields, key=_leading):
            courses = field.courses
            yield field, leading.get(courses)
            if courses is not None:
                leading.setdefault(courses, field)


def _leading(field: Field) -> tuple[bool, float, list[int], str]:
    """Those that keep to the floor last; the larger first; whatever the order of the rows."""
    area = sum(surface.region.area_mm320 for surface, _ in field.parts)
    heights = sorted(y for part, _ in field.parts for e in edges_of(part.region) for _, y in e)
    return field.keeps_to_floor, -area, heights, field.first.key


def tiled_room(  # noqa: PLR0913 - one room: its surfaces, finish, tiles; walls by name
    name: str,
    surfaces: Sequence[Surface],
    finish: Finish,
    tiles: Mapping[str, Tile],
    *,
    walls: Sequence[Wall] = (),
    handed: bool = False,
) -> TiledRoom:
    """Find the surfaces of a room that its finish tiles, and those that are laid through as one.

    Parameters
    ----------
    name
        For the record.
    surfaces
        Of the room, tiled or not.
    finish
        Which tile lies where.
    tiles
        By code.
    walls
        Of the room.
    handed
        Whether the room is the mirrored one of a pair.
    """
    tiled = [(s, spec, tile) for s in surfaces for spec, tile in _tile_of(s, finish, tiles)]
    on_plane: defaultdict[str | None, list[_Tiled]] = defaultdict(list)
    for one in tiled:
        on_plane[wall_plane(one[0])].append(one)
    fields = []
    for plane, here in on_plane.items():
        beside = tuple(surface for surface, _, _ in here)
        for several in [[one] for one in here] if plane is None else _together(here):
            parts = tuple((surface, spec) for surface, spec, _ in several)
            edges = tuple(tuple(shared_edges(part, beside)) for part, _ in parts)
            tile = several[0][2]
            fields.append(Field(name, parts, tile, beside, edges, tuple(walls), handed))
    keys = tuple(surface.key for surface, _, _ in tiled)
    fields.sort(key=lambda field: keys.index(field.first.key))
    return TiledRoom(name, keys, tuple(fields))


def _tile_of(
    surface: Surface, finish: Finish, tiles: Mapping[str, Tile]
) -> Iterable[tuple[SurfaceSpec, Tile]]:
    spec = finish.surfaces.get(surface.kind)
    tile = tiles.get(spec.tile) if spec and spec.tile else None
    if spec and tile:
        yield spec, tile


def _together(tiled: Sequence[_Tiled]) -> list[list[_Tiled]]:
    """Put the parts of one wall together that touch and are tiled alike, in their order."""
    fields: list[list[_Tiled]] = []
    for one in tiled:
        mine = [field for field in fields if any(_goes_on(one, other) for other in field)]
        if mine:
            joined = {id(field) for field in mine}
            fields = [field for field in fields if id(field) not in joined]
        fields.append([*(other for field in mine for other in field), one])
    place = {surface.key: at for at, (surface, _, _) in enumerate(tiled)}
    for field in fields:
        field.sort(key=lambda each: place[each[0].key])
    return fields


def _goes_on(one: _Tiled, other: _Tiled) -> bool:
    """Whether two surfaces are parts of one wall that touch, and tiled alike."""
    (a, spec_a, tile_a), (b, spec_b, tile_b) = one, other
    if a.kind not in _PARTS or b.kind not in _PARTS:
        return False
    alike = tile_a.code == tile_b.code and laid_alike(spec_a, spec_b)
    return alike and bool(shared_edges(a, [b]))


def laid_alike(one: SurfaceSpec, other: SurfaceSpec) -> bool:
    """Whether two surfaces have the same tile, bond, run and joint."""
    return (one.tile, one.bond, one.run, one.joint_mm320) == (
        other.tile,
        other.bond,
        other.run,
        other.joint_mm320,
    )


def wall_plane(surface: Surface) -> str | None:
    """Name the wall plane that a surface lies in; None for anything but parts of a wall's face."""
    if surface.kind not in {SurfaceKind.WALL, SurfaceKind.WET_AREA, SurfaceKind.INSET}:
        return None
    for prefix in _PLANES:
        if surface.key.startswith(prefix):
            return surface.key.removeprefix(prefix).split(" no. ")[0]
    return None


def shared_edges(surface: Surface, others: Iterable[Surface]) -> list[Segment]:
    """Stretches where a part of a wall meets another tiled part of the same wall.

    Floors know theirs (``joined_edges``); parts of one wall are measured in one frame.
    """
    plane = wall_plane(surface)
    if plane is None:
        return []
    near = [o for o in others if o.key != surface.key and wall_plane(o) == plane]
    mine = _lines(surface) if near else []
    return [
        _along(axis, at, max(low, from_), min(high, to))
        for other in near
        for axis, at, low, high in _lines(other)
        for my_axis, my_at, from_, to in mine
        if axis == my_axis and at == my_at and max(low, from_) < min(high, to)
    ]


def _lines(surface: Surface) -> list[tuple[int, int, int, int]]:
    """Level and upright edges: the axis they run along, where across it, from where, to where."""
    return [
        (axis, start[1 - axis], min(start[axis], end[axis]), max(start[axis], end[axis]))
        for start, end in edges_of(surface.region)
        for axis in (0, 1)
        if start[1 - axis] == end[1 - axis]
    ]


def _along(axis: int, at: int, low: int, high: int) -> Segment:
    return ((low, at), (high, at)) if axis == 0 else ((at, low), (at, high))
