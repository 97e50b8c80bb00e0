"""The check of a drawn path finds what is wrong with it; courses drawn by hand."""

import math

import numpy as np
import pytest
from shapely import Point, box

from sheetcalc.geometry.heating.cable_check import (
    MustKeep,
    check_path,
)
from sheetcalc.geometry.heating.cable_curve import (
    closed_length_mm,
    curve_of,
    cut_open,
    open_length_mm,
    opening,
)
from sheetcalc.geometry.heating.free_floor import Obstacle

FLOOR = box(0, 0, 2000, 1000)
# three rows 100 apart with two turns: 3·800 + 2·100 = 2600, four corners of radius 50
PATH = np.array([[500, 300], [1300, 300], [1300, 400], [500, 400], [500, 500], [1300, 500]], float)
ROUNDED_LENGTH = 2600 - 4 * (2 - math.pi / 2) * 50


def keep(
    length: float = ROUNDED_LENGTH,
    *,
    nearest: float = 100,
    radius: float = 50,
    wall: float = 300,
    things: tuple[Obstacle, ...] = (),
) -> MustKeep:
    return MustKeep(length, nearest, radius, FLOOR, wall, FLOOR, things)


def wrong(path: np.ndarray, rules: MustKeep, radius: float = 50) -> str:
    return "; ".join(check_path(path.astype(float), radius, rules).wrong)


def test_a_path_that_keeps_everything_has_nothing_wrong() -> None:
    found = check_path(PATH, 50, keep())
    assert found.wrong == ()
    assert found.length_mm == pytest.approx(ROUNDED_LENGTH, abs=1.5)  # arcs as chords


def test_length_by_corners_is_the_length_of_the_curve() -> None:
    assert open_length_mm(PATH, 50) == pytest.approx(ROUNDED_LENGTH)
    assert curve_of(PATH, 50).length == pytest.approx(ROUNDED_LENGTH, abs=1.5)


@pytest.mark.parametrize(("miss", "said"), [(29, ""), (-29, ""), (33, "length"), (-33, "length")])
def test_a_miss_above_thirty_millimetres_is_wrong(miss: float, said: str) -> None:
    assert wrong(PATH, keep(ROUNDED_LENGTH + miss)).startswith(said)
    assert bool(wrong(PATH, keep(ROUNDED_LENGTH + miss))) == bool(said)


def test_a_clearance_short_by_more_than_a_tenth_is_wrong() -> None:
    assert not wrong(PATH, keep(wall=300.05))
    assert "clearance" in wrong(PATH, keep(wall=300.2))
    pipe = Point(900, 600)  # 100 from the last row
    assert not wrong(PATH, keep(things=(Obstacle("P", pipe, 100, pipe.buffer(100)),)))
    assert "clearance" in wrong(PATH, keep(things=(Obstacle("P", pipe, 101, pipe.buffer(101)),)))


def test_a_path_outside_its_zone_is_wrong() -> None:
    outside = MustKeep(ROUNDED_LENGTH, 100, 50, FLOOR, 100, box(0, 0, 1200, 1000), ())
    assert "leaves its zone" in wrong(PATH, outside)
    assert "clearance" in wrong(PATH - [600, 0], keep(wall=50))


def test_runs_nearer_than_allowed_are_wrong_in_a_turn_too() -> None:
    assert "nearer" in wrong(PATH, keep(nearest=101))
    assert not wrong(PATH, keep(nearest=99.9))
    narrow = np.array([[500, 500], [900, 500], [900, 540], [500, 540]], float)
    rules = keep(open_length_mm(narrow, 20), nearest=60, radius=20)
    assert wrong(narrow, rules, 20) == "two runs are nearer than 60 mm"


def test_a_bend_tighter_than_allowed_is_wrong() -> None:
    assert "a bend of 50 mm is tighter than 60 mm" in wrong(PATH, keep(radius=60))
    length = open_length_mm(PATH, 30)
    assert not wrong(PATH, keep(length, radius=30), 30)
    assert "a bend of 30 mm is tighter than 30 mm" in wrong(PATH, keep(length, radius=30.2), 30)


def test_a_crossing_is_wrong() -> None:
    loop = np.array([[500, 500], [1000, 500], [1000, 700], [700, 700], [700, 350]], float)
    rules = keep(open_length_mm(loop, 50), nearest=10)
    assert "crosses" in wrong(loop, rules)


def test_a_closed_course_is_cut_open_near_the_thermostat() -> None:
    corners = np.array([[0, 0], [1000, 0], [1000, 200], [0, 200]], float)
    assert closed_length_mm(corners, 50) == pytest.approx(2400 - 4 * (2 - math.pi / 2) * 50)
    nearest = opening(corners, 100, 50, (300, -500))
    assert nearest is not None
    path = cut_open(corners, nearest)
    assert {tuple(path[0]), tuple(path[-1])} == {(250, 0), (350, 0)}
    assert open_length_mm(path, 50) == pytest.approx(closed_length_mm(corners, 50) - 100)


def test_an_opening_keeps_off_the_corners() -> None:
    corners = np.array([[0, 0], [1000, 0], [1000, 200], [0, 200]], float)
    nearest = opening(corners, 100, 50, (-300, -500))
    assert nearest is not None
    assert min(nearest.start[0], nearest.end[0]) == pytest.approx(50)
    assert opening(corners, 950, 50, (0, 0)) is None
