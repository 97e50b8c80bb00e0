"""Cables by area and spacing, hand-worked."""

import pytest
from heated_rooms import cable, stock

from sheetcalc.domain.job import Job
from sheetcalc.geometry.heating.cable_choice import (
    by_density,
    cables_of_range,
    density_words,
    length_m,
    spacing_for_m,
    watts_per_m,
)
from sheetcalc.geometry.heating.cable_zone import choices

FOOT = 0.3048
INCH = 0.0254
AREA = 40 * FOOT**2


@pytest.mark.parametrize(
    ("feet", "inches"), [(160.0, 3), (480 / 3.5, 3.5), (120.0, 4), (130, 3.692)]
)
def test_spacing_is_area_by_length(feet: float, inches: float) -> None:
    # 40 ft² are 480 ft·in: of stocked lengths 130 ft is the longest within 480 / 3.5
    assert spacing_for_m(AREA, feet * FOOT) / INCH == pytest.approx(inches, abs=5e-4)


@pytest.mark.parametrize(
    ("spacing_mm", "metres", "watts"),
    [(60, 16.667, 200.0), (75, 13.333, 160.0), (90, 11.111, 133.3)],
)
def test_knobs_of_thirty_millimetres(spacing_mm: float, metres: float, watts: float) -> None:
    # 2 knobs, alternately 2 and 3, 3 knobs; 12 W/m
    laid = cable("A", metres, watts)
    assert spacing_for_m(1.0, length_m(laid)) * 1000 == pytest.approx(spacing_mm, abs=0.01)
    assert watts_per_m(laid) == pytest.approx(12, abs=0.01)
    assert bool(by_density(1.0, [laid], Job())) == (spacing_mm > 60)  # 161 W/m² at most


def test_a_cable_above_the_highest_density_is_not_offered() -> None:
    cables = [cable("A", 10, 120), cable("B", 14, 162)]
    assert [c.code for c in by_density(1.0, cables, Job())] == ["A"]
    assert [c.code for c in by_density(1.01, cables, Job())] == ["A", "B"]


def test_a_range_is_found_whatever_its_case_and_sorted_by_length() -> None:
    cables = [cable("B", 20, 240), cable("A", 10, 120)]
    assert [c.code for c in cables_of_range(cables, " WARM ")] == ["A", "B"]
    assert cables_of_range(cables, "cold") == ()


def test_two_cables_in_parallel_where_one_is_too_little() -> None:
    # 4 m² at 130 W/m² is 520 W: 240 W alone is below 60 % of it, two are 480 W
    offered = choices(4.0, [cable("A", 20, 240)], Job())
    assert [c.code for c in offered[0]] == ["A", "A"]


def test_no_choice_passes_the_highest_density_nor_falls_far_below_the_target() -> None:
    for area in (0.5, 1.0, 2.5, 6.0, 12.0):
        offered = list(choices(area, stock(), Job()))
        assert offered
        for chosen in offered:
            watts = sum(c.watts for c in chosen)
            assert 0.6 * 130 * area <= watts <= 161 * area * (1 + 1e-9)


def test_two_choices_as_near_to_the_target_as_each_other_come_by_code() -> None:
    # 220 W and 260 W are each 20 W from the 240 W aimed at; so are two codes of one cable
    job = Job(target_density_w_m2=120)
    cables = [cable("D", 26, 260), cable("B", 22, 220), cable("A", 22, 220)]
    singles = [chosen[0].code for chosen in choices(2.0, cables, job) if len(chosen) == 1]
    assert singles == ["A", "B", "D"]


def test_a_power_density_is_never_told_with_an_exponent() -> None:
    assert density_words(1083.4, Job()) == "1083 W/m²"
    assert density_words(160.6, Job()) == "161 W/m²"
    assert density_words(9.876, Job()) == "9.88 W/m²"
