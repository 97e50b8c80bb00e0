"""Order tabs, one a supplier: who, when and where above, the lines, the total below."""

from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.formulas import (
    this_row,
)
from sheetcalc.workbook.lists import letters
from sheetcalc.workbook.results.frame import (
    BLANK,
    Frame,
    count,
    described,
    quantity,
    sheet_of,
    table_of,
    text,
)
from sheetcalc.workbook.results.order_columns import COLUMN
from sheetcalc.workbook.results.order_dates import DateFormulas
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED, OrderFormulas
from sheetcalc.workbook.results.order_head import block, phases_of, summary
from sheetcalc.workbook.results.order_names import NO_SUPPLIER, order_table
from sheetcalc.workbook.results.order_received import ReceivedFormulas
from sheetcalc.workbook.results.order_totals import totals
from sheetcalc.workbook.results_tabs import ORDER
from sheetcalc.workbook.sheet import Cell, ConditionalStyle, SheetModel
from sheetcalc.workbook.shown import price_style

CALLED_OFF: Final = "called off"
_FIRST_ROW: Final = 5
_KEY: Final = "order:"


def key_of(supplier: str) -> str:
    """Key of a supplier's tab, by which a later run finds it again."""
    return f"{_KEY}{supplier}"


def supplier_of(key: str) -> str | None:
    """Supplier whose tab has a key; None where it is another tab's."""
    return key.removeprefix(_KEY) if key.startswith(_KEY) else None


def order_sheets(
    orders: Sequence[Order], formulas: OrderFormulas, inputs: Inputs, frame: Frame
) -> tuple[SheetModel, ...]:
    """Order tabs in the order of the orders.

    Parameters
    ----------
    orders
        One a supplier.
    formulas
        Live formulas of the run's orders.
    inputs
        Job, suppliers and phases, for what stands above the table.
    frame
        Shared by the result tabs of the run.
    """
    live = _Live(
        formulas,
        DateFormulas(inputs, frame, lines=sum(len(order.lines) for order in orders)),
        ReceivedFormulas(orders, frame),
    )
    return tuple(
        _sheet(order, replace(ORDER, table=order_table(order.supplier)), live, inputs, frame)
        for order in orders
    )


class _Live(Struct, frozen=True):
    """What makes the formulas of a run's orders."""

    quantities: OrderFormulas
    dates: DateFormulas
    received: ReceivedFormulas


def _sheet(order: Order, tab: Tab, live: _Live, inputs: Inputs, frame: Frame) -> SheetModel:
    phases = phases_of(order, inputs)
    head = block(order, inputs)
    summary_row = _FIRST_ROW + max(row for row, _ in head) + 2
    header_row = summary_row + len(phases) + 2
    units = frame.units
    table = table_of(
        tab,
        [_row(order.supplier, line, tab, live, frame) for line in order.lines],
        nothing="nothing to order",
        row=header_row,
        units={
            "Weight": units.mass,
        },
    )
    loose = {(_FIRST_ROW + row, column): cell for (row, column), cell in head.items()}
    loose |= summary(order, tab, phases, summary_row, inputs.job.currency)
    last_row = header_row + max(1, len(order.lines))
    loose |= totals(order, tab, last_row + 2, inputs, frame)
    name = f"Order - {order.supplier or NO_SUPPLIER}"
    sheet = sheet_of(
        key_of(order.supplier),
        tab,
        frame,
        [table],
        name=name,
        loose=loose,
        style="order",
        conditional=_too_many(header_row + 1, last_row),
    )
    return replace(sheet, freeze=None)  # the rows above the table would fill a small screen


def _row(
    supplier: str, line: OrderLine, tab: Tab, formulas: _Live, frame: Frame
) -> dict[str, Cell]:
    live = formulas.quantities.of(line, tab.table)
    link = frame.link(line.tab, line.source.row)
    weight = None if line.weight_kg is None else frame.units.mass.from_si(line.weight_kg)
    unpriced = frame.words.say(TO_BE_PRICED) if line.pack_price is None else None
    on_site = formulas.dates.on_site(line)
    order_by = formulas.dates.order_by(line, supplier, tab.table)
    return {
        "Phase": text(line.phase, wrap=True),
        "Order number": text(line.number, wrap=True),
        "Line": count(line.line),
        "Item": text(line.item),
        "Supplier code": text(line.supplier_code, wrap=True),
        "Description": described(line.description, link),
        "Needed": quantity(line.needed, line.unit, live.needed),
        "Unit": text(line.unit.symbol),
        "Unit code": text(line.unit.code),
        "Pack": quantity(line.pack, line.unit, live.pack),
        "Packs": Cell(line.packs, "result_count", live.packs),
        "Package code": text(line.package_code),
        "Pack price": Cell(unpriced or line.pack_price, price_style(line.pack_price), live.price),
        "Amount": Cell(unpriced or line.amount, "result_money", live.amount),
        "Weight": BLANK if weight is None else Cell(weight, "result_number", live.weight),
        "Delivery": text(CALLED_OFF) if line.call_offs else count(line.delivery),
        "Needed on site": Cell(line.needed_on_site, "result_date", on_site),
        "Order by": Cell(line.order_by, "result_date", order_by),
        "Ordered": _packs(line.ordered, formulas.received.of(supplier, line, "Ordered")),
        "Received": _packs(line.received, formulas.received.of(supplier, line, "Received")),
        "To order": _packs(line.to_order, _to_order(tab.table)),
    }


def _packs(packs: float, formula: str | None) -> Cell:
    """Packs that people counted; parts of a pack are shown as such."""
    whole = float(packs).is_integer()
    style = "result_count" if whole else "result_number"
    return Cell(int(packs) if whole else packs, style, formula)


def _to_order(table: str) -> str:
    ordered, received = this_row(table, "Ordered"), this_row(table, "Received")
    return f"{this_row(table, 'Packs')}-MAX({ordered},{received})"


def _too_many(first: int, last: int) -> tuple[ConditionalStyle, ...]:
    """Mark lines of which more was ordered than is needed."""
    at = letters(COLUMN["To order"])
    cell = f"${at}{first}"
    below = f"AND(ISNUMBER({cell}),{cell}<0)"
    return (ConditionalStyle(f"{at}{first}:{at}{last}", below, "warning"),)
