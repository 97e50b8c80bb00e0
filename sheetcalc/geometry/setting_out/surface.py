"""Set out one surface: the way in to the package."""

from collections.abc import Collection, Sequence

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import BondKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.by_area import by_area
from sheetcalc.geometry.setting_out.checks import findings_of
from sheetcalc.geometry.setting_out.hips import cut_along_hips
from sheetcalc.geometry.setting_out.regular import regular, slabs_for
from sheetcalc.geometry.setting_out.request import Given, Request, request
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of, is_rectilinear

_REGULAR = frozenset({BondKind.GRID, BondKind.OFFSET})
_MOST_EDGES = 400


def set_out(  # noqa: PLR0913 - five records that belong together, two options by name
    room_name: str,
    surface: Surface,
    spec: SurfaceSpec,
    tile: Tile,
    job: Job,
    *,
    origin: Given = (None, None),
    degrees: float | None = None,
    joint_edges: Collection[Segment] = (),
    walls: Sequence[Wall] = (),
    handed: bool = False,
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
        Perimeter gap, smallest cut, order of aims, way of counting.
    origin
        A tile's near left corner in the surface's frame [1/320 mm] to keep to, so that joints run
        on from another surface; where either is None, the best start that way is searched.
    degrees
        Direction of the tile's long side to keep to, instead of the finish's Run.
    joint_edges
        More stretches, besides the surface's own ``joined_edges``, where another tiled surface of
        the same plane goes on: half a joint is left there; along every other edge the perimeter
        gap is taken off first.
    walls
        Named walls of the room, to say where to start from; without them the surface's own edges.
    handed
        Whether the room is the mirrored one of a pair: of starts that are as good it then gets
        the mirrored one.

    Returns
    -------
    SettingOut
        With the findings of the rules it was checked against.  No piece is taken from an offcut
        yet: that is ``geometry.off_cuts.pool_off_cuts``.
    """
    req = request(room_name, surface, spec, tile, job, joint_edges)
    req = replace(req, walls=tuple(walls), handed=handed)
    if degrees is not None:
        req = replace(req, degrees=degrees % 180)
    out = lay(req, origin)
    if out is None:
        out = by_area(req, "nothing is left to tile between the perimeter gaps")
        return replace(
            out, whole=0, tiles_opened=0, lower_bound=0, by_area=False, holed=0, joint_area_m2=0.0,
            joint_length_m=0.0, crossings=0, tiles_by_area=0.0, findings=(_no_tile(req),),
        )  # fmt: skip
    out = cut_along_hips(req, out)
    return replace(out, findings=(*out.findings, *findings_of(req, out)))


def lay(req: Request, origin: Given) -> SettingOut | None:
    """Lay tiles in the way that the bond and the outline ask for; None where nothing is left.

    Parameters
    ----------
    req
        What is set out.
    origin
        A tile's near left corner to keep to, each where it is given.
    """
    from sheetcalc.geometry.setting_out.laid import laid  # noqa: PLC0415 - loads shapely

    if not req.surface.region.patches:
        return None
    if req.job.counted_by == "area":
        return by_area(req, "counted by area and module, as the Job says")
    square = req.quarter_turns is not None and is_rectilinear(req.surface.region)
    if square and len(edges_of(req.surface.region)) > _MOST_EDGES:
        square = False
    slabs = slabs_for(req) if square else None
    if slabs is not None and slabs.is_empty:
        return None
    if slabs is not None and (req.sheet or req.spec.bond.kind in _REGULAR):
        return regular(req, slabs, origin)
    return laid(req, slabs, origin)


def _no_tile(req: Request) -> Finding:
    return Finding(
        "GAP-LEAVES-NO-TILE",
        facts={"surface": req.surface.key, "gap": Length(req.gap)},
        room=req.room,
        surface=req.surface.key,
    )
