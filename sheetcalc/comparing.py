"""What a change of inputs did to quantities, packs and money: two runs side by side."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Final, TypeVar

from msgspec.structs import replace

from sheetcalc.domain.comparison import MoneyChange, PackChange, QuantityChange
from sheetcalc.domain.order import empty
from sheetcalc.domain.run import Run

_NOTHING: Final = Decimal("0.00")
_SAME: Final = 1e-9
_Key = TypeVar("_Key")

STEPS: Final = (
    ("Materials", "materials"),
    ("Labour", "labour"),
    ("Delivery charges", "deliveries"),
    ("Cost", "cost"),
    ("Overhead", "overhead"),
    ("Profit", "profit"),
    ("Contingency", "contingency"),
    ("Price without tax", "price"),
    ("Tax", "tax"),
    ("Total", "total"),
)
"""Steps of a quote: in words, and the name of the sum."""


def quantity_changes(old: Run, new: Run) -> tuple[QuantityChange, ...]:
    """Lines of the takeoff whose gross quantity differs by more than a rounding.

    Parameters
    ----------
    old, new
        Two runs; lines of one key, item and unit are added up over all rooms.
    """
    sums: list[dict[tuple[str, str, str], float]] = []
    about: dict[tuple[str, str, str], str] = {}
    for run in (old, new):
        found: dict[tuple[str, str, str], float] = defaultdict(float)
        for line in run.lines:
            key = (line.line, line.item, line.unit.symbol)
            found[key] += line.gross_shown
            about.setdefault(key, line.description)
        sums.append(found)
    before, after = sums
    return tuple(
        QuantityChange(line, item, about[line, item, unit], unit, first, second)
        for line, item, unit in _keys(before, after)
        if _differs(
            first := before.get((line, item, unit), 0.0),
            second := after.get((line, item, unit), 0.0),
        )
    )


def pack_changes(old: Run, new: Run) -> tuple[PackChange, ...]:
    """Items of which another number of packs is ordered, or at another price.

    Parameters
    ----------
    old, new
        Two runs; an item's packs are added up over all phases.
    """
    before, after = _packs(old), _packs(new)
    found = []
    for supplier, item in _keys(before, after):
        first = before.get((supplier, item), (0, _NOTHING, ""))
        second = after.get((supplier, item), (0, _NOTHING, ""))
        if first[:2] != second[:2]:
            found.append(
                PackChange(
                    supplier, item, second[2] or first[2],
                    first[0], second[0], first[1], second[1],
                    one_currency=_currency(old) == _currency(new),
                )
            )  # fmt: skip
    return tuple(found)


def money_changes(old: Run, new: Run) -> tuple[MoneyChange, ...]:
    """Total of each supplier's orders and every step of the quote, changed or not.

    Sums in two currencies, and sums that lack a price, have a note instead of a difference: a
    deleted price would look like money saved.
    """
    found = (*_order_totals(old, new), *_quote_steps(old, new))
    first, second = _currency(old), _currency(new)
    if first == second:
        return found
    note = f"A is in {first}, B in {second}"
    return tuple(replace(change, note=note) for change in found)


def _currency(run: Run) -> str:
    return run.inputs.job.currency


def _order_totals(old: Run, new: Run) -> Iterator[MoneyChange]:
    before = {order.supplier: order for order in old.orders}
    after = {order.supplier: order for order in new.orders}
    for supplier in _keys(before, after):
        first, second = (orders.get(supplier) or empty(supplier) for orders in (before, after))
        yield MoneyChange(
            f"Orders to {supplier or '(no supplier)'}",
            first.total,
            second.total,
            _LACKING[first.complete, second.complete],
        )


def _quote_steps(old: Run, new: Run) -> Iterator[MoneyChange]:
    if old.quote is None or new.quote is None:
        return
    note = _LACKING[old.quote.complete, new.quote.complete]
    for words, name in STEPS:
        yield MoneyChange(
            f"Quote: {words}",
            getattr(old.quote.summary, name),
            getattr(new.quote.summary, name),
            note,
        )


_LACKING: Final = {
    (True, True): "",
    (False, True): "A lacks prices",
    (True, False): "B lacks prices",
    (False, False): "A and B lack prices",
}
"""Whether the sums of A and of B are complete -> what to say instead of their difference."""


def _packs(run: Run) -> dict[tuple[str, str], tuple[int, Decimal | None, str]]:
    found: dict[tuple[str, str], tuple[int, Decimal | None, str]] = {}
    for order in run.orders:
        for line in order.lines:
            key = (order.supplier, line.item)
            packs, amount, _ = found.get(key, (0, _NOTHING, ""))
            known = amount is not None and line.amount is not None
            total = (amount or _NOTHING) + (line.amount or _NOTHING) if known else None
            found[key] = (packs + line.packs, total, line.description)
    return found


def _keys(before: Iterable[_Key], after: Iterable[_Key]) -> tuple[_Key, ...]:
    """Keys of both, in the order of the second, then what only the first has."""
    return tuple(dict.fromkeys([*after, *before]))


def _differs(first: float, second: float) -> bool:
    return abs(first - second) > _SAME * max(abs(first), abs(second))
