"""Awkward shapes and sizes: a right answer or a finding, soon."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
import shapely
from pace import within
from tiling_cases import GRID, MM, NO_GAP, THIRD, box, laid, region, room, spec, tile

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import Bond, BondKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Region
from sheetcalc.domain.setting_out import CutShape, SettingOut

BONDS = [GRID, THIRD, Bond(BondKind.HERRINGBONE), Bond(BondKind.DIAGONAL_GRID)]


def stairs(steps: int) -> Region:
    """A 10 m triangle with a stepped side: two corners a step."""
    size = 10_000 * MM
    marks = [size * k // steps for k in range(steps + 1)]
    ring = [(0, 0), (size, 0)]
    for low, high in pairwise(marks):
        ring += [(size - low, high), (size - high, high)]
    return region(ring)


def star(points: int) -> Region:
    """A round room with a rough wall."""
    return region(
        (
            round(4000 * MM * math.cos(2 * math.pi * k / points) * (1 + 0.05 * (k % 2))),
            round(4000 * MM * math.sin(2 * math.pi * k / points) * (1 + 0.05 * (k % 2))),
        )
        for k in range(points)
    )


def laid_soon(where: Region, what: Tile, how: SurfaceSpec, job: Job = NO_GAP) -> SettingOut:
    """Two seconds of work at most."""
    with within(2):
        return laid(where, what, how, job)


def area_is_kept(out: SettingOut, gap: int) -> bool:
    """Tile and joint together are what the gap leaves, to 1 in 1000."""
    (patch,) = out.region.patches
    field = (
        shapely.Polygon(patch.shell, patch.holes)
        .buffer(-gap, join_style="mitre", mitre_limit=10)
        .area
    )
    covered = out.whole * out.face_mm320[0] * out.face_mm320[1] + sum(
        shapely.Polygon(p.outline, p.openings).area * p.count
        for p in out.pieces
        if p.shape is not CutShape.DRILLED
    )
    return math.isclose(covered + out.joint_area_m2 * 320_000**2, field, rel_tol=1e-3)


@pytest.mark.parametrize("bond", BONDS)
@pytest.mark.parametrize(
    "make", [lambda: stairs(30), lambda: stairs(120), lambda: stairs(4999), lambda: star(10_000)]
)
def test_outlines_with_very_many_corners(make: Callable[[], Region], bond: Bond) -> None:
    out = laid_soon(make(), tile(600, 300), spec(bond), Job())
    assert out.whole + out.cut > 100
    assert area_is_kept(out, 6 * MM)


@pytest.mark.parametrize("bond", BONDS)
def test_five_millimetre_tile_on_300_square_metres(bond: Bond) -> None:
    out = laid_soon(room(20_000, 15_000), tile(5, 5), spec(bond, joint=MM))
    if bond in (GRID, THIRD):
        # columns of 6 mm: 3333 and 3 mm more, 2500 rows
        assert out.whole + out.cut >= 3333 * 2500
    else:
        assert out.by_area
        assert "SETTING-OUT-TOO-LARGE" in {f.code for f in out.findings}
    assert out.tiles_opened == pytest.approx(300e6 / 36, rel=1e-3)


@pytest.mark.parametrize("bond", BONDS)
def test_a_tile_larger_than_the_wall(bond: Bond) -> None:
    out = laid(room(2000, 900), tile(6000, 3000), spec(bond), Job())
    assert (out.whole, out.cut) == (0, 1)
    assert "SURFACE-SMALLER-THAN-TILE" in {f.code for f in out.findings}


def test_a_slit_narrower_than_a_joint_may_fall_into_one() -> None:
    # a slot of 2 mm in the far edge, above a joint or on a tile: no tile is counted twice
    slot = region(
        [(x * MM, y * MM) for x, y in
         [(0, 0), (1212, 0), (1212, 900), (700, 900), (700, 1209), (698, 1209), (698, 900),
          (0, 900)]]
    )  # fmt: skip
    out = laid(slot, tile(300, 300))
    assert area_is_kept(out, 0)
    assert out.whole + out.cut <= 5 * 5


def test_an_island_that_touches_a_wall_is_a_notch() -> None:
    touching = region(box(0, 0, 1000, 600), box(400, 0, 500, 100))
    shape = Region(
        region(
            [(x * MM, y * MM) for x, y in
             [(0, 0), (400, 0), (400, 100), (500, 100), (500, 0), (1000, 0), (1000, 600), (0, 600)]]
        ).patches
    )  # fmt: skip
    one, two = laid(touching, tile(300, 300)), laid(shape, tile(300, 300))
    assert (one.whole, one.cut, one.pieces) == (two.whole, two.cut, two.pieces)


def test_rooms_in_two_parts_are_set_out_on_one_grid() -> None:
    parts = Region((*region(box(0, 0, 600, 600)).patches, *region(box(900, 0, 1500, 600)).patches))
    out = laid(parts, tile(300, 300), spec(joint=0))
    assert (out.whole, out.cut) == (8, 0)


def test_an_empty_surface_gets_no_tile() -> None:
    out = laid(Region(()), tile(300, 300))
    assert (out.tiles_opened, out.area_m2, out.joint_length_m) == (0, 0, 0)
