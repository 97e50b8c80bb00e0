"""Cuts and holes: counted, not bought."""

from hand_made import MM, context, floor, quantities, setting_out, spec, tile

from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.setting_out import CutPiece, CutShape
from sheetcalc.lines.cuts import CUTS


def piece(shape: CutShape, count: int, holes: int = 0) -> CutPiece:
    return CutPiece(shape, 150 * MM, 300 * MM, (), count, holes)


def test_pieces_are_counted_by_the_work_at_the_saw() -> None:
    out = setting_out(
        floor(),
        holed=2,
        pieces=(
            piece(CutShape.STRAIGHT, 12),
            piece(CutShape.STRAIGHT, 6),
            piece(CutShape.CORNER, 3, holes=1),
            piece(CutShape.NOTCHED, 1),
        ),
    )
    lines = quantities(CUTS, context(tile(), specs=(spec(),), outs=(out,)))
    assert {x.description: x.each_si for x in lines} == {
        "Straight cuts": 18,
        "Corner cuts": 3,
        "Notched tiles": 1,
        "Round holes": 3,
    }
    assert {x.pack_by for x in lines} == {PackBy.NONE}
    assert {x.item for x in lines} == {""}


def test_whole_tiles_that_are_drilled_count_as_holes() -> None:
    lines = quantities(CUTS, context(tile(), specs=(spec(),), outs=(setting_out(floor()),)))
    assert [(x.description, x.each_si) for x in lines] == [("Round holes", 1)]


def test_nothing_is_cut_where_tiles_go_by_area() -> None:
    out = setting_out(floor(), by_area=True)
    assert quantities(CUTS, context(tile(), specs=(spec(),), outs=(out,))) == []


def test_a_drilled_whole_tile_is_a_hole_and_no_cut() -> None:
    out = setting_out(floor(), cut=0, pieces=(piece(CutShape.DRILLED, 2, holes=1),), holed=2)
    lines = quantities(CUTS, context(tile(), specs=(spec(),), outs=(out,)))
    assert [(x.description, x.each_si) for x in lines] == [("Round holes", 2)]
