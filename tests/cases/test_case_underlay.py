"""Underlay and boards: strips of roll and pieces by plan, or boards and mats by area."""

import pytest
from hand_made import (
    MM,
    box,
    codes,
    context,
    floor,
    layer,
    only,
    quantities,
    roll,
    room,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import RollKind, WasteFactor
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import PIECE, SQUARE_METRE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Surface
from sheetcalc.lines.boards import BOARDS
from sheetcalc.lines.strips import strips_needed
from sheetcalc.lines.underlay import UNDERLAY

U = roll("U", RollKind.UNDERLAY_ROLL)


def with_strips(ctx: object, *strips: Strip) -> object:
    return replace(ctx, work=replace(ctx.work, strips=strips))


def test_strips_are_summed_by_area_and_rolls_left_to_the_plan() -> None:
    # three strips of 2 m on a floor of 3 x 2 m, the last 1 m wide as the roll
    ctx = context(tile(), U, specs=(spec(),), layers=(layer(LayerRole.UNDERLAY, "U"),))
    strip = Strip("U", "P1", "101", "floor", "underlay", 2000 * MM, 1000 * MM)
    line = only(UNDERLAY, with_strips(ctx, strip, strip, strip))
    assert line.each_si == pytest.approx(6.0)
    assert (line.unit, line.pack_by, line.waste) == (SQUARE_METRE, PackBy.PLAN, None)
    assert "strips 3 x 2000 mm x 1000 mm for 6 m² of floor, butted" in line.basis


def test_strips_of_other_items_and_surfaces_are_not_counted() -> None:
    ctx = context(tile(), U, specs=(spec(),), layers=(layer(LayerRole.UNDERLAY, "U"),))
    mine = Strip("U", "P1", "101", "floor", "underlay", 2000 * MM, 1000 * MM)
    others = (replace(mine, item="X"), replace(mine, surface="shower floor S"))
    assert only(UNDERLAY, with_strips(ctx, mine, *others)).each_si == pytest.approx(2.0)


MAT = roll("U", RollKind.UNDERLAY_MAT, width_mm320=800 * MM, length_mm320=1000 * MM)


def test_mats_are_an_alternative_laid_piece_by_piece() -> None:
    # 3 x 2 m in mats of 1.0 x 0.8 m: 6 whole and 3 of 1.0 x 0.4 m, or turned 6 whole and 2 of
    # 0.8 x 1.0 m less 0.6 m wide: 6 m2 over 0.8 m2 are 7.5 mats
    line = only(UNDERLAY, context(tile(), MAT, layers=(layer(LayerRole.UNDERLAY, "U"),)))
    assert line.each_si == pytest.approx(7.5)
    assert (line.line, line.unit, line.pack_by, line.waste) == ("mats", PIECE, PackBy.PLAN, None)


def test_with_an_allowance_of_their_own_mats_are_counted_by_area() -> None:
    # 6 m2 over 1.0 x 0.8 m: 7.5 mats, and 12 %
    row = WasteFactor("mats", None, None, None, 0.12, RowRef("Waste factors", 5))
    ctx = context(tile(), MAT, layers=(layer(LayerRole.UNDERLAY, "U"),), waste=(row,))
    assert strips_needed(ctx) == ()
    line = only(UNDERLAY, ctx)
    assert (line.unit, line.pack_by) == (PIECE, PackBy.EACH)
    assert line.unit.to_si(line.gross_shown) == pytest.approx(2 * 7.5 * 1.12)


def test_an_inset_lies_on_the_floors_layers() -> None:
    mat = roll("U", RollKind.UNDERLAY_MAT, width_mm320=1000 * MM, length_mm320=1000 * MM)
    panel = box(1000 * MM, 1000 * MM, left=3000 * MM)
    beside = Surface("inset I", SurfaceKind.INSET, panel, let_into=SurfaceKind.FLOOR)
    ctx = context(mat, layers=(layer(LayerRole.UNDERLAY, "U"),), in_room=room(floor(), beside))
    assert only(UNDERLAY, ctx).each_si == pytest.approx(7)


def test_an_inset_with_layers_of_its_own_does_not() -> None:
    mat = roll("U", RollKind.UNDERLAY_MAT, width_mm320=1000 * MM, length_mm320=1000 * MM)
    inset = Surface("inset I", SurfaceKind.INSET, floor(1000, 1000).region)
    rows = (layer(LayerRole.UNDERLAY, "U"), layer(LayerRole.UNDERLAY, "U", SurfaceKind.INSET))
    ctx = context(mat, layers=rows, in_room=room(floor(), inset))
    found = {x.surface: x.each_si for x in quantities(UNDERLAY, ctx)}
    assert found == pytest.approx({"floor": 6, "inset I": 1})


def test_a_layer_without_item_needs_one() -> None:
    assert codes(UNDERLAY, context(layers=(layer(LayerRole.UNDERLAY, None),))) == [
        "ITEM-NOT-NAMED-NONE"
    ]


BOARD = roll("B", RollKind.BACKER_BOARD, width_mm320=800 * MM, length_mm320=1200 * MM)


def test_boards_are_laid_piece_by_piece() -> None:
    # 3 x 2 m: 1.2 m boards along 3 m are 2 whole and 0.6 m, twice, and a row of 0.4 m: 4 whole
    # and 5 cut; turned, 3 m are 3 widths and 0.6 m, 2 m a length and 0.8 m: 3 whole and 5 cut
    line = only(BOARDS, context(BOARD, layers=(layer(LayerRole.BACKER_BOARD, "B"),)))
    assert line.each_si == pytest.approx(6.25)
    assert line.pack_by is PackBy.PLAN
    assert "in 3 whole and 5 cut pieces" in line.basis


def test_with_an_allowance_of_their_own_boards_are_counted_by_area() -> None:
    # 6 m2 over 1.2 x 0.8 m: 6.25 boards
    row = WasteFactor("boards", None, None, None, 0.08, RowRef("Waste factors", 5))
    ctx = context(BOARD, layers=(layer(LayerRole.BACKER_BOARD, "B"),), waste=(row,))
    line = only(BOARDS, ctx)
    assert (line.each_si, line.pack_by) == (pytest.approx(6.25), PackBy.EACH)


def test_an_insulation_board_is_no_backer_board() -> None:
    board = roll("B", RollKind.INSULATION_BOARD)
    ctx = context(board, layers=(layer(LayerRole.BACKER_BOARD, "B"),))
    assert codes(BOARDS, ctx) == ["ITEM-OF-ANOTHER-KIND"]


def test_a_floor_of_3_by_2_4_m_takes_7_2_m_of_roll() -> None:
    # along 2.4 m, three strips of 1 m width: 7.2 m2 without trim
    ctx = context(
        tile(), U, specs=(spec(),), layers=(layer(LayerRole.UNDERLAY, "U"),),
        in_room=room(floor(3000, 2400)),
    )  # fmt: skip
    strips = strips_needed(ctx)
    assert [(s.length_mm320, s.width_mm320) for s in strips] == [(2400 * MM, 1000 * MM)] * 3
    assert only(UNDERLAY, ctx).each_si == pytest.approx(7.2)
