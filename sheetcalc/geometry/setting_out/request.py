"""What is asked of one setting-out, in the tile's frame."""

import math
from collections.abc import Collection
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.domain.catalogue import Tile
from sheetcalc.domain.finish import BondKind, SurfaceKind, SurfaceSpec
from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Surface, Wall
from sheetcalc.geometry.setting_out.choice import Lattice
from sheetcalc.geometry.setting_out.slabs import Segment
from sheetcalc.rules.counting import joint_of

UPRIGHT = frozenset({SurfaceKind.WALL, SurfaceKind.WET_AREA, SurfaceKind.NICHE, SurfaceKind.BASE})

Given: TypeAlias = tuple[int | None, int | None]
"""Left and front of a tile's near left corner, each where it is given [1/320 mm]."""

Start: TypeAlias = tuple[Given, float | None]
"""Tile corner, and direction of the tiles where that is given, too [degrees]."""

FREE: Final[Start] = (None, None), None
"""Nothing is given."""


class Request(Struct, frozen=True):
    """One surface to set out.

    Attributes
    ----------
    length, width
        Long and short side of the tile's face, or of a mosaic's chip [1/320 mm].
    joint
        Grout joint [1/320 mm].
    degrees
        Direction of the long side in the surface's frame, counter-clockwise, in [0, 180).
    sheet
        Chips along and across in a mosaic sheet; None for a plain tile.
    joint_edges
        Stretches of the outline where another tiled surface of the same plane goes on.
    walls
        Named walls of the room, to measure the first tile from.
    handed
        Whether the room is the mirrored one of a pair.
    """

    room: str
    surface: Surface
    spec: SurfaceSpec
    tile: Tile
    job: Job
    length: int
    width: int
    joint: int
    degrees: float
    sheet: tuple[int, int] | None
    joint_edges: tuple[Segment, ...]
    walls: tuple[Wall, ...] = ()
    handed: bool = False

    @property
    def quarter_turns(self) -> int | None:
        """Quarter turns of the tile's frame, or None where it is oblique."""
        return None if self.degrees % 90 else round(self.degrees / 90)

    @property
    def gap(self) -> int:
        """Perimeter gap to take off first [1/320 mm].

        The Job's where walls and fixtures restrain the tile; a joint in a niche; none on a curb
        and in a base course, whose tile ends flush at edges and corners.  Common practice, no
        source.
        """
        kind = self.surface.kind
        if kind in {SurfaceKind.CURB, SurfaceKind.BASE}:
            return 0
        gap = self.job.perimeter_gap_mm320
        return min(self.joint, gap) if kind is SurfaceKind.NICHE else gap

    @property
    def small_length(self) -> float:
        """Cuts along the tile shorter than this are small [1/320 mm]."""
        return self.job.smallest_cut_share * self.length

    @property
    def small_width(self) -> float:
        """Cuts across the tile narrower than this are small [1/320 mm]."""
        return self.job.smallest_cut_share * self.width


def request(  # noqa: PLR0913, PLR0917 - the parts of one request
    room: str,
    surface: Surface,
    spec: SurfaceSpec,
    tile: Tile,
    job: Job,
    joint_edges: Collection[Segment] = (),
) -> Request:
    """Turn records into a request: sizes, joint, direction, mosaic sheet."""
    joint = joint_of(spec, job)
    length, width = tile.length_mm320, tile.width_mm320
    sheet = tile.chips(joint)
    if tile.chip_length_mm320 and tile.chip_width_mm320:
        length, width = tile.chip_length_mm320, tile.chip_width_mm320
    if length < width:
        length, width = width, length
        sheet = (sheet[1], sheet[0]) if sheet else None
    return Request(
        room,
        surface,
        spec,
        tile,
        job,
        length,
        width,
        joint,
        direction(surface, spec),
        sheet,
        (*surface.joined_edges, *joint_edges),
    )


def is_upright(surface: Surface) -> bool:
    """Whether a surface stands: left and bottom are measured on it, and courses are level."""
    return surface.kind in UPRIGHT or surface.key.startswith("wall ")


def direction(surface: Surface, spec: SurfaceSpec) -> float:
    """Direction of the tile's long side [degrees], counter-clockwise from the surface's left.

    Along the long side of a wall means level, as its courses run, also on a wall that is taller
    than long: so all walls of a room have the same courses.  Degrees are taken as given; a
    diagonal grid along a side lies at 45 degrees to it.
    """
    run = spec.run
    if run.along == "degrees":
        return run.degrees % 180
    if run.along == "floor" and is_upright(surface):
        return 0.0
    if not surface.region.patches:
        return 0.0
    left, front, right, far = surface.region.bounds
    level = right - left >= far - front or is_upright(surface)
    degrees = 0.0 if level == (run.along != "short") else 90.0
    if spec.bond.kind is BondKind.DIAGONAL_GRID:
        degrees += 45.0
    return degrees


def lattice_of(req: Request) -> Lattice:
    """Describe the bond of a grid or 1/n request as lattices.

    The grid is finer than 1/320 mm by twice the bond's divisor, so that halves and steps of 1/n
    are whole.
    """
    bond = req.spec.bond
    parts = bond.divisor if bond.kind is BondKind.OFFSET and not req.sheet else 1
    steps = (0,) if parts == 1 else ((0, 1) if bond.alternate else tuple(range(parts)))
    scale = 2 * parts
    pitch = (req.length + req.joint) * scale
    return Lattice(
        length=req.length * scale,
        width=req.width * scale,
        pitch=pitch,
        rise=(req.width + req.joint) * scale,
        part=pitch // parts,
        steps=steps,
        small_length=math.ceil(req.small_length * scale),
        small_width=math.ceil(req.small_width * scale),
        scale=scale,
    )
