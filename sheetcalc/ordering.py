"""Quantity lines to purchase orders: one a supplier, in phases, packs rounded up once.

Grouping is done with pandas; money never is, it stays Decimal (see ``pricing``).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Final

import pandas as pd

from sheetcalc.domain.catalogue import Bag, Buyable, Cable, Catalogue, Roll, Sundry, Tile
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs, Phase
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import EACH, UNITS, Unit
from sheetcalc.domain.order import NeedPart, Order, OrderLine
from sheetcalc.domain.quantity import PackBy, QuantityLine, RollPlan
from sheetcalc.pricing import amount, pack_price
from sheetcalc.rules.order_numbers import short_names
from sheetcalc.rules.pack_contents import UnknownPackError, pack_in, pack_weight, package_of
from sheetcalc.rules.packages import package_code
from sheetcalc.rules.packs import packs_needed
from sheetcalc.rules.working_days import working_days_before

TILES: Final = "Tiles"
BAGS: Final = "Bags and pails"
ROLLS: Final = "Rolls and sheets"
CABLES: Final = "Heating cables"
SUNDRIES: Final = "Sundries"

_TABS: Final = (TILES, BAGS, ROLLS, CABLES, SUNDRIES)
_TAB_OF: Final[Mapping[type, str]] = {
    Tile: TILES, Bag: BAGS, Roll: ROLLS, Cable: CABLES, Sundry: SUNDRIES,
}  # fmt: skip

_LIKELY_TABS: Final[Mapping[PackBy, tuple[str, ...]]] = {
    PackBy.PIECES_PER_BOX: (TILES,),
    PackBy.YIELD: (BAGS,),
    PackBy.COVERAGE: (BAGS,),
    PackBy.PACK_SIZE: (SUNDRIES, BAGS, ROLLS),
    PackBy.LENGTH: (ROLLS,),
    PackBy.EACH: (ROLLS, CABLES, SUNDRIES),
    PackBy.PLAN: (ROLLS, CABLES, TILES),
}
"""Where to look first for an item whose line does not name its tab."""


@dataclass(frozen=True, slots=True)
class _Need:
    """One item in one phase from one supplier, and its lines by how they are counted."""

    phase: str
    item: Buyable
    lines: Mapping[tuple[PackBy, Unit], tuple[tuple[int, ...], float]]


def make_orders(
    inputs: Inputs, lines: Sequence[QuantityLine], roll_plans: Sequence[RollPlan] = ()
) -> tuple[tuple[Order, ...], tuple[Finding, ...]]:
    """Orders by supplier and phase, and what stands in their way.

    Packs are rounded up once, on the total of an item in a phase (the workbook's contract);
    rolls and cables take their packs from their plan.

    Parameters
    ----------
    inputs
        Job, phases, catalogue, suppliers and holidays.
    lines
        Quantity lines of the run; those that nothing is bought for are passed over.
    roll_plans
        Whole rolls of an item in a phase, where a plan was made.

    Returns
    -------
    orders
        In the order of the Suppliers tab, then suppliers that are not in it, then items without
        a supplier; lines in the order of the phases, then of the catalogue.
    findings
        ``ORDER-ITEM-UNKNOWN``, ``ITEM-WITHOUT-SUPPLIER``, ``ITEM-WITHOUT-PRICE``,
        ``ITEM-WITHOUT-PACK``, ``SUPPLIER-NOT-LISTED``.
    """
    findings: list[Finding] = []
    bought = _bought(inputs, lines, findings)
    plans = {(plan.phase, plan.item): plan for plan in roll_plans}
    dates = _Dates(inputs)
    orders: list[Order] = []
    numbers = _order_numbers(inputs.job, bought)
    for supplier, needs in bought.items():
        made: list[OrderLine] = []
        for need in needs:
            plan = plans.get((need.phase, need.item.code)) if isinstance(need.item, Roll) else None
            try:
                line = _order_line(need, plan, inputs.job)
            except UnknownPackError as error:
                findings.append(_no_pack(need.item, str(error)))
                continue
            on_site = dates.needed(need.phase)
            made.append(
                replace(
                    line,
                    number=numbers[supplier, need.phase],
                    line=sum(x.phase == need.phase for x in made) + 1,
                    needed_on_site=on_site,
                    order_by=dates.order_by(on_site, need.item, supplier),
                )
            )
        if made:
            orders.append(_order(supplier, made))
    findings += _flags(orders, inputs.catalogue)
    return tuple(orders), tuple(findings)


def _order(supplier: str, lines: Sequence[OrderLine]) -> Order:
    amounts = [line.amount for line in lines if line.amount is not None]
    return Order(
        supplier=supplier,
        lines=tuple(lines),
        total=sum(amounts, Decimal("0.00")),
        complete=len(amounts) == len(lines),
    )


def _flags(orders: Iterable[Order], catalogue: Catalogue) -> Iterator[Finding]:
    """Items that are ordered all the same, but that a person has to see to: once an item."""
    seen: set[tuple[str, object]] = set()

    def first(code: str, key: object) -> bool:
        fresh = (code, key) not in seen
        seen.add((code, key))
        return fresh

    for order in orders:
        for line in order.lines:
            facts = {"item": line.item, "description": line.description}
            if not order.supplier and first("ITEM-WITHOUT-SUPPLIER", line.source):
                yield Finding("ITEM-WITHOUT-SUPPLIER", line.source, "Supplier", facts)
            if line.pack_price is None and first("ITEM-WITHOUT-PRICE", line.source):
                column = "Pack price" if line.tab in {BAGS, SUNDRIES} else "Price"
                yield Finding("ITEM-WITHOUT-PRICE", line.source, column, facts)
            listed = order.supplier in catalogue.suppliers or not catalogue.suppliers
            if order.supplier and not listed and first("SUPPLIER-NOT-LISTED", order.supplier):
                yield Finding(
                    "SUPPLIER-NOT-LISTED", line.source, "Supplier", {"supplier": order.supplier}
                )


def _no_pack(item: Buyable, wanted: str) -> Finding:
    return Finding("ITEM-WITHOUT-PACK", item.source, None, {"item": item.code, "wanted": wanted})


# --- which item, from whom ----------------------------------------------------------------------


def _bought(
    inputs: Inputs, lines: Sequence[QuantityLine], findings: list[Finding]
) -> dict[str, list[_Need]]:
    """Needs by supplier: the grouping of the takeoff's lines into orders."""
    catalogue = inputs.catalogue
    items: list[Buyable] = []
    position: dict[tuple[str, str], int] = {}
    records = []
    unknown: set[tuple[str, str]] = set()
    for index, line in enumerate(lines):
        if line.pack_by is PackBy.NONE or not line.item:
            continue
        item = find_item(catalogue, line)
        if item is None:
            if (line.line, line.item) not in unknown:
                unknown.add((line.line, line.item))
                facts = {"item": line.item, "line": line.line}
                findings.append(Finding("ORDER-ITEM-UNKNOWN", line.source, None, facts, line.room))
            continue
        key = (_TAB_OF[type(item)], item.code)
        if key not in position:
            position[key] = len(items)
            items.append(item)
        records.append(
            (index, position[key], line.phase, line.pack_by.value, line.unit.symbol,
             line.gross_shown)
        )  # fmt: skip
    if not records:
        return {}
    frame = pd.DataFrame.from_records(
        records, columns=["index", "item", "phase", "pack_by", "unit", "gross"]
    )
    chosen = _chosen_sources(inputs, items, frame)
    grouped: dict[tuple[int, str], dict[tuple[PackBy, Unit], tuple[tuple[int, ...], float]]] = {}
    keys = ["item", "phase", "pack_by", "unit"]
    totals = frame.groupby(keys, sort=False).agg(index=("index", tuple), gross=("gross", "sum"))
    for item_at, phase, pack_by, unit, indices, gross in totals.reset_index().itertuples(
        index=False, name=None
    ):
        parts = grouped.setdefault((item_at, phase), {})
        parts[PackBy(pack_by), UNITS[unit]] = (indices, float(gross))
    needs = [
        _Need(phase, chosen[item_at], parts)
        for (item_at, phase), parts in grouped.items()
        if any(needed > 0 for _, needed in parts.values())
    ]
    return _by_supplier(inputs, needs)


def _by_supplier(inputs: Inputs, needs: Iterable[_Need]) -> dict[str, list[_Need]]:
    """Sort needs into the order of the Suppliers tab, the phases and the catalogue."""
    suppliers = list(inputs.catalogue.suppliers)
    phases = list(inputs.phases)

    def rank(need: _Need) -> tuple[int, str, int, str, int, int]:
        supplier = need.item.supplier or ""
        return (
            suppliers.index(supplier) if supplier in suppliers
            else len(suppliers) + (not supplier),
            supplier,
            phases.index(need.phase) if need.phase in phases else len(phases),
            need.phase,
            _TABS.index(_TAB_OF[type(need.item)]),
            need.item.source.row or 0,
        )  # fmt: skip

    by_supplier: dict[str, list[_Need]] = {}
    for need in sorted(needs, key=rank):
        by_supplier.setdefault(need.item.supplier or "", []).append(need)
    return by_supplier


def _by_tab(catalogue: Catalogue) -> Mapping[str, Mapping[str, Buyable]]:
    return {
        TILES: catalogue.tiles,
        BAGS: catalogue.bags,
        ROLLS: catalogue.rolls,
        CABLES: catalogue.cables,
        SUNDRIES: catalogue.sundries,
    }


def find_item(catalogue: Catalogue, line: QuantityLine) -> Buyable | None:
    """Catalogue row that a quantity line buys: by its tab, else where its packing leads."""
    tabs = _by_tab(catalogue)
    likely = (line.tab,) if line.tab else _LIKELY_TABS.get(line.pack_by, ())
    for tab in (*likely, *(() if line.tab else _TABS)):
        found = tabs.get(tab, {}).get(line.item)
        if found is not None:
            return found
    return None


def _chosen_sources(
    inputs: Inputs, items: Sequence[Buyable], frame: pd.DataFrame
) -> tuple[Buyable, ...]:
    """First row of each code, or the source whose packs for the whole job cost least."""
    if inputs.job.source_choice != "cheapest":
        return tuple(items)
    chosen: list[Buyable] = []
    totals = frame.groupby(["item", "pack_by", "unit"], sort=False)["gross"].sum().reset_index()
    for at, item in enumerate(items):
        sources = [item] + [
            other
            for other in inputs.catalogue.alternatives.get(item.code, ())
            if type(other) is type(item)
        ]
        wanted = [
            (PackBy(pack_by), UNITS[unit], float(gross))
            for of_item, pack_by, unit, gross in totals.itertuples(index=False, name=None)
            if of_item == at
        ]
        costs = [_cost(source, wanted, inputs.job) for source in sources]
        known = [cost for cost in costs if cost is not None]
        chosen.append(sources[costs.index(min(known))] if known else item)
    return tuple(chosen)


def _cost(item: Buyable, wanted: Iterable[tuple[PackBy, Unit, float]], job: Job) -> Decimal | None:
    price = pack_price(item, job.units.area)
    if price is None:
        return None
    try:
        share = sum(needed / pack_in(item, how, unit) for how, unit, needed in wanted)
    except UnknownPackError:
        return None
    return amount(packs_needed(share, 1.0), price)


# --- packs --------------------------------------------------------------------------------------


def _order_line(need: _Need, plan: RollPlan | None, job: Job) -> OrderLine:
    """One line; its number, line number and dates are filled in by the caller."""
    item = need.item
    parts = tuple(
        NeedPart(pack_by, unit, needed, _pack_or_one(item, pack_by, unit, plan), indices)
        for (pack_by, unit), (indices, needed) in need.lines.items()
    )
    planned = all(part.pack_by is PackBy.PLAN for part in parts)
    if len(parts) == 1:
        needed, unit, pack, pack_by = (
            parts[0].needed, parts[0].unit, parts[0].pack, parts[0].pack_by,
        )  # fmt: skip
    else:
        # the same item counted in several ways: the need is counted in packs, rounded once
        needed = sum(
            plan.rolls if plan is not None and p.pack_by is PackBy.PLAN else p.needed / p.pack
            for p in parts
        )
        unit, pack, pack_by = EACH, 1.0, PackBy.EACH
    if planned and plan is not None:
        packs, pack_by = plan.rolls, PackBy.PLAN
    else:
        packs = packs_needed(needed, pack)
    price = pack_price(item, job.units.area)
    weight = pack_weight(item)
    package = package_of(item)
    return OrderLine(
        phase=need.phase,
        number="",
        line=0,
        item=item.code,
        tab=_TAB_OF[type(item)],
        supplier_code=item.supplier_code or "",
        description=item.description,
        needed=needed,
        unit=unit,
        pack=pack,
        pack_by=pack_by,
        packs=packs,
        package=package,
        package_code=package_code(package),
        pack_price=price,
        amount=None if price is None else amount(packs, price),
        weight_kg=None if weight is None else weight * packs,
        parts=parts,
        source=item.source,
        pack_weight_kg=weight,
    )


def _pack_or_one(item: Buyable, pack_by: PackBy, unit: Unit, plan: RollPlan | None) -> float:
    """Content of a pack; a plan's packs need none, so that 1 will do where it is not known."""
    try:
        return pack_in(item, pack_by, unit)
    except UnknownPackError:
        if plan is None:
            raise
        return 1.0


# --- numbers and dates --------------------------------------------------------------------------


def _order_numbers(job: Job, bought: Mapping[str, Sequence[_Need]]) -> dict[tuple[str, str], str]:
    """Order numbers that depend on the names only, so that a re-run gives the same."""
    wanted = {(supplier, need.phase) for supplier, needs in bought.items() for need in needs}
    suppliers = short_names({supplier for supplier, _ in wanted}, "NOSUPPLIER")
    phases = short_names({phase for _, phase in wanted}, "")
    return {
        (supplier, phase): "-".join(
            part for part in (job.order_prefix, suppliers[supplier], phases[phase]) if part
        )
        for supplier, phase in wanted
    }


class _Dates:
    """Dates of a job: needed at the start of a phase, ordered the lead time before."""

    def __init__(self, inputs: Inputs) -> None:
        self._phases: Mapping[str, Phase] = inputs.phases
        self._suppliers = inputs.catalogue.suppliers
        self._holidays = inputs.holidays

    def needed(self, phase: str) -> date | None:
        """Start of the phase; for what is ordered for the whole job, the earliest start."""
        if phase in self._phases:
            return self._phases[phase].start
        starts = [p.start for p in self._phases.values() if p.start is not None]
        return min(starts) if starts and not phase else None

    def order_by(self, needed: date | None, item: Buyable, supplier: str) -> date | None:
        """Last day to order: the item's lead days, else its supplier's, in working days."""
        lead = item.lead_days
        if lead is None and supplier in self._suppliers:
            lead = self._suppliers[supplier].lead_days
        if needed is None or lead is None:
            return None
        return working_days_before(needed, lead, self._holidays)
