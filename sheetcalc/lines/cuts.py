"""Cuts and holes: counted from the setting-out, not bought."""

from collections import Counter
from collections.abc import Iterable, Iterator

from sheetcalc.domain.measure import PIECE
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.lines import words
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.pieces import all_pieces

_TITLES = {
    CutShape.STRAIGHT: "Straight cuts",
    CutShape.CORNER: "Corner cuts",
    CutShape.NOTCHED: "Notched tiles",
    CutShape.OBLIQUE: "Oblique cuts",
    CutShape.SPLIT: "Tiles in two pieces",
}
HOLES = "Round holes"


def cut_counts(outs: Iterable[SettingOut]) -> dict[str, int]:
    """Pieces of setting-outs by the work at the saw, and round holes, under their titles."""
    counts: Counter[str] = Counter()
    for out in outs:
        for piece in out.pieces:
            if piece.shape in _TITLES:  # drilled tiles that are otherwise whole are holes only
                counts[_TITLES[piece.shape]] += piece.count
        counts[HOLES] += max(sum(p.holes * p.count for p in out.pieces), out.holed)
    return {title: counts[title] for title in (*_TITLES.values(), HOLES) if counts[title]}


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for pieces in all_pieces(ctx):
        outs = [out for out in pieces.outs if not out.by_area]
        cuts = [o.smallest_cut_mm320 for o in outs if o.smallest_cut_mm320 is not None]
        smallest = f"; smallest cut {words.measured_mm320(min(cuts), ctx.job)}" if cuts else ""
        on = "the setting-out" if len(outs) == 1 else f"{len(outs)} setting-outs"
        for title, count in cut_counts(outs).items():
            yield ctx.quantity(
                "cuts",
                title,
                count,
                PIECE,
                basis=f"counted on {on} in {pieces.spec.bond.label}{smallest}",
                surface=pieces.surface,
                source=pieces.spec.source,
            )


CUTS = Line(
    "cuts",
    "Cuts and holes",
    "Cut pieces by the work at the saw (straight, corner, notched, oblique, in two pieces) and "
    "round holes to drill, counted on the setting-out. Nothing is bought.",
    _work,
)
