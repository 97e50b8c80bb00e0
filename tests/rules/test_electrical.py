"""Ohm's law, bands, circuits: the tables and examples that anyone can redo."""

import pytest

from sheetcalc.rules import electrical

# V, P, R, I, R -5 %, R +10 %, P at those, R -10 %: arithmetic from R = V²/P and I = P/V
RATED = [
    (120, 180, 80.000, 1.500, 76.00, 88.00, 189.47, 163.64, 72.00),
    (120, 240, 60.000, 2.000, 57.00, 66.00, 252.63, 218.18, 54.00),
    (240, 500, 115.200, 2.0833, 109.44, 126.72, 526.32, 454.55, 103.68),
    (240, 1000, 57.600, 4.1667, 54.72, 63.36, 1052.63, 909.09, 51.84),
    (230, 600, 88.1667, 2.6087, 83.7583, 96.9833, 631.58, 545.45, 79.35),
    (230, 1150, 46.000, 5.0000, 43.70, 50.60, 1210.53, 1045.45, 41.40),
]


@pytest.mark.parametrize("row", RATED, ids=lambda r: f"{r[1]} W at {r[0]} V")
def test_a_rating_gives_resistance_current_and_band(row: tuple[float, ...]) -> None:
    volts, watts, ohms, amperes, low, high, most, least, tenth_below = row
    assert electrical.resistance_ohm(volts, watts) == pytest.approx(ohms, abs=5e-5)
    assert electrical.amperes(watts, volts) == pytest.approx(amperes, abs=5e-5)
    exact = electrical.resistance_ohm(volts, watts)
    assert electrical.resistance_band_ohm(exact) == pytest.approx((low, high), abs=5e-5)
    assert electrical.watts_at(volts, exact * 0.95) == pytest.approx(most, abs=5e-3)
    assert electrical.watts_at(volts, exact * 1.10) == pytest.approx(least, abs=5e-3)
    assert electrical.resistance_band_ohm(exact, 0.10)[0] == pytest.approx(tenth_below, abs=5e-5)


def test_resistance_five_percent_down_is_power_five_and_a_quarter_percent_up() -> None:
    # 1/0.95 and 1/1.10, worked by hand
    assert electrical.watts_at(100, 0.95) / electrical.watts_at(100, 1) == pytest.approx(1.052632)
    assert electrical.watts_at(100, 1.10) / electrical.watts_at(100, 1) == pytest.approx(0.909091)


def test_a_cable_on_half_its_voltage_gives_a_quarter_and_on_double_four_times() -> None:
    assert electrical.watts_at(120, electrical.resistance_ohm(240, 500)) == 125
    assert electrical.watts_at(240, electrical.resistance_ohm(120, 240)) == 960
    assert not electrical.same_voltage(240, 120)
    assert not electrical.same_voltage(120, 240)
    assert electrical.same_voltage(230, 230)


@pytest.mark.parametrize(
    ("size", "volts", "watts"),
    [
        (15, 120, 1440), (15, 240, 2880), (20, 120, 1920), (20, 240, 3840), (30, 120, 2880),
        (30, 240, 5760),
    ],
)  # fmt: skip
def test_a_circuit_carries_four_fifths_of_its_size(size: float, volts: float, watts: float) -> None:
    assert electrical.largest_load_watts(size, volts) == pytest.approx(watts, rel=1e-12)


@pytest.mark.parametrize(
    ("watts", "size"), [(1439, 15), (1440, 15), (1441, 20), (1500, 20), (1920, 20), (1921, 30)]
)
def test_a_circuit_is_the_smallest_that_carries_the_continuous_load(
    watts: float, size: float
) -> None:
    load = electrical.amperes(watts, 120)
    assert electrical.circuit_amperes(load, electrical.US_CIRCUIT_AMPERES) == size


def test_a_load_above_the_largest_circuit_has_none() -> None:
    assert electrical.circuit_amperes(24.001, electrical.US_CIRCUIT_AMPERES) is None


def test_forty_amperes_and_a_blower_ask_for_sixty() -> None:
    # Mike Holt's newsletter, October 2019: 9600 W / 240 V = 40 A, + 3 A; 43 · 1.25 = 53.75 A: 60 A
    load = electrical.amperes(9600, 240) + 3
    assert electrical.continuous_amperes(load) == 53.75
    assert electrical.circuit_amperes(load, (40, 45, 50, 60)) == 60


def test_twelve_amperes_ask_for_fifteen() -> None:
    # EC&M code quiz 57 (only this step of it; its 19.5 A does not follow from 15/0.82)
    assert electrical.continuous_amperes(12) == 15.0
    assert electrical.circuit_amperes(12, electrical.US_CIRCUIT_AMPERES) == 15


def test_small_conductors_carry_fifteen_twenty_and_thirty_amperes() -> None:
    # NEC 240.4(D), as quoted in EC&M's code quiz 57 (30 A from memory)
    assert electrical.US_CIRCUIT_AMPERES == (15, 20, 30)


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
