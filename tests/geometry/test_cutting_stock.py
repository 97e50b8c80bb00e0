"""Cutting stock against instances with known optima."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetcalc.geometry.rolls.cutting_stock import fill_stock, least_stock, pack_stock

# stock, pieces, optimum, how many above it the planner may be
WIKIPEDIA = {
    1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12,
    2100: 14, 2140: 16, 2150: 18, 2200: 20,
}  # fmt: skip
"""Example of the encyclopaedia's article on cutting stock, read in mirrors: optimum 73."""

TEXTBOOK = {45: 97, 36: 610, 31: 395, 14: 211}
"""Four-width textbook instance, data read in a model gallery: optimum 453 (computed)."""

INSTANCES = (
    ("encyclopaedia", 5600, WIKIPEDIA, 73, 2),
    ("four widths", 100, TEXTBOOK, 453, 1),
    # constructions from memory, values computed
    ("eleven ninths", 100, {51: 6, 27: 6, 26: 6, 23: 12}, 9, 1),
    ("seventeen tenths", 101, {6: 7, 10: 7, 16: 3, 34: 10, 51: 10}, 10, 1),
    # attributed to Martello and Toth 1990 chapter 8 from memory, values computed
    ("ten pieces", 100, dict.fromkeys((49, 41, 34, 33, 29, 22, 20, 19), 1) | {26: 2}, 3, 1),
    ("nine pieces", 100, {70: 1, 60: 1, 50: 1, 33: 3, 11: 1, 7: 1, 3: 1}, 4, 1),
)


def pieces_of(demand: dict[int, int]) -> list[int]:
    return [size for size, count in demand.items() for _ in range(count)]


def check(plan: list[list[int]], lengths: list[int], stock: int, kerf: int = 0) -> None:
    """Replay a plan: every piece once, no stock overdrawn."""
    assert sorted(i for cut in plan for i in cut) == list(range(len(lengths)))
    for cut in plan:
        assert sum(lengths[i] + kerf for i in cut) <= stock + kerf


@pytest.mark.parametrize(
    ("stock", "demand", "optimum", "above"),
    [i[1:] for i in INSTANCES],
    ids=[i[0] for i in INSTANCES],
)
def test_known_instances_are_cut_from_few_stock_lengths(
    stock: int, demand: dict[int, int], optimum: int, above: int
) -> None:
    lengths = pieces_of(demand)
    plan = pack_stock(lengths, stock)
    check(plan, lengths, stock)
    assert optimum <= len(plan) <= optimum + above
    assert least_stock(lengths, stock) <= optimum


def test_the_encyclopaedias_instance_is_219_pieces_of_407160() -> None:
    lengths = pieces_of(WIKIPEDIA)
    assert (len(lengths), sum(lengths)) == (219, 407_160)
    assert least_stock(lengths, 5600) == 73  # 407160 / 5600 = 72.707


def test_the_second_bound_sees_pieces_too_long_to_share() -> None:
    # by length 3, by long pieces 4 (worked by hand)
    assert least_stock(pieces_of({70: 1, 60: 1, 50: 1, 33: 3, 11: 1, 7: 1, 3: 1}), 100) == 4


def test_an_exact_multiple_needs_no_extra_stock() -> None:
    assert len(pack_stock([2438_400] * 60, 6 * 2438_400)) == 10


def test_one_above_an_exact_multiple_does() -> None:
    assert len(pack_stock([100] * 11, 500)) == 3


def test_lengths_without_a_common_measure_are_still_exact_multiples() -> None:
    odd = 780_293  # a prime number of 1/320 mm: no grid but 1 measures it
    assert len(pack_stock([odd] * 12 + [780_291, 780_289], 6 * odd)) == 3
    assert len(pack_stock([odd] * 12, 6 * odd)) == 2


def test_kerf_is_lost_between_pieces_but_not_at_the_stocks_end() -> None:
    assert len(pack_stock([100, 100, 100], 306, kerf=3)) == 1
    assert len(pack_stock([100, 100, 100], 305, kerf=3)) == 2


def test_a_piece_longer_than_the_stock_is_refused() -> None:
    with pytest.raises(ValueError, match="can't be cut"):
        pack_stock([501], 500)


def test_nothing_wanted_takes_no_stock() -> None:
    assert pack_stock([], 500) == []


def test_a_leftover_is_filled_as_far_as_it_goes() -> None:
    assert sorted(fill_stock([60, 50, 40, 30], 100)) == [0, 2]


@given(
    st.lists(st.integers(1, 1000), max_size=60),
    st.integers(1000, 3000),
    st.integers(0, 10),
)
@settings(max_examples=150, deadline=None)
def test_no_plan_overdraws_and_none_beats_the_bound(
    lengths: list[int], stock: int, kerf: int
) -> None:
    plan = pack_stock(lengths, stock, kerf)
    check(plan, lengths, stock, kerf)
    if lengths:
        assert len(plan) >= least_stock([x + kerf for x in lengths], stock + kerf)
