"""Large tile on a four-way fall: hips become cut lines."""

import math
from itertools import product

import pytest
import shapely
from tiling_cases import GRID, HALF, MM, THIRD, box, dice_of, region, room, spec, tile

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import Bond, BondKind, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Point, Region, Surface
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.geometry.off_cuts.pooling import pool_off_cuts
from sheetcalc.geometry.setting_out import set_out
from sheetcalc.geometry.setting_out.drawing import tiles_of
from sheetcalc.geometry.setting_out.hips import hips_of

JOB = Job()
KIND = SurfaceKind.SHOWER_FLOOR
CODE = "TILE-TOO-LARGE-FOR-FOUR-WAY-FALL"
THREE = tile(298, 298)
SQUARE = room(912, 912)
"""Less gaps of 6 all round, three tiles of 298 and two joints of 3 fill it: 900 mm."""

MIDDLE = (456 * MM, 456 * MM)


def shower(where: Region, drain: Point | None) -> Surface:
    return Surface("shower floor S", KIND, where, falls_to=drain)


def laid(surface: Surface, what: Tile = THREE, bond: Bond = GRID, job: Job = JOB) -> SettingOut:
    return set_out("1", surface, spec(bond, kind=KIND), what, job)


def test_three_by_three_tiles_round_a_drain_in_the_middle() -> None:
    """By hand: the diagonals cross the tile in the middle and the four in the corners."""
    out = laid(shower(SQUARE, MIDDLE))
    assert (out.whole, out.cut, out.splits) == (4, 5, 5)
    triangles = [p for p in out.pieces if p.shape is CutShape.SPLIT]
    # two halves of each corner tile; the tile in the middle falls into four
    assert sum(p.count for p in triangles) == 4 * 2 + 4
    sizes = sorted((p.length_mm320 / MM, p.count) for p in triangles for _ in range(p.count))
    # a half loses 1.5 mm square to the hip, so 1.5 x sqrt 2 of its legs
    assert sizes[-1][0] == pytest.approx(298 - 1.5 * math.sqrt(2), abs=0.1)
    assert sum(p.area for p in _pieces(out)) / MM**2 == pytest.approx(
        8 * (298 - 1.5 * 2**0.5) ** 2 / 2 + 4 * (149 - 1.5 * 2**0.5) ** 2, rel=1e-3
    )


def test_both_halves_come_from_one_tile() -> None:
    (out,) = pool_off_cuts([laid(shower(SQUARE, MIDDLE))], JOB)
    assert out.tiles_opened == 9


def test_the_joint_along_a_hip_is_as_wide_as_the_kerf_where_that_is_wider() -> None:
    out = laid(shower(SQUARE, MIDDLE), job=Job(kerf_mm320=5 * MM))
    assert out.hip_mm320 == 5 * MM
    assert laid(shower(SQUARE, MIDDLE)).hip_mm320 == 3 * MM
    (pooled,) = pool_off_cuts([out], Job(kerf_mm320=5 * MM))
    assert pooled.tiles_opened == 9


@pytest.mark.parametrize("bond", [GRID, HALF, THIRD, Bond(BondKind.HERRINGBONE)], ids=str)
def test_tile_and_joints_make_up_the_floor_less_its_hips(bond: Bond) -> None:
    """Against shapely: the floor within its gap, less strips along the hips, less joints."""
    out = laid(shower(room(1100, 870), (400 * MM, 500 * MM)), tile(400, 100), bond)
    assert out.hips
    within = shapely.box(6 * MM, 6 * MM, 1094 * MM, 864 * MM)
    tiles = shapely.union_all([shapely.Polygon(t.ring, t.openings) for t in tiles_of(out)])
    assert tiles.area + out.joint_area_m2 * 320_000**2 == pytest.approx(within.area, rel=1e-6)
    lines = shapely.MultiLineString([list(hip) for hip in out.hips])
    assert tiles.distance(lines) == pytest.approx(out.hip_mm320 / 2, abs=1)
    listed = sum(p.area for p in _pieces(out)) + out.whole * out.face_mm320[0] * out.face_mm320[1]
    assert listed == pytest.approx(tiles.area, rel=1e-3)


def test_the_start_is_that_of_the_floor_without_hips() -> None:
    cut, plain = laid(shower(SQUARE, MIDDLE)), laid(shower(SQUARE, None))
    assert (cut.origin, cut.start) == (plain.origin, plain.start)
    assert plain.hips == ()
    assert cut.searched.startswith(plain.searched)


@pytest.mark.parametrize("seed", range(12))
def test_hips_open_hardly_more_tiles_than_are_laid(seed: int) -> None:
    """Both parts of a tile fit into it as they lie, so no plan needs more than tiles laid."""
    dice = dice_of(seed)
    a, b = dice.randint(800, 1600), dice.randint(800, 1600)
    drain = (dice.randint(200, a - 200) * MM, dice.randint(200, b - 200) * MM)
    (out,) = pool_off_cuts([laid(shower(room(a, b), drain), tile(298, 198))], JOB)
    assert out.tiles_opened <= out.whole + out.cut + 1


L_SHAPE = region([(x * MM, y * MM) for x, y in ((0, 0), (9, 0), (9, 4), (5, 4), (5, 9), (0, 9))])


@pytest.mark.parametrize(
    ("where", "drain"),
    [(SQUARE, None), (L_SHAPE, (2 * MM, 2 * MM)), (SQUARE, (0, 0))],
    ids=["no drain, or a channel", "no rectangle", "a drain in the corner"],
)
def test_where_the_falls_are_not_known_no_hip_is_guessed(
    where: Region, drain: Point | None
) -> None:
    assert hips_of(shower(where, drain)) == ()


def test_tile_that_can_follow_the_falls_is_not_cut() -> None:
    """By hand: 100 mm at 2 % stands 0.5 mm off, within the limit of 1/32 in (0.79 mm)."""
    out = laid(shower(SQUARE, MIDDLE), tile(100, 100))
    assert out.hips == ()
    assert CODE not in {f.code for f in out.findings}


def test_the_finding_says_whether_the_cut_list_has_the_cuts() -> None:
    def told(drain: Point | None) -> str:
        (found,) = (f for f in laid(shower(SQUARE, drain)).findings if f.code == CODE)
        return str(found.facts["cuts"])

    assert told(MIDDLE) == "the cut list cuts 5 tiles along the hips"
    assert "no cuts along the hips" in told(None)


def _pieces(out: SettingOut) -> list[shapely.Polygon]:
    return [
        shapely.Polygon(p.outline, p.openings)
        for p, _ in ((p, n) for p in out.pieces for n in range(p.count))
        if p.shape is not CutShape.DRILLED
    ]


@pytest.mark.parametrize(("flip_x", "flip_y"), list(product((False, True), repeat=2)))
def test_mirrored_showers_have_mirrored_hips(flip_x: bool, flip_y: bool) -> None:  # noqa: FBT001 - which way
    x, y = (1000 - 300 if flip_x else 300), (900 - 250 if flip_y else 250)
    out = laid(shower(region(box(0, 0, 1000, 900)), (x * MM, y * MM)))
    plain = laid(shower(region(box(0, 0, 1000, 900)), (300 * MM, 250 * MM)))
    assert (out.whole, out.cut) == (plain.whole, plain.cut)
    assert out.joint_area_m2 == pytest.approx(plain.joint_area_m2, rel=1e-9)
