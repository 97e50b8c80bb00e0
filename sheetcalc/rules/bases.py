"""The closed list of bases by which sundries are bought and labour is timed.

A rate is pack units (or hours) for one of the basis.  Areas are in the Job's unit of area, so that
a rate typed for square feet is for square feet; metres, feet, kilograms and pounds are what their
names say, whatever the Job's units.
"""

from collections.abc import Iterator
from enum import StrEnum
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.measure import FOOT, KILOGRAM, METRE, POUND, Unit


class BasisUnit(StrEnum):
    """What one of a basis is."""

    COUNT = "count"
    METRE = "m"
    FOOT = "ft"
    AREA = "area"  # the Job's unit of area
    KILOGRAM = "kg"
    POUND = "lb"


UNITS: Final[dict[BasisUnit, Unit]] = {
    BasisUnit.METRE: METRE, BasisUnit.FOOT: FOOT,
    BasisUnit.KILOGRAM: KILOGRAM, BasisUnit.POUND: POUND,
}  # fmt: skip
"""Units of the bases that name theirs."""


class Basis(Struct, frozen=True):
    """One basis.

    Attributes
    ----------
    key
        As in the Basis column.
    unit
        What one of it is.
    about
        What is measured, for help and ``sheetcalc explain``.
    once_a_job
        Measured once for the whole job, not for each room.
    needs_of
        The Of column must name an item.
    taken
        What is taken for granted in measuring; the Basis of a line says it.
    of_tiles
        Measured on tiled surfaces, so that a Surface narrows it.
    same_as
        Key of the basis that measures the same in metres or kilograms; "" for itself.
    """

    key: str
    unit: BasisUnit
    about: str
    once_a_job: bool = False
    needs_of: bool = False
    taken: str = ""
    of_tiles: bool = False
    same_as: str = ""

    @property
    def measured_by(self) -> str:
        """Key of the basis that measures it in SI units."""
        return self.same_as or self.key


_COUNT, _METRE, _AREA = BasisUnit.COUNT, BasisUnit.METRE, BasisUnit.AREA

_ALL: Final[tuple[Basis, ...]] = (
    Basis("per room", _COUNT, "each room, once"),
    Basis("per job", _COUNT, "the whole job, once", once_a_job=True),
    Basis("per area of tile", _AREA, "area of the tiled surfaces", of_tiles=True),
    Basis("per area of floor", _AREA, "area of the room's outline, fixtures included"),
    Basis("per tile", _COUNT, "tiles opened (by setting-out) or by area and module", of_tiles=True),
    Basis("per cut", _COUNT, "tiles with a cut edge", of_tiles=True),
    Basis("per hole", _COUNT, "round holes drilled in tiles", of_tiles=True),
    Basis("per m of joint", _METRE, "joints between tiles, each once", of_tiles=True),
    Basis("per m of perimeter", _METRE, "round the room's outline, doorways included"),
    Basis(
        "per m of doorway",
        _METRE,
        "widths of doorways, but those that the floor's tile runs on through",
    ),
    Basis("per cable", _COUNT, "heating cables of the room"),
    Basis("per circuit", _COUNT, "heating circuits that begin in the room"),
    Basis("per thermostat", _COUNT, "thermostats that switch the room's heating cables"),
    Basis("per drain", _COUNT, "floor drains"),
    Basis("per pipe", _COUNT, "pipes and toilet outlets through floors that are made waterproof"),
    Basis(
        "per m of open tile edge",
        _METRE,
        "edges of tiled surfaces that end in nothing: tops, bottoms that hang, outside corners, "
        "niches, openings",
        taken="the room's highest wall faces are taken to reach the ceiling where they are 2.1 m "
        "(6 ft 11 in) high or more",
        of_tiles=True,
    ),
    Basis(
        "per inside corner",
        _COUNT,
        "inside corners of the waterproofed parts (pan, curb, niches); with Surface floor, wall or "
        "base those of the room's outline",
    ),
    Basis(
        "per outside corner",
        _COUNT,
        "outside corners of the waterproofed parts (pan, curb, niches); with Surface floor, wall "
        "or base those of the room's outline",
    ),
    Basis(
        "per kg of another item",
        BasisUnit.KILOGRAM,
        "net mass of the item named in Of, packs in parts of a pack",
        needs_of=True,
    ),
    Basis(
        "per joint crossing",
        _COUNT,
        "places where joints meet, of mosaic between its sheets",
        of_tiles=True,
    ),
    Basis(
        "per tile edge",
        _COUNT,
        "tile edges with a neighbour, each joint once, of mosaic its sheets'",
        of_tiles=True,
    ),
    Basis("per m of band", _METRE, "band of the waterproofing"),
    Basis("per area made waterproof", _AREA, "waterproofed surfaces with their upturns, one coat"),
    Basis("per area taken up", _AREA, "floor whose covering is taken up"),
    Basis("per doorway", _COUNT, "doorways, but those that the floor's tile runs on through"),
    Basis("per niche", _COUNT, "niches"),
    Basis("per bath", _COUNT, "baths"),
    Basis("per curb", _COUNT, "curbs"),
    Basis("per shower floor", _COUNT, "tiled shower floors"),
)

_IN_US_UNITS: Final = {
    BasisUnit.METRE: ("per m of", "per ft of", BasisUnit.FOOT),
    BasisUnit.KILOGRAM: ("per kg of", "per lb of", BasisUnit.POUND),
}


def _with_us_units(bases: tuple[Basis, ...]) -> Iterator[Basis]:
    """Every basis, those by the metre and the kilogram once more by the foot and the pound."""
    for basis in bases:
        yield basis
        if basis.unit in _IN_US_UNITS:
            metric, other, unit = _IN_US_UNITS[basis.unit]
            key = basis.key.replace(metric, other)
            yield replace(basis, key=key, unit=unit, same_as=basis.key)


BASES: Final[dict[str, Basis]] = {basis.key: basis for basis in _with_us_units(_ALL)}
"""Every basis by its key, in the order of the drop-down."""
