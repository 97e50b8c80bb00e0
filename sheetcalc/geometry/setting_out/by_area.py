"""Tiles counted by area and module, without a setting-out."""

import math

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.measure import mm320_squared_to_m2, mm320_to_m
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.request import Request


def by_area(req: Request, why: str) -> SettingOut:
    """Count tiles as area over module, a fraction that is not rounded on the way.

    A module is tile plus joint: master specification Section 09 30 00, definitions; one module
    holds joints of j(L + W + j), length L + W, and one crossing, in bonds other than a grid two.
    A base course has joints between its tiles alone, and no crossing.

    Parameters
    ----------
    req
        What is set out.
    why
        Words for how it was counted.
    """
    area = req.surface.region.area_mm320
    course = req.surface.kind is SurfaceKind.BASE and not req.sheet
    along, across = req.length + req.joint, req.width + (0 if course else req.joint)
    chips = area / (along * across)
    per_tile = req.sheet[0] * req.sheet[1] if req.sheet else 1
    tiles = chips / per_tile
    joint_area = chips * (along * across - req.length * req.width)
    ends = 0 if course else req.spec.bond.ends_per_tile
    opened = math.ceil(round(tiles, 9))
    upright = req.quarter_turns == 1
    return SettingOut(
        room=req.room,
        surface=req.surface.key,
        kind=req.surface.kind,
        tile=req.tile.code,
        bond=req.spec.bond,
        run_label=req.spec.run.label,
        joint_mm320=req.joint,
        region=req.surface.region,
        origin=req.surface.region.bounds[:2] if req.surface.region.patches else (0, 0),
        module_mm320=(across, along) if upright else (along, across),
        whole=opened,
        cut=0,
        holed=len(req.surface.holes),
        tiles_opened=opened,
        pieces=(),
        smallest_cut_mm320=None,
        balance_mm320=0,
        lower_bound=opened,
        area_m2=req.surface.region.area_m2,
        joint_area_m2=mm320_squared_to_m2(joint_area),
        joint_length_m=mm320_to_m(chips * (req.width + (0 if course else req.length))),
        crossings=round(chips * ends),
        by_area=True,
        searched=why,
        turn_degrees=req.degrees,
        tiles_by_area=tiles,
    )
