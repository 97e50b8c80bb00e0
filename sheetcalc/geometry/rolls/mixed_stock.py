"""Mixed stock: lengths from several stock lengths, at the least cost that can be found.

Each stock length alone, and longest first with whichever stock length is cheapest for what it
holds; at the end each is exchanged for the cheapest that still holds its pieces (derived).
"""

from collections.abc import Sequence
from decimal import Decimal

from msgspec import Struct

from sheetcalc.geometry.rolls.cutting_stock import fill_stock, pack_stock


class Stock(Struct, frozen=True):
    """A stock length and what one of it costs."""

    length: int
    cost: Decimal


class Cut(Struct, frozen=True):
    """What is cut from one piece of stock: positions of the stock and of the wanted lengths."""

    stock: int
    wanted: tuple[int, ...]


def pack_mixed(lengths: Sequence[int], stocks: Sequence[Stock], kerf: int = 0) -> list[Cut]:
    """Plan the cutting of lengths from stock of several lengths.

    Parameters
    ----------
    lengths
        Wanted lengths, in the unit of the stock lengths (1/320 mm in this project).
    stocks
        What can be bought, as many as are needed of each.
    kerf
        Lost with every cut; none after a last piece that ends at the stock's end.

    Returns
    -------
    list of Cut
        In cutting order; of the plans tried the one that costs least, then with fewest cuts.

    Raises
    ------
    ValueError
        If a length is not positive, or longer than any stock.
    """
    if len(stocks) == 1:
        return [Cut(0, tuple(cut)) for cut in pack_stock(lengths, stocks[0].length, kerf)]
    if not lengths:
        return []
    longest = max(lengths)
    plans = [
        [Cut(at, tuple(cut)) for cut in pack_stock(lengths, stock.length, kerf)]
        for at, stock in enumerate(stocks)
        if stock.length >= longest
    ]
    if not plans:
        message = f"a length of {longest} can't be cut from any stock"
        raise ValueError(message)
    plans.append(_cheapest_first(lengths, stocks, kerf))
    exchanged = [_exchanged(plan, lengths, stocks, kerf) for plan in plans]
    return min(exchanged, key=lambda plan: (cost_of(plan, stocks), len(plan)))


def cost_of(plan: Sequence[Cut], stocks: Sequence[Stock]) -> Decimal:
    """Cost of a plan."""
    return sum((stocks[cut.stock].cost for cut in plan), Decimal(0))


def _cheapest_first(lengths: Sequence[int], stocks: Sequence[Stock], kerf: int) -> list[Cut]:
    """Cut the longest that is left from the stock that costs least for the length it yields."""
    waiting = sorted(range(len(lengths)), key=lambda i: -lengths[i])
    plan: list[Cut] = []
    while waiting:
        first, rest = waiting[0], waiting[1:]
        ways: list[tuple[Decimal, int, Cut]] = []
        for at, stock in enumerate(stocks):
            room = stock.length - lengths[first]
            if room < 0:
                continue
            filled = fill_stock([lengths[i] + kerf for i in rest], room)
            chosen = (first, *(rest[i] for i in filled))
            used = sum(lengths[i] for i in chosen)
            ways.append((stock.cost / used, -used, Cut(at, chosen)))
        best = min(ways, key=lambda way: way[:2])[2]
        plan.append(best)
        taken = set(best.wanted)
        waiting = [i for i in waiting if i not in taken]
    return plan


def _exchanged(
    plan: Sequence[Cut], lengths: Sequence[int], stocks: Sequence[Stock], kerf: int
) -> list[Cut]:
    """Take for each cut the cheapest stock that holds it, the shortest of equal ones."""
    changed = []
    for cut in plan:
        used = sum(lengths[i] + kerf for i in cut.wanted) - kerf
        fitting = [at for at, stock in enumerate(stocks) if stock.length >= used]
        at = min(fitting, key=lambda i: (stocks[i].cost, stocks[i].length))
        changed.append(Cut(at, cut.wanted))
    return changed
