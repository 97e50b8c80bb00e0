"""Sealant: lengths of bead by hand, times their sections."""

import pytest
from hand_made import (
    MEASURES,
    METRIC,
    MM,
    bag,
    box,
    codes,
    context,
    floor,
    only,
    quantities,
    room,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.measure import MILLILITRE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room import Patch, Region, Surface
from sheetcalc.lines.sealant import SEALANT, movement_joint_m

S = bag("S", BagKind.SEALANT, pack_size=310.0, pack_unit=MILLILITRE, package="cartridge")
BATHROOM = replace(
    MEASURES,
    change_of_plane_m={SurfaceKind.FLOOR: 9.2},
    fixture_edge_m=1.7,
    round_fixture_m=0.346,
)


def test_joints_are_filled_and_fixtures_get_a_fillet() -> None:
    # 9.2 m x 36 mm2 + 2.046 m x 18 mm2 = 368.028 mL
    line = only(SEALANT, context(tile(), S, specs=(spec(),), in_room=room(measures=BATHROOM)))
    assert line.each_si == pytest.approx(368.028e-6)
    assert (line.unit, line.pack_by) == (MILLILITRE, PackBy.PACK_SIZE)
    assert "changes of plane and perimeter 9.2 m, fixtures 1.7 m, pipes and outlets" in line.basis
    # 310 mL fill 8.61 m of 6 x 6 mm
    assert "a cartridge fills 8.611 m of joint" in line.basis


def test_fixtures_and_pipes_of_a_wet_room_are_sealed_with_its_shower_floor() -> None:
    # no main floor: (1.7 + 0.346) m of fillet x 18 mm2 = 36.828 mL
    kind = SurfaceKind.SHOWER_FLOOR
    wet = Surface("shower floor S", kind, box(2000 * MM, 1500 * MM))
    of_room = room(wet, measures=replace(BATHROOM, change_of_plane_m={}))
    line = only(SEALANT, context(tile(), S, specs=(spec(kind),), in_room=of_room))
    assert line.each_si == pytest.approx(36.828e-6)


def test_movement_joints_by_spacing() -> None:
    # 10 x 8 m at 7.62 m: one joint of 8 m and one of 10 m
    big = Surface("floor", SurfaceKind.FLOOR, box(10_000 * MM, 8_000 * MM))
    assert movement_joint_m(big, 7620 * MM) == pytest.approx(18)
    ctx = context(tile(), S, specs=(spec(),), in_room=room(big))
    assert only(SEALANT, ctx).each_si == pytest.approx(18 * 36e-6)


def test_a_field_of_exactly_the_spacing_needs_no_joint() -> None:
    exact = Surface("floor", SurfaceKind.FLOOR, box(7620 * MM, 7620 * MM))
    over = Surface("floor", SurfaceKind.FLOOR, box(7620 * MM + 1, 7620 * MM))
    assert movement_joint_m(exact, 7620 * MM) == 0
    assert movement_joint_m(over, 7620 * MM) == pytest.approx(7.62, rel=1e-5)


def test_an_l_shaped_floor_counts_the_joints_it_has() -> None:
    # 10 x 10 m less a corner of 5 x 5: 75 m2, so 7.5 m deep on average each way
    ring = ((0, 0), (10, 0), (10, 5), (5, 5), (5, 10), (0, 10))
    shell = tuple((x * 1000 * MM, y * 1000 * MM) for x, y in ring)
    surface = Surface("floor", SurfaceKind.FLOOR, Region((Patch(shell),)))
    assert movement_joint_m(surface, 7620 * MM) == pytest.approx(15)


def test_each_kind_of_surface_has_its_own_sealant() -> None:
    measures = replace(MEASURES, change_of_plane_m={SurfaceKind.FLOOR: 9.2, SurfaceKind.WALL: 8.4})
    wall = Surface("wall far", SurfaceKind.WALL, box(3000 * MM, 2400 * MM))
    ctx = context(
        tile(), S, bag("S2", BagKind.SEALANT, pack_unit=MILLILITRE, pack_size=300.0),
        specs=(spec(), spec(SurfaceKind.WALL, sealant="S2")),
        in_room=room(floor(), wall, measures=measures),
    )  # fmt: skip
    found = {x.item: x.each_si for x in quantities(SEALANT, ctx)}
    assert found == pytest.approx({"S": 9.2 * 36e-6, "S2": 8.4 * 36e-6})


def test_untiled_surfaces_are_not_sealed() -> None:
    ctx = context(tile(), S, specs=(spec(tile=None),), in_room=room(measures=BATHROOM))
    assert list(SEALANT.work(ctx)) == []


def test_sealant_sold_by_weight_needs_a_yield() -> None:
    ctx = context(
        tile(), bag("S", BagKind.SEALANT), specs=(spec(),), in_room=room(measures=BATHROOM)
    )
    assert codes(SEALANT, ctx) == ["BAG-WITHOUT-YIELD"]


def test_an_exposed_floor_has_its_movement_joints_closer() -> None:
    # 12 ft = 3.6576 m outside (EJ171, as quoted): 7 m across and along take one joint each
    big = Surface("floor", SurfaceKind.FLOOR, box(7_000 * MM, 7_000 * MM))
    job = replace(METRIC, exposure="exterior")
    ctx = context(tile(), S, specs=(spec(),), in_room=room(big), job=job)
    assert only(SEALANT, ctx).each_si == pytest.approx(14 * 36e-6)
