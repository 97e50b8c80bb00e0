"""Heat given, warm-up and running cost against published and hand-worked values."""

import pytest

from sheetcalc.rules import heat_output


@pytest.mark.parametrize(
    ("rise", "heat"),
    [(3, 29.87), (5, 52.39), (7, 75.85), (9, 100.01), (10, 112.30), (12, 137.23), (15, 175.41)],
)
def test_the_surface_is_as_warm_as_en_1264_asks_for_its_heat(rise: float, heat: float) -> None:
    # q = 8.92·dT^1.1 (EN 1264-2/-3, as coded in three open-source programs); values by arithmetic
    assert heat_output.surface_above_room_k(heat) == pytest.approx(rise, abs=1e-3)


@pytest.mark.parametrize(("rise", "limit"), [(9, 100), (15, 175)])
def test_the_constants_reproduce_the_round_limits_of_100_and_175_watts(
    rise: float, limit: float
) -> None:
    assert heat_output.surface_above_room_k(limit) == pytest.approx(rise, abs=0.04)


@pytest.mark.parametrize(("heat", "rise"), [(75, 6.928), (100, 8.999), (150, 13.011)])
def test_the_formula_turns_round(heat: float, rise: float) -> None:
    assert heat_output.surface_above_room_k(heat) == pytest.approx(rise, abs=5e-4)


def test_five_square_metres_warm_up_in_forty_minutes_at_the_soonest() -> None:
    # 5 m² · 20 mm · 2000 kg/m³ · 900 J/kgK · 10 K = 1.8 MJ = 0.5 kWh; at 750 W 40 min
    assert heat_output.warm_up_minutes(5, 0.020, 750, 10) == pytest.approx(40.0)


def test_a_day_at_four_tenths_of_the_time() -> None:
    assert heat_output.energy_kwh_a_day(338.3, 24, 0.4) == pytest.approx(3.248, abs=5e-4)
