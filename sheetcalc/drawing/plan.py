"""What a drawing shows, as data: shapes in the surface's own frame, to be drawn at any scale.

Left runs to the right of the sheet and front (or bottom, on a wall) runs up it, so that the door
of a room is at the bottom.
"""

from dataclasses import dataclass
from enum import StrEnum

from sheetcalc.domain.room import Circle, Point, Region, Ring


class TileMark(StrEnum):
    """How a tile is marked: never by colour alone."""

    WHOLE = "whole"  # plain
    CUT = "cut"  # hatched
    SMALL = "small"  # hatched both ways: shorter than the smallest cut
    START = "start"  # thick edge and a cross on the start corner


@dataclass(frozen=True, slots=True)
class DrawnTile:
    """A tile, or the piece of it that is laid."""

    ring: Ring
    mark: TileMark
    letter: str = ""  # its row of the cut list


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance to mark, with its figure beside the line."""

    start: Point
    end: Point
    words: str


@dataclass(frozen=True, slots=True)
class Label:
    """Words at a place."""

    at: Point
    words: str


@dataclass(frozen=True, slots=True)
class DrawnPath:
    """A cable: its course, with rows numbered along it."""

    course: tuple[tuple[float, float], ...]
    labels: tuple[Label, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanDrawing:
    """One drawing of one surface.

    Attributes
    ----------
    title
        Above the drawing.
    region
        The surface.
    tiles, fixtures, circles, openings
        Shapes on it: tiles, outlines of fixtures with their names, round holes, and stretches of
        the outline that are doors.
    strips
        Strips of a roll or boards with their names, drawn instead of tiles.
    dimensions, labels, paths
        Marks on it.
    start
        Corner of the first tile, or None.
    legend
        Lines under the drawing.
    """

    title: str
    region: Region
    tiles: tuple[DrawnTile, ...] = ()
    fixtures: tuple[tuple[Ring, str], ...] = ()
    circles: tuple[Circle, ...] = ()
    openings: tuple[tuple[Point, Point], ...] = ()
    strips: tuple[tuple[Ring, str], ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    labels: tuple[Label, ...] = ()
    paths: tuple[DrawnPath, ...] = ()
    start: Point | None = None
    legend: tuple[str, ...] = ()
