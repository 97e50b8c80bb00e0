"""Heating: the cables of a room as lines, and the circuit that they load."""

import pytest
from hand_made import METRIC, US, context, quantities
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan, OnCircuit
from sheetcalc.domain.catalogue import Cable
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.measure import FOOT, INCH, PIECE, SQUARE_FOOT, JobUnits
from sheetcalc.domain.quantity import PackBy
from sheetcalc.lines.heating import HEATING_CABLE, HEATING_CIRCUIT
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.measures import measure

CABLE = Cable(
    "C-12", None, None, "Cable 12 W", "warm", 12 * 320_000, None, 144, 120, 100, None, "both ends",
    None, None, None, None, None, RowRef("Heating cables", 5),
)  # fmt: skip

# 144 W at 120 V: 100 Ω, 95 to 110 Ω, 1.2 A
PLAN = CablePlan(
    room="R", copies=("R",), phase="", zone="main floor", surface="floor", cable="C-12",
    watts=144, volts=120, length_m=12, spacing_m=0.1, rows=10, planned_m=12, free_area_m2=1.2,
    density_w_m2=120, amperes=1.2, resistance_ohm=100, resistance_low_ohm=95,
    resistance_high_ohm=110, circuit="H1", circuit_amperes=15, thermostat="T",
    basis="Path planned.", warm_up_minutes=40.4, kwh_a_day=1.3824,
)  # fmt: skip


def on(name: str, load: float, size: float = 15) -> OnCircuit:
    return OnCircuit(name, load, size)


def with_plans(*plans: CablePlan, ctx: LineContext | None = None) -> LineContext:
    ctx = ctx or context()
    stocked = replace(ctx.catalogue, cables={CABLE.code: CABLE})
    return replace(ctx, catalogue=stocked, work=replace(ctx.work, cables=plans))


def test_each_cable_is_one_piece_and_comes_from_the_plan() -> None:
    lines = quantities(HEATING_CABLE, with_plans(PLAN, replace(PLAN, zone="shower", surface="S")))
    assert [(x.item, x.each_si, x.unit, x.pack_by) for x in lines] == [
        ("C-12", 1, PIECE, PackBy.PLAN)
    ] * 2
    assert [x.surface for x in lines] == ["floor", "S"]
    assert {x.waste for x in lines} == {None}


def test_the_basis_says_power_current_resistance_surface_and_warm_up() -> None:
    (line,) = quantities(HEATING_CABLE, with_plans(PLAN))
    for words in (
        "Path planned.", "144 W ÷ 120 V = 1.200 A", "100.00 Ω, 95.00 to 110.00 Ω at 20 °C",
        "120.0 W/m²", "from memory, not verified", "water systems", "40 min",
    ):  # fmt: skip
        assert words in line.basis
    # EN 1264 turned round: (120 / 8.92)^(1/1.1) = 10.6 K, by hand
    assert "10.6 K above the room" in line.basis


def test_a_us_basis_gives_differences_in_fahrenheit_and_standards_in_both() -> None:
    (line,) = quantities(HEATING_CABLE, with_plans(PLAN, ctx=context(job=US)))
    # (120 / 8.92)^(1/1.1) = 10.6222 K, times 9/5 is 19.12; a rise has no 32 in it
    for words in (
        "95.00 to 110.00 Ω at 20 °C (68 °F)", "surface is 19.1 °F above the room",
        "bathroom limit 33 °C (91.4 °F)", "warm up by 18 °F",
    ):  # fmt: skip
        assert words in line.basis


def test_a_job_in_feet_reads_watts_for_a_square_foot() -> None:
    units = JobUnits(room_length=FOOT, small_length=INCH, long_length=FOOT, area=SQUARE_FOOT)
    ctx = context(job=replace(METRIC, units=units))
    (line,) = quantities(HEATING_CABLE, with_plans(PLAN, ctx=ctx))
    # 120 W/m² · 0.09290304 = 11.1 W/ft²
    assert "= 11.1 W/ft²" in line.basis


def test_a_room_loads_one_circuit_with_all_its_cables() -> None:
    (line,) = quantities(HEATING_CIRCUIT, with_plans(PLAN, PLAN))
    assert line.each_si == 1
    assert line.pack_by is PackBy.NONE
    assert "15 A" in line.description
    # 2.4 A · 1.25
    assert "2.400 A · 1.25 = 3.000 A" in line.basis
    assert "licensed electrician" in line.basis


def test_alike_rooms_with_a_circuit_each_count_one_each() -> None:
    alike = replace(PLAN, circuits=(on("H1", 1.2), on("H2", 1.2)), circuits_begun=2)
    ctx = with_plans(alike)
    (line,) = quantities(HEATING_CIRCUIT, ctx)
    assert (line.each_si, line.count) == (1, 2)
    assert measure(ctx, "per circuit").amount == 1


def test_a_shared_circuit_is_counted_once_in_the_room_that_it_begins_in() -> None:
    # two alike rooms of 1.2 A on one circuit with another two: 4.8 A · 1.25 = 6 A
    first = replace(PLAN, circuits=(on("H1", 4.8), on("H1", 4.8)), circuits_begun=1)
    ctx = with_plans(first)
    (line,) = quantities(HEATING_CIRCUIT, ctx)
    assert (line.each_si, line.count, line.net_si) == (1, 1, 1)
    assert "4.800 A with the other rooms on it; 4.800 A · 1.25 = 6.000 A" in line.basis
    # half a circuit a room, one in all; a thermostat in each room all the same
    assert measure(ctx, "per circuit").amount * ctx.room.count == 1
    assert measure(ctx, "per thermostat").amount == 1
    later = with_plans(replace(first, circuits_begun=0))
    assert quantities(HEATING_CIRCUIT, later) == []
    assert measure(later, "per circuit").amount == 0
    assert measure(later, "per thermostat").amount == 1


def test_circuits_that_begin_in_a_room_are_told_by_their_own_load_and_size() -> None:
    # of six rooms of 1.2 A one fits on what another room began, five begin the next circuit:
    # 12 A · 1.25 = 15 A, 6 A · 1.25 = 7.5 A
    circuits = (on("H1", 12.0, 16), *[on("H2", 6.0, 10)] * 5)
    later = with_plans(replace(PLAN, circuits=circuits, circuits_begun=1))
    (line,) = quantities(HEATING_CIRCUIT, later)
    assert (line.each_si, line.count) == (1, 1)
    assert "circuit of 10 A" in line.description
    assert "6.000 A with the other rooms on it; 6.000 A · 1.25 = 7.500 A" in line.basis
    first = with_plans(replace(PLAN, circuits=circuits, circuits_begun=2))
    lines = quantities(HEATING_CIRCUIT, first)
    assert [x.description[-4:] for x in lines] == ["16 A", "10 A"]
    assert [x.net_si for x in lines] == [1, 1]


def test_a_shower_floor_may_have_a_circuit_and_a_thermostat_of_its_own() -> None:
    job = replace(METRIC, shower_circuit="of its own")
    shower = replace(PLAN, surface="shower floor S", circuit="H2")
    ctx = with_plans(PLAN, shower, ctx=context(job=job))
    assert len(quantities(HEATING_CIRCUIT, ctx)) == 2
    assert measure(ctx, "per circuit").amount == 2
    assert measure(ctx, "per thermostat").amount == 2
    assert measure(ctx, "per thermostat", ("shower floor",)).amount == 1


def test_a_load_that_no_circuit_carries_is_said() -> None:
    (line,) = quantities(HEATING_CIRCUIT, with_plans(replace(PLAN, circuit_amperes=0)))
    assert "more than the largest circuit size" in line.description


@pytest.mark.parametrize("line", [HEATING_CABLE, HEATING_CIRCUIT], ids=lambda x: x.key)
def test_a_room_without_heating_has_no_heating_lines(line: object) -> None:
    assert quantities(line, with_plans()) == []  # type: ignore[arg-type]
