"""Set out every tiled surface of a room: shared edges, offcuts of the same room."""

from collections.abc import Iterable, Mapping, Sequence

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import Finish, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import SettingOut
from sheetcalc.domain.room import Surface
from sheetcalc.geometry.off_cuts import pool_off_cuts
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of
from sheetcalc.geometry.setting_out.surface import set_out

_PLANES = ("wall inset ", "wet area ", "wall ")


def set_out_room(
    room_name: str,
    surfaces: Sequence[Surface],
    finish: Finish,
    tiles: Mapping[str, Tile],
    job: Job,
) -> dict[str, SettingOut]:
    """Set out every surface of a room that its finish tiles.

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

    Returns
    -------
    dict
        By the key of the surface, in the order given.
    """
    tiled = [(s, spec, tile) for s in surfaces for spec, tile in _tile_of(s, finish, tiles)]
    outs = [
        set_out(
            room_name,
            surface,
            spec,
            tile,
            job,
            joint_edges=shared_edges(surface, [other for other, _, _ in tiled]),
        )
        for surface, spec, tile in tiled
    ]
    pooled = pool_off_cuts(outs, job) if job.offcuts == "same room" else outs
    return {out.surface: out for out in pooled}


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
    edges = edges_of(surface.region)
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
