"""Ways of cold leads on small floors that a hand can follow; 25 mm of grid either way."""

from collections import deque

import numpy as np
import pytest
from shapely import LineString, box

from sheetcalc.geometry.heating.cable_leads import (
    THERMOSTAT_HEIGHT_MM,
    LeadMap,
    LeadRoute,
    places_to_open,
)
from sheetcalc.geometry.heating.lead_floor import LeadFloor, lead_floor

FLOOR = box(0, 0, 2000, 1000)


def lead_route(
    floor: LeadFloor, splice: tuple[float, float], thermostat: tuple[float, float]
) -> LeadRoute | None:
    routes = LeadMap(floor, thermostat).routes(np.array([splice], float))
    return next((route for _, route in routes), None)


def test_a_lead_runs_in_right_angles_and_up_the_wall() -> None:
    floor = lead_floor(FLOOR, [])
    route = lead_route(floor, (1500, 500), (500, 0))
    assert route is not None
    # 1000 along, 500 across, then up
    assert route.length_mm == pytest.approx(1500 + THERMOSTAT_HEIGHT_MM, abs=50)


def test_a_lead_goes_round_a_cable_and_not_across_it() -> None:
    wall = np.array([[1000, 0], [1000, 800]], float)
    floor = lead_floor(FLOOR, []).beside([wall])
    route = lead_route(floor, (1500, 100), (500, 0))
    assert route is not None
    # up to 800 and down again: 700 + 1000 + 800
    assert route.length_mm == pytest.approx(2500 + THERMOSTAT_HEIGHT_MM, abs=150)
    assert LineString(route.path[1:-1]).distance(LineString(wall)) > 0


def test_a_lead_with_no_way_has_none() -> None:
    wall = np.array([[1000, 0], [1000, 1000]], float)
    assert lead_route(lead_floor(FLOOR, []).beside([wall]), (1500, 100), (500, 0)) is None


def test_a_fixture_and_a_doorway_strip_are_gone_round() -> None:
    bath = box(800, 0, 1200, 700)
    route = lead_route(lead_floor(FLOOR, [bath]), (1500, 100), (500, 0))
    assert route is not None
    assert not LineString(route.path).crosses(bath)
    assert route.length_mm > 1000 + 600 + 700 + THERMOSTAT_HEIGHT_MM - 75


def test_a_large_room_takes_a_coarser_grid() -> None:
    hall = box(0, 0, 30_000, 20_000)
    floor = lead_floor(hall, [])
    assert floor.free.size <= 120_000 * 1.02
    route = lead_route(floor, (20_000, 10_000), (0, 10_000))
    assert route is not None
    assert route.length_mm == pytest.approx(20_000 + THERMOSTAT_HEIGHT_MM, abs=400)


def test_a_course_may_be_opened_on_every_straight_clear_of_its_corners() -> None:
    square = np.array([[0, 0], [500, 0], [500, 100], [0, 100]], float)
    straights, middles = places_to_open(square, 100, 50)
    # the sides of 500 from 100 to 400; the ends of 100 are too short for 100 and two bends
    assert straights.tolist() == [0, 0, 0, 0, 2, 2, 2, 2]
    assert middles[:, 0].tolist() == [100, 200, 300, 400] * 2


def walked(free: np.ndarray, start: tuple[int, int]) -> dict[tuple[int, int], int]:
    """Steps to every cell, walking from each to its neighbours."""
    steps, waiting = {start: 0}, deque([start])
    while waiting:
        row, column = waiting.popleft()
        for r, c in ((row + 1, column), (row - 1, column), (row, column + 1), (row, column - 1)):
            inside = 0 <= r < free.shape[0] and 0 <= c < free.shape[1]
            if inside and free[r, c] and (r, c) not in steps:
                steps[r, c] = steps[row, column] + 1
                waiting.append((r, c))
    return steps


def test_ways_are_the_shortest_that_a_walk_from_cell_to_cell_finds() -> None:
    dice = np.random.default_rng(4)
    for shape in ((1, 9), (40, 7), (33, 50)):
        free = dice.random(shape) < 0.75
        start = (shape[0] // 2, shape[1] // 2)
        free[start] = True
        floor = LeadFloor(-100.0, 50.0, 25.0, free)
        (thermostat,) = floor.points_of(np.array([start])).tolist()
        steps = walked(free, start)
        cells = [(r, c) for r in range(shape[0]) for c in range(shape[1])]
        points = floor.points_of(np.array(cells))
        routes = LeadMap(floor, tuple(thermostat)).routes(points)
        found = {number: route.over_floor_mm for number, route in routes}
        assert list(found.values()) == sorted(found.values())
        for number, (row, column) in enumerate(cells):
            # a lead begins at the cell within two of its splice from which it is shortest
            near = [
                (n, abs(r - row), abs(c - column))
                for (r, c), n in steps.items()
                if max(abs(r - row), abs(c - column)) <= 2
            ]
            if near:
                least = min(n for n, _, _ in near)
                ways = {25.0 * sum(x) for x in near if x[0] == least}
                assert any(found[number] == pytest.approx(w) for w in ways), points[number]


def test_ways_come_in_the_same_order_however_many_of_them_are_asked_for() -> None:
    dice = np.random.default_rng(8)
    for _ in range(30):
        free = dice.random((30, 45)) < dice.uniform(0.55, 0.8)
        floor = LeadFloor(0.0, 0.0, 25.0, free)
        points = dice.uniform((0, 0), (1125, 750), (60, 2))
        thermostat = (dice.uniform(0, 1125), 0.0)
        # a map that was asked for another place's way before has flooded all that it can
        flooded = LeadMap(floor, thermostat)
        flooded_first = list(flooded.routes(points[::-1].copy()))
        again = list(flooded.routes(points))
        assert list(LeadMap(floor, thermostat).routes(points)) == again
        assert {59 - i for i, _ in flooded_first} == {i for i, _ in again}
