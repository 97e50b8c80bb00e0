"""Tiles as drawn, against shapely's areas and the cut list."""

from collections import Counter, defaultdict

import pytest
import shapely
from drawing.drawn_rooms import FLOOR, MM, OUTLET, box
from geometry.tiling_cases import GRID, HALF, THIRD, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Patch, Region, Surface
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.drawing.plan import MarkedTile, TileMark
from sheetcalc.drawing.tiles import MOST_TILES, marked_tiles
from sheetcalc.geometry.setting_out import set_out

JOB = Job()
CUTS = {TileMark.CUT, TileMark.SMALL}


def laid(bond: Bond, length: float = 597, width: float = 297, run: Run | None = None) -> SettingOut:
    surface = Surface("floor", SurfaceKind.FLOOR, FLOOR, (OUTLET,))
    return set_out("1.01", surface, spec(bond, run or Run()), tile(length, width), JOB)


def drawn(out: SettingOut) -> tuple[MarkedTile, ...]:
    return marked_tiles(out, JOB.perimeter_gap_mm320, JOB.smallest_cut_share, "A")


BONDS = (
    GRID,
    HALF,
    THIRD,
    Bond(BondKind.HERRINGBONE),
    Bond(BondKind.BASKET_WEAVE),
    Bond(BondKind.DIAGONAL_GRID),
)


@pytest.mark.parametrize("bond", BONDS, ids=lambda b: b.label)
def test_tiles_lie_within_the_floor_and_never_over_each_other(bond: Bond) -> None:
    floor = shapely.Polygon(FLOOR.patches[0].shell)
    polygons = [shapely.Polygon(t.ring) for t in drawn(laid(bond))]
    whole = shapely.union_all(polygons)
    assert whole.area == pytest.approx(sum(p.area for p in polygons), rel=1e-9)
    assert whole.difference(floor.buffer(1)).area == pytest.approx(0, abs=1)


@pytest.mark.parametrize("bond", BONDS, ids=lambda b: b.label)
def test_the_tiles_and_their_joints_make_up_the_floor_within_the_gap(bond: Bond) -> None:
    out = laid(bond)
    tiles = sum(shapely.Polygon(t.ring).area for t in drawn(out)) / 320_000**2
    floor = shapely.Polygon(FLOOR.patches[0].shell)
    within = floor.buffer(-JOB.perimeter_gap_mm320, join_style="mitre").area / 320_000**2
    assert tiles + out.joint_area_m2 == pytest.approx(within, abs=1e-6)


@pytest.mark.parametrize("bond", [GRID, HALF, THIRD], ids=lambda b: b.label)
def test_every_cut_bears_the_number_of_its_row_in_the_cut_list(bond: Bond) -> None:
    out = laid(bond)
    named = Counter(t.label for t in drawn(out) if t.mark in CUTS)
    listed = {
        f"A{n}": piece.count
        for n, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    }
    assert dict(named) == listed


def test_cuts_round_an_inset_bear_their_numbers_too() -> None:
    """Where the wall's gap meets half a joint, drawn and listed pieces have the same corners."""
    hole = box(900 * MM, 600 * MM, 1500 * MM, 1100 * MM).patches[0].shell
    floor = Region((Patch(FLOOR.patches[0].shell, (hole[::-1],)),))
    edges = tuple(zip(hole, (*hole[1:], hole[0]), strict=True))
    surface = Surface("floor", SurfaceKind.FLOOR, floor, joined_edges=edges)
    out = set_out("1.01", surface, spec(HALF), tile(298, 298), JOB)
    assert all(t.label for t in drawn(out) if t.mark in CUTS)


def test_a_piece_has_the_size_that_its_row_of_the_cut_list_says() -> None:
    out = laid(THIRD)
    cuts = [t for t in drawn(out) if t.mark in CUTS]
    assert cuts
    for drawn_tile in cuts:
        piece = out.pieces[int(drawn_tile.label.removeprefix("A")) - 1]
        left, front, right, far = shapely.Polygon(drawn_tile.ring).bounds
        assert (right - left, far - front) == pytest.approx(
            (piece.length_mm320, piece.width_mm320), abs=1
        )


def test_whole_and_cut_tiles_are_as_many_as_counted() -> None:
    out = laid(GRID)
    marks = Counter(t.mark for t in drawn(out))
    assert marks[TileMark.WHOLE] + marks[TileMark.START] == out.whole
    assert marks[TileMark.CUT] + marks[TileMark.SMALL] == out.cut


def test_one_tile_is_the_first_and_its_corner_is_the_start() -> None:
    out = laid(GRID)
    (first,) = [t for t in drawn(out) if t.mark is TileMark.START]
    left, front, _, _ = shapely.Polygon(first.ring).bounds
    assert (left, front) == pytest.approx(out.origin, abs=1)


@pytest.mark.parametrize("bond", [HALF, THIRD, Bond(BondKind.DIAGONAL_GRID)], ids=lambda b: b.label)
def test_a_cut_smaller_than_wanted_is_marked_as_small(bond: Bond) -> None:
    """Half of a tile is wanted, by area; each of these bonds leaves more and less of one."""
    full = 597 * 297 * MM**2
    shares = defaultdict(list)
    for drawn_tile in drawn(laid(bond)):
        shares[drawn_tile.mark].append(shapely.Polygon(drawn_tile.ring).area / full)
    assert max(shares[TileMark.SMALL]) < JOB.smallest_cut_share
    assert min(shares[TileMark.CUT]) >= JOB.smallest_cut_share


def test_an_exact_fit_has_nothing_hatched() -> None:
    """Two tiles of 294 with a joint of 3 and gaps of 6 fill 603 mm: 2 x 294 + 3 + 12."""
    surface = Surface("floor", SurfaceKind.FLOOR, box(0, 0, 603 * MM, 603 * MM))
    out = set_out("1.01", surface, spec(), tile(294, 294), JOB)
    assert {t.mark for t in drawn(out)} <= {TileMark.WHOLE, TileMark.START}
    assert len(drawn(out)) == 4


def test_a_surface_with_more_tiles_than_can_be_told_apart_is_drawn_without() -> None:
    out = laid(GRID, 20, 20)
    assert out.whole + out.cut > MOST_TILES
    assert drawn(out) == ()
