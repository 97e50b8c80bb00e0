"""Wall faces: placing the rows of a room's walls, and what is impossible among them.

A wall's plain name (near, right, far, left) means its longest stretch.  Where a row reaches
beyond that, all rows of that name are taken to run over the whole side, its stretches laid end to
end from left to right: a near wall with a door reveal is measured as one.
"""

from collections.abc import Sequence
from typing import Final

from msgspec import Struct, field

from sheetcalc.domain.measure import Length
from sheetcalc.domain.room import PartKind, Region, WallFace
from sheetcalc.geometry.plane.regions import contains, overlaps, rectangle, union
from sheetcalc.geometry.plane.slabs import Interval
from sheetcalc.geometry.rooms.reports import Report, nearest_names
from sheetcalc.geometry.rooms.walls import PlacedWall, find_wall, walls_of_side

_MAY_LIE_IN_WET_AREA: Final = frozenset({PartKind.OPENING, PartKind.NICHE, PartKind.INSET})


class WallFrame(Struct, frozen=True):
    """The plane that rows of one wall name are measured on.

    Attributes
    ----------
    stretches
        Index of a wall, and where it begins in the frame, from left to right seen from inside.
    """

    name: str
    length_mm320: int
    stretches: tuple[tuple[int, int], ...]

    def on_walls(
        self, low: int, high: int, walls: Sequence[PlacedWall]
    ) -> list[tuple[int, Interval]]:
        """Walls under a stretch of the frame, with the positions from each wall's start."""
        found = []
        for index, offset in self.stretches:
            length = walls[index].length_mm320
            begin, end = max(low - offset, 0), min(high - offset, length)
            if begin < end:
                found.append((index, (length - end, length - begin)))
        return found


class WallSheet(Struct):
    """All rows of one wall name: its faces and the parts within them."""

    frame: WallFrame
    faces: list[WallFace] = field(default_factory=list)
    parts: list[WallFace] = field(default_factory=list)


def rectangle_of(row: WallFace) -> Region:
    """Rectangle of a row on its wall."""
    return rectangle(row.left_mm320, row.bottom_mm320, row.length_mm320, row.height_mm320)


def place_faces(
    rows: Sequence[WallFace], walls: Sequence[PlacedWall], slack_mm320: int, report: Report
) -> list[WallSheet]:
    """Sort the rows by wall, with everything impossible noted."""
    groups: dict[str, list[WallFace]] = {}
    for row in rows:
        if _has_sizes(row, report):
            groups.setdefault(row.wall.strip().casefold(), []).append(row)
    sheets = []
    for name, members in groups.items():
        frame = _frame(name, members, walls, slack_mm320)
        if frame is None:
            _note_unknown(members, walls, report)
            continue
        sheet = WallSheet(frame)
        for row in members:
            (sheet.faces if row.part is PartKind.FACE else sheet.parts).append(row)
        _check_faces(sheet, slack_mm320, report)
        _check_parts(sheet, report)
        sheets.append(sheet)
    return sheets


def _has_sizes(row: WallFace, report: Report) -> bool:
    sound = True
    sizes = (("Length", row.length_mm320), ("Height", row.height_mm320), ("Depth", row.depth_mm320))
    for header, size in sizes:
        if size is not None and size <= 0:
            report.error("SIZE-NOT-POSITIVE", row.source, header, row.wall, size=Length(size))
            sound = False
    if row.part is PartKind.NICHE and row.depth_mm320 is None:
        report.error("NICHE-WITHOUT-DEPTH", row.source, "Depth", row.wall, wall=row.wall)
        sound = False
    return sound


def _frame(
    name: str, rows: Sequence[WallFace], walls: Sequence[PlacedWall], slack: int
) -> WallFrame | None:
    """Plane for the rows of one wall name; None where there is no such wall."""
    main = find_wall(name, walls)
    if main is None:
        return None
    wall = walls[main]
    faces = [row for row in rows if row.part is PartKind.FACE] or rows
    reach = max(row.left_mm320 + row.length_mm320 for row in faces)
    side = walls_of_side(name, walls)
    if reach <= wall.length_mm320 + slack or len(side) == 1:
        return WallFrame(wall.wall.name, wall.length_mm320, ((main, 0),))
    stretches, offset = [], 0
    for index in reversed(side):
        stretches.append((index, offset))
        offset += walls[index].length_mm320
    return WallFrame(wall.wall.name, offset, tuple(stretches))


def _note_unknown(rows: Sequence[WallFace], walls: Sequence[PlacedWall], report: Report) -> None:
    names = [w.wall.name for w in walls]
    for row in rows:
        report.error(
            "WALL-UNKNOWN",
            row.source,
            "Wall",
            row.wall,
            wall=row.wall,
            known=nearest_names(row.wall, names),
        )


def _check_faces(sheet: WallSheet, slack: int, report: Report) -> None:
    for i, face in enumerate(sheet.faces):
        if face.left_mm320 < -slack or (
            face.left_mm320 + face.length_mm320 > sheet.frame.length_mm320 + slack
        ):
            report.error(
                "FACE-LONGER-THAN-WALL",
                face.source,
                "Length",
                face.wall,
                wall=face.wall,
                reach=Length(face.left_mm320 + face.length_mm320, small=False),
                wall_length=Length(sheet.frame.length_mm320, small=False),
            )
        for other in sheet.faces[:i]:
            _note_overlap(face, other, report)


def _check_parts(sheet: WallSheet, report: Report) -> None:
    whole = union(rectangle_of(face) for face in sheet.faces)
    for i, part in enumerate(sheet.parts):
        if not contains(whole, rectangle_of(part)):
            _note_outside(part, sheet, report)
        for other in sheet.parts[:i]:
            kinds = {part.part, other.part}
            in_wet_area = PartKind.WET_AREA in kinds and kinds & _MAY_LIE_IN_WET_AREA
            if not in_wet_area:
                _note_overlap(part, other, report)


def _note_overlap(row: WallFace, other: WallFace, report: Report) -> None:
    if overlaps(rectangle_of(row), rectangle_of(other)):
        report.error(
            "WALL-PARTS-OVERLAP",
            row.source,
            "Left",
            row.wall,
            wall=row.wall,
            part=row.part.value,
            other=other.part.value,
        )


def _note_outside(part: WallFace, sheet: WallSheet, report: Report) -> None:
    """Note a part that no face of its wall holds; one larger than the wall has its own words."""
    longest = max((face.length_mm320 for face in sheet.faces), default=sheet.frame.length_mm320)
    highest = max((face.height_mm320 for face in sheet.faces), default=part.height_mm320)
    too_large = part.length_mm320 > longest or part.height_mm320 > highest
    report.error(
        "PART-LARGER-THAN-WALL" if too_large else "PART-OUTSIDE-FACE",
        part.source,
        "Length" if too_large else "Left",
        part.wall,
        wall=part.wall,
        part=part.part.value,
        length=Length(part.length_mm320, small=False),
        height=Length(part.height_mm320, small=False),
        longest=Length(longest, small=False),
        highest=Length(highest, small=False),
    )
