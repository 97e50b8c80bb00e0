"""What a person has to see to about orders: dates, minimums, returns, names, packs."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from edited_books import add, edited, put
from msgspec.structs import replace
from result_books import FIRST, bag, catalogue, inputs, line, make_orders, supplier, tile
from typed_books import TypedBook

from sheetcalc import workflows
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.inputs import Inputs, Receipt
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import KILOGRAM, LITRE
from sheetcalc.domain.progress import silent

KQ = "Kiln & Quarry"
QUOTED = Job(quote_date=date(2027, 6, 1))


def found(given: Inputs, lines: list[object]) -> dict[str, Finding]:
    _, findings = make_orders(given, lines)  # type: ignore[arg-type]
    return {f.code: f for f in findings}


def needed(phase: str = "L1") -> list[object]:
    return [line("T1", 3, phase=phase)]


@pytest.mark.parametrize(
    ("start", "codes"),
    [
        (date(2027, 6, 8), set()),  # Tuesday; 5 working days before is Tuesday 1 June, the day
        (date(2027, 6, 7), {"ORDER-LATE"}),
        (date(2027, 6, 1), {"ORDER-LATE"}),
        (date(2027, 5, 31), {"ORDER-LATE", "PHASE-START-PAST"}),
    ],
)
def test_dates_are_held_against_the_quote_date(start: date, codes: set[str]) -> None:
    goods = catalogue(tile("T1", FIRST, lead_days=5))
    assert set(found(inputs(goods, job=QUOTED, phases={"L1": start}), needed())) == codes


def test_without_a_quote_date_no_date_is_in_the_past() -> None:
    goods = catalogue(tile("T1", FIRST, lead_days=5))
    assert found(inputs(goods, phases={"L1": date(1999, 1, 4)}), needed()) == {}


def test_a_late_order_names_the_line_that_needs_longest() -> None:
    goods = catalogue(tile("T1", FIRST, lead_days=5), tile("T2", FIRST + 1, lead_days=30))
    given = inputs(goods, job=QUOTED, phases={"L1": date(2027, 6, 7)})
    late = found(given, [*needed(), line("T2", 3, phase="L1")])["ORDER-LATE"]
    assert (late.facts["count"], late.facts["item"]) == (2, "T2")


def test_lead_times_without_dates_are_a_note_for_each_phase() -> None:
    goods = catalogue(tile("T1", FIRST, lead_days=5))
    note = found(inputs(goods, phases={"L1": None}), needed())["LEAD-WITHOUT-DATES"]
    assert (note.source.tab, note.facts["lines"]) == ("Phases", 1)
    alone = found(inputs(goods), needed(""))["LEAD-WITHOUT-DATES"]
    assert alone.facts["phase"] == "the job"


def test_no_lead_time_needs_no_date() -> None:
    assert found(inputs(catalogue(tile("T1", FIRST)), phases={"L1": None}), needed()) == {}


@pytest.mark.parametrize(
    ("minimum", "codes"), [("48.50", set()), ("48.51", {"ORDER-BELOW-MINIMUM"})]
)
def test_an_order_of_exactly_the_minimum_is_enough(minimum: str, codes: set[str]) -> None:
    goods = catalogue(
        tile("T1", FIRST), suppliers={KQ: supplier(KQ, minimum_order=Decimal(minimum))}
    )
    assert set(found(inputs(goods), needed(""))) == codes


def test_an_order_with_lines_to_be_priced_is_not_held_against_the_minimum() -> None:
    goods = catalogue(
        tile("T1", FIRST, price=None), suppliers={KQ: supplier(KQ, minimum_order=Decimal(900))}
    )
    assert set(found(inputs(goods), needed(""))) == {"ITEM-WITHOUT-PRICE"}


def receipt(code: str = "T1", phase: str = "L1", **packs: float) -> Receipt:
    return Receipt(phase, KQ, code, packs.get("ordered"), packs.get("received"), None,
                   RowRef("Received", 5))  # fmt: skip


def with_receipts(*receipts: Receipt) -> Inputs:
    given = inputs(catalogue(tile("T1", FIRST)), phases={"L1": None, "L2": None})
    return replace(given, received=receipts)


@pytest.mark.parametrize(("ordered", "codes"), [(1, set()), (2, {"ORDERED-OVER-NEED"})])
def test_more_ordered_than_needed_is_a_warning(ordered: float, codes: set[str]) -> None:
    # 3 pieces are 1 box
    assert set(found(with_receipts(receipt(ordered=ordered)), needed())) == codes


def test_goods_that_came_without_an_order_count_as_ordered() -> None:
    (order,), _ = make_orders(with_receipts(receipt(received=1)), needed())  # type: ignore[arg-type]
    assert order.lines[0].to_order == 0


def test_codes_of_received_are_found_without_case() -> None:
    (order,), findings = make_orders(with_receipts(receipt("t1", ordered=1)), needed())  # type: ignore[arg-type]
    assert order.lines[0].ordered == 1
    assert findings == ()


def test_what_came_for_a_phase_that_does_not_need_it_is_told() -> None:
    both = [*needed(), line("T1", 3, phase="L2")]
    stray = with_receipts(receipt(phase="L9", ordered=1))
    assert set(found(stray, both)) == {"RECEIVED-NOT-ORDERED"}


def test_goods_of_no_phase_come_with_the_first_one() -> None:
    # 2 and 2 pieces of one box of 10, needed by the job as a whole and by the phase that starts
    # first, though it stands second
    goods = catalogue(tile("T1", FIRST))
    given = inputs(goods, phases={"L2": date(2027, 7, 5), "L1": date(2027, 6, 7)})
    (order,), _ = make_orders(given, [line("T1", 2), line("T1", 2, phase="L1")])
    assert [(x.phase, x.packs, x.needed) for x in order.lines] == [("L1", 1, 4.0)]


def test_goods_of_no_phase_do_not_go_to_one_without_rooms() -> None:
    given = inputs(
        catalogue(tile("T1", FIRST)), phases={"A": date(2027, 5, 3), "L1": date(2027, 6, 7)}
    )
    (order,), _ = make_orders(given, [line("T1", 2), line("T1", 2, phase="L1")])
    assert [x.phase for x in order.lines] == ["L1"]


def test_ten_thousand_lines_are_ordered() -> None:
    many = 10_000
    goods = catalogue(*(tile(f"T{n}", FIRST + n) for n in range(many)))
    (order,), findings = make_orders(inputs(goods), [line(f"T{n}", 11) for n in range(many)])
    assert len(order.lines) == many
    assert order.total == Decimal("97.00") * many
    assert findings == ()


def test_a_supplier_in_two_spellings_is_suggested(tmp_path: Path) -> None:
    def misspell(book: TypedBook) -> None:
        put(book, "Tiles", "Supplier", "Kiln & Quary")

    report = workflows.check(edited(tmp_path / "job.xlsx", misspell), silent)
    (unknown,) = [f for f in report.findings if f.code == "NAME-UNKNOWN"]
    assert unknown.cell == "B5"
    assert "Kiln & Quarry" in unknown.what_to_do


def test_one_supplier_in_other_letters_is_one_supplier(tmp_path: Path) -> None:
    def shout(book: TypedBook) -> None:
        put(book, "Tiles", "Supplier", "KILN & QUARRY")

    report = workflows.check(edited(tmp_path / "job.xlsx", shout), silent)
    assert not [f for f in report.findings if f.severity != "note"]


def test_one_code_in_two_pack_units_is_refused(tmp_path: Path) -> None:
    def other_unit(book: TypedBook) -> None:
        add(book, "Suppliers", Supplier="Adobe")
        add(
            book, "Bags and pails", Code="C-FLEX", Supplier="Adobe", Description="mortar",
            Kind="mortar", Pack_size=15, Pack_unit="L", Yield=15,
        )  # fmt: skip

    report = workflows.check(edited(tmp_path / "job.xlsx", other_unit), silent)
    (differs,) = [f for f in report.findings if f.code == "ALTERNATIVE-DIFFERS"]
    assert differs.tab == "Bags and pails"
    assert differs.severity == "error"


def test_two_pack_sizes_in_one_unit_are_two_offers() -> None:
    # 2.3 bags of 12.1 L are 3 at 27.90 = 83.70; of 25 L at 50.00 they are 2 = 100.00
    small = bag("M1", FIRST)
    large = replace(
        small, supplier="Adobe", pack_size=40.0, pack_unit=KILOGRAM, yield_m3=0.025,
        pack_price=Decimal("50.00"), source=RowRef("Bags and pails", FIRST + 1),
    )  # fmt: skip
    goods = catalogue(small, alternatives={"M1": (large,)})
    orders, _ = make_orders(
        inputs(goods, job=Job(source_choice="cheapest")), [line("M1", 2.3 * 0.0121, LITRE)]
    )
    assert [(o.supplier, o.total) for o in orders] == [(KQ, Decimal("83.70"))]
