"""Walls: the straight sides of an outline, their names, and what stands on them.

Names: a leg's own name where the outline came from wall legs; else near, right, far or left by
the side that the wall closes.  Where a side has several stretches the longest keeps the plain
name and the others are numbered on a walk round the room, counter-clockwise: ``near 2``.
"""

from collections.abc import Sequence
from math import hypot
from typing import Final

from msgspec import Struct

from sheetcalc.domain.room import Point, Region, Wall
from sheetcalc.geometry.plane.contacts import Edges, Line, contact, length_of, point_at
from sheetcalc.geometry.plane.points import rings_of

SIDES: Final = ("near", "right", "far", "left")


class PlacedWall(Struct, frozen=True):
    """A wall with what its neighbours need to know.

    Attributes
    ----------
    side
        near, right, far or left, whatever its name.
    turn
        At its end: positive an inside corner, negative an outside corner, 0 straight on.
    next_index
        Index of the wall that it runs into.
    """

    wall: Wall
    side: str
    length_mm320: int
    turn: int
    next_index: int

    @property
    def line(self) -> Line:
        """Start and end, the room on the left."""
        return self.wall.start, self.wall.end


def name_walls(
    region: Region, legs: Sequence[tuple[str, Point, Point]], slack_mm320: int
) -> tuple[PlacedWall, ...]:
    """Walls of an outline, ring by ring, counter-clockwise from the near left corner."""
    leg_lines = Edges((start, end) for _, start, end in legs)
    leg_names = {(start, end): name for name, start, end in legs}
    runs: list[list[tuple[str | None, Line]]] = []
    for ring in rings_of(region):
        run: list[tuple[str | None, Line]] = []
        for i, start in enumerate(ring):
            side = (start, ring[(i + 1) % len(ring)])
            near = [(leg_names[leg], leg) for leg in leg_lines.near(side, slack_mm320)]
            run += _split_by_legs(side, near, slack_mm320)
        runs.append(run)
    names = _names([pair for run in runs for pair in run])
    walls: list[PlacedWall] = []
    for run in runs:
        base = len(walls)
        for i, (_, line) in enumerate(run):
            following = (i + 1) % len(run)
            walls.append(
                PlacedWall(
                    Wall(names[base + i], *line),
                    _side(line),
                    length_of(line),
                    _turn(line, run[following][1]),
                    base + following,
                )
            )
    return tuple(walls)


def _split_by_legs(
    line: Line, legs: Sequence[tuple[str, Line]], slack: int
) -> list[tuple[str | None, Line]]:
    """Split a side of the outline where one leg ends and the next goes straight on."""
    parts: list[tuple[tuple[int, int], str]] = []
    for name, leg in legs:
        parts += [(stretch, name) for stretch in contact(line, [leg], slack)]
    parts.sort()
    covered = 0
    split: list[tuple[str | None, Line]] = []
    for (low, high), name in parts:
        if low > covered:
            split.append((None, (point_at(line, covered), point_at(line, low))))
        if high > max(low, covered):
            split.append((name, (point_at(line, max(low, covered)), point_at(line, high))))
        covered = max(covered, high)
    if covered < length_of(line):
        split.append((None, (point_at(line, covered), line[1])))
    return split


def _names(named: Sequence[tuple[str | None, Line]]) -> list[str]:
    """Names of all walls, each once: the longest of a side has the plain name."""
    groups: dict[str, list[int]] = {}
    for i, (name, line) in enumerate(named):
        groups.setdefault(name or _side(line), []).append(i)
    names = [""] * len(named)
    for name, members in groups.items():
        longest = max(members, key=lambda i: (length_of(named[i][1]), -i))
        names[longest] = name
        others = (i for i in members if i != longest)
        for number, i in enumerate(others, start=2):
            names[i] = f"{name} {number}"
    return names


def _side(line: Line) -> str:
    (x0, y0), (x1, y1) = line
    dx, dy = x1 - x0, y1 - y0
    if abs(dx) >= abs(dy):
        return "near" if dx > 0 else "far"
    return "right" if dy > 0 else "left"


def _turn(line: Line, following: Line) -> int:
    (x0, y0), (x1, y1) = line
    (x2, y2), (x3, y3) = following
    turn = (x1 - x0) * (y3 - y2) - (y1 - y0) * (x3 - x2)
    return (turn > 0) - (turn < 0)


def find_wall(name: str, walls: Sequence[PlacedWall]) -> int | None:
    """Index of a wall by its name, whatever its case."""
    wanted = name.strip().casefold()
    for i, wall in enumerate(walls):
        if wall.wall.name.casefold() == wanted:
            return i
    return None


def walls_of_side(name: str, walls: Sequence[PlacedWall]) -> list[int]:
    """Find all walls that a name may mean, on the walk: a side's plain name means each."""
    wanted = name.strip().casefold()
    if wanted in SIDES:
        return [i for i, w in enumerate(walls) if w.side == wanted]
    found = find_wall(name, walls)
    return [] if found is None else [found]


def stretch_on_wall(
    name: str, position: int, size: int, walls: Sequence[PlacedWall]
) -> tuple[int, Line] | None:
    """Stretch of a wall by the wall's name and one distance.

    On near and far the distance is Left in the room's frame, on right and left it is Front; on a
    leg it is measured from the leg's start on a counter-clockwise walk.

    Returns
    -------
    tuple[int, Line] or None
        Index of the wall and the stretch along it; None where no such wall reaches so far.
    """
    by_frame = name.strip().casefold() in SIDES
    for i in walls_of_side(name, walls):
        wall = walls[i]
        low, high = position, position + size
        if by_frame or wall.wall.name.casefold() == wall.side:
            axis = 0 if wall.side in ("near", "far") else 1
            start, end = wall.wall.start[axis], wall.wall.end[axis]
            if start == end:
                continue
            along = sorted(
                round((at - start) * wall.length_mm320 / (end - start)) for at in (low, high)
            )
            low, high = along
        if low >= 0 and high <= wall.length_mm320:
            return i, (point_at(wall.line, low), point_at(wall.line, high))
    return None


def stretch_at_point(
    point: Point, length: int, width: int, walls: Sequence[PlacedWall], slack_mm320: int
) -> tuple[int, Line] | None:
    """Stretch of a wall that begins at a point of the outline.

    A wall along left takes the length, one along front the width; where only one size is given,
    it serves either way.
    """
    for i, wall in enumerate(walls):
        on_front = wall.side in ("right", "left")
        size = (width or length) if on_front else (length or width)
        far = (point[0], point[1] + size) if on_front else (point[0] + size, point[1])
        if not size:
            position = _nearest_position(wall, point, slack_mm320)
            if position is not None:
                at = point_at(wall.line, position)
                return i, (at, at)
            continue
        stretches = contact(wall.line, [(point, far)], slack_mm320)
        if stretches and stretches[0][1] - stretches[0][0] >= size - slack_mm320:
            low, high = stretches[0]
            return i, (point_at(wall.line, low), point_at(wall.line, high))
    return None


def _nearest_position(wall: PlacedWall, point: Point, slack: int) -> int | None:
    """Position on a wall of a point that lies on it, or None."""
    (x0, y0), (x1, y1) = wall.line
    dx, dy = x1 - x0, y1 - y0
    px, py = point[0] - x0, point[1] - y0
    whole = hypot(dx, dy)
    along, off = (px * dx + py * dy) / whole, abs(dx * py - dy * px) / whole
    if off > slack + (0 if dx == 0 or dy == 0 else 2) or not -slack <= along <= whole + slack:
        return None
    return min(max(round(along), 0), wall.length_mm320)
