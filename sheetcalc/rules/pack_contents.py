"""What a pack of a catalogue row holds, what it is called, and what it weighs."""

from collections.abc import Mapping
from typing import Final

from sheetcalc.domain.catalogue import Bag, Buyable, Cable, Roll, Sundry, Tile
from sheetcalc.domain.measure import EACH, PIECE, Dimension, Unit, mm320_to_m
from sheetcalc.domain.quantity import PackBy


class UnknownPackError(Exception):
    """The catalogue row does not say what a pack holds in the unit of the need."""


_WANTED: Final[Mapping[PackBy, str]] = {
    PackBy.PIECES_PER_BOX: "Pieces per box",
    PackBy.YIELD: "a Yield",
    PackBy.COVERAGE: "a Coverage",
    PackBy.PACK_SIZE: "a Pack size and a unit that converts to {unit}",
    PackBy.LENGTH: "a Length",
}


LEAST_YIELD_M3_PER_KG: Final = 0.3e-3
MOST_YIELD_M3_PER_KG: Final = 2.0e-3
"""What a kilogram of mortar, grout or levelling compound gives as mixed, wide: ready mixed about
0.6 L, powder 0.6 to 0.8 L, light powders up to 1.5 L (common practice, no source)."""


def usual_yield_m3(mass_kg: float) -> tuple[float, float]:
    """Least and most volume that a pack of some weight usually gives as mixed [m3].

    Common practice, no source; it is there to find a Yield typed in another unit.

    >>> usual_yield_m3(25.0)
    (0.0075, 0.05)
    """
    return mass_kg * LEAST_YIELD_M3_PER_KG, mass_kg * MOST_YIELD_M3_PER_KG


def pack_in(item: Buyable, pack_by: PackBy, unit: Unit) -> float:
    """Content of one pack of an item, in a unit.

    Parameters
    ----------
    item
        Row of a catalogue tab.
    pack_by
        Which of its columns says what a pack holds.
    unit
        Unit of the need.

    Raises
    ------
    UnknownPackError
        Where the row does not say it, or says it in another dimension.
    """
    content: float | None = None
    match item:
        case Tile() if pack_by in {PackBy.PIECES_PER_BOX, PackBy.PLAN}:
            content = float(item.pieces_per_box)
        case Bag() | Sundry() if pack_by is PackBy.PACK_SIZE:
            content = _converted(item.pack_size, item.pack_unit, unit)
        case Bag() if unit.dimension is Dimension.VOLUME and pack_by is PackBy.YIELD:
            content = None if item.yield_m3 is None else unit.from_si(item.yield_m3)
        case Bag() if unit.dimension is Dimension.AREA and pack_by is PackBy.COVERAGE:
            content = None if item.coverage_m2 is None else unit.from_si(item.coverage_m2)
        case Roll() if pack_by in {PackBy.PACK_SIZE, PackBy.LENGTH, PackBy.PLAN}:
            content = _of_roll(item, unit)
        case Cable() if pack_by is PackBy.PLAN and unit.dimension is Dimension.COUNT:
            content = 1.0
    if content is None and pack_by is PackBy.EACH and unit.dimension is Dimension.COUNT:
        content = 1.0
    if content is None or content <= 0:
        wanted = _WANTED.get(pack_by, "a pack counted in {unit}")
        raise UnknownPackError(wanted.format(unit=unit.symbol))
    return content


def _converted(size: float, size_unit: Unit, unit: Unit) -> float | None:
    if size_unit.dimension is not unit.dimension:
        return None
    return size if size_unit == unit else unit.from_si(size_unit.to_si(size))


def _of_roll(roll: Roll, unit: Unit) -> float | None:
    """Length, area or one piece, by the unit of the need."""
    length = mm320_to_m(roll.length_mm320)
    if unit.dimension is Dimension.LENGTH:
        return unit.from_si(length)
    if unit.dimension is Dimension.AREA:
        return unit.from_si(length * mm320_to_m(roll.width_mm320))
    return 1.0 if unit.dimension is Dimension.COUNT else None


def package_of(item: Buyable) -> str:
    """Package word of an item; tiles come in boxes, cables by the piece."""
    match item:
        case Tile():
            return "box"
        case Cable():
            return "piece"
        case Bag() | Roll() | Sundry():
            return item.package


def pack_weight(item: Buyable) -> float | None:
    """Weight of one pack [kg] as the catalogue has it, else of what it holds by weight.

    None where neither is known.
    """
    match item:
        case Tile():
            return item.box_weight_kg
        case Roll():
            return item.weight_kg
        case Bag() | Sundry():
            return item.pack_weight_kg or _contents_kg(item)
        case Cable():
            return None


def _contents_kg(item: Bag | Sundry) -> float | None:
    weighed = item.pack_unit.dimension is Dimension.MASS
    return item.pack_unit.to_si(item.pack_size) if weighed else None


def pack_as_sold(item: Buyable, long_length: Unit) -> tuple[float, Unit]:
    """Content of a pack as the supplier sells it, for the order that is sent.

    Parameters
    ----------
    item
        Row of a catalogue tab.
    long_length
        Unit that a roll's length is told in.

    Returns
    -------
    tuple
        Content and its unit: pieces of a box, the pack size of a bag, the length of a roll, one
        cable.
    """
    match item:
        case Tile():
            return float(item.pieces_per_box), PIECE
        case Bag() | Sundry():
            return item.pack_size, item.pack_unit
        case Roll():
            return long_length.from_si(mm320_to_m(item.length_mm320)), long_length
        case Cable():
            return 1.0, EACH
