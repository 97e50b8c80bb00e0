"""Where movement joints fall, in every bond, and how long they are."""

import pytest
from tiling_cases import GRID, HALF, MM, box, laid, region, room, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, Run, SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Region
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.setting_out.movement import movement_joints, movement_lines

BAY = 3000 * MM
JOB = Job()


def out_of(where: Region, bond: Bond, run: Run | None = None) -> SettingOut:
    return laid(where, tile(597, 297), spec(bond, run or Run("degrees", 0.0)), JOB)


@pytest.mark.parametrize(
    ("bond", "run", "cut"),
    [
        (GRID, 0, (False, False)),
        (HALF, 0, (True, False)),
        (HALF, 90, (False, True)),
        (Bond(BondKind.HERRINGBONE), 0, (True, True)),
        (GRID, 45, (True, True)),
    ],
    ids=["grid", "half bond along", "half bond away", "herringbone", "oblique"],
)
def test_lines_say_where_the_bond_has_no_straight_joint(
    bond: Bond, run: float, cut: tuple[bool, bool]
) -> None:
    joints = movement_joints(out_of(room(4000, 4000), bond, Run("degrees", run)), BAY)
    assert len(joints.left) >= 1
    assert len(joints.front) >= 1
    assert (joints.left_cut, joints.front_cut) == cut


def test_a_base_course_follows_the_floor_and_proposes_none() -> None:
    base = laid(room(9000, 100), tile(600, 100), spec(kind=SurfaceKind.BASE), kind=SurfaceKind.BASE)
    assert movement_joints(base, BAY).left == ()
    assert "MOVEMENT-JOINTS-NEEDED" not in [f.code for f in base.findings]


def test_the_squares_of_a_basket_weave_have_straight_joints_between_them() -> None:
    """Two tiles of 198 x 98 with joints of 2 make squares of 198: joints are 200 apart."""
    weave = laid(
        room(4000, 4000), tile(198, 98), spec(Bond(BondKind.BASKET_WEAVE), joint=2 * MM), JOB
    )
    joints = movement_joints(weave, BAY)
    assert (joints.left_cut, joints.front_cut) == (False, False)
    assert all((at - weave.origin[0]) % (200 * MM) == 0 for at in joints.left)


def test_a_joint_through_an_l_is_as_long_as_the_floor_is_there() -> None:
    """By hand: 4 m wide and 2 m deep on the left, 1 m on the right; the joint falls past 2 m."""
    l_shape = region(
        [
            (x * 1000 * MM, y * 1000 * MM)
            for x, y in ((0, 0), (4, 0), (4, 1), (2, 1), (2, 2), (0, 2))
        ]
    )
    (line,) = movement_lines(out_of(l_shape, GRID), 2400 * MM)
    assert line.upright
    place = line.at_mm320 / MM
    assert 1600 <= place <= 2400
    assert line.length_mm320 == (2000 if place < 2000 else 1000) * MM


def test_a_joint_is_interrupted_by_what_stands_in_the_floor() -> None:
    """By hand: a column of 0.4 m in the middle of a floor of 4 x 4 m, bays of 2.6 m at most."""
    holed = region(box(0, 0, 4000, 4000), box(1500, 1500, 2500, 1900))
    upright = [line for line in movement_lines(out_of(holed, GRID), 2600 * MM) if line.upright]
    (line,) = upright
    assert len(line.stretches) == 2
    assert line.length_mm320 == (4000 - 400) * MM


def test_a_floor_within_one_bay_has_none() -> None:
    assert movement_lines(out_of(room(2000, 2000), GRID), BAY) == ()
