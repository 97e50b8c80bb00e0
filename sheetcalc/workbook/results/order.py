"""Order tabs, one a supplier: who, when and where above, the lines, the total below."""

import zlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Final

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.pricing import tax_on
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.formulas import (
    number_literal,
    structured,
    summed_where,
    text_literal,
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
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED, OrderFormulas
from sheetcalc.workbook.results_tabs import ORDER
from sheetcalc.workbook.sheet import Cell, SheetModel

NO_SUPPLIER: Final = "no supplier"
_FIRST_ROW: Final = 5
_COLUMN: Final = {column.header: at for at, column in enumerate(ORDER.columns, start=1)}
_LABEL, _VALUE = _COLUMN["Phase"], _COLUMN["Order number"]
_RIGHT_LABEL, _RIGHT_VALUE = _COLUMN["Description"], _COLUMN["Needed"]
_LETTERS_OF_A_NAME: Final = 20


@dataclass(frozen=True, slots=True)
class _PhaseSum:
    """One order of the tab: a phase."""

    phase: str
    number: str
    needed: date | None
    order_by: date | None
    deliver_to: str


def key_of(supplier: str) -> str:
    """Key of a supplier's tab, by which a later run finds it again."""
    return f"order:{supplier}"


def order_sheets(
    orders: Sequence[Order], lines: Sequence[QuantityLine], inputs: Inputs, frame: Frame
) -> tuple[SheetModel, ...]:
    """Order tabs in the order of the orders.

    Parameters
    ----------
    orders
        One a supplier.
    lines
        Quantity lines of the run, in the order of the Takeoff tab.
    inputs
        Job, suppliers and phases, for what stands above the table.
    frame
        Shared by the result tabs of the run.
    """
    formulas = OrderFormulas(orders, lines, inputs, frame)
    return tuple(
        _sheet(order, replace(ORDER, table=_table_name(order.supplier)), formulas, inputs, frame)
        for order in orders
    )


def _table_name(supplier: str) -> str:
    """Name of a supplier's table: of its name only, so that a person's formulas keep their aim.

    The checksum parts names of the same letters, and those without any that a table may have.
    """
    if not supplier:
        return "OutOrderNoSupplier"
    plain = "".join(c for c in supplier if c.isascii() and c.isalnum())[:_LETTERS_OF_A_NAME]
    checksum = f"{zlib.crc32(supplier.encode()):08X}"
    return f"OutOrder{plain}{checksum[-4:] if plain else checksum}"


def _sheet(
    order: Order, tab: Tab, formulas: OrderFormulas, inputs: Inputs, frame: Frame
) -> SheetModel:
    phases = _phases(order, inputs)
    block = _block(order, inputs)
    summary_row = _FIRST_ROW + max(row for row, _ in block) + 2
    header_row = summary_row + len(phases) + 2
    units = frame.units
    table = table_of(
        tab,
        [_row(line, tab, formulas, frame) for line in order.lines],
        nothing="nothing to order",
        row=header_row,
        units={
            "Weight": units.mass,
        },
    )
    loose = {(_FIRST_ROW + row, column): cell for (row, column), cell in block.items()}
    loose |= _summary(order, tab, phases, summary_row, inputs.job.currency)
    loose |= _totals(order, tab, header_row + len(order.lines) + 2, inputs, frame)
    name = f"Order - {order.supplier or NO_SUPPLIER}"
    sheet = sheet_of(
        key_of(order.supplier), tab, frame, [table], name=name, loose=loose, style="order"
    )
    return replace(sheet, freeze=None)  # the rows above the table would fill a small screen


def _phases(order: Order, inputs: Inputs) -> list[_PhaseSum]:
    found: dict[str, _PhaseSum] = {}
    for line in order.lines:
        phase = inputs.phases.get(line.phase)
        earliest = [
            x.order_by for x in order.lines if x.phase == line.phase and x.order_by is not None
        ]
        found.setdefault(
            line.phase,
            _PhaseSum(
                phase=line.phase,
                number=line.number,
                needed=line.needed_on_site,
                order_by=min(earliest, default=None),
                deliver_to=(phase.deliver_to if phase else "") or inputs.job.site_address,
            ),
        )
    return list(found.values())


def _block(order: Order, inputs: Inputs) -> dict[tuple[int, int], Cell]:
    """Who orders from whom: labels and values, rows counted from 0."""
    job = inputs.job
    supplier = inputs.catalogue.suppliers.get(order.supplier)
    left = [
        ("Supplier", order.supplier or "(no supplier in the catalogue)"),
        *_about(supplier),
    ]
    right: list[tuple[str, str | date | None]] = [
        ("Buyer", job.buyer),
        ("Job", job.name),
        ("Site", job.site_address),
        ("Date", job.quote_date),
        ("Currency", job.currency),
    ]
    cells: dict[tuple[int, int], Cell] = {}
    for pairs, label_at, value_at in (
        (left, _LABEL, _VALUE),
        (right, _RIGHT_LABEL, _RIGHT_VALUE),
    ):
        for row, (label, value) in enumerate(pairs):
            cells[row, label_at] = Cell(label, "hint")
            looks = "strong_line" if row == 0 else "text"
            shown_value = value.isoformat() if isinstance(value, date) else _one_line(value)
            cells[row, value_at] = Cell(shown_value, looks)
    return cells


def _about(supplier: Supplier | None) -> list[tuple[str, str]]:
    if supplier is None:
        return []
    return [
        ("Address", supplier.address),
        ("E-mail", supplier.email),
        ("Account", supplier.account),
        ("Terms", supplier.terms),
    ]


def _one_line(value: str | None) -> str | None:
    return ", ".join(part.strip() for part in value.splitlines() if part.strip()) if value else None


def _row(line: OrderLine, tab: Tab, formulas: OrderFormulas, frame: Frame) -> dict[str, Cell]:
    live = formulas.of(line, tab.table)
    link = frame.link(line.tab, line.source.row)
    weight = None if line.weight_kg is None else frame.units.mass.from_si(line.weight_kg)
    unpriced = TO_BE_PRICED if line.pack_price is None else None
    return {
        "Phase": text(line.phase),
        "Order number": text(line.number),
        "Line": count(line.line),
        "Item": Cell(line.item, "result_link" if link else "result", link=link),
        "Supplier code": text(line.supplier_code),
        "Description": text(line.description, wrap=True),
        "Needed": quantity(line.needed, line.unit, live.needed),
        "Unit": text(line.unit.symbol),
        "Unit code": text(line.unit.code),
        "Pack": quantity(line.pack, line.unit, live.pack),
        "Packs": Cell(line.packs, "result_count", live.packs),
        "Package code": text(line.package_code),
        "Pack price": Cell(unpriced or line.pack_price, "result_money", live.price),
        "Amount": Cell(unpriced or line.amount, "result_money", live.amount),
        "Weight": BLANK if weight is None else Cell(weight, "result_number", live.weight),
        "Needed on site": Cell(line.needed_on_site, "result_date"),
        "Order by": Cell(line.order_by, "result_date"),
    }


def _summary(
    order: Order, tab: Tab, phases: Sequence[_PhaseSum], row: int, currency: str
) -> dict[tuple[int, int], Cell]:
    """One row an order of the tab: number, where to, when, how much."""
    heads = {
        "Phase": "Phase",
        "Order number": "Order number",
        "Description": "Deliver to",
        "Amount": f"Amount ({currency})",
        "Needed on site": "Needed on site",
        "Order by": "Order by",
    }
    cells = {(row, column): Cell(heads.get(header), "header") for header, column in _COLUMN.items()}
    for offset, phase in enumerate(phases, start=1):
        mine = [line for line in order.lines if line.phase == phase.phase]
        key = [(structured(tab.table, "Phase"), phase.phase)]
        amounts = sum((x.amount for x in mine if x.amount is not None), Decimal("0.00"))
        amount = structured(tab.table, "Amount")
        values = {
            "Phase": text(phase.phase),
            "Order number": Cell(phase.number, "result_bold"),
            "Description": text(_one_line(phase.deliver_to) or ""),
            "Amount": Cell(
                amounts,
                "result_money",
                f"ROUND({summed_where(amount, key, plainly=False)},2)",
            ),
            "Needed on site": Cell(phase.needed, "result_date"),
            "Order by": Cell(phase.order_by, "result_date"),
        }
        cells |= {
            (row + offset, column): values.get(header, BLANK) for header, column in _COLUMN.items()
        }
    return cells


def _totals(
    order: Order, tab: Tab, row: int, inputs: Inputs, frame: Frame
) -> dict[tuple[int, int], Cell]:
    """Rows below the table: total, and tax where there is any."""
    currency = inputs.job.currency
    amounts = structured(tab.table, "Amount")
    at, label = _COLUMN["Amount"], _COLUMN["Description"]
    supplier = inputs.catalogue.suppliers.get(order.supplier)
    rate = supplier.tax if supplier and supplier.tax is not None else inputs.job.tax
    total_words = f"Total without tax ({currency})" if rate else f"Total ({currency})"
    cells = {
        **_band(row, label, at, total_words),
        (row, at): Cell(order.total, "total_money", f"ROUND(SUM({amounts}),2)"),
        (row + (3 if rate else 1), label): _completeness(order, amounts),
    }
    weights = [line.weight_kg for line in order.lines if line.weight_kg is not None]
    if weights:
        unit = frame.units.mass
        weight = structured(tab.table, f"Weight ({unit.symbol})")
        value = unit.from_si(sum(weights))
        cells[row, _COLUMN["Weight"]] = Cell(value, "total_number", f"SUM({weight})")
    if rate:
        tax = tax_on(order.total, rate)
        share = number_literal(rate)
        subtotal = f"ROUND(SUM({amounts}),2)"
        live_tax = f"ROUND({subtotal}*{share},2)"
        cells |= _band(row + 1, label, at, f"Tax {rate * 100:g} %")
        cells[row + 1, at] = Cell(tax, "total_money", live_tax)
        cells |= _band(row + 2, label, at, f"Total ({currency})")
        cells[row + 2, at] = Cell(
            order.total + tax, "total_money", f"ROUND({subtotal}+{live_tax},2)"
        )
    return cells


def _band(row: int, first: int, after: int, words: str) -> dict[tuple[int, int], Cell]:
    """Words of a total, and the empty cells between them and its amount."""
    empty = {(row, column): Cell(None, "total") for column in range(first + 1, after)}
    return {(row, first): Cell(words, "total"), **empty}


def _completeness(order: Order, amounts: str) -> Cell:
    """Words below the total while a line has no price."""
    missing = sum(line.amount is None for line in order.lines)
    unknown = f"(ROWS({amounts})-COUNT({amounts}))"
    words = text_literal("INCOMPLETE: lines without a price: ")
    return Cell(
        f"INCOMPLETE: lines without a price: {missing}" if missing else "",
        "strong_line",
        f'IF({unknown}=0,"",{words}&{unknown})',
    )
