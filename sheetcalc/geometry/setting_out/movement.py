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
    return MovementJoints(
        _places(left, right, spacing_mm320, out.origin[0], out.module_mm320[0], square=square),
        _places(front, far, spacing_mm320, out.origin[1], out.module_mm320[1], square=square),
    )


def _places(
    low: int, high: int, spacing: int, start: int, module: int, *, square: bool
) -> tuple[int, ...]:
    size = high - low
    bays = -(-size // spacing)
    if bays <= 1:
        return ()
    if not square or module <= 0:
        return tuple(size * k // bays for k in range(1, bays))
    lines: list[int] = []
    at = 0
    while size - at > spacing:
        # the farthest joint line that keeps the bays alike and within the spacing
        wanted = at + (size - at) / (bays - len(lines)) if bays > len(lines) else at + spacing
        line = low + at
        index = round((low + wanted - start) / module)
        line = start + index * module - low
        while line - at > spacing:
            line -= module
        if line <= at:
            line = at + spacing  # a module larger than the spacing: the joint is cut through
        lines.append(line)
        at = line
    return tuple(lines)
