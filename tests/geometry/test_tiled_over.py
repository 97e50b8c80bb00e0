"""Faces over doorways and behind baths, in a room of 3 x 2 m: who is told, and who is not."""

import pytest
from room_rows import EVERYTHING, face, finish_of, piece, resolve, room_row

from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.room import FloorPiece, WallFace

DOOR = piece("Door", "doorway", 1000, length=800, wall="near")
BATH = piece("Bath", "bath", 0, 1300, 1700, 700)


def codes(*rows: FloorPiece | WallFace, finish: Finish = EVERYTHING) -> list[str]:
    """Codes that the room's faces give rise to."""
    _, findings = resolve(room_row(*rows, length=3000, width=2000), finish=finish)
    return [f.code for f in findings if f.code.startswith("FACE-")]


def test_a_face_across_a_doorway_asks_for_an_opening() -> None:
    assert codes(DOOR, face("near", 3000, 2100)) == ["FACE-OVER-DOORWAY"]


@pytest.mark.parametrize("width", [800, 790, 900])
def test_an_opening_keeps_the_tile_off_a_doorway(width: float) -> None:
    # seen from inside, the near wall's left end is the room's right: the door lies from 1.2 to 2.0
    opening = face("near", width, 2000, part="opening", left=1200)
    assert codes(DOOR, face("near", 3000, 2100), opening) == []


def test_an_opening_beside_the_doorway_is_not_its_own() -> None:
    window = face("near", 800, 2000, part="opening", left=100)
    assert codes(DOOR, face("near", 3000, 2100), window) == ["FACE-OVER-DOORWAY"]


def test_faces_beside_and_above_a_doorway_and_on_other_walls_are_as_they_should_be() -> None:
    beside = face("near", 1200, 2100), face("near", 1000, 2100, left=2000)
    above = face("near", 800, 300, left=1200, bottom=1800)
    assert codes(DOOR, *beside, above, face("far", 3000, 2100)) == []


def test_a_bath_under_a_whole_face_is_noted_and_one_under_a_face_from_its_rim_is_not() -> None:
    assert codes(BATH, face("far", 3000, 2100)) == ["FACE-BEHIND-BATH"]
    from_rim = face("far", 1700, 1550, bottom=550), face("far", 1300, 2100, left=1700)
    assert codes(BATH, *from_rim) == []


def test_a_bath_away_from_the_wall_hides_no_tile() -> None:
    freestanding = piece("Bath", "bath", 300, 1000, 1700, 700)
    assert codes(freestanding, face("far", 3000, 2100)) == []


def test_where_walls_are_bare_wet_areas_alone_are_looked_at() -> None:
    finish = finish_of(SurfaceKind.FLOOR, SurfaceKind.WET_AREA)
    over_the_bath = face("far", 1700, 1550, bottom=550, part="wet area")
    to_the_floor = face("far", 1700, 2100, part="wet area")
    whole = face("far", 3000, 2100)
    assert codes(BATH, whole, over_the_bath, finish=finish) == []
    assert codes(BATH, whole, to_the_floor, finish=finish) == ["FACE-BEHIND-BATH"]
    assert codes(DOOR, face("near", 3000, 2100), finish=finish_of(SurfaceKind.FLOOR)) == []
