"""How many tiles a surface takes: from its setting-out, or by area and module."""

from dataclasses import dataclass

from sheetcalc.domain.finish import SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.domain.room import Region, Surface
from sheetcalc.lines import words
from sheetcalc.lines.line import LineContext, TiledSurface
from sheetcalc.rules.allowances import BY_AREA, BY_SETTING_OUT
from sheetcalc.rules.counting import default_joint_mm320, tiles_for_area


@dataclass(frozen=True, slots=True)
class Pieces:
    """Tiles of a surface before waste.

    Attributes
    ----------
    surface
        Key of the surface.
    count
        Tiles opened, or area over module (a fraction then).
    area_m2
        Area tiled [m2].
    counted_by
        ``setting-out`` or ``area``.
    words
        The working, for the Basis.
    """

    surface: str
    tiled: TiledSurface
    count: float
    area_m2: float
    counted_by: str
    words: str


def joint_mm320(tiled: TiledSurface, job: Job) -> int:
    """Joint of a tiled surface: its setting-out's, else the finish's, else the stated default."""
    if tiled.setting_out:
        return tiled.setting_out.joint_mm320
    return joint_of(tiled.spec, job)


def joint_of(spec: SurfaceSpec, job: Job) -> int:
    """Joint that a finish gives a surface, else 3 mm or 1/8 in (common practice, no source)."""
    if spec.joint_mm320 is not None:
        return spec.joint_mm320
    return default_joint_mm320(inches=words.uses_inches(job))


def area_m2(tiled: TiledSurface) -> float:
    """Area that is tiled: the setting-out's, else the whole surface [m2]."""
    if tiled.setting_out:
        return tiled.setting_out.area_m2
    return tiled.surface.region.area_m2


def pieces_of(tiled: TiledSurface, job: Job) -> Pieces:
    """Tiles of one surface, by the Job's way of counting."""
    out = tiled.setting_out
    area = area_m2(tiled)
    tile, joint = tiled.tile, joint_mm320(tiled, job)
    if out and not out.by_area and job.counted_by != BY_AREA:
        opened = f"{out.whole} whole + {out.cut} cut"
        if out.tiles_opened != out.whole + out.cut:
            opened += f", {out.tiles_opened} opened after offcuts"
        text = (
            f"{opened} from the setting-out in {out.bond.label}, joint "
            f"{words.small_mm320(joint, job)}; {out.lower_bound} is the least by any layout"
        )
        return Pieces(tiled.surface.key, tiled, float(out.tiles_opened), area, BY_SETTING_OUT, text)
    count = (out.tiles_by_area if out else 0.0) or tiles_for_area(
        area,
        mm320_to_m(tile.length_mm320),
        mm320_to_m(tile.width_mm320),
        mm320_to_m(joint),
    )
    text = (
        f"{words.area(area, job)} by area over module "
        f"({words.small_mm320(tile.length_mm320 + joint, job)} x "
        f"{words.small_mm320(tile.width_mm320 + joint, job)}; module = tile + joint, "
        f"master specification Section 09 30 00) = {words.number(count)}"
    )
    return Pieces(tiled.surface.key, tiled, count, area, BY_AREA, text)


def base_of(ctx: LineContext) -> Pieces | None:
    """Tiles of the base course, where the finish has one that is no surface of its own.

    A course along the walls, its height the tile's width: length over tile and joint.
    """
    spec = ctx.finish.surfaces.get(SurfaceKind.BASE)
    tile = ctx.catalogue.tiles.get(spec.tile) if spec and spec.tile else None
    if not spec or not tile or ctx.surfaces(SurfaceKind.BASE):
        return None
    length_m = ctx.room.measures.base_m
    joint = joint_of(spec, ctx.job)
    count = length_m / mm320_to_m(tile.length_mm320 + joint)
    text = (
        f"{words.long(length_m, ctx.job)} of base (perimeter less doorways, baths, trays and "
        f"cabinets) over {words.small_mm320(tile.length_mm320 + joint, ctx.job)} of tile and "
        f"joint = {words.number(count)}"
    )
    surface = Surface("base", SurfaceKind.BASE, Region(()))
    area = length_m * mm320_to_m(tile.width_mm320)
    return Pieces("base", TiledSurface(surface, spec, tile, None), count, area, BY_AREA, text)


def all_pieces(ctx: LineContext) -> list[Pieces]:
    """Tiles of every tiled surface of the room, the base course last."""
    found = [pieces_of(t, ctx.job) for t in ctx.tiled()]
    base = base_of(ctx)
    return [p for p in (*found, *([base] if base else [])) if p.count > 0]
