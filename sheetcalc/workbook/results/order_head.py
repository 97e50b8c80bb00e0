"""What stands above an order's lines: who, when and where; a row for each order of the tab."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct

from sheetcalc.domain.catalogue import Supplier
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.formulas import Key, structured, summed_where
from sheetcalc.workbook.results.earliest import days_left, earliest
from sheetcalc.workbook.results.frame import BLANK, text
from sheetcalc.workbook.results.order_columns import (
    COLUMN,
    LABEL,
    RIGHT_LABEL,
    RIGHT_VALUE,
    VALUE,
)
from sheetcalc.workbook.sheet import Cell


class PhaseSum(Struct, frozen=True):
    """One order of the tab: a phase."""

    phase: str
    number: str
    deliver_to: str


def phases_of(order: Order, inputs: Inputs) -> list[PhaseSum]:
    """List the orders of a tab, one a phase."""
    found: dict[str, PhaseSum] = {}
    for line in order.lines:
        of_phase = PhaseSum(line.phase, line.number, inputs.deliver_to(line.phase))
        found.setdefault(line.phase, of_phase)
    return list(found.values())


def block(order: Order, inputs: Inputs) -> dict[tuple[int, int], Cell]:
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
        (left, LABEL, VALUE),
        (right, RIGHT_LABEL, RIGHT_VALUE),
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


def summary(
    order: Order, tab: Tab, phases: Sequence[PhaseSum], row: int, currency: str
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
    cells = {(row, column): Cell(heads.get(header), "header") for header, column in COLUMN.items()}
    for offset, phase in enumerate(phases, start=1):
        mine = [line for line in order.lines if line.phase == phase.phase]
        key = [(structured(tab.table, "Phase"), phase.phase)]
        amounts = sum((x.amount for x in mine if x.amount is not None), Decimal("0.00"))
        amount = structured(tab.table, "Amount")
        values = {
            "Phase": text(phase.phase, wrap=True),
            "Order number": Cell(phase.number, "result_bold"),
            "Description": text(_one_line(phase.deliver_to) or ""),
            "Amount": Cell(
                amounts,
                "result_money",
                f"ROUND({summed_where(amount, key, plainly=False)},2)",
            ),
            "Needed on site": _earliest(
                "Needed on site", [line.needed_on_site for line in mine], tab, key
            ),
            "Order by": _earliest("Order by", [line.order_by for line in mine], tab, key),
        }
        cells |= {
            (row + offset, column): values.get(header, BLANK) for header, column in COLUMN.items()
        }
    return cells


def _earliest(header: str, days: Sequence[date | None], tab: Tab, keys: Sequence[Key]) -> Cell:
    """Earliest day of the lines of an order, live where all of them have one."""
    known = [day for day in days if day is not None]
    live = earliest(days_left(tab.table, header, keys)) if len(known) == len(days) else None
    return Cell(min(known, default=None), "result_date", live)
