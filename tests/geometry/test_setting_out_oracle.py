"""Counts, shapes and areas against shapely, which cuts every tile by itself."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from tiling_cases import (
    GRID,
    HALF,
    MM,
    THIRD,
    dice_of,
    invented_bathroom,
    laid,
    room,
    spec,
    tile,
)

from sheetcalc.domain.finish import Bond, BondKind, Run
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, Patch, Region
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.geometry.setting_out.drawing import tiles_of
from sheetcalc.geometry.setting_out.plane import Plane

HERRINGBONE = Bond(BondKind.HERRINGBONE)
OBLIQUE_BONDS = [
    (HERRINGBONE, Run()),
    (HERRINGBONE, Run("degrees", 45.0)),
    (Bond(BondKind.DOUBLE_HERRINGBONE), Run()),
    (Bond(BondKind.BASKET_WEAVE), Run()),
    (Bond(BondKind.DIAGONAL_GRID), Run()),
    (Bond(BondKind.OFFSET, 2), Run("degrees", 30.0)),
]


def shape_of(region: Region) -> shapely.Polygon:
    (patch,) = region.patches
    return shapely.Polygon(patch.shell, patch.holes)


def piece_area(out: SettingOut) -> float:
    total = out.whole * out.face_mm320[0] * out.face_mm320[1]
    return total + sum(
        shapely.Polygon(p.outline, p.openings).area * p.count
        for p in out.pieces
        if p.shape is not CutShape.DRILLED
    )


def by_shapely(out: SettingOut, steps: int) -> tuple[int, int, int, float]:
    """Whole, cut and split tiles, and the area under tile; every tile cut by itself."""
    field = shape_of(out.region).buffer(-6 * MM, join_style="mitre")
    if out.turn_degrees == 90:
        field = shapely.affinity.rotate(field, -90, origin=(0, 0))
    (length, width), joint = out.face_mm320, out.joint_mm320
    left, front, right, far = field.bounds
    x0, y0 = out.anchor
    whole = cut = splits = 0
    covered = 0.0
    sign = -1 if out.laid_rows == "to the left" else 1
    first = int((front - y0) // (width + joint)) - 1
    for row in range(first, int((far - y0) // (width + joint)) + 2):
        start = x0 + sign * (row % steps) * (length + joint) / steps
        y = y0 + row * (width + joint)
        for column in range(
            int((left - start) // (length + joint)) - 1,
            int((right - start) // (length + joint)) + 2,
        ):
            x = start + column * (length + joint)
            part = field.intersection(shapely.box(x, y, x + length, y + width))
            if part.area < 1:
                continue
            covered += part.area
            if part.area > length * width - 1:
                whole += 1
            else:
                cut += 1
                solid = [p for p in getattr(part, "geoms", [part]) if p.area > 1]
                splits += len(solid) > 1
    return whole, cut, splits, covered


@pytest.mark.parametrize(("bond", "steps"), [(GRID, 1), (HALF, 2), (THIRD, 3)])
@pytest.mark.parametrize("number", range(8))
def test_every_tile_is_as_shapely_cuts_it(bond: Bond, steps: int, number: int) -> None:
    rng = dice_of(300 + number)
    where = invented_bathroom(rng)
    face = rng.choice([(600, 300), (300, 300), (1200, 200)])
    out = laid(where, tile(*face), spec(bond), Job())
    whole, cut, splits, covered = by_shapely(out, steps)
    assert (out.whole, out.cut, out.splits) == (whole, cut, splits)
    # outlines are whole 1/320 mm, starts may lie between
    assert piece_area(out) == pytest.approx(covered, rel=1e-4)
    field = shape_of(where).buffer(-6 * MM, join_style="mitre").area
    assert out.joint_area_m2 * 320_000**2 == pytest.approx(field - covered, rel=1e-6)


@pytest.mark.parametrize(("bond", "run"), OBLIQUE_BONDS)
@pytest.mark.parametrize("number", range(4))
def test_patterns_leave_only_joints(bond: Bond, run: Run, number: int) -> None:
    where = invented_bathroom(dice_of(number + 7))
    out = laid(where, tile(397, 97), spec(bond, run), Job())
    drawn = tiles_of(out, 6 * MM)
    pieces = [shapely.Polygon(t.ring, t.openings) for t in drawn]
    # no two tiles are nearer than a joint; parts of one split tile may be
    tree = shapely.STRtree(pieces)
    pairs = tree.query(pieces, predicate="dwithin", distance=3 * MM - 2).T
    assert sum(a < b for a, b in pairs.tolist()) <= out.splits
    assert piece_area(out) == pytest.approx(sum(p.area for p in pieces), rel=2e-3)
    assert out.whole == sum(not t.cut for t in drawn)
    # a module holds j(L + W + j) of joint: 3 x 497 of 400 x 100
    field = shape_of(where).buffer(-6 * MM, join_style="mitre").area
    assert out.joint_area_m2 * 320_000**2 / field == pytest.approx(3 * 497 / 40000, rel=0.12)


def test_areas_by_edges_agree_with_shapely() -> None:
    rng = np.random.default_rng(3)
    ring = [(0, 0), (2350, 100), (2350, 1700), (1500, 2100), (1400, 900), (0, 2000)]
    polygon = shapely.Polygon([(x * MM, y * MM) for x, y in ring])
    coords = list(polygon.exterior.coords)
    edges = np.array([(*a, *b) for a, b in pairwise(coords)])
    low = rng.uniform(-300 * MM, 2300 * MM, (200, 2))
    boxes = np.concatenate([low, low + rng.uniform(1, 900 * MM, (200, 2))], axis=1)
    found = Plane(polygon, edges, None).areas(boxes)
    wanted = [polygon.intersection(shapely.box(*b)).area for b in boxes]
    assert np.allclose(found, wanted, atol=500)
    one_by_one = [float(Plane(polygon, edges, None).areas(b[None])[0]) for b in boxes]
    assert np.allclose(one_by_one, wanted, atol=500)


def test_an_oblique_wall_cuts_oblique_pieces() -> None:
    shell = ((0, 0), (2000 * MM, 0), (2000 * MM, 1200 * MM), (0, 1800 * MM))
    where = Region((Patch(shell),))
    out = laid(where, tile(300, 300), job=Job())
    assert any(p.shape is CutShape.OBLIQUE for p in out.pieces)
    field = shape_of(where).buffer(-6 * MM, join_style="mitre").area
    assert piece_area(out) + out.joint_area_m2 * 320_000**2 == pytest.approx(field, rel=1e-4)
    assert "not proven" in out.searched


def test_a_hole_on_a_crossing_drills_four_tiles() -> None:
    # columns and rows of 300 with joints of 3 from the corner: the crossing lies at 301.5
    hole = Circle((round(301.5 * MM), round(301.5 * MM)), 100 * MM)
    out = laid(room(603, 603), tile(300, 300), holes=[hole])
    assert (out.whole, out.cut, out.holed) == (4, 0, 4)
    assert sum(p.count for p in out.pieces if p.shape is CutShape.DRILLED) == 4


def test_a_hole_near_an_edge_leaves_a_thin_neck() -> None:
    # centre 60 from the tile's edge, radius 50: a neck of 10 mm
    out = laid(room(603, 603), tile(300, 300), holes=[Circle((60 * MM, 150 * MM), 100 * MM)])
    assert out.holed == 1
    assert out.neck_mm320 == 10 * MM
    assert "THIN-NECK-AT-HOLE" in {f.code for f in out.findings}
    apart = laid(room(603, 603), tile(300, 300), holes=[Circle((150 * MM, 150 * MM), 100 * MM)])
    assert "THIN-NECK-AT-HOLE" not in {f.code for f in apart.findings}


@pytest.mark.parametrize("bond", [GRID, HERRINGBONE])
def test_holes_are_found_alike_by_lattice_and_by_shapely(bond: Bond) -> None:
    holes = [Circle((700 * MM, 500 * MM), 110 * MM), Circle((1500 * MM, 900 * MM), 60 * MM)]
    out = laid(room(2350, 1710), tile(300, 100), spec(bond), Job(), holes=holes)
    drawn = [shapely.Polygon(t.ring) for t in tiles_of(out, 6 * MM)]
    wanted = sum(
        any(t.distance(shapely.Point(h.centre)) < h.diameter_mm320 / 2 - 1 for h in holes)
        for t in drawn
    )
    assert out.holed == wanted


@pytest.mark.parametrize("number", range(6))
@pytest.mark.parametrize("along", ["long", "short"])
def test_words_on_the_step_agree_with_the_tiles(along: str, number: int) -> None:
    where = invented_bathroom(dice_of(number + 900), fixtures=False)
    out = laid(where, tile(450, 150), spec(THIRD, Run(along)), Job())
    upright = out.turn_degrees == 90
    # whole tiles by row: where they begin along the row, and where the row lies
    rows: dict[int, int] = {}
    for drawn in tiles_of(out):
        if not drawn.cut:
            x, y = min(p[0] for p in drawn.ring), min(p[1] for p in drawn.ring)
            across, begin = (-x, y) if upright else (y, x)
            rows.setdefault(round(across), round(begin))
    marks = sorted(rows)
    pitch, step = 453 * MM, 151 * MM
    found = {(rows[b] - rows[a]) % pitch for a, b in pairwise(marks) if abs(b - a - 153 * MM) < MM}
    if not found:
        return
    if upright:
        forward, backward = "away from the door.", "towards the door."
    else:
        forward, backward = "to the right.", "to the left."
    (shift,) = {round(f / step) * step for f in found}
    assert out.start.endswith(forward if shift == step else backward)
