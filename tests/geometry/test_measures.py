"""Measures of rooms, by hand."""

from math import pi, sqrt

import pytest
from room_rows import face, finish_of, one_room, piece, resolve, room_row, surface

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room_measures import ShowerWalls

INCH = 25.4


def alcove_shower():  # noqa: ANN201 - a room
    """Build a 36 x 60 in pan across the far end of a 60 in wide room, a 4 in curb before it."""
    return one_room(
        piece("S", "shower floor", 0, 64 * INCH, 60 * INCH, 36 * INCH),
        piece("C", "curb", 0, 60 * INCH, 60 * INCH, 4 * INCH, height=4 * INCH),
        piece("D", "drain", 30 * INCH, 82 * INCH, diameter=4 * INCH),
        length=60 * INCH,
        width=100 * INCH,
    )


def test_an_alcove_pan_with_curb_has_four_inside_and_two_outside_corners() -> None:
    # common practice, no source
    measures = alcove_shower().measures
    assert (measures.wet_inside_corners, measures.wet_outside_corners) == (4, 2)


def test_falls_of_a_36_by_60_in_pan_with_its_drain_in_the_middle() -> None:
    # far corner sqrt(18^2 + 30^2) = 34.986 in, straight edge 30 in (computed)
    (shower,) = alcove_shower().measures.showers
    assert shower.corner_distance_m == pytest.approx(sqrt(18**2 + 30**2) * 0.0254)
    assert shower.edge_distance_m == pytest.approx(30 * 0.0254)
    assert (shower.drains, shower.channel) == (1, False)


def test_an_alcove_pan_lies_against_three_walls_and_its_curb() -> None:
    (shower,) = alcove_shower().measures.showers
    assert shower.wall_edge_m == pytest.approx((36 + 60 + 36) * 0.0254)
    assert shower.curb_edge_m == pytest.approx(60 * 0.0254)


def test_a_curb_between_walls_has_a_top_and_two_faces_but_no_ends() -> None:
    room = alcove_shower()
    sides = {s.key: s.region.area_m2 / 0.0254**2 for s in room.surfaces if s.key.startswith("curb")}
    assert sides == {
        "curb C top": pytest.approx(240),
        "curb C face 1": pytest.approx(240),
        "curb C face 2": pytest.approx(240),
    }
    assert surface(room, "curb C top").open_edges_mm320 == 2 * 60 * 8128


def test_bands_run_round_the_pan_up_its_corners_and_round_the_curb() -> None:
    # pan 132 + 60 in; two back corners to 1.8 m; curb: foot 60, up 2 x 4 and over 4 at two walls
    measures = alcove_shower().measures
    inches = 132 + 60 + 60 + 2 * (2 * 4 + 4)
    assert measures.wet_change_of_plane_m == pytest.approx(inches * 0.0254 + 2 * 1.8)


def test_a_curb_with_a_free_end_has_one_end_and_three_outside_corners() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 1000, 900, 900),
        piece("C", "curb", 0, 900, 900, 100, height=100),
        piece("D", "drain", 450, 1450, diameter=110),
        length=2000,
        width=1900,
    )
    ends = [s.key for s in room.surfaces if "end" in s.key]
    assert ends == ["curb C end 2"]
    # one where the curb meets the left wall, two at the free end
    assert room.measures.wet_outside_corners == 1 + 2
    # inside: far left, and where curb meets left wall; the right side is open
    assert room.measures.wet_inside_corners == 2


def test_a_niche_has_four_inside_and_four_outside_corners() -> None:
    # common practice, no source
    room = one_room(
        face("far", 2000, 2100),
        face("far", 900, 2100, part="wet area"),
        face("far", 300, 600, part="niche", left=300, bottom=1200, depth=90),
        length=2000,
        width=3000,
    )
    assert (room.measures.wet_inside_corners, room.measures.wet_outside_corners) == (4, 4)
    assert room.measures.change_of_plane_m[SurfaceKind.NICHE] == pytest.approx(1.8 + 4 * 0.09)
    areas = {s.key: s.region.area_m2 for s in room.surfaces if s.kind is SurfaceKind.NICHE}
    assert areas == {
        "niche far back": pytest.approx(0.18),
        "niche far left": pytest.approx(0.054),
        "niche far right": pytest.approx(0.054),
        "niche far top": pytest.approx(0.027),
        "niche far bottom": pytest.approx(0.027),
    }
    assert surface(room, "wet area far").region.area_m2 == pytest.approx(1.89 - 0.18)
    assert surface(room, "wall far").region.area_m2 == pytest.approx(4.2 - 1.89)


def test_base_goes_along_walls_but_not_doorways_fixtures_or_tiled_walls() -> None:
    # 2 x 3 m: 10 m round; doorway 0.8; bath along 1.7 and 0.7; far wall tiled from the floor 2.0
    room = one_room(
        piece("B", "bath", 0, 1300, 700, 1700),
        piece("Door", "doorway", 600, length=800, wall="near"),
        face("far", 2000, 2000),
        length=2000,
        width=3000,
    )
    assert sum(room.measures.base_stretches_mm320) == (10_000 - 800 - 1700 - 2000) * 320
    assert sorted(room.measures.base_stretches_mm320) == [
        192_000, 192_000, 416_000, 960_000,
    ]  # fmt: skip
    assert room.measures.doorway_m == pytest.approx(0.8)
    assert room.measures.bath_wall_m == pytest.approx(2.4)


def test_sealant_runs_along_a_bath_on_the_floor_and_along_tiled_walls() -> None:
    # free sides 0.7 + 1.7; the far wall is tiled (0.7), the left wall is not
    room = one_room(
        piece("B", "bath", 0, 1300, 700, 1700), face("far", 2000, 2000), length=2000, width=3000
    )
    assert room.measures.fixture_edge_m == pytest.approx(0.7 + 1.7 + 0.7)


def test_round_holes_are_sealed_round() -> None:
    room = one_room(
        piece("WC", "toilet outlet", 1000, 2700, diameter=110),
        piece("P", "pipe", 300, 300, diameter=40),
        length=2000,
        width=3000,
    )
    assert room.measures.round_fixture_m == pytest.approx(pi * 0.150)


def test_a_pipe_in_a_cabinet_is_sealed_only_where_tile_lies_under_the_cabinet() -> None:
    parts = (
        piece("V", "cabinet", 0, 1500, 600, 500),
        piece("P", "pipe", 300, 1800, diameter=50),
        piece("WC", "toilet outlet", 1000, 2700, diameter=110),
    )
    bare = one_room(*parts, length=2000, width=3000)
    tiled = one_room(*parts, length=2000, width=3000, job=Job(tile_under_cabinets=True))
    assert bare.measures.round_fixture_m == pytest.approx(pi * 0.110)
    assert tiled.measures.round_fixture_m == pytest.approx(pi * 0.160)


def test_tiled_walls_that_meet_in_a_corner_have_a_joint_as_high_as_the_lower() -> None:
    room = one_room(face("far", 2000, 2400), face("left", 3000, 1200), length=2000, width=3000)
    assert room.measures.change_of_plane_m[SurfaceKind.WALL] == pytest.approx(1.2)
    # the low wall's top is an open edge; so is its end at the untiled near wall: no
    assert surface(room, "wall left").open_edges_mm320 == 3000 * 320
    assert surface(room, "wall far").open_edges_mm320 == 0


def test_half_high_tiling_has_an_open_top_although_nothing_is_higher() -> None:
    # no ceiling is at 1.2 m: 2 m + 3 m of trim; at 2.1 m the highest faces may reach it
    def tops(height: float) -> float:
        room = one_room(face("far", 2000, height), face("left", 3000, height), length=2000,
                        width=3000)  # fmt: skip
        return sum(s.open_edges_mm320 for s in room.surfaces) / 320

    assert [tops(height) for height in (1200, 2000, 2099, 2100, 2400)] == [5000, 5000, 5000, 0, 0]


def test_wet_areas_that_meet_make_a_wet_corner() -> None:
    room = one_room(
        face("far", 2000, 2400), face("far", 900, 2000, part="wet area"),
        face("left", 3000, 2400), face("left", 900, 1800, part="wet area", left=2100),
        length=2000, width=3000,
    )  # fmt: skip
    assert room.measures.change_of_plane_m[SurfaceKind.WET_AREA] == pytest.approx(1.8)
    assert room.measures.change_of_plane_m[SurfaceKind.WALL] == pytest.approx(0.6)


def test_an_opening_with_depth_has_reveals_where_the_face_goes_on() -> None:
    # window 0.6 x 0.5 m in a face of 2 x 2.4 m: two sides, head and sill
    room = one_room(
        face("far", 2000, 2400),
        face("far", 600, 500, part="opening", left=500, bottom=1000, depth=150),
        length=2000,
        width=3000,
    )
    areas = {s.key: s.region.area_m2 for s in room.surfaces if s.key.startswith("opening")}
    assert areas == {
        "opening far left": pytest.approx(0.075),
        "opening far right": pytest.approx(0.075),
        "opening far head": pytest.approx(0.09),
        "opening far sill": pytest.approx(0.09),
    }
    assert surface(room, "wall far").region.area_m2 == pytest.approx(4.8 - 0.3)
    assert sum(s.open_edges_mm320 for s in room.surfaces) == 2 * (600 + 500) * 320
    # sealed at the frame, and in four corners of 0.15 m
    assert room.measures.change_of_plane_m[SurfaceKind.WALL] == pytest.approx(2.2 + 4 * 0.15)


def test_a_door_opening_has_no_sill_reveal() -> None:
    room = one_room(
        face("near", 2000, 2400),
        face("near", 800, 2000, part="opening", left=500, depth=100),
        length=2000,
        width=3000,
    )
    assert [s.key for s in room.surfaces if s.key.startswith("opening")] == [
        "opening near left", "opening near right", "opening near head",
    ]  # fmt: skip
    # two corners of 0.1 m, and the frame: up, across, down
    sealed = room.measures.change_of_plane_m[SurfaceKind.WALL]
    assert sealed == pytest.approx(2 * 0.1 + 2.0 + 0.8 + 2.0)


def test_the_reveals_of_a_window_in_a_shower_take_band_in_their_corners() -> None:
    def wet_bends(depth: float | None) -> float:
        window = face("far", 600, 500, part="opening", left=500, bottom=1000, depth=depth)
        wet = face("far", 1500, 2000, part="wet area")
        room = one_room(face("far", 2000, 2400), wet, window, length=2000, width=3000)
        return room.measures.wet_change_of_plane_m

    assert wet_bends(150) - wet_bends(None) == pytest.approx(4 * 0.15)


def test_a_near_wall_with_a_door_reveal_is_measured_as_one() -> None:
    room = one_room(
        piece("Reveal", "floor", 600, -100, 800, 100),
        face("near", 2000, 2400),
        face("near", 800, 2000, part="opening", left=600),
        length=2000,
        width=3000,
    )
    assert surface(room, "wall near").region.area_m2 == pytest.approx(4.8 - 1.6)


def test_a_pier_clad_on_all_sides_has_two_outside_corner_edges() -> None:
    # pier 0.4 x 0.3 m at the far wall; its front and both sides tiled 2.4 m high
    room = one_room(
        piece("Pier", "void", 800, 2700, 400, 300),
        face("far 2", 400, 2400), face("left 2", 300, 2400), face("right 2", 300, 2400),
        length=2000, width=3000,
    )  # fmt: skip
    edges = sum(s.open_edges_mm320 for s in room.surfaces)
    # two outside corners; the sides' other ends are inside corners with untiled walls
    assert edges == 2 * 2400 * 320


def test_a_floor_flush_with_a_shower_floor_has_a_joint_there() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 0, 900, 900),
        piece("D", "drain", 450, 450, diameter=110),
        length=2000,
        width=2000,
    )
    (shower,) = room.measures.showers
    assert shower.wall_edge_m == pytest.approx(1.8)
    joined = surface(room, "shower floor S").joined_edges
    assert sorted(joined) == sorted(
        [((288_000, 0), (288_000, 288_000)), ((288_000, 288_000), (0, 288_000))]
    )


def test_a_channel_has_a_one_way_fall_to_it() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 0, 900, 1200),
        piece("D", "drain", 0, 0, 900, 60),
        length=900,
        width=3000,
    )
    (shower,) = room.measures.showers
    assert shower.channel
    assert shower.edge_distance_m == pytest.approx(1.14)


def test_walls_not_tiled_by_the_finish_leave_the_base_and_have_no_joint() -> None:
    (room,), _ = resolve(
        room_row(face("far", 2000, 2000), face("left", 3000, 2000), length=2000, width=3000),
        finish=finish_of(SurfaceKind.FLOOR, SurfaceKind.BASE),
    )
    assert sum(room.measures.base_stretches_mm320) == 10_000 * 320
    assert SurfaceKind.WALL not in room.measures.change_of_plane_m


def test_wet_corners_of_a_shower_without_wet_areas_go_to_the_jobs_height() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 0, 900, 900),
        piece("D", "drain", 450, 450, diameter=110),
        job=Job(wet_wall_height_mm320=2000 * 320),
        length=2000,
        width=2000,
    )
    # 2 x 0.9 m along walls, and the one corner
    assert room.measures.wet_change_of_plane_m == pytest.approx(1.8 + 2.0)


def test_corners_of_the_floor_lie_between_two_walls() -> None:
    # an L of 3 x 2 m less 1 x 1 m at the far right: five inside corners and one outside; a shower
    # in the far left corner takes one of them
    room = one_room(
        piece("A", "floor", 0, 1000, 2000, 1000),
        piece("S", "shower floor", 0, 1100, 900, 900),
        piece("D", "drain", 450, 1550, diameter=110),
        length=3000,
        width=1000,
    )
    measures = room.measures
    assert (measures.inside_corners, measures.outside_corners) == (5, 1)
    assert (measures.floor_inside_corners, measures.floor_outside_corners) == (4, 1)
    assert measures.wet_inside_corners == 1


def backed(room) -> dict[tuple[SurfaceKind, SurfaceKind, float], float]:  # noqa: ANN001 - a room
    """Edges with a wall surface behind: (floor, wall, top in mm) -> length in m."""
    return {
        (edge.floor, edge.wall, edge.top_mm320 / 320): pytest.approx(edge.length_m)
        for edge in room.measures.backed_edges
    }


def test_an_edge_of_the_floor_knows_what_stands_behind_it_and_how_high() -> None:
    # 2 x 3 m, all of the far wall tiled to 2.1 m, its left 900 mm a wet area from the floor; in
    # the dry part a 300 mm wide niche whose foot is 100 mm up; a door of 800 in the near wall,
    # which has a face; left and right wall have none
    room = one_room(
        piece("Door", "doorway", 600, length=800, wall="near"),
        face("far", 2000, 2100),
        face("far", 900, 2000, part="wet area"),
        face("far", 300, 600, part="niche", left=1200, bottom=100, depth=90),
        face("near", 2000, 1200),
        length=2000,
        width=3000,
    )
    floor = SurfaceKind.FLOOR
    assert backed(room) == {
        (floor, SurfaceKind.WET_AREA, 2000): 0.9,
        (floor, SurfaceKind.WALL, 2100): 2.0 - 0.9 - 0.3,
        (floor, SurfaceKind.WALL, 100): 0.3,
        (floor, SurfaceKind.WALL, 1200): 2.0 - 0.8,
    }


def test_a_face_that_hangs_above_the_floor_backs_no_edge() -> None:
    room = one_room(face("far", 2000, 1200, bottom=900), length=2000, width=3000)
    assert room.measures.backed_edges == ()


def test_an_inset_knows_what_it_is_let_into() -> None:
    room = one_room(
        piece("Panel", "inset", 500, 500, 600, 600),
        face("far", 2000, 2100),
        face("far", 900, 2100, part="wet area"),
        face("far", 300, 300, part="inset", left=300, bottom=1200),
        face("far", 300, 300, part="inset", left=1200, bottom=1200),
        length=2000,
        width=3000,
    )
    assert {s.key: s.plane for s in room.surfaces if s.kind is SurfaceKind.INSET} == {
        "inset Panel": SurfaceKind.FLOOR,
        "wall inset far": SurfaceKind.WET_AREA,
        "wall inset far no. 2": SurfaceKind.WALL,
    }


def test_walls_beside_a_shower_are_wet_dry_or_bare() -> None:
    # 0.9 x 0.9 m in the far left corner: the left wall has a wet area of 0.6 m there, the far wall
    # a face and no wet area, and the tray in the near right corner two bare walls, less the door
    room = one_room(
        piece("S", "shower floor", 0, 2100, 900, 900),
        piece("D", "drain", 450, 2550, diameter=100),
        piece("T", "shower tray", 1200, 0, 800, 800),
        piece("Door", "doorway", 600, length=700, wall="near"),
        face("left", 3000, 2100),
        face("left", 600, 2000, part="wet area", left=2400, bottom=100),
        face("far", 2000, 2100),
        length=2000,
        width=3000,
    )
    assert room.measures.shower_walls == ShowerWalls(
        all_m=pytest.approx(1.8 + 0.7 + 0.8),
        dry_m=pytest.approx(0.3 + 0.9 + 0.7 + 0.8),
        bare_m=pytest.approx(0.7 + 0.8),
        dry=("near", "right", "far", "left"),
        bare=("near", "right"),
    )
