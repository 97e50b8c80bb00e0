"""Edge trim: open edges of tile, listed where no sundry is bought by them."""

from collections.abc import Iterator

from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.measures import measure

_BASIS = "per m of open tile edge"


def _work(ctx: LineContext) -> Iterator[Outcome]:
    if any(
        s.basis == _BASIS and s.finish in {None, "", ctx.finish.name}
        for s in ctx.catalogue.sundries.values()
    ):
        return
    measured = measure(ctx, _BASIS)
    if measured.amount > 0:
        yield ctx.quantity(
            "edge trim",
            "Open tile edges",
            measured.amount,
            ctx.job.units.long_length,
            basis=(
                f"{measured.words}: edges of tiled surfaces that end in nothing; no row of "
                "Sundries is bought per m of open tile edge, so nothing is ordered"
            ),
        )


EDGE_TRIM = Line(
    "edge trim",
    "Edge trim",
    "Length of tile edges that end in nothing.  Bought by a row of Sundries with basis per m of "
    "open tile edge; without one it is listed only.",
    None,
    "",
    _work,
)
