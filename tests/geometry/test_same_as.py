"""Rows of Rooms and each other: Same as, how it lies, and rooms that two rows stand for."""

import pytest
from room_rows import EVERYTHING, piece, resolve, room_row

from sheetcalc.domain.job import Job
from sheetcalc.geometry.rooms.outline import resolve_rooms
from sheetcalc.workflows.spreading import OverCores


def test_same_as_in_a_circle_is_a_finding_for_each_room_of_it() -> None:
    _, findings = resolve(room_row(name="a", same_as="b"), room_row(name="b", same_as="a"))
    assert [f.code for f in findings] == ["SAME-AS-CIRCULAR", "SAME-AS-CIRCULAR"]
    assert findings[0].facts["chain"] == "a → b → a"


@pytest.mark.parametrize(("handed", "lies"), [(False, "as it was measured"), (True, "mirrored")])
def test_the_same_as_a_mirrored_room_says_how_it_lies(*, handed: bool, lies: str) -> None:
    # a door 0.2 m from the left end of a wall of 3 m lies 2.8 m from it in the mirror image
    rooms, findings = resolve(
        room_row(piece("D", "doorway", 200, 0, 800), name="a", length=3000, width=2000),
        room_row(name="b", same_as="a", handed=True),
        room_row(name="c", same_as="b", handed=handed),
    )
    assert [(f.code, f.room, f.facts["lies"]) for f in findings] == [("SAME-AS-HANDED", "c", lies)]
    a, b, c = (room.doorways[0] for room in rooms)
    assert c == (b if handed else a)
    assert a != b


def test_an_unknown_same_as_names_the_nearest_room() -> None:
    _, findings = resolve(
        room_row(name="Hall bath", length=2000, width=2000), room_row(name="b", same_as="Hal bath")
    )
    assert [f.code for f in findings] == ["SAME-AS-UNKNOWN"]
    assert findings[0].facts["known"] == "Hall bath"


def test_a_letter_typed_for_a_digit_is_told_from_other_near_names() -> None:
    numbered = [room_row(name=str(n), length=2000, width=2000) for n in (1, 10, 19, 21)]
    _, findings = resolve(*numbered, room_row(name="b", same_as="1O"))
    assert findings[0].facts["known"] == "10"


def test_a_room_that_is_the_same_as_a_faulty_one_says_so() -> None:
    rooms, findings = resolve(room_row(name="a", length=2000), room_row(name="b", same_as="a"))
    assert rooms == ()
    assert [(f.code, f.room) for f in findings] == [
        ("ROOM-SIZE-INCOMPLETE", "a"),
        ("SAME-AS-FAULTY", "b"),
    ]


def test_same_as_with_parts_of_its_own_is_refused() -> None:
    _, findings = resolve(
        room_row(name="a", length=2000, width=3000),
        room_row(piece("B", "bath", 0, 0, 700, 1700), name="b", same_as="a", length=2100),
    )
    assert [f.code for f in findings] == ["SAME-AS-WITH-OWN-PARTS", "SAME-AS-WITH-OWN-PARTS"]


def test_a_room_that_two_rows_stand_for_is_told() -> None:
    def told(*rows: tuple[str, tuple[str, ...], int]) -> list[tuple[object, object]]:
        made = [
            room_row(name=name, copies=copies, count=count, length=2000, width=2000)
            for name, copies, count in rows
        ]
        found = [f for f in resolve(*made)[1] if f.code == "ROOM-IN-TWO-ROWS"]
        return [(f.facts["rooms"], f.facts["other"]) for f in found]

    assert told(("A", ("101", "102"), 2), ("B", ("102", "103"), 2)) == [("102", "A")]
    assert told(("A", ("101", "102"), 2), ("102", (), 1)) == [("102", "A")]
    # a row is named as it likes where Copies say which rooms it stands for
    assert told(("1", ("1", "2"), 2), ("2", ("3", "4"), 2)) == []
    assert told(("1", ("1", "2"), 2), ("2", (), 3)) == []


def test_rooms_of_a_large_job_come_out_alike_from_one_core_and_from_two() -> None:
    # every tenth is impossible, every tenth is the mirrored one of the room before
    rows = [
        room_row(name=str(n), same_as=str(n - 1), handed=True)
        if n % 10 == 1
        else room_row(
            piece("Bath", "bath", 0, 0, 9000 if n % 10 == 5 else 700, 1600),
            name=str(n), length=2000 + n, width=1700,
        )
        for n in range(150)
    ]  # fmt: skip
    rooms, findings = resolve(*rows)
    assert len(rooms) == 135
    assert {f.room for f in findings} == {str(n) for n in range(5, 150, 10)}
    spread = OverCores(2)
    assert resolve_rooms(rows, {"F": EVERYTHING}, Job(), spread) == (rooms, findings)
