"""Strips of roll that a room needs, for workflows to pool, and the words that list them."""

from collections import Counter
from collections.abc import Iterable
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Bag, BagKind, Roll, RollKind
from sheetcalc.domain.finish import Layer, LayerRole
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE, mm320_squared_to_m2
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Region
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.rolls.boards import pieces_for
from sheetcalc.geometry.rolls.strips import strips_for
from sheetcalc.lines import words
from sheetcalc.lines.items import Choice, choose, suitable
from sheetcalc.lines.layers import LaidLayer, laid_layers
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.stock import layer_wanted, pool_of, stock_of, ways
from sheetcalc.lines.waste import waste_for
from sheetcalc.lines.wet import FLOORS, WetPart, wet_parts

UNDERLAY_KINDS = frozenset({RollKind.UNDERLAY_ROLL, RollKind.UNDERLAY_MAT})
SHEET_KINDS = frozenset({RollKind.WATERPROOFING_SHEET, RollKind.UNDERLAY_ROLL})
BOARD_KINDS: Final = {
    LayerRole.BACKER_BOARD: RollKind.BACKER_BOARD,
    LayerRole.INSULATION_BOARD: RollKind.INSULATION_BOARD,
}
BOARDS_LINE, MATS_LINE = "boards", "mats"
"""Lines of the takeoff; with a row of Waste factors they are counted by area."""


def underlay_of(ctx: LineContext, layer: Layer) -> Choice[Roll]:
    """Underlay of a layer: a roll or mats; of several named, the one that the plan chose."""
    of_kind = {c: r for c, r in ctx.catalogue.rolls.items() if r.kind in UNDERLAY_KINDS}
    return stock_of(ctx, layer, of_kind).choice


def membrane_of(ctx: LineContext, layer: Layer) -> Choice[Bag | Roll]:
    """Waterproofing of a layer: a sheet, or a liquid; a named underlay roll will do as well."""
    named = layer.items
    sheets = {
        c: r
        for c, r in ctx.catalogue.rolls.items()
        if r.kind is RollKind.WATERPROOFING_SHEET or (c in named and r.kind in SHEET_KINDS)
    }
    if len(named) > 1:
        found = stock_of(ctx, layer, sheets).choice
        return Choice(found.item, found.findings, found.blocked)
    wanted = layer_wanted(layer)
    liquids = suitable(
        ctx.catalogue.bags, lambda bag: bag.kind is BagKind.LIQUID_WATERPROOFING, wanted
    )
    of_kind: dict[str, Bag | Roll] = {**liquids, **sheets}
    return choose(of_kind, ctx.catalogue, wanted)


def board_of(ctx: LineContext, layer: Layer) -> Choice[Roll]:
    """Backer or insulation board of a layer."""
    kind = BOARD_KINDS[layer.role]
    of_kind = {c: r for c, r in ctx.catalogue.rolls.items() if r.kind is kind}
    return stock_of(ctx, layer, of_kind).choice


def strips_needed(ctx: LineContext) -> tuple[Strip, ...]:
    """List the strips and pieces that the room needs of rolls, sheets, mats and boards.

    Parameters
    ----------
    ctx
        The room, with or without strips of its own.

    Returns
    -------
    tuple of Strip
        For one room; alike rooms each need them.  Where a layer names several items, the strips
        of every way to cover it: the roll plan keeps those of the cheapest.  Mats and boards
        that a row of Waste factors has an allowance for are counted by area, not by plan.
    """
    strips: list[Strip] = []
    for laid in laid_layers(ctx, *BOARD_KINDS):
        if not counted_by_area(ctx, laid.layer, BOARDS_LINE):
            strips += _laid_pieces(ctx, laid, board_of(ctx, laid.layer).item, laid.layer.role.value)
    for laid in laid_layers(ctx, LayerRole.UNDERLAY):
        item = underlay_of(ctx, laid.layer).item
        for roll in _ways_of(ctx, laid.layer, item):
            if roll.kind is RollKind.UNDERLAY_ROLL:
                region = _joined(laid.region)
                strips += _strips(ctx, laid.key, region, roll, "underlay", pool_of(laid.layer))
            elif not counted_by_area(ctx, laid.layer, MATS_LINE):
                strips += _pieces(ctx, laid, roll, "underlay mat")
    for part in wet_parts(ctx):
        item_or_bag = membrane_of(ctx, part.layer).item
        if isinstance(item_or_bag, Roll):
            for roll in _ways_of(ctx, part.layer, item_or_bag):
                pool = pool_of(part.layer)
                strips += _strips(ctx, part.surface.key, part.region, roll, "waterproofing", pool)
                strips += _upturns(ctx, part, roll, pool)
    return tuple(strips)


def counted_by_area(ctx: LineContext, layer: Layer, line: str) -> bool:
    """Whether a row of Waste factors gives mats or boards an allowance on their area.

    Items named together are priced against each other by plan all the same.
    """
    return waste_for(ctx.catalogue, line, layer.finish).source is not None and not pool_of(layer)


def _laid_pieces(ctx: LineContext, laid: LaidLayer, item: Roll | None, what: str) -> list[Strip]:
    return [s for roll in _ways_of(ctx, laid.layer, item) for s in _pieces(ctx, laid, roll, what)]


def _ways_of(ctx: LineContext, layer: Layer, item: Roll | None) -> list[Roll]:
    """Longest roll of each way to cover a layer: rolls alike but for their length are one way."""
    if item is None:
        return []
    codes = layer.items if pool_of(layer) else (item.code,)
    return [max(way, key=lambda r: r.length_mm320) for way in ways(ctx.catalogue, codes)]


def own_strips(ctx: LineContext) -> tuple[Strip, ...]:
    """Give the strips that came with the room, or, where none did, those that it needs."""
    return ctx.work.strips or ctx.once(strips_needed)


def strips_area_m2(strips: Iterable[Strip]) -> float:
    """Area of strips [m2]."""
    return sum(mm320_squared_to_m2(s.length_mm320 * s.width_mm320) for s in strips)


def strips_words(strips: Iterable[Strip], job: Job) -> str:
    """Count and sizes of strips, for a Basis."""
    sizes = Counter((s.length_mm320, s.width_mm320) for s in strips)
    listed = [
        f"{count} x {words.small_mm320(length, job)} x {words.small_mm320(width, job)}"
        for (length, width), count in sizes.items()
    ]
    return ", ".join(listed)


def _joined(region: Region) -> Region:
    return union(Region((patch,)) for patch in region.patches)


def _strips(  # noqa: PLR0913, PLR0917 - room, place, item and words are all needed
    ctx: LineContext, surface: str, region: Region, roll: Roll, piece: str, pool: str
) -> tuple[Strip, ...]:
    found = strips_for(ctx.room, surface, region, roll, piece, ctx.job)
    return tuple(replace(s, pool=pool) for s in found) if pool else found


def _pieces(ctx: LineContext, laid: LaidLayer, roll: Roll, piece: str) -> list[Strip]:
    """Pieces of mats or boards, surface by surface: each has a frame of its own."""
    pool = pool_of(laid.layer)
    groups = (
        [(laid.key, _joined(laid.region))]
        if all(s.plane in FLOORS for s in laid.surfaces)
        else [(s.key, s.region) for s in laid.surfaces]
    )
    return [
        replace(s, pool=pool)
        for key, region in groups
        for s in pieces_for(ctx.room, key, region, roll, piece)
    ]


def _upturns(ctx: LineContext, part: WetPart, roll: Roll, pool: str) -> list[Strip]:
    """Cut an upturn into strips as long as the roll allows, each with its lap on the next.

    Where no band covers the foot of the wall, they lap on the sheet of the floor too.
    """
    left = round(part.upturn_m * MM320_PER_METRE)
    banded = any(True for _ in laid_layers(ctx, LayerRole.BAND))
    lap = 0 if banded else roll.overlap_mm320
    strips: list[Strip] = []
    while left > 0:
        length = min(left, roll.length_mm320)
        strips.append(
            Strip(
                roll.code,
                ctx.room.phase or "",
                ctx.room.name,
                part.surface.key,
                "upturn",
                length,
                min(part.upturn_height_mm320 + lap, roll.width_mm320),
                pool=pool,
            )
        )
        left -= length if length == left else max(length - roll.overlap_mm320, 1)
    return strips
