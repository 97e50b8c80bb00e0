"""What a setting-out is checked against, and what it says."""

from itertools import pairwise

import pytest
from msgspec.structs import replace
from tiling_cases import (
    GRID,
    HALF,
    INCH,
    MM,
    THIRD,
    box,
    laid,
    region,
    room,
    spec,
    tile,
)

from sheetcalc.domain.finish import Bond, BondKind, Finish, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH as INCH_UNIT
from sheetcalc.domain.measure import JobUnits, Length
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out import set_out
from sheetcalc.geometry.setting_out.fields import shared_edges, tiled_room
from sheetcalc.geometry.setting_out.movement import movement_joints
from sheetcalc.geometry.setting_out.room import set_out_room
from sheetcalc.geometry.setting_out.tape import tape
from sheetcalc.workbook.results.tape import taped
from sheetcalc.workbook.wording.tiling import WORDINGS


def codes(out: SettingOut) -> set[str]:
    return {f.code for f in out.findings}


def test_every_code_has_words() -> None:
    worded = {w.code for w in WORDINGS}
    out = laid(room(9000, 9000), tile(700, 250), spec(HALF, joint=MM // 2), Job())
    assert {"JOINT-TOO-NARROW", "OFFSET-BEYOND-A-THIRD", "LARGE-FORMAT-TILE",
            "MOVEMENT-JOINTS-NEEDED"} <= codes(out)  # fmt: skip
    assert codes(out) <= worded


def test_words_can_be_filled_from_the_facts() -> None:
    by_code = {w.code: w for w in WORDINGS}
    outs = [
        laid(room(9000, 9000), tile(700, 250), spec(HALF, joint=MM // 2), Job()),
        laid(room(100, 100), tile(300, 300), job=Job()),
        laid(room(2000, 10), tile(300, 300), job=Job()),
        laid(room(20000, 15000), tile(5, 5), spec(Bond(BondKind.HERRINGBONE)), Job()),
        laid(room(900, 900), tile(500, 300), spec(Bond(BondKind.BASKET_WEAVE)), Job()),
        laid(room(900, 900), tile(600, 300), spec(Bond(BondKind.BASKET_WEAVE)), Job()),
        laid(room(900, 900), tile(300, 300), kind=SurfaceKind.SHOWER_FLOOR),
    ]
    seen = set()
    for finding in (f for out in outs for f in out.findings):
        wording = by_code[finding.code]
        for words in (wording.found, wording.expected, wording.what_to_do):
            assert words.format(**finding.facts)
        seen.add(finding.code)
    assert seen >= {
        "SURFACE-SMALLER-THAN-TILE", "GAP-LEAVES-NO-TILE", "SETTING-OUT-TOO-LARGE",
        "WEAVE-DOES-NOT-CLOSE", "WEAVE-LEAVES-GAPS", "TILE-TOO-LARGE-FOR-FOUR-WAY-FALL",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("length", "width", "code", "widest"),
    [
        (597, 297, None, 3),  # 2 x 297 + 3
        (600, 300, "WEAVE-DOES-NOT-CLOSE", 6),  # 2 x 300 + 3: 3 mm more at the end of each
        (300, 200, "WEAVE-LEAVES-GAPS", 103),  # one width: 100 mm open beside it
        (500, 300, "WEAVE-LEAVES-GAPS", 106),  # 2 x 300 + 3 is 103 mm too long
        (620, 297, "WEAVE-LEAVES-GAPS", 14.5),  # 23 mm more over two joints
    ],
)
def test_a_weave_that_would_leave_the_floor_open_is_no_weave(
    length: float, width: float, code: str | None, widest: float
) -> None:
    weave = spec(Bond(BondKind.BASKET_WEAVE), joint=3 * MM)
    out = laid(room(3000, 3000), tile(length, width), weave, Job())
    found = {f.code: f.facts["widest"] for f in out.findings if f.code.startswith("WEAVE")}
    assert found == ({code: Length(round(widest * MM))} if code else {})


def test_joint_too_narrow_names_the_rule() -> None:
    # 12 x 24 in calibrated, spread 0.8 mm, warpage 1 mm, 1/3 offset: 5.7625 mm (worked example)
    what = tile(24, 12, INCH, edge="calibrated", size_spread_mm320=256, edge_warpage_mm320=MM)
    out = laid(room(3000, 3000), what, spec(THIRD, joint=3 * MM), Job())
    (finding,) = [f for f in out.findings if f.code == "JOINT-TOO-NARROW"]
    assert finding.facts["least"] == Length(round(5.7625 * MM))
    assert "A108.02-4.3.8.1" in str(finding.facts["rule"])
    wide = laid(room(3000, 3000), what, spec(THIRD, joint=round(5.7625 * MM)), Job())
    assert "JOINT-TOO-NARROW" not in codes(wide)


def test_shower_floors_take_small_tile_or_a_channel() -> None:
    kind = SurfaceKind.SHOWER_FLOOR
    code = "TILE-TOO-LARGE-FOR-FOUR-WAY-FALL"
    assert code in codes(laid(room(900, 900), tile(300, 300), kind=kind))
    assert code not in codes(laid(room(900, 900), tile(50, 50), kind=kind))
    channel = region(box(0, 0, 900, 900), box(100, 800, 800, 870))
    assert code not in codes(laid(channel, tile(300, 300), kind=kind))
    assert code not in codes(laid(room(900, 900), tile(300, 300)))


@pytest.mark.parametrize(("size", "number"), [(7620, 0), (7621, 1), (15240, 1), (15241, 2)])
def test_bays_are_no_larger_than_the_spacing(size: int, number: int) -> None:
    out = laid(room(size, 1000), tile(300, 300), job=Job())
    joints = movement_joints(out, 7620 * MM)
    assert len(joints.left) >= number
    assert bool(joints.left) is bool(number)
    marks = [0, *joints.left, size * MM]
    assert max(b - a for a, b in pairwise(marks)) <= 7620 * MM
    for at in joints.left:
        assert (at + out.region.bounds[0] - out.origin[0]) % out.module_mm320[0] == 0


def test_small_cuts_tell_how_many_and_how_small() -> None:
    # a pier 60 mm from the wall leaves a strip of 60 whatever the start
    where = region(box(0, 0, 1500, 1500), box(60, 500, 400, 900))
    out = laid(where, tile(300, 300))
    (finding,) = [f for f in out.findings if f.code == "SMALL-CUTS"]
    assert finding.facts["smallest"] == Length(out.smallest_cut_mm320 or 0)
    assert (out.smallest_cut_mm320 or 0) <= 60 * MM


@pytest.mark.parametrize(
    ("mm320", "metric", "inch"),
    [(412 * MM, "412 mm", '16-1/4"'), (8128, "25 mm", '1"'), (508, "2 mm", '1/16"'),
     (12 * 8128 + 4064, "318 mm", '12-1/2"')],
)  # fmt: skip
def test_distances_read_as_on_a_tape(mm320: int, metric: str, inch: str) -> None:
    # nearest 1 mm or 1/16 in, half up (common practice); 412 mm = 16.22 in
    assert tape(mm320, Job()) == metric
    assert tape(mm320, replace(Job(), units=JobUnits(small_length=INCH_UNIT))) == inch


def test_walls_say_how_courses_begin() -> None:
    out = laid(room(2400, 2000), tile(600, 300), kind=SurfaceKind.WALL, job=Job())
    assert "Bottom course cut to" in out.start
    exact = laid(room(2409, 2118), tile(600, 300), kind=SurfaceKind.WALL)
    assert "Bottom course full, top course full." in exact.start


def test_parts_of_one_wall_share_a_joint() -> None:
    dry = Surface("wall far", SurfaceKind.WALL, room(1000, 2000))
    wet = Surface("wet area far", SurfaceKind.WET_AREA, region(box(1000, 0, 1800, 2000)))
    other = Surface("wall left", SurfaceKind.WALL, region(box(1000, 0, 1800, 2000)))
    edge = ((1000 * MM, 0), (1000 * MM, 2000 * MM))
    assert shared_edges(dry, [wet, other, dry]) == [edge]


def test_a_room_is_set_out_surface_by_surface() -> None:
    floor = Surface("floor", SurfaceKind.FLOOR, room(2000, 1500))
    shower = Surface("shower floor S1", SurfaceKind.SHOWER_FLOOR, region(box(2000, 0, 2900, 900)),
                     joined_edges=(((2000 * MM, 0), (2000 * MM, 900 * MM)),))  # fmt: skip
    finish = Finish(
        "F",
        {SurfaceKind.FLOOR: spec(GRID), SurfaceKind.SHOWER_FLOOR: spec(GRID)},
        {},
    )
    found = set_out_room(tiled_room("1", [floor, shower], finish, {"T": tile(300, 300)}), Job())
    assert list(found) == ["floor", "shower floor S1"]
    # along the shared edge half a joint is left, elsewhere the gap: 900 - 1.5 - 6 by 900 - 12
    out = found["shower floor S1"]
    assert out.joint_edges == shower.joined_edges
    covered = out.whole * 0.09 + sum(
        p.count * p.length_mm320 * p.width_mm320 / 320_000**2 for p in out.pieces
    )
    assert covered + out.joint_area_m2 == pytest.approx(0.8925 * 0.888, rel=1e-6)


def test_joint_lines_run_on_into_the_shower_and_up_the_walls() -> None:
    floor = Surface("floor", SurfaceKind.FLOOR, room(2350, 1710))
    shower = Surface("shower floor S1", SurfaceKind.SHOWER_FLOOR, region(box(2350, 0, 3250, 900)))
    far = Surface("wall far", SurfaceKind.WALL, room(2350, 2400))
    near = Surface("wall near", SurfaceKind.WALL, room(2350, 2100))
    walls = [
        Wall("near", (0, 0), (2350 * MM, 0)),
        Wall("far", (2350 * MM, 1710 * MM), (0, 1710 * MM)),
    ]
    with_floor = spec(GRID, Run("floor"))
    finish = Finish(
        "F",
        {
            SurfaceKind.FLOOR: spec(GRID),
            SurfaceKind.SHOWER_FLOOR: with_floor,
            SurfaceKind.WALL: with_floor,
        },
        {},
    )
    tiles = {"T": tile(600, 300)}
    tiled = tiled_room("1", [near, far, shower, floor], finish, tiles, walls=walls)
    found = set_out_room(tiled, Job())
    assert list(found) == ["wall near", "wall far", "shower floor S1", "floor"]
    start = found["floor"].origin
    for axis, pitch in ((0, 603), (1, 303)):
        assert (found["shower floor S1"].origin[axis] - start[axis]) % (pitch * MM) == 0
    # the far wall's left is the room's left; the near wall is seen from inside, mirrored: its
    # tiles begin where tiles of the floor end
    assert (found["wall far"].origin[0] - start[0]) % (603 * MM) == 0
    ends = 2350 * MM - found["wall near"].origin[0]
    assert (ends - 600 * MM - start[0]) % (603 * MM) == 0
    # and the near wall, though lower, has its courses at the height of the far one's
    assert (found["wall near"].origin[1] - found["wall far"].origin[1]) % (303 * MM) == 0


def test_a_shower_floor_is_measured_from_named_walls() -> None:
    # the room is 3250 wide; the shower floor lies at its right, behind a near wall
    shower = Surface("shower floor S1", SurfaceKind.SHOWER_FLOOR, region(box(2350, 0, 3250, 900)))
    walls = [
        Wall("near", (0, 0), (3250 * MM, 0)),
        Wall("right", (3250 * MM, 0), (3250 * MM, 1710 * MM)),
        Wall("far", (3250 * MM, 1710 * MM), (0, 1710 * MM)),
        Wall("left", (0, 1710 * MM), (0, 0)),
    ]
    out = set_out("1", shower, spec(GRID), tile(300, 300), Job(), walls=walls)
    assert (out.start_left_mm320, out.start_front_mm320) == out.origin
    assert "from the near wall" in out.start
    assert "from the left wall" in out.start
    alone = set_out("1", shower, spec(GRID), tile(300, 300), Job())
    assert alone.start_left_mm320 == out.origin[0] - 2350 * MM
    assert "from the left edge of shower floor S1" in alone.start


def test_a_curb_has_no_perimeter_gap_and_a_niche_a_joint() -> None:
    curb = laid(room(893, 100), tile(600, 300), kind=SurfaceKind.CURB, job=Job())
    assert {p.width_mm320 for p in curb.pieces} == {100 * MM}
    niche = laid(room(306, 306), tile(300, 300), kind=SurfaceKind.NICHE, job=Job())
    assert (niche.whole, niche.cut, niche.gap_mm320) == (1, 0, 3 * MM)


@pytest.mark.parametrize(
    ("bond", "more", "smallest"),
    [(HALF, 667, (61213 + 61214) / 2), (THIRD, 315, (44957 + 44958) / 2)],
)
def test_a_cut_at_a_tie_of_a_tapes_marks_reads_alike_on_every_tab(
    bond: Bond, more: int, smallest: float
) -> None:
    """Walls whose smallest cut ends in half of a 1/320 mm beside the middle of two sixteenths.

    A sixteenth is 508: 61213.5 is half a unit below 120.5 of them, so the cut is 61214 in whole
    units and 121 of them everywhere; 44957.5 by 508 is 88.4990, and 88.5 in whole units: 89.
    """
    where = region(box(0, 0, 1300 * MM + more, 2000 * MM + more, 1))
    out = laid(where, tile(600, 300), spec(bond), kind=SurfaceKind.WALL, job=Job())
    assert out.smallest_cut_mm320 == smallest + 0.5
    sizes = {size for piece in out.pieces for size in (piece.length_mm320, piece.width_mm320)}
    assert out.smallest_cut_mm320 in sizes
    shown = {taped(size, INCH_UNIT).value for size in sizes}
    assert taped(out.smallest_cut_mm320, INCH_UNIT).value == (smallest + 0.5 + 254) // 508 / 16
    assert taped(out.smallest_cut_mm320, INCH_UNIT).value in shown
