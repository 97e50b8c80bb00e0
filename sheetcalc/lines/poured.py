"""What is poured or rolled on under the tile: levelling compound, screed, primer; and sealer."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Bag, BagKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import LayerRole
from sheetcalc.domain.measure import mm320_to_m
from sheetcalc.lines import words
from sheetcalc.lines.items import Choice, Wanted, choose_bag
from sheetcalc.lines.layers import LaidLayer, laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.packing import bag_line, by_coverage, by_volume
from sheetcalc.lines.pieces import Pieces, all_pieces
from sheetcalc.lines.stock import layer_wanted
from sheetcalc.rules.materials import STONE_COATS, STONE_COATS_SOURCE, is_stone

# a screed may be a bag of the levelling kind, or of mortar where it is named
_SCREED_KINDS = (BagKind.LEVELLING_COMPOUND, BagKind.MORTAR)


def _levelling(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, LayerRole.LEVELLING):
        choice = choose_bag(ctx.catalogue, (BagKind.LEVELLING_COMPOUND,), layer_wanted(laid.layer))
        yield from _by_depth(ctx, laid, choice, "levelling")


def _screed(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, LayerRole.SCREED):
        kinds = _SCREED_KINDS if laid.layer.item else _SCREED_KINDS[:1]
        choice = choose_bag(ctx.catalogue, kinds, layer_wanted(laid.layer))
        yield from _by_depth(ctx, laid, choice, "screed")


def _by_depth(
    ctx: LineContext, laid: LaidLayer, choice: Choice[Bag], line: str
) -> Iterator[Outcome]:
    layer, job = laid.layer, ctx.job
    yield from choice.findings
    if not layer.mean_depth_mm320:
        facts = {
            "finish": layer.finish, "surface": layer.surface.value, "role": layer.role.value,
        }  # fmt: skip
        yield Finding("DEPTH-MISSING", layer.source, "Mean depth", facts)
        return
    if choice.item is None:
        return
    volume = laid.area_m2 * mm320_to_m(layer.mean_depth_mm320)
    need = by_volume(choice.item, volume, job, None, "")
    if isinstance(need, Finding):
        yield need
        return
    depth = words.small_mm320(layer.mean_depth_mm320, job)
    working = f"{words.area(laid.area_m2, job)} x mean depth {depth} = {words.volume(volume, job)}"
    yield bag_line(ctx, line, choice.item, need, working=working, surface=laid.key, row=layer)


def _primer(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, LayerRole.PRIMER):
        layer, job = laid.layer, ctx.job
        choice = choose_bag(ctx.catalogue, (BagKind.PRIMER,), layer_wanted(layer))
        yield from choice.findings
        if choice.item is None:
            continue
        coats = layer.coats or 1
        need = by_coverage(choice.item, laid.area_m2, coats, job)
        if isinstance(need, Finding):
            yield need
            continue
        default = "" if layer.coats else " (default of an empty Coats)"
        working = f"{words.area(laid.area_m2, job)} x {words.plural(coats, 'coat')}{default}"
        yield bag_line(
            ctx, "primer", choice.item, need, working=working, surface=laid.key, row=layer
        )


def _sealer(ctx: LineContext) -> Iterator[Outcome]:
    for pieces in all_pieces(ctx):
        yield from _sealed(ctx, pieces)


def _sealed(ctx: LineContext, pieces: Pieces) -> Iterator[Outcome]:
    spec, job, area = pieces.spec, ctx.job, pieces.area_m2
    stone = is_stone(pieces.tile.material)
    if spec.sealer is None:
        if stone:
            facts = {
                "finish": spec.finish, "surface": spec.surface.value,
                "material": pieces.tile.material,
            }  # fmt: skip
            yield Finding("STONE-NOT-SEALED", spec.source, "Sealer", facts)
        return
    wanted = Wanted(spec.sealer, "sealer", spec.finish, spec.surface.value, spec.source, "Sealer")
    choice = choose_bag(ctx.catalogue, (BagKind.SEALER,), wanted)
    yield from choice.findings
    if choice.blocked:
        return
    coats = STONE_COATS if stone else 1
    why = f"on stone, {STONE_COATS_SOURCE}" if stone else "after grouting"
    need = by_coverage(choice.item, area, coats, job)
    if isinstance(need, Finding):
        yield need
        return
    yield bag_line(
        ctx,
        "sealer",
        choice.item,
        need,
        called="Sealer",
        working=f"{words.area(area, job)} x {words.plural(coats, 'coat')} ({why})",
        surface=pieces.surface,
        row=spec,
    )


LEVELLING = Line(
    "levelling",
    "Levelling compound",
    "Area of the layer times its Mean depth; packs by Yield.",
    _levelling,
)

SCREED = Line(
    "screed",
    "Screed",
    "Area of the layer times its Mean depth; packs by Yield.",
    _screed,
)

PRIMER = Line(
    "primer",
    "Primer",
    "Area of the layer times its Coats; packs by Coverage.",
    _primer,
)

SEALER = Line(
    "sealer",
    "Sealer",
    "Area of the tiled surface times the coats: two on stone, before setting and before grouting, "
    "else one after grouting (common practice, no source); packs by Coverage.",
    _sealer,
)
