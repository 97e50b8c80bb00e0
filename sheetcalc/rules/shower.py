"""Falls of a shower floor, and the depth of its curb."""

from typing import Final

LEAST_SLOPE: Final = 0.02
MOST_SLOPE: Final = 0.04
SLOPE_SOURCE: Final = (
    "1/4 to 1/2 in per ft (2 to 4 %), IRC 2009 P2709.1, as quoted in The Building Code Forum"
)

LEAST_CURB_MM320: Final = 2 * 8128
MOST_CURB_MM320: Final = 9 * 8128
CURB_SOURCE: Final = (
    "2 to 9 in from the curb's top to the drain's, IRC 2009 P2709.1, as quoted in The Building "
    "Code Forum"
)

_CHANNEL_RATIO: Final = 3
"""A drain so many times as long as wide is a channel: common practice, no source."""

_NINE_DECIMALS: Final = 1e-9


def rise_m(distance_m: float, slope: float) -> float:
    """Height that a fall gains over a distance from the drain.

    Geometry; the slope is the Job's.

    Parameters
    ----------
    distance_m
        Level distance from the drain [m].
    slope
        Share, 0.02 for 2 %.

    Examples
    --------
    A pan of 36 x 60 in with its drain in the middle rises 0.625 in to the end at 1/4 in per
    ft, by hand:

    >>> round(rise_m(30 * 0.0254, 0.25 / 12) / 0.0254, 3)
    0.625
    """
    return distance_m * slope


def is_usual_slope(slope: float) -> bool:
    """Whether a slope lies within the limits, which it may equal."""
    return LEAST_SLOPE - _NINE_DECIMALS <= slope <= MOST_SLOPE + _NINE_DECIMALS


def is_channel(side: int, other: int) -> bool:
    """Whether a drain of these sides, in any one unit, is a channel that a floor falls one way to.

    At least three times as long as wide: common practice, no source.
    """
    return max(side, other) >= _CHANNEL_RATIO * min(side, other)
