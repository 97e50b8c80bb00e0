from fractions import Fraction

import pytest
from geometry.tiling_cases import MM, spec
from msgspec.structs import replace

from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, JobUnits
from sheetcalc.rules.counting import joint_of, module_area, tiles_for_area

# computed: tiles for 100 ft2, joint 0, 1/16, 1/8, 3/16, 1/4 in (module: master specification
# Section 09 30 00)
TABLE = {
    (2, 2): (3600.000, 3385.124, 3188.927, 3009.306, 2844.444),
    (3, 6): (800.000, 775.594, 752.327, 730.125, 708.923),
    (4.25, 4.25): (797.232, 774.291, 752.327, 731.283, 711.111),
    (6, 6): (400.000, 391.795, 383.840, 376.125, 368.640),
    (12, 12): (100.000, 98.966, 97.949, 96.947, 95.960),
    (12, 24): (50.000, 49.612, 49.228, 48.849, 48.475),
    (18, 18): (44.444, 44.137, 43.834, 43.533, 43.235),
    (24, 24): (25.000, 24.870, 24.742, 24.614, 24.487),
}


@pytest.mark.parametrize(("size", "counts"), TABLE.items())
def test_tiles_for_100_square_feet(size: tuple[float, float], counts: tuple[float, ...]) -> None:
    found = [tiles_for_area(14_400, *size, sixteenths / 16) for sixteenths in range(5)]
    assert found == pytest.approx(counts, abs=5.1e-4)


@pytest.mark.parametrize(
    ("length", "width", "joint", "count"),
    [
        (300, 300, 3, 10.8922),
        (300, 600, 3, 5.4732),
        (600, 600, 3, 2.7502),
        (200, 200, 2, 24.5074),
        (100, 200, 2, 48.5343),
        (300, 300, 0, 11.1111),
    ],
)
def test_tiles_for_a_square_metre(length: float, width: float, joint: float, count: float) -> None:
    # computed by the same module
    assert tiles_for_area(1e6, length, width, joint) == pytest.approx(count, abs=5.1e-5)


def test_two_sizes_whose_modules_coincide() -> None:
    # 3 x 6 and 4-1/4 square with 1/8 in joints are both 19.140625 in2
    assert module_area(3, 6, 0.125) == module_area(4.25, 4.25, 0.125) == 19.140625


def test_nothing_is_rounded_on_the_way() -> None:
    # fcimag 85818: 107 ft2 in repeats of 4 x 12 in; it rounded 48/144, exact are 321
    square_feet = Fraction(107)
    assert tiles_for_area(float(square_feet), 4 / 12, 1, 0) == pytest.approx(321, abs=1e-9)


def test_the_joint_where_none_is_given() -> None:
    given = spec(joint=2 * MM)
    none = replace(given, joint_mm320=None)
    inches = Job(units=JobUnits(small_length=INCH))
    assert joint_of(given, Job()) == joint_of(given, inches) == 640
    assert joint_of(none, Job()) == 960
    assert joint_of(none, inches) == 1016
