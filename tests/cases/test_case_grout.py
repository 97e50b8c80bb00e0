"""Grout: worked by hand on 6 m2."""

import pytest
from hand_made import (
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
    setting_out,
    spec,
    tile,
)
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.measure import KILOGRAM, LITRE
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.room import Surface
from sheetcalc.lines.grout import GROUT

G = bag("G", BagKind.GROUT, pack_size=5.0)


def test_joints_of_the_setting_out_times_the_tiles_thickness() -> None:
    # 0.118 m2 x 8 mm = 0.944 L; x 1.6 kg/L = 1.5104 kg
    line = only(GROUT, context(tile(), G, specs=(spec(),), outs=(setting_out(floor()),)))
    assert line.each_si == pytest.approx(1.5104)
    assert (line.unit, line.pack_by) == (KILOGRAM, PackBy.PACK_SIZE)
    assert line.unit.to_si(line.gross_shown) == pytest.approx(2 * 1.5104 * 1.10)
    assert "x depth 8 mm (the tile's thickness) = 0.944 L, exact (derived)" in line.basis


def test_the_basis_of_a_few_joints_can_be_worked_again() -> None:
    # one joint of 3 mm in a niche's side of 143 mm: 0.000429 m2 x 8 mm = 0.003432 L
    out = replace(setting_out(floor()), joint_area_m2=0.003 * 0.143)
    line = only(GROUT, context(tile(), G, specs=(spec(),), outs=(out,)))
    assert "0.000429 m² x depth 8 mm (the tile's thickness) = 0.003432 L" in line.basis


def test_the_jobs_depth_wins_over_the_thickness() -> None:
    job = replace(METRIC, grout_depth_mm320=5 * MM)
    ctx = context(tile(), G, specs=(spec(),), outs=(setting_out(floor()),), job=job)
    assert only(GROUT, ctx).each_si == pytest.approx(0.118 * 0.005 * 1600)


def test_by_area_the_module_gives_the_joints() -> None:
    # 300 x 300 with 3 mm joints 8 mm deep: 0.15763 L/m2, on 6 m2
    with_yield = replace(G, yield_m3=0.003)
    line = only(GROUT, context(tile(), with_yield, specs=(spec(),)))
    assert line.each_si == pytest.approx(6 * 0.15763e-3, rel=5e-5)
    assert (line.unit, line.pack_by) == (LITRE, PackBy.YIELD)


def test_a_base_course_by_area_has_the_joints_between_its_tiles() -> None:
    # 9.09 m over 0.303 m is 30 tiles, each with one joint of 3 x 300 mm, 8 mm deep
    course = Surface("base 1", SurfaceKind.BASE, box(9090 * MM, 300 * MM))
    specs = (spec(SurfaceKind.BASE),)
    line = only(GROUT, context(tile(), G, specs=specs, in_room=room(course)))
    assert line.each_si == pytest.approx(30 * 0.003 * 0.3 * 0.008 * 1600)
    assert "30 joints 3 mm x 300 mm x depth 8 mm" in line.basis


def test_mosaic_is_grouted_by_chip() -> None:
    # 25 x 25 chips, 3 mm joints 6 mm deep: 1.21684 L/m2
    mosaic = tile(
        length_mm320=277 * MM, width_mm320=277 * MM, thickness_mm320=6 * MM,
        chip_length_mm320=25 * MM, chip_width_mm320=25 * MM,
    )  # fmt: skip
    line = only(GROUT, context(mosaic, replace(G, yield_m3=0.003), specs=(spec(),)))
    assert line.each_si == pytest.approx(6 * 1.21684e-3, rel=5e-5)
    assert "by chip" in line.basis


def test_tiles_laid_without_joints_take_no_grout() -> None:
    assert list(GROUT.work(context(tile(), G, specs=(spec(joint_mm320=0),)))) == []


def test_mortar_is_no_grout() -> None:
    ctx = context(tile(), bag("G", BagKind.MORTAR), specs=(spec(),))
    assert codes(GROUT, ctx) == ["ITEM-OF-ANOTHER-KIND"]
    assert quantities(GROUT, ctx) == []


def test_a_pail_of_premixed_grout_goes_by_its_volume() -> None:
    pail = bag("G", BagKind.PREMIXED_GROUT, pack_size=2.0, pack_unit=LITRE)
    ctx = context(tile(), pail, specs=(spec(),), outs=(setting_out(floor()),))
    assert only(GROUT, ctx).each_si == pytest.approx(0.118 * 0.008)
