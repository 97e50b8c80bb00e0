"""Tile at outside corners and trim: half a joint, where inside corners keep the perimeter gap.

All sizes by hand, with a gap of 6 mm and joints of 3 mm: common practice, no source.
"""

import pytest
from geometry.tiling_cases import MM, NO_GAP, laid, room, spec, tile
from room_rows import face, one_room, piece, resolve, room_row, surface

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import FloorPiece, Region, Room, WallFace
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out import set_out
from sheetcalc.geometry.setting_out.drawing import tiles_of

BIG = tile(300, 200)
WINDOW = face("far", 600, 500, part="opening", left=700, bottom=1000, depth=150)
NICHE = face("far", 300, 400, part="niche", left=700, bottom=1000, depth=90)


def with_wall(*faces: WallFace | FloorPiece) -> Room:
    return one_room(*faces, length=2000, width=3000)


def set_out_of(where: Room, key: str) -> SettingOut:
    return set_out("1", surface(where, key), spec(kind=SurfaceKind.WALL), BIG, Job())


def reach(out: SettingOut, *, along: int) -> tuple[float, float]:
    """Least and most of what is tiled along an axis [mm]."""
    at = [point[along] / MM for t in tiles_of(out) for point in t.ring]
    return min(at), max(at)


def bare_beside(out: SettingOut, left: float, right: float, at_height: float) -> tuple[float, ...]:
    """What is left bare at both sides of something in a wall, at a height of it [mm]."""
    ends = [
        (min(x for x, _ in t.ring) / MM, max(x for x, _ in t.ring) / MM)
        for t in tiles_of(out)
        if min(y for _, y in t.ring) < at_height * MM < max(y for _, y in t.ring)
    ]
    before = max(high for _, high in ends if high <= left)
    after = min(low for low, _ in ends if low >= right)
    return left - before, after - right


@pytest.mark.parametrize("side", ["left", "right", "head", "sill"])
def test_a_reveal_of_150_takes_a_piece_of_142_5(side: str) -> None:
    """6 at the frame and 1.5 at the corner with the wall."""
    out = set_out_of(with_wall(face("far", 2000, 2400), WINDOW), f"opening far {side}")
    low, high = reach(out, along=0 if side in {"left", "right"} else 1)
    assert high - low == pytest.approx(142.5)
    # the corner with the wall: at the left of the left reveal, at the head of the head
    assert (150 - high if side in {"right", "head"} else low) == pytest.approx(1.5)


@pytest.mark.parametrize("part", [WINDOW, NICHE])
def test_the_wall_is_tiled_up_to_the_edge_of_a_niche_and_of_a_tiled_reveal(part: WallFace) -> None:
    out = set_out_of(with_wall(face("far", 2000, 2400), part), "wall far")
    right = 700 + part.length_mm320 / MM
    for height in (1103, 1251, 1349):
        assert bare_beside(out, 700, right, height) == pytest.approx((1.5, 1.5))


def test_an_opening_without_reveals_keeps_the_gap_for_its_sealant() -> None:
    bare = face("far", 600, 500, part="opening", left=700, bottom=1000)
    out = set_out_of(with_wall(face("far", 2000, 2400), bare), "wall far")
    assert bare_beside(out, 700, 1300, 1251) == pytest.approx((6, 6))


def test_a_low_face_ends_at_its_trim_and_keeps_the_gap_at_floor_and_corners() -> None:
    out = set_out_of(with_wall(face("far", 2000, 1200)), "wall far")
    assert reach(out, along=0) == pytest.approx((6, 1994))
    assert reach(out, along=1) == pytest.approx((6, 1198.5))


def test_a_face_that_hangs_ends_at_its_trim_below_too() -> None:
    out = set_out_of(with_wall(face("far", 2000, 600, bottom=900)), "wall far")
    assert reach(out, along=1) == pytest.approx((901.5, 1498.5))


def test_a_pier_is_tiled_up_to_its_outside_corners() -> None:
    """Its front reaches both; its sides reach one, and keep the gap at the wall behind."""
    pier = with_wall(
        piece("Pier", "void", 800, 2700, 400, 300),
        face("far 2", 400, 2400), face("left 2", 300, 2400), face("right 2", 300, 2400),
    )  # fmt: skip
    assert reach(set_out_of(pier, "wall far 2"), along=0) == pytest.approx((1.5, 398.5))
    for side in ("wall left 2", "wall right 2"):
        low, high = reach(set_out_of(pier, side), along=0)
        assert sorted((low, 300 - high)) == pytest.approx([1.5, 6])


def test_the_mirrored_room_is_tiled_up_to_the_mirrored_edges() -> None:
    faces = (face("far", 2000, 2400), WINDOW)
    (other,), _ = resolve(room_row(*faces, length=2000, width=3000, handed=True))
    out = set_out_of(other, "opening far right")
    low, high = reach(out, along=0)
    assert (low, 150 - high) == pytest.approx((6, 1.5))


@pytest.mark.parametrize("where", [room(138, 1000), room(1000, 138)])
def test_no_joint_is_left_along_an_edge_where_a_longer_piece_would_do(where: Region) -> None:
    """A strip of 138 mm takes pieces of 138, not of 135 with a joint beside them."""
    out = laid(where, BIG, spec(kind=SurfaceKind.WALL), NO_GAP)
    across = 0 if out.region.bounds[2] < out.region.bounds[3] else 1
    low, high = reach(out, along=across)
    assert high - low == pytest.approx(138)
