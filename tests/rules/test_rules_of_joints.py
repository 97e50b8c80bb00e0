import pytest

from sheetcalc.rules.grout import joint_area_share
from sheetcalc.rules.sealant import (
    bead_length_m,
    fillet_section_m2,
    movement_joints_across,
)

INCH = 0.0254
FT2 = 0.09290304
CARTRIDGE_US = 10.1 * 29.5735295625e-6
CARTRIDGE = 310e-6


# computed from the module: mm give L/m2, kg/m2 at 1.6 kg/L
@pytest.mark.parametrize(
    ("tile", "expected"),
    [
        ((300, 300, 3, 8), (0.15763, 0.16000, 1.0150, 0.2522)),
        ((600, 600, 3, 10), (0.09925, 0.10000, 1.0075, 0.1588)),
        ((300, 600, 3, 9), (0.13344, 0.13500, 1.0117, 0.2135)),
        ((200, 200, 2, 7), (0.13793, 0.14000, 1.0150, 0.2207)),
        ((100, 100, 2, 6), (0.23299, 0.24000, 1.0301, 0.3728)),
        ((25, 25, 3, 6), (1.21684, 1.44000, 1.1834, 1.9469)),
    ],
)
def test_grout_of_the_derived_table(
    tile: tuple[int, int, int, int], expected: tuple[float, float, float, float]
) -> None:
    exact, approx, ratio, kg = expected
    length, width, joint, depth = tile
    found = joint_area_share(length, width, joint) * depth
    handbook = joint * depth * (length + width) / (length * width)
    assert found == pytest.approx(exact, abs=5.1e-6)
    assert handbook == pytest.approx(approx, abs=5.1e-6)
    assert handbook / found == pytest.approx(ratio, abs=5.1e-5)
    assert found * 1.6 == pytest.approx(kg, abs=5.1e-5)


def test_grout_of_100_square_feet_of_12_inch_tile() -> None:
    # computed from the module, 3/8 in deep; 1 in3 is 16.387064 mL
    inches3 = 14_400 * joint_area_share(12, 12, 1 / 8) * 3 / 8
    litres = inches3 * 0.016387064
    assert inches3 == pytest.approx(110.766, abs=5.1e-4)
    assert litres == pytest.approx(1.8151, abs=5.1e-5)
    kg = litres * 1.6
    assert kg == pytest.approx(2.904, abs=5.1e-4)
    assert kg / 0.45359237 == pytest.approx(6.403, abs=5.1e-4)


def test_grout_of_100_square_feet_of_2_inch_mosaic() -> None:
    # computed from the module of a chip, 1/4 in deep
    inches3 = 14_400 * joint_area_share(2, 2, 1 / 8) / 4
    litres = inches3 * 0.016387064
    assert inches3 == pytest.approx(411.073, abs=5.1e-4)
    assert litres == pytest.approx(6.7363, abs=5.1e-5)
    assert litres * 1.6 / 0.45359237 == pytest.approx(23.76, abs=0.0051)


def test_joints_and_tile_make_up_the_module() -> None:
    share = joint_area_share(300, 600, 3)
    assert share + 300 * 600 / (303 * 603) == pytest.approx(1)


# a 10.1 US fl oz cartridge is 18.2273 in3
@pytest.mark.parametrize(("depth", "feet"), [(1 / 4, 24.30), (1 / 8, 48.61)])
def test_bead_of_a_us_cartridge(depth: float, feet: float) -> None:
    assert pytest.approx(18.2273, abs=5.1e-5) == CARTRIDGE_US / INCH**3
    length = bead_length_m(CARTRIDGE_US, INCH / 4 * depth * INCH)
    assert length / 0.3048 == pytest.approx(feet, abs=0.0051)


def test_bead_of_a_310_ml_cartridge() -> None:
    # by hand: 310 mL over the section
    assert bead_length_m(CARTRIDGE, 0.006 * 0.006) == pytest.approx(8.61, abs=0.0051)
    assert bead_length_m(CARTRIDGE, 0.006 * 0.003) == pytest.approx(17.22, abs=0.0051)
    assert bead_length_m(CARTRIDGE, fillet_section_m2(0.006)) == pytest.approx(17.22, abs=0.0051)


@pytest.mark.parametrize(
    ("size", "joints"), [(1, 0), (9_999, 0), (10_000, 0), (10_001, 1), (20_000, 1), (20_001, 2)]
)
def test_movement_joints_keep_every_part_within_the_spacing(size: int, joints: int) -> None:
    assert movement_joints_across(size, 10_000) == joints


def test_a_spacing_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="spacing"):
        movement_joints_across(1000, 0)
