"""What the fitter needs of a planned path: rows one by one, check lengths, sensor, spacing."""

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from sheetcalc.domain.cable import CableRow
from sheetcalc.geometry.heating.cable_loops import Loop
from sheetcalc.geometry.heating.cable_path import PathPlan
from sheetcalc.geometry.heating.cable_row_costs import ROUNDED

_MM_PER_M: Final = 1000.0
_SENSOR_IN_MM: Final = 250.0
_SAME_MM: Final = 1.0


def rows_of(plan: PathPlan, radius_mm: float) -> tuple[CableRow, ...]:
    """Rows of a path in the order of laying.

    Parameters
    ----------
    plan
        Path.
    radius_mm
        Of its corners [mm].

    Returns
    -------
    tuple of CableRow
        Running lengths count the turn after each row; the last one is the cable's length.
    """
    across = 0 if plan.turned else 1
    along = 1 - across
    steps = np.diff(plan.path, axis=0)
    is_row = np.abs(steps[:, along]) > _SAME_MM
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    # each corner's rounding is booked with the straight before it
    lengths[:-1] -= ROUNDED * radius_mm
    running = np.cumsum(lengths)
    places = np.nonzero(is_row)[0]
    pitch = plan.lattice.pitch_mm
    rows = []
    before = 0.0
    for number, at in enumerate(places, 1):
        last = number == len(places)
        end = float(running[-1] if last else running[places[number] - 1])
        here = float(plan.path[at, across])
        to_next = 0.0 if last else abs(float(plan.path[places[number], across]) - here)
        rows.append(
            CableRow(
                number=number,
                offset_m=here / _MM_PER_M,
                length_m=(end - before) / _MM_PER_M,
                running_m=end / _MM_PER_M,
                skip=round(to_next / pitch) if plan.lattice.knobbed else 0,
                to_next_m=to_next / _MM_PER_M,
            )
        )
        before = end
    return tuple(rows)


def check_lengths(rows: tuple[CableRow, ...]) -> tuple[tuple[int, float], ...]:
    """Give two rows, at about a third and two thirds, with the length used by then [m]."""
    if not rows:
        return ()
    total = rows[-1].running_m
    chosen = {
        min(rows, key=lambda r: abs(r.running_m - total * share)).number for share in (1 / 3, 2 / 3)
    }
    return tuple((r.number, r.running_m) for r in rows if r.number in chosen)


def tolerance_rows(rows: Sequence[CableRow], tolerance_m: float) -> tuple[int, int] | None:
    """Rows at the end that can take up what a cable's own length differs by.

    By turning earlier or later they take up half their length with ease (common practice, no
    source), so the fewest last rows, two at least, that are together twice the tolerance.

    Parameters
    ----------
    rows
        In the order of laying.
    tolerance_m
        How far the cable's own length may differ [m].

    Returns
    -------
    tuple of int or None
        Numbers of the first and the last of them; None without rows.
    """
    if not rows:
        return None
    taken, first = 0.0, len(rows)
    for row in reversed(rows):
        taken, first = taken + row.length_m, row.number
        if taken >= 2 * tolerance_m and first < len(rows):
            break
    return first, len(rows)


def sensor_place(plan: PathPlan) -> tuple[float, float]:
    """Place of the sensor: midway between the two runs of the loop that the path begins on [mm]."""
    x = (plan.opening.start[0] + plan.opening.end[0]) / 2
    y = (plan.opening.start[1] + plan.opening.end[1]) / 2
    lattice = plan.lattice

    def distance(loop: Loop) -> float:
        low, high = lattice.row_mm(loop.bottom), lattice.row_mm(loop.top)
        return max(loop.left_mm - x, x - loop.right_mm, 0.0) + max(low - y, y - high, 0.0)

    loop = min(plan.course.loops, key=distance)
    middle = (loop.left_mm + loop.right_mm) / 2
    inward = min(_SENSOR_IN_MM, abs(middle - x))
    place_x = x + inward if middle >= x else x - inward
    place_y = (lattice.row_mm(loop.bottom) + lattice.row_mm(loop.top)) / 2
    return (place_y, place_x) if plan.turned else (place_x, place_y)


def spacing_words(plan: PathPlan, show: Callable[[float], str]) -> str:
    """Spacings used, in words: knobs with their distance, or distances alone.

    Parameters
    ----------
    plan
        Path.
    show
        Words for a distance in millimetres.
    """
    pitch = plan.lattice.pitch_mm
    used = sorted(set(plan.steps))
    if plan.lattice.knobbed:
        return " and ".join(f"{n} knobs ({show(n * pitch)})" for n in used)
    return " and ".join(show(n * pitch) for n in used)
