"""Materials of a quote: every ordered item, and what one unit of it costs."""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal, localcontext
from typing import Final, TypeAlias

from sheetcalc.domain.measure import Unit
from sheetcalc.domain.order import Order, OrderLine
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.quote import Material

DIGITS: Final = 40
"""Of quotients that are not rounded."""

_NOTHING: Final = Decimal("0.00")
_Way: TypeAlias = tuple[Unit, PackBy, float]
"""A way of counting an item: unit, what a pack is told by, and what it holds."""


def priced_materials(
    orders: Sequence[Order], lines: Sequence[QuantityLine]
) -> tuple[Material, ...]:
    """One for each item and way of counting; what is spent on an item goes by packs."""
    by_item: dict[tuple[str, str], list[tuple[str, OrderLine]]] = defaultdict(list)
    for order in orders:
        for line in order.lines:
            by_item[line.tab, line.item].append((order.supplier, line))
    return tuple(material for ordered in by_item.values() for material in _of_item(ordered, lines))


def _of_item(
    ordered: Sequence[tuple[str, OrderLine]], lines: Sequence[QuantityLine]
) -> Iterable[Material]:
    first = ordered[0][1]
    order_lines = tuple(line for _, line in ordered)
    amounts = [line.amount for line in order_lines]
    known = [amount for amount in amounts if amount is not None]
    amount = sum(known, _NOTHING) if len(known) == len(amounts) else None
    ways: dict[_Way, list[int]] = defaultdict(list)
    for line in order_lines:
        for part in line.parts:
            ways[part.unit, part.pack_by, part.pack] += part.lines
    gross = {
        way: math.fsum(lines[at].gross_shown for at in indices) for way, indices in ways.items()
    }
    rates = _rates(amount, gross)
    for way, indices in ways.items():
        unit, pack_by, pack = way
        yield Material(
            item=first.item,
            tab=first.tab,
            description=first.description,
            suppliers=tuple(dict.fromkeys(supplier for supplier, _ in ordered)),
            unit=unit,
            pack_by=pack_by,
            pack=pack,
            gross=gross[way],
            packs=sum(line.packs for line in order_lines),
            amount=amount,
            rate=rates.get(way),
            lines=tuple(sorted(indices)),
            orders=order_lines,
        )


def _rates(amount: Decimal | None, gross: Mapping[_Way, float]) -> dict[_Way, Decimal]:
    """Cost of one unit in each way of counting, so that all of the amount is spent."""
    if amount is None:
        return {}
    with localcontext() as context:
        context.prec = DIGITS
        in_packs = sum((Decimal(need) / Decimal(way[2]) for way, need in gross.items()), Decimal(0))
        return {
            way: amount / in_packs / Decimal(way[2]) if in_packs else Decimal(0) for way in gross
        }


def spent_on_types(
    materials: Sequence[Material], lines: Sequence[QuantityLine], type_of_line: Mapping[int, int]
) -> dict[int, Decimal]:
    """Share of each type in what is ordered, not rounded."""
    gross: dict[tuple[int, int], list[float]] = defaultdict(list)
    for n, material in enumerate(materials):
        for at in material.lines:
            gross[type_of_line[at], n].append(lines[at].gross_shown)
    spent: dict[int, Decimal] = defaultdict(Decimal)
    with localcontext() as context:
        context.prec = DIGITS
        for (number, n), quantities in gross.items():
            rate = materials[n].rate or Decimal(0)
            spent[number] = spent[number] + rate * Decimal(math.fsum(quantities))
    return spent
