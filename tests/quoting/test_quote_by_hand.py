"""Quotes worked by hand: orders shared out, tasks timed, from cost to total."""

from collections.abc import Sequence
from decimal import Decimal

import hand_made
import pytest
import result_books
from msgspec.structs import replace
from result_books import FIRST, Inputs, bag, catalogue, inputs, line, make_orders, tile

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import LITRE
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.quote import Quote
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.labour import labour_of
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.takeoff import TakenOff
from sheetcalc.pricing import exact_to_cents, share_of, shared_out
from sheetcalc.quoting import make_quote


def task(name: str, basis: str, hours: float, rate: str | None, **more: object) -> LabourTask:
    """A row of Labour."""
    fields: dict[str, object] = {
        "task": name,
        "basis": basis,
        "finish": None,
        "surface": None,
        "hours_per_unit": hours,
        "hourly_rate": None if rate is None else Decimal(rate),
        "day": 1,
        "wait_hours": None,
        "note": "",
        "source": RowRef("Labour", FIRST),
    }
    return LabourTask(**{**fields, **more})  # type: ignore[arg-type]


def works(*rooms: tuple[str, str, int]) -> list[RoomWork]:
    """Rooms by name, shape and count; those of one shape are alike."""
    made = hand_made.room()
    return [
        RoomWork(replace(made, name=name, shape=shape, count=count, copies=(name,) * count))
        for name, shape, count in rooms
    ]


def given(*goods: object, job: Job | None = None, **more: object) -> result_books.Inputs:
    """Inputs whose one finish is that of the rooms above."""
    book = inputs(catalogue(*goods, **more), job=job or Job())  # type: ignore[arg-type]
    finish = hand_made.finish()
    return replace(book, finishes={hand_made.room().finish: finish})


def quoted(book: Inputs, rooms: Sequence[RoomWork], lines: Sequence[QuantityLine] = ()) -> Quote:
    """Quote of rooms with these lines, ordered as the book says."""
    labour = {}
    for work in rooms:
        mine = tuple(x for x in lines if x.room == work.room.name)
        finish = book.finishes[work.room.finish]
        labour[work.room.name] = labour_of(
            LineContext(book.job, finish, book.catalogue, work, lines=mine)
        )
    orders, _ = make_orders(book, lines)
    return make_quote(book, rooms, TakenOff(tuple(lines), (), {}, labour), orders)


def test_boxes_of_the_whole_job_are_shared_by_gross_quantity() -> None:
    """7 and 14 tiles in boxes of 10: 3 boxes at 48.50 = 145.50; a third is 48.50, the rest 97.00.

    Room by room it would have been 1 and 2 boxes as well, but 13 and 8 would not.
    """
    book = given(tile("T1", FIRST))
    lines = [line("T1", 7, room="A"), line("T1", 14, room="B")]
    quote = quoted(book, works(("A", "a", 1), ("B", "b", 1)), lines)
    assert [p.materials for p in quote.prices] == [Decimal("48.50"), Decimal("97.00")]
    assert quote.materials[0].amount == Decimal("145.50")


def test_a_cent_that_cannot_be_shared_goes_to_one_of_them() -> None:
    """3 equal shares of 48.50: 16.1667 each; running totals 16.17, 32.33, 48.50."""
    book = given(tile("T1", FIRST))
    lines = [line("T1", 3, room=room) for room in "ABC"]
    rooms = works(("A", "a", 1), ("B", "b", 1), ("C", "c", 1))
    quote = quoted(book, rooms, lines)
    assert [p.materials for p in quote.prices] == [
        Decimal("16.17"), Decimal("16.16"), Decimal("16.17"),
    ]  # fmt: skip


def test_rooms_of_one_shape_are_one_type_and_share_its_price_by_count() -> None:
    """10 tiles over 1 and 2 alike rooms: 48.50 shared 1 : 2 is 16.17 and 32.33."""
    book = given(tile("T1", FIRST), job=Job(overhead=0, profit=0, contingency=0))
    lines = [line("T1", 3, room="A"), line("T1", 3, room="B", count=2)]
    quote = quoted(book, works(("A", "a", 1), ("B", "a", 2)), lines)
    assert [(kind.rooms, kind.count) for kind in quote.types] == [(("A", "B"), 3)]
    assert [r.materials for r in quote.rooms] == [Decimal("16.17"), Decimal("32.33")]
    assert [r.price for r in quote.rooms] == [Decimal("16.17"), Decimal("32.33")]


def test_an_item_counted_in_two_ways_is_shared_by_packs() -> None:
    """A 20 kg bag that yields 12.1 L: 12.1 L and 20 kg need a bag each, and cost the same."""
    book = given(bag("M1", FIRST))
    lines = [
        line("M1", 0.0121, LITRE, room="A"),
        line("M1", 20.0, result_books.KILOGRAM, room="B", pack_by=PackBy.PACK_SIZE),
    ]
    quote = quoted(book, works(("A", "a", 1), ("B", "b", 1)), lines)
    assert [m.unit.symbol for m in quote.materials] == ["L", "kg"]
    assert [p.materials for p in quote.prices] == [Decimal("27.90"), Decimal("27.90")]


def test_what_no_room_needs_is_priced_with_the_whole_job() -> None:
    book = given(tile("T1", FIRST))
    lines = [line("T1", 5, room="A"), line("T1", 5, room="", surface="job")]
    quote = quoted(book, works(("A", "a", 1)), lines)
    assert [kind.is_whole_job for kind in quote.types] == [False, True]
    assert [p.materials for p in quote.prices] == [Decimal("24.25"), Decimal("24.25")]


def test_a_task_is_its_basis_by_its_hours_by_its_rate() -> None:
    """2 h a room at 46.00 in 3 alike rooms = 276.00; 4 h once for the job = 184.00."""
    book = given(labour=(task("Set out", "per room", 2, "46"), task("Site", "per job", 4, "46")))
    quote = quoted(book, works(("A", "a", 1), ("B", "a", 2)))
    assert [(x.task.task, x.quantity, x.hours, x.amount) for x in quote.labour] == [
        ("Set out", 3, 6, Decimal("276.00")),
        ("Site", 1, 4, Decimal("184.00")),
    ]
    assert [p.labour for p in quote.prices] == [Decimal("276.00"), Decimal("184.00")]


def test_a_task_of_another_finish_is_not_done() -> None:
    book = given(labour=(task("Polish", "per room", 2, "46", finish="Terrazzo"),))
    assert quoted(book, works(("A", "a", 1))).labour == ()


def test_a_task_that_uses_goods_is_done_only_where_they_are_needed() -> None:
    book = given(tile("T1", FIRST), labour=(task("Set", "per room", 2, "46", uses=("tile",)),))
    lines = [line("T1", 5, room="A")]
    quote = quoted(book, works(("A", "a", 1), ("B", "b", 1)), lines)
    assert [x.type_number for x in quote.labour] == [1]


def test_from_cost_to_total_every_step_is_rounded_to_the_cent() -> None:
    """Cost 145.50; overhead 10 % 14.55; profit 10 % of 160.05 is 16.005, so 16.01; contingency
    5 % of 176.06 is 8.803, so 8.80; price 184.86; tax 8.25 % is 15.25095, so 15.25."""
    book = given(tile("T1", FIRST), job=Job(overhead=0.1, profit=0.1, contingency=0.05, tax=0.0825))
    lines = [line("T1", 30, room="A")]
    summary = quoted(book, works(("A", "a", 1)), lines).summary
    assert (summary.cost, summary.overhead, summary.profit, summary.contingency) == (
        Decimal("145.50"), Decimal("14.55"), Decimal("16.01"), Decimal("8.80"),
    )  # fmt: skip
    assert (summary.price, summary.tax, summary.total) == (
        Decimal("184.86"), Decimal("15.25"), Decimal("200.11"),
    )  # fmt: skip


def test_what_has_no_price_counts_as_nothing_and_is_named() -> None:
    book = given(
        tile("T1", FIRST),
        bag("M1", FIRST, pack_price=None),
        labour=(task("Set", "per room", 2, None),),
    )
    lines = [line("T1", 10, room="A"), line("M1", 0.0121, LITRE, room="A")]
    quote = quoted(book, works(("A", "a", 1)), lines)
    assert not quote.complete
    assert quote.unpriced == ("M1 (bag M1)", "Set")
    assert quote.summary.cost == Decimal("48.50")
    assert quote.prices[0].unpriced == 2


def test_a_job_that_costs_nothing_is_sold_for_nothing() -> None:
    quote = quoted(given(), works(("A", "a", 1)))
    assert quote.summary.total == Decimal("0.00")
    assert [p.price for p in quote.prices] == [Decimal("0.00")]


@pytest.mark.parametrize(
    ("amount", "share", "expected"),
    [("100.10", 0.05, "5.01"), ("326.20", 0.0825, "26.91"), ("0.00", 0.2, "0.00")],
)
def test_a_share_is_the_decimal_one(amount: str, share: float, expected: str) -> None:
    """100.10 at 5 % is 5.005, half up; 326.20 at 8.25 % is 26.9115."""
    assert share_of(Decimal(amount), share) == Decimal(expected)


def test_shares_always_add_up_and_never_miss_their_part_by_a_cent() -> None:
    weights = [0.1, 7.3, 0.0, 12.25, 3.3333333]
    total = Decimal("1234.57")
    shares = shared_out(total, weights)
    assert sum(shares) == total
    for share, weight in zip(shares, weights, strict=True):
        assert abs(float(share) - float(total) * weight / sum(weights)) < 0.01


def test_half_a_cent_that_floats_miss_is_rounded_up_all_the_same() -> None:
    """0.1 + 0.2 is 0.30000000000000004: a third of it, times 0.15, is half a cent and a bit."""
    assert exact_to_cents(result_books.PIECE.si_factor * 36375 / 1000) == Decimal("36.38")
