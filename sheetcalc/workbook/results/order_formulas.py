"""Live formulas of an order's line: need from the takeoff, packs, price and amount by key."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.catalogue import Buyable, PricePer, Tile
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import PIECE, Unit
from sheetcalc.domain.order import NeedPart, Order, OrderLine
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.pricing import box_area
from sheetcalc.workbook.formulas import (
    InputTable,
    Key,
    is_plain_criterion,
    looked_up,
    number_literal,
    share_with_number,
    structured,
    summed_where,
    text_literal,
    this_row,
)
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results_tabs import TAKEOFF

TO_BE_PRICED: Final = "to be priced"
_SAME: Final = 1e-9
_MANY: Final = 2_000_000
"""Comparisons of exact text on one sheet that stay quick."""

_PACK_COLUMN: Final = {
    PackBy.PIECES_PER_BOX: "Pieces per box",
    PackBy.YIELD: "Yield",
    PackBy.COVERAGE: "Coverage",
    PackBy.PACK_SIZE: "Pack size",
    PackBy.LENGTH: "Length",
}
_PRICE_COLUMN: Final = {"Bags and pails": "Pack price", "Sundries": "Pack price"}
_WEIGHT_COLUMN: Final = {
    "Tiles": "Box weight",
    "Bags and pails": "Pack weight",
    "Rolls and sheets": "Weight",
    "Sundries": "Pack weight",
}


class LiveLine(Struct, frozen=True):
    """Formulas of one row; None where the cell is a value."""

    needed: str | None
    pack: str | None
    packs: str | None
    price: str | None
    amount: str
    weight: str | None


class OrderFormulas:
    """Formulas of all orders of a run.

    A formula is only written where it gives the very value of the calculation: where an input
    is text with a unit (``12 L``), or a row can't be told by its keys, the value stands alone.

    Attributes
    ----------
    to_be_priced
        Literal of what stands where there is no price.
    """

    def __init__(
        self,
        orders: Sequence[Order],
        lines: Sequence[QuantityLine],
        inputs: Inputs,
        frame: Frame,
    ) -> None:
        self._inputs = inputs
        self._frame = frame
        self.to_be_priced = text_literal(frame.words.say(TO_BE_PRICED))
        self._lines = lines
        self._at: dict[tuple[str, str], set[int]] = defaultdict(set)
        self._of_item: dict[str, set[int]] = defaultdict(set)
        for at, line in enumerate(lines):
            self._at[line.item, line.phase].add(at)
            self._of_item[line.item].add(at)
        self._one_phase = len({line.phase for line in lines}) <= 1
        alike = Counter(name.casefold() for name in {line.item for line in lines})
        phases = Counter(name.casefold() for name in {line.phase for line in lines})
        keys = Counter(name.casefold() for name in {line.line for line in lines})
        only_once = all(n == 1 for names in (alike, phases, keys) for n in names.values())
        rows = sum(len(order.lines) for order in orders)
        self._plainly = only_once and rows * len(lines) > _MANY
        self._rows = rows
        self._counted: dict[str, Counter[str]] = {}

    def of(self, line: OrderLine, table: str) -> LiveLine:
        """Formulas of one order line in a table of that name."""
        needed, pack = self._needed_and_pack(line)
        planned = line.pack_by is PackBy.PLAN and needed is None
        quotient = f"{this_row(table, 'Needed')}/{this_row(table, 'Pack')}"
        packs = None if planned else self._least(line, f"ROUNDUP(ROUND({quotient},9),0)")
        price = this_row(table, "Pack price")
        amount = f"ROUND({this_row(table, 'Packs')}*{price},2)"
        return LiveLine(
            needed=needed,
            pack=pack,
            packs=packs,
            price=self.price_of(line),
            amount=f"IF(ISNUMBER({price}),{amount},{self.to_be_priced})",
            weight=self.weight_of(line, this_row(table, "Packs")),
        )

    def _least(self, line: OrderLine, packs: str) -> str | None:
        """Packs, and no fewer than are sold."""
        if line.least_packs is None:
            return packs
        found = self._looked_up(line, "Minimum packs")
        return f"MAX({packs},{found[0]})" if found and found[1] == line.least_packs else None

    def pack_of(self, line: OrderLine, part: NeedPart) -> str:
        """Give the formula of what a pack holds; the number where it can't be looked up."""
        return self._pack(line, part) or number_literal(part.pack)

    # --- need and pack --------------------------------------------------------------------------

    def _needed_and_pack(self, line: OrderLine) -> tuple[str | None, str | None]:
        if line.pack_by is PackBy.PLAN and line.tab != "Tiles":
            return None, None
        if len(line.parts) == 1:
            return self.need_of(line.parts[0].lines), self._pack(line, line.parts[0])
        terms = []
        for part in line.parts:
            need = self.need_of(part.lines)
            if need is None or part.pack_by is PackBy.PLAN:
                return None, None
            terms.append(f"({need})/({self._pack(line, part) or number_literal(part.pack)})")
        return "+".join(terms), None

    def need_of(self, lines: Sequence[int]) -> str | None:
        """Sum of the Takeoff's gross over some lines of one item, told by what their rows hold."""
        wanted = set(lines)
        item = self._lines[lines[0]].item
        if self._one_phase:
            return self._need_where(item, self._of_item[item], wanted, [])
        if wanted == self._of_item[item]:
            return self._need_where(item, wanted, wanted, [])
        terms = []
        for phase in dict.fromkeys(self._lines[at].phase for at in sorted(wanted)):
            found = self._at[item, phase]
            key = (structured(TAKEOFF.table, "Phase"), phase)
            term = self._need_where(item, found, wanted & found, [key])
            if term is None:
                return None
            terms.append(term)
        return "+".join(terms)

    def _need_where(
        self, item: str, found: set[int], wanted: set[int], more: Sequence[Key]
    ) -> str | None:
        """Sum over the wanted ones of the rows found by item and further keys."""
        keys: list[Key] = [(structured(TAKEOFF.table, "Item"), item), *more]
        gross = structured(TAKEOFF.table, "Gross")
        if found == wanted:
            return summed_where(gross, keys, plainly=self._plainly)
        terms = []
        for name, unit in sorted(
            {(self._lines[at].line, self._lines[at].unit.symbol) for at in wanted}
        ):
            mine = {
                at for at in found
                if (self._lines[at].line, self._lines[at].unit.symbol) == (name, unit)
            }  # fmt: skip
            if not mine <= wanted:
                return None
            named = [
                *keys,
                (structured(TAKEOFF.table, "Line"), name),
                (structured(TAKEOFF.table, "Unit"), unit),
            ]
            terms.append(summed_where(gross, named, plainly=False))
        return "+".join(terms)

    def _pack(self, line: OrderLine, part: NeedPart) -> str | None:
        """Live look-up of what a pack holds, in the unit of the need."""
        planned_tiles = part.pack_by is PackBy.PLAN and line.tab == "Tiles"
        how = PackBy.PIECES_PER_BOX if planned_tiles else part.pack_by
        header = _PACK_COLUMN.get(how)
        if header is None:
            return None
        found = self._looked_up(line, header)
        if found is None:
            return None
        formula, value = found
        factor = self._unit_of(line, how) / part.unit
        if abs(value * factor - part.pack) > _SAME * part.pack:
            return None
        return formula if factor == 1 else f"{formula}*{number_literal(factor)}"

    def _unit_of(self, line: OrderLine, how: PackBy) -> "_Factor":
        """Tell the unit that a plain number in the catalogue's column is in."""
        units = self._inputs.job.units
        unit = {
            PackBy.YIELD: units.volume,
            PackBy.COVERAGE: units.area,
            PackBy.LENGTH: units.long_length,
        }.get(how)
        if how is PackBy.PACK_SIZE:
            item = self._item(line)
            unit = getattr(item, "pack_unit", None)
        return _Factor(unit or PIECE)

    # --- price and weight -----------------------------------------------------------------------

    def price_of(self, line: OrderLine) -> str | None:
        """Price of a pack, live; words where the cell is empty, an error once the row is gone."""
        header = _PRICE_COLUMN.get(line.tab, "Price")
        table, keys = self._row(line)
        values = table.column(header) if table else None
        if table is None or values is None or not keys:
            return None
        item = self._item(line)
        typed = item.price if isinstance(item, Tile) else line.pack_price
        if typed is not None and table.number(line.source.row, header) != float(typed):
            return None
        if self._many_rows(table):
            price = self._matched(line, table, values)
            unknown = f'{price}=""'
        else:
            price = looked_up(keys, values)
            unknown = f"{share_with_number(keys, values)}<1"
        worked = None if price is None else self._worked_price(line, item, price)
        return None if worked is None else f"IF({unknown},{self.to_be_priced},{worked})"

    def _worked_price(self, line: OrderLine, item: Buyable | None, price: str) -> str | None:
        """Price of a pack from the price of a box, a piece or an area."""
        if not isinstance(item, Tile) or item.price_per is PricePer.BOX:
            return price
        pieces = self._looked_up(line, "Pieces per box")
        if pieces is None:
            return None
        worked = f"{price}*{pieces[0]}"
        if item.price_per is PricePer.AREA:
            area = box_area(item, self._inputs.job.units.area) / item.pieces_per_box
            worked += f"*{number_literal(float(area))}"
        return f"ROUND({worked},4)"

    def weight_of(self, line: OrderLine, packs: str) -> str | None:
        """Weight of some packs of a line."""
        if line.pack_weight_kg is None:
            return None
        unit = self._inputs.job.units.mass
        weight = unit.from_si(line.pack_weight_kg)
        for header in (_WEIGHT_COLUMN.get(line.tab, ""), "Pack size"):  # where it is by weight
            found = self._looked_up(line, header)
            if found is not None and abs(found[1] - weight) <= _SAME * abs(weight):
                return f"{packs}*{found[0]}"
        return f"{packs}*{number_literal(weight)}"

    # --- the row of the catalogue ---------------------------------------------------------------

    def _row(self, line: OrderLine) -> tuple[InputTable | None, tuple[Key, ...]]:
        table = self._frame.inputs.get(line.tab)
        return table, table.keys(line.source.row, ("Code", "Supplier")) if table else ()

    def _looked_up(self, line: OrderLine, header: str) -> tuple[str, float] | None:
        """Look a column of the line's row up; None for text and empty cells."""
        table, keys = self._row(line)
        values = table.column(header) if table else None
        number = table.number(line.source.row, header) if table else None
        if table is None or not keys or values is None or number is None:
            return None
        if self._many_rows(table):
            found = self._matched(line, table, values)
            return None if found is None else (found, number)
        return looked_up(keys, values), number

    def _many_rows(self, table: InputTable) -> bool:
        """Whether comparing the texts of every row for every line would take too long."""
        return self._rows * len(table.raw.rows) > _MANY

    def _matched(self, line: OrderLine, table: InputTable, values: str) -> str | None:
        """Look a column up by code alone, quickly; None where that could find another row."""
        codes, where = self._codes(table), table.column("Code")
        row = table.row(line.source.row)
        cell = row.cells.get("Code") if row else None
        if where is None or cell is None or not isinstance(cell.value, str):
            return None
        if codes[cell.value.casefold()] != 1 or not is_plain_criterion(cell.value):
            return None
        return f"INDEX({values},MATCH({text_literal(cell.value)},{where},0))"

    def _codes(self, table: InputTable) -> Counter[str]:
        """How often each code stands in a tab, case aside."""
        if table.raw.tab not in self._counted:
            cells = [row.cells.get("Code") for row in table.raw.rows]
            self._counted[table.raw.tab] = Counter(str(c.value).casefold() for c in cells if c)
        return self._counted[table.raw.tab]

    def _item(self, line: OrderLine) -> Buyable | None:
        catalogue = self._inputs.catalogue
        candidates: tuple[Buyable | None, ...] = (
            catalogue.tiles.get(line.item),
            catalogue.bags.get(line.item),
            catalogue.sundries.get(line.item),
            *catalogue.alternatives.get(line.item, ()),
        )
        return next((x for x in candidates if x and x.source == line.source), None)


class _Factor(Struct, frozen=True):
    """A unit that can be divided by another, giving the factor between them."""

    unit: Unit

    def __truediv__(self, other: Unit) -> float:
        """Units of ``other`` in one of this."""
        return float(self.unit.si_factor / other.si_factor)
