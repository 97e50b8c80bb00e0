"""The rooms of a row of Decisions: a list as Findings gives it, names of Copies among them."""

from datetime import date

import pytest
from raw_books import PLAIN_ROOM, Values, book

from sheetcalc.domain.finding import Finding
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.raw import RawBook

ROOMS: list[Values] = [
    {**PLAIN_ROOM, "Room": "1.01", "Count": 2, "Copies": "1.01, 1.07"},
    {**PLAIN_ROOM, "Room": "2.01", "Count": 3, "Copies": "2.01-2.03"},
    {**PLAIN_ROOM, "Room": "Bath, upstairs"},
    {**PLAIN_ROOM, "Room": "3.01", "Count": 2, "Copies": "3.09-3.01"},
]


def decided(room: str) -> RawBook:
    row: Values = {
        "Code": "ASBESTOS-PRESUMED",
        "Room": room,
        "Decision": "accepted",
        "By": "A. Estimator",
        "Date": date(2027, 1, 20),
    }
    return book(Rooms=ROOMS, Decisions=[row])


def on_decisions(raw: RawBook) -> list[Finding]:
    return [f for f in to_inputs(raw)[1] if f.source.tab == "Decisions"]


@pytest.mark.parametrize(
    ("typed", "rows"),
    [
        ("", ""),
        ("1.01", "1.01"),
        ("1.01, 1.07, 2.01, 2.02, 2.03", "1.01, 2.01"),
        ("1.07", "1.01"),
        (" 2.03 ,1.07,", "2.01, 1.01"),
        ("bath, UPSTAIRS", "Bath, upstairs"),
    ],
)
def test_rooms_are_taken_by_their_rows(typed: str, rows: str) -> None:
    raw = decided(typed)
    inputs, _ = to_inputs(raw)
    assert inputs is not None
    assert [d.room for d in inputs.decisions] == [rows]
    assert on_decisions(raw) == []


@pytest.mark.parametrize(
    ("typed", "wrong"),
    [("9.99", ['"9.99"']), ("1.01, 1.70, 8", ['"1.70"', '"8"']), ("3.05", ['"3.05"'])],
)
def test_a_room_that_is_nowhere_is_told_by_its_name_and_nothing_is_accepted(
    typed: str, wrong: list[str]
) -> None:
    raw = decided(typed)
    inputs, _ = to_inputs(raw)
    assert inputs is not None
    assert inputs.decisions == ()
    found = [(f.code, f.column, f.facts["found"]) for f in on_decisions(raw)]
    assert found == [("NAME-UNKNOWN", "Room", name) for name in wrong]
