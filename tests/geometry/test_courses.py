"""Level courses of alike tile run on round the corners of a room: common practice, no source."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tiling_cases import GRID, HALF, MM, box, region, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Finish, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Surface
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.drawing import tiles_of
from sheetcalc.geometry.setting_out.fields import tiled_room
from sheetcalc.geometry.setting_out.room import set_out_room

LEVEL = Run()
UPRIGHT = Run("short")
EACH_BY_ITSELF = Job(offcuts="none")


def wall(name: str, *corners: int, kind: SurfaceKind = SurfaceKind.WALL) -> Surface:
    """Make a wall or a wet area of a box [mm]."""
    left, bottom, right, top = corners
    return Surface(f"{kind.value} {name}", kind, region(box(left, bottom, right, top)))


def set_out(
    *walls: Surface,
    bond: Bond = GRID,
    run: Run = LEVEL,
    wet_joint: int = 3 * MM,
    job: Job = EACH_BY_ITSELF,
) -> dict[str, SettingOut]:
    specs = {
        SurfaceKind.WALL: spec(bond, run, kind=SurfaceKind.WALL),
        SurfaceKind.WET_AREA: spec(bond, run, wet_joint, kind=SurfaceKind.WET_AREA),
    }
    return set_out_room(tiled_room("1", walls, Finish("F", specs, {}), {"T": tile(300, 200)}), job)


def joints_above_the_floor(out: SettingOut) -> set[int]:
    """Heights of the tops and bottoms of drawn whole tiles within a course [1/320 mm]."""
    ys = (shapely.Polygon(t.ring).bounds[1] for t in tiles_of(out) if not t.cut)
    return {round(y) % (203 * MM) for y in ys}


def test_the_courses_of_a_small_wall_lie_at_the_height_of_the_largest_ones() -> None:
    """The far wall of 2100: 2088 between gaps of 6 are 9 whole of 10 courses of 203, balanced.

    2088 + 3 less 9 x 203 leaves 264, two cuts of 129 and their joints: the second course begins
    at 6 + 129 + 3 = 138.  A wall from a bath's rim at 550 has its courses at 138 + 2 x 203 = 544
    and 747: the lowest is cut to 744 - 556 = 188, and it begins above it at 747.
    """
    far, left = wall("far", 0, 0, 2400, 2100), wall("left", 0, 550, 900, 2100)
    outs = set_out(left, far)
    assert outs["wall far"].start.startswith("Level start line 138 mm above the bottom edge")
    assert outs["wall left"].start.startswith("Level start line 197 mm above the bottom edge")
    assert "Bottom course cut to 188 mm" in outs["wall left"].start
    assert outs["wall left"].start.endswith("Courses run on from wall far.")
    assert "Courses" not in outs["wall far"].start


@given(
    st.lists(
        st.tuples(st.integers(0, 700), st.integers(700, 3000), st.integers(1500, 2500)),
        min_size=2,
        max_size=4,
    ),
    st.sampled_from([GRID, HALF]),
)
def test_whole_tiles_of_all_walls_lie_on_the_same_level_joints(
    sizes: list[tuple[int, int, int]], bond: Bond
) -> None:
    names = ("near", "right", "far", "left")
    walls = [
        wall(name, 0, bottom, length, top)
        for name, (bottom, length, top) in zip(names, sizes, strict=False)
    ]
    outs = set_out(*walls, bond=bond)
    assert len(set.union(*(joints_above_the_floor(out) for out in outs.values()))) == 1
    again = set_out(*reversed(walls), bond=bond)
    assert {key: again[key] for key in outs} == outs  # whatever the order of the rows


def test_a_wall_that_leads_has_the_setting_out_that_it_has_by_itself() -> None:
    far, left = wall("far", 0, 0, 2400, 2100), wall("left", 0, 0, 900, 2050)
    assert set_out(far, left)["wall far"] == set_out(far)["wall far"]


@pytest.mark.parametrize("bond", [Bond(BondKind.HERRINGBONE), Bond(BondKind.DIAGONAL_GRID)])
def test_bonds_without_level_courses_are_set_out_wall_by_wall(bond: Bond) -> None:
    far, left = wall("far", 0, 0, 2400, 2100), wall("left", 0, 550, 900, 2100)
    assert set_out(far, left, bond=bond)["wall left"] == set_out(left, bond=bond)["wall left"]


def test_columns_of_an_offset_bond_are_no_courses() -> None:
    far, left = wall("far", 0, 0, 2400, 2100), wall("left", 0, 550, 900, 2100)
    both = set_out(far, left, bond=HALF, run=UPRIGHT)
    assert both["wall left"] == set_out(left, bond=HALF, run=UPRIGHT)["wall left"]


def test_walls_with_other_joints_have_courses_of_their_own() -> None:
    far = wall("far", 0, 0, 2400, 2100)
    left = wall("left", 0, 550, 900, 2100, kind=SurfaceKind.WET_AREA)
    both = set_out(far, left, wet_joint=2 * MM)
    assert both["wet area left"] == set_out(left, wet_joint=2 * MM)["wet area left"]


def test_walls_counted_by_area_have_no_courses() -> None:
    far, left = wall("far", 0, 0, 2400, 2100), wall("left", 0, 550, 900, 2100)
    by_area = Job(counted_by="area", offcuts="none")
    assert set_out(far, left, job=by_area)["wall left"] == set_out(left, job=by_area)["wall left"]
