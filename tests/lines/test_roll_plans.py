"""Roll plans of a job: phases, leftovers, alike rooms, several items named together."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

import pytest
from hand_made import METRIC, MM, box, catalogue, context, finish, floor, layer, roll, room, spec
from hand_made import tile as a_tile
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Catalogue, Roll, RollKind
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.finish import Finish, Layer, LayerRole
from sheetcalc.domain.inputs import Inputs, Phase
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.geometry.rolls import roll_solver
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.roll_plans import PlannedRolls, phases_in_order, plan_job_rolls
from sheetcalc.lines.strips import strips_needed
from sheetcalc.lines.underlay import UNDERLAY

UNDER = RollKind.UNDERLAY_ROLL
TEN = roll("U", UNDER, length_mm320=10_000 * MM, price=Decimal(100))


def underlay(item: str) -> Layer:
    return layer(LayerRole.UNDERLAY, item)


def a_room(name: str, phase: str, length: int, width: int, count: int = 1) -> Room:
    copies = tuple(f"{name}-{i}" for i in range(1, count + 1)) if count > 1 else (name,)
    surface = floor(length, width)
    return room(surface, name=name, phase=phase, count=count, copies=copies)


def inputs_of(
    items: Catalogue, under: Finish, job: Job = METRIC, phases: Sequence[Phase] = ()
) -> Inputs:
    return Inputs(
        job, {p.name: p for p in phases}, (), {"F": under}, items, frozenset(), (), (), ()
    )


def plan(
    rooms: Sequence[Room], item: str, *rolls: Roll, job: Job = METRIC, phases: Sequence[Phase] = ()
) -> PlannedRolls:
    items = catalogue(*rolls)
    under = finish(layers=(underlay(item),))
    works = []
    for one in rooms:
        ctx = LineContext(job, under, items, RoomWork(one), finishes={"F": under})
        works.append(replace(ctx.work, strips=strips_needed(ctx)))
    return plan_job_rolls(inputs_of(items, under, job, phases), works)


def phase(name: str, start: date | None = None) -> Phase:
    return Phase(name, start, "", "", NOWHERE)


def rolls_by_phase(plans: Sequence[RollPlan]) -> dict[tuple[str, str], int]:
    return {(p.phase, p.item): p.rolls for p in plans}


def test_phases_are_planned_in_the_order_of_their_starts() -> None:
    phases = [phase("late", date(2027, 5, 3)), phase("open"), phase("early", date(2027, 3, 1))]
    inputs = inputs_of(catalogue(), finish(), phases=phases)
    found = phases_in_order(inputs, ["unlisted", "open", "late", "", "early"])
    assert found == ["", "early", "late", "open", "unlisted"]


def test_a_later_phase_is_cut_from_what_an_earlier_one_leaves() -> None:
    # 6 m, then 4 m: the 4 m that are left over of a roll of 10 m will do
    rooms = [a_room("B", "2", 4000, 1000), a_room("A", "1", 6000, 1000)]
    phases = [phase("1", date(2027, 3, 1)), phase("2", date(2027, 4, 1))]
    found = plan(rooms, "U", TEN, phases=phases)
    assert rolls_by_phase(found.plans) == {("1", "U"): 1, ("2", "U"): 0}
    (placed,) = found.plans[1].placed
    assert (placed.leftover_of, placed.position_mm320) == ("1", 6000 * MM)


def test_a_rest_below_the_useful_leftover_is_not_passed_on() -> None:
    rooms = [a_room("A", "1", 6000, 1000), a_room("B", "2", 4000, 1000)]
    job = replace(METRIC, useful_leftover_mm320=4001 * MM)
    assert rolls_by_phase(plan(rooms, "U", TEN, job=job).plans) == {("1", "U"): 1, ("2", "U"): 1}


def test_every_room_that_a_row_stands_for_is_planned_by_its_name() -> None:
    found = plan([a_room("A", "1", 4000, 1000, count=3)], "U", TEN)
    assert sorted(p.strip.room for p in found.plans[0].placed) == ["A-1", "A-2", "A-3"]
    assert found.plans[0].rolls == 2


def test_each_room_its_own_rolls_passes_nothing_on() -> None:
    rooms = [a_room("A", "1", 2000, 1000, count=2), a_room("B", "2", 2000, 1000)]
    job = replace(METRIC, rolls_shared="each room")
    found = plan(rooms, "U", TEN, job=job)
    assert rolls_by_phase(found.plans) == {("1", "U"): 2, ("2", "U"): 1}


FOUR = roll("S", UNDER, length_mm320=4000 * MM, price=Decimal(45))


def test_rolls_of_two_lengths_are_mixed_as_it_comes_cheapest() -> None:
    # 5 + 5 m from one roll of 10 m at 100, 4 m from one of 4 m at 45
    rooms = [a_room("A", "", 5000, 1000, count=2), a_room("B", "", 4000, 1000)]
    found = plan(rooms, "U; S", TEN, FOUR)
    assert rolls_by_phase(found.plans) == {("", "U"): 1, ("", "S"): 1}
    assert "cheapest mix found: 1 x U + 1 x S at 145.00 EUR" in found.plans[0].basis
    shares = {w.room.name: [(s.item, s.each_m2) for s in w.stock] for w in found.works}
    assert shares == {"A": [("U", 5.0)], "B": [("S", 4.0)]}


MAT = roll("M", RollKind.UNDERLAY_MAT, length_mm320=1000 * MM, width_mm320=1000 * MM,
           price=Decimal(9))  # fmt: skip


@pytest.mark.parametrize(("price", "chosen"), [(9, "M"), (15, "U")])
def test_mats_are_priced_against_rolls(price: int, chosen: str) -> None:
    # 4 x 1 m: four mats, or a roll at 50
    mat = replace(MAT, price=Decimal(price))
    cheap = replace(TEN, price=Decimal(50))
    found = plan([a_room("A", "", 4000, 1000)], "U; M", cheap, mat)
    assert [p.item for p in found.plans] == [chosen]
    assert {s.item for s in found.works[0].strips} == {chosen}
    assert "taken as cheapest" in found.plans[0].basis


def test_an_item_without_a_price_is_taken_only_where_none_has_one() -> None:
    unpriced = replace(MAT, price=None)
    found = plan([a_room("A", "", 4000, 1000)], "U; M", TEN, unpriced)
    assert [p.item for p in found.plans] == ["U"]
    assert [f.code for f in found.findings] == ["STOCK-WITHOUT-PRICE"]
    both = plan([a_room("A", "", 4000, 1000)], "U; M", replace(TEN, price=None), unpriced)
    assert [p.item for p in both.plans] == ["M"]  # 4 m2 against a roll of 10 m2


def test_a_line_for_each_item_that_a_room_is_cut_from() -> None:
    rooms = [a_room("A", "", 5000, 1000), a_room("B", "", 9000, 1000)]
    found = plan(rooms, "U; S", TEN, FOUR)
    for work in found.works:
        ctx = context(TEN, FOUR, a_tile(), specs=(spec(),), layers=(underlay("U; S"),))
        lines = [x for x in UNDERLAY.work(replace(ctx, work=work)) if not hasattr(x, "code")]
        assert sum(x.each_si for x in lines) == pytest.approx(5 if work.room.name == "A" else 9)
        assert {x.pack_by for x in lines} == {PackBy.PLAN}
        assert all("cheapest for the phase of U; S" in x.basis for x in lines)


def test_a_wrong_code_among_several_blocks_the_layer() -> None:
    ctx = context(TEN, layers=(underlay("U; X"),))
    assert [f.code for f in UNDERLAY.work(ctx)] == ["ITEM-NOT-IN-CATALOGUE"]
    assert strips_needed(ctx) == ()


def test_the_solver_is_missed_where_the_job_asks_for_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(roll_solver, "find_spec", lambda _name: None)
    job = replace(METRIC, roll_solver=True)
    found = plan([a_room("A", "", 4000, 1000)], "U", TEN, job=job)
    assert [f.code for f in found.findings] == ["SOLVER-NOT-INSTALLED"]
    assert found.plans[0].rolls == 1


def test_boards_of_several_rooms_share_offcuts() -> None:
    # 0.3 x 1.2 m in each of two rooms: one board of 1.2 x 0.6 m less the saw's 3 mm is too
    # narrow for both; cut with a knife it does
    board = roll("B", RollKind.BACKER_BOARD, length_mm320=1200 * MM, width_mm320=600 * MM)
    items, under = catalogue(board), finish(layers=(layer(LayerRole.BACKER_BOARD, "B"),))
    for kerf, boards in ((3, 2), (0, 1)):
        job = replace(METRIC, kerf_mm320=kerf * MM)
        one = room(replace(floor(), region=box(1200 * MM, 300 * MM)))
        ctx = LineContext(job, under, items, RoomWork(one), finishes={"F": under})
        work = replace(ctx.work, strips=strips_needed(ctx))
        found = plan_job_rolls(inputs_of(items, under, job), [work])
        assert [p.rolls for p in found.plans] == [boards]
