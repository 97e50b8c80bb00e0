"""Every roll plan of every sample, and of random jobs, cut again strip by strip."""

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Decimal

import pytest
from geometry.roll_checker import check_plan, roll_of
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from result_books import make_orders
from roll_jobs import bought, planned, sample_inputs, shared_against_own, works_of

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Leftover, RollPlan, Strip
from sheetcalc.geometry.rolls.rolls import plan_stock, strips_of_copies
from sheetcalc.takeoff import calculate
from tests.samples import SAMPLES

SOUND = [name for name in SAMPLES if name != "mistakes.xlsx"]
OWN = {"rolls_shared": "each room"}


def replay(plans: Sequence[RollPlan], rolls: Mapping[str, Roll], job: Job) -> None:
    """Cut the plans in their order, each from what the ones before left over."""
    leftovers: dict[str, Sequence[Leftover]] = {}
    for plan in plans:
        wanted = [p.strip for p in plan.placed]
        check_plan(plan, wanted, rolls[plan.item], leftovers.get(plan.item, ()), job)
        leftovers[plan.item] = plan.leftovers


@pytest.fixture(scope="module")
def samples() -> Mapping[str, Inputs]:
    return {name: sample_inputs(name) for name in SOUND}


@pytest.mark.parametrize("name", SOUND)
@pytest.mark.parametrize("settings_of", [{}, OWN, {"lined_up": "no rolls"}], ids=str)
def test_every_plan_of_a_sample_can_be_cut(
    name: str, settings_of: dict[str, str], samples: Mapping[str, Inputs]
) -> None:
    inputs = replace(samples[name], job=replace(samples[name].job, **settings_of))
    found = planned(inputs)
    replay(found.plans, inputs.catalogue.rolls, inputs.job)
    wanted = Counter(
        (s.item, s.phase, s.room, s.surface, s.piece)
        for work in works_of(inputs)
        for s in strips_of_copies(work.room, work.strips)
    )
    cut = Counter(
        (p.item, p.phase, x.strip.room, x.strip.surface, x.strip.piece.split(", part ")[0])
        for p in found.plans
        for x in p.placed
        if ", part " not in x.strip.piece or ", part 1 of" in x.strip.piece
    )
    assert cut == wanted


def test_the_sample_block_saves_two_rolls_of_three(samples: Mapping[str, Inputs]) -> None:
    # 48 rooms; the figures stand in the README
    shared, apart, own = shared_against_own(samples["larch-court.xlsx"])
    assert shared.rolls <= apart.rolls < own.rolls
    assert (shared.rolls, own.rolls) == (22, 64)
    assert own.price - shared.price == Decimal(6629)


def test_orders_hold_the_rolls_of_the_plan_and_no_line_for_none(
    samples: Mapping[str, Inputs],
) -> None:
    # a wet room a phase: 2 m of a 10 m sheet; only the first phase buys one
    run = calculate(samples["larch-court.xlsx"])
    planned_rolls = {(p.item, p.phase): p.rolls for p in run.roll_plans if not p.by_length}
    ordered = {
        (line.item, line.phase): line.packs
        for order in run.orders
        for line in order.lines
        if (line.item, line.phase) in planned_rolls
    }
    assert ordered == {key: rolls for key, rolls in planned_rolls.items() if rolls}
    lengths = {(p.item, p.phase): p.rolls for p in run.roll_plans if p.by_length}
    bands = {
        (line.item, line.phase): line.packs
        for order in run.orders
        for line in order.lines
        if (line.item, line.phase) in lengths
    }
    assert lengths
    assert all(lengths[key] <= packs for key, packs in bands.items())


def test_a_phase_that_needs_no_new_roll_gets_no_order_line(
    samples: Mapping[str, Inputs],
) -> None:
    inputs = samples["larch-court.xlsx"]
    run = calculate(inputs)
    none = [replace(p, rolls=0) for p in run.roll_plans if p.item == "Q-SHEET"]
    orders, _ = make_orders(inputs, run.lines, none)
    assert "Q-SHEET" not in {line.item for order in orders for line in order.lines}


def with_mixed_stock(inputs: Inputs) -> Inputs:
    """Name longer rolls and mats beside those of the sample, priced a little lower by length."""
    rolls = inputs.catalogue.rolls
    knob, sheet = rolls["U-KNOB"], rolls["Q-SHEET"]
    more = {
        "U-LONG": replace(knob, code="U-LONG", length_mm320=25_000 * 320, price=Decimal(330)),
        "U-MAT": replace(knob, code="U-MAT", kind=RollKind.UNDERLAY_MAT, length_mm320=320_000,
                         width_mm320=256_000, price=Decimal(15)),
        "Q-LONG": replace(sheet, code="Q-LONG", length_mm320=25_000 * 320, price=Decimal(220)),
    }  # fmt: skip
    named = {"U-KNOB": "U-KNOB; U-LONG; U-MAT", "Q-SHEET": "Q-SHEET; Q-LONG"}
    finishes = {
        name: replace(finish, layers={
            surface: tuple(replace(x, item=named.get(x.item or "", x.item)) for x in layers)
            for surface, layers in finish.layers.items()
        })
        for name, finish in inputs.finishes.items()
    }  # fmt: skip
    catalogue = replace(inputs.catalogue, rolls={**rolls, **more})
    return replace(inputs, catalogue=catalogue, finishes=finishes)


def test_mixed_stock_of_the_sample_can_be_cut_is_ordered_and_costs_no_more(
    samples: Mapping[str, Inputs],
) -> None:
    inputs = with_mixed_stock(samples["larch-court.xlsx"])
    rolls = inputs.catalogue.rolls
    run = calculate(inputs)
    plans = [p for p in run.roll_plans if not p.by_length]
    replay(plans, rolls, inputs.job)
    assert {"U-LONG", "U-KNOB", "Q-SHEET", "Q-LONG"} <= {p.item for p in plans}
    ordered = {
        (line.item, line.phase): line.packs
        for order in run.orders for line in order.lines if line.item in {p.item for p in plans}
    }  # fmt: skip
    assert ordered == {(p.item, p.phase): p.rolls for p in plans if p.rolls}
    # every square metre that is cut stands in the takeoff, by item
    cut: Counter[str] = Counter()
    for p in plans:
        cut[p.item] += sum(x.strip.length_mm320 * x.strip.width_mm320 for x in p.placed)
    taken: Counter[str] = Counter()
    for line in run.lines:
        if line.item in cut:
            taken[line.item] += round(line.net_si * 320_000**2)
    for item, area in cut.items():
        assert taken[item] == pytest.approx(area, rel=1e-9)
    price = sum((p.rolls * (rolls[p.item].price or 0) for p in plans), Decimal(0))
    assert price <= bought(samples["larch-court.xlsx"]).price


STRIPS = st.lists(
    st.tuples(
        st.sampled_from("123"),  # phase
        st.sampled_from("ABCDE"),  # room
        st.integers(40, 7000),  # length [mm]
        st.integers(20, 1000),  # width [mm]
    ),
    max_size=30,
)


@given(
    STRIPS,
    st.sampled_from(list(RollKind)),
    st.sampled_from(("one way", "either way")),
    st.integers(0, 80),
    st.sampled_from((0, 3)),
    st.sampled_from(("whole phase", "each room")),
    st.sampled_from(((5000,), (5000, 2000), (5000, 3000, 1500))),
)
@settings(max_examples=150, deadline=None)
def test_random_jobs_can_be_cut_phase_by_phase(  # noqa: PLR0913, PLR0917 - so much may vary
    sizes: list[tuple[str, str, int, int]],
    kind: RollKind,
    goods: str,
    overlap: int,
    kerf: int,
    shared: str,
    lengths: tuple[int, ...],
) -> None:
    pitch, one_way = 30, goods == "one way"
    job = Job(rolls_shared=shared, kerf_mm320=kerf * 320, useful_leftover_mm320=400 * 320)
    rolls = {
        f"R{length}": replace(
            roll_of(1000, length=length, overlap=overlap, pitch=pitch, one_way=one_way),
            code=f"R{length}", kind=kind, price=Decimal(length // 50),
        )
        for length in lengths
    }  # fmt: skip
    leftovers: dict[str, Sequence[Leftover]] = {}
    longest = rolls[f"R{max(lengths)}"]
    for phase in "123":
        wanted = [
            Strip(longest.code, phase, room, "floor", f"p{i}",
                  (-(-length // pitch) * pitch if one_way else length) * 320, width * 320)
            for i, (of, room, length, width) in enumerate(sizes) if of == phase
        ]  # fmt: skip
        plans, _ = plan_stock(wanted, list(rolls.values()), phase, job, leftovers)
        for plan in plans:
            cut = wanted if len(rolls) == 1 else [p.strip for p in plan.placed]
            check_plan(plan, cut, rolls[plan.item], leftovers.get(plan.item, ()), job)
            leftovers[plan.item] = plan.leftovers
        placed = [p.strip.piece for plan in plans for p in plan.placed]
        assert {piece.split(", part ")[0] for piece in placed} == {s.piece for s in wanted}
        if shared == "each room":
            assert all(
                len({p.strip.room for p in plan.placed if p.roll == number}) <= 1
                for plan in plans
                for number in range(1, plan.rolls + 1)
            )
