"""Rolls of several buildings planned over all their rooms; expected rolls worked by hand."""

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from geometry.roll_checker import check_plan
from hand_made import METRIC, MM, catalogue, finish, floor, layer, roll, room
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.finish import LayerRole
from sheetcalc.domain.inputs import Inputs, Phase
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.roll_plans import plan_job_rolls
from sheetcalc.lines.rolls_together import BuildingRolls, RollsTogether, plan_together
from sheetcalc.lines.strips import strips_needed

if TYPE_CHECKING:
    from sheetcalc.domain.rolls import Leftover

TEN = roll("U", RollKind.UNDERLAY_ROLL, length_mm320=10_000 * MM, price=Decimal(100))
MAT = roll("M", RollKind.UNDERLAY_MAT, length_mm320=1000 * MM, width_mm320=1000 * MM,
           price=Decimal(9))  # fmt: skip


def a_room(name: str, phase: str, length_mm: int, count: int = 1) -> Room:
    """A floor 1 m wide: one strip of its length."""
    copies = tuple(f"{name}-{i}" for i in range(1, count + 1)) if count > 1 else (name,)
    return room(floor(length_mm, 1000), name=name, phase=phase, count=count, copies=copies)


def building(
    name: str, *rooms: Room, start: date | None = None, item: str = "U",
    rolls: Sequence[Roll] = (TEN,), job: Job = METRIC,
) -> BuildingRolls:  # fmt: skip
    """A workbook whose rooms lie on an underlay, planned by itself."""
    items, under = catalogue(*rolls), finish(layers=(layer(LayerRole.UNDERLAY, item),))
    stages = dict.fromkeys(r.phase or "" for r in rooms)
    phases = {p: Phase(p, start, "", "", NOWHERE) for p in stages if p}
    inputs = Inputs(job, phases, (), {"F": under}, items, frozenset(), (), (), ())
    works = []
    for one in rooms:
        ctx = LineContext(job, under, items, RoomWork(one), finishes={"F": under})
        works.append(replace(ctx.work, strips=strips_needed(ctx)))
    planned = plan_job_rolls(inputs, works)
    return BuildingRolls(name, inputs, planned.works, planned.plans)


def opened(found: RollsTogether) -> Mapping[str, Mapping[tuple[str, str], int]]:
    return {name: {k: n for k, n in rolls.items() if n} for name, rolls in found.opened.items()}


def test_a_rest_of_one_building_serves_the_next() -> None:
    # 4 m in each: a roll each apart, one roll of 10 m together
    north, south = (
        building("North", a_room("1", "", 4000)),
        building("South", a_room("1", "", 4000)),
    )
    found = plan_together([north, south])
    assert opened(found) == {"North": {("U", ""): 1}, "South": {}}
    assert [(p.phase, [x.strip.room for x in p.placed]) for p in found.plans] == [
        ("North", ["North, 1"]),
        ("South", ["South, 1"]),
    ]
    assert [x.leftover_of for x in found.plans[1].placed] == ["North"]


def test_the_building_that_starts_first_opens_the_roll() -> None:
    north = building("North", a_room("1", "P", 4000), start=date(2027, 5, 3))
    south = building("South", a_room("1", "P", 4000), start=date(2027, 3, 1))
    assert opened(plan_together([north, south])) == {"North": {}, "South": {("U", "P"): 1}}


def test_where_nothing_is_saved_the_buildings_own_plans_stand() -> None:
    # 6 m in each: a roll each, together as well
    north, south = (
        building("North", a_room("1", "", 6000)),
        building("South", a_room("1", "", 6000)),
    )
    found = plan_together([north, south])
    assert (found.plans, opened(found)) == ((), {"North": {("U", ""): 1}, "South": {("U", ""): 1}})


def test_rolls_that_differ_or_settings_that_do_are_not_cut_together() -> None:
    north = building("North", a_room("1", "", 4000))
    wider = building("South", a_room("1", "", 4000), rolls=(replace(TEN, width_mm320=1100 * MM),))
    own = replace(METRIC, rolls_shared="each room")
    apart = building("South", a_room("1", "", 4000), job=own)
    for south in (wider, apart):
        found = plan_together([north, south])
        assert found.plans == ()
        assert opened(found) == {"North": {("U", ""): 1}, "South": {("U", ""): 1}}


def test_a_building_is_not_given_an_item_that_it_does_not_order_itself() -> None:
    # 4 m: four mats at 9 apart; a shared roll would cost 100 for 8 m, eight mats 72
    rooms = a_room("1", "", 4000)
    pair = [building(n, rooms, item="U; M", rolls=(TEN, MAT)) for n in ("North", "South")]
    found = plan_together(pair)
    assert opened(found) == {"North": {("M", ""): 4}, "South": {("M", ""): 4}}


def test_every_strip_of_every_building_is_cut_once_and_can_be_cut() -> None:
    # 3 x 2.5, 4.2 and 2 x 6.1 m; 3.3 and 5 x 1.7 m: 7.5 + 4.2 + 12.2 + 3.3 + 8.5 = 35.7 m
    north = building("North", a_room("1", "A", 2500, 3), a_room("2", "B", 4200),
                     a_room("3", "B", 6100, 2), start=date(2027, 3, 1))  # fmt: skip
    south = building("South", a_room("1", "A", 3300), a_room("4", "C", 1700, 5),
                     start=date(2027, 3, 8))  # fmt: skip
    found = plan_together([north, south])
    leftovers: Sequence[Leftover] = ()
    for plan in found.plans:
        check_plan(plan, [p.strip for p in plan.placed], TEN, leftovers)
        leftovers = plan.leftovers
    cut = sorted((p.strip.room, p.strip.length_mm320 // MM) for x in found.plans for p in x.placed)
    assert cut == sorted([
        *((f"North, 1-{i}", 2500) for i in (1, 2, 3)), ("North, 2", 4200),
        *((f"North, 3-{i}", 6100) for i in (1, 2)), ("South, 1", 3300),
        *((f"South, 4-{i}", 1700) for i in range(1, 6)),
    ])  # fmt: skip
    total = sum(p.rolls for p in found.plans)
    apart = sum(p.rolls for b in (north, south) for p in b.plans)
    assert 4 <= total < apart  # 35.7 m of rolls of 10 m
    assert total == sum(n for rolls in found.opened.values() for n in rolls.values())
