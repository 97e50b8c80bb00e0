"""What the drawings of a room show, as shapes and in words."""

import io
from itertools import combinations

import pytest
import shapely
from drawing.drawn_rooms import FLOOR, JOB, LEGEND, MM, OUTLINE, VANITY, M, box, cable, room, work
from msgspec.structs import replace
from PIL import Image

from sheetcalc.domain.card import drawn_surfaces
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.measure import INCH, JobUnits
from sheetcalc.domain.room import Circle, Fixture, PieceKind
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.arrange import arrange
from sheetcalc.drawing.cables import cable_plan, row_numbers
from sheetcalc.drawing.canvas import INK, Canvas
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.labels import Labels
from sheetcalc.drawing.plan import Dimension, PlanDrawing, PointMark, TileMark
from sheetcalc.drawing.room import room_pictures, room_plans
from sheetcalc.drawing.setting_outs import floor_plan, wall_plan
from sheetcalc.drawing.strips import strip_plans
from sheetcalc.drawing.words import MOST_CHARACTERS, Legend


def floor_drawing(done: RoomWork) -> PlanDrawing:
    return floor_plan(done, done.setting_outs["floor"], "A", LEGEND)


def test_a_floor_shows_its_room_with_the_door_at_the_bottom() -> None:
    plan = floor_drawing(work())
    assert plan.region == OUTLINE
    (door,) = [side for side in plan.sides if side.door]
    assert door.words == "Door"
    assert door.start[1] == door.end[1] == OUTLINE.bounds[1]


def test_the_walls_are_named_so_that_distances_can_be_measured_from_them() -> None:
    names = [side.words for side in floor_drawing(work()).sides if not side.door]
    assert names == ["near wall", "right wall", "far wall", "left wall"]


def test_a_floor_shows_its_fixtures_and_holes_with_their_names() -> None:
    plan = floor_drawing(work())
    assert [(tuple(ring), name) for ring, name in plan.fixtures] == [
        (VANITY.patches[0].shell, "Vanity")
    ]
    assert [name for _, name in plan.circles] == ["WC outlet"]


def test_two_dimensions_end_at_the_start_and_say_what_the_setting_out_says() -> None:
    done = work()
    out = done.setting_outs["floor"]
    across, along = floor_drawing(done).dimensions
    assert across.end == along.end == out.origin
    assert across.end[0] - across.start[0] == out.start_left_mm320
    assert along.end[1] - along.start[1] == out.start_front_mm320
    assert across.words in out.start
    assert along.words in out.start


def test_a_distance_too_short_to_draw_has_its_figure(monkeypatch: pytest.MonkeyPatch) -> None:
    """An inset's first tile lies a joint from its edge, and 902 mm from the wall."""
    written: list[tuple[str, bool]] = []

    def note(_: Labels, _at: object, _length: float, words: str, _c: int, *, across: bool) -> None:
        written.append((words, across))

    monkeypatch.setattr(Labels, "on_line", note)
    short = Dimension((900 * MM, 800 * MM), (901.5 * MM, 800 * MM), "902 mm to wall")
    draw(replace(floor_drawing(work()), dimensions=(short,)), 60, 45)
    assert written == [("902 mm to wall", True)]


def test_the_words_for_a_floor_tell_tiles_start_cuts_door_and_fixtures() -> None:
    done = work()
    out = done.setting_outs["floor"]
    words = floor_drawing(done).description
    assert f"{out.whole} whole and {out.cut} cut tiles T in offset 1/3, joint 3 mm." in words
    assert out.start in words
    assert "Cut tiles are hatched and lettered: A1 " in words
    assert "Door at the bottom of the sheet: Door in the near wall." in words
    assert "Shown: Vanity, WC outlet." in words
    assert len(words) <= MOST_CHARACTERS


def test_a_wall_is_seen_from_inside_with_the_floor_at_the_bottom() -> None:
    done = work()
    plan = wall_plan(done, "far", [done.setting_outs["wall far"]], ["B"], LEGEND)
    assert plan.description.startswith("The far wall seen from inside the room")
    assert [side.words for side in plan.sides] == ["floor"]
    assert plan.title == "B  Far wall: T grid"


def test_a_niche_is_a_gap_in_the_drawing_of_its_wall() -> None:
    done = work()
    out = done.setting_outs["wall far"]
    niche = box(900 * MM, 1100 * MM, 1200 * MM, 1500 * MM).patches[0].shell
    (patch,) = out.region.patches
    holed = replace(out.region, patches=(replace(patch, holes=(niche[::-1],)),))
    surfaces = (*done.room.surfaces, replace(done.room.surfaces[1], key="niche far back"))
    tiled = replace(done, room=replace(done.room, surfaces=surfaces))
    plan = wall_plan(tiled, "far", [replace(out, region=holed)], ["B"], LEGEND)
    assert [(tuple(ring), name) for ring, name in plan.fixtures] == [(niche[::-1], "niche")]


def test_a_cable_shows_its_rows_start_end_sensor_and_thermostat() -> None:
    plan = cable_plan(work(), LEGEND)
    assert plan is not None
    assert [label.words for label in plan.labels] == ["1", "2", "3"]
    assert [(p.mark, p.words) for p in plan.points] == [
        (PointMark.DOT, "start"),
        (PointMark.BAR, "end"),
        (PointMark.RING, "sensor"),
        (PointMark.BOX, "thermostat"),
    ]
    assert plan.points[0].at == pytest.approx((1600 * MM, 200 * MM))
    assert "Cable H-0047 in main floor: 4.70 m in 3 rows at 3 knobs (100 mm)" in plan.description


def test_the_number_of_a_row_stands_where_the_row_begins() -> None:
    """Row 1 runs to the left from 1.6 m, row 2 to the right from 0.1 m."""
    first, second, _ = row_numbers(cable())
    assert first.at == pytest.approx(((1.6 - 0.09) * 320_000, 0.2 * 320_000))
    assert second.at == pytest.approx(((0.1 + 0.09) * 320_000, 0.3 * 320_000))


def test_two_cables_are_told_apart_by_number() -> None:
    second = replace(cable(), cable="H-0012", zone="shower floor S")
    plan = cable_plan(replace(work(), cables=(cable(), second)), LEGEND)
    assert plan is not None
    words = {point.words for point in plan.points}
    assert {"start 1", "end 1", "start 2", "end 2"} <= words


def test_a_cable_without_a_path_is_not_drawn() -> None:
    done = work()
    assert cable_plan(replace(done, cables=(replace(cable(), path=()),)), LEGEND) is None
    assert cable_plan(replace(done, cables=()), LEGEND) is None


def test_strips_lie_where_they_are_placed() -> None:
    (plan,) = strip_plans(work(), LEGEND)
    assert [(ring[0], ring[2], name) for ring, name in plan.strips] == [
        ((0, 0), (2400 * MM, 1000 * MM), "1"),
        ((0, 1000 * MM), (2400 * MM, 1800 * MM), "2"),
    ]
    assert plan.description.endswith("Strips 1: 2400 mm by 1000 mm; 2: 2400 mm by 800 mm.")


def test_a_single_strip_and_upturns_need_no_drawing() -> None:
    done = work()
    (first, second) = done.strips
    assert strip_plans(replace(done, strips=(first,)), LEGEND) == ()
    upturn = replace(second, piece="upturn")
    assert strip_plans(replace(done, strips=(first, upturn)), LEGEND) == ()


def test_floor_and_cable_are_the_main_drawings() -> None:
    main, minor, _ = room_plans(work(), LEGEND)
    assert [plan.short_title for plan in main] == ["A  Floor", "Heating cable"]
    assert [plan.short_title for plan in minor] == ["B  Far wall", "Underlay, strips"]


def test_letters_go_to_floors_first_and_never_read_as_figures() -> None:
    done = work()
    outs = {f"wall {n}": replace(done.setting_outs["wall far"], surface=f"wall {n}")
            for n in range(25)}  # fmt: skip
    letters = drawn_surfaces(replace(done, setting_outs={**outs, **done.setting_outs}))
    assert letters["floor"] == "A"
    assert "I" not in letters.values()
    assert "O" not in letters.values()
    assert len(set(letters.values())) == len(letters)


def test_curbs_niches_and_reveals_have_letters_after_floors_and_walls() -> None:
    done = work()
    small = replace(done.setting_outs["wall far"], surface="niche far back")
    outs = {"niche far back": small, **done.setting_outs}
    letters = drawn_surfaces(replace(done, setting_outs=outs))
    assert letters == {"floor": "A", "wall far": "B", "niche far back": "C"}


def test_a_round_column_is_drawn_with_its_name() -> None:
    done = work()
    column = Fixture("Post", PieceKind.COLUMN, None, Circle((M, M), 200 * MM), None, NOWHERE)
    room_ = replace(done.room, fixtures=(*done.room.fixtures, column))
    plan = floor_drawing(replace(done, room=room_))
    (ring,) = [ring for ring, name in plan.fixtures if name == "Post"]
    post = shapely.Polygon(ring)
    assert post.area == pytest.approx(3.1416 * (100 * MM) ** 2, rel=0.01)
    assert post.centroid.equals_exact(shapely.Point(M, M), 1)


@pytest.mark.parametrize("at", range(6))
def test_names_of_sides_stand_outside_the_room_in_inner_corners_too(
    at: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An L with a slope, walked with the room on the left; y runs down on the sheet."""
    corners = [(200, 900), (900, 900), (900, 600), (600, 500), (600, 200), (200, 200)]
    canvas = Canvas((1200, 1200))
    labels = Labels(canvas, 20, ((200, 900), (900, 200)))
    placed: list[tuple[float, float]] = []
    monkeypatch.setattr(canvas, "upright", lambda place, *_: placed.append(place))
    monkeypatch.setattr(canvas, "patch", lambda place, *_: placed.append(place) or (0, 0, 0, 0))
    labels.on_side((corners[at], corners[(at + 1) % 6]), "a wall")
    ((x, y),) = placed
    assert shapely.Polygon(corners).distance(shapely.Point(x, y)) > 8


@pytest.mark.parametrize("short", [20, 40, 60])
def test_the_name_of_a_short_wall_at_the_edge_of_the_sheet_is_whole_and_hides_nothing(
    short: int,
) -> None:
    """As many dots are inked as the outline and the words take each on a sheet of its own."""
    name = "right 2 wall"
    corners = [(20, 280), (150, 280), (150, 280 - short), (240, 280 - short), (240, 40), (20, 40)]
    canvas = Canvas((400, 290))
    canvas.outline(corners, INK, 7)
    outline = _inked(canvas)
    Labels(canvas, 20, ((20, 280), (240, 40))).on_side((corners[1], corners[2]), name)
    level, upright = Canvas((200, 200)), Canvas((200, 200))
    level.patch((100, 100), name, 20, INK)
    upright.upright((100, 100), name, 20, INK)
    assert _inked(canvas) - outline in {_inked(level), _inked(upright)}


def _inked(canvas: Canvas) -> int:
    return Image.open(io.BytesIO(canvas.png())).histogram()[INK]


def test_a_drawing_is_the_same_picture_every_time() -> None:
    plan = floor_drawing(work())
    assert draw(plan, 90, 60) == draw(plan, 90, 60)


def test_a_drawing_has_the_size_asked_for_at_200_dots_an_inch_in_16_colours() -> None:
    png = draw(floor_drawing(work()), 127, 63.5)
    picture = Image.open(io.BytesIO(png))
    assert picture.size == (1000, 500)
    assert picture.info["dpi"] == pytest.approx((200, 200), abs=0.01)
    assert picture.mode == "P"
    assert png[24] == 4  # bits a dot, in the header of the file


def test_cuts_differ_from_whole_tiles_in_black_and_white_too() -> None:
    """A hatch puts dark dots into cut tiles; a whole tile is plain paper within its joints."""
    done = work()
    plan = replace(floor_drawing(done), labels=(), fixtures=(), circles=())
    grey = Image.open(io.BytesIO(draw(plan, 180, 150))).convert("L")
    bare = replace(plan, tiles=tuple(replace(t, mark=TileMark.WHOLE, label="") for t in plan.tiles))
    plain = Image.open(io.BytesIO(draw(bare, 180, 150))).convert("L")
    dark = sum(grey.histogram()[:160])
    assert dark > 1.2 * sum(plain.histogram()[:160])


@pytest.mark.parametrize(
    ("main", "minor"), [(1, 0), (2, 0), (1, 1), (1, 2), (2, 3), (2, 7), (0, 2)]
)
def test_drawings_lie_within_their_space_and_not_over_each_other(main: int, minor: int) -> None:
    slots = arrange([1.3] * main, [0.9, 1.5, 3.0, 0.2, 1.0, 1.0, 1.0][:minor], 186, 120)
    assert len(slots) == main + minor
    for at, one in enumerate(slots):
        assert one.left_mm >= 0
        assert one.left_mm + one.width_mm <= 186 + 1e-9
        assert one.top_mm + one.height_mm <= 120 + 1e-9
        for other in slots[:at]:
            beside = (
                one.left_mm >= other.left_mm + other.width_mm
                or other.left_mm >= one.left_mm + one.width_mm
            )
            below = (
                one.top_mm >= other.top_mm + other.height_mm
                or other.top_mm >= one.top_mm + one.height_mm
            )
            assert beside or below


def test_a_room_without_tiles_cables_or_strips_has_no_pictures() -> None:
    assert room_pictures(RoomWork(room()), LEGEND, 186, 120) == ()


def test_a_wet_room_shows_its_shower_floor_large() -> None:
    done = work()
    out = replace(done.setting_outs["floor"], surface="shower floor S")
    shower = replace(done.room.surfaces[0], key="shower floor S")
    wet = replace(
        done,
        room=replace(done.room, surfaces=(shower,)),
        setting_outs={"shower floor S": out},
        cables=(),
        strips=(),
    )
    main, minor, _ = room_plans(wet, LEGEND)
    assert [plan.short_title for plan in main] == ["A  Shower floor S"]
    assert minor == []
    assert len(FLOOR.patches[0].shell) == 8


def test_sides_keep_their_names_and_legs_are_called_legs() -> None:
    assert [LEGEND.wall(name) for name in ("near", "right 2", "W3")] == [
        "near wall",
        "right 2 wall",
        "leg W3",
    ]


def test_a_job_in_inches_has_inches_on_its_drawings() -> None:
    inches = replace(JOB, units=JobUnits(small_length=INCH))
    done = work()
    plan = floor_plan(done, done.setting_outs["floor"], "A", Legend(inches))
    assert all(d.words.endswith('"') for d in plan.dimensions)


def test_the_words_of_a_sign_among_others_hide_none_of_them() -> None:
    labels = Labels(Canvas((400, 200)), 20, ((40, 180), (360, 20)))
    x, y = sign = (200.0, 100.0)
    signs = [sign, (x + 50, y), (x - 50, y), (x, y - 30), (x, y + 30)]
    for at in signs:
        labels.keep_clear(at, 9)
    labels.beside(sign, "start 1", 1)
    *kept, (left, top, right, bottom) = labels._taken  # noqa: SLF001
    assert len(kept) == len(signs)
    assert not any(a < right and left < c and b < bottom and top < d for a, b, c, d in kept)


@pytest.mark.parametrize("x", [12.0, 200.0, 392.0])
def test_figures_of_distances_to_one_corner_never_hide_each_other(x: float) -> None:
    labels = Labels(Canvas((400, 200)), 17, ((0, 200), (400, 0)))
    figures = (
        ("1102 mm to wall", True),
        ("299 mm", False),
        ("549 mm to wall", True),
        ("9 mm", False),
    )
    for words, across in figures:
        labels.on_line((x, 100), 20, words, 4, across=across)
    assert len(labels._taken) == len(figures)  # noqa: SLF001
    for (a, b, c, d), (e, f, g, h) in combinations(labels._taken, 2):  # noqa: SLF001
        assert min(c, g) <= max(a, e) + 1 or min(d, h) <= max(b, f) + 1  # bare paper is 3 wide
