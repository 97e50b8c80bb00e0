"""Sundries: every basis, measured by hand in one bathroom."""

import pytest
from hand_made import (
    MEASURES,
    MM,
    US,
    bag,
    box,
    catalogue,
    codes,
    context,
    floor,
    layer,
    only,
    quantities,
    roll,
    room,
    setting_out,
    spec,
    sundry,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind, RollKind
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import FOOT, KILOGRAM, METRE, PIECE, SQUARE_METRE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room import Surface
from sheetcalc.lines.checks import check_catalogue
from sheetcalc.lines.edge_trim import EDGE_TRIM
from sheetcalc.lines.line import JobContext
from sheetcalc.lines.measures import mass_of_item, measure
from sheetcalc.lines.sundries import COLLARS, CORNERS, JOB_SUNDRIES, SUNDRIES, TRAY_FORMERS
from sheetcalc.lines.waterproofing import BANDS
from sheetcalc.rules.bases import BASES

PAN = Surface("shower floor S", SurfaceKind.SHOWER_FLOOR, box(1200 * MM, 900 * MM))
MEASURED = replace(
    MEASURES,
    wall_edge_m={SurfaceKind.SHOWER_FLOOR: 3.0},
    wet_change_of_plane_m=4.2,
    wet_inside_corners=4,
    wet_outside_corners=2,
    drains=1,
    niches=2,
    baths=1,
    curbs=1,
    shower_floors=1,
)
ROWS = (layer(LayerRole.WATERPROOFING, "L", SurfaceKind.SHOWER_FLOOR),)
LIQUID = bag("L", BagKind.LIQUID_WATERPROOFING, coverage_m2=10.0)


def bathroom(*items: object, **changes: object) -> object:
    edge = floor(open_edges_mm320=800 * MM)
    in_room = room(edge, PAN, measures=MEASURED, take_up="tile", take_up_thickness_mm320=20 * MM)
    changes = {
        "specs": (spec(), spec(SurfaceKind.SHOWER_FLOOR)),
        "layers": ROWS,
        "in_room": in_room,
        "outs": (
            setting_out(edge),
            setting_out(PAN, whole=9, cut=7, tiles_opened=16, holed=1, joint_length_m=6.06,
                        crossings=6),
        ),
        **changes,
    }  # fmt: skip
    return context(tile(), LIQUID, *items, **changes)


# the floor has 70 tiles (22 cut, 1 hole, 39.4 m of joint, 54 crossings), the pan 16 (7, 1, 6.06, 6)
BY_HAND = {
    "per room": 1,
    "per job": 0,
    "per area of tile": 6 + 1.08,
    "per area of floor": 6,
    "per tile": 86,
    "per cut": 29,
    "per hole": 2,
    "per m of joint": 45.46,
    "per m of perimeter": 10,
    "per m of doorway": 0.8,
    "per cable": 0,
    "per circuit": 0,
    "per thermostat": 0,
    "per drain": 1,
    "per pipe": 0,
    "per m of open tile edge": 0.8,
    "per inside corner": 4,
    "per outside corner": 2,
    "per kg of another item": 0,
    "per joint crossing": 60,
    "per tile edge": 45.46 / 0.3,
    "per m of band": 0,
    "per area made waterproof": 1.53,
    "per area taken up": 6,
    "per doorway": 1,
    "per niche": 2,
    "per bath": 1,
    "per curb": 1,
    "per shower floor": 1,
}


@pytest.mark.parametrize("basis", [key for key, basis in BASES.items() if not basis.same_as])
def test_every_basis_is_measured(basis: str) -> None:
    assert measure(bathroom(), basis).amount == pytest.approx(BY_HAND[basis])


@pytest.mark.parametrize(
    ("basis", "metric", "exactly"),
    [
        ("per ft of joint", "per m of joint", 0.3048),
        ("per ft of perimeter", "per m of perimeter", 0.3048),
        ("per ft of doorway", "per m of doorway", 0.3048),
        ("per ft of open tile edge", "per m of open tile edge", 0.3048),
        ("per ft of band", "per m of band", 0.3048),
        ("per lb of another item", "per kg of another item", 0.45359237),
    ],
)
def test_feet_and_pounds_measure_the_same_as_metres_and_kilograms(
    basis: str, metric: str, exactly: float
) -> None:
    # 1 ft = 30.48 cm and 1 lb = 0.45359237 kg: 16 CFR 500.19
    assert BASES[basis].measured_by == metric
    amount = measure(bathroom(), basis, of_item="T").amount
    assert amount * exactly == pytest.approx(measure(bathroom(), metric, of_item="T").amount)


def test_a_foot_of_trim_for_a_metre_of_edge_is_a_warning_and_a_foot_for_a_foot_is_none() -> None:
    by_metre = sundry("TR", "per m of open tile edge", 1.0, pack_unit=FOOT)
    assert [f.code for f in check_catalogue(catalogue(by_metre))] == ["RATE-SHORT-OF-LENGTH"]
    enough = replace(by_metre, rate=3.28)
    by_foot = replace(by_metre, basis="per ft of open tile edge")
    assert list(check_catalogue(catalogue(enough))) == []
    assert list(check_catalogue(catalogue(by_foot))) == []
    # 0.8 m of edge is 2.62 ft
    line = only(SUNDRIES, bathroom(by_foot, job=US))
    assert line.unit.from_si(line.each_si) == pytest.approx(0.8 / 0.3048)
    assert line.basis.startswith("2.62 ft of open tile edge")


def test_a_basis_that_is_none_is_refused() -> None:
    with pytest.raises(KeyError):
        measure(bathroom(), "per smile")


@pytest.mark.parametrize(
    ("basis", "amount"),
    [
        ("per tile", 16),
        ("per cut", 7),
        ("per area of tile", 1.08),
        ("per m of joint", 6.06),
        ("per joint crossing", 6),
        ("per area made waterproof", 1.53),
        ("per m of open tile edge", 0),
    ],
)
def test_a_surface_narrows_what_is_measured(basis: str, amount: float) -> None:
    assert measure(bathroom(), basis, ("shower floor",)).amount == pytest.approx(amount)


def test_several_surfaces_add_up_but_what_a_room_has_as_a_whole_counts_once() -> None:
    both = bathroom(sundry("SP", "per joint crossing", surfaces=("floor", "shower floor")))
    each = [
        measure(both, "per joint crossing", (kind,)).amount for kind in ("floor", "shower floor")
    ]
    assert each == [54, 6]
    line = only(SUNDRIES, both)
    assert (line.each_si, line.surface) == (60, "floor, shower floor")
    assert measure(both, "per inside corner", ("floor", "wall")).amount == 4
    assert measure(both, "per niche", ("wall", "niche")).amount == 2


def test_clips_and_spacers_of_a_mosaic_go_between_its_sheets() -> None:
    # 1.08 m2 in sheets of 6 x 6 chips of 47 with 3 mm joints, 300 x 300 mm: 12 sheets
    mosaic = tile(chip_length_mm320=47 * MM, chip_width_mm320=47 * MM)
    ctx = context(
        mosaic,
        specs=(spec(SurfaceKind.SHOWER_FLOOR),),
        in_room=room(PAN, measures=MEASURED),
        outs=(setting_out(PAN, whole=12, cut=0, joint_length_m=43.2, crossings=432),),
    )
    assert measure(ctx, "per joint crossing").amount == pytest.approx(12)
    assert measure(ctx, "per tile edge").amount == pytest.approx(24)
    assert measure(ctx, "per m of joint").amount == pytest.approx(43.2)


def test_corners_of_the_outline_are_those_of_floor_wall_and_base() -> None:
    assert measure(bathroom(), "per outside corner", ("base",)).amount == 0
    assert measure(bathroom(), "per inside corner", ("floor",)).amount == 4


def test_areas_are_in_the_jobs_unit() -> None:
    # 7.08 m2 = 76.208 ft2
    ctx = bathroom(job=US)
    assert measure(ctx, "per area of tile").amount == pytest.approx(7.08 / 0.09290304)
    assert measure(ctx, "per m of doorway").amount == pytest.approx(0.8)


def test_one_piece_is_told_as_one() -> None:
    line = only(SUNDRIES, bathroom(sundry("TH", "per doorway", 1.0)))
    assert line.basis.startswith("1 doorway x 1 piece (Rate, per doorway) = 1 piece;")


def test_a_rate_turns_the_basis_into_pack_units() -> None:
    # 60 crossings x 4 spacers
    line = only(SUNDRIES, bathroom(sundry("SP", "per joint crossing", 4.0)))
    assert (line.each_si, line.pack_by, line.item) == (240, PackBy.PACK_SIZE, "SP")
    assert line.basis.startswith(
        "60 joint crossings x 4 pieces (Rate, per joint crossing) = 240 pieces"
    )


def test_a_rate_in_metres_is_kept_in_metres() -> None:
    trim = sundry("TR", "per m of open tile edge", 1.05, pack_unit=METRE, pack_size=2.5)
    line = only(SUNDRIES, bathroom(trim))
    assert line.each_si == pytest.approx(0.84)
    assert line.unit == METRE


def test_sundries_of_another_finish_or_of_nothing_are_left_out() -> None:
    rows = (sundry("A", "per room", finish="OTHER"), sundry("B", "per cable"))
    assert quantities(SUNDRIES, bathroom(*rows)) == []


def test_kilograms_of_another_item_come_from_the_lines_before() -> None:
    # 12.1 L of mortar at 14.5 L a 20 kg bag = 16.69 kg; 0.05 kg of admixture for each
    mortar = bag("M", BagKind.MORTAR, yield_m3=0.0145)
    ctx = bathroom(mortar, sundry("AD", "per kg of another item", 0.05, of_item="M",
                                  pack_unit=KILOGRAM))  # fmt: skip
    done = ctx.quantity(
        "mortar", "Mortar", 0.0121, US.units.volume, basis="", item=mortar, pack_by=PackBy.YIELD
    )
    line = only(SUNDRIES, replace(ctx, lines=(done,)))
    assert line.each_si == pytest.approx(0.0121 / 0.0145 * 20 * 0.05)


def test_metres_of_band_come_from_the_line_before() -> None:
    rows = (*ROWS, layer(LayerRole.BAND, "B", SurfaceKind.SHOWER_FLOOR, order=2))
    ctx = bathroom(roll("B", RollKind.BAND), layers=rows)
    done = tuple(quantities(BANDS, ctx))
    assert measure(replace(ctx, lines=done), "per m of band").amount == pytest.approx(4.2)


def test_corner_pieces_named_by_the_build_up_are_ordered_once_and_not_as_sundries() -> None:
    shower = SurfaceKind.SHOWER_FLOOR
    rows = (
        *ROWS,
        layer(LayerRole.CORNER, "CI", shower, order=2),
        layer(LayerRole.CORNER, "CO", shower, order=3),
        layer(LayerRole.CORNER, "CI", shower, order=4),
        layer(LayerRole.COLLAR, "DC", shower, order=5),
        layer(LayerRole.TRAY_FORMER, "TF", shower, order=6),
    )
    pieces = (
        sundry("CI", "per inside corner"), sundry("CO", "per outside corner"),
        sundry("DC", "per drain"), sundry("TF", "per shower floor"),
    )  # fmt: skip
    ctx = bathroom(*pieces, layers=rows)
    assert {x.item: x.each_si for x in quantities(CORNERS, ctx)} == {"CI": 4, "CO": 2}
    assert only(COLLARS, ctx).each_si == 1
    assert only(TRAY_FORMERS, ctx).each_si == 1
    assert quantities(SUNDRIES, ctx) == []


def test_corner_pieces_not_named_are_taken_one_of_each_basis_with_a_warning() -> None:
    rows = (*ROWS, layer(LayerRole.CORNER, None, SurfaceKind.SHOWER_FLOOR, order=2))
    pieces = (sundry("CI", "per inside corner"), sundry("CO", "per outside corner"))
    ctx = bathroom(*pieces, layers=rows)
    assert {x.item: x.each_si for x in quantities(CORNERS, ctx)} == {"CI": 4, "CO": 2}
    assert codes(CORNERS, ctx) == ["ITEM-NOT-NAMED-ONE-TAKEN"] * 2


def test_a_collar_that_the_catalogue_has_not_is_an_error() -> None:
    rows = (*ROWS, layer(LayerRole.COLLAR, "DX", SurfaceKind.SHOWER_FLOOR, order=2))
    assert codes(COLLARS, bathroom(layers=rows)) == ["ITEM-NOT-IN-CATALOGUE"]


def test_what_is_bought_once_for_the_job() -> None:
    ctx = bathroom(sundry("SIGN", "per job", 3.0))
    job = JobContext(ctx.job, {"F": ctx.finish}, ctx.catalogue, (ctx.work,))
    line = only(JOB_SUNDRIES, job)
    assert (line.each_si, line.count, line.room, line.phase) == (3, 1, "", "")
    assert quantities(SUNDRIES, ctx) == []


def test_edges_that_the_trim_is_not_for_are_listed_all_the_same() -> None:
    # 0.8 m of open edge on the floor; the trim is bought for walls, then for floors
    for_walls = sundry("TR", "per m of open tile edge", surfaces=("wall",))
    line = only(EDGE_TRIM, bathroom(for_walls))
    assert (line.each_si, line.pack_by) == (pytest.approx(0.8), PackBy.NONE)
    assert line.basis.startswith("floor: 0.8 m of open tile edge")
    for_floors = sundry("TR", "per m of open tile edge", surfaces=("floor",))
    assert quantities(EDGE_TRIM, bathroom(for_floors)) == []


def test_open_edges_without_a_trim_in_the_catalogue_are_listed() -> None:
    line = only(EDGE_TRIM, bathroom())
    assert line.each_si == pytest.approx(0.8)
    assert line.pack_by is PackBy.NONE
    with_trim = bathroom(sundry("TR", "per m of open tile edge", pack_unit=METRE))
    assert quantities(EDGE_TRIM, with_trim) == []
    in_feet = only(EDGE_TRIM, bathroom(job=US))
    assert in_feet.each_si == pytest.approx(0.8)
    assert in_feet.basis.startswith("2.62 ft of open tile edge")


def test_the_mass_of_an_item_of_any_tab() -> None:
    # half a 12 kg box of 10 tiles; 1 m2 of a 15 kg roll of 30 m2; 10 m of it; a board of 9 kg;
    # 10 m2 of a 5 kg pail that covers 40; 50 pieces of a 2 kg box of 100
    rolled = roll("U", RollKind.UNDERLAY_ROLL, weight_kg=15.0)
    board = roll("B", RollKind.BACKER_BOARD, weight_kg=9.0)
    pail = bag("P", BagKind.PRIMER, coverage_m2=40.0, pack_size=5.0)
    boxed = sundry("SP", "per room", pack_weight_kg=2.0)
    ctx = bathroom(rolled, board, pail, boxed)
    heavy = replace(ctx.catalogue.tiles["T"], box_weight_kg=12.0)
    ctx = replace(ctx, catalogue=replace(ctx.catalogue, tiles={"T": heavy}))

    def mass(item: object, each_si: float, unit: object, by: PackBy) -> float:
        line = ctx.quantity("x", "X", each_si, unit, basis="", item=item, pack_by=by)
        return mass_of_item(replace(ctx, lines=(line,)), item.code)

    assert mass(heavy, 5, PIECE, PackBy.PIECES_PER_BOX) == pytest.approx(6)
    assert mass(rolled, 1, SQUARE_METRE, PackBy.PLAN) == pytest.approx(0.5)
    assert mass(rolled, 10, METRE, PackBy.LENGTH) == pytest.approx(5)
    assert mass(board, 2.5, PIECE, PackBy.EACH) == pytest.approx(22.5)
    assert mass(pail, 10, SQUARE_METRE, PackBy.COVERAGE) == pytest.approx(1.25)
    assert mass(boxed, 50, PIECE, PackBy.PACK_SIZE) == pytest.approx(1)
    assert mass(pail, 3, KILOGRAM, PackBy.PACK_SIZE) == pytest.approx(3)


def test_an_item_without_weight_weighs_nothing_known() -> None:
    board = roll("B", RollKind.BACKER_BOARD)
    ctx = bathroom(board)
    line = ctx.quantity("x", "X", 2, PIECE, basis="", item=board, pack_by=PackBy.EACH)
    assert mass_of_item(replace(ctx, lines=(line,)), "B") == 0
    assert mass_of_item(ctx, "NOBODY") == 0
