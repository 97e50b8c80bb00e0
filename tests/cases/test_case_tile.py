"""Tile and spares: worked by hand on a floor of 3 x 2 m."""

import pytest
from hand_made import (
    METRIC,
    MM,
    box,
    catalogue,
    codes,
    context,
    floor,
    only,
    quantities,
    room,
    setting_out,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import WasteFactor
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import Bond, BondKind, SurfaceKind
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room import Surface
from sheetcalc.lines.tile import SPARES, TILE

BY_AREA = replace(METRIC, counted_by="area")


def test_tiles_of_a_setting_out_are_its_whole_and_cut_pieces() -> None:
    line = only(TILE, context(tile(), specs=(spec(),), outs=(setting_out(floor()),)))
    assert (line.each_si, line.count, line.net_si) == (70, 2, 140)
    assert line.unit.to_si(line.gross_shown) == pytest.approx(140 * 1.03)
    assert (line.item, line.tab, line.pack_by) == ("T", "Tiles", PackBy.PIECES_PER_BOX)
    assert line.basis.startswith("floor: 48 whole + 22 cut from the setting-out in grid")
    assert line.basis.endswith(
        "default waste 3 % for breakage: cuts are counted piece by piece (common practice, no "
        "source)"
    )


def test_pieces_from_offcuts_are_not_opened_twice() -> None:
    out = setting_out(floor(), tiles_opened=61)
    line = only(TILE, context(tile(), specs=(spec(),), outs=(out,)))
    assert line.each_si == 61
    assert "61 opened after offcuts" in line.basis


def test_by_area_is_area_over_module_and_is_not_rounded() -> None:
    # 6 m2 over 0.303 m x 0.303 m
    ctx = context(tile(), specs=(spec(),), outs=(setting_out(floor()),), job=BY_AREA)
    line = only(TILE, ctx)
    assert line.each_si == pytest.approx(6 / 0.091809)
    assert line.waste is not None
    assert line.waste.share == 0.10
    assert "module = tile + joint, master specification Section 09 30 00" in line.basis


def test_without_a_setting_out_tiles_go_by_area() -> None:
    herringbone = spec(bond=Bond(BondKind.HERRINGBONE))
    line = only(TILE, context(tile(), specs=(herringbone,)))
    assert line.each_si == pytest.approx(6 / 0.091809)
    assert line.waste is not None
    assert line.waste.share == 0.18


def test_a_surface_without_a_row_is_not_tiled() -> None:
    wall = Surface("wall far", SurfaceKind.WALL, floor().region)
    ctx = context(tile(), specs=(spec(),), in_room=room(floor(), wall))
    assert [line.surface for line in quantities(TILE, ctx)] == ["floor"]


def test_an_unknown_tile_is_left_to_the_reader() -> None:
    assert codes(TILE, context(tile("OTHER"), specs=(spec(),))) == []
    assert quantities(TILE, context(tile("OTHER"), specs=(spec(),))) == []


def test_a_base_course_runs_along_the_walls() -> None:
    # 9.2 m of wall over 0.303 m of tile and joint; no joint lies above a course
    walls = (6000, 3200)
    courses = tuple(
        Surface(f"base {n}", SurfaceKind.BASE, box(length * MM, 300 * MM))
        for n, length in enumerate(walls, 1)
    )
    line = only(TILE, context(tile(), specs=(spec(SurfaceKind.BASE),), in_room=room(*courses)))
    assert line.each_si == pytest.approx(9.2 / 0.303)
    assert line.surface == "base"


def test_a_row_of_waste_factors_wins_over_the_default() -> None:
    row = WasteFactor("tile", None, None, None, 0.07, RowRef("Waste factors", 8))
    ctx = context(tile(), specs=(spec(),), outs=(setting_out(floor()),), waste=(row,))
    line = only(TILE, ctx)
    assert line.unit.to_si(line.gross_shown) == pytest.approx(140 * 1.07)
    assert line.basis.endswith("waste 7 % by Waste factors (tile)")


def test_spares_are_a_share_of_net_without_waste() -> None:
    # 5 % of 70 = 3.5 for a room, 7 for two
    line = only(SPARES, context(tile(), specs=(spec(),), outs=(setting_out(floor()),)))
    assert (line.each_si, line.net_si, line.unit.to_si(line.gross_shown)) == pytest.approx(
        (3.5, 7, 7)
    )
    assert line.waste is None


def test_spares_of_one_tile_on_two_surfaces_are_one_line() -> None:
    wall = Surface("wall far", SurfaceKind.WALL, floor().region)
    ctx = context(
        tile(),
        specs=(spec(), spec(SurfaceKind.WALL)),
        in_room=room(floor(), wall),
        outs=(setting_out(floor()), setting_out(wall, tiles_opened=30, whole=30, cut=0)),
    )
    assert only(SPARES, ctx).each_si == pytest.approx(5)


def test_no_spares_where_the_job_wants_none() -> None:
    job = replace(METRIC, spare_tiles_share=0.0)
    assert quantities(SPARES, context(tile(), specs=(spec(),), job=job)) == []


def test_a_mosaic_is_counted_by_sheet() -> None:
    # sheets of 297 x 297 mm with a 3 mm joint: 6 / 0.3 / 0.3
    mosaic = tile(
        length_mm320=297 * MM, width_mm320=297 * MM, chip_length_mm320=27 * MM,
        chip_width_mm320=27 * MM,
    )  # fmt: skip
    assert only(TILE, context(mosaic, specs=(spec(),))).each_si == pytest.approx(6 / 0.09)
    assert catalogue(mosaic).tiles["T"] is mosaic


@pytest.mark.parametrize("side", [297, 300])
def test_a_mosaic_sheet_may_be_given_with_or_without_the_joint_round_it(side: int) -> None:
    # ten chips of 27 mm, each with its joint of 3 mm: 300 mm a sheet, however it is written
    mosaic = tile(
        length_mm320=side * MM, width_mm320=side * MM, chip_length_mm320=27 * MM,
        chip_width_mm320=27 * MM,
    )  # fmt: skip
    line = only(TILE, context(mosaic, specs=(spec(),)))
    assert line.each_si == pytest.approx(6 / 0.09)
    assert "(300 mm x 300 mm; module = 10 x 10 chips and joints" in line.basis


def test_surfaces_of_one_kind_are_one_line() -> None:
    far = Surface("wall far", SurfaceKind.WALL, floor().region)
    near = Surface("wall near", SurfaceKind.WALL, floor().region)
    ctx = context(
        tile(),
        specs=(spec(SurfaceKind.WALL),),
        in_room=room(far, near),
        outs=(setting_out(far), setting_out(near, whole=40, cut=10, tiles_opened=50)),
    )
    line = only(TILE, ctx)
    assert (line.each_si, line.surface) == (120, "wall")
    assert line.basis.startswith("wall: 88 whole + 32 cut on 2 setting-outs in grid")
