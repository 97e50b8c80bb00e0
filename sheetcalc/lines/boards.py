"""Backer boards and insulation boards of the build-up, piece by piece."""

from collections.abc import Iterator

from sheetcalc.lines.layers import laid_layers
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.strips import BOARD_KINDS, BOARDS_LINE, board_of
from sheetcalc.lines.underlay import pieces


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for laid in laid_layers(ctx, *BOARD_KINDS):
        choice = board_of(ctx, laid.layer)
        yield from choice.findings
        if choice.item:
            yield from pieces(ctx, laid, choice.item, BOARDS_LINE, f"{laid.layer.role.value}s")


BOARDS = Line(
    "boards",
    "Backer and insulation boards",
    "Boards laid in a grid, whole ones and cut pieces; the roll plan cuts the pieces of all rooms "
    "of a phase from as few boards as it can find, with the Job's kerf between them.  With a row "
    "of Waste factors for boards, area over the area of one board with that allowance.",
    _work,
)
