"""The Roll plan tab as a person on the roll reads it, by hand."""

from collections.abc import Mapping, Sequence

import pytest
from hand_made import METRIC, MM, catalogue, roll
from msgspec.structs import replace
from result_books import raw_book

from sheetcalc.domain.catalogue import Catalogue, Roll, RollKind
from sheetcalc.domain.measure import FOOT, INCH, JobUnits
from sheetcalc.domain.rolls import Leftover, PlacedStrip, RollPlan, Strip
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.roll_plan import roll_plan_sheet
from sheetcalc.workbook.sheet import Cell

TEN = roll("U", RollKind.UNDERLAY_ROLL, length_mm320=10_000 * MM)
BOARD = roll("B", RollKind.BACKER_BOARD, length_mm320=1200 * MM, width_mm320=600 * MM)


def rows(
    plans: Sequence[RollPlan], items: Catalogue, units: JobUnits = METRIC.units
) -> list[Mapping[str, object]]:
    sheet = roll_plan_sheet(plans, items, Frame(raw_book({}), units, Cell("OK")))
    (table,) = sheet.tables
    headers = [column.header for column in table.columns]
    return [dict(zip(headers, (cell.value for cell in row), strict=True)) for row in table.rows]


def strip(room: str, length: int, width: int = 1000, **more: object) -> Strip:
    made = Strip("U", "P", room, "floor", "underlay", length * MM, width * MM)
    return replace(made, **more)


def placed(cut: Strip, number: int, at: int, across: int = 0, of: str = "") -> PlacedStrip:
    return PlacedStrip(cut, number, at * MM, across * MM, of)


def test_each_roll_ends_with_what_is_left_of_it() -> None:
    plan = RollPlan(
        "U", "P", 2,
        (placed(strip("1", 6000), 1, 0), placed(strip("2", 3500), 1, 6000),
         placed(strip("3", 4000), 2, 0)),
        2, "so", (Leftover("P", 2, 4000 * MM, 6000 * MM),),
    )  # fmt: skip
    found = rows([plan], catalogue(TEN))
    assert [(r["Roll"], r["From (m)"], r["To (m)"], r["Room"]) for r in found] == [
        (1, 0, 6, "1"), (1, 6, 9.5, "2"), (1, 9.5, 10, None), (2, 0, 4, "3"), (2, 4, 10, None),
    ]  # fmt: skip
    assert found[2]["Piece"] == "rest, too short to keep"
    assert found[4]["Piece"] == "rest, long enough to keep"
    assert (found[0]["Rolls"], found[0]["Bound"], found[0]["Basis"]) == (2, 2, "so")
    assert all(r["Rolls"] is None for r in found[1:])


def test_a_roll_used_up_to_its_end_has_no_rest() -> None:
    plan = RollPlan("U", "P", 1, (placed(strip("1", 10_000), 1, 0),), 1, "")
    assert len(rows([plan], catalogue(TEN))) == 1


@pytest.mark.parametrize(
    ("across", "width", "edge"),
    [
        (0, 1000, "both edges"),
        (0, 400, "near edge"),
        (600, 400, "far edge"),
        (300, 400, "no edge"),
    ],
)
def test_the_edges_of_the_roll_that_a_strip_keeps(across: int, width: int, edge: str) -> None:
    plan = RollPlan("U", "P", 1, (placed(strip("1", 2000, width), 1, 0, across),), 1, "")
    first = rows([plan], catalogue(TEN))[0]
    assert (first["Kept edge"], first["Across (m)"]) == (edge, across / 1000)


def test_leftovers_of_earlier_phases_come_first_and_name_their_phase() -> None:
    plan = RollPlan(
        "U", "P2", 1,
        (placed(strip("1", 8000), 1, 0), placed(strip("2", 4000), 3, 6000, of="P1")), 1, "",
    )  # fmt: skip
    found = rows([plan], catalogue(TEN))
    assert [(r["Leftover of"], r["Roll"], r["Room"]) for r in found] == [
        ("P1", 3, "2"), (None, 1, "1"), (None, 1, None),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("more", "laid"),
    [
        ({}, "left to right"),
        ({"turned": True}, "away from the door"),
        ({"surface": "wet area far", "turned": True}, "upright"),
        ({"piece": "upturn"}, "up the walls"),
    ],
)
def test_which_way_a_strip_is_laid(more: dict[str, object], laid: str) -> None:
    plan = RollPlan("U", "P", 1, (placed(strip("1", 2000, **more), 1, 0),), 1, "")
    assert rows([plan], catalogue(TEN))[0]["Laid"] == laid


def board(room: str, length: int = 1200, width: int = 600) -> Strip:
    return Strip("B", "P", room, "floor", "backer board, piece 1 of 9", length * MM, width * MM)


def test_whole_boards_for_one_room_are_one_row() -> None:
    cut = placed(board("2", 700, 500), 5, 0)
    whole = [placed(board("1"), n, 0) for n in (1, 2, 3)] + [placed(board("2"), 4, 0)]
    found = rows([RollPlan("B", "P", 5, (*whole, cut), 5, "")], catalogue(BOARD))
    assert [(r["Roll"], r["Room"]) for r in found] == [
        ("1 to 3", "1"), (4, "2"), (5, "2"), (5, None),
    ]  # fmt: skip
    assert found[0]["Piece"] == "floor: 3 whole"


def test_stretches_of_band_have_no_rest_and_no_way_to_be_laid() -> None:
    band: Roll = replace(TEN, code="N", kind=RollKind.BAND, width_mm320=125 * MM)
    cut = Strip("N", "P", "1", "", "band", 4000 * MM, 125 * MM)
    plan = RollPlan("N", "P", 1, (placed(cut, 1, 0),), 1, "", by_length=True)
    (found,) = rows([plan], catalogue(band))
    assert (found["Piece"], found["Laid"], found["Kept edge"]) == ("band", None, "both edges")


def test_rolls_counted_in_feet_are_cut_by_the_jobs_tape() -> None:
    # 3048 mm are 10 ft, or 120 in; 1 in and 9/16 is 39.6875 mm
    plan = RollPlan("U", "P", 1, (placed(strip("1", 3048), 1, 0),), 1, "")
    feet = JobUnits(long_length=FOOT, small_length=INCH)
    assert rows([plan], catalogue(TEN), feet)[0]["To (in)"] == 120
    fine = Strip("U", "P", "1", "floor", "strip 1 of 1", 25 * 8128 // 16, 9 * 8128 // 16)
    (found, _) = rows([RollPlan("U", "P", 1, (placed(fine, 1, 0),), 1, "")], catalogue(TEN), feet)
    assert (found["Length (in)"], found["Width (in)"]) == (1.5625, 0.5625)
    assert rows([plan], catalogue(TEN), JobUnits(long_length=FOOT))[0]["To (mm)"] == 3048
    assert rows([plan], catalogue(TEN))[0]["To (m)"] == pytest.approx(3.048, rel=1e-12)
