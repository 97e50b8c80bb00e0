"""The perimeter gap, and half a joint where another tiled surface goes on."""

import pytest
import shapely
from geometry.tiling_cases import (
    GRID,
    MM,
    box,
    dice_of,
    invented_bathroom,
    region,
    room,
    spec,
    tile,
)

from sheetcalc.domain.finish import Bond, BondKind, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Point, Region, Surface
from sheetcalc.geometry.setting_out import set_out
from sheetcalc.geometry.setting_out.plane import gapped
from sheetcalc.geometry.setting_out.slabs import Segment, edges_of, slabs_of

GAP, JOINT = 6 * MM, 3 * MM
INSET = box(700, 600, 1500, 1200)
ROUND_INSET = region(box(0, 0, 2200, 1900), INSET)
"""A floor of 2.2 x 1.9 m round an inset of 0.8 x 0.6 m."""


def edges_round(ring: tuple[Point, ...]) -> list[Segment]:
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def polygon(where: Region) -> shapely.Polygon:
    return shapely.union_all([shapely.Polygon(p.shell, p.holes) for p in where.patches])


def test_round_an_inset_half_a_joint_is_left_up_to_its_corners() -> None:
    """By hand: 2200 x 1900 less 6 all round, less the inset grown by 1.5 all round."""
    shape = gapped(ROUND_INSET, GAP, edges_round(INSET), JOINT)
    wanted = shapely.box(6 * MM, 6 * MM, 2194 * MM, 1894 * MM).difference(
        shapely.box(698.5 * MM, 598.5 * MM, 1501.5 * MM, 1201.5 * MM)
    )
    assert shape.symmetric_difference(wanted).area == pytest.approx(0, abs=1)
    assert shapely.get_num_coordinates(shape) == shapely.get_num_coordinates(wanted)


def test_in_a_corner_with_a_wall_no_nib_is_left() -> None:
    """By hand: a shower floor of 1.2 x 1.0 m flush with the floor on its right, walls elsewhere."""
    shape = gapped(room(1200, 1000), GAP, [((1200 * MM, 0), (1200 * MM, 1000 * MM))], JOINT)
    wanted = shapely.box(6 * MM, 6 * MM, 1198.5 * MM, 994 * MM)
    assert shape.symmetric_difference(wanted).area == pytest.approx(0, abs=1)


def test_along_an_oblique_joint_half_a_joint_is_left() -> None:
    """By hand: a right triangle with legs of 1 m; its long side is drawn in by 1.5 mm."""
    corner: tuple[Point, ...] = ((0, 0), (1000 * MM, 0), (0, 1000 * MM))
    shape = gapped(region(corner), GAP, [(corner[1], corner[2])], JOINT)
    reach = 1000 - 1.5 * 2**0.5  # where the drawn-in long side meets the axes
    leg = (reach - 12) * MM
    assert shape.area == pytest.approx(leg * leg / 2, rel=1e-6)


def test_a_wider_joint_than_the_gap_is_left_too() -> None:
    """By hand: no gap, a joint of 10 shared on the right: 5 mm are left there."""
    shape = gapped(room(500, 400), 0, [((500 * MM, 0), (500 * MM, 400 * MM))], 10 * MM)
    assert shape.equals(shapely.box(0, 0, 495 * MM, 400 * MM))


@pytest.mark.parametrize("seed", range(40))
def test_both_ways_to_take_the_gap_off_agree_with_a_region_less_its_bands(seed: int) -> None:
    """Brute force: the region less a box about every stretch, as wide as its gap or half joint."""
    dice = dice_of(seed)
    where = invented_bathroom(dice)
    shared = [edge for edge in edges_of(where) if dice.random() < 0.4]
    bands = [
        shapely.LineString(edge).buffer(
            JOINT / 2 if edge in shared else GAP, cap_style="square", join_style="mitre"
        )
        for edge in edges_of(where)
    ]
    wanted = polygon(where).difference(shapely.union_all(bands))
    slabs = slabs_of(where, GAP, shared, JOINT)
    assert slabs.area_mm320 == pytest.approx(wanted.area, abs=1)
    drawn = gapped(where, GAP, shared, JOINT)
    assert drawn.symmetric_difference(wanted).area == pytest.approx(0, abs=10)


@pytest.mark.parametrize("bond", [GRID, Bond(BondKind.HERRINGBONE)], ids=lambda b: b.label)
def test_no_cut_beside_an_inset_has_a_side_shorter_than_its_gap(bond: Bond) -> None:
    """Tiles of 600 x 100 round the inset: a step between two edges would show as a short side."""
    edges = tuple(edges_round(INSET))
    surface = Surface("floor", SurfaceKind.FLOOR, ROUND_INSET, joined_edges=edges)
    out = set_out("1", surface, spec(bond, joint=JOINT), tile(600, 100), Job())
    sides = [
        max(abs(a[0] - b[0]), abs(a[1] - b[1]))
        for piece in out.pieces
        for a, b in edges_round(piece.outline)
    ]
    assert min(sides) > GAP
