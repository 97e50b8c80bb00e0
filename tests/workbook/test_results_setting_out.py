"""Setting out and Cut list: distances and sizes as on a tape, alike rooms in one row."""

import hand_made
import pytest
from msgspec.structs import replace
from result_books import Inputted, catalogue, inputs, raw_book, result_sheets, run_of

from sheetcalc.domain.finish import Bond, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    FOOT,
    INCH,
    MILLIMETRE,
    POUND,
    SQUARE_FOOT,
    JobUnits,
)
from sheetcalc.domain.room import Patch, Region, Ring
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.workbook.results.cut_words import cut_out_words, edges_kept
from sheetcalc.workbook.sheet import Cell

ROOMS = {"Rooms": Inputted({"Room": "Room", "Length": "Length (m)"}, [["1", 2.4]])}
US = JobUnits(FOOT, INCH, FOOT, SQUARE_FOOT, CUBIC_FOOT, POUND)
IN = 8128  # 1/320 mm
MM = 320


def ring(*points: tuple[float, float]) -> Ring:
    return tuple((round(u * MM), round(v * MM)) for u, v in points)


def piece(shape: CutShape, *points: tuple[float, float], count: int = 1) -> CutPiece:
    outline = ring(*points)
    us, vs = [u for u, _ in outline], [v for _, v in outline]
    return CutPiece(shape, max(us) - min(us), max(vs) - min(vs), outline, count)


LAYOUT = SettingOut(
    room="1", surface="floor", kind=SurfaceKind.FLOOR, tile="T1", bond=Bond(),
    run_label="along the long side", joint_mm320=IN // 8,
    region=Region((Patch(((0, 0), (10 * IN, 0), (10 * IN, 10 * IN), (0, 10 * IN))),)),
    origin=(7 * IN + IN // 2, 12 * IN), module_mm320=(IN, IN), whole=4, cut=3, holed=0,
    tiles_opened=7,
    pieces=(
        CutPiece(CutShape.STRAIGHT, 12 * IN + 7 * IN // 16, 18 * IN, (), 2),
        CutPiece(CutShape.NOTCHED, 18 * IN, 9 * IN, (), 1, taken_from="offcut of cut 1"),
    ),
    smallest_cut_mm320=9 * IN, balance_mm320=0, lower_bound=6, area_m2=1.0, joint_area_m2=0.1,
    joint_length_m=1.0, crossings=1,
    # 3-17/32 in and 5 in - 1/64 in
    start_left_mm320=3 * IN + 17 * IN // 32, start_front_mm320=5 * IN - IN // 64,
)  # fmt: skip


def work(layout: SettingOut, name: str = "1", **room: object) -> RoomWork:
    of = hand_made.room(name=name, **room)
    return RoomWork(of, {layout.surface: replace(layout, room=name)})


def rows(key: str, *works: RoomWork, units: JobUnits | None = None) -> list[dict[str, Cell]]:
    job = Job(units=units) if units else Job()
    run = replace(run_of(inputs(catalogue(), job=job), []), works=works)
    sheet = next(s for s in result_sheets(run, (), raw_book(ROOMS)) if s.key == key)
    table = sheet.tables[0]
    headers = [column.header for column in table.columns]
    return [dict(zip(headers, row, strict=True)) for row in table.rows]


def test_the_first_tile_is_measured_to_a_sixteenth_of_an_inch() -> None:
    (row,) = rows("setting-out", work(LAYOUT), units=US)
    # not the tile's place in the room's frame, but the way from the walls; halves go up
    assert row["From the left (in)"] == Cell(3.5625, "result_fraction")
    assert row["From the front (in)"] == Cell(5.0, "result_fraction")
    assert (row["Notched"].value, row["Lower bound"].value, row["Tiles opened"].value) == (1, 6, 7)


def test_the_first_tile_is_measured_to_a_millimetre() -> None:
    layout = replace(LAYOUT, start_left_mm320=412 * MM + 160, start_front_mm320=87 * MM + 159)
    (row,) = rows("setting-out", work(layout))
    assert (row["From the left (mm)"].value, row["From the front (mm)"].value) == (413, 87)


def test_alike_rooms_share_a_row_and_are_named_in_it() -> None:
    one = work(LAYOUT, "101", count=2, copies=("101", "102"))
    other = work(LAYOUT, "201", count=2, copies=("201",))
    differs = work(replace(LAYOUT, whole=5), "301", count=1, copies=("301",))
    first, second = rows("setting-out", one, other, differs)
    assert (first["Room"].value, first["Rooms"].value) == ("101", 4)
    assert first["Alike"].value == "101, 102, 201 x 2"
    assert (second["Room"].value, second["Rooms"].value, second["Alike"].value) == ("301", 1, None)


def test_tiles_shared_over_the_whole_job_may_be_a_fraction() -> None:
    (row,) = rows("setting-out", work(replace(LAYOUT, opened_mean=6.5)))
    assert row["Tiles opened"] == Cell(6.5, "result_number")


def test_cuts_are_numbered_as_on_the_room_card() -> None:
    first, second = rows("cut-list", work(LAYOUT), units=US)
    assert (first["Cut"].value, second["Cut"].value) == ("A1", "A2")
    assert (first["Length (in)"].value, first["Count"].value) == (12.4375, 2)
    assert (first["Taken from"].value, second["Taken from"].value) == ("a new tile", "offcut of A1")


def test_pieces_that_read_alike_share_a_row() -> None:
    # 100.2 and 100.4 mm are both sawn to 100 mm
    two = tuple(
        replace(piece(CutShape.STRAIGHT, (0, 0), (size, 0), (size, 300), (0, 300)), count=3)
        for size in (100.4, 100.2)
    )
    (row,) = rows("cut-list", work(replace(LAYOUT, pieces=two)))
    assert (row["Cut"].value, row["Count"].value) == ("A1, A2", 6)
    assert (row["Length (mm)"].value, row["Width (mm)"].value) == (100, 300)


@pytest.mark.parametrize(
    ("words", "shown"),
    [
        ("offcut of cut 3 of shower floor S", "offcut of B3"),
        ("offcut of cut 3 of niche far back", "offcut of cut 3 of niche far back"),
        ("offcut of cut 3 of floor in 205", "offcut of cut 3 of floor in 205"),
        (
            "a new tile for 2 of 3, offcut of cut 12 for 1 of 3 in alike rooms",
            "a new tile for 2 of 3, offcut of A12 for 1 of 3 in alike rooms",
        ),
    ],
)
def test_sources_of_offcuts_are_named_as_on_the_card(words: str, shown: str) -> None:
    pieces = (replace(LAYOUT.pieces[0], taken_from=words),)
    floor = replace(LAYOUT, pieces=pieces)
    shower = replace(LAYOUT, surface="shower floor S", pieces=())
    room = RoomWork(hand_made.room(), {"floor": floor, "shower floor S": shower})
    (row,) = rows("cut-list", room)
    assert row["Taken from"].value == shown


SQUARE = ((0, 0), (300, 0), (300, 300), (0, 300))


@pytest.mark.parametrize(
    ("points", "said"),
    [
        (SQUARE, ""),
        # a corner of 120 x 63 at the right top
        (
            ((0, 0), (300, 0), (300, 237), (180, 237), (180, 300), (0, 300)),
            "120 x 63 at the right top",
        ),
        # a slot of 50 x 80 in the lower edge, 100 from the left
        (
            ((0, 0), (100, 0), (100, 80), (150, 80), (150, 0), (300, 0), (300, 300), (0, 300)),
            "50 x 80 from the bottom, 100 from the left",
        ),
        # steps at the right top are no rectangle
        (
            ((0, 0), (300, 0), (300, 100), (200, 100), (200, 200), (100, 200), (100, 300),
             (0, 300)),
            "corners at "
            + ", ".join(  # noqa: FLY002 - too long for a line
                ["0 / 0", "300 / 0", "300 / 100", "200 / 100", "200 / 200", "100 / 200",
                 "100 / 300", "0 / 300"]
            ),
        ),
        (((0, 0), (200, 0), (0, 150)), "corners at 0 / 0, 200 / 0, 0 / 150"),
        # measured from the piece's own corner, wherever it lies in its tile
        (((50, 20), (250, 20), (50, 170)), "corners at 0 / 0, 200 / 0, 0 / 150"),
    ],
)  # fmt: skip
def test_what_is_cut_out_is_said(points: tuple[tuple[float, float], ...], said: str) -> None:
    assert cut_out_words(piece(CutShape.NOTCHED, *points), MILLIMETRE) == said


def test_an_opening_within_a_piece_is_a_hole() -> None:
    hole = tuple(reversed(ring((100, 120), (140, 120), (140, 180), (100, 180))))
    with_hole = replace(piece(CutShape.NOTCHED, *SQUARE), openings=(hole,))
    said = cut_out_words(with_hole, MILLIMETRE)
    assert said == "a hole of 40 x 60, 100 from the left, 120 from the bottom"


def test_a_piece_with_very_many_corners_is_left_to_the_drawing() -> None:
    teeth = [(x, 10 * (x // 10 % 2)) for x in range(0, 200, 10)]
    said = cut_out_words(piece(CutShape.OBLIQUE, *teeth, (200, 300), (0, 300)), MILLIMETRE)
    assert said == "22 corners: see the room card"


def test_edges_are_named_from_the_left_round() -> None:
    kept = replace(piece(CutShape.CORNER, *SQUARE), factory_edges=frozenset({"top", "left"}))
    assert edges_kept(kept) == "left, top"
