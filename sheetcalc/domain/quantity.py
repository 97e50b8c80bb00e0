"""Quantities: the lines of a takeoff."""

from enum import StrEnum

from msgspec import Struct

from sheetcalc.domain.finding import IN_ROOMS, RowRef
from sheetcalc.domain.measure import Unit


class PackBy(StrEnum):
    """What a pack of the item holds, and so which catalogue column an order divides by."""

    PIECES_PER_BOX = "pieces per box"
    YIELD = "yield"
    COVERAGE = "coverage"
    PACK_SIZE = "pack size"
    LENGTH = "length"  # a roll's Length, where pieces may be joined (bands)
    EACH = "each"  # a pack is one piece (boards, mats): the need is in pieces, maybe a fraction
    PLAN = "plan"  # whole packs come from a plan (rolls, cables); nothing is divided
    NONE = "none"  # not bought: a count, a caution, a duration


class WasteUsed(Struct, frozen=True, cache_hash=True):
    """The waste factor that a line uses.

    Attributes
    ----------
    share
        0.10 for 10 %.
    source
        Row of Waste factors, or None when it is the line's stated default.
    criteria
        Values of Line, Finish, Bond and Counted by in the row that won ("" for an empty cell), so
        that a live formula can find that row by key.
    note
        Words for the Basis: which row, or which default and its source.
    """

    share: float
    source: RowRef | None
    criteria: tuple[str, str, str, str] | None
    note: str


class QuantityLine(Struct, frozen=True):
    """One quantity of one room, worked once for each of ``count`` alike rooms.

    Attributes
    ----------
    line
        Key of the line (``tile``, ``mortar``, ``grout``…), as in the Waste factors tab.
    surface
        Key of the surface that it belongs to, "" for the room or "job" for the whole job.
    item
        Code of what is bought; "" where nothing is.
    each_si
        Quantity for one room, before waste [SI unit of ``unit``'s dimension, or pieces].
    unit
        Unit that it is shown and ordered in.
    waste
        Allowance; None where whole packs come from a plan, or nothing is bought.
    pack_by
        How an order turns it into packs.
    basis
        The working in words, with the rule and its source.
    tab
        Catalogue tab that ``item`` stands in; "" where its code is in one tab only.
    by_box
        Row of a tile, and the share of the quantity that is divided by its Pieces per box.
    """

    line: str
    phase: str
    room: str
    count: int
    surface: str
    item: str
    description: str
    each_si: float
    unit: Unit
    waste: WasteUsed | None
    pack_by: PackBy
    basis: str
    source: RowRef = IN_ROOMS
    tab: str = ""
    by_box: tuple[RowRef, float] | None = None

    @property
    def each_shown(self) -> float:
        """Quantity for one room, before waste, in ``unit``."""
        return self.unit.from_si(self.each_si)

    @property
    def with_waste(self) -> float:
        """Factor from net to gross."""
        return 1 + (self.waste.share if self.waste else 0.0)

    @property
    def net_and_gross_shown(self) -> tuple[float, float]:
        """Quantity for all alike rooms, without waste and with, as a sheet works them out."""
        net = self.each_shown * self.count
        return net, net * self.with_waste

    @property
    def gross_shown(self) -> float:
        """Quantity with waste, in ``unit``, as a sheet works it out; never rounded here."""
        return self.net_and_gross_shown[1]

    @property
    def net_si(self) -> float:
        """Quantity for all alike rooms, before waste."""
        return self.each_si * self.count
