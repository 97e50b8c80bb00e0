"""Quantities: the lines of a takeoff, and the plans they come from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from sheetcalc.domain.finding import IN_ROOMS, Finding, RowRef
from sheetcalc.domain.finish import Bond, SurfaceKind
from sheetcalc.domain.measure import Unit
from sheetcalc.domain.room import Point, Region, Ring, Room


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


@dataclass(frozen=True, slots=True)
class WasteUsed:
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


@dataclass(frozen=True, slots=True)
class QuantityLine:
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
    def net_shown(self) -> float:
        """Quantity for all alike rooms, in ``unit``, as a sheet works it out."""
        return self.each_shown * self.count

    @property
    def gross_shown(self) -> float:
        """Quantity with waste, in ``unit``, as a sheet works it out; never rounded here."""
        return self.net_shown * (1 + (self.waste.share if self.waste else 0.0))

    @property
    def net_si(self) -> float:
        """Quantity for all alike rooms, before waste."""
        return self.each_si * self.count

    @property
    def gross_si(self) -> float:
        """Quantity with waste; never rounded here."""
        return self.net_si * (1 + (self.waste.share if self.waste else 0.0))


class CutShape(StrEnum):
    """What a person at the saw has to do to a tile."""

    STRAIGHT = "straight"
    CORNER = "corner"
    NOTCHED = "notched"
    OBLIQUE = "oblique"
    SPLIT = "split"
    DRILLED = "drilled"  # otherwise whole


@dataclass(frozen=True, slots=True)
class CutPiece:
    """Alike cut pieces of one surface.

    Attributes
    ----------
    shape
        Kind of cut.
    length_mm320, width_mm320
        Bounding sizes along the tile's length and width.
    outline
        The piece's own outline in the tile's frame (origin at the tile's corner).
    count
        How many alike in the surface.
    holes
        Round holes drilled in each.
    factory_edges
        Which of the tile's edges the piece keeps: any of ``left right bottom top``.
    taken_from
        Where the piece comes from: "" for a new tile, else words ("offcut of cut 3").
    openings
        Straight-sided holes in it, clockwise.
    """

    shape: CutShape
    length_mm320: int
    width_mm320: int
    outline: Ring
    count: int
    holes: int = 0
    factory_edges: frozenset[str] = frozenset()
    taken_from: str = ""
    openings: tuple[Ring, ...] = ()


@dataclass(frozen=True, slots=True)
class SettingOut:
    """Where the tiles of one surface lie, counted.

    Attributes
    ----------
    origin
        A tile corner in the surface's frame (the start point) [1/320 mm].
    module_mm320
        Tile plus joint along the two axes, after Run [1/320 mm].
    whole, cut, holed
        Whole tiles without a hole; tiles with a cut edge; tiles drilled (a tile may be both cut
        and holed; whole tiles that are drilled count as holed and as whole).
    tiles_opened
        Tiles taken from boxes: whole, plus cut ones less what comes from offcuts.
    pieces
        The cut list of the surface.
    smallest_cut_mm320
        Shortest chord of any cut piece; None where nothing is cut.
    balance_mm320
        Largest difference between opposite edge cuts; 0 is balanced.
    lower_bound
        No layout needs fewer tiles.
    joint_area_m2
        Area of joints between tiles, for grout.
    joint_length_m
        Length of tile edges with a neighbour, each joint once.
    crossings
        Joint crossings, for spacers.
    by_area
        Counted by area and module instead of a setting-out.
    searched
        Words: how the origin was found, and whether it is proven best.
    start
        Words: where to start, to mark with a tape, and which row to lay first.
    splits
        Cut tiles that fall into several parts.
    tile_rects
        Left, front, right, far of every tile placed; empty unless asked for: drawings take
        theirs from ``geometry.setting_out.drawing.tiles_of``.
    start_left_mm320, start_front_mm320
        Near left corner of the first tile to lay: from the surface's left edge and from its near
        edge (bottom on a wall), measured along that tile's row and column.
    chips_whole, chips_cut
        Mosaic: chips laid; tiles are sheets then.
    small
        Cut tiles with a chord below the smallest cut wanted.
    turn_degrees
        Direction of the tile's length in the surface's frame, counter-clockwise.
    laid_rows
        How rows step: "" , "to the right" or "to the left" going away from the door.
    neck_mm320
        Thinnest strip of tile left beside a round hole; None where there is none.
    face_mm320
        Long and short side of the tile as cut pieces are drawn in it; of a mosaic, the sheet.
    sheet_chips
        Chips along and across in a mosaic sheet; (0, 0) for plain tile.
    anchor
        Near left corner of one tile of the bond's first row, in the tile's frame (the surface's
        turned back by ``turn_degrees``), for drawings [1/320 mm].
    joint_edges
        Stretches of the outline where half a joint was left instead of the perimeter gap.
    gap_mm320
        Perimeter gap that was taken off first [1/320 mm]; -1 where tiles were counted by area.
    opened_mean
        Tiles opened, averaged over alike rooms that share offcuts with the whole job; equal to
        ``tiles_opened`` otherwise; 0 where offcuts were not looked at.
    tiles_by_area
        Counted by area: tiles before any rounding.
    through, through_at
        Regions, in this surface's frame, of all surfaces that are laid through as one with this,
        in their order, and which of them it is; a tile belongs to the one that holds most of it.
        Empty for a surface by itself.
    hips
        Lines, from the drain to the corners, where tiles too large for a four-way fall are cut.
    hip_mm320
        Width of the joint along them [1/320 mm].
    """

    room: str
    surface: str
    kind: SurfaceKind
    tile: str
    bond: Bond
    run_label: str
    joint_mm320: int
    region: Region
    origin: Point
    module_mm320: Point
    whole: int
    cut: int
    holed: int
    tiles_opened: int
    pieces: tuple[CutPiece, ...]
    smallest_cut_mm320: int | None
    balance_mm320: int
    lower_bound: int
    area_m2: float
    joint_area_m2: float
    joint_length_m: float
    crossings: int
    by_area: bool = False
    searched: str = ""
    start: str = ""
    splits: int = 0
    findings: tuple[Finding, ...] = ()
    tile_rects: tuple[tuple[int, int, int, int], ...] = ()
    start_left_mm320: int = 0
    start_front_mm320: int = 0
    chips_whole: int = 0
    chips_cut: int = 0
    small: int = 0
    turn_degrees: float = 0.0
    laid_rows: str = ""
    neck_mm320: int | None = None
    face_mm320: Point = (0, 0)
    sheet_chips: Point = (0, 0)
    anchor: tuple[float, float] = (0.0, 0.0)
    joint_edges: tuple[tuple[Point, Point], ...] = ()
    gap_mm320: int = -1
    opened_mean: float = 0.0
    tiles_by_area: float = 0.0
    through: tuple[Region, ...] = ()
    through_at: int = 0
    hips: tuple[tuple[Point, Point], ...] = ()
    hip_mm320: int = 0


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip of roll, or a piece of board, cut for one room.

    Attributes
    ----------
    item
        Code of the roll, mat or board that it is cut from.
    piece
        Which piece of the room it is, for the cutting list.
    length_mm320, width_mm320
        Along the roll, or a board's long side, and across it.
    left_mm320, front_mm320
        Near left corner on the surface; of no meaning for an upturn.
    turned
        Its length runs along Front of the surface instead of along Left.
    pool
        Item cell that names several codes priced against each other; "" where it names one.
    """

    item: str
    phase: str
    room: str
    surface: str
    piece: str
    length_mm320: int
    width_mm320: int
    left_mm320: int = 0
    front_mm320: int = 0
    turned: bool = False
    pool: str = ""


@dataclass(frozen=True, slots=True)
class PlacedStrip:
    """A strip with its place on a roll: number, distance from its start, distance from its edge.

    ``leftover_of`` names the phase whose roll is used up; empty for a roll of the plan's own.
    """

    strip: Strip
    roll: int
    position_mm320: int
    across_mm320: int = 0
    leftover_of: str = ""


@dataclass(frozen=True, slots=True)
class Leftover:
    """Rest of a roll, in full width, from a position to its end."""

    phase: str
    roll: int
    position_mm320: int
    length_mm320: int


@dataclass(frozen=True, slots=True)
class RollPlan:
    """How the rolls of one item are cut in one phase.

    Attributes
    ----------
    rolls
        Rolls to buy.
    lower_bound
        No plan of the same strips needs fewer.
    bound_by
        Words: what the bound is worked from.
    leftovers
        Rests worth keeping, of this phase's rolls and of earlier ones.
    by_length
        Stretches of a band in the order of the rooms: a list for the person on the roll, whose
        packs come from the order's length and allowance.
    """

    item: str
    phase: str
    rolls: int
    placed: tuple[PlacedStrip, ...]
    lower_bound: int
    basis: str
    leftovers: tuple[Leftover, ...] = ()
    bound_by: str = "area"
    by_length: bool = False


@dataclass(frozen=True, slots=True)
class StockShare:
    """Part of a surface's strips that is cut from one of several items named together.

    ``each_m2`` is for one room, averaged over alike rooms.
    """

    surface: str
    pool: str
    item: str
    each_m2: float


@dataclass(frozen=True, slots=True)
class CableRow:
    """One row of a laid cable, in the order of laying, for the fitter's list.

    Attributes
    ----------
    number
        From the start at the thermostat.
    offset_m
        Distance of the row from the room's near wall (or left wall, where rows run along it) [m].
    length_m
        Cable used by the row and the turn after it [m].
    running_m
        Cable used from the start to the end of that turn [m].
    skip
        Knobs from this row to the next; 0 where the spacing is free.
    to_next_m
        Distance to the next row [m].
    """

    number: int
    offset_m: float
    length_m: float
    running_m: float
    skip: int = 0
    to_next_m: float = 0.0


@dataclass(frozen=True, slots=True)
class CablePlan:
    """One cable in one zone of one room, and the circuit it hangs on.

    Attributes
    ----------
    spacing_m
        Mean spacing: free floor by length.
    planned_m
        Length of the drawn path; for a provisional plan free floor by target spacing.
    density_w_m2
        Power by free floor.
    circuit_amperes
        Standard size for 125 % of the load of everything on the circuit; 0 where none is enough.
    thermostat_share
        Load of everything on the thermostat by its rating.
    path
        Corners of the drawn path in the room's frame, corners not yet rounded [m].
    corner_radius_m
        Radius of its corners [m].
    rows_list, check_lengths_m
        For the fitter: every row, and two places (row, running length) to check on the way.
    sensor
        Where the sensor lies, midway between two runs [m].
    unheated_share
        Share of the free floor farther than half the widest spacing from the cable.
    lead_needed_m
        Length of cold lead from the splice to the thermostat [m]; None where unknown.
    circuits
        Circuit of each of the alike rooms, in the order of ``copies``.
    circuits_begun
        Circuits whose first load is this one, over all alike rooms; None: one for each room.
    circuit_load_amperes
        Load of everything on the circuit; 0 until circuits are assigned.
    load_amperes
        Load of everything of the room on the same thermostat; 0 where it is this cable alone.
    tolerance_rows
        First and last of the rows that can take up what the cable's own length differs by.
    """

    room: str
    copies: tuple[str, ...]
    phase: str
    zone: str
    surface: str
    cable: str
    watts: float
    volts: float
    length_m: float
    spacing_m: float
    rows: int
    planned_m: float
    free_area_m2: float
    density_w_m2: float
    amperes: float
    resistance_ohm: float
    resistance_low_ohm: float
    resistance_high_ohm: float
    circuit: str
    circuit_amperes: float
    thermostat: str
    provisional: bool
    basis: str
    path: tuple[tuple[float, float], ...] = ()
    source: RowRef = IN_ROOMS
    thermostat_share: float = 0.0
    corner_radius_m: float = 0.0
    rows_along: str = ""  # "length" or "width" of the room
    rows_list: tuple[CableRow, ...] = ()
    check_lengths_m: tuple[tuple[int, float], ...] = ()
    sensor: tuple[float, float] | None = None
    spacing_words: str = ""
    unheated_share: float = 0.0
    unheated_m2: float = 0.0
    lead_needed_m: float | None = None
    lead_m: float | None = None
    lead_path: tuple[tuple[float, float], ...] = ()
    leads: str = "both ends"
    temperature_coefficient_per_k: float | None = None
    length_tolerance: float | None = None
    warm_up_minutes: float | None = None
    kwh_a_day: float | None = None
    free_floor: tuple[tuple[tuple[float, float], ...], ...] = ()
    circuits: tuple[str, ...] = ()
    circuits_begun: int | None = None
    circuit_load_amperes: float = 0.0
    load_amperes: float = 0.0
    tolerance_rows: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class RoomWork:
    """A room with its plans: what a line of the takeoff is worked from.

    ``strips`` are those of one room, of the items that the roll plan chose; ``stock`` tells how
    they were shared out where a build-up names several items.
    """

    room: Room
    setting_outs: Mapping[str, SettingOut] = field(default_factory=dict)
    strips: tuple[Strip, ...] = ()
    cables: tuple[CablePlan, ...] = ()
    stock: tuple[StockShare, ...] = ()
