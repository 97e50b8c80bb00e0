"""What is bought or timed for walls, and for their wet areas is not."""

import pytest
from hand_made import MM, box, catalogue, context, room, spec, sundry
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Buyable, LabourTask
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Surface
from sheetcalc.lines.checks import check_wet_areas

WALL = Surface("wall far", SurfaceKind.WALL, box(1800 * MM, 2000 * MM))
WET = Surface("wet area far", SurfaceKind.WET_AREA, box(900 * MM, 2000 * MM))
SPACERS = sundry("SP", "per joint crossing", surfaces=("wall",))
MORE = sundry("SQ", "per joint crossing", surfaces=("wet area", "niche"))
SETTING = LabourTask(
    "Set wall tile", "per area of tile", None, "wall", 1.3, None, 5, None, "", RowRef("Labour", 5)
)
LEVELLING = replace(SETTING, task="Level the floor", surface=None)


def left_out(
    *rows: Buyable, labour: tuple[LabourTask, ...] = (), wet: Surface = WET, tile: str | None = "T"
) -> list[object]:
    specs = spec(SurfaceKind.WALL), spec(SurfaceKind.WET_AREA, tile=tile)
    ctx = context(specs=specs, in_room=room(WALL, wet))
    goods = replace(catalogue(*rows), labour=labour)
    found = check_wet_areas(goods, {"F": ctx.finish}, [ctx.work])
    return [(f.code, f.source.tab, f.column, f.facts["name"]) for f in found]


def test_spacers_for_walls_alone_are_asked_about() -> None:
    assert left_out(SPACERS) == [("WET-AREA-LEFT-OUT", "Sundries", "Surface", "SP")]


def test_a_task_for_walls_alone_is_asked_about() -> None:
    found = left_out(labour=(SETTING,))
    assert found == [("WET-AREA-LEFT-OUT", "Labour", "Surface", "Set wall tile")]


@pytest.mark.parametrize(
    "rows",
    [
        (SPACERS, MORE),
        (replace(SPACERS, surfaces=("wall", "wet area")),),
        (replace(SPACERS, surfaces=()),),
        (replace(SPACERS, surfaces=("floor",)),),
        (SPACERS, replace(MORE, surfaces=(), finish="F")),
        (replace(SPACERS, finish="Another"),),
        (replace(SPACERS, basis="per bath"),),
    ],
)
def test_nobody_is_asked_where_wet_areas_count_as_well_or_walls_do_not(
    rows: tuple[Buyable, ...],
) -> None:
    assert left_out(*rows) == []


def test_a_row_of_another_basis_or_of_another_finish_is_not_for_the_wet_area() -> None:
    for other in (replace(MORE, basis="per tile edge"), replace(MORE, finish="Another")):
        assert [name for *_, name in left_out(SPACERS, other)] == ["SP"]


def test_a_task_by_another_basis_does_not_stand_in_for_setting_the_tile() -> None:
    by_the_floor = replace(LEVELLING, basis="per area of floor")
    assert left_out(labour=(SETTING, LEVELLING)) == []
    assert len(left_out(labour=(SETTING, by_the_floor))) == 1


def test_rooms_without_a_tiled_wet_area_are_no_matter() -> None:
    assert left_out(SPACERS, wet=WALL) == []
    assert left_out(SPACERS, tile=None) == []
