"""What ordering several workbooks together saves, as a workbook for the office's own eyes."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Final, TypeAlias

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.pricing import amount
from sheetcalc.workbook.formulas import structured, this_row
from sheetcalc.workbook.results.roll_plan import cutting_list
from sheetcalc.workbook.results_tabs import ROLL_PLAN
from sheetcalc.workbook.sheet import BookModel, Cell, SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.shown import price_style

Row: TypeAlias = tuple[str, str, str, int, int, Decimal | None]
"""Supplier, item, description, packs apart, packs together, price of a pack."""

NAME: Final = "Saving by ordering together (not to be sent)"
_TABLE: Final = "OutSaving"
_COLUMNS: Final = (
    SheetColumn("Supplier", 22, "result"), SheetColumn("Item", 13, "result"),
    SheetColumn("Description", 38, "result_wrapped"), SheetColumn("Packs apart", 9, "result"),
    SheetColumn("Packs together", 10, "result"), SheetColumn("Pack price", 11, "result"),
    SheetColumn("Apart", 13, "result"), SheetColumn("Together", 13, "result"),
    SheetColumn("Saved", 12, "result"),
)  # fmt: skip
_HEADER_ROW: Final = 4


def saving_book(
    rows: Sequence[Row],
    charges: tuple[Decimal, Decimal],
    job: Job,
    cut: tuple[Sequence[RollPlan], Mapping[str, Roll]] = ((), {}),
) -> BookModel:
    """Make the workbook: what is saved, and how rolls are cut that buildings share.

    Parameters
    ----------
    rows
        Item by item.
    charges
        Delivery charges apart and together.
    job
        Units, currency and paper of the jobs.
    cut
        Plans over the rooms of all buildings, and their items; the buildings' own Roll plan tabs
        do not hold for these.
    """
    table = TableModel(_TABLE, _HEADER_ROW, 1, _COLUMNS, tuple(_cells(row) for row in rows))
    loose = _totals(rows, charges, job.currency, _HEADER_ROW + len(rows) + 2)
    sheet = SheetModel(
        key="saving",
        name="Saving",
        title="Ordered together",
        purpose="Each workbook by itself against one order a supplier; for your own eyes.",
        tables=(table,),
        loose=loose,
        tab_style="result",
    )
    plans, rolls = cut
    sheets = (sheet, _cutting(plans, rolls, job)) if plans else (sheet,)
    return BookModel(sheets, {}, paper=job.units.paper, title="Saving by ordering together")


def _cutting(plans: Sequence[RollPlan], rolls: Mapping[str, Roll], job: Job) -> SheetModel:
    """List the cuts of rolls that several buildings share, for the person on the roll."""
    items = ", ".join(dict.fromkeys(plan.item for plan in plans))
    return SheetModel(
        key="roll-plan-together",
        name="Roll plan",
        title="Rolls cut for all buildings together",
        purpose=f"This list holds for {items}, instead of the Roll plan tab of each workbook: a "
        "rest goes on to the building named next.",
        tables=(cutting_list(plans, rolls, job.units),),
        tab_style="result",
        printed_columns=ROLL_PLAN.printed_columns,
    )


def _cells(row: Row) -> tuple[Cell, ...]:
    supplier, item, description, apart, together, price = row

    def money(packs: int, header: str) -> Cell:
        if price is None:
            return Cell("to be priced", "result")
        live = f"ROUND({this_row(_TABLE, header)}*{this_row(_TABLE, 'Pack price')},2)"
        return Cell(amount(packs, price), "result_money", live)

    saved = Cell(None, "result")
    if price is not None:
        value = amount(apart, price) - amount(together, price)
        live = f"ROUND({this_row(_TABLE, 'Apart')}-{this_row(_TABLE, 'Together')},2)"
        saved = Cell(value, "result_money", live)
    return (
        Cell(supplier, "result"),
        Cell(item, "result"),
        Cell(description, "result_wrapped"),
        Cell(apart, "result_count"),
        Cell(together, "result_count"),
        _price(price),
        money(apart, "Packs apart"),
        money(together, "Packs together"),
        saved,
    )


def _price(price: Decimal | None) -> Cell:
    """Price of a pack."""
    if price is None:
        return Cell("to be priced", "result")
    return Cell(price, price_style(price))


def _totals(
    rows: Sequence[Row], charges: tuple[Decimal, Decimal], currency: str, row: int
) -> dict[tuple[int, int], Cell]:
    priced = [(apart, together, price) for *_, apart, together, price in rows if price is not None]
    goods = (
        sum((amount(apart, price) for apart, _, price in priced), Decimal("0.00")),
        sum((amount(together, price) for _, together, price in priced), Decimal("0.00")),
    )
    figures = (
        (f"Goods ({currency})", goods[0], goods[1]),
        ("Delivery", charges[0], charges[1]),
        ("Total", goods[0] + charges[0], goods[1] + charges[1]),
    )
    columns = ("Apart", "Together")
    cells: dict[tuple[int, int], Cell] = {}
    for offset, (words, *values) in enumerate(figures):
        cells[row + offset, 3] = Cell(words, "total")
        for at in (4, 5, 6):
            cells[row + offset, at] = Cell(None, "total")
        live: list[str | None] = [None, None]
        if offset == 0:
            live = [f"ROUND(SUM({structured(_TABLE, c)}),2)" for c in columns]
        elif words == "Total":
            live = [f"ROUND({letter}{row}+{letter}{row + 1},2)" for letter in ("G", "H")]
        for at, value, formula in zip((7, 8), values, live, strict=True):
            cells[row + offset, at] = Cell(value, "total_money", formula)
        cells[row + offset, 9] = Cell(
            values[0] - values[1], "total_money", f"ROUND(G{row + offset}-H{row + offset},2)"
        )
    return cells
