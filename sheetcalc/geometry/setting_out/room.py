"""Set out every tiled surface of a room: shared edges, offcuts of the same room."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import TypeAlias

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finding import IN_ROOMS
from sheetcalc.domain.finish import Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts
from sheetcalc.geometry.setting_out.common_frame import Part
from sheetcalc.geometry.setting_out.known import Known, of_room
from sheetcalc.geometry.setting_out.request import Given, is_upright
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of
from sheetcalc.geometry.setting_out.start import FLOORS
from sheetcalc.geometry.setting_out.surface import set_out
from sheetcalc.geometry.setting_out.through import set_out_through

_PLANES = ("wall inset ", "wet area ", "wall ")
_PARTS = frozenset({SurfaceKind.WALL, SurfaceKind.WET_AREA})
"""Kinds that go on in each other where they touch."""


def set_out_room(  # noqa: PLR0913 - one room: its surfaces, finish, tiles, job; walls by name
    room_name: str,
    surfaces: Sequence[Surface],
    finish: Finish,
    tiles: Mapping[str, Tile],
    job: Job,
    *,
    walls: Sequence[Wall] = (),
    given: Mapping[str, SettingOut] | None = None,
    known: Known | None = None,
    handed: bool = False,
) -> dict[str, SettingOut]:
    """Set out every surface of a room that its finish tiles.

    A surface whose Run is ``with the floor`` keeps to the floor's joint lines: a shower floor or
    an inset both ways and in the floor's direction; a wall with its upright joints.  Parts of a
    wall that touch and have the same tile, bond, run and joint (a wet area and the wall round it)
    are laid through as one.

    Parameters
    ----------
    room_name
        For the record.
    surfaces
        Of the room, tiled or not.
    finish
        Which tile lies where.
    tiles
        By code.
    job
        Settings; offcuts are shared between surfaces with the same tile unless it says none.
    walls
        Of the room, to measure from, and for those that keep to the floor's joints.
    given
        Setting-outs found before, by surface, of floors that are laid through from another room.
    known
        What was set out for other rooms of the same job.
    handed
        Whether the room is the mirrored one of a pair.

    Returns
    -------
    dict
        By the key of the surface, in the order given.
    """
    tiled = [(s, spec, tile) for s in surfaces for spec, tile in _tile_of(s, finish, tiles)]
    others = [surface for surface, _, _ in tiled]
    on_plane: defaultdict[str | None, list[Surface]] = defaultdict(list)
    for surface in others:
        on_plane[wall_plane(surface)].append(surface)
    outs: dict[str, SettingOut] = dict(given or {})
    known = known or Known()
    # the floor first, for those that keep to it
    for field in sorted(_fields(tiled), key=lambda several: several[0][1].run.along == "floor"):
        surface, spec, tile = field[0]
        if surface.key in outs:
            continue
        floor = outs.get("floor") if spec.run.along == "floor" else None
        given_start = _with_floor(surface, floor, walls)
        near = tuple(walls) if surface.kind in FLOORS else ()
        beside = on_plane[wall_plane(surface)]
        edges = [tuple(shared_edges(part, beside)) for part, _, _ in field]
        alike = tuple((replace(part, source=IN_ROOMS), of) for part, of, _ in field)
        laid = known.surfaces(
            (alike, tile, *edges, given_start, near, handed),
            partial(
                _set_out_field, room_name, field, beside, job, given_start, walls, handed=handed
            ),
        )
        outs |= {out.surface: out for out in laid}
    if job.offcuts == "same room":
        outs = _pooled([outs[surface.key] for surface in others], job, room_name, known)
    return {surface.key: of_room(outs[surface.key], room_name) for surface in others}


def _set_out_field(  # noqa: PLR0913, PLR0917 - the parts of one field
    room_name: str,
    field: Sequence["_Tiled"],
    others: Sequence[Surface],
    job: Job,
    start: tuple[Given, float | None],
    walls: Sequence[Wall],
    *,
    handed: bool,
) -> list[SettingOut]:
    """Set out the parts of one field through, or each by itself where that can't be."""
    origin, degrees = start
    if len(field) > 1:
        own = {surface.key for surface, _, _ in field}
        beside = [other for other in others if other.key not in own]
        through = set_out_through(
            [Part(room_name, part, of, tuple(walls)) for part, of, _ in field],
            field[0][2],
            job,
            joint_edges=[edge for part, _, _ in field for edge in shared_edges(part, beside)],
            origin=origin,
            degrees=degrees,
            handed=handed,
        )
        if through is not None:
            return through
    return [
        set_out(
            room_name,
            surface,
            spec,
            tile,
            job,
            origin=origin,
            degrees=degrees,
            joint_edges=shared_edges(surface, others),
            walls=walls,
            handed=handed,
        )
        for surface, spec, tile in field
    ]


def _pooled(
    outs: Sequence[SettingOut], job: Job, room_name: str, known: Known
) -> dict[str, SettingOut]:
    """Share offcuts among the surfaces of a room with the same tile."""
    pools: defaultdict[str, list[SettingOut]] = defaultdict(list)
    for out in outs:
        pools[out.tile].append(out)
    return {
        out.surface: out
        for pool in pools.values()
        for out in known.pool(
            pool, lambda several: pool_off_cuts([of_room(o, room_name) for o in several], job)
        )
    }


_Tiled: TypeAlias = tuple[Surface, SurfaceSpec, Tile]


def _fields(tiled: Sequence[_Tiled]) -> list[list[_Tiled]]:
    """Put the parts of a wall together that touch and are tiled alike; anything else is alone."""
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
    return sorted(fields, key=lambda field: place[field[0][0].key])


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


def _with_floor(
    surface: Surface, floor: SettingOut | None, walls: Sequence[Wall]
) -> tuple[Given, float | None]:
    """Tile corner and direction that a surface takes over from the floor."""
    if floor is None or floor.by_area:
        return (None, None), None
    plane = wall_plane(surface)
    if plane is not None:
        named = [wall for wall in walls if wall.name.casefold() == plane.casefold()]
        return (upright_joint(named[0], floor) if named else None, None), None
    if is_upright(surface) or surface.kind not in {SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR}:
        return (None, None), None
    return floor.origin, floor.turn_degrees


def upright_joint(wall: Wall, floor: SettingOut) -> int | None:
    """Where a tile on a wall begins, from its left end, so that it stands on a tile of the floor.

    Walls are walked with the room on the left, so a wall's left end, seen from inside, is where
    the walk leaves it.  None where wall or floor tile lies oblique.

    Parameters
    ----------
    wall
        The wall.
    floor
        Setting-out of the floor.
    """
    axis = 0 if wall.start[1] == wall.end[1] else 1
    if floor.turn_degrees % 90 or wall.start[1 - axis] != wall.end[1 - axis]:
        return None
    near = floor.origin[axis]
    if wall.end[axis] < wall.start[axis]:
        return near - wall.end[axis]
    face = floor.module_mm320[axis] - floor.joint_mm320
    return wall.end[axis] - (near + face)


def _tile_of(
    surface: Surface, finish: Finish, tiles: Mapping[str, Tile]
) -> Iterable[tuple[SurfaceSpec, Tile]]:
    spec = finish.surfaces.get(surface.kind)
    tile = tiles.get(spec.tile) if spec and spec.tile else None
    if spec and tile:
        yield spec, tile


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
    edges = edges_of(surface.region) if near else []
    return [
        stretch
        for other in near
        for line in edges_of(other.region)
        for edge in edges
        for stretch in _overlap(edge, line)
    ]


def _overlap(edge: Segment, line: Segment) -> Iterable[Segment]:
    """Find the common stretch of two edges along the same axis, if any."""
    for axis in (0, 1):
        across = 1 - axis
        if edge[0][across] == edge[1][across] == line[0][across] == line[1][across]:
            low = max(min(edge[0][axis], edge[1][axis]), min(line[0][axis], line[1][axis]))
            high = min(max(edge[0][axis], edge[1][axis]), max(line[0][axis], line[1][axis]))
            if low < high:
                at = edge[0][across]
                yield ((low, at), (high, at)) if axis == 0 else ((at, low), (at, high))
