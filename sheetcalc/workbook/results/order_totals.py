"""What stands below an order's lines: goods, delivery, tax, total, what has no price yet."""

from decimal import Decimal

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order
from sheetcalc.pricing import share_of
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.formulas import looked_up, number_literal, structured
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.order_columns import COLUMN
from sheetcalc.workbook.sheet import Cell
from sheetcalc.workbook.text_formulas import filled

_UNPRICED = "INCOMPLETE: lines without a price: {number}"


def totals(
    order: Order, tab: Tab, row: int, inputs: Inputs, frame: Frame
) -> dict[tuple[int, int], Cell]:
    """Rows below the table: goods, what their delivery costs, tax where there is any, total."""
    currency = inputs.job.currency
    amounts = structured(tab.table, "Amount")
    at, label = COLUMN["Amount"], COLUMN["Description"]
    supplier = inputs.catalogue.suppliers.get(order.supplier)
    rate = inputs.tax_rate(order.supplier)
    goods = f"ROUND(SUM({amounts}),2)"
    rows: list[tuple[str, Decimal, str]] = [("Goods", order.total, goods)]
    subtotal, live = order.total, goods
    charge = _charges(order, supplier, frame)
    if charge is not None:
        words, charges, live_charges = charge
        subtotal, live = subtotal + charges, f"ROUND({goods}+{live_charges},2)"
        rows.append((words, charges, live_charges))
    if rate:
        tax, live_tax = share_of(subtotal, rate), f"ROUND({live}*{number_literal(rate)},2)"
        rows.append((f"Tax {rate * 100:g} %", tax, live_tax))
        subtotal, live = subtotal + tax, f"ROUND({live}+{live_tax},2)"
    rows = [*rows, ("Total", subtotal, live)] if len(rows) > 1 else [("Total", *rows[0][1:])]
    cells: dict[tuple[int, int], Cell] = {}
    for offset, (words, value, formula) in enumerate(rows):
        shown = f"{words} ({currency})" if words in {"Goods", "Total"} else words
        cells |= _band(row + offset, label, at, shown)
        cells[row + offset, at] = Cell(value, "total_money", formula)
    cells[row + len(rows), label] = _completeness(order, amounts, frame)
    weights = [line.weight_kg for line in order.lines if line.weight_kg is not None]
    if weights:
        unit = frame.units.mass
        weight = structured(tab.table, f"Weight ({unit.symbol})")
        total = unit.from_si(sum(weights))
        cells[row, COLUMN["Weight"]] = Cell(total, "total_number", f"SUM({weight})")
    return cells


def _charges(
    order: Order, supplier: Supplier | None, frame: Frame
) -> tuple[str, Decimal, str] | None:
    """Words, value and formula of the delivery charges; None where the supplier takes none."""
    if supplier is None or not supplier.delivery_charge or not order.deliveries:
        return None
    number = len(order.deliveries)
    words = "Delivery" if number == 1 else f"Delivery, {number} times"
    table = frame.inputs.get("Suppliers")
    values = table.column("Delivery charge") if table else None
    keys = table.keys(supplier.source.row, ("Supplier",)) if table else ()
    typed = table.number(supplier.source.row, "Delivery charge") if table else None
    each = number_literal(float(supplier.delivery_charge))
    if values and keys and typed == float(supplier.delivery_charge):
        each = looked_up(keys, values)
    return words, order.charges, f"ROUND({number}*{each},2)"


def _band(row: int, first: int, after: int, words: str) -> dict[tuple[int, int], Cell]:
    """Words of a total, and the empty cells between them and its amount."""
    empty = {(row, column): Cell(None, "total") for column in range(first + 1, after)}
    return {(row, first): Cell(words, "total"), **empty}


def _completeness(order: Order, amounts: str, frame: Frame) -> Cell:
    """Words below the total while a line has no price."""
    if not order.lines:
        return Cell(frame.words.say("nothing is ordered"), "strong_line")
    missing = sum(line.amount is None for line in order.lines)
    unknown = f"(ROWS({amounts})-COUNT({amounts}))"
    return Cell(
        frame.words.fill(_UNPRICED, number=missing) if missing else "",
        "strong_line",
        f'IF({unknown}=0,"",{filled(frame.words.say(_UNPRICED), number=unknown)})',
    )
