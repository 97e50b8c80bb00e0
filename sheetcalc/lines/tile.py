"""Tile: pieces of every tiled surface, and the spares left with the client."""

from collections.abc import Iterator

from sheetcalc.domain.measure import PIECE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.lines import words
from sheetcalc.lines.line import Line, LineContext, Outcome
from sheetcalc.lines.pieces import Pieces, all_pieces
from sheetcalc.lines.waste import waste_for


def _work(ctx: LineContext) -> Iterator[Outcome]:
    for pieces in all_pieces(ctx):
        spec, tile = pieces.spec, pieces.tile
        waste = waste_for(
            ctx.catalogue, "tile", ctx.finish.name, spec.bond.label, pieces.counted_by
        )
        yield ctx.quantity(
            "tile",
            tile.description,
            pieces.count,
            PIECE,
            basis=pieces.words,
            surface=pieces.surface,
            item=tile,
            waste=waste,
            pack_by=PackBy.PIECES_PER_BOX,
            source=spec.source,
        )


def _spares(ctx: LineContext) -> Iterator[Outcome]:
    share = ctx.job.spare_tiles_share
    if share <= 0:
        return
    by_code: dict[str, list[Pieces]] = {}
    for pieces in all_pieces(ctx):
        by_code.setdefault(pieces.tile.code, []).append(pieces)
    for several in by_code.values():
        net = sum(p.count for p in several)
        yield ctx.quantity(
            "spare tiles",
            several[0].tile.description,
            net * share,
            PIECE,
            basis=(
                f"{words.percent(share)} of {words.plural(net, 'tile')} net, to leave with the "
                "client (attic stock, 5 % often called for: TileLetter Nov 2016)"
            ),
            item=several[0].tile,
            pack_by=PackBy.PIECES_PER_BOX,
            source=several[0].spec.source,
        )


TILE = Line(
    "tile",
    "Tile",
    "Tiles of each surface: whole and cut ones of its setting-out, cut pieces less what comes "
    "from offcuts; or area over module (tile plus joint, master specification Section 09 30 00) "
    "where the Job counts by area or the bond is not set out. Boxes are rounded on the order.",
    _work,
)

SPARES = Line(
    "spare tiles",
    "Spare tiles",
    "Tiles to leave with the client, a share of net (Job: Spare tiles); no waste is added. 5 % "
    "attic stock is often called for: TileLetter Nov 2016.",
    _spares,
)
