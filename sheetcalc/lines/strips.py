"""Strips of roll that a room needs, for workflows to pool, and the words that list them."""

from collections import Counter
from collections.abc import Iterable

from sheetcalc.domain.catalogue import Bag, Roll, RollKind
from sheetcalc.domain.finish import Layer, LayerRole
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_squared_to_m2
from sheetcalc.domain.quantity import Strip
from sheetcalc.domain.room import Region
from sheetcalc.geometry.regions import union
from sheetcalc.geometry.strips import strips_for
from sheetcalc.lines import words
from sheetcalc.lines.items import Choice, Wanted, choose
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.wet import WetPart, wet_parts

UNDERLAY_KINDS = frozenset({RollKind.UNDERLAY_ROLL, RollKind.UNDERLAY_MAT})
SHEET_KINDS = frozenset({RollKind.WATERPROOFING_SHEET, RollKind.UNDERLAY_ROLL})


def layer_wanted(layer: Layer) -> Wanted:
    """Item cell of a row of Build-up."""
    return Wanted(
        layer.item,
        layer.role.value,
        layer.finish,
        layer.surface.value,
        layer.source,
        "Item",
        needed=True,
    )


def underlay_of(ctx: LineContext, layer: Layer) -> Choice[Roll]:
    """Underlay of a layer: a roll or mats."""
    of_kind = {c: r for c, r in ctx.catalogue.rolls.items() if r.kind in UNDERLAY_KINDS}
    return choose(of_kind, ctx.catalogue, layer_wanted(layer))


def membrane_of(ctx: LineContext, layer: Layer) -> Choice[Bag | Roll]:
    """Waterproofing of a layer: a sheet, or a liquid; a named underlay roll will do as well."""
    of_kind: dict[str, Bag | Roll] = {
        c: b for c, b in ctx.catalogue.bags.items() if b.kind.value == "liquid waterproofing"
    }
    of_kind |= {
        c: r
        for c, r in ctx.catalogue.rolls.items()
        if r.kind is RollKind.WATERPROOFING_SHEET or (c == layer.item and r.kind in SHEET_KINDS)
    }
    return choose(of_kind, ctx.catalogue, layer_wanted(layer))


def strips_needed(ctx: LineContext) -> tuple[Strip, ...]:
    """List the strips of underlay rolls and waterproofing sheets that the room needs.

    Parameters
    ----------
    ctx
        The room, with or without strips of its own.

    Returns
    -------
    tuple of Strip
        For one room; alike rooms each need them.  Mats, boards and bands are not cut by plan.
    """
    strips: list[Strip] = []
    for laid in laid_layers(ctx, LayerRole.UNDERLAY):
        roll = underlay_of(ctx, laid.layer).item
        if roll and roll.kind is RollKind.UNDERLAY_ROLL:
            strips += _strips(ctx, laid.key, _joined(laid.region), roll, "underlay")
    for part in wet_parts(ctx):
        item = membrane_of(ctx, part.layer).item
        if isinstance(item, Roll):
            strips += _strips(ctx, part.surface.key, part.region, item, "waterproofing")
            strips += _upturns(ctx, part, item)
    return tuple(strips)


def own_strips(ctx: LineContext) -> tuple[Strip, ...]:
    """Give the strips that came with the room, or, where none did, those that it needs."""
    return ctx.work.strips or strips_needed(ctx)


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


def _strips(
    ctx: LineContext, surface: str, region: Region, roll: Roll, piece: str
) -> tuple[Strip, ...]:
    return strips_for(ctx.room, surface, region, roll, piece, ctx.job)


def _upturns(ctx: LineContext, part: WetPart, roll: Roll) -> list[Strip]:
    """Cut an upturn into strips as long as the roll allows, each with its lap on the next."""
    left = round(part.upturn_m * 320_000)
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
                min(part.upturn_height_mm320, roll.width_mm320),
            )
        )
        left -= length if length == left else max(length - roll.overlap_mm320, 1)
    return strips
