"""What can be bought, from whom, and the allowances.

Records mirror the rows of the catalogue tabs; prices are Decimal money, None where not given.
``least_packs`` is the smallest number of packs that is sold, None for one; ``returnable`` tells
whether unopened packs are taken back.
"""

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.finding import RowRef
from sheetcalc.domain.measure import Unit


class PricePer(StrEnum):
    """What a tile's price is for."""

    BOX = "box"
    PIECE = "piece"
    AREA = "area"


class Tile(Struct, frozen=True):
    """A tile, or a mosaic sheet when chip sizes are given; sizes are face sizes without joint."""

    code: str
    supplier: str | None
    supplier_code: str | None
    description: str
    material: str
    edge: str  # "rectified", "calibrated", "pressed", "natural"
    length_mm320: int
    width_mm320: int
    thickness_mm320: int
    chip_length_mm320: int | None
    chip_width_mm320: int | None
    size_spread_mm320: int | None
    edge_warpage_mm320: int | None
    pieces_per_box: int
    price: Decimal | None
    price_per: PricePer
    box_weight_kg: float | None
    one_batch: bool
    lead_days: int | None
    source: RowRef
    least_packs: int | None = None
    returnable: bool = False

    def chips(self, joint_mm320: int) -> tuple[int, int] | None:
        """Chips along and across a sheet of mosaic; None for a plain tile.

        A sheet may be given with or without the joint round it: the nearest whole number of chips.
        """
        if not (self.chip_length_mm320 and self.chip_width_mm320):
            return None
        return (
            max(
                1, round((self.length_mm320 + joint_mm320) / (self.chip_length_mm320 + joint_mm320))
            ),
            max(1, round((self.width_mm320 + joint_mm320) / (self.chip_width_mm320 + joint_mm320))),
        )

    def module(self, joint_mm320: int) -> tuple[int, int]:
        """Length and width with the joint beside them [1/320 mm]; of a mosaic, of its chips'."""
        chips = self.chips(joint_mm320)
        if chips and self.chip_length_mm320 and self.chip_width_mm320:
            return (
                chips[0] * (self.chip_length_mm320 + joint_mm320),
                chips[1] * (self.chip_width_mm320 + joint_mm320),
            )
        return self.length_mm320 + joint_mm320, self.width_mm320 + joint_mm320


class BagKind(StrEnum):
    """Kinds of the Bags and pails tab."""

    MORTAR = "mortar"
    PREMIXED_MORTAR = "premixed mortar"
    GROUT = "grout"
    PREMIXED_GROUT = "premixed grout"
    SEALANT = "sealant"
    PRIMER = "primer"
    LEVELLING_COMPOUND = "levelling compound"
    LIQUID_WATERPROOFING = "liquid waterproofing"
    SEALER = "sealer"
    BACKER_ADHESIVE = "backer adhesive"


class Bag(Struct, frozen=True):
    """Something mixed, poured or spread, bought by the pack."""

    code: str
    supplier: str | None
    supplier_code: str | None
    description: str
    kind: BagKind
    pack_size: float
    pack_unit: Unit
    package: str  # word of the closed list, such as "bag"; its Rec 21 code is in rules.packages
    yield_m3: float | None
    coverage_m2: float | None
    pack_price: Decimal | None
    pack_weight_kg: float | None
    lead_days: int | None
    source: RowRef
    least_packs: int | None = None
    returnable: bool = False


class RollKind(StrEnum):
    """Kinds of the Rolls and sheets tab."""

    UNDERLAY_ROLL = "underlay roll"
    UNDERLAY_MAT = "underlay mat"
    WATERPROOFING_SHEET = "waterproofing sheet"
    BAND = "band"
    BACKER_BOARD = "backer board"
    INSULATION_BOARD = "insulation board"


class Roll(Struct, frozen=True):
    """A roll, a mat, a band or a board."""

    code: str
    supplier: str | None
    supplier_code: str | None
    description: str
    kind: RollKind
    width_mm320: int
    length_mm320: int
    thickness_mm320: int | None
    overlap_mm320: int  # 0: butted
    knob_pitch_mm320: int | None
    fill_m: float | None  # mortar volume per area that fills the knobs [m3/m2]
    one_way: bool
    package: str
    price: Decimal | None
    weight_kg: float | None
    lead_days: int | None
    source: RowRef
    least_packs: int | None = None
    returnable: bool = False


class Cable(Struct, frozen=True):
    """One fixed-length heating cable."""

    code: str
    supplier: str | None
    supplier_code: str | None
    description: str
    range_name: str
    length_mm320: int
    length_tolerance: float | None  # share of the length
    watts: float
    volts: float
    resistance_ohm: float | None
    temperature_coefficient_per_k: float | None
    leads: str  # "one end" or "both ends"
    cold_lead_mm320: int | None
    smallest_spacing_mm320: int | None
    bend_radius_mm320: int | None
    price: Decimal | None
    lead_days: int | None
    source: RowRef
    least_packs: int | None = None
    returnable: bool = False


class Sundry(Struct, frozen=True):
    """Anything bought by a rule: ``rate`` pack units for each unit of ``basis``."""

    code: str
    supplier: str | None
    supplier_code: str | None
    description: str
    basis: str  # key of rules.bases
    of_item: str | None
    rate: float
    finish: str | None
    surfaces: tuple[str, ...]  # kinds of surface that it is for; none for all
    pack_size: float
    pack_unit: Unit
    package: str
    pack_price: Decimal | None
    pack_weight_kg: float | None
    lead_days: int | None
    source: RowRef
    least_packs: int | None = None
    returnable: bool = False


class WasteFactor(Struct, frozen=True, cache_hash=True):
    """A waste factor; the most specific that matches a line wins."""

    line: str
    finish: str | None
    bond: str | None
    counted_by: str | None
    share: float  # 0.10 for 10 %
    source: RowRef


class LabourTask(Struct, frozen=True):
    """A task of the crew."""

    task: str
    basis: str
    finish: str | None
    surface: str | None
    hours_per_unit: float
    hourly_rate: Decimal | None
    day: int | None
    wait_hours: float | None
    note: str
    source: RowRef
    uses: tuple[str, ...] = ()  # keys of the takeoff's lines whose goods it needs

    @property
    def surfaces(self) -> tuple[str, ...]:
        """The kind of surface that it is for; none for all."""
        return (self.surface,) if self.surface else ()


class Supplier(Struct, frozen=True):
    """Who the orders go to."""

    name: str
    address: str
    email: str
    account: str
    minimum_order: Decimal | None
    delivery_charge: Decimal | None
    lead_days: int | None
    terms: str
    tax: float | None
    source: RowRef
    deliveries: str | None = None  # as the Job's setting; None: that one


Buyable: TypeAlias = Tile | Bag | Roll | Cable | Sundry
"""Any row of a catalogue tab that an order line can name."""


class Catalogue(Struct, frozen=True):
    """All catalogue tabs, by code.

    A code that stands again with another supplier is an alternative source: the first row is in
    the mapping, the others in ``alternatives``.
    """

    tiles: Mapping[str, Tile]
    bags: Mapping[str, Bag]
    rolls: Mapping[str, Roll]
    cables: Mapping[str, Cable]
    sundries: Mapping[str, Sundry]
    waste_factors: tuple[WasteFactor, ...]
    labour: tuple[LabourTask, ...]
    suppliers: Mapping[str, Supplier]
    alternatives: Mapping[str, tuple[Buyable, ...]]
