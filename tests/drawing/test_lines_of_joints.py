"""Movement joints and hips on the drawings."""

import pytest
from drawing.drawn_rooms import JOB, LEGEND, MM, OUTLINE, box, work
from geometry.tiling_cases import spec, tile
from msgspec.structs import replace

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Surface
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.plan import LineMark, PlanDrawing
from sheetcalc.drawing.setting_outs import floor_plan
from sheetcalc.drawing.words import Legend
from sheetcalc.geometry.setting_out import set_out

SHOWER = Surface(
    "shower floor S",
    SurfaceKind.SHOWER_FLOOR,
    box(0, 0, 912 * MM, 912 * MM),
    falls_to=(456 * MM, 456 * MM),
)


def shower_plan(size: float) -> PlanDrawing:
    out = set_out("1", SHOWER, spec(kind=SHOWER.kind), tile(size, size), JOB)
    done = work()
    room = replace(done.room, surfaces=(*done.room.surfaces, SHOWER))
    return floor_plan(RoomWork(room, setting_outs={SHOWER.key: out}), out, "B", LEGEND)


def floor_in_bays(bay: int) -> PlanDrawing:
    done = work()
    job = replace(JOB, movement_joint_spacing_mm320=bay * MM)
    return floor_plan(done, done.setting_outs["floor"], "A", Legend(job))


def test_hips_run_from_the_drain_to_the_corners() -> None:
    hips = shower_plan(298).lines
    corners = {(0, 0), (912 * MM, 0), (912 * MM, 912 * MM), (0, 912 * MM)}
    assert {tuple(line.course[1]) for line in hips} == corners
    assert {tuple(line.course[0]) for line in hips} == {(456 * MM, 456 * MM)}
    assert {line.mark for line in hips} == {LineMark.HIP}


def test_hips_say_whether_tiles_are_cut_along_them() -> None:
    assert {line.words for line in shower_plan(298).lines} == {"hip, cut"}
    assert "5 tiles are cut along the hips" in shower_plan(298).description
    assert {line.words for line in shower_plan(98).lines} == {"hip"}
    assert "hips" not in shower_plan(98).description


def test_movement_joints_lie_within_the_floor_and_say_how_far_they_are() -> None:
    """The floor is 2.4 x 1.8 m with a vanity at the right: bays of 1.5 m need one each way."""
    plan = floor_in_bays(1500)
    words = {line.words for line in plan.lines}
    assert len(words) == 2
    for line in plan.lines:
        (ax, ay), (bx, _) = line.course
        at = ax if ax == bx else ay
        assert line.words == f"movement joint {round(at / MM)} mm"
        assert 0 <= min(ax, bx) <= max(ax, bx) <= OUTLINE.bounds[2]
    assert "Movement joints proposed, dashed: " in plan.description


def test_a_floor_within_one_bay_has_no_line() -> None:
    assert floor_in_bays(8000).lines == ()


@pytest.mark.parametrize("make", [lambda: shower_plan(298), lambda: floor_in_bays(1500)])
def test_lines_change_the_picture(make: object) -> None:
    plan: PlanDrawing = make()  # type: ignore[operator]
    assert draw(plan, 90, 80) != draw(replace(plan, lines=()), 90, 80)
