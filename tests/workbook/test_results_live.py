"""Result tabs are live: recalculating changes nothing, changing an input changes what follows."""

from decimal import Decimal
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
    run_of,
    supplier,
    tile,
    waste,
    write,
)
from xlsxwriter import Workbook

from sheetcalc.domain.catalogue import PricePer
from sheetcalc.domain.measure import KILOGRAM, LITRE
from sheetcalc.domain.quantity import PackBy, WasteUsed
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


def status_of(cells: recalc.CellOf, sheet: str) -> str:
    """What stands in row 1 to the right of the title."""
    (status,) = (v for (s, a), v in cells.items() if s == sheet and a != "A1" and a[1:] == "1")
    return str(status)


def rows_of(cells: recalc.CellOf, sheet: str, header: str) -> list[dict[str, object]]:
    """Records of a written table by header, found by the first header's text."""
    heads = {a: v for (s, a), v in cells.items() if s == sheet}
    top = next(int("".join(filter(str.isdigit, a))) for a, v in heads.items() if v == header)
    letters = {
        "".join(filter(str.isalpha, a)): v
        for a, v in heads.items()
        if int("".join(filter(str.isdigit, a))) == top
    }
    records = []
    row = top + 1
    while any(f"{letter}{row}" in heads for letter in letters):
        records.append({v: heads.get(f"{k}{row}") for k, v in letters.items()})
        row += 1
    return records


def exact_cells(sheets: tuple[SheetModel, ...], cells: recalc.CellOf) -> frozenset[tuple[str, str]]:
    """Cells with packs and money: they must not differ by a billionth."""
    found = set()
    for sheet in sheets:
        for table in sheet.tables:
            for at, column in enumerate(table.columns):
                if column.header in {"Packs", "Pack price", "Amount"}:
                    letter = chr(ord("A") + at)
                    found |= {(sheet.name, f"{letter}{r}") for r in range(1, 200)}
    return frozenset(found & cells.keys())


def test_recalculating_leaves_every_stored_value_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    sheets = write(path, tabs(), run_of(given, lines))
    before = recalc.cells(path)
    after = recalc.recalculate(path)
    assert status_of(before, "Findings") == "OK"
    assert recalc.differences(before, after, exactly=exact_cells(sheets, before)) == []


def test_packs_of_exact_multiples_agree_with_the_sheet(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    write(path, tabs(), run_of(given, lines))
    records = rows_of(recalc.recalculate(path), KQ, "Supplier code")
    packs = {(r["Phase"], r["Item"]): r["Packs"] for r in records}
    assert packs["exact", "M1"] == 2  # 22 L x 1.1 / 12.1 L
    assert packs[EMOJI, "M1"] == 5  # two rooms of 2.3 bags
    assert {packs[QUOTED, name] for name in NAMES} == {5}  # 44 tiles in boxes of 10


def test_a_changed_waste_factor_price_and_pack_size_reach_the_order(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    now = tabs(
        Tiles=Inputted(TILE_HEADERS, [[*r[:2], 11, 50.0, 22.5] for r in TILES]),
        Bags_and_pails=Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 20, 11, 30.0, 20]]),
        Waste_factors=Inputted(
            WASTE_HEADERS, [["tile", None, None, None, 0.7], ["mortar", ODD, None, None, 0.25]]
        ),
    )
    write(path, now, run_of(given, lines), of=tabs())
    after = recalc.recalculate(path)
    records = rows_of(after, KQ, "Supplier code")
    worked = {(r["Phase"], r["Item"]): (r["Packs"], r["Amount"]) for r in records}
    assert worked[QUOTED, ODD] == (4, 200)  # 44 / 11
    assert worked["with waste", "T1"] == (4, 200)  # 34 / 11 = 3.09
    assert worked["with default", "T1"] == (2, 100)  # 21 / 11 = 1.9: a default stays as it is
    assert worked["exact", "M1"] == (3, 90)  # 22 x 1.25 / 11 = 2.5
    assert status_of(after, "Takeoff") == "OK"


def test_sorted_tables_and_added_rows_change_nothing_but_the_status(tmp_path: Path) -> None:
    given, lines = job()
    run = run_of(given, lines)
    sorted_tabs = tabs(
        Tiles=Inputted(TILE_HEADERS, TILES[::-1]),
        Waste_factors=Inputted(WASTE_HEADERS, WASTES[::-1]),
        Rooms=Inputted(ROOM_HEADERS, ROOMS[::-1]),
    )
    added = tabs(Tiles=Inputted(TILE_HEADERS, [["new", "Adobe", 4, 1.0, None], *TILES]))
    stored = {}
    for name, now, status in (
        ("sorted", sorted_tabs, "OK"),
        ("added", added, "OUT OF DATE"),
    ):
        path = tmp_path / f"{name}.xlsx"
        write(path, now, run, of=tabs())
        stored[name] = recalc.recalculate(path)
        assert status_of(stored[name], "Takeoff").startswith(status)
    before = recalc.cells(tmp_path / "sorted.xlsx")
    for cells in stored.values():
        ours = {k: v for k, v in cells.items() if k[0] == KQ and k[1][1:] != "1"}
        was = {k: v for k, v in before.items() if k[0] == KQ and k[1][1:] != "1"}
        assert recalc.differences(was, ours) == []


@pytest.mark.parametrize(("column", "value"), [(1, 4), (2, 2.08), (3, "another finish"), (0, "2")])
def test_a_changed_room_turns_the_status_out_of_date(
    tmp_path: Path, column: int, value: object
) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    changed = [list(row) for row in ROOMS]
    changed[0][column] = value
    write(path, tabs(Rooms=Inputted(ROOM_HEADERS, changed)), run_of(given, lines), of=tabs())
    after = recalc.recalculate(path)
    assert status_of(after, "Findings").startswith("OUT OF DATE")
    assert status_of(after, KQ).startswith("OUT OF DATE")


def test_a_deleted_catalogue_row_gives_an_error_and_not_nothing(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    write(path, tabs(Bags_and_pails=Inputted(BAG_HEADERS, [["M2", "Kiln & Quarry", 20, 11, 3, 1]])),
          run_of(given, lines), of=tabs())  # fmt: skip
    records = rows_of(recalc.recalculate(path), KQ, "Supplier code")
    mortar = [r for r in records if r["Item"] == "M1"]
    assert {r["Pack price"] for r in mortar} == {"#DIV/0!"}


def test_plain_ranges_stand_in_where_the_table_object_is_gone(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given, lines = job()
    gone = {k: replace(v, with_table=False) for k, v in tabs().items()}
    sheets = write(path, tabs(), run_of(given, lines), of=gone)
    order = next(s for s in sheets if s.name == KQ)
    formulas = [c.formula for row in order.tables[0].rows for c in row if c.formula]
    assert any("'Tiles'!$C$5:$C$13" in f for f in formulas)
    assert not any("InTiles" in f for f in formulas)
    before = recalc.cells(path)
    assert recalc.differences(before, recalc.recalculate(path)) == []


def test_a_missing_price_is_filled_in_by_typing_it(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    goods = catalogue(tile("T1", FIRST, price=None), tile("T2", FIRST + 1))
    given = inputs(goods)
    without = Inputted(TILE_HEADERS, [["T1", "Kiln & Quarry", 10, None, 22.5],
                                      ["T2", "Kiln & Quarry", 10, 48.5, 22.5]])  # fmt: skip
    run = run_of(given, [line("T1", 11), line("T2", 10)])
    write(path, {"Tiles": without}, run)
    before = recalc.cells(path)
    assert recalc.differences(before, recalc.recalculate(path)) == []
    records = rows_of(before, KQ, "Supplier code")
    assert [r["Amount"] for r in records] == ["to be priced", 48.5]
    assert "INCOMPLETE: lines without a price: 1" in before.values()
    typed = replace(without, rows=[["T1", "Kiln & Quarry", 10, 12.345, 22.5], without.rows[1]])
    write(path, {"Tiles": typed}, run, of={"Tiles": without})
    after = recalc.recalculate(path)
    assert [r["Amount"] for r in rows_of(after, KQ, "Supplier code")] == [24.69, 48.5]
    assert not any("INCOMPLETE" in str(v) for v in after.values())


def test_prices_per_piece_and_area_are_live_and_exact(tmp_path: Path) -> None:
    # 10 tiles of 0.6 x 0.3 m: 21.95 a m2 makes a box 39.51; 0.95 a piece makes it 9.50
    path = tmp_path / "job.xlsx"
    goods = catalogue(
        tile("A", FIRST, price=Decimal("21.95"), price_per=PricePer.AREA),
        tile("P", FIRST + 1, price=Decimal("0.95"), price_per=PricePer.PIECE),
    )
    rows = [["A", "Kiln & Quarry", 10, 21.95, 1], ["P", "Kiln & Quarry", 10, 0.95, 1]]
    sheets = write(
        path, {"Tiles": Inputted(TILE_HEADERS, rows)},
        run_of(inputs(goods), [line("A", 71), line("P", 71)]),
    )  # fmt: skip
    before = recalc.cells(path)
    records = rows_of(before, KQ, "Supplier code")
    assert [(r["Pack price"], r["Amount"]) for r in records] == [(39.51, 316.08), (9.5, 76)]
    exactly = exact_cells(sheets, before)
    assert recalc.differences(before, recalc.recalculate(path), exactly=exactly) == []


def test_an_item_counted_in_two_ways_stays_live(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    given = inputs(catalogue(bag("M1", FIRST)))
    lines = [line("M1", 0.5 * 0.0121, LITRE), line("M1", 10.0, KILOGRAM, line="slurry")]
    tables = {"Bags and pails": Inputted(BAG_HEADERS, BAGS)}
    write(path, tables, run_of(given, lines))
    before = recalc.cells(path)
    assert recalc.differences(before, recalc.recalculate(path)) == []
    assert rows_of(before, KQ, "Supplier code")[0]["Packs"] == 1
    larger = {"Bags and pails": Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 5, 12.1, 27.9, 20]])}
    write(path, larger, run_of(given, lines), of=tables)
    after = recalc.recalculate(path)
    assert rows_of(after, KQ, "Supplier code")[0]["Packs"] == 3  # 0.5 + 10 / 5


def test_text_with_a_unit_in_a_catalogue_cell_leaves_the_value(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    typed = {
        "Bags and pails": Inputted(BAG_HEADERS, [["M1", "Kiln & Quarry", 20, "12.1 L", 27.9, 20]])
    }
    write(path, typed, run_of(inputs(catalogue(bag("M1", FIRST))), [line("M1", 0.0242, LITRE)]))
    before = recalc.cells(path)
    after = recalc.recalculate(path)
    assert recalc.differences(before, after) == []
    assert rows_of(after, KQ, "Supplier code")[0]["Packs"] == 2


def test_tax_and_totals_stand_below_the_lines(tmp_path: Path) -> None:
    # T10.4: 242.50 + 83.70 = 326.20, tax 8.25 % = 26.91, total 353.11
    path = tmp_path / "job.xlsx"
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
    after = recalc.recalculate(path)
    words = {v: k[1] for k, v in after.items() if k[0] == KQ and isinstance(v, str)}
    for label, amount in (
        ("Goods (EUR)", 326.20),
        ("Tax 8.25 %", 26.91),
        ("Total (EUR)", 353.11),
    ):
        assert after[KQ, words[label].replace("F", "N")] == amount


def test_the_quick_sums_of_a_large_takeoff_give_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(order_formulas, "_MANY", 0)
    path = tmp_path / "job.xlsx"
    goods = catalogue(tile("TILE", FIRST), tile("Tx", FIRST + 1))
    lines = [line(code, 7, phase=phase) for code in ("TILE", "Tx") for phase in ("Up", "1/2")]
    rows = [[code, "Kiln & Quarry", 10, 48.5, 22.5] for code in ("TILE", "Tx")]
    given = inputs(goods, phases={"Up": None, "1/2": None})
    sheets = write(path, {"Tiles": Inputted(TILE_HEADERS, rows)}, run_of(given, lines))
    needed = [row[6].formula for row in sheets[-2].tables[0].rows]
    assert [f.partition("(")[0] for f in needed if f] == ["SUMIFS", "SUMIFS"] + ["SUMPRODUCT"] * 2
    before = recalc.cells(path)
    assert recalc.differences(before, recalc.recalculate(path)) == []


def test_the_sheet_rounds_to_packs_as_the_program_does(tmp_path: Path) -> None:
    # exact multiples, a hair below and above, and needs that floats get slightly wrong
    path = tmp_path / "packs.xlsx"
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
    before = recalc.cells(path)
    exactly = frozenset(place for place in before if place[1].startswith("C"))
    assert len(exactly) == len(pairs)
    assert recalc.differences(before, recalc.recalculate(path), exactly=exactly) == []
