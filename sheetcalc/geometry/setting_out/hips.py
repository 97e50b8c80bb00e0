"""Hips of a shower floor that falls four ways to a drain: where large tiles have to be cut."""

from msgspec.structs import replace

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.request import Request
from sheetcalc.geometry.setting_out.slabs import Segment, is_rectilinear
from sheetcalc.rules import tile as rules

_CORNERS = 4


def hips_of(surface: Surface) -> tuple[Segment, ...]:
    """Lines where two falls of a shower floor meet: from its drain to its corners.

    Empty for anything but a rectangle with one drain that is no channel: there the designer of the
    falls decides where they meet.  Geometry of four falls from a level edge; no source.

    Parameters
    ----------
    surface
        Of a room.
    """
    drain, patches = surface.falls_to, surface.region.patches
    if drain is None or len(patches) != 1 or not is_rectilinear(surface.region):
        return ()
    corners = patches[0].shell
    left, front, right, far = surface.region.bounds
    if len(corners) != _CORNERS or not (left < drain[0] < right and front < drain[1] < far):
        return ()
    return tuple((drain, corner) for corner in corners)


def is_too_large_for_falls(req: Request) -> bool:
    """Whether a tile stands off a four-way fall by more than the lippage limit.

    Derived from the slope and the lippage limit; no published source for the tile size.
    """
    if req.surface.kind is not SurfaceKind.SHOWER_FLOOR:
        return False
    rock = rules.rock_over_hip_mm(max(req.length, req.width), req.job.shower_slope)
    return rock * 320 > rules.lippage_allowed_mm320(req.joint)


def cut_along_hips(req: Request, out: SettingOut) -> SettingOut:
    """Cut the tiles that lie across a hip in two, where they can't follow the falls.

    The joint along a hip is as wide as the saw's kerf, or as other joints where these are wider:
    so both parts come from one tile, and no more tiles are needed.  The start stays.

    Parameters
    ----------
    req
        What is set out.
    out
        Its setting-out without the hips.
    """
    hips = hips_of(req.surface)
    if not hips or out.by_area or not is_too_large_for_falls(req):
        return out
    from sheetcalc.geometry.setting_out.laid import counted_at  # noqa: PLC0415 - loads shapely

    width = max(req.joint, req.job.kerf_mm320)
    again = counted_at(req, out, hips, width)
    if again is None:
        return out
    return replace(
        again,
        hips=hips,
        hip_mm320=width,
        searched=f"{out.searched}; then tiles are cut along the hips of the four falls",
    )
