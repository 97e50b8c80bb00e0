"""Set out one surface: the way in to the package."""

from collections.abc import Collection
from dataclasses import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import BondKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import SettingOut
from sheetcalc.domain.room import Point, Surface
from sheetcalc.geometry.setting_out.by_area import by_area
from sheetcalc.geometry.setting_out.regular import regular, slabs_for
from sheetcalc.geometry.setting_out.request import Request, request
from sheetcalc.geometry.setting_out.slabs import Segment, is_rectilinear

_REGULAR = frozenset({BondKind.GRID, BondKind.OFFSET})


def set_out(
    room_name: str,
    surface: Surface,
    spec: SurfaceSpec,
    tile: Tile,
    job: Job,
    *,
    origin: Point | None = None,
    joint_edges: Collection[Segment] = (),
) -> SettingOut:
    """Lay tiles on a surface from the best start there is, and count them.

    Parameters
    ----------
    room_name
        For the record.
    surface
        What is tiled, out to the walls.
    spec
        How it is tiled.
    tile
        The tile, or mosaic sheet.
    job
        Perimeter gap, smallest cut, order of aims, kerf, offcuts, way of counting.
    origin
        A tile's corner in the surface's frame [1/320 mm] to keep to, so that joints run on from
        another surface; None: the best start is searched.
    joint_edges
        Stretches of the outline where another tiled surface of the same plane goes on: half a
        joint is left there; along every other edge the perimeter gap is taken off first.

    Returns
    -------
    SettingOut
        With the findings of the rules it was checked against.
    """
    req = request(room_name, surface, spec, tile, job, joint_edges)
    return _laid(req, origin)


def _laid(req: Request, origin: Point | None) -> SettingOut:
    if req.job.counted_by == "area":
        return by_area(req, "counted by area and module, as the Job says")
    if (
        req.spec.bond.kind in _REGULAR
        and req.quarter_turns is not None
        and is_rectilinear(req.surface.region)
    ):
        return regular(req, slabs_for(req), origin)
    return replace(by_area(req, "counted by area and module: this bond is not set out"))
