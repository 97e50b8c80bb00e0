"""The Call-offs tab: what each phase takes of goods that are ordered once."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import CallOff, Order, OrderLine
from sheetcalc.workbook.formulas import (
    Key,
    looked_up,
    structured,
    summed_where,
    text_literal,
    this_row,
)
from sheetcalc.workbook.results.frame import (
    BLANK,
    Frame,
    count,
    quantity,
    sheet_of,
    table_of,
    text,
)
from sheetcalc.workbook.results.order_dates import DateFormulas
from sheetcalc.workbook.results.order_formulas import OrderFormulas
from sheetcalc.workbook.results.order_names import NO_SUPPLIER, order_table
from sheetcalc.workbook.results_tabs import CALL_OFFS
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "call-offs"
_TABLE: Final = CALL_OFFS.table


def call_offs_sheets(
    orders: Sequence[Order],
    formulas: OrderFormulas,
    inputs: Inputs,
    frame: Frame,
    *,
    kept: bool = False,
) -> tuple[SheetModel, ...]:
    """Make the Call-offs tab, item by item; none without any, unless it is ``kept``."""
    calls = sum(len(line.call_offs) for order in orders for line in order.lines)
    dates = DateFormulas(inputs, frame, lines=calls)
    rows = [
        _row(order, line, call, formulas, dates, inputs, frame)
        for order in orders
        for line in order.lines
        for call in line.call_offs
    ]
    if not rows and not kept:
        return ()
    table = table_of(
        CALL_OFFS, rows, nothing="nothing to call off", units={"Weight": frame.units.mass}
    )
    return (sheet_of(KEY, CALL_OFFS, frame, [table], style="order"),)


def _row(  # noqa: PLR0913, PLR0917 -- what a call-off is part of, and what words it
    order: Order,
    line: OrderLine,
    call: CallOff,
    formulas: OrderFormulas,
    dates: DateFormulas,
    inputs: Inputs,
    frame: Frame,
) -> dict[str, Cell]:
    so_far = [c for c in line.call_offs if c.number <= call.number]
    needed = sum(c.needed for c in so_far)
    packs = sum(c.packs for c in so_far)
    weight = None
    if line.pack_weight_kg is not None:
        weight = frame.units.mass.from_si(line.pack_weight_kg * call.packs)
    return {
        "Supplier": text(order.supplier or frame.words.say(NO_SUPPLIER), wrap=True),
        "Order number": text(line.number, wrap=True),
        "Item": text(line.item, wrap=True),
        "Description": text(line.description, wrap=True),
        "Call": count(call.number),
        "Phase": text(call.phase, wrap=True),
        "Delivery": count(call.delivery) if call.delivery else BLANK,
        "Needed": quantity(call.needed, line.unit, _needed(line, call, formulas)),
        "Unit": text(line.unit.symbol),
        "Needed so far": quantity(needed, line.unit, _needed_so_far(line, call)),
        "Packs so far": Cell(packs, "result_count", _packs_so_far(order, line, call)),
        "Packs": Cell(call.packs, "result_count", _packs(line, call)),
        "Package code": text(line.package_code),
        "Weight": BLANK
        if weight is None
        else Cell(weight, "result_number", formulas.weight_of(line, this_row(_TABLE, "Packs"))),
        "Needed on site": Cell(
            call.needed_on_site,
            "result_date",
            dates.day_of_phase(call.phase, call.day, call.tasks, call.needed_on_site),
        ),
        "Deliver to": text(inputs.deliver_to(call.phase), wrap=True),
    }


def _keys(line: OrderLine) -> list[tuple[str, str]]:
    return [
        (structured(_TABLE, "Order number"), line.number),
        (structured(_TABLE, "Item"), line.item),
    ]


def _needed(line: OrderLine, call: CallOff, formulas: OrderFormulas) -> str | None:
    """Sum of the Takeoff's gross over the phase; a value for an item counted in several ways."""
    return formulas.need_of(call.lines) if len(line.parts) == 1 else None


def _needed_so_far(line: OrderLine, call: CallOff) -> str:
    found = "*".join(f"EXACT({where},{text_literal(wanted)})" for where, wanted in _keys(line))
    calls = structured(_TABLE, "Call")
    return f"SUMPRODUCT({found}*({calls}<={call.number}),{structured(_TABLE, 'Needed')})"


def _packs_so_far(order: Order, line: OrderLine, call: CallOff) -> str:
    table = order_table(order.supplier)
    keys: list[Key] = [
        (structured(table, "Order number"), line.number),
        (structured(table, "Item"), line.item),
    ]
    whole = looked_up(keys, structured(table, "Packs"))
    if call.number == len(line.call_offs):
        return whole
    pack = looked_up(keys, structured(table, "Pack"))
    opened = f"ROUNDUP(ROUND({this_row(_TABLE, 'Needed so far')}/({pack}),9),0)"
    return f"MIN({whole},{opened})"


def _packs(line: OrderLine, call: CallOff) -> str:
    so_far = this_row(_TABLE, "Packs so far")
    if call.number == 1:
        return so_far
    keys: list[Key] = [*_keys(line), (structured(_TABLE, "Call"), call.number - 1)]
    before = summed_where(structured(_TABLE, "Packs so far"), keys, plainly=False)
    return f"{so_far}-{before}"
