"""Who to buy from: the first row of a code, or the mix of suppliers that costs least."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import combinations
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Buyable
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import ALL_AT_ONCE, EACH_DAY, OrderLine, Source, Sourcing
from sheetcalc.ordering.calendar import Calendar
from sheetcalc.ordering.items import sources_of
from sheetcalc.ordering.lots import Packing, lots_of
from sheetcalc.ordering.needs import ItemNeed
from sheetcalc.pricing import amount
from sheetcalc.rules.pack_contents import UnknownPackError

CHEAPEST: Final = "cheapest"
_MOST_SUPPLIERS: Final = 8
"""Suppliers with something to choose between whose every combination is tried: 255 mixes."""


class _Offer(Struct, frozen=True):
    """What an item costs at one supplier, and the deliveries that it takes there.

    Attributes
    ----------
    cost
        Of whole packs for the whole job; None where price or pack is not known.
    stops
        Supplier, phase and day of each.
    """

    item: Buyable
    orders: tuple[OrderLine, ...]
    cost: Decimal | None
    stops: frozenset[tuple[str, str, int]]


class _Mix(Struct, frozen=True):
    """One supplier for each item.

    Attributes
    ----------
    below_minimum
        Orders under their supplier's minimum.
    """

    chosen: tuple[_Offer, ...]
    goods: Decimal
    charges: Decimal
    below_minimum: int

    @property
    def rank(self) -> tuple[int, int, Decimal]:
        unknown = sum(offer.cost is None for offer in self.chosen)
        return unknown, self.below_minimum, self.goods + self.charges


class Sources:
    """Offers for every need of a job, and the mixes that they allow."""

    def __init__(
        self, inputs: Inputs, needs: Sequence[ItemNeed], packing: Packing, calendar: Calendar
    ) -> None:
        """Price every item at every supplier that sells it."""
        self._suppliers = inputs.catalogue.suppliers
        self._cheapest = inputs.job.source_choice == CHEAPEST
        self._needs = needs
        self._offers = [
            tuple(
                _offer(need, item, packing, calendar)
                for item in sources_of(need.item, inputs.catalogue)
            )
            for need in needs
        ]
        self._has_choice = any(len(offers) > 1 for offers in self._offers)
        self._compared: tuple[_Mix, int] | None = None

    def chosen(self) -> list[Buyable]:
        """Row that each need is bought by, as the Job says."""
        return [offer.item for offer in self._ordered().chosen]

    def compared(self) -> Sourcing | None:
        """Compare the suppliers of what several sell; None where there is nothing to choose."""
        if not self._has_choice:
            return None
        ordered, (mix, mixes) = self._ordered(), self._best()
        sources = [
            Source(
                supplier=offer.item.supplier or "",
                line=_whole(offer),
                orders=offer.orders,
                cost=offer.cost,
                ordered=offer is ordered.chosen[at],
                in_mix=offer is mix.chosen[at],
            )
            for at, offers in enumerate(self._offers)
            if len(offers) > 1
            for offer in offers
            if offer.orders
        ]
        # the sheet works the mix out from the items that there is a choice of, packs at a price
        instead = _amounts(s for s in sources if s.in_mix) - _amounts(
            s for s in sources if s.ordered
        )
        return Sourcing(
            sources=tuple(sources),
            ordered=ordered.goods,
            ordered_charges=ordered.charges,
            mix=ordered.goods + instead,
            mix_charges=mix.charges,
            mixes=mixes,
        )

    def _ordered(self) -> _Mix:
        if self._has_choice and self._cheapest:
            return self._best()[0]
        return self._mix(tuple(offers[0] for offers in self._offers))

    def _best(self) -> tuple[_Mix, int]:
        """Cheapest of the mixes: each set of suppliers, each item from the cheapest of the set."""
        if self._compared is None:
            mixes = [self._mix(chosen) for chosen in self._mixes()]
            self._compared = min(mixes, key=lambda mix: mix.rank), len(mixes)
        return self._compared

    def _mixes(self) -> Iterator[tuple[_Offer, ...]]:
        open_to = list(
            dict.fromkeys(
                offer.item.supplier or ""
                for offers in self._offers
                if len(offers) > 1
                for offer in offers
            )
        )
        yield tuple(offers[0] for offers in self._offers)
        sizes = range(1, len(open_to) + 1) if len(open_to) <= _MOST_SUPPLIERS else [len(open_to)]
        seen = set()
        for size in sizes:
            for some in combinations(open_to, size):
                chosen = tuple(_cheapest(offers, frozenset(some)) for offers in self._offers)
                key = tuple(map(id, chosen))
                if key not in seen:
                    seen.add(key)
                    yield chosen

    def _mix(self, chosen: tuple[_Offer, ...]) -> _Mix:
        stops = frozenset(stop for offer in chosen for stop in offer.stops)
        goods: dict[tuple[str, str], Decimal] = {}
        for offer in chosen:
            for line in offer.orders:
                key = (offer.item.supplier or "", line.phase)
                goods[key] = goods.get(key, Decimal("0.00")) + (line.amount or 0)
        return _Mix(
            chosen,
            sum((o.cost for o in chosen if o.cost is not None), Decimal("0.00")),
            sum((self._charge(supplier) for supplier, _, _ in stops), Decimal("0.00")),
            sum(total < self._minimum(supplier) for (supplier, _), total in goods.items()),
        )

    def _charge(self, supplier: str) -> Decimal:
        listed = self._suppliers.get(supplier)
        return (listed.delivery_charge if listed else None) or Decimal(0)

    def _minimum(self, supplier: str) -> Decimal:
        listed = self._suppliers.get(supplier)
        return (listed.minimum_order if listed else None) or Decimal(0)


def _amounts(sources: Iterable[Source]) -> Decimal:
    known = (s.line.amount for s in sources if s.line.amount is not None)
    return sum(known, Decimal("0.00"))


def _cheapest(offers: Sequence[_Offer], suppliers: frozenset[str]) -> _Offer:
    """Cheapest offer of a set of suppliers; of all where none of the set sells the item."""
    among = [o for o in offers if (o.item.supplier or "") in suppliers] or list(offers)
    priced = [o for o in among if o.cost is not None]
    return min(priced, key=lambda o: o.cost or Decimal(0)) if priced else among[0]


def _offer(need: ItemNeed, item: Buyable, packing: Packing, calendar: Calendar) -> _Offer:
    lots = lots_of(need, item, calendar)
    supplier = item.supplier or ""
    way = calendar.deliveries(supplier)
    try:
        orders = tuple(packing.line(lot) for lot in lots)
    except UnknownPackError:
        return _Offer(item, (), None, frozenset())
    costs = [line.amount for line in orders]
    known = [cost for cost in costs if cost is not None]
    stops: Iterable[tuple[str, str, int]] = (
        (supplier, "" if way == ALL_AT_ONCE else phase.phase, phase.day if way == EACH_DAY else 0)
        for lot in lots
        for phase in lot.phases
    )
    cost = sum(known, Decimal("0.00")) if len(known) == len(costs) else None
    return _Offer(item, orders, cost, frozenset(stops))


def _whole(offer: _Offer) -> OrderLine:
    """Add the orders of an offer up."""
    first = offer.orders[0]
    packs = sum(line.packs for line in offer.orders)
    return replace(
        first,
        needed=sum(line.needed for line in offer.orders),
        packs=packs,
        amount=None if first.pack_price is None else amount(packs, first.pack_price),
    )
