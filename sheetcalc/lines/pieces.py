"""How many tiles the surfaces of one kind take: from their setting-outs, or by area and module."""

from collections.abc import Iterable

from msgspec import Struct

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.lines import words
from sheetcalc.lines.line import LineContext, TiledSurface
from sheetcalc.rules.allowances import BY_AREA, BY_SETTING_OUT
from sheetcalc.rules.counting import joint_of, tiles_for_area


class Pieces(Struct, frozen=True):
    """Tiles of the surfaces of one kind, counted in one way, before waste.

    Attributes
    ----------
    surface
        Key of the surface, or the kind where there are several.
    spec, tile
        How they are tiled, and with what.
    outs
        Their setting-outs; those counted by area too.
    count
        Tiles opened, or area over module (a fraction then).
    area_m2
        Area tiled [m2].
    open_edges_mm320
        Length of edge that ends in nothing [1/320 mm].
    joint_mm320
        Joint [1/320 mm].
    counted_by
        ``setting-out`` or ``area``.
    words
        The working, for the Basis.
    """

    surface: str
    spec: SurfaceSpec
    tile: Tile
    outs: tuple[SettingOut, ...]
    count: float
    area_m2: float
    open_edges_mm320: int
    joint_mm320: int
    counted_by: str
    words: str


def all_pieces(ctx: LineContext) -> list[Pieces]:
    """Tiles of the room, kind by kind of surface; worked out once."""
    return list(ctx.once(_all_pieces))


def _all_pieces(ctx: LineContext) -> list[Pieces]:
    groups: dict[tuple[SurfaceKind, bool], list[TiledSurface]] = {}
    for tiled in ctx.tiled():
        out = tiled.setting_out
        by_area = out is None or out.by_area or ctx.job.counted_by == BY_AREA
        groups.setdefault((tiled.surface.kind, by_area), []).append(tiled)
    found = [
        _by_area(surfaces, ctx.job) if by_area else _set_out(surfaces, ctx.job)
        for (_, by_area), surfaces in groups.items()
    ]
    return [p for p in found if p.count > 0]


def area_m2(tiled: TiledSurface) -> float:
    """Area that is tiled: the setting-out's, else the whole surface [m2]."""
    if tiled.setting_out:
        return tiled.setting_out.area_m2
    return tiled.surface.region.area_m2


def _set_out(surfaces: list[TiledSurface], job: Job) -> Pieces:
    """Tiles opened by the setting-outs of surfaces of one kind."""
    outs = _outs(surfaces)
    whole, cut, opened = (
        sum(out.whole for out in outs),
        sum(out.cut for out in outs),
        sum(out.opened_mean or out.tiles_opened for out in outs),
    )
    first = outs[0]
    text = f"{whole} whole + {cut} cut"
    if opened != whole + cut:
        text += f", {words.number(opened)} opened after offcuts"
        text += " shared over the whole job," if job.offcuts == "whole job" else ","
    text += " from the setting-out" if len(outs) == 1 else f" on {len(outs)} setting-outs"
    text += (
        f" in {first.bond.label}, joint {words.small_mm320(first.joint_mm320, job)}; no layout "
        f"needs fewer than {sum(out.lower_bound for out in outs)}"
    )
    return _pieces(surfaces, job, float(opened), BY_SETTING_OUT, text)


def _by_area(surfaces: list[TiledSurface], job: Job) -> Pieces:
    """Area over module of surfaces of one kind; a base course by its length."""
    tile, outs = surfaces[0].tile, _outs(surfaces)
    joint = outs[0].joint_mm320 if outs else joint_of(surfaces[0].spec, job)
    area = sum(area_m2(tiled) for tiled in surfaces)
    if surfaces[0].surface.kind is SurfaceKind.BASE:
        return _base(surfaces, job, area, tile.module(joint)[0])
    by_setting_out = sum(out.tiles_by_area for out in outs)
    along, across = tile.module(joint)
    count = by_setting_out or tiles_for_area(
        area, mm320_to_m(along - joint), mm320_to_m(across - joint), mm320_to_m(joint)
    )
    chips = tile.chips(joint)
    made = f"{chips[0]} x {chips[1]} chips and joints" if chips else "tile + joint"
    text = (
        f"{words.area(area, job)} by area over module "
        f"({words.small_mm320(along, job)} x {words.small_mm320(across, job)}; module = {made}, "
        f"master specification Section 09 30 00) = {words.number(count)}"
    )
    return _pieces(surfaces, job, count, BY_AREA, text)


def _base(surfaces: list[TiledSurface], job: Job, area: float, along: int) -> Pieces:
    """Tiles of a course along the walls, as high as a tile is wide: length over tile and joint."""
    length_m = area / mm320_to_m(surfaces[0].tile.width_mm320)
    count = length_m / mm320_to_m(along)
    text = (
        f"{words.long(length_m, job)} of base (perimeter less doorways, baths, trays and "
        f"cabinets) over {words.small_mm320(along, job)} of tile and "
        f"joint = {words.number(count)}"
    )
    return _pieces(surfaces, job, count, BY_AREA, text)


def _pieces(
    surfaces: list[TiledSurface], job: Job, count: float, counted_by: str, text: str
) -> Pieces:
    first, outs = surfaces[0], _outs(surfaces)
    return Pieces(
        surface=first.surface.key if len(surfaces) == 1 else first.surface.kind.value,
        spec=first.spec,
        tile=first.tile,
        outs=outs,
        count=count,
        area_m2=sum(area_m2(tiled) for tiled in surfaces),
        open_edges_mm320=sum(tiled.surface.open_edges_mm320 for tiled in surfaces),
        joint_mm320=outs[0].joint_mm320 if outs else joint_of(first.spec, job),
        counted_by=counted_by,
        words=text,
    )


def _outs(surfaces: Iterable[TiledSurface]) -> tuple[SettingOut, ...]:
    return tuple(t.setting_out for t in surfaces if t.setting_out)
