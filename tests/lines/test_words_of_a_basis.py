"""Figures in a Basis."""

import pytest
from hand_made import IN, METRIC, MM, US

from sheetcalc.lines import words


def test_small_lengths_in_the_jobs_unit() -> None:
    assert words.small(0.00424264, METRIC) == "4.24 mm"
    assert words.small(0.00424264, US) == "0.167 in"
    assert words.small_mm320(12 * MM, METRIC) == "12 mm"
    assert words.small_mm320(3 * IN // 32, US) == "3/32 in"


def test_areas_volumes_and_masses_in_the_jobs_unit() -> None:
    assert words.area(6, METRIC) == "6 m²"
    assert words.area(0.09290304, US) == "1 ft²"
    assert words.volume(0.0272, METRIC) == "27.2 L"
    assert words.volume(0.003785411784, US) == "1 US gal"
    assert words.mass(0.45359237, US) == "1 lb"
    assert words.long(0.3048, US) == "1 ft"


def test_a_load_is_mass_on_an_area() -> None:
    # 1 lb/ft2 = 4.882427636 kg/m2
    assert words.load(4.882427636, US) == "1 lb/ft²"
    assert words.load(18.0, METRIC) == "18 kg/m²"


@pytest.mark.parametrize(
    ("value", "shown"), [(0.0, "0"), (-0.0001, "0"), (1.5, "1.5"), (2.0, "2"), (0.12345, "0.123")]
)
def test_numbers_are_shown_without_trailing_zeros(value: float, shown: str) -> None:
    assert words.number(value) == shown


def test_one_and_many() -> None:
    assert words.plural(1, "coat") == "1 coat"
    assert words.plural(2, "coat") == "2 coats"
