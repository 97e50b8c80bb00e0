"""Where movement joints fall: on joint lines of the setting-out, no further apart than allowed."""

from collections.abc import Iterator
from typing import TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.finish import BondKind, SurfaceKind
from sheetcalc.domain.room import Point, Region
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.geometry.plane.regions import union
from sheetcalc.geometry.setting_out.chords import crossings_at

_Line: TypeAlias = tuple[Point, Point]


class MovementJoints(Struct, frozen=True):
    """Places of movement joints within a surface [1/320 mm].

    Attributes
    ----------
    left
        From the surface's left end, joints that run away from the door (upright on a wall).
    front
        From its near end, joints that run along the near wall (level on a wall).
    left_cut, front_cut
        Whether no straight joint of the bond runs that way, so that tiles are cut through.
    """

    left: tuple[int, ...]
    front: tuple[int, ...]
    left_cut: bool = False
    front_cut: bool = False


class MovementLine(Struct, frozen=True):
    """A movement joint as it lies in a surface.

    Attributes
    ----------
    stretches
        Where it lies within the surface [1/320 mm].
    at_mm320
        From the left end of the surface, or of all surfaces laid through with it, or from the near
        end [1/320 mm].
    upright
        Whether it runs away from the door (upright on a wall).
    is_cut
        Whether tiles are cut through.
    """

    stretches: tuple[_Line, ...]
    at_mm320: int
    upright: bool
    is_cut: bool

    @property
    def length_mm320(self) -> int:
        """Length of sealant [1/320 mm]."""
        return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in self.stretches)


def movement_joints(out: SettingOut, spacing_mm320: int) -> MovementJoints:
    """Divide a surface into bays, each joint moved to the nearest joint line.

    A base course has none of its own: it follows those of the floor and the wall beside it, which
    lie elsewhere than its own bays would (common practice, no source).

    Parameters
    ----------
    out
        The setting-out.
    spacing_mm320
        Greatest bay [1/320 mm].
    """
    if not out.region.patches or out.kind is SurfaceKind.BASE:
        return MovementJoints((), ())
    left, front, right, far = out.region.bounds
    across, along = _lines(out)
    return MovementJoints(
        _places(right - left, spacing_mm320, across),
        _places(far - front, spacing_mm320, along),
        left_cut=not across.straight,
        front_cut=not along.straight,
    )


def movement_lines(out: SettingOut, spacing_mm320: int) -> tuple[MovementLine, ...]:
    """Lay the movement joints of a surface out, within its own region.

    Surfaces that are laid through as one are divided as one.

    Parameters
    ----------
    out
        The setting-out.
    spacing_mm320
        Greatest bay [1/320 mm].
    """
    if not out.region.patches or _is_one_bay(out, spacing_mm320):
        return ()
    field = replace(out, region=union(out.through)) if out.through else out
    joints = movement_joints(field, spacing_mm320)
    left, front, _, _ = field.region.bounds
    lines = [
        *(_line(out.region, 0, left, at, is_cut=joints.left_cut) for at in joints.left),
        *(_line(out.region, 1, front, at, is_cut=joints.front_cut) for at in joints.front),
    ]
    return tuple(line for line in lines if line.stretches)


def _is_one_bay(out: SettingOut, spacing_mm320: int) -> bool:
    """Whether a surface, with all that is laid through with it, is no larger than a bay."""
    boxes = [region.bounds for region in out.through or (out.region,)]
    left, front = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, far = max(box[2] for box in boxes), max(box[3] for box in boxes)
    return max(right - left, far - front) <= spacing_mm320


def _line(region: Region, axis: int, end: int, at: int, *, is_cut: bool) -> MovementLine:
    stretches = tuple(_within(region, axis, end + at))
    return MovementLine(stretches, at, upright=axis == 0, is_cut=is_cut)


def _within(region: Region, axis: int, at: int) -> Iterator[_Line]:
    """Stretches of a line at a coordinate that lie within a region."""
    from sheetcalc.geometry.setting_out.slabs import (  # noqa: PLC0415 - `explain` needs no numpy
        edges_of,
    )

    crossed = ((a, b) for a, b in edges_of(region) if (a[axis] > at) != (b[axis] > at))
    crossings = crossings_at(crossed, axis, at)
    for low, high in zip(crossings[::2], crossings[1::2], strict=True):
        ends = [(at, round(v)) if axis == 0 else (round(v), at) for v in (low, high)]
        yield ends[0], ends[1]


class _Lines(Struct, frozen=True):
    """Joint lines: one of them, their distance (0 where there are none), whether they run on.

    Lines that do not run on are joints in some rows of a 1/n bond, and cut through the others.
    """

    one: int
    module: int
    straight: bool

    def nearest(self, wanted: float) -> int:
        """Give the joint line nearest to a place; the place itself where there are none."""
        if self.module <= 0:
            return round(wanted)
        return self.one + round((wanted - self.one) / self.module) * self.module


def _lines(out: SettingOut) -> tuple[_Lines, _Lines]:
    """Joint lines of a bond: those that run away from the door, those along its wall.

    A grid has straight ones both ways, as have the squares of a basket weave; a 1/n bond has them
    along its rows only; a herringbone, and whatever lies oblique, has none.
    """
    left, front, _, _ = out.region.bounds
    one = out.origin[0] - left, out.origin[1] - front
    kind = BondKind.GRID if out.sheet_chips != (0, 0) else out.bond.kind
    module = out.module_mm320
    straight = [True, True]
    if kind is BondKind.OFFSET and out.bond.divisor > 1:
        straight[round(out.turn_degrees / 90) % 2] = False
    elif kind is BondKind.BASKET_WEAVE:
        module = (max(module), max(module))
    if out.turn_degrees % 90 or out.by_area or kind not in _SQUARE:
        module, straight = (0, 0), [False, False]
    return _Lines(one[0], module[0], straight[0]), _Lines(one[1], module[1], straight[1])


_SQUARE = frozenset({BondKind.GRID, BondKind.OFFSET, BondKind.BASKET_WEAVE})


def _places(size: int, spacing: int, lines: _Lines) -> tuple[int, ...]:
    """Divide a size into as few bays as may be, alike as far as joint lines allow."""
    places: list[int] = []
    at = 0
    while size - at > spacing:
        bays = -(-(size - at) // spacing)
        line = lines.nearest(at + (size - at) / bays)
        while line - at > spacing:
            line -= lines.module
        if line <= at:
            line = at + spacing  # a module larger than the spacing: the joint is cut through
        places.append(line)
        at = line
    return tuple(places)
