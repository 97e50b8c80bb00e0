"""Where the first tile lies, and whether it takes a batten: common practice, no source."""

import pytest
from geometry.tiling_cases import MM, NO_GAP, laid, room, spec, tile

from sheetcalc.domain.finish import Bond, BondKind, SurfaceKind
from sheetcalc.domain.job import Job


def test_a_base_course_stands_on_the_floor_without_batten_and_start_line() -> None:
    out = laid(room(1900, 100), tile(600, 100), spec(kind=SurfaceKind.BASE), kind=SurfaceKind.BASE)
    assert "batten" not in out.start
    assert "start line" not in out.start
    assert "course full" not in out.start


def test_a_wall_begins_with_a_level_line_and_a_batten_above_the_cut_course() -> None:
    out = laid(
        room(2000, 1500), tile(300, 200), spec(kind=SurfaceKind.WALL), Job(), kind=SurfaceKind.WALL
    )
    assert out.start.startswith("Level start line")
    assert "on a batten" in out.start


def test_a_wall_whose_first_course_is_whole_and_stands_on_the_floor_needs_none() -> None:
    """Five courses of 197 with joints of 3 in 997 mm: no cut."""
    out = laid(
        room(2000, 997), tile(300, 197), spec(kind=SurfaceKind.WALL), NO_GAP, kind=SurfaceKind.WALL
    )
    assert "batten" not in out.start


@pytest.mark.parametrize("kind", [BondKind.HERRINGBONE, BondKind.DOUBLE_HERRINGBONE])
def test_a_herringbone_begins_in_the_middle_of_the_far_side(kind: BondKind) -> None:
    """Within half a repeat of the middle, and two repeats of the far wall."""
    where = room(3000, 2400)
    out = laid(where, tile(600, 100), spec(Bond(kind)), Job())
    left, front = (at / MM for at in out.origin)
    assert abs(left + 300 - 1500) <= 600 + 100
    assert front >= 2400 - 2 * (600 + 100)
