"""Cuts and holes: counted from the setting-out, not bought."""

from collections import Counter
from collections.abc import Iterator

from sheetcalc.domain.measure import PIECE
from sheetcalc.domain.quantity import CutShape, SettingOut
from sheetcalc.lines import words
from sheetcalc.lines.line import Line, LineContext, Outcome

_TITLES = {
    CutShape.STRAIGHT: "Straight cuts",
    CutShape.CORNER: "Corner cuts",
    CutShape.NOTCHED: "Notched tiles",
    CutShape.OBLIQUE: "Oblique cuts",
    CutShape.SPLIT: "Tiles in two pieces",
}
_HOLES = "Round holes"


def cut_counts(out: SettingOut) -> dict[str, int]:
    """Pieces of a setting-out by the work at the saw, and round holes, under their titles."""
    counts: Counter[str] = Counter()
    for piece in out.pieces:
        if piece.shape in _TITLES:  # a drilled tile is otherwise whole
            counts[_TITLES[piece.shape]] += piece.count
    holes = sum(piece.holes * piece.count for piece in out.pieces)
    counts[_HOLES] = max(holes, out.holed)
    return {title: counts[title] for title in (*_TITLES.values(), _HOLES) if counts[title]}


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for tiled in ctx.tiled():
        out = tiled.setting_out
        if out is None or out.by_area:
            continue
        smallest = (
            ""
            if out.smallest_cut_mm320 is None
            else f"; smallest cut {words.small_mm320(out.smallest_cut_mm320, ctx.job)}"
        )
        for title, count in cut_counts(out).items():
            yield ctx.quantity(
                "cuts",
                title,
                count,
                PIECE,
                basis=f"counted on the setting-out in {out.bond.label}{smallest}",
                surface=tiled.surface.key,
                source=tiled.spec.source,
            )


CUTS = Line(
    "cuts",
    "Cuts and holes",
    "Cut pieces by the work at the saw (straight, corner, notched, oblique, in two pieces) and "
    "round holes to drill, counted on the setting-out. Nothing is bought.",
    None,
    "",
    _work,
)
