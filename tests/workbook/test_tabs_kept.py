"""Tabs that a run has nothing for are made, empty, where they are kept; otherwise they go."""

import pytest
from hand_made import room
from msgspec.structs import replace
from result_books import Inputted, catalogue, inputs, raw_book, result_sheets, run_of

from sheetcalc.domain.cable import CablePlan, OnCircuit
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.workbook.results.optional import idle_keys
from sheetcalc.workbook.results_tabs import CALL_OFFS, ROOM_CARDS, SOURCES
from sheetcalc.workbook.results_tabs_heating import CABLE_PLANS, HEATING_RULES

ROOMS = {"Rooms": Inputted({"Room": "Room", "Length": "Length (m)"}, [["1", 2.4]])}
TABS = {
    "heating-rules": (HEATING_RULES, "no heating"),
    "call-offs": (CALL_OFFS, "nothing to call off"),
    "sources": (SOURCES, "nothing to choose"),
    "room-cards": (ROOM_CARDS, "no cards"),
    "room-cards:3": (ROOM_CARDS, "no cards"),
    "cable-plans": (CABLE_PLANS, "no plans"),
    "cable-plans:2": (CABLE_PLANS, "no plans"),
}
"""Key -> what it declares, and what it says without rows."""
ALWAYS = {"findings", "takeoff", "cut-list", "resistance-log", "deliveries"}

CABLE = CablePlan(
    room="1", copies=("1",), phase="", zone="main floor", surface="floor", cable="C1", watts=240.0,
    volts=120.0, length_m=20.0, spacing_m=0.09, rows=10, planned_m=20.0, free_area_m2=1.8,
    density_w_m2=133.0, amperes=2.0, resistance_ohm=60.0, resistance_low_ohm=57.0,
    resistance_high_ohm=66.0, circuit="H1", circuit_amperes=15.0, thermostat="T",
    basis="", circuits=(OnCircuit("H1", 2.0, 15.0),), kwh_a_day=1.0,
    warm_up_minutes=40.0, lead_m=3.0, lead_needed_m=2.5,
)  # fmt: skip


def nothing(*cables: CablePlan) -> Run:
    return run_of(inputs(catalogue()), [], cables=cables)


@pytest.mark.parametrize("key", TABS)
def test_a_tab_without_anything_is_made_only_where_it_is_kept(key: str) -> None:
    without = result_sheets(nothing(), (), raw_book(ROOMS))
    assert key not in {sheet.key for sheet in without}
    kept = result_sheets(nothing(), (), raw_book(ROOMS), kept=[key])
    (sheet,) = [made for made in kept if made.key == key]
    assert {made.key for made in kept} == {made.key for made in without} | {key}
    (table,) = sheet.tables
    tab, said = TABS[key]
    number = key.partition(":")[2]
    assert table.name == tab.table + (number if number.isdecimal() else "")
    assert {c.header.partition(" (")[0] for c in table.columns} >= {
        c.header for c in tab.columns if c.required
    }
    ((first, *_),) = table.rows
    assert first.value == said


def test_tabs_that_a_run_has_nothing_for_are_idle() -> None:
    keys = {*TABS, *ALWAYS}
    assert idle_keys(nothing(), keys) == TABS.keys() - {"room-cards"}
    assert idle_keys(nothing(), keys, cards=False) == TABS.keys()
    assert "heating-rules" not in idle_keys(nothing(CABLE), keys)


def test_room_cards_of_very_many_rooms_fill_several_tabs() -> None:
    # a tab holds 500 cards: 1,001 take three, and a fourth has none
    work = RoomWork(replace(room(), copies=("a", "b", "c", "d", "e", "f", "g")))
    run = replace(nothing(), works=(work,) * 143)
    keys = ["room-cards", "room-cards:2", "room-cards:3", "room-cards:4"]
    assert idle_keys(run, keys) == {"room-cards:4"}
