"""Rooms worked by hand: L, U, alcove, reveal, pier, Same as, Handed."""

import pytest
from room_rows import (
    EVERYTHING,
    codes,
    face,
    finish_of,
    leg,
    mm,
    one_room,
    piece,
    resolve,
    room_row,
    surface,
)

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import FloorPiece, WallFace, WallLeg


def test_a_rectangle_is_length_along_left_and_width_along_front() -> None:
    room = one_room(length=2000, width=3000)
    assert room.outline.bounds == (0, 0, 640_000, 960_000)
    assert [w.name for w in room.walls] == ["near", "right", "far", "left"]
    assert room.measures.outline_perimeter_m == 10.0
    assert (room.measures.inside_corners, room.measures.outside_corners) == (4, 0)


def test_an_l_from_floor_pieces() -> None:
    # 3 x 2 m and 1.2 x 1.5 m beyond its far left: 6 + 1.8 m2, round 2 * (3 + 3.5) m
    room = one_room(piece("A", "floor", 0, 0, 3000, 2000), piece("B", "floor", 0, 2000, 1200, 1500))
    assert room.outline.area_m2 == 7.8
    assert room.measures.outline_perimeter_m == 13.0
    assert (room.measures.inside_corners, room.measures.outside_corners) == (5, 1)


def test_a_u_has_six_inside_corners_and_two_outside() -> None:
    room = one_room(
        piece("A", "floor", 0, 0, 3000, 1000),
        piece("B", "floor", 0, 1000, 800, 2000),
        piece("C", "floor", 2200, 1000, 800, 2000),
    )
    assert room.outline.area_m2 == pytest.approx(3.0 + 1.6 + 1.6)
    assert (room.measures.inside_corners, room.measures.outside_corners) == (6, 2)
    assert [w.name for w in room.walls] == [
        "near", "right", "far 2", "left 2", "far", "right 2", "far 3", "left",
    ]  # fmt: skip


def test_an_alcove_adds_to_the_rectangle() -> None:
    room = one_room(piece("Alcove", "floor", 500, 3000, 1000, 800), length=2000, width=3000)
    assert room.outline.area_m2 == pytest.approx(6.8)


def test_a_door_reveal_lies_before_the_near_wall_and_has_the_doorway() -> None:
    # near wall 2 m with a reveal 0.8 m wide and 0.1 m deep from 0.6 m
    room = one_room(
        piece("Reveal", "floor", 600, -100, 800, 100),
        piece("Door", "doorway", 600, length=800, wall="near"),
        length=2000,
        width=3000,
    )
    (door,) = room.doorways
    assert (door.start, door.end) == ((mm(600), mm(-100)), (mm(1400), mm(-100)))
    assert room.outline.area_m2 == pytest.approx(6.08)
    # round: 10 m and both sides of the reveal; base everywhere but in the doorway
    assert room.measures.outline_perimeter_m == pytest.approx(10.2)
    assert sum(room.measures.base_stretches_mm320) == 9400 * 320


def test_a_pier_is_taken_out_and_its_sides_are_walls() -> None:
    # 0.4 x 0.3 m pier in the middle of the far wall of 2 x 3 m
    room = one_room(piece("Pier", "void", 800, 2700, 400, 300), length=2000, width=3000)
    assert room.outline.area_m2 == pytest.approx(5.88)
    assert room.measures.outline_perimeter_m == pytest.approx(10.6)
    assert (room.measures.inside_corners, room.measures.outside_corners) == (6, 2)
    assert surface(room, "floor").region == room.outline


def test_a_free_standing_duct_is_a_hole_with_walls() -> None:
    room = one_room(piece("Duct", "void", 500, 500, 200, 200), length=2000, width=3000)
    assert len(room.walls) == 8
    assert room.measures.outline_perimeter_m == pytest.approx(10.8)


def test_main_floor_is_outline_less_what_has_a_surface_of_its_own_or_no_tile() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 2000, 900, 1000),
        piece("C", "curb", 900, 2000, 100, 1000, height=100),
        piece("B", "bath", 1300, 0, 700, 1700),
        piece("I", "inset", 200, 200, 500, 400),
        piece("D", "drain", 450, 2500, diameter=110),
        length=2000,
        width=3000,
    )
    assert surface(room, "floor").region.area_m2 == pytest.approx(6 - 0.9 - 0.1 - 1.19 - 0.2)
    assert surface(room, "shower floor S").region.area_m2 == pytest.approx(0.9)
    assert surface(room, "inset I").region.area_m2 == pytest.approx(0.2)


def test_a_floor_fully_drawn_as_shower_floor_is_a_wet_room() -> None:
    room = one_room(
        piece("S", "shower floor", 0, 0, 2000, 1500),
        piece("D", "drain", 1000, 750, diameter=110),
        length=2000,
        width=1500,
    )
    assert [s.key for s in room.surfaces] == ["shower floor S"]
    assert room.measures.showers[0].inside_corners == 4


def test_a_round_drain_is_a_hole_and_a_channel_is_cut_out() -> None:
    with_hole = one_room(piece("D", "drain", 500, 500, diameter=110), length=1000, width=1000)
    assert surface(with_hole, "floor").region.area_m2 == 1.0
    assert len(surface(with_hole, "floor").holes) == 1
    channel = one_room(piece("D", "drain", 100, 900, 800, 60), length=1000, width=1000)
    assert surface(channel, "floor").region.area_m2 == pytest.approx(1 - 0.048)
    assert surface(channel, "floor").holes == ()


def test_a_pipe_in_a_cabinet_is_no_hole_unless_tile_lies_under_it() -> None:
    parts = (piece("V", "cabinet", 0, 0, 600, 500), piece("P", "pipe", 300, 250, diameter=40))
    room = one_room(*parts, length=2000, width=2000)
    assert surface(room, "floor").holes == ()
    under = one_room(*parts, job=Job(tile_under_cabinets=True), length=2000, width=2000)
    assert len(surface(under, "floor").holes) == 1
    assert surface(under, "floor").region.area_m2 == 4.0


def test_same_as_takes_the_description_and_keeps_its_own_name_and_count() -> None:
    rooms, findings = resolve(
        room_row(piece("B", "bath", 0, 0, 700, 1700), name="2.01", length=2000, width=3000),
        room_row(name="2.02", same_as="2.01", count=3, copies=("a", "b", "c")),
        room_row(name="2.03", same_as="2.02", handed=True),
    )
    assert findings == ()
    assert [r.name for r in rooms] == ["2.01", "2.02", "2.03"]
    assert rooms[1].copies == ("a", "b", "c")
    assert rooms[0].shape == rooms[1].shape != rooms[2].shape
    assert surface(rooms[2], "floor").region.bounds == (0, 0, 640_000, 960_000)
    assert rooms[2].fixtures[0].region is not None
    assert rooms[2].fixtures[0].region.bounds[0] == mm(1300)


def test_rooms_typed_alike_have_one_shape_and_another_finish_has_another() -> None:
    other = finish_of(*SurfaceKind, name="G")
    rooms, _ = resolve(
        room_row(name="1", length=2000, width=3000), room_row(name="2", length=2000, width=3000)
    )
    assert rooms[0].shape == rooms[1].shape
    (third,), _ = resolve(room_row(name="3", length=2000, width=3000, finish="G"), finish=other)
    assert third.shape != rooms[0].shape


def test_handed_mirrors_pieces_walls_and_faces() -> None:
    parts = (
        piece("Door", "doorway", 200, length=800, wall="near"),
        piece("WC", "toilet outlet", 400, 2700, diameter=110),
        face("left", 1000, 2000, left=0),
    )
    (room,), _ = resolve(room_row(*parts, length=2000, width=3000, handed=True))
    assert surface(room, "floor").holes[0].centre == (mm(1600), mm(2700))
    assert room.doorways[0].start == (mm(1000), 0)
    # the left face begins at the near corner; on the right wall that is the right hand end
    assert surface(room, "wall right").region.bounds == (mm(2000), 0, mm(3000), mm(2000))


IMPOSSIBLE: tuple[tuple[str, tuple[FloorPiece | WallFace | WallLeg, ...], str], ...] = (
    ("a bath beyond the wall", (piece("B", "bath", 1500, 0, 700, 1700),), "PIECE-OUTSIDE-OUTLINE"),
    ("a drain in the wall", (piece("D", "drain", 10, 10, diameter=110),), "PIECE-OUTSIDE-OUTLINE"),
    (
        "two fixtures on one place",
        (piece("B", "bath", 0, 0, 700, 1700), piece("V", "cabinet", 500, 0, 600, 500)),
        "PIECES-OVERLAP",
    ),
    (
        "a drain half in the shower",
        (piece("S", "shower floor", 0, 0, 900, 900), piece("D", "drain", 900, 450, diameter=110)),
        "PIECES-OVERLAP",
    ),
    ("a floor piece over the room", (piece("A", "floor", 100, 100, 500, 500),),
     "FLOOR-PIECE-OVERLAPS"),
    ("a floor piece apart", (piece("A", "floor", 2500, 0, 500, 500),), "ROOM-IN-TWO-PARTS"),
    ("a void across the room", (piece("V", "void", 0, 1000, 2000, 100),), "ROOM-IN-TWO-PARTS"),
    ("a void all over the room", (piece("V", "void", 0, 0, 2000, 3000),), "ROOM-WITHOUT-FLOOR"),
    ("a curb without height", (piece("C", "curb", 0, 0, 100, 900),), "PIECE-SIZE-MISSING"),
    ("a bath without width", (piece("B", "bath", 0, 0, 700),), "PIECE-SIZE-MISSING"),
    ("a round bath", (piece("B", "bath", 0, 0, 700, 1700, diameter=500),), "PIECE-SHAPE-UNCLEAR"),
    ("a bath of no size", (piece("B", "bath", 0, 0, 0, 1700),), "SIZE-NOT-POSITIVE"),
    (
        "one name for two pieces",
        (piece("B", "bath", 0, 0, 700, 1700), piece("b", "cabinet", 1000, 0, 600, 500)),
        "PIECE-NAME-TWICE",
    ),
    ("a doorway in the room", (piece("D", "doorway", 500, 500, 800),), "DOORWAY-NOT-ON-OUTLINE"),
    (
        "a doorway past the corner",
        (piece("D", "doorway", 1500, length=800, wall="near"),),
        "DOORWAY-NOT-ON-OUTLINE",
    ),
    ("a doorway nowhere", (piece("D", "doorway", length=800),), "PIECE-PLACE-MISSING"),
    ("a doorway of no size", (piece("D", "doorway", 500, wall="near"),), "PIECE-SIZE-MISSING"),
    ("a thermostat in the room", (piece("T", "thermostat", 500, 500),),
     "THERMOSTAT-NOT-ON-OUTLINE"),
    ("a thermostat on no wall", (piece("T", "thermostat", 500, wall="fra"),), "WALL-UNKNOWN"),
    ("a face longer than its wall", (face("far", 2100, 2000),), "FACE-LONGER-THAN-WALL"),
    ("a face of no wall", (face("north", 2000, 2000),), "WALL-UNKNOWN"),
    (
        "an opening larger than its wall",
        (face("far", 2000, 2000), face("far", 2200, 1000, part="opening")),
        "PART-LARGER-THAN-WALL",
    ),
    (
        "a niche beyond its face",
        (face("far", 1000, 2000), face("far", 300, 300, part="niche", left=900, depth=90)),
        "PART-OUTSIDE-FACE",
    ),
    (
        "a niche without depth",
        (face("far", 2000, 2000), face("far", 300, 300, part="niche")),
        "NICHE-WITHOUT-DEPTH",
    ),
    ("an opening in no face", (face("far", 500, 500, part="opening"),), "PART-OUTSIDE-FACE"),
    (
        "two openings on one place",
        (face("far", 2000, 2000), face("far", 500, 500, part="opening"),
         face("far", 500, 500, part="opening", left=400)),
        "WALL-PARTS-OVERLAP",
    ),
    ("two faces on one place", (face("far", 1000, 2000), face("far", 1000, 2000, left=500)),
     "WALL-PARTS-OVERLAP"),
    ("two doorways on one place", (piece("D", "doorway", 200, length=800, wall="near"),
     piece("E", "doorway", 900, length=800, wall="near")), "DOORWAYS-OVERLAP"),
    ("legs that say otherwise", (leg("1", 0, 2500), leg("2", 90, 3000), leg("3", 90, 2500),
     leg("4", 90, 3000)), "OUTLINES-DISAGREE"),
)  # fmt: skip


@pytest.mark.parametrize(("parts", "code"), [case[1:] for case in IMPOSSIBLE],
                         ids=[case[0] for case in IMPOSSIBLE])  # fmt: skip
def test_an_impossible_room_is_one_finding(
    parts: tuple[FloorPiece | WallFace | WallLeg, ...], code: str
) -> None:
    rooms, findings = resolve(room_row(*parts, length=2000, width=3000))
    assert [f.code for f in findings] == [code]
    assert rooms == ()


def test_everything_impossible_is_told_at_once() -> None:
    assert codes(
        piece("B", "bath", 1500, 0, 700, 1700),
        piece("D", "doorway", 500, 500, 800),
        face("far", 2100, 2000),
        length=2000,
        width=3000,
    ) == ["PIECE-OUTSIDE-OUTLINE", "DOORWAY-NOT-ON-OUTLINE", "FACE-LONGER-THAN-WALL"]


@pytest.mark.parametrize(
    ("sizes", "code"),
    [
        ({}, "ROOM-WITHOUT-OUTLINE"),
        ({"length": 2000}, "ROOM-SIZE-INCOMPLETE"),
        ({"length": 2000, "width": -5}, "SIZE-NOT-POSITIVE"),
        ({"length": 0, "width": 2000}, "SIZE-NOT-POSITIVE"),
    ],
)
def test_a_room_needs_two_sizes_above_nothing(sizes: dict[str, float], code: str) -> None:
    assert codes(**sizes) == [code]


def test_a_name_twice_is_a_finding_on_the_second_row() -> None:
    rooms, findings = resolve(
        room_row(name="2.07", length=2000, width=3000),
        room_row(name="2.07", length=1000, width=1000),
    )
    assert [f.code for f in findings] == ["ROOM-NAME-TWICE"]
    assert len(rooms) == 1


def test_copies_agree_with_count() -> None:
    _, findings = resolve(room_row(length=2000, width=2000, count=3, copies=("a", "b")))
    assert [f.code for f in findings] == ["COPIES-DISAGREE"]


def test_a_wet_area_without_a_row_in_the_finish_is_an_error() -> None:
    parts = (face("far", 2000, 2000), face("far", 900, 2000, part="wet area"))
    rooms, findings = resolve(
        room_row(*parts, length=2000, width=3000),
        finish=finish_of(SurfaceKind.FLOOR, SurfaceKind.WALL),
    )
    assert [f.code for f in findings] == ["WET-AREA-WITHOUT-FINISH"]
    assert rooms == ()


def test_a_niche_without_a_row_in_the_finish_is_a_warning_once() -> None:
    parts = (
        face("far", 2000, 2000),
        face("far", 300, 300, part="niche", depth=90),
        face("far", 300, 300, part="niche", left=1000, depth=90),
    )
    rooms, findings = resolve(
        room_row(*parts, length=2000, width=3000),
        finish=finish_of(SurfaceKind.FLOOR, SurfaceKind.WALL),
    )
    assert [f.code for f in findings] == ["SURFACE-NOT-TILED"]
    assert len(rooms) == 1


def test_precedence_decides_where_a_column_meets_a_shower_floor() -> None:
    (room,), findings = resolve(
        room_row(
            piece("S", "shower floor", 0, 0, 1000, 1000),
            piece("C", "column", 800, 0, 200, 200),
            piece("D", "drain", 400, 400, diameter=110),
            length=2000,
            width=2000,
        )
    )
    assert [f.code for f in findings] == ["PIECES-MEET"]
    assert surface(room, "shower floor S").region.area_m2 == pytest.approx(0.96)


def test_what_stands_on_a_wet_rooms_floor_is_taken_out_of_it_and_outlets_are_drilled() -> None:
    # 2 x 1.5 m, all of it shower floor, less a vanity of 0.6 x 0.4 m: 2.76 m2
    (room,), findings = resolve(
        room_row(
            piece("S", "shower floor", 0, 0, 2000, 1500),
            piece("D", "drain", 1000, 700, diameter=110),
            piece("V", "cabinet", 0, 1100, 600, 400),
            piece("W", "toilet outlet", 1600, 1200, diameter=110),
            length=2000,
            width=1500,
        )
    )
    met = {f.facts["piece"]: f.facts["takes"] for f in findings if f.code == "PIECES-MEET"}
    assert met == {"V": "V", "W": "S"}
    wet = surface(room, "shower floor S")
    assert wet.region.area_m2 == pytest.approx(2.76)
    assert len(wet.holes) == 2
    # 7 m of wall less 0.6 and 0.4 behind the vanity; and its two free edges, sealed as fixtures
    assert room.measures.change_of_plane_m[SurfaceKind.SHOWER_FLOOR] == pytest.approx(6.0)
    assert room.measures.fixture_edge_m == pytest.approx(1.0)


def test_a_shower_floor_without_a_drain_is_a_warning() -> None:
    _, findings = resolve(
        room_row(piece("S", "shower floor", 0, 0, 900, 900), length=2000, width=2000)
    )
    assert [f.code for f in findings] == ["SHOWER-WITHOUT-DRAIN"]


def test_a_finding_quotes_lengths_that_the_job_can_show() -> None:
    _, findings = resolve(room_row(face("far", 2100, 2000), length=2000, width=3000))
    assert findings[0].facts["wall_length"] == Length(640_000, small=False)


def test_everything_is_tiled_where_the_finish_is_not_known() -> None:
    rooms, findings = resolve(
        room_row(face("far", 2000, 2000), length=2000, width=3000, finish="none"),
        finish=EVERYTHING,
    )
    assert findings == ()
    assert len(rooms) == 1
