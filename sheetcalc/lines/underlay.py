"""Underlay: strips of roll by plan, or mats by area."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finish import LayerRole
from sheetcalc.domain.measure import PIECE, mm320_squared_to_m2
from sheetcalc.domain.quantity import PackBy
from sheetcalc.lines import words
from sheetcalc.lines.layers import LaidLayer, laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.strips import own_strips, strips_area_m2, strips_words, underlay_of
from sheetcalc.lines.waste import waste_for


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, LayerRole.UNDERLAY):
        choice = underlay_of(ctx, laid.layer)
        yield from choice.findings
        if choice.item is None:
            continue
        if choice.item.kind is RollKind.UNDERLAY_MAT:
            yield mats(ctx, laid, choice.item, "mats", "underlay mats")
        else:
            yield _rolls(ctx, laid, choice.item)


def _rolls(ctx: LineContext, laid: LaidLayer, roll: Roll) -> Outcome:
    keys = {laid.key, *(s.key for s in laid.surfaces)}
    strips = [s for s in own_strips(ctx) if s.item == roll.code and s.surface in keys]
    strips = [s for s in strips if s.piece != "upturn"]
    job = ctx.job
    way = (
        f"overlapping {words.small_mm320(roll.overlap_mm320, job)}"
        if roll.overlap_mm320
        else "butted"
    )
    return ctx.quantity(
        "underlay",
        roll.description,
        strips_area_m2(strips),
        job.units.area,
        basis=(
            f"strips {strips_words(strips, job)} for {words.area(laid.area_m2, job)} of floor, "
            f"{way}, the direction with less material; whole rolls come from the roll plan"
        ),
        surface=laid.key,
        item=roll,
        pack_by=PackBy.PLAN,
        source=laid.layer.source,
    )


def mats(ctx: LineContext, laid: LaidLayer, roll: Roll, line: str, what: str) -> Outcome:
    """Whole mats or boards for a layer: area over the area of one, offcuts laid on."""
    job = ctx.job
    one_m2 = mm320_squared_to_m2(roll.length_mm320 * roll.width_mm320)
    count = laid.area_m2 / one_m2
    return ctx.quantity(
        line,
        roll.description,
        count,
        PIECE,
        basis=(
            f"{what}: {words.area(laid.area_m2, job)} over {words.area(one_m2, job)} each = "
            f"{words.number(count)}, cut pieces laid on in the next row"
        ),
        surface=laid.key,
        item=roll,
        waste=waste_for(ctx.catalogue, line, laid.layer.finish),
        pack_by=PackBy.EACH,
        source=laid.layer.source,
    )


UNDERLAY = Line(
    "underlay",
    "Underlay",
    "Strips of roll: butted n = ceil(W/w), overlapping n = ceil((W-o)/(w-o)) (derived), both "
    "directions tried; the roll plan cuts them from whole rolls over the rooms of a phase.  Mats "
    "are counted by area.",
    None,
    "",
    _work,
)
