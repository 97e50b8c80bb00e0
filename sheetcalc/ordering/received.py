"""What the Received tab says of each order line: packs ordered, packs that came."""

from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.inputs import Receipt
from sheetcalc.domain.order import Order, OrderLine


class _Sum(Struct):
    ordered: float = 0.0
    received: float = 0.0

    def add(self, receipt: Receipt) -> None:
        self.ordered += receipt.ordered or 0.0
        self.received += receipt.received or 0.0


def with_received(
    orders: Sequence[Order], receipts: Iterable[Receipt]
) -> tuple[tuple[Order, ...], list[Receipt]]:
    """Note on each line what was ordered and what came; return the rows that fit no line too.

    A row belongs to the line of its supplier and code whose phases hold its phase; where the
    supplier's orders have the item only once, its phase does not matter.
    """
    places: dict[tuple[str, str], list[tuple[int, int]]] = {}
    for at, order in enumerate(orders):
        for number, line in enumerate(order.lines):
            places.setdefault(_key(order.supplier, line.item), []).append((at, number))
    sums: dict[tuple[int, int], _Sum] = {}
    unmatched: list[Receipt] = []
    for receipt in receipts:
        found = places.get(_key(receipt.supplier, receipt.code), [])
        fits = [
            place
            for place in found
            if len(found) == 1 or receipt.phase in orders[place[0]].lines[place[1]].phases
        ]
        if fits:
            sums.setdefault(fits[0], _Sum()).add(receipt)
        else:
            unmatched.append(receipt)
    noted = tuple(
        replace(
            order,
            lines=tuple(
                _noted(line, sums.get((at, number))) for number, line in enumerate(order.lines)
            ),
        )
        for at, order in enumerate(orders)
    )
    return noted, unmatched


def _noted(line: OrderLine, found: _Sum | None) -> OrderLine:
    if found is None:
        return line
    return replace(line, ordered=found.ordered, received=found.received)


def _key(supplier: str, code: str) -> tuple[str, str]:
    """Names are compared without case and surplus spaces."""
    return " ".join(supplier.split()).casefold(), " ".join(code.split()).casefold()
