"""Quantity lines to orders: packs rounded once, money in Decimal, dates in working days."""

from datetime import date
from decimal import Decimal

import pytest
from msgspec.structs import replace
from result_books import (
    bag,
    catalogue,
    inputs,
    line,
    make_orders,
    supplier,
    tile,
)

from sheetcalc.domain.catalogue import Cable, PricePer, Roll, RollKind
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import KILOGRAM, LITRE, SQUARE_METRE
from sheetcalc.domain.quantity import PackBy, WasteUsed
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.pricing import pack_price, share_of, shared_out, to_cents
from sheetcalc.rules.working_days import working_days_before

FIRST = 5


def bags(number: float, **more: object) -> object:
    """A need of so many bags of 12.1 L."""
    return line("M1", number * 0.0121, LITRE, **more)


def test_the_money_check_of_the_trade_table() -> None:
    # 44 tiles, 10 a box -> 5 boxes @ 48.50 = 242.50; 2.3 bags -> 3 @ 27.90 = 83.70;
    # subtotal 326.20; tax 8.25 % = 26.91; total 353.11
    goods = catalogue(tile("T1", FIRST), bag("M1", FIRST))
    (order,), findings = make_orders(inputs(goods), [line("T1", 44), bags(2.3)])
    assert findings == ()
    assert [(x.packs, x.amount) for x in order.lines] == [
        (5, Decimal("242.50")),
        (3, Decimal("83.70")),
    ]
    assert order.total == Decimal("326.20")
    assert share_of(order.total, 0.0825) == Decimal("26.91")
    assert order.total + share_of(order.total, 0.0825) == Decimal("353.11")


def test_half_a_cent_goes_up_where_binary_floats_would_go_down() -> None:
    # 2.675 to cents is 2.68, though round(2.675, 2) is 2.67
    assert to_cents(Decimal("2.675")) == Decimal("2.68")


def test_two_rooms_of_2_3_bags_are_five_bags_together() -> None:
    # 5 together, 6 if each were rounded
    goods = catalogue(bag("M1", FIRST))
    (order,), _ = make_orders(inputs(goods), [bags(2.3), bags(2.3, room="2")])
    assert order.lines[0].packs == 5


def test_two_phases_of_2_3_bags_are_three_each() -> None:
    goods = catalogue(bag("M1", FIRST))
    given = inputs(goods, phases={"L1": None, "L2": None})
    (order,), _ = make_orders(given, [bags(2.3, phase="L2"), bags(2.3, phase="L1")])
    assert [(x.phase, x.packs) for x in order.lines] == [("L1", 3), ("L2", 3)]


@pytest.mark.parametrize(("tiles", "boxes"), [(39, 4), (40, 4), (41, 5)])
def test_an_exact_multiple_costs_no_box_and_one_more_does(tiles: int, boxes: int) -> None:
    (order,), _ = make_orders(inputs(catalogue(tile("T1", FIRST))), [line("T1", tiles)])
    assert order.lines[0].packs == boxes


def test_an_exact_multiple_that_floats_overshoot_costs_no_pack() -> None:
    # 22 L with 10 % waste is two bags of 12.1 L; as floats 2.0000000000000004
    ten_percent = WasteUsed(0.10, None, None, "")
    goods = catalogue(bag("M1", FIRST))
    (order,), _ = make_orders(inputs(goods), [line("M1", 0.022, LITRE, waste=ten_percent)])
    assert order.lines[0].packs == 2


def test_orders_come_in_the_order_of_suppliers_and_those_without_one_last() -> None:
    goods = catalogue(
        tile("T1", 5, supplier=None),
        tile("T2", 6, supplier="Zinc"),
        tile("T3", 7, supplier="Adobe"),
        suppliers={"Zinc": supplier("Zinc"), "Adobe": supplier("Adobe")},
    )
    orders, findings = make_orders(inputs(goods), [line(t, 1) for t in ("T1", "T2", "T3")])
    assert [order.supplier for order in orders] == ["Zinc", "Adobe", ""]
    assert [(f.code, f.source.row) for f in findings] == [("ITEM-WITHOUT-SUPPLIER", 5)]


def test_an_item_without_a_price_is_ordered_and_flagged() -> None:
    goods = catalogue(tile("T1", 5, price=None), tile("T2", 6))
    (order,), findings = make_orders(inputs(goods), [line("T1", 11), line("T2", 10)])
    assert [(x.packs, x.amount) for x in order.lines] == [(2, None), (1, Decimal("48.50"))]
    assert (order.total, order.complete) == (Decimal("48.50"), False)
    assert [(f.code, f.column) for f in findings] == [("ITEM-WITHOUT-PRICE", "Price")]


def test_a_free_item_has_a_price_of_nothing_and_is_told() -> None:
    (order,), findings = make_orders(
        inputs(catalogue(tile("T1", 5, price=Decimal(0)))), [line("T1", 1)]
    )
    assert (order.total, order.complete) == (Decimal("0.00"), True)
    assert [f.code for f in findings] == ["PRICE-IS-ZERO"]


def test_a_bag_without_a_yield_is_an_error_that_says_what_is_wanted() -> None:
    goods = catalogue(bag("M1", FIRST, yield_m3=None))
    orders, findings = make_orders(inputs(goods), [bags(1)])
    assert orders == ()
    assert [(f.code, f.facts["wanted"]) for f in findings] == [("ITEM-WITHOUT-PACK", "a Yield")]


def test_an_item_counted_in_two_ways_is_rounded_once_on_its_packs() -> None:
    # 0.5 of a bag by volume and 10 kg of 20 by mass make one bag, not two
    goods = catalogue(bag("M1", FIRST))
    (order,), _ = make_orders(inputs(goods), [bags(0.5), line("M1", 10.0, KILOGRAM)])
    assert (order.lines[0].needed, order.lines[0].pack, order.lines[0].packs) == (1.0, 1.0, 1)


def test_the_same_code_in_two_tabs_is_two_items() -> None:
    goods = catalogue(tile("A", 5), bag("A", 6))
    (order,), _ = make_orders(inputs(goods), [line("A", 10), line("A", 0.0121, LITRE)])
    assert [(x.tab, x.packs) for x in order.lines] == [("Tiles", 1), ("Bags and pails", 1)]


ROLL = Roll(
    code="U1", supplier="Kiln & Quarry", supplier_code=None, description="underlay",
    kind=RollKind.UNDERLAY_ROLL, width_mm320=320_000, length_mm320=30 * 320_000,
    thickness_mm320=None, overlap_mm320=0, knob_pitch_mm320=None, fill_m=None, one_way=False,
    package="roll", price=Decimal("412.00"), weight_kg=18.0, lead_days=5,
    source=RowRef("Rolls and sheets", FIRST),
)  # fmt: skip


def test_rolls_take_their_packs_from_their_plan() -> None:
    goods = catalogue(rolls={"U1": ROLL})
    plan = RollPlan("U1", "L1", 3, (), 2, "")
    needed = line("U1", 61.0, SQUARE_METRE, phase="L1", pack_by=PackBy.PLAN)
    (order,), _ = make_orders(inputs(goods, phases={"L1": None}), [needed], [plan])
    assert (order.lines[0].packs, order.lines[0].amount) == (3, Decimal("1236.00"))
    assert (order.lines[0].weight_kg, order.lines[0].package_code) == (54.0, "RO")


def test_cables_are_ordered_one_by_one() -> None:
    cable = Cable(
        code="C1", supplier="Kiln & Quarry", supplier_code=None, description="cable",
        range_name="R", length_mm320=10 * 320_000, length_tolerance=None, watts=120.0, volts=230.0,
        resistance_ohm=None, temperature_coefficient_per_k=None, leads="one end",
        cold_lead_mm320=None, smallest_spacing_mm320=None, bend_radius_mm320=None,
        price=Decimal("99.95"), lead_days=None, source=RowRef("Heating cables", FIRST),
    )  # fmt: skip
    needed = [line("C1", 1.0, pack_by=PackBy.PLAN, count=6), line("C1", 1.0, pack_by=PackBy.PLAN)]
    (order,), _ = make_orders(inputs(catalogue(cables={"C1": cable})), needed)
    assert (order.lines[0].packs, order.lines[0].amount) == (7, Decimal("699.65"))


def test_a_price_per_area_is_for_the_face_of_the_tiles_in_a_box() -> None:
    # 10 tiles of 0.6 x 0.3 m are 1.8 m2; at 21.95 a m2 a box is 39.51
    by_area = tile("T1", FIRST, price=Decimal("21.95"), price_per=PricePer.AREA)
    assert pack_price(by_area, SQUARE_METRE) == Decimal("39.51")


def test_a_price_per_piece_is_multiplied_by_the_pieces_in_a_box() -> None:
    by_piece = tile("T1", FIRST, price=Decimal("0.95"), price_per=PricePer.PIECE)
    assert pack_price(by_piece, SQUARE_METRE) == Decimal("9.50")


def test_the_cheapest_source_is_chosen_by_the_cost_of_whole_packs() -> None:
    # 11 tiles: two boxes of 10 at 48.50 = 97.00, or one of 12 at 90.00
    dear = tile("T1", 5)
    cheap = replace(
        dear, supplier="Adobe", pieces_per_box=12, price=Decimal("90.00"), source=RowRef("Tiles", 6)
    )
    goods = catalogue(
        dear,
        alternatives={"T1": (cheap,)},
        suppliers={"Kiln & Quarry": supplier("Kiln & Quarry"), "Adobe": supplier("Adobe")},
    )
    first, _ = make_orders(inputs(goods), [line("T1", 11)])
    least, _ = make_orders(inputs(goods, job=Job(source_choice="cheapest")), [line("T1", 11)])
    assert [(o.supplier, o.total) for o in first] == [("Kiln & Quarry", Decimal("97.00"))]
    assert [(o.supplier, o.total) for o in least] == [("Adobe", Decimal("90.00"))]


def test_orders_are_due_the_lead_time_before_the_phase_starts() -> None:
    # Monday 7 June 2027 less 5 working days is Monday 31 May; a holiday on 3 June makes it the
    # Friday before that
    goods = catalogue(tile("T1", FIRST, lead_days=5))
    start = {"L1": date(2027, 6, 7)}
    needed = [line("T1", 1, phase="L1")]
    (plain,), _ = make_orders(inputs(goods, phases=start), needed)
    off = frozenset({date(2027, 6, 3)})
    (holiday,), _ = make_orders(inputs(goods, phases=start, holidays=off), needed)
    assert plain.lines[0].needed_on_site == date(2027, 6, 7)
    assert plain.lines[0].order_by == date(2027, 5, 31)
    assert holiday.lines[0].order_by == date(2027, 5, 28)


def test_the_suppliers_lead_days_stand_in_for_the_items() -> None:
    goods = catalogue(
        tile("T1", FIRST), suppliers={"Kiln & Quarry": supplier("Kiln & Quarry", lead_days=1)}
    )
    given = inputs(goods, phases={"L1": date(2027, 6, 7)})
    (order,), _ = make_orders(given, [line("T1", 1, phase="L1")])
    assert order.lines[0].order_by == date(2027, 6, 4)


def test_no_lead_time_on_a_sunday_is_the_friday_before() -> None:
    assert working_days_before(date(2027, 6, 6), 0, frozenset()) == date(2027, 6, 4)


def test_order_numbers_depend_on_names_only() -> None:
    goods = catalogue(tile("T1", 5), tile("T2", 6, supplier="Kiln-Quarry"), suppliers={})
    one, _ = make_orders(inputs(goods, phases={"L1": None}), [line("T1", 1, phase="L1")])
    assert one[0].lines[0].number == "PO-KILNQUAR-L1"
    two, _ = make_orders(
        inputs(goods, phases={"L1": None}), [line("T2", 1, phase="L1"), line("T1", 1, phase="L1")]
    )
    numbers = {order.lines[0].number for order in two}
    assert len(numbers) == 2  # two names of the same letters are told apart


def test_lines_that_nothing_is_bought_for_make_no_order() -> None:
    assert make_orders(inputs(catalogue()), [line("", 3, pack_by=PackBy.NONE)]) == ((), ())


def test_an_item_that_is_in_no_tab_is_an_error() -> None:
    orders, findings = make_orders(inputs(catalogue()), [line("T9", 3), line("T9", 4)])
    assert orders == ()
    assert [f.code for f in findings] == ["ORDER-ITEM-UNKNOWN"]


def test_a_total_is_shared_out_to_the_cent() -> None:
    shares = shared_out(Decimal("100.00"), [1.0, 1.0, 1.0])
    assert shares == (Decimal("33.33"), Decimal("33.34"), Decimal("33.33"))
    assert sum(shares) == Decimal("100.00")


def test_a_total_over_nothing_goes_to_the_last() -> None:
    assert shared_out(Decimal("5.00"), [0.0, 0.0]) == (Decimal("0.00"), Decimal("5.00"))
