"""Open edges of walls, where trim goes: worked by hand on walls of 3 m."""

from room_rows import face, finish_of, one_room, piece, resolve, room_row

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Room


def edges(room: Room) -> dict[str, float]:
    """Length of open edge of each surface that has one [mm]."""
    return {s.key: s.open_edges_mm320 / 320 for s in room.surfaces if s.open_edges_mm320}


def test_a_shower_wall_that_is_wet_all_over_keeps_its_edges() -> None:
    # 1.5 m of a wall of 3 m, to the ceiling: one upright edge; lower, its top as well
    def shower(height: float) -> dict[str, float]:
        return edges(one_room(
            face("left", 1500, height, left=1500),
            face("left", 1500, height, left=1500, part="wet area"),
            length=3000, width=3000,
        ))  # fmt: skip

    assert shower(2133) == {"wet area left": 2133}
    assert shower(1800) == {"wet area left": 1800 + 1500}


def test_the_edges_of_a_niche_are_those_of_the_wet_area_round_it() -> None:
    room = one_room(
        face("far", 3000, 2400),
        face("far", 900, 2400, part="wet area"),
        face("far", 300, 400, left=200, bottom=1100, depth=90, part="niche"),
        length=3000,
        width=3000,
    )
    assert edges(room) == {"wet area far": 2 * (300 + 400)}


def test_an_edge_is_shared_by_the_wet_area_and_the_face_that_it_runs_along() -> None:
    # the top of 3 m ends at 1.2 m; 0.9 m of it is the wet area's
    room = one_room(
        face("far", 3000, 1200), face("far", 900, 1200, part="wet area"), length=3000, width=3000
    )
    assert edges(room) == {"wall far": 2100, "wet area far": 900}


def test_where_only_the_wet_area_is_tiled_its_own_sides_are_open() -> None:
    # the wall beside it and above it is bare: an upright of 2.1 m and a top of 0.9 m
    (room,), _ = resolve(
        room_row(
            face("far", 3000, 2400),
            face("far", 900, 2100, part="wet area"),
            length=3000,
            width=3000,
        ),
        finish=finish_of(SurfaceKind.FLOOR, SurfaceKind.WET_AREA),
    )
    assert edges(room) == {"wet area far": 2100 + 900}


def test_a_splash_back_that_hangs_is_open_all_round() -> None:
    room = one_room(face("far", 600, 300, left=800, bottom=900), length=3000, width=3000)
    assert edges(room) == {"wall far": 2 * (600 + 300)}


def test_a_bottom_is_open_only_where_nothing_stands_under_it() -> None:
    # a bath of 1.7 m along a wall of 3 m; the face reaches the ceiling and both corners
    room = one_room(
        piece("B", "bath", 0, 2300, 1700, 700),
        face("far", 3000, 1600, bottom=550),
        length=3000,
        width=3000,
    )
    assert edges(room) == {"wall far": 1300}


def test_a_face_above_a_door_or_another_face_has_no_open_bottom() -> None:
    over_door = one_room(
        piece("D", "doorway", 1000, 0, 800),
        face("near", 1000, 2400, left=2000),
        face("near", 800, 400, left=1200, bottom=2000),
        face("near", 1200, 2400),
        length=3000,
        width=3000,
    )
    stacked = one_room(
        face("far", 3000, 1000), face("far", 3000, 1400, bottom=1000), length=3000, width=3000
    )
    assert edges(over_door) == edges(stacked) == {}


def test_the_inside_corners_of_a_side_measured_as_one_are_no_open_edges() -> None:
    # a duct of 0.4 m in the far left corner and an alcove on the right: the far side is three
    # stretches end to end, and the face fills the middle one, from corner to corner
    def far_side(left: float, length: float) -> dict[str, float]:
        return edges(one_room(
            piece("Duct", "void", 0, 2700, 400, 300),
            piece("Alcove", "floor", 3000, 500, 800, 1000),
            face("far", length, 2400, left=left),
            face("far", 300, 2000, left=3200),  # in the alcove: the rows run over the whole side
            length=3000,
            width=3000,
        ))  # fmt: skip

    alcove = {"wall far no. 2": 300 + 2 * 2000}
    assert far_side(400, 2600) == alcove
    assert far_side(400, 1500) == {"wall far": 2400, **alcove}  # ends along the wall
    assert far_side(900, 1500) == {"wall far": 2 * 2400, **alcove}


def test_the_outside_corner_of_a_side_measured_as_one_is_an_open_edge() -> None:
    # a pier stands out between two stretches of the far wall: its front, between outside corners
    room = one_room(
        piece("Pier", "void", 1000, 2800, 500, 200),
        face("far", 1500, 2400, left=1500),
        face("far", 500, 2400, left=1000),
        length=3000,
        width=3000,
    )
    assert edges(room) == {"wall far no. 2": 2400}
