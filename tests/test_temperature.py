"""Temperatures on both scales: typed in the Job, shown, and as differences.

Fixed points are those of both scales by definition: water freezes at 0 °C and 32 °F and boils at
100 °C and 212 °F; they meet at 40 below.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workbook.raw_books import Values, book, us_units

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.measure import FOOT, INCH, JobUnits
from sheetcalc.domain.temperature import CELSIUS, FAHRENHEIT
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.settings import SETTING_BY_KEY

LABEL = "Temperature at readings"


def typed(value: object, unit: str = "", *, us: bool = False) -> tuple[float, list[Finding]]:
    """Temperature of the Job [°C], and what was found about it."""
    row: Values = {"Setting": LABEL, "Value": value, **({"Unit": unit} if unit else {})}  # type: ignore[dict-item]
    inputs, found = to_inputs(book(Job=[*(us_units() if us else ()), row]))
    about = [f for f in found if f.source.tab == "Job" and f.code != "SETTINGS-NOT-THERE"]
    return inputs.job.reading_temperature_c, about


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, 32), (100, 212), (-40, -40), (20, 68)])
def test_both_scales_meet_at_their_fixed_points(celsius: float, fahrenheit: float) -> None:
    assert FAHRENHEIT.of_c(celsius) == fahrenheit
    assert FAHRENHEIT.to_c(fahrenheit) == celsius
    assert CELSIUS.of_c(celsius) == CELSIUS.to_c(celsius) == celsius


@given(st.floats(-200, 200), st.floats(-200, 200))
def test_a_difference_has_no_zero(one: float, other: float) -> None:
    apart = FAHRENHEIT.of_c(one) - FAHRENHEIT.of_c(other)
    assert FAHRENHEIT.of_k(one - other) == pytest.approx(apart, abs=1e-9)
    assert FAHRENHEIT.to_c(FAHRENHEIT.of_c(one)) == pytest.approx(one, abs=1e-9)


def test_a_rise_of_ten_kelvin_is_eighteen_degrees_fahrenheit() -> None:
    assert FAHRENHEIT.rise_shown(10, 0) == "18 °F"
    assert CELSIUS.rise_shown(10, 0) == "10 K"


def test_a_rules_figure_stands_as_the_rule_has_it_with_the_other_scale_beside() -> None:
    # 33 · 9/5 + 32 = 91.4
    assert FAHRENHEIT.quoted(33) == "33 °C (91.4 °F)"
    assert CELSIUS.quoted(33) == "33 °C"


@pytest.mark.parametrize("room", [FOOT, INCH])
def test_rooms_in_feet_or_inches_are_read_in_fahrenheit(room: object) -> None:
    assert JobUnits(room_length=room).temperature == FAHRENHEIT  # type: ignore[arg-type]
    assert JobUnits(small_length=INCH).temperature == CELSIUS


@pytest.mark.parametrize("us", [False, True])
def test_the_unit_beside_a_temperature_wins_in_every_job(us: bool) -> None:  # noqa: FBT001
    assert typed(77, "°F", us=us) == (25, [])
    assert typed(25, "°C", us=us) == (25, [])


def test_without_a_unit_a_temperature_is_on_the_jobs_own_scale() -> None:
    assert typed(77, us=True) == (25, [])
    assert typed(25) == (25, [])


def test_a_us_workbook_of_before_keeps_its_celsius() -> None:
    """Its Unit cell says °C, as all workbooks had it."""
    assert typed(20, "°C", us=True) == (20, [])


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_default_is_the_same_temperature_in_both_systems(system: str) -> None:
    default = SETTING_BY_KEY["reading_temperature_c"].default(system)
    assert typed(default, us=system == "us") == (20, [])
    assert typed(None, us=system == "us")[0] == 20


@pytest.mark.parametrize(
    ("value", "unit", "us", "codes"),
    [
        (20, "°F", True, ["TEMPERATURE-UNUSUAL"]),
        (20, "", True, ["TEMPERATURE-UNUSUAL"]),
        (68, "°C", True, ["NUMBER-OUT-OF-RANGE"]),
        (68, "", False, ["NUMBER-OUT-OF-RANGE"]),
        (45, "°C", False, ["TEMPERATURE-UNUSUAL"]),
        (-5, "°F", True, ["NUMBER-OUT-OF-RANGE"]),
        (122, "°F", True, ["TEMPERATURE-UNUSUAL"]),  # 50 °C, the bound itself
        (122.1, "°F", True, ["NUMBER-OUT-OF-RANGE"]),
        ("68 °F", "°F", True, ["NUMBER-AS-TEXT"]),
        (68, "K", True, ["UNIT-UNKNOWN"]),
    ],
)
def test_a_number_that_belongs_to_the_other_scale_is_told(
    value: object,
    unit: str,
    us: bool,  # noqa: FBT001
    codes: list[str],
) -> None:
    assert [f.code for f in typed(value, unit, us=us)[1]] == codes


@given(st.integers(5, 40), st.booleans())
def test_no_usual_number_is_usual_beside_the_wrong_unit(degrees_c: int, us: bool) -> None:  # noqa: FBT001
    """5 to 40 °C are 41 to 104 °F: no number lies in both."""
    assert typed(degrees_c, "°F", us=us)[1]
    assert typed(FAHRENHEIT.of_c(degrees_c), "°C", us=us)[1]
    assert typed(FAHRENHEIT.of_c(degrees_c), "°F", us=us)[1] == []


def test_what_is_asked_names_both_scales() -> None:
    (asked,) = typed(20, "°F", us=True)[1]
    told = {key: asked.facts[key] for key in ("number", "unit", "other", "low", "high")}
    # 5 · 1.8 + 32 = 41, 40 · 1.8 + 32 = 104
    assert told == {
        "number": "20", "unit": "°F", "other": "°C", "low": "41 °F", "high": "104 °F",
    }  # fmt: skip


def test_a_degree_sign_in_the_cell_is_sent_to_the_unit_beside_it() -> None:
    (refused,) = typed("68 °F", "°C")[1]
    assert refused.facts["hint"] == "type the number alone, and °C or °F beside it in Unit"
