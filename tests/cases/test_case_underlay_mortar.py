"""Mortar under the underlay and in its knobs: worked by hand on 6 m2."""

from math import sqrt

import pytest
from cases.wet_rooms import BAND, LIQUID, MEASURED, PAN, SHEET, SHOWER, WALL
from hand_made import (
    MM,
    bag,
    codes,
    context,
    layer,
    only,
    quantities,
    roll,
    room,
    spec,
    square_notch,
    tile,
)

from sheetcalc.domain.catalogue import BagKind, RollKind
from sheetcalc.domain.finish import LayerRole, Notch, NotchShape, SurfaceKind
from sheetcalc.lines.assembly import floor_parts
from sheetcalc.lines.underlay_mortar import KNOB_FILL, UNDERLAY_MORTAR

M = bag("M", BagKind.MORTAR, yield_m3=0.0145)
KNOBBED = roll("U", RollKind.UNDERLAY_ROLL, knob_pitch_mm320=30 * MM, fill_m=0.0032)
IN_MORTAR = {"bed_mortar": "M", "notch": square_notch(6 * MM)}
BED_M = 0.006 * sqrt(0.5) / 2
"""6 mm square notch at 45 degrees: 2.121 mm."""


def test_the_underlay_has_a_notch_of_its_own_and_no_skim() -> None:
    # 6 mm square notch at 45 degrees: 2.121 mm
    row = layer(LayerRole.UNDERLAY, "U", bed_mortar="M", notch=square_notch(6 * MM))
    line = only(UNDERLAY_MORTAR, context(tile(), M, KNOBBED, specs=(spec(),), layers=(row,)))
    assert line.each_si == pytest.approx(6 * 0.006 * sqrt(0.5) / 2)
    assert line.basis.startswith("floor: under the underlay: 6 m² x 2.12 mm = 12.728 L as mixed")


def test_an_underlay_laid_loose_has_no_mortar() -> None:
    row = layer(LayerRole.UNDERLAY, "U")
    ctx = context(tile(), M, KNOBBED, specs=(spec(),), layers=(row,))
    assert quantities(UNDERLAY_MORTAR, ctx) == []


def test_bed_mortar_without_a_notch_is_an_error() -> None:
    row = layer(LayerRole.BACKER_BOARD, "B", bed_mortar="M")
    assert codes(UNDERLAY_MORTAR, context(M, layers=(row,))) == ["BED-WITHOUT-NOTCH"]


def test_boards_are_bedded_too() -> None:
    row = layer(LayerRole.BACKER_BOARD, "B", bed_mortar="M", notch=square_notch(8 * MM))
    assert only(UNDERLAY_MORTAR, context(M, layers=(row,))).each_si == pytest.approx(
        6 * 0.008 * sqrt(0.5) / 2
    )


def test_a_sheet_lies_in_mortar_with_its_upturns() -> None:
    # 1.2 x 0.9 m of shower floor and 3 m of wall x 0.15 m
    row = layer(LayerRole.WATERPROOFING, "W", SHOWER, **IN_MORTAR)
    ctx = context(M, SHEET, layers=(row,), in_room=room(PAN, measures=MEASURED))
    line = only(UNDERLAY_MORTAR, ctx)
    assert line.each_si == pytest.approx((1.2 * 0.9 + 3.0 * 0.15) * BED_M)
    assert "1.08 m² + upturn 3 m x 150 mm (the Job's upturn); 1.53 m² x 2.12 mm" in line.basis


def test_a_sheet_on_a_wall_lies_in_mortar_as_high_as_it_goes() -> None:
    # 3 m of wall 2.4 m high, covered to 1.8 m
    row = layer(LayerRole.WATERPROOFING, "W", SurfaceKind.WALL, **IN_MORTAR)
    line = only(UNDERLAY_MORTAR, context(M, SHEET, layers=(row,), in_room=room(WALL)))
    assert line.each_si == pytest.approx(3.0 * 1.8 * BED_M)


def test_a_band_lies_in_mortar_once_however_many_surfaces_name_it() -> None:
    # 4.2 m of changes of plane x 1 m, the width of BAND
    rows = (
        layer(LayerRole.WATERPROOFING, "L", SHOWER),
        layer(LayerRole.BAND, "B", SHOWER, order=2, **IN_MORTAR),
        layer(LayerRole.BAND, "B", SurfaceKind.WALL, order=2, **IN_MORTAR),
    )
    in_room = room(PAN, WALL, measures=MEASURED)
    ctx = context(M, LIQUID, BAND, layers=rows, in_room=in_room)
    (line,) = quantities(UNDERLAY_MORTAR, ctx)
    assert line.each_si == pytest.approx(4.2 * 1.0 * BED_M)


@pytest.mark.parametrize(
    ("role", "item"),
    [(LayerRole.PRIMER, "P"), (LayerRole.CORNER, "C"), (LayerRole.WATERPROOFING, "L")],
)
def test_what_no_mortar_beds_has_none_and_says_so(role: LayerRole, item: str) -> None:
    row = layer(role, item, **IN_MORTAR)
    ctx = context(tile(), M, LIQUID, specs=(spec(),), layers=(row,))
    assert codes(UNDERLAY_MORTAR, ctx) == ["BED-NOT-COUNTED"]
    assert quantities(UNDERLAY_MORTAR, ctx) == []
    assert [p.name for p in floor_parts(ctx)] == ["bed and skim", "tile"]


def test_knobs_are_filled_with_the_tiles_mortar() -> None:
    # 6 m2 x 3.2 L/m2 = 19.2 L
    row = layer(LayerRole.UNDERLAY, "U")
    line = only(KNOB_FILL, context(tile(), M, KNOBBED, specs=(spec(),), layers=(row,)))
    assert line.each_si == pytest.approx(0.0192)
    assert line.item == "M"
    assert "6 m² x 3.2 L/m² = 19.2 L" in line.basis


def test_an_empty_fill_on_a_knobbed_underlay_is_an_error() -> None:
    knobbed = roll("U", RollKind.UNDERLAY_ROLL, knob_pitch_mm320=30 * MM)
    row = layer(LayerRole.UNDERLAY, "U")
    ctx = context(tile(), M, knobbed, specs=(spec(),), layers=(row,))
    assert codes(KNOB_FILL, ctx) == ["KNOBS-WITHOUT-FILL"]


def test_an_underlay_without_knob_pitch_has_no_knobs_to_fill() -> None:
    flat = roll("U", RollKind.UNDERLAY_ROLL)
    row = layer(LayerRole.UNDERLAY, "U")
    ctx = context(tile(), M, flat, specs=(spec(),), layers=(row,))
    assert list(KNOB_FILL.work(ctx)) == []


def test_a_fill_of_nothing_is_said_by_zero() -> None:
    empty = roll("U", RollKind.UNDERLAY_ROLL, knob_pitch_mm320=30 * MM, fill_m=0.0)
    row = layer(LayerRole.UNDERLAY, "U")
    assert list(KNOB_FILL.work(context(tile(), M, empty, specs=(spec(),), layers=(row,)))) == []


def test_a_bed_that_can_not_be_worked_is_an_error() -> None:
    flat = Notch(NotchShape.SQUARE, 0, 6 * MM, 6 * MM)
    row = layer(LayerRole.UNDERLAY, "U", bed_mortar="M", notch=flat)
    assert codes(UNDERLAY_MORTAR, context(M, KNOBBED, layers=(row,))) == ["NOTCH-UNWORKABLE"]


def test_a_bed_in_what_is_no_mortar_is_an_error() -> None:
    row = layer(LayerRole.UNDERLAY, "U", bed_mortar="G", notch=square_notch(6 * MM))
    ctx = context(bag("G", BagKind.GROUT), KNOBBED, layers=(row,))
    assert codes(UNDERLAY_MORTAR, ctx) == ["ITEM-OF-ANOTHER-KIND"]
