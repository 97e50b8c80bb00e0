"""Open edges of a wall's surfaces, where edge trim may go (common practice, no source).

They are the top of a face that ends lower than the room's highest face, or below any usual ceiling
(else the highest is taken to reach the ceiling); an upright edge that stops short of the wall's end
with no face beside it; the bottom of a face that hangs, but not over a bath, a tray, a cabinet or a
door; an outside corner, once; the front edges of a niche and of an opening that has reveals.  Where
only wet areas are tiled they are the faces.  An edge belongs to the wet area that it lies on, else
to the face.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.domain.room import PartKind, WallFace
from sheetcalc.geometry.plane.contacts import Line, length_of, less
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.faces import WallSheet
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


def sides_of(low: int, bottom: int, high: int, top: int) -> dict[str, Line]:
    """Sides of a rectangle by name."""
    return {
        "left": ((low, bottom), (low, top)),
        "right": ((high, bottom), (high, top)),
        "head": ((low, top), (high, top)),
        "sill": ((low, bottom), (high, bottom)),
    }


def _share(line: Line, area: WallFace) -> int:
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


class WallEdges:
    """Finds the open edges of one wall.

    Parameters
    ----------
    sheet
        Rows of the wall.
    walls
        Of the room.
    tiled
        What is tiled of all walls.
    under
        Stretches of each wall of the sheet that nothing above is open over.
    ceiling
        Height that a face reaches the ceiling from [1/320 mm].
    only_wet
        Whether only wet areas are tiled.
    """

    def __init__(  # noqa: PLR0913 - what the edges of a wall depend on
        self,
        sheet: WallSheet,
        walls: Sequence[PlacedWall],
        tiled: Sequence[TiledStretch],
        under: Sequence[Sequence[Interval]],
        *,
        ceiling: int,
        only_wet: bool,
    ) -> None:
        self._sheet, self._walls, self._tiled = sheet, walls, tiled
        self._under, self._ceiling = under, ceiling
        self._wet_rows = [p for p in sheet.parts if p.part is PartKind.WET_AREA]
        self._edged = self._wet_rows if only_wet else sheet.faces

    def joined(self) -> tuple[Line, ...]:
        """Lines up to which tile comes with half a joint: all open edges, outside corners too."""
        return (
            *(line for face in self._edged for line in self._open_sides(face).values()),
            *(line for face in self._edged for line in self._hanging(face)),
            *(line for part in self._sheet.parts for line in self.of_part(part)),
        )

    def lengths(self) -> tuple[list[int], list[int]]:
        """Lengths of the open edges of each face, and of each wet area [1/320 mm]."""
        dry, wet = [0] * len(self._sheet.faces), [0] * len(self._wet_rows)
        lines = [
            *((face, line) for face in self._edged for line in self._face_lines(face)),
            *((part, line) for part in self._sheet.parts for line in self.of_part(part)),
        ]
        for row, line in lines:
            shares = [_share(line, area) for area in self._wet_rows]
            wet = [length + share for length, share in zip(wet, shares, strict=True)]
            for number, face in enumerate(self._sheet.faces):
                if _begins_in(row, face):
                    dry[number] += max(length_of(line) - sum(shares), 0)
        return dry, wet

    def of_part(self, part: WallFace) -> Iterator[Line]:
        """Edges round a part where tile goes on round an outside corner."""
        low, bottom = part.left_mm320, part.bottom_mm320
        sides = sides_of(low, bottom, low + part.length_mm320, bottom + part.height_mm320)
        if part.part is PartKind.NICHE:
            yield from sides.values()
        elif part.part is PartKind.OPENING:
            for side, _, _ in self.reveals(part):
                yield sides[side]

    def reveals(self, part: WallFace) -> list[tuple[str, int, int]]:
        """Reveals of an opening: name, size across, size up; none where it ends with its face."""
        depth = part.depth_mm320
        if depth is None:
            return []
        low, bottom = part.left_mm320, part.bottom_mm320
        high, top = low + part.length_mm320, bottom + part.height_mm320
        face = next(f for f in self._sheet.faces if _begins_in(part, f))
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

    def _face_lines(self, face: WallFace) -> Iterator[Line]:
        """Edges of a face that end in nothing; an outside corner belongs to one of its walls."""
        right = self._wall_ended(face)
        for side, line in self._open_sides(face).items():
            if side != "right" or right is None or self._ends_alone(right):
                yield line
        yield from self._hanging(face)

    def _hanging(self, face: WallFace) -> Iterator[Line]:
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

    def _open_sides(self, face: WallFace) -> dict[str, Line]:
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
            and (ended is None or self._walls[self._before(ended)].turn < 0),
        }
        sides = sides_of(low, face.bottom_mm320, high, top)
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

    def _before(self, wall: int) -> int:
        return next(i for i, w in enumerate(self._walls) if w.next_index == wall)

    def _ends_alone(self, wall: int) -> bool:
        """Whether a wall begins at an outside corner whose other wall is not tiled up to it."""
        before = self._before(wall)
        if self._walls[before].turn >= 0:
            return False
        length = self._walls[before].length_mm320
        return not any(
            t.wall == before and t.along[1] >= length - REACHES_MM320 for t in self._tiled
        )
