"""Waterproofing: sheet by strips, liquid by coats; bands along changes of plane and seams."""

from collections.abc import Container, Iterable, Iterator
from typing import Final

from sheetcalc.domain.catalogue import Bag, Roll, RollKind
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.finish import Layer, LayerRole, SurfaceKind
from sheetcalc.domain.measure import MM320_PER_METRE, Length, mm320_to_m
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import Strip
from sheetcalc.lines import words
from sheetcalc.lines.items import Choice, choose_roll
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.packing import bag_line, by_coverage, by_volume
from sheetcalc.lines.stock import layer_wanted, shares
from sheetcalc.lines.strips import (
    SHEET_KINDS,
    membrane_of,
    own_strips,
    strips_area_m2,
    strips_words,
)
from sheetcalc.lines.underlay import chosen_words
from sheetcalc.lines.waste import waste_for
from sheetcalc.lines.wet import WetPart, parts_words, wet_kinds, wet_parts
from sheetcalc.rules.membrane import BAND_SOURCE, bands_from_roll

_MAIN_FLOOR: Final = frozenset({SurfaceKind.FLOOR, SurfaceKind.INSET})
_WET_WALLS: Final = frozenset({SurfaceKind.WALL, SurfaceKind.WET_AREA})
_NO_STRIP_M: Final = 0.01
_OF_A_SHOWER: Final = (SurfaceKind.SHOWER_FLOOR, SurfaceKind.CURB, SurfaceKind.WET_AREA)


def _work(ctx: LineContext) -> Iterator[Outcome]:
    by_layer: dict[tuple[SurfaceKind, int], list[WetPart]] = {}
    for part in wet_parts(ctx):
        by_layer.setdefault((part.layer.surface, part.layer.order), []).append(part)
    for parts in by_layer.values():
        layer = parts[0].layer
        choice = membrane_of(ctx, layer)
        yield from choice.findings
        if isinstance(choice.item, Bag):
            yield _liquid(ctx, layer, parts, choice.item)
        elif isinstance(choice.item, Roll):
            yield from _sheet(ctx, layer, parts, choice.item)
    covered = {kind for kind, _ in by_layer}
    yield from _left_dry(ctx, covered)
    yield from _walls_left_dry(ctx, covered)


def _left_dry(ctx: LineContext, covered: Container[SurfaceKind]) -> Iterator[Finding]:
    """Warn of tiled surfaces of a shower that no layer of the finish makes waterproof."""
    for kind in _OF_A_SHOWER:
        spec = ctx.finish.surfaces.get(kind)
        if spec and spec.tile and kind not in covered and ctx.surfaces(kind):
            facts: dict[str, Fact] = {"finish": spec.finish, "surface": kind.value}
            yield Finding("SHOWER-NOT-WATERPROOFED", spec.source, "Surface", facts)


def _walls_left_dry(ctx: LineContext, covered: Container[SurfaceKind]) -> Iterator[Finding]:
    """Warn of walls beside a shower that have no wet area and no membrane.

    In a wet room, all of whose floor is the shower's, water does not reach every wall: there only
    where none has any.
    """
    walls = ctx.room.measures.shower_walls
    on_walls = SurfaceKind.WALL in covered
    dry_m, names = (walls.bare_m, walls.bare) if on_walls else (walls.dry_m, walls.dry)
    least_m = _NO_STRIP_M if ctx.surfaces(SurfaceKind.FLOOR) else walls.all_m
    if dry_m >= max(least_m, _NO_STRIP_M):
        length = Length(round(dry_m * MM320_PER_METRE), small=False)
        facts: dict[str, Fact] = {"length": length, "wall": ", ".join(names)}
        yield Finding("SHOWER-WALL-LEFT-DRY", ctx.room.source, "Room", facts, ctx.room.name)


def _liquid(ctx: LineContext, layer: Layer, parts: list[WetPart], bag: Bag) -> Outcome:
    job = ctx.job
    area = sum(p.coated_m2 for p in parts)
    behind = sum(p.behind_m2 for p in parts)
    coats = layer.coats or 1
    depth = layer.mean_depth_mm320
    need = (
        by_volume(bag, area * mm320_to_m(depth), job, None, "")
        if depth and not bag.coverage_m2
        else by_coverage(bag, area, coats, job)
    )
    if isinstance(need, Finding):
        return need
    default = "" if layer.coats else " (default of an empty Coats)"
    listed = parts_words(parts, ctx)
    if behind:
        listed += f" - {words.area(behind, job)} of upturn on walls that are coated themselves"
    working = f"{listed} = {words.area(area, job)} x {words.plural(coats, 'coat')}{default}"
    return bag_line(
        ctx,
        "waterproofing",
        bag,
        need,
        working=working,
        surface=layer.surface.value,
        row=layer,
    )


def _sheet(ctx: LineContext, layer: Layer, parts: list[WetPart], roll: Roll) -> Iterator[Outcome]:
    job = ctx.job
    strips = sheet_strips(ctx, parts, roll)
    basis = (
        f"{parts_words(parts, ctx)}; strips {strips_words(strips, job)}, overlap "
        f"{words.small_mm320(roll.overlap_mm320, job)}; whole rolls come from the roll plan"
    )
    taken = shares(ctx, layer, (p.surface.key for p in parts))
    for item, area_m2 in taken or [(roll, strips_area_m2(strips))]:
        yield ctx.quantity(
            "waterproofing",
            item.description,
            area_m2,
            job.units.area,
            basis=basis + chosen_words(layer),
            surface=layer.surface.value,
            item=item,
            pack_by=PackBy.PLAN,
            source=layer.source,
        )


def sheet_strips(ctx: LineContext, parts: Iterable[WetPart], roll: Roll) -> list[Strip]:
    """Pick the strips of a sheet that cover the parts."""
    keys = {p.surface.key for p in parts}
    return [s for s in own_strips(ctx) if s.item == roll.code and s.surface in keys]


def seam_m(ctx: LineContext) -> float:
    """Length of butted seams between strips of waterproofing sheet in the room [m].

    Strips that lie side by side share all their seams but the longest one's second side.
    """
    total = 0
    for part in wet_parts(ctx):
        item = membrane_of(ctx, part.layer).item
        if not isinstance(item, Roll) or item.overlap_mm320:
            continue
        lengths = [s.length_mm320 for s in sheet_strips(ctx, [part], item) if s.piece != "upturn"]
        total += sum(lengths) - max(lengths, default=0)
    return mm320_to_m(total)


def planes_m(ctx: LineContext) -> dict[str, float]:
    """List the changes of plane that a band covers, by what they belong to [m].

    Round shower floors, up wet corners, along curbs and niches, as the geometry has them; along
    the walls of a main floor that is made waterproof; along the rim of baths and trays under
    walls that are (common practice, no source).
    """
    measures, kinds = ctx.room.measures, wet_kinds(ctx)
    found = {"showers, wet corners, curbs and niches": measures.wet_change_of_plane_m}
    floors = sum(measures.wall_edge_m.get(kind, 0.0) for kind in _MAIN_FLOOR & kinds)
    if floors:
        found["walls of the wet floor"] = floors
    if kinds & _WET_WALLS and measures.bath_wall_m:
        found["rims of baths and trays"] = measures.bath_wall_m
    return {name: length for name, length in found.items() if length > 0}


def band_m(ctx: LineContext) -> float:
    """Length of band that the room takes: changes of plane and butted seams [m]."""
    return sum(planes_m(ctx).values()) + seam_m(ctx)


def band_rows(ctx: LineContext) -> list[Layer]:
    """List the rows of Build-up that ask for a band; it is ordered by the first."""
    return [laid.layer for laid in laid_layers(ctx, LayerRole.BAND)]


def band_strip(ctx: LineContext, layer: Layer) -> tuple[float, int]:
    """Length [m] and width [1/320 mm] of the band that the room takes, as it is laid."""
    roll = _band_of(ctx, layer).item
    if roll is None or roll.kind is not RollKind.BAND:
        return band_m(ctx), ctx.job.band_width_mm320
    return band_m(ctx), roll.width_mm320


def _band_of(ctx: LineContext, layer: Layer) -> Choice[Roll]:
    kinds = (RollKind.BAND,) if layer.item is None else (RollKind.BAND, *SHEET_KINDS)
    return choose_roll(ctx.catalogue, kinds, layer_wanted(layer))


def _bands(ctx: LineContext) -> Iterator[Outcome]:
    layers = band_rows(ctx)
    if not layers:
        yield from _without_band(ctx)
        return
    layer = layers[0]
    choice = _band_of(ctx, layer)
    yield from choice.findings
    others = sorted({x.item for x in layers if x.item and x.item != layer.item})
    if others and layer.item:
        facts = {"finish": layer.finish, "code": layer.item, "others": ", ".join(others)}
        yield Finding("BANDS-DIFFER", layer.source, "Item", facts)
    if choice.item and band_m(ctx) > 0:
        yield _band(ctx, layer, choice.item)


def _without_band(ctx: LineContext) -> Iterator[Finding]:
    """Warn of changes of plane and butted seams that no row of the finish has a band for."""
    parts = wet_parts(ctx)
    if parts and band_m(ctx) > 0:
        layer = parts[0].layer
        facts: dict[str, Fact] = {"finish": layer.finish}
        yield Finding("BAND-MISSING", layer.source, "Role", facts)


def _band(ctx: LineContext, layer: Layer, roll: Roll) -> Outcome:
    job = ctx.job
    planes, seams = planes_m(ctx), seam_m(ctx)
    length = sum(planes.values()) + seams
    listed = ", ".join(f"{name} {words.long(value, job)}" for name, value in planes.items())
    working = (
        f"changes of plane of the waterproofed parts ({listed or 'none'}) + butted seams "
        f"{words.long(seams, job)} = {words.long(length, job)} ({BAND_SOURCE})"
    )
    bands = 1
    if roll.kind is not RollKind.BAND:
        bands, _ = bands_from_roll(roll.width_mm320, job.band_width_mm320)
        sheet = words.small_mm320(roll.width_mm320, job)
        band = words.small_mm320(job.band_width_mm320, job)
        if bands == 0:
            facts = {"code": roll.code, "sheet": sheet, "band": band}
            return Finding("BAND-WIDER-THAN-SHEET", layer.source, "Item", facts)
        working += (
            f"; {words.plural(bands, 'band')} of {band} side by side from a sheet {sheet} wide"
        )
    return ctx.quantity(
        "bands",
        roll.description,
        length / bands,
        job.units.long_length,
        basis=working,
        item=roll,
        waste=waste_for(ctx.catalogue, "bands", layer.finish),
        pack_by=PackBy.LENGTH,
        source=layer.source,
    )


WATERPROOFING = Line(
    "waterproofing",
    "Waterproofing",
    "Surfaces that a Build-up row makes waterproof, with the upturn along their walls: liquid by "
    "coats and coverage (an upturn on a wall that a liquid covers itself is coated with the wall), "
    "sheet by strips and the roll plan.  A layer on `wall` goes up to the "
    "Job's height, wet areas, curbs and niches are covered as drawn.",
    _work,
)

BANDS = Line(
    "bands",
    "Bands",
    "Changes of plane of the waterproofed parts (showers, wet corners, curbs, niches, the walls of "
    "a wet floor, the rims of baths under wet walls), and butted seams between sheets (band over "
    "seams in wet areas: common practice, no source).",
    _bands,
)
