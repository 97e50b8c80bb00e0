"""Stock of several lengths, by hand and against the solver."""

from collections.abc import Sequence
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetcalc.geometry.rolls.mixed_stock import Cut, Stock, cost_of, pack_mixed
from sheetcalc.geometry.rolls.roll_solver import better_plan

LONG, SHORT = Stock(1000, Decimal(100)), Stock(400, Decimal(45))


def check(plan: Sequence[Cut], lengths: Sequence[int], stocks: Sequence[Stock], kerf: int) -> None:
    """Every length once, no stock overdrawn."""
    assert sorted(i for cut in plan for i in cut.wanted) == list(range(len(lengths)))
    for cut in plan:
        used = sum(lengths[i] + kerf for i in cut.wanted) - kerf
        assert used <= stocks[cut.stock].length


@pytest.mark.parametrize(
    ("lengths", "cost"),
    [
        ([400, 400], 90),  # two short at 45, not one long at 100
        ([500, 500], 100),  # too long for the short
        ([500, 500, 400], 145),
        ([300, 300, 300], 100),  # one each of the short would be 135
        ([200], 45),
        ([], 0),
    ],
)
def test_the_cheapest_mix_is_taken(lengths: list[int], cost: int) -> None:
    plan = pack_mixed(lengths, (LONG, SHORT))
    check(plan, lengths, (LONG, SHORT), 0)
    assert cost_of(plan, (LONG, SHORT)) == cost


def test_a_cheap_long_stock_is_taken_for_a_short_length() -> None:
    bargain = Stock(1000, Decimal(40))
    assert pack_mixed([200], (bargain, SHORT)) == [Cut(0, (0,))]


def test_a_length_beyond_all_stock_is_refused() -> None:
    with pytest.raises(ValueError, match="can't be cut"):
        pack_mixed([1001], (LONG, SHORT))


def test_kerf_counts_between_pieces_of_mixed_stock() -> None:
    # 2 x 200 mm and 3 mm between are longer than 400 mm
    plan = pack_mixed([200, 200], (LONG, SHORT), kerf=3)
    check(plan, [200, 200], (LONG, SHORT), 3)
    assert cost_of(plan, (LONG, SHORT)) == 90


@given(
    st.lists(st.integers(20, 1000), max_size=14),
    st.integers(0, 5),
    st.integers(1, 120),
)
@settings(max_examples=60, deadline=None)
def test_a_mix_can_be_cut_and_is_near_the_solvers(
    lengths: list[int], kerf: int, price: int
) -> None:
    stocks = (LONG, Stock(400, Decimal(price)))
    plan = pack_mixed(lengths, stocks, kerf)
    check(plan, lengths, stocks, kerf)
    best, _ = better_plan(plan, lengths, stocks, kerf)
    check(best, lengths, stocks, kerf)
    cost, least = cost_of(plan, stocks), cost_of(best, stocks)
    assert least <= cost
    assert cost <= least * Decimal("1.5") + 100  # no more than a roll and a half above
