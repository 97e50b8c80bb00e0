"""Where the drawings of a card go on its sheet."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

GAP_MM: Final = 2.0
_MOST_BESIDE: Final = 5
_MINOR_SHARE: Final = 0.4
_NARROWEST: Final = 0.7
_WIDEST: Final = 2.4
_BORDERS: Final = 0.35
"""Title and names of sides, as a share of a drawing's height."""
_MOST_MINOR_MM: Final = 58.0


@dataclass(frozen=True, slots=True)
class Slot:
    """Place of a drawing [mm]."""

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


def arrange(
    main: Sequence[float], minor: Sequence[float], width_mm: float, height_mm: float
) -> tuple[Slot, ...]:
    """Lay out drawings: the main ones large in the first row, the others small below.

    A single main drawing with few others has them in a column beside it.

    Parameters
    ----------
    main, minor
        Width by height of what each drawing shows; wide ones get more width.
    width_mm, height_mm
        Room for all of them [mm].

    Returns
    -------
    tuple of Slot
        The main ones first.
    """
    if not main or not minor:
        return tuple(_rows(main or minor, 0.0, width_mm, height_mm))
    number = len(minor)
    if len(main) == 1 and number <= 2:  # noqa: PLR2004 - a column of two is as high as the main one
        large = width_mm * 0.64
        each = (height_mm - (number - 1) * GAP_MM) / number
        beside = width_mm - large - GAP_MM
        tops = (at * (each + GAP_MM) for at in range(number))
        column = (Slot(large + GAP_MM, top, beside, each) for top in tops)
        return (Slot(0.0, 0.0, large, height_mm), *column)
    rows = -(-number // _MOST_BESIDE)
    below = min(height_mm * (_MINOR_SHARE if rows == 1 else 0.58), _MOST_MINOR_MM * rows)
    above = height_mm - below - GAP_MM
    first = _row(main, 0.0, width_mm, above)
    return (*first, *_rows(minor, above + GAP_MM, width_mm, below))


def _row(aspects: Sequence[float], top: float, width: float, height: float) -> list[Slot]:
    """Share a row by the width that each drawing can use, within limits."""
    shares = [min(max(aspect, _NARROWEST), _WIDEST) + _BORDERS for aspect in aspects]
    each = (width - (len(shares) - 1) * GAP_MM) / sum(shares)
    slots, left = [], 0.0
    for share in shares:
        slots.append(Slot(left, top, each * share, height))
        left += each * share + GAP_MM
    return slots


def _rows(aspects: Sequence[float], top: float, width: float, height: float) -> list[Slot]:
    """Fill rows of nearly equal numbers."""
    rows = -(-len(aspects) // _MOST_BESIDE)
    if rows == 0:
        return []
    each = (height - (rows - 1) * GAP_MM) / rows
    slots: list[Slot] = []
    for row in range(rows):
        beside = len(aspects) // rows + (row < len(aspects) % rows)
        here = aspects[len(slots) : len(slots) + beside]
        slots += _row(here, top + row * (each + GAP_MM), width, each)
    return slots
