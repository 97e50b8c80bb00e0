"""Setting-outs: where the tiles of one surface lie, and the pieces cut for it."""

from enum import StrEnum

from msgspec import Struct

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Bond, SurfaceKind
from sheetcalc.domain.room import Point, Region, Ring


class CutShape(StrEnum):
    """What a person at the saw has to do to a tile."""

    STRAIGHT = "straight"
    CORNER = "corner"
    NOTCHED = "notched"
    OBLIQUE = "oblique"
    SPLIT = "split"
    DRILLED = "drilled"  # otherwise whole


class CutPiece(Struct, frozen=True):
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


class SettingOut(Struct, frozen=True):
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
    start_left_mm320, start_front_mm320
        Near left corner of the first tile to lay: from the surface's left edge and from its near
        edge (bottom on a wall), measured along that tile's row and column.
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
        in their order, and which of them it is; a tile belongs to the one that holds most of it,
        and so does each piece of a tile that is cut apart.
        Empty for a surface by itself.
    beyond
        Names of the doorways of the room that the tile runs on through.
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
    start_left_mm320: int = 0
    start_front_mm320: int = 0
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
    beyond: tuple[str, ...] = ()
    hips: tuple[tuple[Point, Point], ...] = ()
    hip_mm320: int = 0
