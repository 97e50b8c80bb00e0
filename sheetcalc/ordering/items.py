"""Which row of the catalogue a quantity line buys, and the tab that it stands in."""

from collections.abc import Callable, Mapping
from operator import attrgetter
from typing import Final

from sheetcalc.domain.catalogue import Bag, Buyable, Cable, Catalogue, Roll, Sundry, Tile
from sheetcalc.domain.order import OrderLine
from sheetcalc.domain.quantity import PackBy, QuantityLine

TILES: Final = "Tiles"
BAGS: Final = "Bags and pails"
ROLLS: Final = "Rolls and sheets"
CABLES: Final = "Heating cables"
SUNDRIES: Final = "Sundries"

TABS: Final = (TILES, BAGS, ROLLS, CABLES, SUNDRIES)
_TAB_OF: Final[Mapping[type, str]] = {
    Tile: TILES, Bag: BAGS, Roll: ROLLS, Cable: CABLES, Sundry: SUNDRIES,
}  # fmt: skip

_ROWS_OF: Final[Mapping[str, Callable[[Catalogue], Mapping[str, Buyable]]]] = {
    TILES: attrgetter("tiles"),
    BAGS: attrgetter("bags"),
    ROLLS: attrgetter("rolls"),
    CABLES: attrgetter("cables"),
    SUNDRIES: attrgetter("sundries"),
}

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


def tab_of(item: Buyable) -> str:
    """Catalogue tab that an item stands in."""
    return _TAB_OF[type(item)]


def find_item(catalogue: Catalogue, line: QuantityLine) -> Buyable | None:
    """Catalogue row that a quantity line buys: by its tab, else where its packing leads."""
    tabs = (line.tab,) if line.tab else (*_LIKELY_TABS.get(line.pack_by, ()), *TABS)
    rows = (_ROWS_OF[tab](catalogue).get(line.item) for tab in tabs if tab in _ROWS_OF)
    return next((row for row in rows if row is not None), None)


def item_of(catalogue: Catalogue, line: OrderLine) -> Buyable:
    """Row of the catalogue, of those that sell an item, that a line is ordered from."""
    first = _ROWS_OF[line.tab](catalogue)[line.item]
    return next(row for row in sources_of(first, catalogue) if row.source == line.source)


def sources_of(item: Buyable, catalogue: Catalogue) -> tuple[Buyable, ...]:
    """List the rows that an item can be bought by: its first row, then the others of its tab."""
    others = catalogue.alternatives.get(item.code, ())
    return (item, *(other for other in others if type(other) is type(item)))
