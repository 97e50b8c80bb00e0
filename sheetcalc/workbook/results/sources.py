"""The Sources tab: what several suppliers sell, side by side, and the mix that costs least."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order, Source, Sourcing
from sheetcalc.domain.quantity import PackBy
from sheetcalc.workbook.formulas import (
    number_literal,
    structured,
    summed_where,
    text_literal,
    this_row,
)
from sheetcalc.workbook.results.frame import Frame, quantity, sheet_of, table_of, text
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED, OrderFormulas
from sheetcalc.workbook.results.order_names import NO_SUPPLIER, order_table
from sheetcalc.workbook.results_tabs import SOURCES
from sheetcalc.workbook.sheet import Cell, SheetModel
from sheetcalc.workbook.shown import price_style

KEY: Final = "sources"
_TABLE: Final = SOURCES.table
_LONGEST_FORMULA: Final = 7000
_COLUMN: Final = {column.header: at for at, column in enumerate(SOURCES.columns, start=1)}
_YES: Final = "yes"
_NO: Final = "no"


def sources_sheets(  # noqa: PLR0913 - what is compared, and what it is written with
    sourcing: Sourcing | None,
    orders: Sequence[Order],
    formulas: OrderFormulas,
    inputs: Inputs,
    frame: Frame,
    *,
    kept: bool = False,
) -> tuple[SheetModel, ...]:
    """Make the Sources tab; none where no item has a second supplier, unless it is ``kept``."""
    if sourcing is None or not sourcing.sources:
        nothing = table_of(SOURCES, (), nothing="nothing to choose")
        return (sheet_of(KEY, SOURCES, frame, [nothing], style="order"),) if kept else ()
    cheapest: dict[str, list[Source]] = {}
    for source in sourcing.sources:
        cheapest.setdefault(source.line.item, []).append(source)
    rows = [_row(s, cheapest[s.line.item], formulas, frame) for s in sourcing.sources]
    table = table_of(SOURCES, rows, nothing="nothing to choose")
    below = table.row + len(table.rows) + 2
    loose = _totals(sourcing, orders, inputs, frame, below)
    return (sheet_of(KEY, SOURCES, frame, [table], loose=loose, style="order"),)


def _row(
    source: Source, others: Sequence[Source], formulas: OrderFormulas, frame: Frame
) -> dict[str, Cell]:
    line, price = source.line, source.line.pack_price
    to_be_priced, answers = frame.words.say(TO_BE_PRICED), _answers(frame)
    unpriced = to_be_priced if price is None else None
    packs, pack_price = this_row(_TABLE, "Packs"), this_row(_TABLE, "Pack price")
    amount = f"ROUND({packs}*{pack_price},2)"
    worked = f"IF(ISNUMBER({pack_price}),{amount},{text_literal(to_be_priced)})"
    return {
        "Item": text(line.item, wrap=True),
        "Description": text(line.description, wrap=True),
        "Supplier": text(source.supplier or frame.words.say(NO_SUPPLIER), wrap=True),
        "Supplier code": text(line.supplier_code, wrap=True),
        "Needed": quantity(line.needed, line.unit),
        "Unit": text(line.unit.symbol),
        "Pack": quantity(line.pack, line.unit),
        "Packs": Cell(line.packs, "result_count", _packs(source, formulas)),
        "Pack price": Cell(unpriced or price, price_style(price), formulas.price_of(line)),
        "Cost": Cell(unpriced or line.amount, "result_money", worked),
        "Dearer by": _dearer(source, others, to_be_priced),
        "Ordered there": text(answers[_YES if source.ordered else _NO]),
        "Cheapest mix": text(answers[_YES if source.in_mix else _NO]),
    }


def _answers(frame: Frame) -> dict[str, str]:
    """Yes and no as the office says them."""
    return frame.words.apart(_YES, _NO)


def _packs(source: Source, formulas: OrderFormulas) -> str | None:
    """Packs of all orders, each rounded up by itself; None where they come from a plan."""
    terms = []
    for line in source.orders:
        if line.pack_by is PackBy.PLAN and line.tab != "Tiles":
            return None
        if len(line.parts) != 1 or line.least_packs is not None:
            return None
        need = formulas.need_of(line.parts[0].lines)
        if need is None:
            return None
        pack = formulas.pack_of(line, line.parts[0])
        terms.append(f"ROUNDUP(ROUND(({need})/({pack}),9),0)")
    together = "+".join(terms)
    return together if len(together) <= _LONGEST_FORMULA else None


def _dearer(source: Source, others: Sequence[Source], to_be_priced: str) -> Cell:
    costs = [s.line.amount for s in others if s.line.amount is not None]
    if source.line.amount is None or not costs:
        return Cell(to_be_priced if source.line.amount is None else None, "result_money")
    value = source.line.amount - min(costs)
    if len(costs) < len(others):
        return Cell(value, "result_money")
    mine = f"EXACT({structured(_TABLE, 'Item')},{this_row(_TABLE, 'Item')})"
    least = f"1E9-SUMPRODUCT(MAX({mine}*(1E9-{structured(_TABLE, 'Cost')})))"
    return Cell(value, "result_money", f"ROUND({this_row(_TABLE, 'Cost')}-({least}),2)")


def _totals(
    sourcing: Sourcing, orders: Sequence[Order], inputs: Inputs, frame: Frame, row: int
) -> dict[tuple[int, int], Cell]:
    """Goods and delivery charges, as ordered and in the cheapest mix, and what that saves."""
    goods = "+".join(f"SUM({structured(order_table(o.supplier), 'Amount')})" for o in orders)
    cost = structured(_TABLE, "Cost")
    yes = _answers(frame)[_YES]
    there, mixed = (
        summed_where(cost, [(structured(_TABLE, header), yes)], plainly=False)
        for header in ("Ordered there", "Cheapest mix")
    )
    ordered_live = f"ROUND({goods},2)"
    mix_live = f"ROUND({goods}-{there}+{mixed},2)"
    charged, mix_charged = (
        number_literal(float(x)) for x in (sourcing.ordered_charges, sourcing.mix_charges)
    )
    total = sourcing.ordered + sourcing.ordered_charges
    mix_total = sourcing.mix + sourcing.mix_charges
    currency = inputs.job.currency
    figures = [
        (f"Goods of the job as ordered ({currency})", sourcing.ordered, ordered_live),
        ("Their delivery charges", sourcing.ordered_charges, None),
        ("Goods in the cheapest mix", sourcing.mix, mix_live),
        ("Their delivery charges", sourcing.mix_charges, None),
        (
            f"The cheapest of {sourcing.mixes} mixes saves",
            total - mix_total,
            f"ROUND({ordered_live}+{charged}-{mix_live}-{mix_charged},2)",
        ),
    ]
    label, at = _COLUMN["Description"], _COLUMN["Cost"]
    cells: dict[tuple[int, int], Cell] = {}
    for offset, (words, value, formula) in enumerate(figures):
        cells[row + offset, label] = Cell(words, "total")
        for column in range(label + 1, at):
            cells[row + offset, column] = Cell(None, "total")
        cells[row + offset, at] = Cell(value, "total_money", formula)
    cells[row + len(figures), label] = Cell(
        "Mixes: each set of suppliers, each item from the cheapest of the set; orders below a "
        "minimum are avoided where they can be.",
        "hint",
    )
    return cells
