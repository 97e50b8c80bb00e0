"""What to carry to a room: the items of its takeoff lines, each once, with waste."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from sheetcalc.domain.catalogue import Buyable, Cable, Catalogue
from sheetcalc.domain.measure import PIECE, Unit
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.rules.pack_contents import UnknownPackError, pack_in, package_of
from sheetcalc.rules.packages import counted_noun


class Carried(Struct, frozen=True):
    """One item for one room.

    Attributes
    ----------
    quantity
        With waste, for one of the alike rooms, in ``unit``.
    packs
        About how many packs that is, in words; "" where packs say nothing.
    """

    item: str
    description: str
    quantity: float
    unit: Unit
    packs: str


def carried(
    lines: Iterable[QuantityLine], work: RoomWork, catalogue: Catalogue, words: Words = ENGLISH
) -> tuple[Carried, ...]:
    """Add up the lines of a room item by item, in the order in which they are used.

    Parameters
    ----------
    lines
        Of the room.
    work
        The room with its strips.
    catalogue
        What a pack holds.
    words
        The office's.

    Returns
    -------
    tuple of Carried
        Counts, waits and cautions are left out: nothing is carried for them.
    """
    together: dict[tuple[str, Unit], list[QuantityLine]] = {}
    for line in lines:
        if line.item:
            together.setdefault((line.item, line.unit), []).append(line)
    strips = Counter(strip.item for strip in work.strips)
    return tuple(
        Carried(
            item,
            same[0].description,
            sum(one_room(line) for line in same),
            unit,
            _packs(same, _found(catalogue, same[0]), strips, words),
        )
        for (item, unit), same in together.items()
    )


def one_room(line: QuantityLine) -> float:
    """Quantity of one room with waste, in the line's unit; never rounded."""
    return line.each_shown * line.with_waste


def _found(catalogue: Catalogue, line: QuantityLine) -> Buyable | None:
    tables: Sequence[Mapping[str, Buyable]] = (
        catalogue.tiles,
        catalogue.bags,
        catalogue.rolls,
        catalogue.cables,
        catalogue.sundries,
    )
    return next((table[line.item] for table in tables if line.item in table), None)


def _packs(
    lines: Sequence[QuantityLine], item: Buyable | None, strips: Counter[str], words: Words
) -> str:
    if item is None or isinstance(item, Cable):
        return ""
    if any(line.pack_by is PackBy.PLAN for line in lines):
        return _counted(strips[item.code], "strip", words) if strips[item.code] else ""
    try:
        packs = sum(one_room(line) / pack_in(item, line.pack_by, line.unit) for line in lines)
    except UnknownPackError:
        return ""
    package = package_of(item)
    if package == PIECE.symbol:
        return ""
    return _counted(round(packs + 0.0499, 1), package, words)


def _counted(number: float, noun: str, words: Words) -> str:
    return f"{number:g} {words.say(counted_noun(number, noun))}"
