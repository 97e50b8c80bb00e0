"""Edge trim: open edges of tile, listed where no sundry is bought by them."""

from collections.abc import Iterator
from itertools import chain

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.measure import FOOT
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.measures import measure
from sheetcalc.rules.bases import BASES, UNITS

_METRES = "per m of open tile edge"
_FEET = "per ft of open tile edge"


def _work(ctx: LineContext) -> Iterator[Outcome]:
    bought = [
        s.surfaces
        for s in ctx.catalogue.sundries.values()
        if s.basis in {_METRES, _FEET} and s.finish in {None, "", ctx.finish.name}
    ]
    if () in bought:
        return
    taken = set(chain.from_iterable(bought))
    kinds = [(kind.value,) for kind in SurfaceKind if kind.value not in taken] if bought else [()]
    unit = ctx.job.units.long_length
    basis = _FEET if unit == FOOT else _METRES
    for kind in kinds:
        measured = measure(ctx, basis, kind)
        if measured.amount > 0:
            yield ctx.quantity(
                "edge trim",
                "Open tile edges",
                UNITS[BASES[basis].unit].to_si(measured.amount),
                unit,
                basis=(
                    f"{measured.words}: edges of tiled surfaces that end in nothing; no row of "
                    f"Sundries is bought {basis}, so nothing is ordered"
                ),
                surface="".join(kind),
            )


EDGE_TRIM = Line(
    "edge trim",
    "Edge trim",
    "Length of tile edges that end in nothing.  Bought by a row of Sundries with basis per m or "
    "per ft of open tile edge; on surfaces that no such row is for it is listed only.",
    _work,
)
