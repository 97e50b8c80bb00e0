"""Below the priced rows of a quote: from cost over overhead, profit and tax to the total."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

from sheetcalc.domain.quote import Quote
from sheetcalc.domain.run import Run
from sheetcalc.pricing import exact_to_cents
from sheetcalc.workbook.formulas import looked_up, number_literal, structured
from sheetcalc.workbook.results.frame import Frame, column_letter
from sheetcalc.workbook.results.quote_formulas import to_cents
from sheetcalc.workbook.results_tabs import QUOTE
from sheetcalc.workbook.settings import SETTING_BY_KEY
from sheetcalc.workbook.sheet import Cell
from sheetcalc.workbook.text_formulas import filled

_UNPRICED = "INCOMPLETE: lines still to be priced, and not in the total: {number}"

_COLUMN = {column.header: at for at, column in enumerate(QUOTE.columns, start=1)}
_LABEL, _RATE, _AMOUNT = _COLUMN["Materials"], _COLUMN["Cost"], _COLUMN["Price"]


class _Step(Struct, frozen=True):
    """One row: words, a rate where the amount is a share, the amount."""

    label: str
    value: Decimal
    formula: str
    rate: float | None = None
    rate_formula: str | None = None
    bold: bool = False


class Ladder:
    """The rows, from a sheet row downwards.

    Parameters
    ----------
    run, quote
        What was calculated.
    frame
        Shared by the result tabs of the run.
    row
        Sheet row of the first.
    """

    def __init__(self, run: Run, quote: Quote, frame: Frame, row: int) -> None:
        self._run, self._quote, self._frame, self._row = run, quote, frame, row
        self._steps = tuple(self._made())

    @property
    def price_address(self) -> str:
        """Address of the price without tax."""
        return self._address(7)

    @property
    def rows(self) -> int:
        """How many sheet rows it takes."""
        return len(self._steps) + 1

    def cells(self) -> dict[tuple[int, int], Cell]:
        """Words, rates and amounts; below them what is still to be priced."""
        cells: dict[tuple[int, int], Cell] = {}
        for row, step in enumerate(self._steps, start=self._row):
            looks = "sum_bold" if step.bold else "sum"
            for column in range(_LABEL, _AMOUNT):
                cells[row, column] = Cell(None, looks)
            cells[row, _LABEL] = Cell(step.label, looks)
            if step.rate is not None:
                cells[row, _RATE] = Cell(step.rate, "sum_percent", step.rate_formula)
            cells[row, _AMOUNT] = Cell(step.value, f"{looks}_money", step.formula)
        cells[self._row + len(self._steps), _LABEL] = self._completeness()
        return cells

    def _address(self, step: int, column: int = _AMOUNT) -> str:
        return f"${column_letter(column)}${self._row + step}"

    def _made(self) -> Iterator[_Step]:
        summary, job = self._quote.summary, self._run.inputs.job
        table, at = QUOTE.table, self._address
        yield _Step(
            "Materials", summary.materials, f"ROUND(SUM({structured(table, 'Materials')}),2)"
        )
        yield _Step("Labour", summary.labour, f"ROUND(SUM({structured(table, 'Labour')}),2)")
        yield _Step("Delivery charges", summary.deliveries, self._deliveries())
        yield _Step("Cost", summary.cost, f"ROUND(SUM({at(0)}:{at(2)}),2)", bold=True)
        yield self._share("Overhead", "overhead", 4, f"{at(3)}", summary.overhead)
        yield self._share("Profit", "profit", 5, f"({at(3)}+{at(4)})", summary.profit)
        yield self._share(
            "Contingency", "contingency", 6, f"({at(3)}+{at(4)}+{at(5)})", summary.contingency
        )
        yield _Step(
            f"Price without tax ({job.currency})",
            summary.price,
            f"ROUND(SUM({at(3)}:{at(6)}),2)",
            bold=True,
        )
        yield self._share("Tax", "tax", 8, at(7), summary.tax)
        yield _Step(
            f"Total ({job.currency})", summary.total, f"ROUND({at(7)}+{at(8)},2)", bold=True
        )
        yield from self._means()

    def _share(self, label: str, key: str, step: int, of: str, value: Decimal) -> _Step:
        """Make a row whose amount is a share of those above; the share is live from Job."""
        rate = float(getattr(self._run.inputs.job, key))
        rate_at = self._address(step, _RATE)
        return _Step(label, value, to_cents(f"{of}*{rate_at}"), rate, self._setting(key, rate))

    def _setting(self, key: str, rate: float) -> str | None:
        table = self._frame.inputs.get("Job")
        values = table.column("Value") if table else None
        if table is None or values is None:
            return None
        label = SETTING_BY_KEY[key].label
        mine = [
            row.row
            for row in table.raw.rows
            if "Setting" in row.cells
            and str(row.cells["Setting"].value).strip().casefold() == label.casefold()
        ]
        if len(mine) != 1 or table.number(mine[0], "Value") != rate:
            return None
        keys = table.keys(mine[0], ("Setting",))
        return looked_up(keys, values) if keys else None

    def _deliveries(self) -> str:
        """Each supplier's charge for its deliveries."""
        terms = []
        table = self._frame.inputs.get("Suppliers")
        values = table.column("Delivery charge") if table else None
        for order in self._run.orders:
            charges = [d.charge for d in order.deliveries if d.charge is not None]
            supplier = self._run.inputs.catalogue.suppliers.get(order.supplier)
            if not charges or supplier is None:
                continue
            row = supplier.source.row
            alike = len(set(charges)) == 1
            if (
                table is not None
                and values is not None
                and alike
                and table.number(row, "Delivery charge") == float(charges[0])
            ):
                keys = table.keys(row, ("Supplier",))
                terms.append(f"{len(charges)}*{looked_up(keys, values)}")
            else:
                terms.append(number_literal(float(sum(charges))))
        return f"ROUND({'+'.join(terms)},2)" if terms else "0"

    def _means(self) -> Iterator[_Step]:
        """Price of a room and of an area, over the whole job."""
        rooms = sum(kind.count for kind in self._quote.types if not kind.is_whole_job)
        unit = self._frame.units.area
        area = unit.from_si(sum(kind.tiled_m2 for kind in self._quote.types))
        price = Fraction(self._quote.summary.price)
        whole = self.price_address
        if rooms:
            counted = f"SUM({structured(QUOTE.table, 'Count')})"
            yield _Step(
                "Mean price of a room, without tax",
                exact_to_cents(price / rooms),
                to_cents(f"{whole}/{counted}"),
            )
        if area:
            tiled = f"SUM({structured(QUOTE.table, f'Area ({unit.symbol})')})"
            yield _Step(
                f"Mean price per {unit.symbol} tiled, without tax",
                exact_to_cents(price / Fraction(area)),
                to_cents(f"{whole}/{tiled}"),
            )

    def _completeness(self) -> Cell:
        """Words below the total while something has no price."""
        unknown = f"SUM({structured(QUOTE.table, 'To be priced')})"
        words = self._frame.words
        missing = sum(price.unpriced for price in self._quote.prices)
        return Cell(
            words.fill(_UNPRICED, number=missing) if missing else "",
            "strong_line",
            f'IF({unknown}=0,"",{filled(words.say(_UNPRICED), number=unknown)})',
        )
