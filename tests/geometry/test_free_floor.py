"""Free floor against hand-worked areas; clearances by true distance."""

import math

import pytest
import shapely
from heated_rooms import heated
from room_rows import one_room, piece, resolve, room_row
from shapely import Point

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Circle, Room
from sheetcalc.geometry.heating.free_floor import circumscribed_mm, heated_zones, region_mm

INCH = 25.4
FLOOR = heated(SurfaceKind.FLOOR)
BOTH = heated(SurfaceKind.FLOOR, SurfaceKind.SHOWER_FLOOR)
US = Job(
    clearance_wall_mm320=3 * 8128,
    clearance_cabinet_mm320=2 * 8128,
    clearance_outlet_mm320=2 * 8128,
    clearance_drain_mm320=6 * 8128,
)


def room_with_a_shower() -> Room:
    """3000 x 2400 with a shower floor in its far right corner; no drain, to keep sums short."""
    shower = piece("S1", "shower floor", 2000, 1500, 1000, 900)
    (room,), _ = resolve(room_row(shower, length=3000, width=2400))
    return room


def test_walls_three_inches_off_leave_thirty_three_and_three_quarter_square_feet() -> None:
    # 96 x 60 in, 3 in from walls: (96 - 6)·(60 - 6) = 4860 in²
    room = one_room(length=96 * INCH, width=60 * INCH)
    (zone,) = heated_zones(room, FLOOR, US, 80)
    assert zone.free.area / INCH**2 == pytest.approx(4860, rel=1e-9)
    assert zone.free_m2 == pytest.approx(33.75 * 0.09290304, rel=1e-9)


def test_a_cabinet_on_one_wall_takes_its_clearance_on_three_sides() -> None:
    # 36 x 21 in: (36 + 4)·(21 + 2 - 3) = 800 in² less, 4060 in² = 28.194 ft²
    cabinet = piece("V", "cabinet", 30 * INCH, 0, 36 * INCH, 21 * INCH)
    room = one_room(cabinet, length=96 * INCH, width=60 * INCH)
    (zone,) = heated_zones(room, FLOOR, US, 80)
    assert zone.free.area / INCH**2 == pytest.approx(4060, rel=1e-9)
    assert zone.free_m2 / 0.09290304 == pytest.approx(28.194, abs=5e-4)
    assert 12 * zone.free_m2 / 0.09290304 == pytest.approx(338.3, abs=0.05)


def test_a_round_clearance_is_nowhere_short_and_little_too_wide() -> None:
    around = circumscribed_mm(Circle((320_000, 320_000), 100 * 320), 150)
    nearest = around.exterior.distance(Point(1000, 1000))
    farthest = shapely.hausdorff_distance(around.exterior, Point(1000, 1000))
    assert nearest == pytest.approx(200, abs=1e-9)
    assert 200 <= farthest < 200 * 1.006
    # an inscribed polygon of 32 sides would be short by 200·(1 - cos(pi/32)) = 0.96 mm
    assert 200 * (1 - math.cos(math.pi / 32)) == pytest.approx(0.963, abs=1e-3)


@pytest.mark.parametrize(
    ("kind", "setting_mm"), [("drain", 150), ("toilet outlet", 50), ("pipe", 50)]
)
def test_round_fixtures_keep_their_own_clearance(kind: str, setting_mm: float) -> None:
    room = one_room(piece("X", kind, 1500, 1200, diameter=110), length=3000, width=2400)
    (zone,) = heated_zones(room, FLOOR, Job(), 80)
    assert zone.free.distance(Point(1500, 1200)) == pytest.approx(55 + setting_mm, abs=1e-6)
    (thing,) = zone.obstacles
    assert thing.clearance_mm == 55 + setting_mm


def test_a_column_and_a_void_are_kept_off_like_walls() -> None:
    for kind in ("column", "void"):
        room = one_room(piece("X", kind, 1400, 1100, 200, 200), length=3000, width=2400)
        (zone,) = heated_zones(room, FLOOR, Job(), 80)
        assert zone.free.distance(shapely.box(1400, 1100, 1600, 1300)) == pytest.approx(76)


def test_main_floor_and_shower_floor_are_zones_of_their_own_and_keep_apart() -> None:
    room = room_with_a_shower()
    main, shower = heated_zones(room, BOTH, Job(), 80)
    assert (main.name, shower.name) == ("main floor", "shower floor S1")
    assert main.free.distance(shower.free) == pytest.approx(80)
    # 1000 x 900 less 76 at two walls and 40 at two sides: 884 · 784 mm
    assert shower.free.area == pytest.approx(884 * 784)


def test_only_what_the_finish_heats_is_a_zone() -> None:
    room = room_with_a_shower()
    assert [z.name for z in heated_zones(room, FLOOR, Job(), 80)] == ["main floor"]
    assert heated_zones(room, heated(), Job(), 80) == ()


def test_an_inset_is_heated_with_the_floor_round_it() -> None:
    plain = one_room(length=3000, width=2400)
    inset = one_room(piece("I", "inset", 1000, 800, 600, 600), length=3000, width=2400)
    for room in (plain, inset):
        (zone,) = heated_zones(room, FLOOR, Job(), 80)
        assert zone.free.area == pytest.approx((3000 - 152) * (2400 - 152))


def test_a_room_too_small_for_its_clearances_has_no_free_floor() -> None:
    room = one_room(length=400, width=400)
    (zone,) = heated_zones(room, FLOOR, Job(clearance_wall_mm320=200 * 320), 80)
    assert zone.free_m2 == 0


def test_a_region_keeps_its_area_in_millimetres() -> None:
    room = one_room(length=3000, width=2400)
    assert region_mm(room.outline).area == pytest.approx(7_200_000)
