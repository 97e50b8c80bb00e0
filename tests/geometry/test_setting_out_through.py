"""Surfaces laid through as one: the same tiles as one surface has, each told to one part."""

from collections import Counter
from collections.abc import Iterable

import pytest
import shapely
from msgspec.structs import replace
from tiling_cases import GRID, HALF, MM, THIRD, box, laid, region, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Finish, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.setting_out.common_frame import Part
from sheetcalc.geometry.setting_out.drawing import tiles_of
from sheetcalc.geometry.setting_out.fields import tiled_room
from sheetcalc.geometry.setting_out.plane import shape_of
from sheetcalc.geometry.setting_out.room import set_out_room
from sheetcalc.geometry.setting_out.through import set_out_through

JOB = Job()
BONDS = [GRID, HALF, THIRD, Bond(BondKind.HERRINGBONE), Bond(BondKind.DIAGONAL_GRID)]


def wall_with_wet_area() -> tuple[Surface, Surface]:
    """A wall of 2100 x 2100 with a wet area of 1700 x 1550 over the bath, as in a bathroom."""
    dry = [(0, 0), (2100, 0), (2100, 2100), (1700, 2100), (1700, 550), (0, 550)]
    return (
        Surface("wall far", SurfaceKind.WALL, region([(x * MM, y * MM) for x, y in dry])),
        Surface("wet area far", SurfaceKind.WET_AREA, region(box(0, 550, 1700, 2100))),
    )


def pieces_of(outs: Iterable[SettingOut]) -> Counter[tuple[object, ...]]:
    found: Counter[tuple[object, ...]] = Counter()
    for out in outs:
        for piece in out.pieces:
            found[piece.shape, piece.length_mm320 // MM, piece.width_mm320 // MM] += piece.count
    return found


@pytest.mark.parametrize("bond", BONDS)
def test_the_parts_of_a_wall_have_the_tiles_of_the_whole_wall(bond: Bond) -> None:
    dry, wet = wall_with_wet_area()
    parts = [
        Part("1", dry, spec(bond, kind=SurfaceKind.WALL)),
        Part("1", wet, spec(bond, kind=SurfaceKind.WET_AREA)),
    ]
    outs = set_out_through(parts, tile(300, 200), JOB)
    assert outs is not None
    whole = laid(
        region(box(0, 0, 2100, 2100)),
        tile(300, 200),
        spec(bond, kind=SurfaceKind.WALL),
        JOB,
        kind=SurfaceKind.WALL,
    )
    assert sum(o.whole for o in outs) == whole.whole
    assert sum(o.cut for o in outs) == whole.cut
    assert sum(o.small for o in outs) == whole.small
    assert sum(o.lower_bound for o in outs) == whole.lower_bound
    assert sum(o.joint_area_m2 for o in outs) == pytest.approx(whole.joint_area_m2, rel=1e-6)
    assert pieces_of(outs) == pieces_of([whole])
    sizes = [o.smallest_cut_mm320 for o in outs if o.smallest_cut_mm320 is not None]
    assert whole.smallest_cut_mm320 is not None
    assert min(sizes) == pytest.approx(whole.smallest_cut_mm320, abs=MM / 5)


@pytest.mark.parametrize("bond", BONDS)
def test_the_drawings_of_the_parts_make_up_the_whole_wall(bond: Bond) -> None:
    dry, wet = wall_with_wet_area()
    kinds = (SurfaceKind.WALL, SurfaceKind.WET_AREA)
    parts = [Part("1", s, spec(bond, kind=k)) for s, k in zip((dry, wet), kinds, strict=True)]
    outs = set_out_through(parts, tile(300, 200), JOB)
    assert outs is not None
    drawn = [shapely.Polygon(t.ring, t.openings) for out in outs for t in tiles_of(out)]
    together = shapely.union_all(drawn)
    assert together.area == pytest.approx(sum(d.area for d in drawn), rel=1e-9)  # none twice
    for out in outs:
        tiles = tiles_of(out)
        assert sum(not t.cut for t in tiles) == out.whole
        assert sum(t.cut for t in tiles) == sum(p.count for p in out.pieces)


def finish(**changes: object) -> Finish:
    wall = spec(kind=SurfaceKind.WALL)
    wet = replace(spec(kind=SurfaceKind.WET_AREA), **changes)
    return Finish("F", {SurfaceKind.WALL: wall, SurfaceKind.WET_AREA: wet}, {})


def test_a_wet_area_tiled_like_its_wall_is_laid_through_with_it() -> None:
    outs = set_out_room(tiled_room("1", wall_with_wet_area(), finish(), {"T": tile(300, 200)}), JOB)
    dry, wet = outs.values()
    assert "laid through as one surface with wet area far" in dry.searched
    # both on the same joint lines
    assert (dry.origin[0] - wet.origin[0]) % (303 * MM) == 0
    assert (dry.origin[1] - wet.origin[1]) % (203 * MM) == 0
    assert "joints run on from wall far" in wet.start


@pytest.mark.parametrize("changes", [{"joint_mm320": 2 * MM}, {"bond": HALF}, {"tile": "U"}])
def test_a_wet_area_tiled_in_another_way_is_set_out_by_itself(changes: dict[str, object]) -> None:
    tiles = {"T": tile(300, 200), "U": tile(300, 200, code="U")}
    outs = set_out_room(tiled_room("1", wall_with_wet_area(), finish(**changes), tiles), JOB)
    assert not any("laid through" in out.searched for out in outs.values())


def two_floors(bond: Bond, run: Run) -> list[Part]:
    """Two rooms back to back at a doorway of 800 in either's near wall: the second turned round.

    The second room's near wall from 500 to 1300 lies at the first's from 600 to 1400; the first
    has a reveal of 100.
    """
    shell = [(0, 0), (600, 0), (600, -100), (1400, -100), (1400, 0), (2000, 0), (2000, 1500)]
    first = region([(x * MM, y * MM) for x, y in [*shell, (0, 1500)]])
    second = region(box(0, 0, 1800, 1600))
    how = spec(bond, run)
    # turned half round, (500, 0) of the second comes to (1400, -100) of the first
    return [
        Part("1", Surface("floor", SurfaceKind.FLOOR, first), how),
        Part(
            "2",
            Surface("floor", SurfaceKind.FLOOR, second, (Circle((900 * MM, 900 * MM), 100 * MM),)),
            how,
            turns=2,
            shift=(1900 * MM, -100 * MM),
        ),
    ]


@pytest.mark.parametrize("run", [Run(), Run("short"), Run("degrees", 30.0)])
@pytest.mark.parametrize("bond", BONDS[:4])
def test_two_rooms_have_the_tiles_of_their_floors_together(bond: Bond, run: Run) -> None:
    parts = two_floors(bond, run)
    together = union([part.region(part.surface.region) for part in parts])
    whole = laid(together, tile(600, 300), spec(bond, run), JOB)
    outs = set_out_through(parts, tile(600, 300), JOB)
    assert outs is not None
    assert sum(o.whole for o in outs) == whole.whole
    # a tile that the wall cuts apart is a cut tile of either room, no longer a split one
    torn = sum(o.cut for o in outs) - whole.cut
    assert whole.splits - sum(o.splits for o in outs) == torn >= 0
    assert outs[1].holed >= 1
    drawn = [_in_common(part, out) for part, out in zip(parts, outs, strict=True)]
    tiles = [shapely.Polygon(t.ring).buffer(-MM / 2) for t in tiles_of(whole)]
    found = [polygon for several in drawn for polygon in several]
    assert len(found) == len(tiles)
    # every tile of a room, brought into the common frame, lies on one of the whole's
    tree = shapely.STRtree(found)
    for one in tiles:
        assert any(found[k].contains(one) for k in tree.query(one))


@pytest.mark.parametrize("bond", BONDS[:4])
def test_what_a_wall_cuts_apart_belongs_to_the_room_that_it_lies_in(bond: Bond) -> None:
    """Each room's list and drawing hold what covers its own floor, not what lies beyond the wall.

    Oracle: shapely, with areas in the common frame.
    """
    parts = two_floors(bond, Run())
    outs = set_out_through(parts, tile(600, 300), JOB)
    assert outs is not None
    for part, out in zip(parts, outs, strict=True):
        own = shape_of(part.region(part.surface.region))
        for piece in _in_common(part, out):
            assert piece.intersection(own).area > piece.area / 2 - MM * MM
        listed = sum(p.count for p in out.pieces if p.shape != "drilled")
        assert sum(t.cut for t in tiles_of(out)) == listed


def _in_common(part: Part, out: SettingOut) -> list[shapely.Polygon]:
    return [
        shapely.Polygon([part.point((round(x), round(y))) for x, y in t.ring])
        for t in tiles_of(out)
    ]


def test_the_second_room_is_measured_in_its_own_frame() -> None:
    parts = two_floors(GRID, Run())
    outs = set_out_through(parts, tile(600, 300), JOB)
    assert outs is not None
    second = outs[1]
    assert second.region == parts[1].surface.region
    assert "joints run on from 1" in second.start
    # its first tile stands where it says, a whole tile of the drawing
    corners = {
        (min(round(x) for x, _ in t.ring), min(round(y) for _, y in t.ring))
        for t in tiles_of(second)
        if not t.cut
    }
    assert second.origin in corners
    assert (second.start_left_mm320, second.start_front_mm320) == second.origin


def test_movement_joints_are_those_of_the_floors_together() -> None:
    """Two floors of 5 m make up 10 m: over 25 ft (7.62 m), though neither is."""
    how = spec()
    parts = [
        Part("1", Surface("floor", SurfaceKind.FLOOR, region(box(0, 0, 5000, 2000))), how),
        Part(
            "2",
            Surface("floor", SurfaceKind.FLOOR, region(box(0, 0, 5000, 2000))),
            how,
            shift=(5000 * MM, 0),
        ),
    ]
    outs = set_out_through(parts, tile(600, 300), JOB)
    assert outs is not None
    codes = [[f.code for f in out.findings] for out in outs]
    assert "MOVEMENT-JOINTS-NEEDED" in codes[0]
    assert "MOVEMENT-JOINTS-NEEDED" not in codes[1]
    alone = laid(region(box(0, 0, 5000, 2000)), tile(600, 300), how, JOB)
    assert "MOVEMENT-JOINTS-NEEDED" not in [f.code for f in alone.findings]


def test_very_small_tile_over_large_floors_is_left_to_each_room() -> None:
    wide = region(box(0, 0, 20000, 15000))
    how = spec(Bond(BondKind.HERRINGBONE))
    surface = Surface("floor", SurfaceKind.FLOOR, wide)
    parts = [Part("1", surface, how), Part("2", surface, how, shift=(20000 * MM, 0))]
    assert set_out_through(parts, tile(10, 5), JOB) is None
