"""What stands in the result tabs: status, links, readings, cut sizes, orders."""

from datetime import date
from decimal import Decimal

import pytest
from msgspec import Struct
from msgspec.structs import replace
from result_books import (
    FIRST,
    Inputted,
    bag,
    catalogue,
    inputs,
    line,
    raw_book,
    result_sheets,
    run_of,
    supplier,
    tile,
    waste,
)

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import (
    CUBIC_FOOT,
    FOOT,
    INCH,
    LITRE,
    POUND,
    SQUARE_FOOT,
    SQUARE_METRE,
    JobUnits,
)
from sheetcalc.domain.quantity import PackBy
from sheetcalc.domain.rolls import PlacedStrip, RollPlan, Strip
from sheetcalc.workbook.columns import HEADER_ROW
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.results import findings_only
from sheetcalc.workbook.results.order_columns import COLUMN
from sheetcalc.workbook.results.order_head import phases_of, summary
from sheetcalc.workbook.results.status import master_status
from sheetcalc.workbook.results_tabs import ORDER, RESULT_TABS
from sheetcalc.workbook.sheet import Cell, SheetModel

ROOMS = {"Rooms": Inputted({"Room": "Room", "Length": "Length (m)"}, [["1", 2.4]])}
US = JobUnits(FOOT, INCH, FOOT, SQUARE_FOOT, CUBIC_FOOT, POUND)
IN = 8128  # 1/320 mm
MM = 320


class Words(Struct, frozen=True):
    """A finding in words."""

    severity: str = "warning"
    code: str = "TILE-TOO-SMALL"
    tab: str = "Rooms"
    cell: str = "B5"
    room: str = "1"
    surface: str = ""
    found: str = "=1+1"
    expected: str = "a tile"
    what_to_do: str = "choose a tile"
    accepted: bool = False


def records(sheet: SheetModel) -> list[dict[str, Cell]]:
    """Rows of a sheet's first table by header."""
    table = sheet.tables[0]
    headers = [column.header for column in table.columns]
    return [dict(zip(headers, row, strict=True)) for row in table.rows]


def sheet(sheets: tuple[SheetModel, ...], key: str) -> SheetModel:
    return next(s for s in sheets if s.key == key)


def status(made: SheetModel) -> Cell:
    (cell,) = (cell for (row, _), cell in made.loose.items() if row == 1)
    return cell


@pytest.mark.parametrize(
    ("severities", "left_out", "words"),
    [
        ([], (), "OK"),
        (["note", "accepted"], (), "OK"),
        (["warning"], (), "1 warning"),
        (["warning", "warning", "note"], (), "2 warnings"),
        (["error", "warning"], (), "1 error: see Findings"),
        (["error", "error"], (), "2 errors: see Findings"),
        (["error"], ("2.07",), "INCOMPLETE: left out because of errors: 2.07"),
    ],
)
def test_the_status_says_the_worst_first(
    severities: list[str], left_out: tuple[str, ...], words: str
) -> None:
    assert master_status(severities, left_out).value == words


def test_a_status_with_very_many_rooms_left_out_counts_the_rest() -> None:
    cell = master_status(["error"], [f"room {n}" for n in range(2000)])
    assert str(cell.value).endswith("more")
    assert len(str(cell.value)) < 1200
    assert len(str(cell.formula)) < 8000


def test_every_result_tab_carries_its_title_status_signature_and_declared_headers() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 3)])
    sheets = result_sheets(run, (), raw_book(ROOMS))
    declared = {tab.key: [c.header for c in tab.columns] for tab in RESULT_TABS}
    assert [s.name for s in sheets] == [
        "Findings", "Takeoff", "Setting out", "Cut list", "Roll plan", "Cable schedule",
        "Resistance log", "Order - Kiln & Quarry", "Deliveries",
    ]  # fmt: skip
    for made in sheets:
        assert made.signature == f"sheetcalc result tab · {made.key} · schema 1"
        assert status(made).value == "OK"
        headers = [c.header.partition(" (")[0] for c in made.tables[0].columns]
        assert headers == declared[made.name.partition(" - ")[0]]
    assert sheets[-2].key == "order:Kiln & Quarry"


def test_the_status_stands_in_a_column_that_shows_ten_warnings() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 3)])
    for made in result_sheets(run, (), raw_book(ROOMS)):
        (at,) = (column for row, column in made.loose if row == 1)
        assert made.tables[0].columns[at - 1].width >= len("10 warnings") + 3, made.name


def test_tables_start_at_the_header_row_and_orders_below_their_block() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 3)])
    sheets = result_sheets(run, (), raw_book(ROOMS))
    order = sheet(sheets, "order:Kiln & Quarry")
    assert {s.tables[0].row for s in sheets if s is not order} == {HEADER_ROW}
    assert order.tables[0].row > HEADER_ROW
    assert order.repeat_row == order.tables[0].row


def test_every_style_is_in_the_house_style_and_every_table_has_a_row() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 3)])
    styles = load_house_style().styles
    for made in (*result_sheets(run, [Words()], raw_book(ROOMS)),
                 *result_sheets(run_of(inputs(catalogue()), []), (), raw_book({}))):  # fmt: skip
        used = {cell.style for cell in made.loose.values()}
        for table in made.tables:
            assert table.rows
            used |= {cell.style for row in table.rows for cell in row}
            used |= {column.style for column in table.columns}
        assert used | {rule.style for rule in made.conditional} <= styles.keys()


def test_findings_link_to_their_cells_with_errors_first() -> None:
    found = [Words("note"), Words(accepted=True), Words("warning"), Words("error")]
    made = findings_only(found, raw_book(ROOMS), Job())
    assert [r["Severity"].value for r in records(made)] == [
        "error", "warning", "accepted", "note",
    ]  # fmt: skip
    first = records(made)[0]
    assert first["Cell"] == Cell("B5", "result_link", link="internal:'Rooms'!B5")
    assert first["Found"] == Cell("=1+1", "result_wrapped")  # text, never a formula
    assert status(made).value == "1 error: see Findings"


def test_fingerprints_count_the_inputs_and_leave_live_columns_out() -> None:
    tabs = ROOMS | {
        "Waste factors": Inputted(
            {"Line": "Line", "Waste %": "Waste %"}, [["tile", 0.1], ["grout", 0.2]]
        ),
        "Holidays": Inputted({"Date": "Date"}, []),
    }
    del tabs["Holidays"]
    made = findings_only((), raw_book(tabs), Job())
    prints = made.tables[1]
    rows = {row[0].value: row for row in prints.rows}
    assert [c.value for c in rows["Rooms"][1:5]] == [1, 1, 4.8, 4.8]  # 2 x 2.4: second column
    assert [c.value for c in rows["Waste factors"][1:5]] == [2, 2, 0, 0]
    assert rows["Rooms"][4].formula == "1*SUM(InRooms[Room])+2*SUM(InRooms[Length (m)])"


def test_a_planned_line_is_a_value_and_says_so() -> None:
    lines = [line("C1", 2.0, pack_by=PackBy.PLAN, count=3)]
    run = replace(run_of(inputs(catalogue()), []), lines=tuple(lines))
    (row,) = records(sheet(result_sheets(run, (), raw_book(ROOMS)), "takeoff"))
    assert [row[h].formula for h in ("Net", "Waste %", "Gross")] == [None, None, None]
    assert [row[h].value for h in ("Net", "Waste %", "Gross")] == [6, "in plan", 6]


def test_waste_is_looked_up_by_all_four_criteria_of_the_row_that_won() -> None:
    tabs = ROOMS | {
        "Waste factors": Inputted(
            {"Line": "Line", "Finish": "Finish", "Waste %": "Waste %"},
            [["tile", None, 0.1], ["tile", 'Bob\'s "best"', 0.2]],
        )
    }
    lines = [
        line("T1", 2.0, waste=waste(0.2, FIRST + 1, "tile", 'Bob\'s "best"')),
        line("T1", 2.0, waste=replace(waste(0.2, FIRST), source=None)),
    ]
    run = run_of(inputs(catalogue(tile("T1", FIRST))), lines)
    live, default = records(sheet(result_sheets(run, (), raw_book(tabs)), "takeoff"))
    where = 'EXACT(InWaste[Line],"tile")*EXACT(InWaste[Finish],"Bob\'s ""best""")'
    assert live["Waste %"].formula == (f"SUMPRODUCT({where},InWaste[Waste %])/SUMPRODUCT({where})")
    assert default["Waste %"] == Cell(0.2, "result_percent")


def test_takeoff_rows_link_to_the_row_they_come_from() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 1), line("T1", 1, room="")])
    first, job = records(sheet(result_sheets(run, (), raw_book(ROOMS)), "takeoff"))
    assert first["Room"].link == "internal:'Rooms'!A5"
    assert job["Room"].value == "whole job"


def test_strips_come_in_cutting_order() -> None:
    strips = [
        Strip("U1", "L1", "1", "floor", f"strip {n}", n * 1000 * MM, 500 * MM) for n in (1, 2)
    ]
    plan = RollPlan(
        "U1", "L1", 1, (PlacedStrip(strips[1], 1, 1000 * MM), PlacedStrip(strips[0], 1, 0)), 1, ""
    )
    roll = Roll(
        code="U1", supplier=None, supplier_code=None, description="underlay",
        kind=RollKind.UNDERLAY_ROLL, width_mm320=MM, length_mm320=MM, thickness_mm320=None,
        overlap_mm320=0, knob_pitch_mm320=None, fill_m=None, one_way=False, package="roll",
        price=None, weight_kg=None, lead_days=None, source=RowRef("Rolls and sheets", FIRST),
    )  # fmt: skip
    run = run_of(inputs(catalogue(rolls={"U1": roll})), [], rolls=[plan])
    rows = records(sheet(result_sheets(run, (), raw_book(ROOMS)), "roll-plan"))
    assert [(r["From (m)"].value, r["To (m)"].value) for r in rows] == [(0, 1), (1, 3)]
    assert rows[0]["Description"].value == "underlay"


def test_the_order_tab_names_both_parties_where_to_and_when() -> None:
    goods = catalogue(
        tile("T1", FIRST, lead_days=1), suppliers={"Kiln & Quarry": supplier("Kiln & Quarry")}
    )
    job = Job(buyer="=Buyer", site_address="Plot 7", name="Larch Court")
    given = inputs(goods, job=job, phases={"L1": date(2027, 6, 8)})
    made = result_sheets(run_of(given, [line("T1", 3, phase="L1")]), (), raw_book(ROOMS))[-2]
    values = {cell.value for cell in made.loose.values()}
    assert {"Kiln & Quarry", "1 Clay Lane, Potters Row", "=Buyer", "Plot 7"} <= values
    assert {"PO-KILNQUAR-L1", date(2027, 6, 8), date(2027, 6, 7)} <= values
    assert all(cell.formula is None for cell in made.loose.values() if cell.value == "=Buyer")


def test_the_head_of_an_order_says_the_earliest_day_whatever_line_it_is_on() -> None:
    goods = catalogue(
        tile("T1", FIRST), tile("T2", FIRST), suppliers={"Kiln & Quarry": supplier("Kiln & Quarry")}
    )
    given = inputs(goods, phases={"L1": date(2027, 6, 8)})
    (order,) = run_of(given, [line("T1", 3, phase="L1"), line("T2", 3, phase="L1")]).orders
    late, soon = order.lines
    days = (
        replace(late, needed_on_site=date(2027, 6, 10), order_by=date(2027, 6, 4)),
        replace(soon, needed_on_site=date(2027, 6, 8), order_by=None),
    )
    order = replace(order, lines=days)
    cells = summary(order, ORDER, phases_of(order, given), 1, "EUR")
    needed, order_by = (cells[2, COLUMN[header]] for header in ("Needed on site", "Order by"))
    assert (needed.value, order_by.value) == (date(2027, 6, 8), date(2027, 6, 4))
    # live only where every line has a day: an empty cell would be the earliest of all
    assert needed.formula
    assert order_by.formula is None


def test_orders_carry_unit_and_package_codes_of_the_published_lists() -> None:
    # MTK, LTR, H87 are live in Rec 20; BG and BX are packages of Rec 21
    goods = catalogue(tile("T1", FIRST), bag("M1", FIRST))
    run = run_of(inputs(goods), [line("T1", 3), line("M1", 0.01, LITRE)])
    rows = records(result_sheets(run, (), raw_book(ROOMS))[-2])
    assert [(r["Unit code"].value, r["Package code"].value) for r in rows] == [
        ("H87", "BX"),
        ("LTR", "BG"),
    ]
    assert SQUARE_METRE.code == "MTK"


def test_items_without_a_supplier_have_an_order_tab_of_their_own() -> None:
    goods = catalogue(tile("T1", FIRST, supplier=None), tile("T2", FIRST + 1))
    made = result_sheets(run_of(inputs(goods), [line("T1", 3), line("T2", 3)]), (), raw_book(ROOMS))
    assert [s.key for s in made[-3:-1]] == ["order:Kiln & Quarry", "order:"]
    assert made[-2].name == "Order - no supplier"


def test_order_tables_are_named_by_their_supplier_so_that_they_keep_their_names() -> None:
    names = {}
    for some in (["A & B"], ["A B", "A & B", "أ", "🛁"]):
        goods = catalogue(
            *(tile(f"T{n}", FIRST + n, supplier=name) for n, name in enumerate(some)),
            suppliers={name: supplier(name) for name in some},
        )
        made = result_sheets(
            run_of(inputs(goods), [line(f"T{n}", 3) for n in range(len(some))]), (),
            raw_book(ROOMS),
        )  # fmt: skip
        tables = [s.tables[0].name for s in made if s.key.startswith("order:")]
        assert len({t.casefold() for t in tables}) == len(some)
        assert all(t.isascii() and t.isalnum() for t in tables)
        names[len(some)] = dict(zip(some, tables, strict=True))
    assert names[1]["A & B"] == names[4]["A & B"]


def test_the_total_of_an_order_is_the_decimal_one() -> None:
    run = run_of(inputs(catalogue(tile("T1", FIRST))), [line("T1", 44)])
    made = result_sheets(run, (), raw_book(ROOMS))[-2]
    totals = [cell for cell in made.loose.values() if cell.style == "total_money"]
    assert [cell.value for cell in totals] == [Decimal("242.50")]
    assert totals[0].formula == f"ROUND(SUM({made.tables[0].name}[Amount]),2)"
