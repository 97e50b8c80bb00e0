"""Surfaces of the walls: faces, wet areas, insets, niches, the reveals of openings.

Tile comes up to trim, or to the tile round the corner, with half a joint: the perimeter gap is for
inside corners and for what is not tiled (common practice, no source).
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Final

from msgspec import Struct, field

from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.room import PartKind, Region, Surface, WallFace
from sheetcalc.geometry.plane.contacts import Line, contact, length_of
from sheetcalc.geometry.plane.regions import difference, overlaps, rectangle
from sheetcalc.geometry.rooms.faces import WallSheet, rectangle_of
from sheetcalc.geometry.rooms.wall_edges import (
    LOWEST_CEILING_MM320,
    TiledStretch,
    WallEdges,
    sides_of,
)
from sheetcalc.geometry.rooms.walls import PlacedWall


class WallWork(Struct):
    """What the walls of a room come to.

    ``niche_bends`` are the inside edges of niches, ``reveal_bends`` those between the reveals of
    openings, ``frames`` where reveals end at a window or a door, of each kind of surface.
    ``planes`` has the length of the wall plane for every surface that is measured from a wall's
    left end.
    """

    surfaces: list[Surface] = field(default_factory=list)
    tiled: list[TiledStretch] = field(default_factory=list)
    niches: int = 0
    wet_niches: int = 0
    niche_bends_mm320: int = 0
    wet_niche_bends_mm320: int = 0
    reveal_bends_mm320: Counter[SurfaceKind] = field(default_factory=Counter)
    frames_mm320: Counter[SurfaceKind] = field(default_factory=Counter)
    planes: dict[str, int] = field(default_factory=dict)


def is_tiled(finish: Finish | None, kind: SurfaceKind) -> bool:
    """Whether a finish tiles a kind of surface; a finish that isn't known is taken to."""
    if finish is None:
        return True
    spec = finish.surfaces.get(kind)
    return spec is not None and spec.tile is not None


def wall_surfaces(
    sheets: Sequence[WallSheet],
    walls: Sequence[PlacedWall],
    finish: Finish | None,
    standing: Iterable[Line] = (),
    slack_mm320: int = 0,
) -> WallWork:
    """Surfaces of all walls; the sheets must be free of errors.

    Parameters
    ----------
    sheets
        Rows of each wall.
    walls
        Of the room.
    finish
        Tells which surfaces are tiled.
    standing
        Edges of what stands against walls under tile, and doorways: no edge above them is open.
    slack_mm320
        How far off its wall an edge may lie and still count [1/320 mm].
    """
    work = WallWork()
    for sheet in sheets:
        for row in (*sheet.faces, *sheet.parts):
            if row.part in (PartKind.FACE, PartKind.WET_AREA):
                _note_tiled(row, sheet, walls, finish, work)
    tops = (f.bottom_mm320 + f.height_mm320 for s in sheets for f in s.faces)
    ceiling = max((*tops, LOWEST_CEILING_MM320))
    any_wet = any(p.part is PartKind.WET_AREA for s in sheets for p in s.parts)
    only_wet = not is_tiled(finish, SurfaceKind.WALL)
    below = list(standing)
    for sheet in sheets:
        under = [
            contact(walls[index].line, below, slack_mm320) for index, _ in sheet.frame.stretches
        ]
        edges = WallEdges(sheet, walls, work.tiled, under, ceiling=ceiling, only_wet=only_wet)
        _SheetWork(sheet, edges, work, any_wet=any_wet).add()
    return work


def _note_tiled(
    row: WallFace,
    sheet: WallSheet,
    walls: Sequence[PlacedWall],
    finish: Finish | None,
    work: WallWork,
) -> None:
    wet = row.part is PartKind.WET_AREA
    if not is_tiled(finish, SurfaceKind.WET_AREA if wet else SurfaceKind.WALL):
        return
    heights = row.bottom_mm320, row.bottom_mm320 + row.height_mm320
    low, high = row.left_mm320, row.left_mm320 + row.length_mm320
    for index, along in sheet.frame.on_walls(low, high, walls):
        work.tiled.append(TiledStretch(index, along, heights, wet))


_UPRIGHT: Final = ("left", "right")
_LEVEL: Final = ("head", "sill")


def numbered(base: str, number: int) -> str:
    """Give the key of the first, second, … of several things on one wall."""
    return base if number == 1 else f"{base} no. {number}"


class _SheetWork:
    """Makes the surfaces of one wall."""

    def __init__(
        self, sheet: WallSheet, edges: WallEdges, work: WallWork, *, any_wet: bool
    ) -> None:
        self._sheet, self._edges, self._work, self._any_wet = sheet, edges, work, any_wet
        self._name = sheet.frame.name
        self._wet = [rectangle_of(p) for p in sheet.parts if p.part is PartKind.WET_AREA]
        self._joined = edges.joined()

    def add(self) -> None:
        parts = [(p, rectangle_of(p)) for p in self._sheet.parts]
        cut_from_wet = [r for p, r in parts if p.part is not PartKind.WET_AREA]
        dry, wet = self._edges.lengths()
        for number, face in enumerate(self._sheet.faces, 1):
            region = difference(rectangle_of(face), *(r for _, r in parts))
            edges = dry[number - 1]
            self._put(numbered(f"wall {self._name}", number), SurfaceKind.WALL, region, face, edges)
        counts: dict[PartKind, int] = {}
        for part, area in parts:
            counts[part.part] = number = counts.get(part.part, 0) + 1
            if part.part is PartKind.WET_AREA:
                key = numbered(f"wet area {self._name}", number)
                region = difference(area, *cut_from_wet)
                self._put(key, SurfaceKind.WET_AREA, region, part, wet[number - 1])
            elif part.part is PartKind.INSET:
                key = numbered(f"wall inset {self._name}", number)
                behind = SurfaceKind.WET_AREA if self._is_wet(area) else SurfaceKind.WALL
                self._put(key, SurfaceKind.INSET, area, part, let_into=behind)
            elif part.part is PartKind.NICHE:
                self._add_niche(numbered(f"niche {self._name}", number), part, area)
            else:
                self._add_reveals(numbered(f"opening {self._name}", number), part, area)

    def _put(  # noqa: PLR0913 - a surface has so many parts
        self,
        key: str,
        kind: SurfaceKind,
        region: Region,
        row: WallFace,
        edges: int = 0,
        *,
        let_into: SurfaceKind | None = None,
        joined: Sequence[Line] = (),
    ) -> None:
        if region.patches:
            if not key.startswith(("niche ", "opening ")):
                self._work.planes[key] = self._sheet.frame.length_mm320
                joined = self._joined
            self._work.surfaces.append(
                Surface(
                    key,
                    kind,
                    region,
                    open_edges_mm320=edges,
                    source=row.source,
                    joined_edges=tuple(joined),
                    let_into=let_into,
                )
            )

    def _is_wet(self, area: Region) -> bool:
        return any(overlaps(area, wet) for wet in self._wet)

    def _add_niche(self, key: str, part: WallFace, area: Region) -> None:
        length, height, depth = part.length_mm320, part.height_mm320, part.depth_mm320 or 0
        for side, across, up in (
            ("back", length, height),
            ("left", depth, height),
            ("right", depth, height),
            ("top", length, depth),
            ("bottom", length, depth),
        ):
            self._put(f"{key} {side}", SurfaceKind.NICHE, rectangle(0, 0, across, up), part)
        work, edge = self._work, 2 * (length + height)
        work.niches += 1
        work.niche_bends_mm320 += edge + 4 * depth
        if self._is_wet(area) or not self._any_wet:
            work.wet_niches += 1
            work.wet_niche_bends_mm320 += edge + 4 * depth

    def _add_reveals(self, key: str, part: WallFace, area: Region) -> None:
        kind = SurfaceKind.WET_AREA if self._is_wet(area) else SurfaceKind.WALL
        reveals = self._edges.reveals(part)
        sides = {side for side, _, _ in reveals}
        bends = sum({upright, level} <= sides for upright in _UPRIGHT for level in _LEVEL)
        self._work.reveal_bends_mm320[kind] += bends * (part.depth_mm320 or 0)
        self._work.frames_mm320[kind] += sum(map(length_of, self._edges.of_part(part)))
        for side, across, up in reveals:
            front = sides_of(0, 0, across, up)[side]
            area = rectangle(0, 0, across, up)
            self._put(f"{key} {side}", kind, area, part, joined=[front])
