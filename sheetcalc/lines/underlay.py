"""Underlay: strips of roll, or mats, by plan."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finish import Layer, LayerRole
from sheetcalc.domain.measure import PIECE, mm320_squared_to_m2
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import Strip
from sheetcalc.lines import words
from sheetcalc.lines.layers import LaidLayer, laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.stock import pool_of, shares
from sheetcalc.lines.strips import (
    MATS_LINE,
    counted_by_area,
    own_strips,
    strips_area_m2,
    strips_words,
    underlay_of,
)
from sheetcalc.lines.waste import waste_for


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, LayerRole.UNDERLAY):
        choice = underlay_of(ctx, laid.layer)
        yield from choice.findings
        if choice.item is None:
            continue
        if choice.item.kind is RollKind.UNDERLAY_MAT:
            yield from pieces(ctx, laid, choice.item, MATS_LINE, "underlay mats")
        else:
            yield from _rolls(ctx, laid, choice.item)


def _rolls(ctx: LineContext, laid: LaidLayer, roll: Roll) -> Iterator[Outcome]:
    strips = [s for s in _own(ctx, laid, roll) if s.piece != "upturn"]
    job = ctx.job
    way = (
        f"overlapping {words.small_mm320(roll.overlap_mm320, job)}"
        if roll.overlap_mm320
        else "butted"
    )
    basis = (
        f"strips {strips_words(strips, job)} for {words.area(laid.area_m2, job)} of floor, "
        f"{way}, the direction with less material; whole rolls come from the roll plan"
    )
    taken = shares(ctx, laid.layer, keys_of(laid)) or [(roll, strips_area_m2(strips))]
    for item, area_m2 in taken:
        yield ctx.quantity(
            "underlay",
            item.description,
            area_m2,
            job.units.area,
            basis=basis + chosen_words(laid.layer),
            surface=laid.key,
            item=item,
            pack_by=PackBy.PLAN,
            source=laid.layer.source,
        )


def keys_of(laid: LaidLayer) -> set[str]:
    """Keys that strips of a layer may carry."""
    return {laid.key, *(s.key for s in laid.surfaces)}


def _own(ctx: LineContext, laid: LaidLayer, roll: Roll) -> list[Strip]:
    keys = keys_of(laid)
    return [s for s in own_strips(ctx) if s.item == roll.code and s.surface in keys]


def chosen_words(layer: Layer) -> str:
    """Words for the Basis where several items were priced against each other."""
    pool = pool_of(layer)
    return f"; cheapest for the phase of {pool}" if pool else ""


def pieces(
    ctx: LineContext, laid: LaidLayer, board: Roll, line: str, what: str
) -> Iterator[Outcome]:
    """Mats or boards of a layer: piece by piece as planned, or by area and an allowance."""
    if counted_by_area(ctx, laid.layer, line):
        yield _by_area(ctx, laid, board, line, what)
        return
    cut = _own(ctx, laid, board)
    one = board.length_mm320 * board.width_mm320
    whole = sum(s.length_mm320 * s.width_mm320 == one for s in cut)
    one_m2 = mm320_squared_to_m2(one)
    basis = (
        f"{what}: {words.area(laid.area_m2, ctx.job)} in {whole} whole and {len(cut) - whole} cut "
        f"pieces; whole {what} come from the roll plan, which cuts them for all rooms of the phase"
    )
    yield ctx.quantity(
        line,
        board.description,
        strips_area_m2(cut) / one_m2 if one_m2 else 0.0,
        PIECE,
        basis=basis + chosen_words(laid.layer),
        surface=laid.key,
        item=board,
        pack_by=PackBy.PLAN,
        source=laid.layer.source,
    )


def _by_area(ctx: LineContext, laid: LaidLayer, board: Roll, line: str, what: str) -> Outcome:
    job = ctx.job
    one_m2 = mm320_squared_to_m2(board.length_mm320 * board.width_mm320)
    count = laid.area_m2 / one_m2
    return ctx.quantity(
        line,
        board.description,
        count,
        PIECE,
        basis=(
            f"{what}: {words.area(laid.area_m2, job)} over {words.area(one_m2, job)} each = "
            f"{words.number(count)}, cut pieces laid on in the next row"
        ),
        surface=laid.key,
        item=board,
        waste=waste_for(ctx.catalogue, line, laid.layer.finish),
        pack_by=PackBy.EACH,
        source=laid.layer.source,
    )


UNDERLAY = Line(
    "underlay",
    "Underlay",
    "Strips of roll: butted n = ceil(W/w), overlapping n = ceil((W-o)/(w-o)) (derived), both "
    "directions tried; the roll plan cuts them from whole rolls over the rooms of a phase.  Mats "
    "are planned piece by piece; with a row of Waste factors for mats, they are counted by area "
    "with that allowance.",
    _work,
)
