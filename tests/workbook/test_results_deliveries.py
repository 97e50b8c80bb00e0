"""Dates, deliveries, call-offs, sources and what was received: live, and held by a recalculation.

The job: Floor 1 starts Monday 7 June 2027, Floor 2 Monday 21 June; Thursday 10 June is a holiday.
Levelling is day 1, tile day 4.
"""

from collections.abc import Hashable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from functools import partial
from pathlib import Path

import pytest
import recalc
from msgspec.structs import replace
from result_books import (
    FIRST,
    Inputted,
    bag,
    catalogue,
    inputs,
    line,
    rows_of,
    run_of,
    status_of,
    supplier,
    tile,
    write,
)

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.inputs import Inputs, Receipt
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import LITRE
from sheetcalc.domain.order import Order
from sheetcalc.domain.run import Run
from sheetcalc.ordering import order_everything
from sheetcalc.workbook.results import order_formulas
from sheetcalc.workbook.results.optional import idle_keys
from sheetcalc.workbook.sheet import Cell, SheetModel

pytestmark = pytest.mark.libreoffice

KQ = "Kiln & Quarry"
STARTS = {"Floor 1": date(2027, 6, 7), "Floor 2": date(2027, 6, 21)}
OFF = frozenset({date(2027, 6, 10)})

GOODS = {
    "Code": "Code", "Supplier": "Supplier", "Lead days": "Lead days",
    "Minimum packs": "Minimum packs",
}  # fmt: skip
TABS: Mapping[str, Inputted] = {
    "Phases": Inputted(
        {"Phase": "Phase", "Start": "Start"}, [[name, start] for name, start in STARTS.items()]
    ),
    "Tiles": Inputted(
        GOODS
        | {
            "Pieces per box": "Pieces per box", "Price": "Price", "Box weight": "Box weight (kg)",
        },
        [
            ["T1", KQ, 8, None, 10, 48.5, 22.5],
            ["T2", KQ, None, 30, 10, 48.5, 22.5],
            ["T2", "Adobe", None, None, 12, 40, 25],
        ],
    ),
    "Bags and pails": Inputted(
        GOODS | {"Pack size": "Pack size", "Yield": "Yield (L)", "Pack price": "Pack price",
                 "Pack weight": "Pack weight (kg)"},
        [["M1", KQ, None, None, 20, 12.1, 27.9, 20]],
    ),
    "Labour": Inputted(
        {"Task": "Task", "Basis": "Basis", "Day": "Day", "Uses": "Uses"},
        [["Level", "per room", 1, "levelling"], ["Tile", "per room", 4, "tile"],
         ["Tile more", "per room", 5, "tile"]],
    ),
    "Suppliers": Inputted(
        {"Supplier": "Supplier", "Minimum order": "Minimum order",
         "Delivery charge": "Delivery charge", "Lead days": "Lead days"},
        [[KQ, 30, 45, 3], ["Adobe", None, 10, None]],
    ),
    "Holidays": Inputted({"Date": "Date"}, [[day] for day in OFF]),
    "Received": Inputted(
        {"Phase": "Phase", "Supplier": "Supplier", "Code": "Code", "Ordered": "Ordered",
         "Received": "Received"},
        [["Floor 1", KQ, "M1", 2, None], ["Floor 1", KQ, "M1", 1, 2], [None, KQ, "T1", 30, 20]],
    ),
}  # fmt: skip


def task(name: str, day: int, uses: str, row: int) -> LabourTask:
    return LabourTask(
        name, "per room", None, None, 1.0, None, day, None, "", RowRef("Labour", row), (uses,)
    )


def job(**settings: object) -> tuple[Inputs, list[object]]:
    """One batch tile T1 on both floors, T2 from two suppliers, mortar M1 for levelling."""
    second = tile("T2", FIRST + 1, least_packs=30)
    other = tile(
        "T2", FIRST + 2, supplier="Adobe", pieces_per_box=12, price=Decimal(40), box_weight_kg=25.0
    )
    goods = catalogue(
        tile("T1", FIRST, one_batch=True, lead_days=8),
        second,
        bag("M1", FIRST),
        alternatives={"T2": (other,)},
        labour=(task("Level", 1, "levelling", 5), task("Tile", 4, "tile", 6),
                task("Tile more", 5, "tile", 7)),
        suppliers={
            KQ: supplier(KQ, minimum_order=Decimal(30), delivery_charge=Decimal(45), lead_days=3),
            "Adobe": supplier(
                "Adobe", delivery_charge=Decimal(10), source=RowRef("Suppliers", FIRST + 1)
            ),
        },
    )  # fmt: skip
    given = inputs(
        goods, job=Job(quote_date=date(2027, 6, 1), pallet_mass_kg=500.0, **settings),
        phases=STARTS, holidays=OFF,
    )  # fmt: skip
    given = replace(
        given,
        phases={
            name: replace(phase, source=RowRef("Phases", FIRST + at), deliver_to=f"{name}, gate")
            for at, (name, phase) in enumerate(given.phases.items())
        },
        received=(
            Receipt("Floor 1", KQ, "M1", 2, None, None, RowRef("Received", 5)),
            Receipt("Floor 1", KQ, "M1", 1, 2, None, RowRef("Received", 6)),
            Receipt("", KQ, "T1", 30, 20, None, RowRef("Received", 7)),
        ),
    )
    lines = [
        line("T1", 155, phase="Floor 1"),
        line("T1", 155, phase="Floor 2", room="2"),
        line("T1", 16, phase="Floor 2", room="2", line="spare tiles"),
        line("T2", 61, phase="Floor 2", room="2"),
        line("M1", 3.3 * 0.0121, LITRE, phase="Floor 1", line="levelling"),
        line("M1", 1.2 * 0.0121, LITRE, phase="Floor 2", line="levelling", room="2"),
    ]
    return given, lines


def run(**settings: object) -> Run:
    given, lines = job(**settings)
    orders, sourcing, findings = order_everything(given, lines)
    return replace(run_of(given, lines), orders=orders, sourcing=sourcing, findings=findings)


def order(supplied_by: str, **settings: object) -> Order:
    return next(o for o in run(**settings).orders if o.supplier == supplied_by)


def lines_of(made: Order) -> dict[tuple[str, str], object]:
    return {(x.phase, x.item): x for x in made.lines}


def test_tile_of_one_batch_is_ordered_once_and_called_off_by_phase() -> None:
    # 155 + 155 + 16 = 326 pieces are 33 boxes of 10: 16 opened by Floor 1, 17 more for Floor 2
    # with its spares; 16 + 18 apart would be 34
    found = lines_of(order(KQ))["Floor 1", "T1"]
    assert (found.packs, found.phases) == (33, ("Floor 1", "Floor 2"))
    assert [(c.phase, c.packs) for c in found.call_offs] == [("Floor 1", 16), ("Floor 2", 17)]


def test_goods_are_needed_on_the_day_of_the_first_task_that_uses_them() -> None:
    # day 4 from Monday 7 June over Thursday's holiday is Friday 11; day 1 is Monday 7
    made = lines_of(order(KQ))
    assert made["Floor 1", "T1"].needed_on_site == date(2027, 6, 11)
    assert made["Floor 1", "M1"].needed_on_site == date(2027, 6, 7)


def test_goods_are_ordered_the_lead_time_before_they_are_needed() -> None:
    # T1 8 working days before Friday 11 June over the holiday: Monday 31 May; M1 3 before
    # Monday 7 June: Wednesday 2
    made = lines_of(order(KQ))
    assert made["Floor 1", "T1"].order_by == date(2027, 5, 31)
    assert made["Floor 1", "M1"].order_by == date(2027, 6, 2)


def test_no_fewer_packs_are_ordered_than_are_sold() -> None:
    # 61 pieces are 7 boxes; the supplier sells 30 at a time
    assert lines_of(order(KQ))["Floor 2", "T2"].packs == 30


def test_a_delivery_weighs_its_packs_and_counts_pallets() -> None:
    # Floor 1: 16 boxes of 22.5 kg and 4 bags of 20 kg = 440 kg, 1 pallet of 500 kg; Floor 2:
    # 17 + 30 boxes and 2 bags = 1097.5 kg, 3 pallets
    made = order(KQ).deliveries
    assert [(d.phase, d.weight_kg, d.pallets) for d in made] == [
        ("Floor 1", 440.0, 1),
        ("Floor 2", 1097.5, 3),
    ]
    assert [d.charge for d in made] == [Decimal(45), Decimal(45)]


def test_each_day_that_goods_are_needed_is_a_delivery_where_the_job_says_so() -> None:
    made = order(KQ, deliveries="each day").deliveries
    assert [(d.phase, d.needed_on_site, d.lines) for d in made] == [
        ("Floor 1", date(2027, 6, 7), 1),
        ("Floor 1", date(2027, 6, 11), 1),
        ("Floor 2", date(2027, 6, 21), 1),
        ("Floor 2", date(2027, 6, 24), 2),
    ]


def test_all_at_once_is_one_order_rounded_once_and_one_delivery() -> None:
    # 3.3 + 1.2 bags are 5 together, 4 + 2 apart
    made = order(KQ, deliveries="all at once")
    assert {x.number for x in made.lines} == {"PO-KILNQUAR-FLOOR1"}
    assert lines_of(made)["Floor 1", "M1"].packs == 5
    assert {x.needed_on_site for x in made.lines} == {date(2027, 6, 7)}
    assert len(made.deliveries) == 1


def test_what_was_ordered_and_came_is_taken_off_what_is_to_order() -> None:
    made = lines_of(order(KQ))
    assert [made["Floor 1", i].to_order for i in ("M1", "T1")] == [4 - 3, 33 - 30]


def test_the_cheapest_mix_counts_delivery_charges() -> None:
    # T2: 30 boxes at 48.50 = 1455.00 here, 6 boxes of 12 at 40.00 = 240.00 and a delivery at
    # 10.00 there
    found = run().sourcing
    assert found is not None
    assert [(s.supplier, s.cost, s.ordered, s.in_mix) for s in found.sources] == [
        (KQ, Decimal("1455.00"), True, False),
        ("Adobe", Decimal("240.00"), False, True),
    ]
    assert found.ordered - found.mix == Decimal("1215.00")
    assert found.mix_charges - found.ordered_charges == Decimal("10.00")


def test_call_offs_and_sources_are_there_for_something() -> None:
    assert not idle_keys(run(), ["call-offs", "sources", f"order:{KQ}"])
    assert idle_keys(run(), ["order:Another"]) == {"order:Another"}


TOGETHER = recalc.Together()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    """A workbook by the function that wrote it; all were recalculated at once."""
    return TOGETHER.recalculated(tmp_path_factory.mktemp("deliveries"))


def as_settings_say(path: Path, deliveries: str, choice: str) -> None:
    write(path, TABS, run(deliveries=deliveries, source_choice=choice))


SETTINGS = [
    TOGETHER.book(partial(as_settings_say, deliveries=deliveries, choice=choice))
    for deliveries in ("each phase", "each day", "all at once")
    for choice in ("first", "cheapest")
]


@pytest.mark.parametrize("settings", SETTINGS, ids=lambda one: "-".join(one.keywords.values()))
def test_a_forced_recalculation_changes_no_stored_value(
    settings: Hashable, book: recalc.Books
) -> None:
    one = book(settings)
    assert recalc.differences(one.before, one.after) == []


@TOGETHER.book
def with_other_days_and_receipts(path: Path) -> None:
    # Floor 1 starts a week later, tile is laid on day 2, the supplier needs 1 day, one bag more
    # is ordered: values of the first run, inputs of the second
    changed = {
        **TABS,
        "Phases": Inputted(TABS["Phases"].headers, [["Floor 1", date(2027, 6, 14)],
                                                    ["Floor 2", STARTS["Floor 2"]]]),
        "Labour": Inputted(
            TABS["Labour"].headers,
            [["Level", "per room", 1, "levelling"], ["Tile", "per room", 4, "tile"],
             ["Tile more", "per room", 2, "tile"]],
        ),
        "Suppliers": Inputted(
            TABS["Suppliers"].headers, [[KQ, 30, 45, 1], ["Adobe", None, 10, None]]
        ),
        "Received": Inputted(
            TABS["Received"].headers, [*TABS["Received"].rows, ["Floor 1", KQ, "M1", 1, 0]]
        ),
    }  # fmt: skip
    write(path, changed, run(), of=TABS)


def test_dates_lead_times_and_receipts_stay_live(book: recalc.Books) -> None:
    after = book(with_other_days_and_receipts).after
    rows = {
        (r["Phase"], r["Item"]): r for r in rows_of(after, f"Order - {KQ}", "Line")
        if r.get("Item")
    }  # fmt: skip
    assert str(rows["Floor 1", "T1"]["Needed on site"])[:10] == "2027-06-15"
    # Monday 14 June less one working day is Friday 11
    assert str(rows["Floor 1", "M1"]["Order by"])[:10] == "2027-06-11"
    assert (rows["Floor 1", "M1"]["Ordered"], rows["Floor 1", "M1"]["To order"]) == (4, 0)
    first = rows_of(after, "Deliveries", "State")[0]
    assert str(first["Needed on site"])[:10] == "2027-06-14"
    # the order's own row stands above its lines: the earliest of theirs, live as well
    sheet = {address: value for (name, address), value in after.items() if name == f"Order - {KQ}"}
    row = min(int(a[1:]) for a, value in sheet.items() if value == "Floor 1" and a[0] == "A")
    days = {str(value)[:10] for a, value in sheet.items() if a[1:] == str(row)}
    earliest = min(str(r["Order by"])[:10] for (phase, _), r in rows.items() if phase == "Floor 1")
    assert {"2027-06-14", earliest} <= days


def at_other_prices(path: Path, price: float | None) -> None:
    tiles = [[*row[:5], price, row[6]] for row in TABS["Tiles"].rows]
    bags = [[*row[:6], price, row[7]] for row in TABS["Bags and pails"].rows]
    changed = {
        **TABS,
        "Tiles": Inputted(TABS["Tiles"].headers, tiles),
        "Bags and pails": Inputted(TABS["Bags and pails"].headers, bags),
    }
    write(path, changed, run(), of=TABS)


PRICES = {
    price: TOGETHER.book(partial(at_other_prices, price=price)) for price in (None, 0.01, 40.0)
}


@pytest.mark.parametrize(("price", "below"), [(None, False), (0.01, True), (40.0, False)])
def test_an_order_without_prices_is_not_below_the_minimum(
    book: recalc.Books, price: float | None, *, below: bool
) -> None:
    # at most 33 + 30 + 4 packs an order: below the minimum of 30 at a cent each, above at 40
    after = book(PRICES[price]).after
    states = {str(r["State"]) for r in rows_of(after, "Deliveries", "State") if r["Supplier"] == KQ}
    assert states
    assert any("BELOW" in state for state in states) == below, states


@TOGETHER.book
def looked_up_by_code(path: Path) -> tuple[SheetModel, ...]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(order_formulas, "_MANY", 0)
        return write(path, TABS, run())


@TOGETHER.book
def looked_up_by_code_at_a_higher_price(path: Path) -> None:
    dearer = [[*row[:5], 50 if row[0] == "T1" else row[5], row[6]] for row in TABS["Tiles"].rows]
    changed = {**TABS, "Tiles": Inputted(TABS["Tiles"].headers, dearer)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(order_formulas, "_MANY", 0)
        write(path, changed, run(), of=TABS)


def test_very_many_lines_are_looked_up_by_code_alone(book: recalc.Books) -> None:
    # comparing the texts of every row for each of ten thousand lines would take minutes; T2
    # stands twice in Tiles and keeps its values
    one = book(looked_up_by_code)
    prices = [cell for row in _order_rows(one.made) if (cell := row["Pack price"]).formula]
    assert all("MATCH(" in str(cell.formula) for cell in prices)
    assert len(prices) == 3
    assert recalc.differences(one.before, one.after) == []
    dearer = book(looked_up_by_code_at_a_higher_price).after
    after = rows_of(dearer, f"Order - {KQ}", "Line")
    assert [r["Amount"] for r in after if r.get("Item") == "T1"] == [33 * 50]


def _order_rows(made: Sequence[SheetModel]) -> list[dict[str, Cell]]:
    table = next(s for s in made if s.key == f"order:{KQ}").tables[0]
    headers = [column.header for column in table.columns]
    return [dict(zip(headers, row, strict=True)) for row in table.rows]


@TOGETHER.book
def with_one_more_come(path: Path) -> None:
    came = Inputted(TABS["Received"].headers, [*TABS["Received"].rows, ["Floor 1", KQ, "M1", 0, 1]])
    write(path, {**TABS, "Received": came}, run(), of=TABS)


def test_typing_what_came_does_not_put_the_results_out_of_date(book: recalc.Books) -> None:
    assert status_of(book(with_one_more_come).after, "Deliveries") == "OK"
