"""Result tabs that a run makes only where it has something for them.

One of an earlier run then goes, unless something of a person's points at it: it is kept, empty.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from typing import Final

from sheetcalc.domain.run import Run
from sheetcalc.workbook.results import cable_plans, call_offs, heating_rules, room_cards, sources
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.order import key_of, supplier_of
from sheetcalc.workbook.sheet import SheetModel

_MADE: Final[Mapping[str, Callable[[Run, int], bool]]] = {
    heating_rules.KEY: lambda run, _: bool(run.cable_plans),
    call_offs.KEY: lambda run, _: any(line.call_offs for o in run.orders for line in o.lines),
    sources.KEY: lambda run, _: run.sourcing is not None and bool(run.sourcing.sources),
    room_cards.KEY: room_cards.makes_cards,
    cable_plans.KEY: cable_plans.makes_cable_plans,
}
"""Key of a tab, or of the first of several -> whether a run makes it, or that number of them."""

_PAGES: Final[Mapping[str, Callable[[int, Frame], SheetModel]]] = {
    room_cards.KEY: room_cards.without_cards,
    cable_plans.KEY: cable_plans.without_cable_plans,
}
"""Key of the first of several tabs of printed pages -> makes one of them without any."""


def idle_keys(run: Run, keys: Iterable[str], *, cards: bool = True) -> frozenset[str]:
    """Find keys of tabs in a workbook that a run makes nothing for.

    Parameters
    ----------
    run
        What was calculated.
    keys
        Of the tabs that are there.
    cards
        Whether it makes room cards and cable plans.
    """
    orders = {key_of(order.supplier) for order in run.orders}
    return frozenset(k for k in keys if _is_idle(run, k, orders, cards=cards))


def _is_idle(run: Run, key: str, orders: Collection[str], *, cards: bool) -> bool:
    if supplier_of(key) is not None:
        return key not in orders
    first, number = _numbered(key)
    if first in _PAGES and not cards:
        return True
    return first in _MADE and not _MADE[first](run, number)


def kept_pages(kept: Iterable[str], frame: Frame) -> Iterator[SheetModel]:
    """Make the tabs of printed pages that are kept, without any page."""
    for first, number in map(_numbered, kept):
        if first in _PAGES:
            yield _PAGES[first](number, frame)


def _numbered(key: str) -> tuple[str, int]:
    """Key of the first of several tabs, and which of them a key is, from 1."""
    first, _, number = key.partition(":")
    return first, int(number) if number.isdecimal() else 1
