"""Surfaces of the walls: faces, wet areas, insets, niches, the reveals of openings.

Open edges, where edge trim may go (common practice, no source): the top of a face that ends lower
than the room's highest face, or below any usual ceiling (else the highest is taken to reach the
ceiling); an upright edge that stops short of the wall's end with no face beside it; the bottom of
a face that hangs, but not over a bath, a tray, a cabinet or a door; an outside corner, once; the
front edges of a niche and of an opening that has reveals.  Where only wet areas are tiled they are
the faces.  An edge belongs to the wet area that it lies on, else to the face.  Tile comes up to
trim, or to the tile round the corner, with half a joint: the perimeter gap is for inside corners
and for what is not tiled (common practice, no source).
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TypeAlias

from msgspec import Struct, field

from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.room import PartKind, Point, Region, Surface, WallFace
from sheetcalc.geometry.plane.contacts import Line, contact, less
from sheetcalc.geometry.plane.regions import difference, overlaps, rectangle
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.faces import WallSheet, rectangle_of
from sheetcalc.geometry.rooms.walls import PlacedWall

REACHES_MM320: Final = 10 * 320
"""A face that ends within 10 mm of a corner, or of the floor, reaches it."""

LOWEST_CEILING_MM320: Final = 2100 * 320
"""No ceiling is taken to be lower (common practice, no source): a face that ends below has an open
top even where it is the room's highest."""


class TiledStretch(Struct, frozen=True):
    """A stretch of a wall that is tiled from one height to another."""

    wall: int
    along: Interval
    heights: Interval
    wet: bool


class WallWork(Struct):
    """What the walls of a room come to.

    ``niche_bends`` are the inside edges of niches, ``reveal_bends`` those between the reveals of
    openings, ``frames`` where reveals end at a window or a door, of each kind of surface.
    ``planes`` has the length of the wall plane
    for every surface that is measured from a wall's left end.
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
        _SheetWork(
            sheet, walls, work, under, ceiling=ceiling, any_wet=any_wet, only_wet=only_wet
        ).add()
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
_Line: TypeAlias = tuple[Point, Point]


def _sides(low: int, bottom: int, high: int, top: int) -> dict[str, _Line]:
    """Sides of a rectangle by name."""
    return {
        "left": ((low, bottom), (low, top)),
        "right": ((high, bottom), (high, top)),
        "head": ((low, top), (high, top)),
        "sill": ((low, bottom), (high, bottom)),
    }


def _length(line: _Line) -> int:
    """Length of a level or upright line."""
    (x0, y0), (x1, y1) = line
    return abs(x1 - x0) + abs(y1 - y0)


def _share(line: _Line, area: WallFace) -> int:
    """Length of a level or upright line that lies in an area or on its edge."""
    (x0, y0), (x1, y1) = line
    right, top = area.left_mm320 + area.length_mm320, area.bottom_mm320 + area.height_mm320
    across = min(max(x0, x1), right) - max(min(x0, x1), area.left_mm320)
    up = min(max(y0, y1), top) - max(min(y0, y1), area.bottom_mm320)
    return max(across, up) if across >= 0 and up >= 0 else 0


def _begins_in(row: WallFace, face: WallFace) -> bool:
    """Whether a row's lower left corner lies in a face."""
    x, y = row.left_mm320 - face.left_mm320, row.bottom_mm320 - face.bottom_mm320
    return 0 <= x < face.length_mm320 and 0 <= y < face.height_mm320


def numbered(base: str, number: int) -> str:
    """Give the key of the first, second, … of several things on one wall."""
    return base if number == 1 else f"{base} no. {number}"


class _SheetWork:
    """Makes the surfaces of one wall."""

    def __init__(  # noqa: PLR0913 - what the edges of a wall depend on
        self,
        sheet: WallSheet,
        walls: Sequence[PlacedWall],
        work: WallWork,
        under: Sequence[Sequence[Interval]],
        *,
        ceiling: int,
        any_wet: bool,
        only_wet: bool,
    ) -> None:
        self._sheet, self._walls, self._work = sheet, walls, work
        self._under, self._ceiling, self._any_wet = under, ceiling, any_wet
        self._name = sheet.frame.name
        self._wet_rows = [p for p in sheet.parts if p.part is PartKind.WET_AREA]
        self._wet = [rectangle_of(p) for p in self._wet_rows]
        self._edged = self._wet_rows if only_wet else sheet.faces
        self._open = (
            *(line for face in self._edged for line in self._open_sides(face).values()),
            *(line for face in self._edged for line in self._hanging(face)),
            *(line for part in sheet.parts for line in self._part_lines(part)),
        )

    def add(self) -> None:
        parts = [(p, rectangle_of(p)) for p in self._sheet.parts]
        cut_from_wet = [r for p, r in parts if p.part is not PartKind.WET_AREA]
        dry, wet = self._edges()
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
        joined: Sequence[_Line] = (),
    ) -> None:
        if region.patches:
            if not key.startswith(("niche ", "opening ")):
                self._work.planes[key] = self._sheet.frame.length_mm320
                joined = self._open
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

    def _reveals(self, part: WallFace) -> list[tuple[str, int, int]]:
        """Reveals of an opening: name, size across, size up; none where it ends with its face."""
        depth = part.depth_mm320
        if depth is None:
            return []
        low, bottom = part.left_mm320, part.bottom_mm320
        high, top = low + part.length_mm320, bottom + part.height_mm320
        face = next(
            f
            for f in self._sheet.faces
            if f.left_mm320 <= low < f.left_mm320 + f.length_mm320
            and f.bottom_mm320 <= bottom < f.bottom_mm320 + f.height_mm320
        )
        reveals = []
        if low > face.left_mm320:
            reveals.append(("left", depth, part.height_mm320))
        if high < face.left_mm320 + face.length_mm320:
            reveals.append(("right", depth, part.height_mm320))
        if top < face.bottom_mm320 + face.height_mm320:
            reveals.append(("head", part.length_mm320, depth))
        if bottom > face.bottom_mm320:
            reveals.append(("sill", part.length_mm320, depth))
        return reveals

    def _add_reveals(self, key: str, part: WallFace, area: Region) -> None:
        kind = SurfaceKind.WET_AREA if self._is_wet(area) else SurfaceKind.WALL
        reveals = self._reveals(part)
        sides = {side for side, _, _ in reveals}
        bends = sum({upright, level} <= sides for upright in _UPRIGHT for level in _LEVEL)
        self._work.reveal_bends_mm320[kind] += bends * (part.depth_mm320 or 0)
        self._work.frames_mm320[kind] += sum(map(_length, self._part_lines(part)))
        for side, across, up in reveals:
            front = _sides(0, 0, across, up)[side]
            area = rectangle(0, 0, across, up)
            self._put(f"{key} {side}", kind, area, part, joined=[front])

    def _part_lines(self, part: WallFace) -> Iterator[_Line]:
        """Edges round a part where tile goes on round an outside corner."""
        low, bottom = part.left_mm320, part.bottom_mm320
        sides = _sides(low, bottom, low + part.length_mm320, bottom + part.height_mm320)
        if part.part is PartKind.NICHE:
            yield from sides.values()
        elif part.part is PartKind.OPENING:
            for side, _, _ in self._reveals(part):
                yield sides[side]

    def _edges(self) -> tuple[list[int], list[int]]:
        """Lengths of the open edges of each face, and of each wet area."""
        dry, wet = [0] * len(self._sheet.faces), [0] * len(self._wet_rows)
        lines = [
            *((face, line) for face in self._edged for line in self._face_lines(face)),
            *((part, line) for part in self._sheet.parts for line in self._part_lines(part)),
        ]
        for row, line in lines:
            shares = [_share(line, area) for area in self._wet_rows]
            wet = [length + share for length, share in zip(wet, shares, strict=True)]
            for number, face in enumerate(self._sheet.faces):
                if _begins_in(row, face):
                    dry[number] += max(_length(line) - sum(shares), 0)
        return dry, wet

    def _face_lines(self, face: WallFace) -> Iterator[_Line]:
        """Edges of a face that end in nothing; an outside corner belongs to one of its walls."""
        right = self._wall_ended(face)
        for side, line in self._open_sides(face).items():
            if side != "right" or right is None or self._ends_alone(right):
                yield line
        yield from self._hanging(face)

    def _hanging(self, face: WallFace) -> Iterator[_Line]:
        """Stretches of a face's bottom with nothing under them."""
        if face.bottom_mm320 <= REACHES_MM320:
            return
        low, high = face.left_mm320, face.left_mm320 + face.length_mm320
        taken = [
            (f.left_mm320, f.left_mm320 + f.length_mm320)
            for f in self._edged
            if f.bottom_mm320 + f.height_mm320 == face.bottom_mm320
        ]
        for (index, offset), under in zip(self._sheet.frame.stretches, self._under, strict=True):
            end = offset + self._walls[index].length_mm320
            taken += [(end - b, end - a) for a, b in under]  # walked the other way round
        for begin, end in less(((low, high),), taken):
            yield (begin, face.bottom_mm320), (end, face.bottom_mm320)

    def _open_sides(self, face: WallFace) -> dict[str, _Line]:
        """Edges of a face that end in nothing or at an outside corner, by name."""
        top = face.bottom_mm320 + face.height_mm320
        low, high = face.left_mm320, face.left_mm320 + face.length_mm320
        others = [f for f in self._edged if f is not face]
        begun, ended = self._wall_begun(face), self._wall_ended(face)
        is_open = {
            "head": top < self._ceiling and not any(f.bottom_mm320 == top for f in others),
            "left": all(f.left_mm320 + f.length_mm320 != low for f in others)
            and (begun is None or self._walls[begun].turn < 0),
            "right": all(f.left_mm320 != high for f in others)
            and (ended is None or self._before(ended).turn < 0),
        }
        sides = _sides(low, face.bottom_mm320, high, top)
        return {side: sides[side] for side, opens in is_open.items() if opens}

    def _wall_begun(self, face: WallFace) -> int | None:
        """Wall in whose left corner a face begins; None where it begins along a wall."""
        low = face.left_mm320
        stretches = self._sheet.frame.stretches
        return next((i for i, at in stretches if abs(low - at) <= REACHES_MM320), None)

    def _wall_ended(self, face: WallFace) -> int | None:
        """Wall in whose right corner a face ends; None where it ends along a wall."""
        high = face.left_mm320 + face.length_mm320
        stretches = self._sheet.frame.stretches
        ends = ((i, at + self._walls[i].length_mm320) for i, at in stretches)
        return next((i for i, end in ends if abs(high - end) <= REACHES_MM320), None)

    def _before(self, wall: int) -> PlacedWall:
        return next(w for w in self._walls if w.next_index == wall)

    def _ends_alone(self, wall: int) -> bool:
        """Whether a wall begins at an outside corner whose other wall is not tiled up to it."""
        before = next(i for i, w in enumerate(self._walls) if w.next_index == wall)
        if self._walls[before].turn >= 0:
            return False
        length = self._walls[before].length_mm320
        return not any(
            t.wall == before and t.along[1] >= length - REACHES_MM320 for t in self._work.tiled
        )
