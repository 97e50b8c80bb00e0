"""Rules of tile against the figures that trade publications quote."""

from fractions import Fraction

import pytest

from sheetcalc.domain.measure import MM320_PER_INCH as INCH
from sheetcalc.rules.tile import (
    is_large_format,
    lippage_allowed_mm320,
    minimum_joint_mm320,
    movement_spacing_mm320,
    offset_is_too_large,
    rock_over_hip_mm,
)

MM = 320


def inches(value: float) -> int:
    return round(value * INCH)


def test_joint_is_three_times_the_spread() -> None:
    # ANSI A108.02-2017 4.3.8 as quoted in tileletter.com: 1/16 in asks for 3/16 in
    limit = minimum_joint_mm320(
        inches(12), inches(12), "rectified", inches(1 / 16), None, running_bond=False
    )
    assert limit.joint_mm320 == inches(3 / 16)


def test_joint_is_never_under_a_sixteenth() -> None:
    limit = minimum_joint_mm320(inches(6), inches(6), "rectified", 0, None, running_bond=True)
    assert limit.joint_mm320 == inches(1 / 16)


@pytest.mark.parametrize(("edge", "least"), [("rectified", 1 / 8), ("calibrated", 3 / 16)])
def test_running_bond_of_long_tile(edge: str, least: float) -> None:
    # ANSI A108.02-4.3.8 as quoted in fcimag 96103
    long = minimum_joint_mm320(inches(24), inches(12), edge, None, None, running_bond=True)
    assert long.joint_mm320 == inches(least)
    assert f"{edge} edges" in long.source
    at_limit = minimum_joint_mm320(inches(15), inches(12), edge, None, None, running_bond=True)
    assert at_limit.joint_mm320 == inches(1 / 16)


def test_edge_warpage_is_added() -> None:
    # ANSI A108.02-4.3.8.1 as quoted in ctasc.com: 1/8 + 1/32 = 5/32 in
    limit = minimum_joint_mm320(
        inches(24), inches(12), "rectified", None, inches(1 / 32), running_bond=True
    )
    assert limit.joint_mm320 == inches(5 / 32)


def test_worked_example_of_joint_and_offset() -> None:
    # trade figures worked: 12 x 24 in calibrated, spread 0.8 mm: 2.4 mm; 3/16 in = 4.7625 governs;
    # warpage of 1 mm gives 5.7625 mm; half bond flags, 24 > 15
    limit = minimum_joint_mm320(
        inches(24), inches(12), "calibrated", 256, 1 * MM, running_bond=True
    )
    assert limit.joint_mm320 == round(5.7625 * MM)
    assert offset_is_too_large(Fraction(1, 2), inches(24))


def test_a_third_does_not_flag_itself_against_33_percent() -> None:
    # ANSI A108.02-4.3.8.2 as quoted in fcimag 96103
    assert not offset_is_too_large(Fraction(1, 3), inches(24))
    assert not offset_is_too_large(Fraction(1, 2), inches(15))
    assert offset_is_too_large(Fraction(1, 2), inches(15) + 1)


def test_lippage_by_joint_width() -> None:
    # ANSI A108.02-2013 4.3.7 as quoted in tileletter.com Feb 2016
    assert lippage_allowed_mm320(inches(1 / 4) - 1) == inches(1 / 32)
    assert lippage_allowed_mm320(inches(1 / 4)) == inches(1 / 16)


def test_large_format_is_over_23_inches() -> None:
    # as quoted in floortrendsmag Dec 2024
    assert not is_large_format(inches(23), inches(12))
    assert is_large_format(inches(23) + 1, inches(12))


def test_movement_joints_by_exposure() -> None:
    # TCNA EJ171 as quoted in TileLetter Aug 2018: 25 ft inside, 12 ft exposed
    wide = inches(30 * 12)
    assert movement_spacing_mm320("interior", wide) == inches(25 * 12)
    assert movement_spacing_mm320("exterior", wide) == inches(12 * 12)
    assert movement_spacing_mm320("interior", inches(20 * 12)) == inches(20 * 12)


def test_a_mosaic_follows_a_four_way_fall_and_a_large_tile_does_not() -> None:
    # derived: 2 % x 50 mm / 4 = 0.25 mm; 2 % x 300 mm / 4 = 1.5 mm, lippage 1/32 in = 0.79 mm
    assert rock_over_hip_mm(50 * MM, 0.02) == pytest.approx(0.25)
    assert rock_over_hip_mm(300 * MM, 0.02) == pytest.approx(1.5)
