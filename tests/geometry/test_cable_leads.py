"""Ways of cold leads on small floors that a hand can follow; 25 mm of grid either way."""

import numpy as np
import pytest
from shapely import LineString, box

from sheetcalc.geometry.heating.cable_leads import (
    THERMOSTAT_HEIGHT_MM,
    LeadFloor,
    LeadMap,
    LeadRoute,
    lead_floor,
    places_to_open,
)

FLOOR = box(0, 0, 2000, 1000)


def lead_route(
    floor: LeadFloor, splice: tuple[float, float], thermostat: tuple[float, float]
) -> LeadRoute | None:
    return LeadMap(floor, thermostat).route(splice)


def test_a_lead_runs_in_right_angles_and_up_the_wall() -> None:
    floor = lead_floor(FLOOR, [], [])
    route = lead_route(floor, (1500, 500), (500, 0))
    assert route is not None
    # 1000 along, 500 across, then up
    assert route.length_mm == pytest.approx(1500 + THERMOSTAT_HEIGHT_MM, abs=50)


def test_a_lead_goes_round_a_cable_and_not_across_it() -> None:
    wall = np.array([[1000, 0], [1000, 800]], float)
    floor = lead_floor(FLOOR, [], [wall])
    route = lead_route(floor, (1500, 100), (500, 0))
    assert route is not None
    # up to 800 and down again: 700 + 1000 + 800
    assert route.length_mm == pytest.approx(2500 + THERMOSTAT_HEIGHT_MM, abs=150)
    assert LineString(route.path[1:-1]).distance(LineString(wall)) > 0


def test_a_lead_with_no_way_has_none() -> None:
    wall = np.array([[1000, 0], [1000, 1000]], float)
    assert lead_route(lead_floor(FLOOR, [], [wall]), (1500, 100), (500, 0)) is None


def test_a_fixture_and_a_doorway_strip_are_gone_round() -> None:
    bath = box(800, 0, 1200, 700)
    route = lead_route(lead_floor(FLOOR, [bath], []), (1500, 100), (500, 0))
    assert route is not None
    assert not LineString(route.path).crosses(bath)
    assert route.length_mm > 1000 + 600 + 700 + THERMOSTAT_HEIGHT_MM - 75


def test_a_large_room_takes_a_coarser_grid() -> None:
    hall = box(0, 0, 30_000, 20_000)
    floor = lead_floor(hall, [], [])
    assert floor.free.size <= 120_000 * 1.02
    route = lead_route(floor, (20_000, 10_000), (0, 10_000))
    assert route is not None
    assert route.length_mm == pytest.approx(20_000 + THERMOSTAT_HEIGHT_MM, abs=400)


def test_a_course_may_be_opened_on_every_straight_clear_of_its_corners() -> None:
    square = np.array([[0, 0], [500, 0], [500, 100], [0, 100]], float)
    places = places_to_open(square, 100, 50)
    # the sides of 500 from 100 to 400; the ends of 100 are too short for 100 and two bends
    assert [straight for straight, _ in places] == [0, 2]
    assert places[0][1][:, 0].tolist() == [100, 200, 300, 400]
