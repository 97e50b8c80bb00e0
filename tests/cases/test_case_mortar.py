"""Mortar under tile: worked by hand on 6 m2."""

from math import sin, sqrt

import pytest
from hand_made import (
    IN,
    METRIC,
    MM,
    US,
    bag,
    box,
    codes,
    context,
    findings,
    only,
    quantities,
    room,
    spec,
    square_notch,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finish import Notch, NotchShape, SurfaceKind
from sheetcalc.domain.measure import LITRE, POUND
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room import Surface
from sheetcalc.lines.mortar import MORTAR

M = bag("M", BagKind.MORTAR, yield_m3=0.0145)
BED = 0.010 * 0.010 * sqrt(0.5) / 0.020  # 10 mm square notch at 45 degrees [m]


def test_bed_and_skim_make_the_volume() -> None:
    line = only(MORTAR, context(tile(), M, specs=(spec(),)))
    assert line.each_si == pytest.approx(6 * (BED + 0.001))
    assert (line.unit, line.pack_by, line.item) == (LITRE, PackBy.YIELD, "M")
    assert line.unit.to_si(line.gross_shown) == pytest.approx(2 * 6 * (BED + 0.001) * 1.05)


def test_the_basis_tells_the_working_in_words() -> None:
    basis = only(MORTAR, context(tile(), M, specs=(spec(),))).basis
    assert (
        "bed from a square notch 10 mm x 10 mm x 10 mm at 45° (the Job's trowel angle): 10 x 10 x "
        "sin 45°/(10 + 10) = 3.54 mm (derived from the ridges' volume); + skim on the back 1 mm "
        "(the Job's skim) = 4.54 mm"
    ) in basis
    assert "6 m² x 4.54 mm = 27.213 L as mixed" in basis
    assert basis.endswith("default waste 5 % for working loss: bucket, trowel, unused mix "
                          "(common practice, no source)")  # fmt: skip


def test_angle_and_skim_of_the_finish_win_over_the_jobs() -> None:
    row = spec(trowel_angle_deg=60.0, skim_mm320=2 * MM)
    line = only(MORTAR, context(tile(), M, specs=(row,)))
    assert line.each_si == pytest.approx(6 * (0.005 * sin(1.0471975511965976) + 0.002))
    assert "(the Job's" not in line.basis


def test_no_skim_is_said() -> None:
    line = only(MORTAR, context(tile(), M, specs=(spec(skim_mm320=0),)))
    assert line.each_si == pytest.approx(6 * BED)
    assert "; no skim" in line.basis


def test_a_bag_without_yield_goes_by_the_jobs_density_and_water() -> None:
    # 27.213 L x 1650 / 1.22 kg/m3 = 36.80 kg
    line = only(MORTAR, context(tile(), bag("M", BagKind.MORTAR), specs=(spec(),)))
    assert line.pack_by is PackBy.PACK_SIZE
    assert line.each_si == pytest.approx(6 * (BED + 0.001) * 1650 / 1.22)
    assert "wet density 1650 kg/m³ and water ratio 0.22 of the Job" in line.basis


def test_eight_18_inch_stones_a_50_lb_bag_with_half_inch_notch_and_back_buttering() -> None:
    # the trade's fact, common practice, no source; with what fits it: notch upright,
    # 1/8 in skim, 5 % loss: 8.02 tiles a bag, so 100 tiles of 2.25 ft2 take 12.47 bags
    sacks = bag("M", BagKind.MORTAR, pack_size=50.0, pack_unit=POUND)
    stone = tile(length_mm320=18 * IN, width_mm320=18 * IN)
    row = spec(notch=square_notch(IN // 2), trowel_angle_deg=90.0, skim_mm320=IN // 8)
    field = room(Surface("floor", SurfaceKind.FLOOR, box(180 * IN, 180 * IN)), count=1)
    line = only(MORTAR, context(stone, sacks, specs=(row,), in_room=field, job=US))
    bags = POUND.from_si(line.unit.to_si(line.gross_shown)) / 50
    assert 100 / bags == pytest.approx(8.02, abs=0.0051)
    assert "1/2 in" in line.basis


def test_a_pail_of_premixed_mortar_goes_by_its_own_volume() -> None:
    pail = bag("M", BagKind.PREMIXED_MORTAR, pack_size=10.0, pack_unit=LITRE)
    line = only(MORTAR, context(tile(), pail, specs=(spec(),)))
    assert line.each_si == pytest.approx(6 * (BED + 0.001))
    assert line.pack_by is PackBy.PACK_SIZE


def test_no_notch_no_mortar_and_a_warning() -> None:
    ctx = context(tile(), M, specs=(spec(notch=None),))
    assert codes(MORTAR, ctx) == ["NOTCH-MISSING"]
    assert quantities(MORTAR, ctx) == []


@pytest.mark.parametrize(
    "row",
    [
        spec(notch=Notch(NotchShape.U, 20 * MM, 9 * MM, 10 * MM)),
        spec(notch=Notch(NotchShape.SQUARE, 0, 9 * MM, 10 * MM)),
        spec(trowel_angle_deg=0.0),
        spec(trowel_angle_deg=91.0),
    ],
)
def test_a_notch_that_leaves_no_bed_is_an_error(row: object) -> None:
    assert codes(MORTAR, context(tile(), M, specs=(row,))) == ["NOTCH-UNWORKABLE"]


def test_the_only_mortar_is_taken_with_a_warning() -> None:
    ctx = context(tile(), M, specs=(spec(mortar=None),))
    assert codes(MORTAR, ctx) == ["ITEM-NOT-NAMED-ONE-TAKEN"]
    assert [x.item for x in quantities(MORTAR, ctx)] == ["M"]


def test_several_mortars_and_none_named_is_an_error_that_lists_them() -> None:
    ctx = context(tile(), M, bag("M2", BagKind.MORTAR), specs=(spec(mortar=None),))
    (finding,) = findings(MORTAR, ctx)
    assert finding.code == "ITEM-NOT-NAMED-SEVERAL"
    assert finding.facts["codes"] == "M, M2"
    assert quantities(MORTAR, ctx) == []


def test_an_empty_catalogue_lists_the_mortar_without_ordering_it() -> None:
    ctx = context(tile(), specs=(spec(mortar=None),))
    assert codes(MORTAR, ctx) == ["ITEM-NOT-NAMED-NOT-ORDERED"]
    (line,) = quantities(MORTAR, ctx)
    assert line.each_si == pytest.approx(6 * (BED + 0.001))
    assert (line.item, line.pack_by) == ("", PackBy.NONE)


def test_a_mortar_that_is_not_there_is_an_error_with_the_nearest() -> None:
    (finding,) = findings(MORTAR, context(tile(), M, specs=(spec(mortar="MM"),)))
    assert finding.code == "ITEM-NOT-IN-CATALOGUE"
    assert finding.facts["nearest"] == "M"


def test_a_thin_bed_is_a_warning() -> None:
    # 3 mm notch at 45 degrees: 1.06 mm
    thin = spec(notch=square_notch(3 * MM), skim_mm320=0)
    assert codes(MORTAR, context(tile(), M, specs=(thin,))) == ["BED-TOO-THIN"]


def test_skim_counts_for_the_least_bed() -> None:
    thin = spec(notch=square_notch(3 * MM), skim_mm320=1 * MM)
    assert codes(MORTAR, context(tile(), M, specs=(thin,))) == []


def test_a_bed_of_exactly_the_limit_passes() -> None:
    # 4 mm notch upright: 2 mm
    row = spec(notch=square_notch(4 * MM), skim_mm320=0, trowel_angle_deg=90.0)
    assert codes(MORTAR, context(tile(), M, specs=(row,))) == []


def test_inch_jobs_are_held_against_3_32_inch() -> None:
    # 2.245 mm passes 2 mm and fails 3/32 in
    row = spec(notch=square_notch(IN // 4), skim_mm320=0)
    assert codes(MORTAR, context(tile(), M, specs=(row,))) == []
    assert codes(MORTAR, context(tile(), M, specs=(row,), job=US)) == ["BED-TOO-THIN"]


def test_stone_and_wet_areas_ask_for_95_percent_contact() -> None:
    marble = tile(material="marble")
    (finding,) = findings(MORTAR, context(marble, M, specs=(spec(),)))
    assert finding.code == "CONTACT-TO-CHECK"
    assert finding.facts["share"] == "95 %"
    shower = room(Surface("shower floor S", SurfaceKind.SHOWER_FLOOR, box(900 * MM, 900 * MM)))
    wet = context(tile(), M, specs=(spec(SurfaceKind.SHOWER_FLOOR),), in_room=shower)
    assert codes(MORTAR, wet) == ["CONTACT-TO-CHECK"]


def test_a_long_stone_without_skim_is_a_warning() -> None:
    marble = tile(material="marble", length_mm320=600 * MM)
    ctx = context(marble, M, specs=(spec(skim_mm320=0),))
    assert codes(MORTAR, ctx) == ["CONTACT-WITHOUT-SKIM"]


def test_an_exterior_floor_is_wet() -> None:
    ctx = context(tile(), M, specs=(spec(),), job=replace(METRIC, exposure="exterior"))
    assert codes(MORTAR, ctx) == ["CONTACT-TO-CHECK"]
