"""The Deliveries tab: what comes when, over all suppliers, with weights, pallets and charges."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Final

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Delivery, Order
from sheetcalc.rules.packages import package_code
from sheetcalc.workbook.formulas import (
    Key,
    looked_up,
    matches,
    number_literal,
    structured,
    summed_where,
    text_literal,
    this_row,
)
from sheetcalc.workbook.results.earliest import days_left, earliest
from sheetcalc.workbook.results.frame import BLANK, Frame, count, sheet_of, table_of, text
from sheetcalc.workbook.results.order_names import NO_SUPPLIER, order_table
from sheetcalc.workbook.results.status_words import says
from sheetcalc.workbook.results_tabs import CALL_OFFS, DELIVERIES
from sheetcalc.workbook.sheet import Cell, ConditionalStyle, SheetModel
from sheetcalc.workbook.text_formulas import begins

KEY: Final = "deliveries"
OK: Final = "OK"
LATE: Final = "LATE: to be ordered before the quote date"
BELOW: Final = "BELOW THE MINIMUM ORDER"
UNWEIGHED: Final = "{state}; weights not known: {number} of {lines}"


def deliveries_sheet(orders: Sequence[Order], inputs: Inputs, frame: Frame) -> SheetModel:
    """Make the Deliveries tab, in the order of the days."""
    made = [(order, delivery) for order in orders for delivery in order.deliveries]
    made.sort(key=lambda pair: pair[1].needed_on_site or date.max)
    rows = [_Row(order, delivery, inputs, frame).cells() for order, delivery in made]
    table = table_of(
        DELIVERIES, rows, nothing="nothing to deliver", units={"Weight": frame.units.mass}
    )
    at = len(DELIVERIES.columns)
    letter = chr(ord("A") + at - 1)
    first, last = table.row + 1, table.row + len(table.rows)
    cells, cell = f"{letter}{first}:{letter}{last}", f"${letter}{first}"
    states = frame.words.apart(OK, LATE, BELOW)
    status = (
        ConditionalStyle(cells, begins(states[OK], cell), "ok"),
        ConditionalStyle(cells, says(states[LATE], cell), "warning"),
        ConditionalStyle(cells, begins(states[BELOW][:5], cell), "warning"),  # OK came first
    )
    return sheet_of(KEY, DELIVERIES, frame, [table], conditional=status, style="order")


class _Row:
    """One delivery as cells."""

    def __init__(self, order: Order, delivery: Delivery, inputs: Inputs, frame: Frame) -> None:
        self._order, self._delivery = order, delivery
        self._inputs, self._frame = inputs, frame
        self._states = frame.words.apart(OK, LATE, BELOW)
        self._table = order_table(order.supplier)
        self._supplier = inputs.catalogue.suppliers.get(order.supplier)
        self._called_off = any(
            call.delivery == delivery.number for line in order.lines for call in line.call_offs
        )
        self._named_supplier = order.supplier or frame.words.say(NO_SUPPLIER)
        self._plain = [line for line in order.lines if line.delivery == delivery.number]

    def cells(self) -> dict[str, Cell]:
        delivery, units = self._delivery, self._frame.units
        weight = None if delivery.weight_kg is None else units.mass.from_si(delivery.weight_kg)
        on_site = Cell(delivery.needed_on_site, "result_date", self._earliest("Needed on site"))
        order_by = Cell(delivery.order_by, "result_date", self._order_by())
        minimum, charge = self._known("Minimum order"), self._known("Delivery charge")
        return {
            "Needed on site": on_site,
            "Order by": order_by,
            "Supplier": text(self._named_supplier, wrap=True),
            "Delivery": count(delivery.number),
            "Phase": text(delivery.phase, wrap=True),
            "Order number": text(delivery.order_number, wrap=True),
            "Deliver to": text(delivery.deliver_to, wrap=True),
            "Lines": count(delivery.lines),
            "Weight": BLANK if weight is None else Cell(weight, "result_number", self._weight()),
            "Pallets": BLANK
            if delivery.pallets is None
            else Cell(delivery.pallets, "result_count", self._pallets()),
            "Package code": text(package_code("pallet") if delivery.pallets else ""),
            "Order amount": Cell(self._amount(), "result_money", self._live_amount()),
            "Minimum order": minimum,
            "Delivery charge": charge,
            "State": Cell(self._state(), "result_wrapped", self._live_state(minimum)),
        }

    # --- weight ---------------------------------------------------------------------------------

    def _weight(self) -> str:
        header = f"Weight ({self._frame.units.mass.symbol})"
        terms = []
        if any(line.weight_kg is not None for line in self._plain):
            terms.append(
                summed_where(structured(self._table, header), [self._mine()], plainly=False)
            )
        if self._called_off:
            keys = self._calls()
            terms.append(summed_where(structured(CALL_OFFS.table, header), keys, plainly=False))
        return "+".join(terms) or "0"

    def _mine(self) -> Key:
        return structured(self._table, "Delivery"), self._delivery.number

    def _calls(self) -> list[Key]:
        return [
            (structured(CALL_OFFS.table, "Supplier"), self._named_supplier),
            (structured(CALL_OFFS.table, "Delivery"), self._delivery.number),
        ]

    def _pallets(self) -> str:
        load = self._frame.units.mass.from_si(self._inputs.job.pallet_mass_kg)
        weight = this_row(DELIVERIES.table, f"Weight ({self._frame.units.mass.symbol})")
        return f"ROUNDUP(ROUND({weight}/{number_literal(load)},9),0)"

    # --- dates ----------------------------------------------------------------------------------

    def _earliest(self, header: str) -> str | None:
        """Earliest of the days of this delivery's lines; None where one has no day."""
        terms = []
        if self._plain:
            if any(line.needed_on_site is None for line in self._plain):
                return None
            terms.append(days_left(self._table, header, [self._mine()]))
        if self._called_off:
            if self._delivery.needed_on_site is None:
                return None
            terms.append(days_left(CALL_OFFS.table, header, self._calls()))
        return earliest(*terms) if terms else None

    def _order_by(self) -> str | None:
        if not self._plain or self._called_off:
            return None
        if any(line.order_by is None for line in self._plain):
            return None
        return earliest(days_left(self._table, "Order by", [self._mine()]))

    # --- money ----------------------------------------------------------------------------------

    def _amount(self) -> Decimal:
        lines = [x for x in self._order.lines if x.number == self._delivery.order_number]
        return sum((x.amount for x in lines if x.amount is not None), Decimal("0.00"))

    def _live_amount(self) -> str:
        key = (structured(self._table, "Order number"), self._delivery.order_number)
        amounts = structured(self._table, "Amount")
        return f"ROUND({summed_where(amounts, [key], plainly=False)},2)"

    def _known(self, header: str) -> Cell:
        """Look an amount of the supplier's row up."""
        supplier = self._supplier
        if supplier is None:
            return BLANK
        value = supplier.minimum_order if header == "Minimum order" else supplier.delivery_charge
        if value is None:
            return BLANK
        table = self._frame.inputs.get("Suppliers")
        values = table.column(header) if table else None
        keys = table.keys(supplier.source.row, ("Supplier",)) if table else ()
        typed = table.number(supplier.source.row, header) if table else None
        live = looked_up(keys, values) if values and keys and typed == float(value) else None
        return Cell(value, "result_money", live)

    # --- state ----------------------------------------------------------------------------------

    def _unpriced(self) -> bool:
        lines = [x for x in self._order.lines if x.number == self._delivery.order_number]
        return any(line.amount is None for line in lines)

    def _live_unpriced(self) -> str:
        """Count the order's lines without a price: with one, nobody knows what it comes to."""
        order = matches([(structured(self._table, "Order number"), self._delivery.order_number)])
        return f"SUMPRODUCT({order}*ISTEXT({structured(self._table, 'Amount')}))"

    def _state(self) -> str:
        today, delivery = self._inputs.job.quote_date, self._delivery
        minimum = self._supplier.minimum_order if self._supplier else None
        if today is not None and delivery.order_by is not None and delivery.order_by < today:
            return self._states[LATE]
        if minimum is not None and self._amount() < minimum and not self._unpriced():
            return self._states[BELOW]
        return self._settled()

    def _settled(self) -> str:
        delivery, settled = self._delivery, self._states[OK]
        if not delivery.unweighed:
            return settled
        return self._frame.words.fill(
            UNWEIGHED, state=settled, number=delivery.unweighed, lines=delivery.lines
        )

    def _live_state(self, minimum: Cell) -> str:
        table, today = DELIVERIES.table, self._inputs.job.quote_date
        formula = text_literal(self._settled())
        if minimum.value is not None:
            amount, least = this_row(table, "Order amount"), this_row(table, "Minimum order")
            below = f"AND({amount}<{least},{self._live_unpriced()}=0)"
            formula = f"IF({below},{text_literal(self._states[BELOW])},{formula})"
        if today is not None and self._delivery.order_by is not None:
            day = f"DATE({today.year},{today.month},{today.day})"
            late = text_literal(self._states[LATE])
            formula = f"IF({this_row(table, 'Order by')}<{day},{late},{formula})"
        return formula
