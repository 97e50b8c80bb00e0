"""Ohm's law, bands, circuits: the tables and examples that anyone can redo."""

import pytest

from sheetcalc.rules import electrical

US_SIZES = (15, 20, 30)
"""NEC 240.4(D), as quoted in EC&M's code quiz 57 (30 A from memory)."""

# V, P, R, I, R -5 %, R +10 %, R -10 %: arithmetic from R = V²/P and I = P/V
RATED = [
    (120, 180, 80.000, 1.500, 76.00, 88.00, 72.00),
    (120, 240, 60.000, 2.000, 57.00, 66.00, 54.00),
    (240, 500, 115.200, 2.0833, 109.44, 126.72, 103.68),
    (240, 1000, 57.600, 4.1667, 54.72, 63.36, 51.84),
    (230, 600, 88.1667, 2.6087, 83.7583, 96.9833, 79.35),
    (230, 1150, 46.000, 5.0000, 43.70, 50.60, 41.40),
]


@pytest.mark.parametrize("row", RATED, ids=lambda r: f"{r[1]} W at {r[0]} V")
def test_a_rating_gives_resistance_current_and_band(row: tuple[float, ...]) -> None:
    volts, watts, ohms, amperes, low, high, tenth_below = row
    assert electrical.resistance_ohm(volts, watts) == pytest.approx(ohms, abs=5e-5)
    assert electrical.amperes(watts, volts) == pytest.approx(amperes, abs=5e-5)
    exact = electrical.resistance_ohm(volts, watts)
    assert electrical.resistance_band_ohm(exact) == pytest.approx((low, high), abs=5e-5)
    assert electrical.resistance_band_ohm(exact, 0.10)[0] == pytest.approx(tenth_below, abs=5e-5)


def test_a_cable_for_half_or_double_the_voltage_is_not_for_this_supply() -> None:
    assert not electrical.same_voltage(240, 120)
    assert not electrical.same_voltage(120, 240)
    assert electrical.same_voltage(230, 230)


@pytest.mark.parametrize(
    ("watts", "size"), [(1439, 15), (1440, 15), (1441, 20), (1500, 20), (1920, 20), (1921, 30)]
)
def test_a_circuit_is_the_smallest_that_carries_the_continuous_load(
    watts: float, size: float
) -> None:
    load = electrical.amperes(watts, 120)
    assert electrical.circuit_amperes(load, US_SIZES) == size


def test_a_load_above_the_largest_circuit_has_none() -> None:
    assert electrical.circuit_amperes(24.001, US_SIZES) is None


def test_forty_amperes_and_a_blower_ask_for_sixty() -> None:
    # Mike Holt's newsletter, October 2019: 9600 W / 240 V = 40 A, + 3 A; 43 · 1.25 = 53.75 A: 60 A
    load = electrical.amperes(9600, 240) + 3
    assert electrical.continuous_amperes(load) == 53.75
    assert electrical.circuit_amperes(load, (40, 45, 50, 60)) == 60


def test_twelve_amperes_ask_for_fifteen() -> None:
    # EC&M code quiz 57 (only this step of it; its 19.5 A does not follow from 15/0.82)
    assert electrical.continuous_amperes(12) == 15.0
    assert electrical.circuit_amperes(12, US_SIZES) == 15


@pytest.mark.parametrize(
    ("rating", "volts", "watts"), [(16, 230, 3680), (15, 120, 1800), (15, 240, 3600)]
)
def test_a_thermostat_at_its_rating_is_full(rating: float, volts: float, watts: float) -> None:
    assert electrical.thermostat_share(electrical.amperes(watts, volts), rating) == 1.0


def test_a_reading_is_corrected_only_by_a_coefficient_that_is_given() -> None:
    # copper at 0.00393 /K, 10 K warmer: 100 · 1.0393 by hand
    assert electrical.corrected_ohm(100, 30, 0.00393) == pytest.approx(103.93)
    assert electrical.corrected_ohm(100, 30, None) == 100
    assert electrical.corrected_ohm(100, 20, 0.00393) == 100


def test_rooms_share_circuits_in_order_as_far_as_they_carry() -> None:
    # 16 A carries 12.8 A continuous: 5 + 5 fit, a third 5 does not, a later 2.8 just does
    assert electrical.group_loads([5, 5, 5, 2.8], (10, 16)) == (0, 0, 1, 0)
    assert electrical.group_loads([20, 1], (16,)) == (0, 1)


def test_every_rule_says_where_it_was_read_or_that_it_has_no_source() -> None:
    known = ("read second-hand", "read here", "from memory, not verified",
             "common practice, no source")  # fmt: skip
    for rule in electrical.ELECTRICAL_RULES:
        assert rule.status.startswith(known)
        assert ("as quoted" in rule.source) == (rule.status == "read second-hand"), rule.key
