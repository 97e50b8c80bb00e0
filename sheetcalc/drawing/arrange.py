"""Where the drawings of a card go on its sheet."""

from collections.abc import Sequence
from math import log
from typing import Final

from msgspec import Struct

GAP_MM: Final = 2.0
_MOST_BESIDE: Final = 5
_MINOR_SHARES: Final = {1: 0.4, 2: 0.58}
_ASIDE_MM: Final = 8.0
_ABOVE_MM: Final = 14.0
"""Names and title round a drawing."""

_NARROWEST: Final = 0.7
_WIDEST: Final = 3.2
_BORDERS: Final = 0.35
"""Title and names of sides, as a share of a drawing's height."""
_MOST_MINOR_MM: Final = 58.0
_LOW_SHARE: Final = 0.33


class Slot(Struct, frozen=True):
    """Place of a drawing [mm]."""

    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


def arrange(
    main: Sequence[float],
    minor: Sequence[float],
    width_mm: float,
    height_mm: float,
    low: Sequence[float] = (),
) -> tuple[Slot, ...]:
    """Lay out drawings: the main ones large in the first row, the others small below.

    A single main drawing may have few others in a column beside it, where all come out larger.

    Parameters
    ----------
    main, minor
        Width by height of what each drawing shows; wide ones get more width.
    width_mm, height_mm
        Room for all of them [mm].
    low
        Of drawings much wider than high, which share the last row.

    Returns
    -------
    tuple of Slot
        The main ones first, the low ones last.
    """
    if low and (main or minor):
        high = min(_useful_height(low, width_mm), height_mm * _LOW_SHARE)
        rest = height_mm - high - GAP_MM
        return (*arrange(main, minor, width_mm, rest), *_row(low, rest + GAP_MM, width_mm, high))
    minor = (*minor, *low)
    if not main or not minor:
        one_kind = main or minor
        rows = -(-len(one_kind) // _MOST_BESIDE)
        return tuple(_rows(one_kind, 0.0, width_mm, height_mm, rows)) if one_kind else ()
    number = len(minor)
    fewest = -(-number // _MOST_BESIDE)
    ways = [
        _stacked(main, minor, rows, width_mm, height_mm)
        for rows in range(fewest, fewest + 1 + (number > 2))  # noqa: PLR2004 - two fit a row well
    ]
    if len(main) == 1 and number <= 2:  # noqa: PLR2004 - a column of two is as high as the main one
        ways.append(_beside(number, width_mm, height_mm))
    return max(ways, key=lambda slots: _worth(slots, main, minor))


def _beside(number: int, width: float, height: float) -> tuple[Slot, ...]:
    """Put the small drawings in a column beside the main one."""
    large = width * 0.64
    each = (height - (number - 1) * GAP_MM) / number
    tops = (at * (each + GAP_MM) for at in range(number))
    column = (Slot(large + GAP_MM, top, width - large - GAP_MM, each) for top in tops)
    return (Slot(0.0, 0.0, large, height), *column)


def _stacked(
    main: Sequence[float], minor: Sequence[float], rows: int, width: float, height: float
) -> tuple[Slot, ...]:
    """Put the small drawings in rows below the main ones, each row as high as it can use."""
    useful_above = _useful_height(main, width)
    useful = _useful_height(minor[: -(-len(minor) // rows)], width) * rows + (rows - 1) * GAP_MM
    share = max(height * _MINOR_SHARES[min(rows, 2)], height - useful_above - GAP_MM)
    below = min(share, _MOST_MINOR_MM * rows, useful)
    above = height - below - GAP_MM
    return (
        *_row(main, 0.0, width, above),
        *_rows(minor, above + GAP_MM, width, below, rows),
    )


def _worth(slots: Sequence[Slot], main: Sequence[float], minor: Sequence[float]) -> float:
    """How large the drawings come out; the main ones count twice."""
    drawn = [
        log(max(min(s.width_mm - _ASIDE_MM, (s.height_mm - _ABOVE_MM) * aspect), 1.0) / aspect)
        for s, aspect in zip(slots, (*main, *minor), strict=True)
    ]
    return 2 * sum(drawn[: len(main)]) / len(main) + sum(drawn[len(main) :]) / len(minor)


def _useful_height(aspects: Sequence[float], width: float) -> float:
    """Height of a row beyond which drawings that fill their width gain nothing."""
    slots = _row(aspects, 0.0, width, 0.0)
    return max(
        max(slot.width_mm - _ASIDE_MM, 0.0) / max(aspect, 0.01) + _ABOVE_MM
        for slot, aspect in zip(slots, aspects, strict=True)
    )


def _row(aspects: Sequence[float], top: float, width: float, height: float) -> list[Slot]:
    """Share a row by the width that each drawing can use, within limits."""
    shares = [min(max(aspect, _NARROWEST), _WIDEST) + _BORDERS for aspect in aspects]
    each = (width - (len(shares) - 1) * GAP_MM) / sum(shares)
    slots, left = [], 0.0
    for share in shares:
        slots.append(Slot(left, top, each * share, height))
        left += each * share + GAP_MM
    return slots


def _rows(
    aspects: Sequence[float], top: float, width: float, height: float, rows: int
) -> list[Slot]:
    """Fill rows of nearly equal numbers."""
    each = (height - (rows - 1) * GAP_MM) / rows
    slots: list[Slot] = []
    for row in range(rows):
        beside = len(aspects) // rows + (row < len(aspects) % rows)
        here = aspects[len(slots) : len(slots) + beside]
        slots += _row(here, top + row * (each + GAP_MM), width, each)
    return slots
