"""Findings that say the same of several rooms stand in one row, and Decisions still accept them."""

from collections.abc import Sequence
from datetime import date

import pytest

from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.inputs import Decision
from sheetcalc.domain.measure import JobUnits, Length
from sheetcalc.workbook.wording import WordedFinding, as_json, as_text, told_together, word_all

UNITS = JobUnits()
ROW = RowRef("Finishes", 7)


def small_cuts(room: str, surface: str, small: int, smallest_mm: int, **more: Fact) -> Finding:
    facts: dict[str, Fact] = {
        "surface": surface,
        "small": small,
        "share": "50%",
        "smallest": Length(smallest_mm * 320),
        "finish": "Bath",
        **more,
    }
    return Finding("SMALL-CUTS", ROW, None, facts, room=room, surface=surface)


def offset(room: str, surface: str = "floor", tile: str = "T") -> Finding:
    facts: dict[str, Fact] = {
        "surface": surface,
        "tile": tile,
        "finish": "Bath",
        "bond": "offset 1/2",
        "offset": "50%",
        "longest": Length(600 * 320),
    }
    return Finding("OFFSET-BEYOND-A-THIRD", ROW, "Bond", facts, room=room, surface=surface)


def decision(room: str = "", surface: str = "") -> Decision:
    code = "OFFSET-BEYOND-A-THIRD"
    return Decision(
        code, room, surface, "accepted", "A. Estimator", date(2027, 2, 11), "", RowRef("Decisions")
    )


def told(
    findings: Sequence[Finding], decisions: Sequence[Decision] = ()
) -> tuple[WordedFinding, ...]:
    return told_together(word_all(findings, None, UNITS, decisions), UNITS)


def test_numbers_become_a_range_and_names_a_list() -> None:
    one, two = small_cuts("101", "floor", 6, 38), small_cuts("102", "wall far", 14, 138)
    (together,) = told([one, two])
    assert together.found == (
        "6 to 14 cut tiles on floor, wall far are smaller than 50% of a tile; their smallest "
        "sides are 38 mm to 138 mm"
    )
    assert (together.room, together.surface) == ("101, 102", "floor, wall far")
    assert together.rooms == ("101", "102")
    assert as_json(together)["rooms"] == ["101", "102"]
    assert "rooms 101, 102" in as_text(together)


def test_one_finding_stays_as_it_is() -> None:
    (alone,) = told([small_cuts("101", "floor", 6, 38)])
    assert (alone.room, alone.surface) == ("101", "floor")
    assert as_json(alone)["rooms"] == ["101"]


def test_finishes_are_told_apart() -> None:
    found = told([small_cuts("101", "floor", 6, 38), small_cuts("102", "floor", 6, 38, finish="X")])
    assert [f.room for f in found] == ["101", "102"]


def test_very_many_rooms_are_counted() -> None:
    (together,) = told([small_cuts(str(n), "floor", 6, 38) for n in range(101, 121)])
    assert together.room.endswith("111, 112 and 8 more")
    assert len(together.rooms) == 20


@pytest.mark.parametrize(
    ("room", "surface", "open_rooms"),
    [
        ("", "", []),
        ("101", "", ["102", "103"]),
        ("101, 103", "", ["102"]),
        ("101, 102, 103", "floor", []),
        ("", "wall far", ["101", "102", "103"]),
    ],
)
def test_a_decision_accepts_all_rooms_or_those_it_names(
    room: str, surface: str, open_rooms: list[str]
) -> None:
    found = told([offset("101"), offset("102"), offset("103")], [decision(room, surface)])
    still_open = [name for f in found if not f.accepted for name in (f.rooms or (f.room,))]
    assert still_open == open_rooms
    assert all(f.status in {"accepted", "warning"} for f in found)
    assert len(found) == (2 if 0 < len(open_rooms) < 3 else 1)


def test_a_row_that_stands_for_several_named_rooms_is_told_by_these() -> None:
    copies = {"101": ("101", "107"), "102": ("102", "108")}
    worded = word_all([offset("101"), offset("102"), offset("103")], None, UNITS)
    (together,) = told_together(worded, UNITS, copies=copies)
    assert together.room == "101, 107, 102, 108, 103"
    assert as_json(together)["rooms"] == ["101", "107", "102", "108", "103"]
    (alone,) = told_together(worded[:1], UNITS, copies=copies)
    assert "rooms 101, 107)" in as_text(alone)


def test_a_room_whose_name_has_a_comma_can_be_named() -> None:
    (only,) = told([offset("Bath, upstairs")], [decision("Bath, upstairs")])
    assert only.accepted
