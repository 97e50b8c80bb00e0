"""Waterproofing of a whole floor of 3 x 2 m, of what stands on it and of pipes through it."""

import pytest
from cases.wet_rooms import BAND, LIQUID, MEASURED, PAN, SHOWER, WALL
from hand_made import (
    MEASURES,
    MM,
    box,
    codes,
    context,
    floor,
    layer,
    only,
    quantities,
    room,
    sundry,
)
from msgspec.structs import replace

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.room import Circle, Fixture, PieceKind, Surface
from sheetcalc.domain.room_measures import ShowerWalls
from sheetcalc.lines.measures import measure
from sheetcalc.lines.sundries import COLLARS
from sheetcalc.lines.waterproofing import BANDS, WATERPROOFING

FLOOR = floor()
WET_FLOOR = replace(
    MEASURES,
    wall_edge_m={SurfaceKind.FLOOR: 9.2},
    floor_inside_corners=4,
    floor_outside_corners=1,
    wet_inside_corners=2,
)


def wet_floor(*items: object, **changes: object) -> object:
    """A floor of 3 x 2 m that is made waterproof, with a band."""
    rows = (
        layer(LayerRole.WATERPROOFING, "L"),
        layer(LayerRole.BAND, "B", order=2),
    )
    in_room = room(FLOOR, measures=WET_FLOOR, **changes)
    return context(LIQUID, BAND, *items, layers=rows, in_room=in_room)


def test_a_wet_floor_has_its_upturn_along_every_wall() -> None:
    # 6 m2 and 9.2 m of wall, doorway left out, x 0.15 m
    assert only(WATERPROOFING, wet_floor()).each_si == pytest.approx(6 + 9.2 * 0.15)


def test_a_wet_floor_has_a_band_along_its_walls_and_corner_pieces() -> None:
    line = only(BANDS, wet_floor())
    assert line.each_si == pytest.approx(9.2)
    assert "walls of the wet floor 9.2 m" in line.basis
    assert measure(wet_floor(), "per inside corner").amount == 2 + 4
    assert measure(wet_floor(), "per outside corner").amount == 1


def test_a_dry_floor_beside_a_wet_shower_takes_no_band_and_no_corners() -> None:
    rows = (
        layer(LayerRole.WATERPROOFING, "L", SHOWER),
        layer(LayerRole.BAND, "B", SHOWER, order=2),
    )
    measures = replace(
        MEASURED, wall_edge_m={SHOWER: 3.0, SurfaceKind.FLOOR: 9.2}, floor_inside_corners=4
    )
    ctx = context(LIQUID, BAND, layers=rows, in_room=room(FLOOR, PAN, measures=measures))
    assert only(BANDS, ctx).each_si == pytest.approx(4.2)
    assert measure(ctx, "per inside corner").amount == 0


def test_a_bath_surround_is_covered_as_drawn_with_a_band_along_the_rim() -> None:
    # 1.7 m and 0.7 m of wall above a bath, 1.55 m high, made waterproof though not tiled; two
    # coats; rim 2.4 m and the upright corner 1.55 m
    over = (
        Surface("wet area far", SurfaceKind.WET_AREA, box(1700 * MM, 1550 * MM)),
        Surface("wet area left", SurfaceKind.WET_AREA, box(700 * MM, 1550 * MM)),
    )
    measures = replace(MEASURES, bath_wall_m=2.4, wet_change_of_plane_m=1.55, baths=1)
    rows = (
        layer(LayerRole.WATERPROOFING, "L", SurfaceKind.WET_AREA, coats=2),
        layer(LayerRole.BAND, "B", SurfaceKind.WET_AREA, order=2),
    )
    ctx = context(LIQUID, BAND, layers=rows, in_room=room(*over, measures=measures))
    assert only(WATERPROOFING, ctx).each_si == pytest.approx(2.4 * 1.55 * 2)
    line = only(BANDS, ctx)
    assert line.each_si == pytest.approx(1.55 + 2.4)
    assert "rims of baths and trays 2.4 m" in line.basis


def test_a_curb_is_covered_on_its_top_its_faces_and_its_free_end() -> None:
    # 1 m x 0.1 m top, two faces 1 m x 0.12 m, one end 0.1 x 0.12 m, two coats
    sides = (
        Surface("curb C top", SurfaceKind.CURB, box(1000 * MM, 100 * MM)),
        Surface("curb C face 1", SurfaceKind.CURB, box(1000 * MM, 120 * MM)),
        Surface("curb C face 2", SurfaceKind.CURB, box(1000 * MM, 120 * MM)),
        Surface("curb C end 1", SurfaceKind.CURB, box(100 * MM, 120 * MM)),
    )
    row = layer(LayerRole.WATERPROOFING, "L", SurfaceKind.CURB, coats=2)
    ctx = context(LIQUID, layers=(row,), in_room=room(*sides))
    assert only(WATERPROOFING, ctx).each_si == pytest.approx(2 * (0.1 + 0.12 + 0.12 + 0.012))


OUTLET = Circle((500 * MM, 500 * MM), 110 * MM)
PIPE = Circle((900 * MM, 500 * MM), 40 * MM)


def with_pipes(*items: object) -> object:
    """A wet floor with an outlet and a pipe through it, and a collar row in its build-up."""
    holed = replace(FLOOR, holes=(OUTLET, PIPE))
    fixtures = tuple(
        Fixture(name, kind, None, circle, None, RowRef("Floor pieces", 9))
        for name, kind, circle in (
            ("WC", PieceKind.TOILET_OUTLET, OUTLET),
            ("P", PieceKind.PIPE, PIPE),
        )
    )
    rows = (layer(LayerRole.WATERPROOFING, "L"), layer(LayerRole.COLLAR, None, order=2))
    in_room = room(holed, measures=WET_FLOOR, fixtures=fixtures)
    return context(LIQUID, *items, layers=rows, in_room=in_room)


def test_pipes_and_outlets_through_a_wet_floor_take_a_collar_each() -> None:
    ctx = with_pipes(sundry("PC", "per pipe"), sundry("DC", "per drain"))
    assert {x.item: x.each_si for x in quantities(COLLARS, ctx)} == {"PC": 2}
    assert "PIPES-WITHOUT-COLLAR" not in codes(COLLARS, ctx)


def test_pipes_through_a_wet_floor_without_a_collar_are_a_warning() -> None:
    assert codes(COLLARS, with_pipes(sundry("DC", "per drain"))) == ["PIPES-WITHOUT-COLLAR"]


def test_pipes_through_a_dry_floor_take_none() -> None:
    wet = with_pipes(sundry("PC", "per pipe"))
    dry = replace(wet, finish=replace(wet.finish, layers={}))
    assert measure(dry, "per pipe").amount == 0


def dry_walls(walls: ShowerWalls, *surfaces: Surface, on: SurfaceKind = SHOWER) -> list[str]:
    """What is told of a shower's walls, with a membrane under the shower or on the walls."""
    rows = (layer(LayerRole.WATERPROOFING, "L", on),)
    in_room = room(*surfaces, measures=replace(MEASURED, shower_walls=walls))
    found = codes(WATERPROOFING, context(LIQUID, layers=rows, in_room=in_room))
    return [code for code in found if code == "SHOWER-WALL-LEFT-DRY"]


def test_a_wall_beside_a_shower_without_a_wet_area_is_told() -> None:
    told = ["SHOWER-WALL-LEFT-DRY"]
    assert dry_walls(ShowerWalls(1.8, 0.9, 0.0), FLOOR, PAN) == told
    assert dry_walls(ShowerWalls(1.8, 0.0, 0.0), FLOOR, PAN) == []


def test_a_membrane_on_the_walls_keeps_those_with_a_face() -> None:
    on = SurfaceKind.WALL
    assert dry_walls(ShowerWalls(1.8, 0.9, 0.0), FLOOR, PAN, WALL, on=on) == []
    assert len(dry_walls(ShowerWalls(1.8, 0.9, 0.4), FLOOR, PAN, WALL, on=on)) == 1


def test_walls_of_a_wet_room_may_be_dry_where_others_are_not() -> None:
    assert dry_walls(ShowerWalls(6.0, 2.0, 2.0), PAN) == []
    assert len(dry_walls(ShowerWalls(6.0, 6.0, 2.0), PAN)) == 1
