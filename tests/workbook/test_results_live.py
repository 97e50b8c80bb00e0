"""Result tabs are live: recalculating changes nothing, changing an input changes what follows."""

from collections.abc import Hashable
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
    exact_cells,
    inputs,
    line,
    rows_of,
    run_of,
    status_of,
    supplier,
    tile,
    waste,
    write,
)
from xlsxwriter import Workbook

from sheetcalc.domain.catalogue import PricePer
from sheetcalc.domain.measure import KILOGRAM, LITRE
from sheetcalc.domain.quantity import PackBy, WasteUsed
from sheetcalc.domain.run import Run
from sheetcalc.rules.packs import packs_needed
from sheetcalc.workbook.results import order_formulas
from sheetcalc.workbook.sheet import SheetModel

pytestmark = pytest.mark.libreoffice

ODD = '=cmd|"/c calc"!A1'
QUOTED = "6\" tile, Bob's *best*? ~1"
EMOJI = "🛁 بلاط"
NAMES = (ODD, QUOTED, EMOJI, "101", "TRUE", "DEC-12", "<5", "t1", "T1")

TILE_HEADERS = {
    "Code": "Code",
    "Supplier": "Supplier",
    "Pieces per box": "Pieces per box",
    "Price": "Price [EUR] #1's",
    "Box weight": "Box weight (kg)",
}
BAG_HEADERS = {
    "Code": "Code",
    "Supplier": "Supplier",
    "Pack size": "Pack size",
    "Yield": "Yield (L)",
    "Pack price": "Pack price",
    "Pack weight": "Pack weight (kg)",
}
WASTE_HEADERS = {
    "Line": "Line",
    "Finish": "Finish",
    "Bond": "Bond",
    "Counted by": "Counted by",
    "Waste %": "Waste %",
}
ROOM_HEADERS = {"Room": "Room", "Count": "Count", "Length": "Length (m)", "Finish": "Finish"}

TILES = [[name, "Kiln & Quarry", 10, 48.5, 22.5] for name in NAMES]
BAGS = [["M1", "Kiln & Quarry", 20, 12.1, 27.9, 20]]
WASTES = [["tile", None, None, None, 0.1], ["mortar", ODD, None, None, 0.1]]
ROOMS = [["1", 1, 2.07, ODD], ["بلاط 3", 3, 1.9, QUOTED]]
KQ = "Order - Kiln & Quarry"


def tabs(**changed: Inputted) -> dict[str, Inputted]:
    """Inputs of the invented job; ``Tiles`` and so on may be given changed."""
    given = {
        "Tiles": Inputted(TILE_HEADERS, TILES),
        "Bags and pails": Inputted(BAG_HEADERS, BAGS),
        "Waste factors": Inputted(WASTE_HEADERS, WASTES),
        "Rooms": Inputted(ROOM_HEADERS, ROOMS),
    }
    return given | {key.replace("_", " "): value for key, value in changed.items()}


def job() -> tuple[object, list[object]]:
    """Inputs and lines: each tile by 44, 22 L of mortar with 10 % waste, 2.3 bags twice over."""
    goods = catalogue(*(tile(name, FIRST + at) for at, name in enumerate(NAMES)), bag("M1", FIRST))
    ten = waste(0.1, FIRST + 1, "mortar", ODD)
    lines = [
        *(line(name, 44, room=EMOJI, phase=QUOTED) for name in NAMES),
        line("M1", 0.022, LITRE, waste=ten, phase="exact"),
        line("M1", 2.3 * 0.0121, LITRE, phase=EMOJI),
        line("M1", 2.3 * 0.0121, LITRE, phase=EMOJI, room="2"),
        line("T1", 20, phase="with waste", waste=waste(0.1, FIRST, "tile")),
        line("T1", 20, phase="with default", waste=WasteUsed(0.05, None, None, "default")),
        line("", 7, line="cuts", pack_by=PackBy.NONE),
    ]
    phases = {QUOTED: None, "exact": None, EMOJI: None, "with waste": None, "with default": None}
    return inputs(goods, phases=phases), lines


TOGETHER = recalc.Together()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> recalc.Books:
    """A workbook by the function that wrote it; all were recalculated at once."""
    return TOGETHER.recalculated(tmp_path_factory.mktemp("live"))


@TOGETHER.book
def as_taken_off(path: Path) -> tuple[SheetModel, ...]:
    given, lines = job()
    return write(path, tabs(), run_of(given, lines))


def test_recalculating_leaves_every_stored_value_as_it_was(book: recalc.Books) -> None:
    one = book(as_taken_off)
    assert status_of(one.before, "Findings") == "OK"
    exactly = exact_cells(one.made, one.before)
    assert recalc.differences(one.before, one.after, exactly=exactly) == []


def test_packs_of_exact_multiples_agree_with_the_sheet(book: recalc.Books) -> None:
    records = rows_of(book(as_taken_off).after, KQ, "Supplier code")
    packs = {(r["Phase"], r["Item"]): r["Packs"] for r in records}
    assert packs["exact", "M1"] == 2  # 22 L x 1.1 / 12.1 L
    assert packs[EMOJI, "M1"] == 5  # two rooms of 2.3 bags
    assert {packs[QUOTED, name] for name in NAMES} == {5}  # 44 tiles in boxes of 10


@TOGETHER.book
def with_another_waste_price_and_pack_size(path: Path) -> None:
    given, lines = job()
    now = tabs(
        Tiles=Inputted(TILE_HEADERS, [[*r[:2], 11, 50.0, 22.5] for r in TILES]),
        Bags_and_pails=Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 20, 11, 30.0, 20]]),
        Waste_factors=Inputted(
            WASTE_HEADERS, [["tile", None, None, None, 0.7], ["mortar", ODD, None, None, 0.25]]
        ),
    )
    write(path, now, run_of(given, lines), of=tabs())


def test_a_changed_waste_factor_price_and_pack_size_reach_the_order(book: recalc.Books) -> None:
    after = book(with_another_waste_price_and_pack_size).after
    records = rows_of(after, KQ, "Supplier code")
    worked = {(r["Phase"], r["Item"]): (r["Packs"], r["Amount"]) for r in records}
    assert worked[QUOTED, ODD] == (4, 200)  # 44 / 11
    assert worked["with waste", "T1"] == (4, 200)  # 34 / 11 = 3.09
    assert worked["with default", "T1"] == (2, 100)  # 21 / 11 = 1.9: a default stays as it is
    assert worked["exact", "M1"] == (3, 90)  # 22 x 1.25 / 11 = 2.5
    assert status_of(after, "Takeoff") == "OK"


@TOGETHER.book
def with_sorted_tables(path: Path) -> None:
    given, lines = job()
    now = tabs(
        Tiles=Inputted(TILE_HEADERS, TILES[::-1]),
        Waste_factors=Inputted(WASTE_HEADERS, WASTES[::-1]),
        Rooms=Inputted(ROOM_HEADERS, ROOMS[::-1]),
    )
    write(path, now, run_of(given, lines), of=tabs())


@TOGETHER.book
def with_a_tile_added(path: Path) -> None:
    given, lines = job()
    now = tabs(Tiles=Inputted(TILE_HEADERS, [["new", "Adobe", 4, 1.0, None], *TILES]))
    write(path, now, run_of(given, lines), of=tabs())


@pytest.mark.parametrize(
    ("changed", "status"), [(with_sorted_tables, "OK"), (with_a_tile_added, "OUT OF DATE")]
)
def test_sorted_tables_and_added_rows_change_nothing_but_the_status(
    changed: Hashable, status: str, book: recalc.Books
) -> None:
    assert status_of(book(changed).after, "Takeoff").startswith(status)
    was, now = (
        {k: v for k, v in cells.items() if k[0] == KQ and k[1][1:] != "1"}
        for cells in (book(as_taken_off).before, book(changed).after)
    )
    assert recalc.differences(was, now) == []


def with_a_changed_room(path: Path, column: int, value: object) -> None:
    given, lines = job()
    changed = [list(row) for row in ROOMS]
    changed[0][column] = value
    write(path, tabs(Rooms=Inputted(ROOM_HEADERS, changed)), run_of(given, lines), of=tabs())


ROOM_CHANGES = [
    TOGETHER.book(partial(with_a_changed_room, column=column, value=value))
    for column, value in ((1, 4), (2, 2.08), (3, "another finish"), (0, "2"))
]


@pytest.mark.parametrize("changed", ROOM_CHANGES, ids=lambda one: str(one.keywords["value"]))
def test_a_changed_room_turns_the_status_out_of_date(changed: Hashable, book: recalc.Books) -> None:
    after = book(changed).after
    assert status_of(after, "Findings").startswith("OUT OF DATE")
    assert status_of(after, KQ).startswith("OUT OF DATE")


@TOGETHER.book
def without_the_mortar(path: Path) -> None:
    given, lines = job()
    other = Inputted(BAG_HEADERS, [["M2", "Kiln & Quarry", 20, 11, 3, 1]])
    write(path, tabs(Bags_and_pails=other), run_of(given, lines), of=tabs())


def test_a_deleted_catalogue_row_gives_an_error_and_not_nothing(book: recalc.Books) -> None:
    records = rows_of(book(without_the_mortar).after, KQ, "Supplier code")
    mortar = [r for r in records if r["Item"] == "M1"]
    assert {r["Pack price"] for r in mortar} == {"#DIV/0!"}


@TOGETHER.book
def with_tables_made_plain_ranges(path: Path) -> tuple[SheetModel, ...]:
    given, lines = job()
    gone = {k: replace(v, with_table=False) for k, v in tabs().items()}
    return write(path, tabs(), run_of(given, lines), of=gone)


def test_plain_ranges_stand_in_where_the_table_object_is_gone(book: recalc.Books) -> None:
    one = book(with_tables_made_plain_ranges)
    order = next(s for s in one.made if s.name == KQ)
    formulas = [c.formula for row in order.tables[0].rows for c in row if c.formula]
    assert any("'Tiles'!$C$5:$C$13" in f for f in formulas)
    assert not any("InTiles" in f for f in formulas)
    assert recalc.differences(one.before, one.after) == []


def unpriced() -> tuple[Inputted, Run]:
    """A tile without a price, and one with."""
    goods = catalogue(tile("T1", FIRST, price=None), tile("T2", FIRST + 1))
    typed = Inputted(TILE_HEADERS, [["T1", "Kiln & Quarry", 10, None, 22.5],
                                    ["T2", "Kiln & Quarry", 10, 48.5, 22.5]])  # fmt: skip
    return typed, run_of(inputs(goods), [line("T1", 11), line("T2", 10)])


@TOGETHER.book
def without_a_price(path: Path) -> None:
    without, run = unpriced()
    write(path, {"Tiles": without}, run)


@TOGETHER.book
def with_the_price_typed_in(path: Path) -> None:
    without, run = unpriced()
    typed = replace(without, rows=[["T1", "Kiln & Quarry", 10, 12.345, 22.5], without.rows[1]])
    write(path, {"Tiles": typed}, run, of={"Tiles": without})


def test_a_missing_price_is_filled_in_by_typing_it(book: recalc.Books) -> None:
    one = book(without_a_price)
    assert recalc.differences(one.before, one.after) == []
    records = rows_of(one.before, KQ, "Supplier code")
    assert [r["Amount"] for r in records] == ["to be priced", 48.5]
    assert "INCOMPLETE: lines without a price: 1" in one.before.values()
    after = book(with_the_price_typed_in).after
    assert [r["Amount"] for r in rows_of(after, KQ, "Supplier code")] == [24.69, 48.5]
    assert not any("INCOMPLETE" in str(v) for v in after.values())


@TOGETHER.book
def priced_by_area_and_piece(path: Path) -> tuple[SheetModel, ...]:
    goods = catalogue(
        tile("A", FIRST, price=Decimal("21.95"), price_per=PricePer.AREA),
        tile("P", FIRST + 1, price=Decimal("0.95"), price_per=PricePer.PIECE),
    )
    rows = [["A", "Kiln & Quarry", 10, 21.95, 1], ["P", "Kiln & Quarry", 10, 0.95, 1]]
    run = run_of(inputs(goods), [line("A", 71), line("P", 71)])
    return write(path, {"Tiles": Inputted(TILE_HEADERS, rows)}, run)


def test_prices_per_piece_and_area_are_live_and_exact(book: recalc.Books) -> None:
    # 10 tiles of 0.6 x 0.3 m: 21.95 a m2 makes a box 39.51; 0.95 a piece makes it 9.50
    one = book(priced_by_area_and_piece)
    records = rows_of(one.before, KQ, "Supplier code")
    assert [(r["Pack price"], r["Amount"]) for r in records] == [(39.51, 316.08), (9.5, 76)]
    exactly = exact_cells(one.made, one.before)
    assert recalc.differences(one.before, one.after, exactly=exactly) == []


IN_TWO_WAYS = [line("M1", 0.5 * 0.0121, LITRE), line("M1", 10.0, KILOGRAM, line="slurry")]
BAGS_ALONE = {"Bags and pails": Inputted(BAG_HEADERS, BAGS)}


@TOGETHER.book
def counted_in_two_ways(path: Path) -> None:
    write(path, BAGS_ALONE, run_of(inputs(catalogue(bag("M1", FIRST))), IN_TWO_WAYS))


@TOGETHER.book
def counted_in_two_ways_with_smaller_bags(path: Path) -> None:
    now = {"Bags and pails": Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 5, 12.1, 27.9, 20]])}
    write(path, now, run_of(inputs(catalogue(bag("M1", FIRST))), IN_TWO_WAYS), of=BAGS_ALONE)


def test_an_item_counted_in_two_ways_stays_live(book: recalc.Books) -> None:
    one = book(counted_in_two_ways)
    assert recalc.differences(one.before, one.after) == []
    assert rows_of(one.before, KQ, "Supplier code")[0]["Packs"] == 1
    after = book(counted_in_two_ways_with_smaller_bags).after
    assert rows_of(after, KQ, "Supplier code")[0]["Packs"] == 3  # 0.5 + 10 / 5


@TOGETHER.book
def with_a_unit_in_a_catalogue_cell(path: Path) -> None:
    typed = {
        "Bags and pails": Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 20, "12.1 L", 27.9, 20]])
    }
    write(path, typed, run_of(inputs(catalogue(bag("M1", FIRST))), [line("M1", 0.0242, LITRE)]))


def test_text_with_a_unit_in_a_catalogue_cell_leaves_the_value(book: recalc.Books) -> None:
    one = book(with_a_unit_in_a_catalogue_cell)
    assert recalc.differences(one.before, one.after) == []
    assert rows_of(one.after, KQ, "Supplier code")[0]["Packs"] == 2


@TOGETHER.book
def with_tax(path: Path) -> None:
    goods = catalogue(
        tile("T1", FIRST), bag("M1", FIRST),
        suppliers={"Kiln & Quarry": supplier("Kiln & Quarry", tax=0.0825)},
    )  # fmt: skip
    tables = {
        "Tiles": Inputted(TILE_HEADERS, [["T1", "Kiln & Quarry", 10, 48.5, 22.5]]),
        "Bags and pails": Inputted(BAG_HEADERS, BAGS),
    }
    run = run_of(inputs(goods), [line("T1", 44), line("M1", 2.3 * 0.0121, LITRE)])
    write(path, tables, run)


def test_tax_and_totals_stand_below_the_lines(book: recalc.Books) -> None:
    # 242.50 + 83.70 = 326.20, tax 8.25 % = 26.91, total 353.11
    after = book(with_tax).after
    words = {v: k[1] for k, v in after.items() if k[0] == KQ and isinstance(v, str)}
    for label, amount in (
        ("Goods (EUR)", 326.20),
        ("Tax 8.25 %", 26.91),
        ("Total (EUR)", 353.11),
    ):
        assert after[KQ, words[label].replace("F", "N")] == amount


@TOGETHER.book
def with_the_quick_sums(path: Path) -> tuple[SheetModel, ...]:
    goods = catalogue(tile("TILE", FIRST), tile("Tx", FIRST + 1))
    lines = [line(code, 7, phase=phase) for code in ("TILE", "Tx") for phase in ("Up", "1/2")]
    rows = [[code, "Kiln & Quarry", 10, 48.5, 22.5] for code in ("TILE", "Tx")]
    given = inputs(goods, phases={"Up": None, "1/2": None})
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(order_formulas, "_MANY", 0)
        return write(path, {"Tiles": Inputted(TILE_HEADERS, rows)}, run_of(given, lines))


def test_the_quick_sums_of_a_large_takeoff_give_the_same(book: recalc.Books) -> None:
    one = book(with_the_quick_sums)
    needed = [row[6].formula for row in one.made[-2].tables[0].rows]
    assert [f.partition("(")[0] for f in needed if f] == ["SUMIFS", "SUMIFS"] + ["SUMPRODUCT"] * 2
    assert recalc.differences(one.before, one.after) == []


@TOGETHER.book
def packs_of_many_needs(path: Path) -> int:
    # exact multiples, a hair below and above, and needs that floats get slightly wrong
    packs = [12.1, 0.1, 3.0, 14.8, 310.0, 1.8, 22.6796185]
    pairs = [
        (pack * number * share, pack)
        for pack in packs
        for number in (0.5, 1, 2, 3, 7, 33, 1000, 12345)
        for share in (1.0, 1.1, 1.03, 1 - 4e-10, 1 + 4e-10, 1 + 6e-9, 1 / 3)
    ]
    workbook = Workbook(path)
    sheet = workbook.add_worksheet("Packs")
    for row, (need, pack) in enumerate(pairs):
        sheet.write_number(row, 0, need)
        sheet.write_number(row, 1, pack)
        formula = f"=ROUNDUP(ROUND(A{row + 1}/B{row + 1},9),0)"
        sheet.write_formula(row, 2, formula, None, packs_needed(need, pack))
    workbook.close()
    return len(pairs)


def test_the_sheet_rounds_to_packs_as_the_program_does(book: recalc.Books) -> None:
    one = book(packs_of_many_needs)
    exactly = frozenset(place for place in one.before if place[1].startswith("C"))
    assert len(exactly) == one.made
    assert recalc.differences(one.before, one.after, exactly=exactly) == []
