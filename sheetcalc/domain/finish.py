"""Finishes: which tile lies on which surface, how it is laid, and the layers under it."""

from collections.abc import Mapping
from enum import StrEnum

from msgspec import Struct

from sheetcalc.domain.finding import RowRef


class SurfaceKind(StrEnum):
    """The tiled surfaces that a finish may have."""

    FLOOR = "floor"
    INSET = "inset"
    SHOWER_FLOOR = "shower floor"
    WALL = "wall"
    WET_AREA = "wet area"
    CURB = "curb"
    NICHE = "niche"
    BASE = "base"


class BondKind(StrEnum):
    """Families of tile pattern."""

    GRID = "grid"
    OFFSET = "offset"
    DIAGONAL_GRID = "diagonal grid"
    HERRINGBONE = "herringbone"
    DOUBLE_HERRINGBONE = "double herringbone"
    BASKET_WEAVE = "basket weave"


class Bond(Struct, frozen=True):
    """A tile pattern: ``offset 1/3 alternate`` is kind offset, divisor 3, alternate."""

    kind: BondKind = BondKind.GRID
    divisor: int = 1
    alternate: bool = False

    @property
    def label(self) -> str:
        """As written in the Finishes tab."""
        if self.kind is not BondKind.OFFSET:
            return self.kind.value
        return f"offset 1/{self.divisor}" + (" alternate" if self.alternate else "")

    @property
    def ends_per_tile(self) -> int:
        """Joint crossings for each tile: 1 where four tiles meet, 2 where joints end in others."""
        return 1 if self.kind in {BondKind.GRID, BondKind.DIAGONAL_GRID} else 2


class Run(Struct, frozen=True):
    """Direction of the tile's long side: along a side, at an angle, or as the floor's."""

    along: str = "long"  # "long", "short", "degrees" or "floor"
    degrees: float = 0.0

    @property
    def label(self) -> str:
        """As written in the Finishes tab."""
        if self.along == "degrees":
            return f"{self.degrees:g} degrees"
        return "with the floor" if self.along == "floor" else f"along the {self.along} side"


class NotchShape(StrEnum):
    """Section of a trowel's notch."""

    SQUARE = "square"
    U = "U"
    V = "V"


class Notch(Struct, frozen=True):
    """A trowel's notch: width x depth x spacing (the tooth left between notches)."""

    shape: NotchShape
    width_mm320: int
    depth_mm320: int
    tooth_mm320: int


class SurfaceSpec(Struct, frozen=True):
    """How one surface of a finish is tiled.  Codes are as typed; None where the cell is empty."""

    finish: str
    surface: SurfaceKind
    tile: str | None
    bond: Bond
    run: Run
    joint_mm320: int | None
    notch: Notch | None
    trowel_angle_deg: float | None
    skim_mm320: int | None
    mortar: str | None
    grout: str | None
    sealant: str | None
    sealer: str | None
    heating_range: str | None
    source: RowRef


class LayerRole(StrEnum):
    """What a layer of the build-up does."""

    PRIMER = "primer"
    LEVELLING = "levelling compound"
    SCREED = "screed"
    INSULATION_BOARD = "insulation board"
    BACKER_BOARD = "backer board"
    UNDERLAY = "underlay"
    WATERPROOFING = "waterproofing"
    BAND = "band"
    CORNER = "corner"
    COLLAR = "collar"
    TRAY_FORMER = "tray former"


class Layer(Struct, frozen=True):
    """One layer under or behind a surface, in order from the base up.

    ``item`` may name several codes, set apart by ``;``, which are priced against each other.
    """

    finish: str
    surface: SurfaceKind
    order: int
    role: LayerRole
    item: str | None
    bed_mortar: str | None
    notch: Notch | None
    mean_depth_mm320: int | None
    coats: int | None
    up_walls_mm320: int | None
    note: str
    source: RowRef

    @property
    def items(self) -> tuple[str, ...]:
        """Codes that the Item cell names."""
        return codes_named(self.item)


def codes_named(item: str | None) -> tuple[str, ...]:
    """Codes in an Item cell of Build-up, set apart by ``;``."""
    return tuple(code for part in (item or "").split(";") if (code := part.strip()))


class Finish(Struct, frozen=True):
    """Everything that a named finish says, surface by surface."""

    name: str
    surfaces: Mapping[SurfaceKind, SurfaceSpec]
    layers: Mapping[SurfaceKind, tuple[Layer, ...]]

    def layer(self, surface: SurfaceKind, role: LayerRole) -> Layer | None:
        """First layer of a role under a surface, or None."""
        return next((x for x in self.layers.get(surface, ()) if x.role is role), None)
