"""Live formulas of the quote: cost of each line, hours, shares as differences of running totals.

A formula is only written where it gives the very value of the calculation: where a row can't be
told by its keys, or an input is not a plain number, the value stands alone.  Amounts are rounded
to six decimals before they are rounded to the cent, as ``pricing.exact_to_cents`` does.
"""

from collections import Counter, defaultdict
from collections.abc import Sequence
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.quote import Material, Quote, RoomPrice
from sheetcalc.domain.run import Run
from sheetcalc.workbook.formulas import (
    InputTable,
    looked_up,
    number_literal,
    share_with_number,
    structured,
    sum_product,
    this_row,
)
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED, OrderFormulas
from sheetcalc.workbook.results.order_names import order_table
from sheetcalc.workbook.results_tabs import (
    QUOTE,
    QUOTE_LABOUR,
    QUOTE_MATERIALS,
    TAKEOFF,
)
from sheetcalc.workbook.text_formulas import counted_of

_COSTS: Final = QUOTE_MATERIALS.table
_LABOUR_KEYS: Final = ("Task", "Basis", "Finish", "Surface")


def to_cents(formula: str) -> str:
    """Round to the cent, alike in binary floats and in decimals."""
    return f"ROUND(ROUND({formula},6),2)"


def difference(after: str, before: str) -> str:
    """Difference of two running totals, each rounded to the cent."""
    return f"ROUND({to_cents(after)}-{to_cents(before)},2)"


def _cost_of_line(to_be_priced: str) -> str:
    """Gross of a Takeoff row at the item's cost per unit; words while that has no price."""
    found = (
        f"EXACT({structured(_COSTS, 'Item')},{this_row(TAKEOFF.table, 'Item')})"
        f"*EXACT({structured(_COSTS, 'Unit')},{this_row(TAKEOFF.table, 'Unit')})"
    )
    rate = structured(_COSTS, "Cost per unit")
    return (
        f"IF(SUMPRODUCT({found}*ISTEXT({rate}))>0,{to_be_priced},"
        f"{this_row(TAKEOFF.table, 'Gross')}*SUMPRODUCT({found},{rate}))"
    )


class LinePrices(Struct, frozen=True):
    """What the Takeoff says of money, line by line.

    Attributes
    ----------
    types
        Number of each line's type of room; None for the job's own lines that nobody pays for.
    materials
        Place of each line's item in ``rates`` and ``formulas``; None where nothing is bought.
    rates
        Cost of one unit of each item; None where it is yet to be priced.
    formulas
        Live cost of a line of each item; None where its rows can't be told.
    """

    types: Sequence[int | None]
    materials: Sequence[int | None]
    rates: Sequence[float | None]
    formulas: Sequence[str | None]

    def of(self, part: range) -> "LinePrices":
        """Give what some of the lines cost."""
        some = slice(part.start, part.stop)
        return replace(self, types=self.types[some], materials=self.materials[some])


class QuoteFormulas:
    """Formulas of one run's quote."""

    def __init__(self, run: Run, quote: Quote, frame: Frame, orders: OrderFormulas) -> None:
        self._quote = quote
        self._frame = frame
        self._orders = orders
        self._to_be_priced = orders.to_be_priced
        self._cost_of_line = _cost_of_line(orders.to_be_priced)
        self._ways: dict[str, list[Material]] = defaultdict(list)
        for material in quote.materials:
            self._ways[material.item].append(material)
        bought: Counter[tuple[str, str]] = Counter(
            (line.item, line.unit.symbol) for line in run.lines if line.item
        )
        names = Counter((m.item.casefold(), m.unit.symbol) for m in quote.materials)
        self._live = {
            n
            for n, m in enumerate(quote.materials)
            if bought[m.item, m.unit.symbol] == len(m.lines)
            and names[m.item.casefold(), m.unit.symbol] == 1
            and len({way.tab for way in self._ways[m.item]}) == 1
        }
        self._tasks = Counter(_task_key(task) for task in run.inputs.catalogue.labour)

    # --- the Takeoff ------------------------------------------------------------------------

    def line_prices(self) -> LinePrices:
        """Give type and cost of each row of the Takeoff: its gross at the item's cost per unit."""
        quote, live = self._quote, self._live
        shown = {kind.number for kind in quote.types}
        rates = [material.rate for material in quote.materials]
        return LinePrices(
            types=[kind if kind in shown else None for kind in quote.type_of_line.values()],
            materials=[quote.material_of_line.get(at) for at in quote.type_of_line],
            rates=[None if rate is None else float(rate) for rate in rates],
            formulas=[self._cost_of_line if n in live else None for n in range(len(rates))],
        )

    # --- Quote materials --------------------------------------------------------------------

    def gross(self, n: int) -> str | None:
        """Gross quantity of the whole job, from the Takeoff."""
        if n not in self._live:
            return None
        item, unit = this_row(_COSTS, "Item"), this_row(_COSTS, "Unit")
        return sum_product(
            structured(TAKEOFF.table, "Gross"),
            (structured(TAKEOFF.table, "Item"), item),
            (structured(TAKEOFF.table, "Unit"), unit),
        )

    def packs(self, n: int) -> str | None:
        """Packs on the item's order tabs."""
        if n not in self._live:
            return None
        item = this_row(_COSTS, "Item")
        return "+".join(
            sum_product(structured(table, "Packs"), (structured(table, "Item"), item))
            for table in self._tables(n)
        )

    def amount(self, n: int) -> str | None:
        """Amount on the item's order tabs; words while a line has no price."""
        if n not in self._live:
            return None
        item = this_row(_COSTS, "Item")
        unknown, known = [], []
        for table in self._tables(n):
            items, amounts = structured(table, "Item"), structured(table, "Amount")
            unknown.append(f"SUMPRODUCT(EXACT({items},{item})*ISTEXT({amounts}))")
            known.append(sum_product(amounts, (items, item)))
        return f"IF({'+'.join(unknown)}>0,{self._to_be_priced},ROUND({'+'.join(known)},2))"

    def _tables(self, n: int) -> list[str]:
        return [order_table(supplier) for supplier in self._quote.materials[n].suppliers]

    def rate(self, n: int) -> str | None:
        """Amount for one unit: all of it is spent on the item's ways of counting, by packs."""
        if n not in self._live:
            return None
        material = self._quote.materials[n]
        amount, gross = this_row(_COSTS, "Amount"), this_row(_COSTS, "Gross")
        ways = self._ways[material.item]
        if len(ways) == 1:
            worked = f"IF({gross}=0,0,{amount}/{gross})"
        else:
            terms = []
            for way in ways:
                found = (
                    f"EXACT({structured(_COSTS, 'Item')},{this_row(_COSTS, 'Item')})"
                    f'*EXACT({structured(_COSTS, "Unit")},"{way.unit.symbol}")'
                )
                gross_of_way = f"SUMPRODUCT({found},{structured(_COSTS, 'Gross')})"
                terms.append(f"{gross_of_way}/({self._pack(way)})")
            in_packs = "+".join(terms)
            worked = f"IF({in_packs}=0,0,{amount}/({in_packs})/({self._pack(material)}))"
        return f"IF(ISNUMBER({amount}),{worked},{self._to_be_priced})"

    def _pack(self, material: Material) -> str:
        for line in material.orders:
            for part in line.parts:
                if (part.unit, part.pack_by) == (material.unit, material.pack_by):
                    return self._orders.pack_of(line, part)
        return number_literal(material.pack)

    # --- Quote labour -----------------------------------------------------------------------

    def _task_row(
        self, task: LabourTask, header: str
    ) -> tuple[InputTable, tuple[tuple[str, str | float], ...], str] | None:
        table = self._frame.inputs.get("Labour")
        values = table.column(header) if table else None
        if table is None or values is None or self._tasks[_task_key(task)] > 1:
            return None
        keys = table.keys(task.source.row, _LABOUR_KEYS)
        return (table, keys, values) if keys else None

    def hours_per_unit(self, task: LabourTask) -> str | None:
        """Look the task's hours up in Labour."""
        found = self._task_row(task, "Hours per unit")
        if found is None:
            return None
        table, keys, values = found
        same = table.number(task.source.row, "Hours per unit") == task.hours_per_unit
        return looked_up(keys, values) if same else None

    def hourly_rate(self, task: LabourTask) -> str | None:
        """Look the task's rate up in Labour; words while the cell is empty."""
        found = self._task_row(task, "Hourly rate")
        if found is None:
            return None
        table, keys, values = found
        typed = table.number(task.source.row, "Hourly rate")
        if task.hourly_rate is not None and typed != float(task.hourly_rate):
            return None
        known = share_with_number(keys, values)
        return f"IF({known}<1,{self._to_be_priced},{looked_up(keys, values)})"

    @staticmethod
    def hours() -> str:
        """Quantity times hours per unit."""
        table = QUOTE_LABOUR.table
        return f"{this_row(table, 'Quantity')}*{this_row(table, 'Hours per unit')}"

    def labour_amount(self) -> str:
        """Hours at their rate."""
        hours, rate = (this_row(QUOTE_LABOUR.table, h) for h in ("Hours", "Hourly rate"))
        return f"IF(ISNUMBER({rate}),{to_cents(f'{hours}*{rate}')},{self._to_be_priced})"

    # --- Quote ------------------------------------------------------------------------------

    @staticmethod
    def type_materials() -> str:
        """Share of a type in the orders: difference of running totals of the Takeoff's costs."""
        cost, kind = structured(TAKEOFF.table, "Cost"), structured(TAKEOFF.table, "Type")
        number = this_row(QUOTE.table, "No.")
        return difference(
            f'SUMIFS({cost},{kind},"<="&{number})', f'SUMIFS({cost},{kind},"<"&{number})'
        )

    @staticmethod
    def type_labour() -> str:
        """Sum of a type's tasks."""
        amount = structured(QUOTE_LABOUR.table, "Amount")
        kind = structured(QUOTE_LABOUR.table, "Type")
        return f"ROUND(SUMIFS({amount},{kind},{this_row(QUOTE.table, 'No.')}),2)"

    @staticmethod
    def type_cost() -> str:
        """Materials and labour."""
        table = QUOTE.table
        return f"ROUND({this_row(table, 'Materials')}+{this_row(table, 'Labour')},2)"

    @staticmethod
    def price_per(table: str, header: str) -> str:
        """Price of one: of a room, of a unit of area."""
        return to_cents(f"{this_row(table, 'Price')}/{this_row(table, header)}")

    @staticmethod
    def type_price(price: str, last: int) -> str:
        """Share of a type in the price without tax, by cost.

        Parameters
        ----------
        price
            Address of that price.
        last
            Number of the last type, which takes the price where there is no cost to share it by.
        """
        number, cost = this_row(QUOTE.table, "No."), structured(QUOTE.table, "Cost")
        numbers = structured(QUOTE.table, "No.")
        whole = f"SUM({cost})"
        after, before = (
            f"{price}*SUMPRODUCT(({numbers}{sign}{number})*{cost})/{whole}" for sign in ("<=", "<")
        )
        return f"IF({whole}=0,IF({number}={last},{price},0),{difference(after, before)})"

    def type_unpriced(self) -> str:
        """Lines of a type without a price."""
        number, word = this_row(QUOTE.table, "No."), self._frame.words.say(TO_BE_PRICED)
        terms = [
            counted_of(structured(table, "Type"), number, structured(table, header), word)
            for table, header in ((TAKEOFF.table, "Cost"), (QUOTE_LABOUR.table, "Amount"))
        ]
        return "+".join(terms)

    # --- Quote by room ----------------------------------------------------------------------

    @staticmethod
    def of_room(room: RoomPrice, header: str, table: str) -> str:
        """Share of a row of Rooms in its type, by count."""
        total = (
            f"SUMIFS({structured(QUOTE.table, header)},{structured(QUOTE.table, 'No.')},"
            f"{this_row(table, 'Type')})"
        )
        if room.count == room.type.count:
            return f"ROUND({total},2)"
        return difference(
            f"{total}*{room.after}/{room.type.count}", f"{total}*{room.before}/{room.type.count}"
        )


def _task_key(task: object) -> tuple[object, ...]:
    return tuple(getattr(task, name) for name in ("task", "basis", "finish", "surface"))
