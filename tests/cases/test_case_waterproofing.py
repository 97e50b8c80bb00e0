"""Waterproofing of a shower floor of 1.2 x 0.9 m with 3 m of its edge along walls."""

import pytest
from cases.wet_rooms import BAND, LIQUID, MEASURED, PAN, SHEET, SHOWER, WALL
from hand_made import (
    IN,
    METRIC,
    MM,
    bag,
    box,
    codes,
    context,
    findings,
    floor,
    layer,
    only,
    quantities,
    room,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import METRE, SQUARE_METRE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Surface
from sheetcalc.domain.room_measures import BackedEdge
from sheetcalc.lines.strips import strips_needed
from sheetcalc.lines.waits import WAITS, WATER_TEST
from sheetcalc.lines.waterproofing import BANDS, WATERPROOFING
from sheetcalc.lines.wet import wet_area_m2
from sheetcalc.rules.membrane import bands_from_roll


def shower(*items: object, named: str = "L", **changes: object) -> object:
    row = layer(LayerRole.WATERPROOFING, named, SHOWER, **changes)
    return context(*items, layers=(row,), in_room=room(PAN, measures=MEASURED))


def test_liquid_by_coats_with_the_jobs_upturn() -> None:
    # (1.08 + 3 x 0.15) x 2 coats = 3.06 m2
    line = only(WATERPROOFING, shower(LIQUID, coats=2))
    assert line.each_si == pytest.approx(3.06)
    assert (line.unit, line.pack_by) == (SQUARE_METRE, PackBy.COVERAGE)
    assert "upturn 3 m x 150 mm (the Job's upturn)" in line.basis


def test_an_upturn_on_walls_with_a_sheet_is_counted_and_said() -> None:
    rows = (
        layer(LayerRole.WATERPROOFING, "L", SHOWER),
        layer(LayerRole.WATERPROOFING, "W", SurfaceKind.WET_AREA),
    )
    in_room = room(PAN, measures=MEASURED)
    (line,) = quantities(WATERPROOFING, context(LIQUID, SHEET, layers=rows, in_room=in_room))
    assert line.each_si == pytest.approx(1.08 + 0.45)
    assert "x 150 mm (the Job's upturn), also where the wall behind is covered" in line.basis


def test_up_walls_wins_over_the_jobs_upturn_and_coats_default_to_one() -> None:
    line = only(WATERPROOFING, shower(LIQUID, up_walls_mm320=300 * MM))
    assert line.each_si == pytest.approx(1.08 + 0.9)
    assert "x 1 coat (default of an empty Coats)" in line.basis


def test_liquid_without_coverage_is_an_error() -> None:
    pail = bag("L", BagKind.LIQUID_WATERPROOFING)
    assert codes(WATERPROOFING, shower(pail)) == ["BAG-WITHOUT-COVERAGE"]


def test_a_wall_is_waterproofed_to_the_jobs_height() -> None:
    # 3 m x 1.8 m of a wall 2.4 m high
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WALL)
    ctx = context(LIQUID, layers=(row,), in_room=room(WALL))
    assert only(WATERPROOFING, ctx).each_si == pytest.approx(5.4)
    higher = replace(ctx, job=replace(METRIC, wet_wall_height_mm320=3000 * MM))
    assert only(WATERPROOFING, higher).each_si == pytest.approx(7.2)


def test_a_wet_area_is_covered_as_drawn() -> None:
    area = replace(WALL, kind=SurfaceKind.WET_AREA)
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WET_AREA)
    ctx = context(LIQUID, layers=(row,), in_room=room(area))
    assert only(WATERPROOFING, ctx).each_si == pytest.approx(7.2)


def test_sheet_is_counted_by_its_strips() -> None:
    ctx = shower(SHEET, named="W")
    strips = (
        Strip("W", "P1", "101", PAN.key, "waterproofing", 1200 * MM, 1000 * MM),
        Strip("W", "P1", "101", PAN.key, "upturn", 3000 * MM, 150 * MM),
    )
    line = only(WATERPROOFING, replace(ctx, work=replace(ctx.work, strips=strips)))
    assert line.each_si == pytest.approx(1.2 + 0.45)
    assert (line.pack_by, line.waste) == (PackBy.PLAN, None)


def test_area_made_waterproof_is_counted_once_for_two_layers() -> None:
    rows = (
        layer(LayerRole.WATERPROOFING, "L", SHOWER),
        layer(LayerRole.WATERPROOFING, "L", SHOWER, order=2),
    )
    ctx = context(LIQUID, layers=rows, in_room=room(PAN, measures=MEASURED))
    assert wet_area_m2(ctx) == pytest.approx(1.53)
    assert len(quantities(WATERPROOFING, ctx)) == 2


def test_a_tiled_shower_floor_without_waterproofing_is_a_warning() -> None:
    ctx = context(tile(), specs=(spec(SHOWER),), in_room=room(PAN))
    assert codes(WATERPROOFING, ctx) == ["SHOWER-NOT-WATERPROOFED"]


def test_each_tiled_part_of_a_shower_left_dry_is_a_warning_whatever_else_is_waterproofed() -> None:
    top = Surface("curb C top", SurfaceKind.CURB, box(900 * MM, 100 * MM))
    wall = Surface("wet area far", SurfaceKind.WET_AREA, box(900 * MM, 2000 * MM))
    tiled = (spec(SHOWER), spec(SurfaceKind.CURB), spec(SurfaceKind.WET_AREA))
    wet = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WET_AREA)
    ctx = context(
        tile(), LIQUID, specs=tiled, layers=(wet,), in_room=room(PAN, top, wall, measures=MEASURED)
    )
    dry = [f.facts["surface"] for f in findings(WATERPROOFING, ctx)]
    assert dry == ["shower floor", "curb"]


def test_bands_run_along_changes_of_plane_and_butted_seams() -> None:
    # two strips of 1.2 m side by side share one seam of 1.2 m
    butted = replace(SHEET, overlap_mm320=0)
    rows = (
        layer(LayerRole.WATERPROOFING, "W", SHOWER),
        layer(LayerRole.BAND, "B", SHOWER, order=2),
    )
    strip = Strip("W", "P1", "101", PAN.key, "waterproofing", 1200 * MM, 450 * MM)
    ctx = context(butted, BAND, layers=rows, in_room=room(PAN, measures=MEASURED))
    ctx = replace(ctx, work=replace(ctx.work, strips=(strip, strip)))
    line = only(BANDS, ctx)
    assert line.each_si == pytest.approx(4.2 + 1.2)
    assert (line.unit, line.pack_by) == (METRE, PackBy.LENGTH)


def test_lapped_seams_take_no_band() -> None:
    rows = (
        layer(LayerRole.WATERPROOFING, "W", SHOWER),
        layer(LayerRole.BAND, "B", SHOWER, order=2),
    )
    strip = Strip("W", "P1", "101", PAN.key, "waterproofing", 1200 * MM, 450 * MM)
    ctx = context(SHEET, BAND, layers=rows, in_room=room(PAN, measures=MEASURED))
    ctx = replace(ctx, work=replace(ctx.work, strips=(strip, strip)))
    assert only(BANDS, ctx).each_si == pytest.approx(4.2)


def test_bands_are_counted_once_though_two_surfaces_name_one() -> None:
    rows = (
        layer(LayerRole.BAND, "B", SHOWER),
        layer(LayerRole.BAND, "B", SurfaceKind.WALL),
    )
    ctx = context(BAND, layers=rows, in_room=room(PAN, WALL, measures=MEASURED))
    assert only(BANDS, ctx).each_si == pytest.approx(4.2)
    two = context(
        BAND, replace(BAND, code="B2"), layers=(rows[0], replace(rows[1], item="B2")),
        in_room=room(PAN, WALL, measures=MEASURED),
    )  # fmt: skip
    assert codes(BANDS, two) == ["BANDS-DIFFER"]


def test_the_water_test_weighs_two_inches_of_water() -> None:
    # 1.08 m2 x 50.8 mm x 1000 kg/m3; upturns hold none
    assert only(WATER_TEST, shower(LIQUID)).each_si == pytest.approx(54.864)


def test_a_dry_room_has_no_water_test() -> None:
    assert quantities(WATER_TEST, context()) == []


def test_waits_of_tile_and_of_the_water_test() -> None:
    ctx = context(
        tile(), LIQUID, specs=(spec(SHOWER),),
        layers=(layer(LayerRole.WATERPROOFING, "L", SHOWER),), in_room=room(PAN),
    )  # fmt: skip
    found = {x.description: x.each_si / 3600 for x in quantities(WAITS, ctx)}
    assert found == {"Wait before grouting": 24, "Wait before the water test": 24}


def test_a_heated_screed_waits_three_weeks() -> None:
    rows = (layer(LayerRole.SCREED, "M"),)
    ctx = context(tile(), specs=(spec(heating_range="R"),), layers=rows)
    found = {x.description: x.each_si / 3600 for x in quantities(WAITS, ctx)}
    assert found["Wait before tiling a heated screed"] == 21 * 24


def test_bands_may_be_cut_from_a_sheet() -> None:
    # 8 bands of 125 mm side by side from 1 m, so 4.2 m of band are 0.525 m of sheet
    row = layer(LayerRole.BAND, "W", SHOWER)
    ctx = context(SHEET, layers=(row,), in_room=room(PAN, measures=MEASURED))
    line = only(BANDS, ctx)
    assert line.each_si == pytest.approx(0.525)
    assert "8 bands of 125 mm side by side from a sheet 1000 mm wide" in line.basis


def test_a_sheet_narrower_than_a_band_is_an_error() -> None:
    narrow = replace(SHEET, width_mm320=100 * MM)
    row = layer(LayerRole.BAND, "W", SHOWER)
    ctx = context(narrow, layers=(row,), in_room=room(PAN, measures=MEASURED))
    assert codes(BANDS, ctx) == ["BAND-WIDER-THAN-SHEET"]


@pytest.mark.parametrize(
    ("width_mm", "strips"),
    [(2400, 3), (2850, 3), (2900, 3)],
)
def test_lapped_sheets_are_counted_exactly(width_mm: int, strips: int) -> None:
    # ceil((W - o)/(w - o)) with w = 1 m, o = 50 mm; a float makes 4 of W = 2.9 m
    face = Surface("wet area near", SurfaceKind.WET_AREA, box(width_mm * MM, 2000 * MM))
    row = layer(LayerRole.WATERPROOFING, "W", SurfaceKind.WET_AREA)
    needed = strips_needed(context(SHEET, layers=(row,), in_room=room(face)))
    assert len(needed) == strips


def test_an_upturn_is_cut_in_lengths_of_the_roll() -> None:
    # 3 m of upturn from rolls of 2 m, lapped 50 mm: 2 m and 1.05 m
    short = replace(SHEET, length_mm320=2000 * MM)
    row = layer(LayerRole.WATERPROOFING, "W", SHOWER)
    ctx = context(short, layers=(row,), in_room=room(PAN, measures=MEASURED))
    upturns = [s for s in strips_needed(ctx) if s.piece == "upturn"]
    assert [s.length_mm320 for s in upturns] == [2000 * MM, 1050 * MM]


def test_many_parts_of_a_kind_are_put_together_in_the_basis() -> None:
    # five sides of a niche of 0.1 m2 each
    sides = tuple(
        Surface(f"niche N {i}", SurfaceKind.NICHE, box(500 * MM, 200 * MM)) for i in range(5)
    )
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.NICHE, coats=2)
    line = only(WATERPROOFING, context(LIQUID, layers=(row,), in_room=room(*sides)))
    assert line.each_si == pytest.approx(1.0)
    assert line.basis.startswith("niche: 5 parts 0.5 m² = 0.5 m² x 2 coats")


def test_the_water_test_of_the_trade_tables_pan() -> None:
    # 36 x 60 in under 2 in of water weigh 155.7 lb at 5.19 lb/ft2 per inch (ASTM D5957
    # Note 1), and 70.8 kg at 1000 kg/m3; the two agree within 0.3 %
    pan = Surface("shower floor S", SHOWER, box(36 * IN, 60 * IN))
    row = layer(LayerRole.WATERPROOFING, "L", SHOWER)
    line = only(WATER_TEST, context(LIQUID, layers=(row,), in_room=room(pan, measures=MEASURED)))
    assert line.each_si == pytest.approx(70.8, abs=0.05)
    assert line.each_si / 0.45359237 == pytest.approx(155.7, rel=0.003)


def test_a_liner_is_cut_of_bands_as_the_trade_table_says() -> None:
    # 8 of 125 mm from 1.0 m without trim; 7 of 5 in from 39 in with 4 in of trim
    assert bands_from_roll(1000 * MM, 125 * MM) == (8, 0)
    assert bands_from_roll(39 * IN, 5 * IN) == (7, 4 * IN)


def pan_before(kind: SurfaceKind, *wall_rows: object) -> object:
    """The shower floor with 2 m of its 3 m of wall edge before a wall surface 2.1 m high."""
    edges = (BackedEdge(SHOWER, kind, 2.0, 2100 * MM),)
    rows = (layer(LayerRole.WATERPROOFING, "L", SHOWER, coats=2), *wall_rows)
    behind = Surface("behind", kind, box(2000 * MM, 2100 * MM))
    in_room = room(PAN, behind, measures=replace(MEASURED, backed_edges=edges))
    return context(LIQUID, SHEET, layers=rows, in_room=in_room)


def coated(ctx: object) -> tuple[float, str]:
    """Area and Basis of the shower floor's line."""
    (line,) = [x for x in quantities(WATERPROOFING, ctx) if x.surface == "shower floor"]
    return line.each_si, line.basis


def test_an_upturn_on_a_wall_that_a_liquid_covers_is_coated_with_the_wall() -> None:
    # (1.08 + (3 - 2) x 0.15) x 2 coats = 2.46 m2; the wall's own row covers its 2 x 2.1 m
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WET_AREA)
    ctx = pan_before(SurfaceKind.WET_AREA, row)
    area, basis = coated(ctx)
    assert area == pytest.approx(2.46)
    assert "- 0.3 m² of upturn on walls that are coated themselves" in basis
    assert wet_area_m2(ctx) == pytest.approx(1.23 + 4.2)


def test_an_upturn_on_a_dry_wall_or_on_one_with_a_sheet_stays() -> None:
    # (1.08 + 3 x 0.15) x 2
    assert coated(pan_before(SurfaceKind.WALL))[0] == pytest.approx(3.06)
    sheet = layer(LayerRole.WATERPROOFING, "W", SurfaceKind.WET_AREA)
    assert coated(pan_before(SurfaceKind.WET_AREA, sheet))[0] == pytest.approx(3.06)


def test_an_upturn_goes_on_above_a_wall_that_is_covered_less_high() -> None:
    # the wall's liquid goes up 100 mm, the upturn 150: 50 mm x 2 m stay
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WALL, up_walls_mm320=100 * MM)
    area, _ = coated(pan_before(SurfaceKind.WALL, row))
    assert area == pytest.approx(2 * (1.08 + 0.15 + 2 * 0.05))


def test_an_inset_of_a_wall_is_made_waterproof_with_the_wall_not_with_the_floor() -> None:
    # a floor of 6 m2 and a panel of 0.5 x 0.5 m let into a wet area of 7.2 m2
    panel = Surface(
        "wall inset far", SurfaceKind.INSET, box(500 * MM, 500 * MM), let_into=SurfaceKind.WET_AREA
    )
    area = replace(WALL, kind=SurfaceKind.WET_AREA)
    rows = (
        layer(LayerRole.WATERPROOFING, "L"),
        layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WET_AREA),
    )
    ctx = context(LIQUID, layers=rows, in_room=room(floor(), area, panel))
    found = {line.surface: line.each_si for line in quantities(WATERPROOFING, ctx)}
    assert found == {"floor": pytest.approx(6), "wet area": pytest.approx(7.2 + 0.25)}


def test_a_sheets_upturn_laps_on_the_floor_where_no_band_covers_the_foot_of_the_wall() -> None:
    # 150 mm up and 50 mm on the floor; with a band in the build-up the band makes the joint
    def heights(ctx: object) -> list[int]:
        return [s.width_mm320 for s in strips_needed(ctx) if s.piece == "upturn"]

    wet = layer(LayerRole.WATERPROOFING, "W", SHOWER)
    banded = (wet, layer(LayerRole.BAND, "B", SHOWER, order=2))
    pan = room(PAN, measures=MEASURED)
    bare = context(SHEET, layers=(wet,), in_room=pan)
    assert heights(bare) == [200 * MM]
    assert codes(BANDS, bare) == ["BAND-MISSING"]
    with_band = context(SHEET, BAND, layers=banded, in_room=pan)
    assert heights(with_band) == [150 * MM]
    assert codes(BANDS, with_band) == []
