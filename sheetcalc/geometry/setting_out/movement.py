"""Where movement joints fall: on joint lines of the setting-out, no further apart than allowed."""

from dataclasses import dataclass

from sheetcalc.domain.quantity import SettingOut


@dataclass(frozen=True, slots=True)
class MovementJoints:
    """Places of movement joints within a surface [1/320 mm].

    Attributes
    ----------
    left
        From the surface's left end, joints that run away from the door (upright on a wall).
    front
        From its near end, joints that run along the near wall (level on a wall).
    """

    left: tuple[int, ...]
    front: tuple[int, ...]


def movement_joints(out: SettingOut, spacing_mm320: int) -> MovementJoints:
    """Divide a surface into bays, each joint moved to the nearest joint line.

    Parameters
    ----------
    out
        The setting-out.
    spacing_mm320
        Greatest bay [1/320 mm].
    """
    if not out.region.patches:
        return MovementJoints((), ())
    left, front, right, far = out.region.bounds
    square = out.turn_degrees % 90 == 0 and not out.by_area
    across = _Lines(out.origin[0] - left, out.module_mm320[0] if square else 0)
    along = _Lines(out.origin[1] - front, out.module_mm320[1] if square else 0)
    return MovementJoints(
        _places(right - left, spacing_mm320, across), _places(far - front, spacing_mm320, along)
    )


@dataclass(frozen=True, slots=True)
class _Lines:
    """Joint lines: one of them, and their distance; 0 where there are none."""

    one: int
    module: int

    def nearest(self, wanted: float) -> int:
        """Give the joint line nearest to a place; the place itself where there are none."""
        if self.module <= 0:
            return round(wanted)
        return self.one + round((wanted - self.one) / self.module) * self.module


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
