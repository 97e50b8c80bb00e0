"""Verdicts on readings; the band of an 80 ohm cable is 76 to 88 ohm (5 % below, 10 % above)."""

import pytest
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.inputs import Reading
from sheetcalc.rules.insulation import insulation_test
from sheetcalc.rules.resistance_log import drifts, expected_band_ohm, reading_findings

PLAN = CablePlan(
    room="101", copies=("101", "102"), phase="", zone="main floor", surface="floor", cable="C180",
    watts=180, volts=120, length_m=15, spacing_m=0.09, rows=10, planned_m=15, free_area_m2=1.4,
    density_w_m2=128, amperes=1.5, resistance_ohm=80, resistance_low_ohm=76,
    resistance_high_ohm=88, circuit="H1", circuit_amperes=15, thermostat="T",
    basis="",
)  # fmt: skip


def reading(
    ohms: float | None, stage: str = "as delivered", *, room: str = "101", mohm: float | None = None
) -> Reading:
    return Reading(
        room, "main floor", "C180", stage, ohms, mohm, "", None, "" if ohms is not None else "ok",
        RowRef("Resistance log", 5),
    )  # fmt: skip


def codes(*rows: Reading, plan: CablePlan = PLAN, at: float = 20.0) -> list[str]:
    return [f.code for f in reading_findings([plan], rows, at)]


@pytest.mark.parametrize("ohms", [76.0, 80.0, 88.0])
def test_a_reading_on_or_within_the_band_is_no_finding(ohms: float) -> None:
    assert codes(reading(ohms)) == []


@pytest.mark.parametrize("ohms", [75.9, 88.1, 0.0])
def test_a_reading_outside_the_band_is_a_finding(ohms: float) -> None:
    assert codes(reading(ohms)) == ["RESISTANCE-OUT-OF-BAND"]


def test_the_band_moves_with_temperature_only_where_the_alloy_is_known() -> None:
    copper = replace(PLAN, temperature_coefficient_per_k=0.00393)
    # 88 · (1 + 0.00393 · 10) = 91.4584
    assert expected_band_ohm(copper, 30)[1] == pytest.approx(91.4584)
    assert expected_band_ohm(PLAN, 30) == (76, 88)
    assert codes(reading(90), plan=copper, at=30) == []
    assert codes(reading(90), at=30) == ["RESISTANCE-OUT-OF-BAND"]


def test_a_change_between_two_stages_is_a_finding_though_both_are_in_band() -> None:
    assert codes(reading(77), reading(82, "after laying")) == ["RESISTANCE-DRIFTS"]
    assert codes(reading(80), reading(84, "after laying")) == []
    assert not drifts(80, 84)
    assert drifts(80, 84.1)


def test_a_skipped_stage_is_bridged() -> None:
    assert codes(reading(77), reading(85, "after covering")) == ["RESISTANCE-DRIFTS"]


def test_small_changes_that_add_up_are_a_finding() -> None:
    """77 to 80 is 3.9 %, 80 to 83 is 3.75 %, but 77 to 83 is 7.8 %."""
    found = reading_findings(
        [PLAN], [reading(77), reading(80, "after laying"), reading(83, "after covering")]
    )
    (drift,) = found
    assert drift.code == "RESISTANCE-DRIFTS"
    assert (drift.facts["before"], drift.facts["stage_before"]) == (77, "as delivered")


@pytest.mark.parametrize("shown", ["OL", "o.l.", " open", "\N{INFINITY}"])
def test_a_meter_beyond_its_range_shows_an_open_cable_but_sound_insulation(shown: str) -> None:
    typed = replace(reading(None), reading_text=shown)
    (found,) = reading_findings([PLAN], [typed])
    assert found.code == "RESISTANCE-OUT-OF-BAND"
    assert found.facts["reading"] == "\N{INFINITY}"
    assert codes(replace(reading(80), insulation_text=shown)) == []


def test_readings_of_different_copies_are_not_compared() -> None:
    assert codes(reading(77), reading(85, "after laying", room="102")) == []


def test_insulation_below_one_megohm_is_a_finding() -> None:
    # BS 7671 Table 64, as quoted in Electrical Wholesaler, May 2023
    assert codes(reading(80, mohm=0.99)) == ["INSULATION-TOO-LOW"]
    assert codes(reading(80, mohm=1.0)) == []


def test_insulation_of_an_extra_low_voltage_cable_is_held_against_half_a_megohm() -> None:
    # SELV and PELV: 0.5 megohm at 250 V d.c., NICEIC Connections, spring 2018, Table 1
    low = replace(PLAN, volts=24.0)
    assert reading_findings([low], [reading(80, mohm=0.5)]) == ()
    (found,) = reading_findings([low], [reading(80, mohm=0.49)])
    assert found.code == "INSULATION-TOO-LOW"
    assert (found.facts["limit"], found.facts["volts"]) == (0.5, 250)
    (found,) = reading_findings([PLAN], [reading(80, mohm=0.5)])
    assert (found.facts["limit"], found.facts["volts"]) == (1, 500)


@pytest.mark.parametrize(
    ("volts", "test_volts"), [(12, 250), (49, 250), (50, 250), (51, 500), (120, 500), (400, 500)]
)
def test_the_test_voltage_is_that_of_the_cables_voltage(volts: float, test_volts: float) -> None:
    assert insulation_test(volts).volts == test_volts


def test_text_for_a_reading_is_a_finding() -> None:
    assert codes(reading(None)) == ["READING-NOT-A-NUMBER"]


def test_a_reading_of_a_cable_that_is_no_longer_planned_is_kept_and_said() -> None:
    assert codes(reading(80, room="999")) == ["READING-WITHOUT-CABLE"]


def test_an_empty_row_is_nothing() -> None:
    assert codes(replace(reading(80), reading_ohm=None, reading_text="")) == []
