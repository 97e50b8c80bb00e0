"""The Cable schedule, the Resistance log and the rules: values, live formulas, what is kept."""

from datetime import date
from pathlib import Path

import pytest
import recalc
from msgspec.structs import replace
from result_books import FIRST, Inputted, inputs, raw_book, result_sheets, run_of, status_of, write
from result_books import catalogue as goods

from sheetcalc.domain.cable import CablePlan, OnCircuit
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.inputs import Reading
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import FOOT, JobUnits
from sheetcalc.rules.electrical import ELECTRICAL_RULES
from sheetcalc.rules.heat_output import ESTIMATES
from sheetcalc.workbook.sheet import Cell, SheetModel
from sheetcalc.workflows import explain

ROOMS = {"Rooms": Inputted({"Room": "Room", "Length": "Length (m)"}, [["1", 2.4]])}
SETTINGS = {
    "Resistance tolerance below": 0.05,
    "Resistance tolerance above": 0.1,
    "Temperature at readings": 30,
    "Heating hours a day": 12,
    "Share of these hours drawing current": 0.5,
    "Price of energy": 0.25,
}
BOOK = ROOMS | {
    "Job": Inputted({"Setting": "Setting", "Value": "Value"}, [list(x) for x in SETTINGS.items()])
}
JOB = Job(
    thermostat_amperes=16.0, reading_temperature_c=30.0, heating_hours=12.0, heating_duty=0.5,
    energy_price=0.25,
)  # fmt: skip

# by hand: 120 V, 240 W: 60 ohm, band 57.00 to 66.00, 2 A
CABLE = CablePlan(
    room="1", copies=("101", "102"), phase="", zone="main floor", surface="floor", cable="C1",
    watts=240.0, volts=120.0, length_m=20.0, spacing_m=0.09, rows=10, planned_m=19.98,
    free_area_m2=1.8, density_w_m2=133.0, amperes=2.0, resistance_ohm=60.0,
    resistance_low_ohm=57.0, resistance_high_ohm=66.0, circuit="H1 to H2", circuit_amperes=15.0,
    thermostat="T", basis="", kwh_a_day=1.44, warm_up_minutes=39.6,
    lead_m=3.0, lead_needed_m=2.5,
    circuits=(OnCircuit("H1", 2.0, 15.0), OnCircuit("H2", 2.0, 15.0)),
)  # fmt: skip


def reading(room: str, stage: str, ohm: float | None, text: str = "", **more: object) -> Reading:
    made = Reading(
        room, "main floor", "C1", stage, ohm, 500.0, "ann", date(2027, 5, 1), text,
        RowRef("Resistance log", FIRST),
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]


def tab(made: tuple[SheetModel, ...], key: str) -> list[dict[str, Cell]]:
    table = next(s for s in made if s.key == key).tables[0]
    headers = [column.header for column in table.columns]
    return [dict(zip(headers, row, strict=True)) for row in table.rows]


def log(*readings: Reading, cable: CablePlan = CABLE, job: Job = JOB) -> list[dict[str, Cell]]:
    run = run_of(inputs(goods(), readings=readings, job=job), [], cables=[cable])
    return tab(result_sheets(run, (), raw_book(BOOK)), "resistance-log")


def verdicts(*readings: Reading, cable: CablePlan = CABLE) -> dict[tuple[object, object], object]:
    rows = log(*readings, cable=cable)
    return {(r["Room"].value, r["Stage"].value): r["Verdict"].value for r in rows}


def schedule(cable: CablePlan, job: Job = JOB) -> list[dict[str, Cell]]:
    run = run_of(inputs(goods(), job=job), [], cables=[cable])
    return tab(result_sheets(run, (), raw_book(BOOK)), "cable-schedule")


def test_alike_rooms_have_a_row_and_a_circuit_each() -> None:
    rows = schedule(CABLE)
    assert [(r["Room"].value, r["Circuit"].value) for r in rows] == [("101", "H1"), ("102", "H2")]
    assert rows[0]["Thermostat share"].value == 0.125  # 2 A of 16 A
    assert rows[0]["Circuit load (A)"].value == 2.0
    full, rest = OnCircuit("H1", 12.0, 15.0), OnCircuit("H2", 2.0, 10.0)
    shared = schedule(replace(CABLE, circuits=(full, rest)))
    told = [
        tuple(r[h].value for h in ("Circuit", "Circuit load (A)", "Circuit size (A)"))
        for r in shared
    ]
    assert told == [("H1", 12.0, 15.0), ("H2", 2.0, 10.0)]
    assert rows[0]["Left over or short (m)"].value == pytest.approx(0.02)
    assert rows[0]["Status"].value == "planned"


def test_the_thermostat_carries_all_cables_of_the_room() -> None:
    (row, _) = schedule(replace(CABLE, thermostat_share=0.25))
    assert row["Thermostat share"].value == 0.25


def test_energy_and_cost_follow_watts_hours_share_and_price() -> None:
    # 0.24 kW · 12 h · 0.5 = 1.44 kWh; at 0.25 it is 0.36
    (row, _) = schedule(CABLE)
    assert row["Energy a day (kWh)"].value == 1.44
    assert row["Cost a day (EUR)"].value == pytest.approx(0.36)
    assert row["Warm-up (min)"].value == 40
    limits = str(row["Estimates"].value)
    # (133 / 8.92)^(1/1.1) = 11.67 K, by hand
    assert "Surface 11.7 K above the room" in limits
    assert "written for water systems" in limits
    assert "loses nothing" in limits
    assert "guesses" in limits
    (row, _) = schedule(CABLE, replace(JOB, energy_price=None))
    assert row["Cost a day (EUR)"].value is None


def test_a_lead_that_does_not_reach_and_a_plan_without_path_are_said() -> None:
    (row, _) = schedule(replace(CABLE, lead_needed_m=3.1))
    assert row["Status"].value == "LEAD TOO SHORT"
    assert row["Lead needed (m)"].value == 3.1
    (row, _) = schedule(replace(CABLE, lead_needed_m=None, path=((0, 0), (1, 0))))
    assert row["Status"].value == "NO WAY FOR THE LEAD"
    (row, other) = schedule(
        replace(CABLE, circuits=(OnCircuit("H1", 2.0, 15.0), OnCircuit("H2", 40.0, 0.0)))
    )
    assert [row["Status"].value, other["Status"].value] == ["planned", "NO CIRCUIT CARRIES IT"]
    assert other["Circuit size (A)"].value is None
    (row, _) = schedule(replace(CABLE, thermostat_share=1.01))
    assert row["Status"].value == "BEYOND THE THERMOSTAT"
    (row, _) = schedule(replace(CABLE, thermostat_share=1.0))
    assert row["Status"].value == "planned"


def test_the_log_has_three_stages_for_each_copy_and_keeps_what_was_typed() -> None:
    rows = log(
        reading("101", "as delivered", 57.0),
        reading("101", "after laying", 66.01),
        reading("102", "after covering", None, "broken"),
        reading("999", "after laying", 60.0),
        reading("998", "after laying", None, insulation_mohm=None, by="", on=None),
    )
    seen = {(r["Room"].value, r["Stage"].value): r for r in rows}
    assert len(rows) == 7  # two copies by three stages, and one that has lost its cable
    assert seen["101", "as delivered"]["Verdict"].value == "in band"
    assert seen["101", "after laying"]["Verdict"].value == "OUT OF BAND"
    assert seen["101", "after covering"]["Verdict"].value == ""
    assert seen["102", "after covering"]["Reading (Ω)"].value == "broken"
    assert seen["102", "after covering"]["Verdict"].value == "not a number"
    assert seen["999", "after laying"]["Reading (Ω)"].value == 60.0
    assert seen["999", "after laying"]["Date"].value == date(2027, 5, 1)
    assert seen["999", "after laying"]["Verdict"].value == "no such cable in this run"


def test_texts_for_insulation_and_date_are_kept_as_they_were_typed() -> None:
    typed = reading(
        "101", "as delivered", None, insulation_mohm=None, insulation_text=">999", by="", on=None,
        on_text="last Tuesday",
    )  # fmt: skip
    row = log(typed)[0]
    assert row["Insulation reading (MΩ)"].value == ">999"
    assert row["Date"].value == "last Tuesday"
    assert row["Reading (Ω)"].value is None
    assert row["Verdict"].value == ""


def test_two_like_cables_in_a_zone_keep_a_reading_each() -> None:
    typed = [reading("101", "as delivered", 58.0), reading("101", "as delivered", 59.0)]
    pair = [replace(CABLE, copies=("101",), circuits=CABLE.circuits[:1])] * 2
    run = run_of(inputs(goods(), readings=typed), [], cables=pair)
    rows = tab(result_sheets(run, (), raw_book(ROOMS)), "resistance-log")
    read = [r["Reading (Ω)"].value for r in rows if r["Stage"].value == "as delivered"]
    assert read == [58.0, 59.0]


def test_a_drift_between_stages_is_said_in_the_verdict_a_skipped_stage_is_bridged() -> None:
    # 57 to 60 ohm is 5.3 %, 57 to 59.85 is 5 % exactly
    found = verdicts(
        reading("101", "as delivered", 57.0), reading("101", "after laying", 60.0),
        reading("102", "as delivered", 57.0), reading("102", "after covering", 60.0),
    )  # fmt: skip
    assert found["101", "after laying"] == "in band, but DRIFTS"
    assert found["102", "after covering"] == "in band, but DRIFTS"
    found = verdicts(
        reading("101", "as delivered", 57.0), reading("101", "after laying", 59.85),
        reading("101", "after covering", 62.0),
    )  # fmt: skip
    assert found["101", "after laying"] == "in band"
    # 3.6 % since the stage before, but 8.8 % since delivery
    assert found["101", "after covering"] == "in band, but DRIFTS"


@pytest.mark.parametrize(
    ("insulation", "text", "words"),
    [
        (1.0, "", "in band"),
        (0.99, "", "in band (INSULATION TOO LOW)"),
        (None, ">999", "in band"),
        (None, "> 0.5", "in band (INSULATION TOO LOW)"),
        (None, "fine", "in band (insulation: not a number)"),
        (None, "OL", "in band"),
    ],
)
def test_insulation_is_held_against_one_megohm(
    insulation: float | None, text: str, words: str
) -> None:
    # BS 7671 Table 64, as quoted in Electrical Wholesaler, May 2023
    typed = reading("101", "as delivered", 60.0, insulation_mohm=insulation, insulation_text=text)
    assert verdicts(typed)["101", "as delivered"] == words


def test_each_row_says_at_which_voltage_its_insulation_is_read_and_the_limit() -> None:
    # SELV and PELV: 0.5 megohm at 250 V d.c., NICEIC Connections, spring 2018, Table 1
    typed = reading("101", "as delivered", 60.0, insulation_mohm=0.7)
    asked = ("Insulation test (V)", "Insulation at least (MΩ)")
    for volts, of_the_test, said in (
        (24.0, (250, 0.5), "in band"),
        (120.0, (500, 1.0), "in band (INSULATION TOO LOW)"),
    ):
        row = log(typed, cable=replace(CABLE, volts=volts))[0]
        assert tuple(row[header].value for header in asked) == of_the_test
        assert row["Verdict"].value == said


def test_the_rules_say_which_insulation_test_was_held_against_what() -> None:
    held, none = "held against", "no such cable in this job"
    for volts, mains, extra_low in ((120.0, held, none), (24.0, none, held)):
        run = run_of(inputs(goods(), job=JOB), [], cables=[replace(CABLE, volts=volts)])
        rows = tab(result_sheets(run, (), raw_book(BOOK)), "heating-rules")
        told = {r["Rule"].value: str(r["In this job"].value) for r in rows}
        assert told["insulation resistance"].startswith(mains)
        assert told["insulation, extra-low voltage"].startswith(extra_low)


def test_the_band_is_that_of_the_jobs_temperature_where_the_coefficient_is_given() -> None:
    # copper at 30 °C: 57 · (1 + 0.00393 · 10) = 59.2401, 66 · 1.0393 = 68.5938
    copper = replace(CABLE, temperature_coefficient_per_k=0.00393)
    row = log(cable=copper)[0]
    assert row["Expected low (Ω)"].value == pytest.approx(59.2401)
    assert row["Expected high (Ω)"].value == pytest.approx(68.5938)
    assert log()[0]["Expected high (Ω)"].value == 66
    typed = reading("101", "as delivered", 58.0)
    assert verdicts(typed, cable=copper)["101", "as delivered"] == "OUT OF BAND"


def test_the_rules_stand_with_edition_and_status_where_something_is_heated() -> None:
    run = run_of(inputs(goods(), job=JOB), [], cables=[CABLE])
    rows = tab(result_sheets(run, (), raw_book(BOOK)), "heating-rules")
    assert [r["Rule"].value for r in rows] == [r.key for r in (*ELECTRICAL_RULES, *ESTIMATES)]
    by_rule = {r["Rule"].value: r for r in rows}
    continuous = by_rule["continuous load"]
    assert "2.000 A · 1.25 = 2.500 A on 15 A" in str(continuous["In this job"].value)
    assert "NEC 424.4(B)" in str(continuous["Source"].value)
    assert continuous["Status"].value == "read second-hand"
    # 240 W on 20 m is 12 W/m; 54 W/m is from memory
    assert by_rule["power per length in mortar"]["In this job"].value == "at most 12.0 W/m"
    assert "2.000 A on 16 A (12%)" in str(by_rule["rating of thermostats"]["In this job"].value)
    assert "electrician" in str(by_rule["residual-current protection"]["In this job"].value)
    bare = result_sheets(run_of(inputs(goods()), []), (), raw_book(ROOMS))
    assert "heating-rules" not in [s.key for s in bare]


def test_the_heating_tabs_say_by_whom_and_before_what() -> None:
    run = run_of(inputs(goods()), [], cables=[CABLE])
    said = "licensed electrician, inspected before the cable is covered"
    telling = {made.key for made in result_sheets(run, (), raw_book(ROOMS)) if said in made.purpose}
    assert telling == {"cable-schedule", "resistance-log", "heating-rules"}


@pytest.mark.parametrize("rule", [*ELECTRICAL_RULES, *ESTIMATES], ids=lambda rule: rule.key)
def test_every_rule_can_be_explained(rule: object) -> None:
    told = explain(rule.key)  # type: ignore[attr-defined]
    assert told.known
    assert rule.text in told.text  # type: ignore[attr-defined]
    assert f"Status: {rule.status}" in told.text  # type: ignore[attr-defined]


@pytest.mark.libreoffice
def test_bands_verdicts_energy_and_cost_are_live(tmp_path: Path) -> None:
    typed = [
        reading("101", "as delivered", 60.0), reading("101", "after laying", 64.0),
        reading("101", "after covering", 80.0),
        reading("102", "as delivered", None, "OL", insulation_mohm=None, insulation_text="> 0.5"),
        reading("102", "after laying", 60.0, insulation_mohm=None, insulation_text=">999"),
        reading("102", "after covering", 60.0, insulation_mohm=None, insulation_text="fine"),
        reading("103", "as delivered", 60.0, insulation_mohm=0.5),
        reading("103", "after laying", 60.0, insulation_mohm=None, insulation_text=">0.4"),
    ]  # fmt: skip
    alloy = replace(CABLE, temperature_coefficient_per_k=0.0004)
    extra_low = replace(alloy, volts=24.0, copies=("103",), circuits=CABLE.circuits[:1])
    run = run_of(inputs(goods(), readings=typed, job=JOB), [], cables=[alloy, extra_low])
    other = dict(SETTINGS) | {
        "Resistance tolerance above": 0.2, "Temperature at readings": 20,
        "Heating hours a day": 24, "Price of energy": 0.5,
    }  # fmt: skip
    changed = BOOK | {
        "Job": Inputted({"Setting": "Setting", "Value": "Value"}, [list(x) for x in other.items()])
    }
    same, moved = tmp_path / "same.xlsx", tmp_path / "moved.xlsx"
    write(same, BOOK, run)
    write(moved, changed, run, of=BOOK)
    recalculated = recalc.recalculate_all([same, moved])
    assert recalc.differences(recalc.cells(same), recalculated["same"]) == []
    # other settings in place: everything that follows from them moves
    after = recalculated["moved"]
    found = {
        name: value for (tab_name, name), value in after.items() if tab_name == "Cable schedule"
    }
    heads = {value: name for name, value in found.items() if name.endswith("4") and len(name) <= 3}

    def at(header: str) -> object:
        return found[heads[header][:-1] + "5"]

    assert at("Energy a day (kWh)") == pytest.approx(2.88)
    assert at("Cost a day (EUR)") == pytest.approx(1.44)
    assert at("Resistance high (Ω)") == pytest.approx(72)
    log_cells = {n: v for (tab_name, n), v in after.items() if tab_name == "Resistance log"}
    assert log_cells["H5"] == pytest.approx(72)
    assert log_cells["O6"] == "in band, but DRIFTS"
    assert log_cells["O7"] == "OUT OF BAND"
    assert log_cells["O8"] == "OPEN CIRCUIT (INSULATION TOO LOW)"
    assert log_cells["O11"] == "in band"
    assert log_cells["O12"] == "in band (INSULATION TOO LOW)"


def at_degrees(value: float, unit: str) -> dict[str, Inputted]:
    """Inputs in which one temperature stands with its scale."""
    headers = {h: h for h in ("Setting", "Value", "Unit")}
    return ROOMS | {"Job": Inputted(headers, [["Temperature at readings", value, unit]])}


@pytest.mark.libreoffice
def test_bands_follow_a_temperature_in_fahrenheit(tmp_path: Path) -> None:
    us = replace(JOB, units=JobUnits(room_length=FOOT))
    copper = replace(CABLE, temperature_coefficient_per_k=0.00393)
    run = run_of(inputs(goods(), job=us), [], cables=[copper])
    typed = {
        "same": at_degrees(86, "°F"),  # 30 °C
        "moved": at_degrees(50, "°F"),  # 10 °C
        "unit": at_degrees(86, "°C"),
    }
    paths = [tmp_path / f"{name}.xlsx" for name in typed]
    for path in paths:
        write(path, typed[path.stem], run, of=typed["same"])
    after = recalc.recalculate_all(paths)
    assert recalc.differences(recalc.cells(paths[0]), after["same"]) == []
    bands = {name: [cells["Resistance log", f"{column}5"] for column in "GH"]
             for name, cells in after.items()}  # fmt: skip
    # copper at 30 °C: 57 · (1 + 0.00393 · 10) = 59.2401, 66 · 1.0393 = 68.5938; at 10 °C
    # 57 · 0.9607 = 54.7599, 66 · 0.9607 = 63.4062
    assert bands["same"] == pytest.approx([59.2401, 68.5938])
    assert bands["moved"] == pytest.approx([54.7599, 63.4062])
    # findings of readings go by it, and the formula by the scale that stood beside it
    for name in ("moved", "unit"):
        assert status_of(after[name], "Resistance log").startswith("OUT OF DATE")


def test_a_us_job_is_told_its_temperatures_in_fahrenheit() -> None:
    us = replace(JOB, units=JobUnits(room_length=FOOT))
    (row, _) = schedule(CABLE, us)
    # (133 / 8.92)^(1/1.1) = 11.67 K, times 9/5 is 21.0
    assert "Surface 21.0 °F above the room" in str(row["Estimates"].value)
    run = run_of(inputs(goods(), job=us), [], cables=[CABLE])
    rules = tab(result_sheets(run, (), raw_book(BOOK)), "heating-rules")
    told = {r["Rule"].value: str(r["In this job"].value) for r in rules}
    assert told["temperature coefficient"].endswith("their bands stand at 86 °F")
