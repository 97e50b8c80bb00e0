"""Backer boards and insulation boards of the build-up, by area."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import RollKind
from sheetcalc.domain.finish import LayerRole
from sheetcalc.lines.items import choose_roll
from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.strips import layer_wanted
from sheetcalc.lines.underlay import mats

_KINDS = {
    LayerRole.BACKER_BOARD: RollKind.BACKER_BOARD,
    LayerRole.INSULATION_BOARD: RollKind.INSULATION_BOARD,
}


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, *_KINDS):
        role = laid.layer.role
        choice = choose_roll(ctx.catalogue, (_KINDS[role],), layer_wanted(laid.layer))
        yield from choice.findings
        if choice.item:
            yield mats(ctx, laid, choice.item, "boards", f"{role.value}s")


BOARDS = Line(
    "boards",
    "Backer and insulation boards",
    "Area of the layer over the area of one board; whole boards are rounded on the order.",
    0.10,
    "cut edges, common practice, no source",
    _work,
)
