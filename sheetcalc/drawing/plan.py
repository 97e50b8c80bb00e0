"""What a drawing shows, as data: shapes in the surface's own frame, to be drawn at any scale.

Left runs to the right of the sheet and front (or bottom, on a wall) runs up it, so that the door
of a room is at the bottom.
"""

from collections.abc import Sequence
from enum import StrEnum
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.room import Circle, Region

Place: TypeAlias = Sequence[float]
"""Left and front of a point [1/320 mm]."""

Line: TypeAlias = Sequence[Place]


class TileMark(StrEnum):
    """How a tile is marked: never by colour alone."""

    WHOLE = "whole"  # plain
    CUT = "cut"  # hatched
    SMALL = "small"  # hatched both ways: shorter than the smallest cut
    START = "start"  # edge in the colour of marks, a cross on its start corner


class MarkedTile(Struct, frozen=True):
    """A tile, or the piece of it that is laid.

    ``label`` is its row of the cut list, such as ``A3``.
    """

    ring: Line
    mark: TileMark
    label: str = ""


class Dimension(Struct, frozen=True):
    """A distance to mark, with its figure beside the line."""

    start: Place
    end: Place
    words: str


class Label(Struct, frozen=True):
    """Words at a place, and shorter ones where others leave no room for them."""

    at: Place
    words: str
    short: str = ""


class LineMark(StrEnum):
    """How lines across tiles are drawn."""

    MOVEMENT = "movement"  # thick, long dashes
    HIP = "hip"  # dashes and dots


class MarkedLine(Struct, frozen=True):
    """A line with its sign and its words."""

    course: Line
    mark: LineMark
    words: str


class PointMark(StrEnum):
    """Signs for points; each has a shape of its own."""

    RING = "ring"  # sensor
    DOT = "dot"  # where a cable begins
    BAR = "bar"  # where it ends
    BOX = "box"  # thermostat


class MarkedPoint(Struct, frozen=True):
    """A point with its sign and its words."""

    at: Place
    mark: PointMark
    words: str


class DrawnPath(Struct, frozen=True):
    """A cable's course, or a lead (dashed)."""

    course: Line
    dashed: bool = False


class Side(Struct, frozen=True):
    """A stretch of the outline with its name, written outside; ``door`` breaks the outline."""

    start: Place
    end: Place
    words: str
    door: bool = False


class PlanDrawing(Struct, frozen=True):
    """One drawing of one surface, or of several that lie in one plane.

    Attributes
    ----------
    title, short_title
        Above the drawing; the short one where the other does not fit.
    description
        Alternative text: in words what it shows.
    region
        What is outlined.
    tiles, fixtures, circles, sides
        Shapes on it: tiles, outlines of fixtures with their names, round holes, and stretches of
        the outline with their names.
    strips
        Strips of a roll or boards with their names, drawn instead of tiles.
    dimensions, labels, points, paths
        Marks on it.
    starts
        Corners of first tiles.
    lines
        Movement joints and hips.
    captions
        Words above places, such as the names of panels.
    """

    title: str
    short_title: str
    description: str
    region: Region
    tiles: tuple[MarkedTile, ...] = ()
    fixtures: tuple[tuple[Line, str], ...] = ()
    circles: tuple[tuple[Circle, str], ...] = ()
    sides: tuple[Side, ...] = ()
    strips: tuple[tuple[Line, str], ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    labels: tuple[Label, ...] = ()
    points: tuple[MarkedPoint, ...] = ()
    paths: tuple[DrawnPath, ...] = ()
    starts: tuple[Place, ...] = ()
    lines: tuple[MarkedLine, ...] = ()
    captions: tuple[Label, ...] = ()

    @property
    def in_panels(self) -> bool:
        """Whether it shows several surfaces apart from each other, each with its caption."""
        return bool(self.captions)
