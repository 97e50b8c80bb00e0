"""Set out every tiled surface of a room: shared edges, offcuts of the same room."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from functools import partial

from msgspec.structs import replace

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts
from sheetcalc.geometry.setting_out.common_frame import Part
from sheetcalc.geometry.setting_out.fields import Field, TiledRoom, shared_edges, wall_plane
from sheetcalc.geometry.setting_out.known import Known, of_room
from sheetcalc.geometry.setting_out.request import FREE, Start, is_upright
from sheetcalc.geometry.setting_out.surface import set_out
from sheetcalc.geometry.setting_out.through import set_out_through


def set_out_room(
    room: TiledRoom,
    job: Job,
    *,
    given: Mapping[str, SettingOut] | None = None,
    known: Known | None = None,
) -> dict[str, SettingOut]:
    """Set out every surface of a room that its finish tiles.

    A surface whose Run is ``with the floor`` keeps to the floor's joint lines: a shower floor or
    an inset both ways and in the floor's direction; a wall with its upright joints.  Parts of a
    wall that touch and have the same tile, bond, run and joint (a wet area and the wall round it)
    are laid through as one.  Level courses of alike tile run on from wall to wall.

    Parameters
    ----------
    room
        Its tiled surfaces.
    job
        Settings; offcuts are shared between surfaces with the same tile unless it says none.
    given
        Setting-outs found before, by surface, of floors that are laid through from another room.
    known
        What was set out for other rooms of the same job.

    Returns
    -------
    dict
        By the key of the surface, in the order given.
    """
    outs: dict[str, SettingOut] = dict(given or {})
    known = known or Known()
    for field, leading in room.in_order():
        if field.first.key in outs:
            continue
        floor = outs.get("floor") if field.keeps_to_floor else None
        start = _with_floor(field.first, floor, field.walls)
        beside = outs[leading.first.key] if leading else None
        if beside is None or beside.by_area:
            laid = known.surfaces(field.like(start), partial(set_out_field, field, job, start))
        else:
            (left, _), degrees = start
            start = (left, beside.origin[1]), degrees
            like = field.like(start), beside.surface
            laid = known.surfaces(like, partial(_run_on, field, job, start, beside.surface))
        outs |= {out.surface: out for out in laid}
    if job.offcuts == "same room":
        in_order = sorted(room.surfaces)  # whatever the order of the rows
        outs = _pooled([outs[key] for key in in_order], job, room.name, known)
    return {key: of_room(outs[key], room.name) for key in room.surfaces}


def set_out_field(field: Field, job: Job, start: Start = FREE) -> list[SettingOut]:
    """Set out the parts of one field through, or each by itself where that can't be.

    Parameters
    ----------
    field
        One surface or several.
    job
        Settings.
    start
        What is taken over from the floor.
    """
    origin, degrees = start
    if len(field.parts) > 1:
        own = {surface.key for surface, _ in field.parts}
        others = [other for other in field.beside if other.key not in own]
        through = set_out_through(
            [Part(field.room, part, of, field.walls) for part, of in field.parts],
            field.tile,
            job,
            joint_edges=[edge for part, _ in field.parts for edge in shared_edges(part, others)],
            origin=origin,
            degrees=degrees,
            handed=field.handed,
        )
        if through is not None:
            return through
    return [
        set_out(
            field.room,
            surface,
            spec,
            field.tile,
            job,
            origin=origin,
            degrees=degrees,
            joint_edges=edges,
            walls=field.walls,
            handed=field.handed,
        )
        for (surface, spec), edges in zip(field.parts, field.edges, strict=True)
    ]


def _run_on(field: Field, job: Job, start: Start, beside: str) -> list[SettingOut]:
    """Set out a wall at the height of another's courses, and say whose."""
    words = f"Courses run on from {beside}."
    outs = set_out_field(field, job, start)
    return [replace(out, start=f"{out.start} {words}") if out.start else out for out in outs]


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


def _with_floor(surface: Surface, floor: SettingOut | None, walls: Sequence[Wall]) -> Start:
    """Tile corner and direction that a surface takes over from the floor."""
    if floor is None or floor.by_area:
        return FREE
    plane = wall_plane(surface)
    if plane is not None:
        named = [wall for wall in walls if wall.name.casefold() == plane.casefold()]
        return (upright_joint(named[0], floor) if named else None, None), None
    if is_upright(surface) or surface.kind not in {SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR}:
        return FREE
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
