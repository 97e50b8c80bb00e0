"""Flatness of the base under tile, by the tile's longest edge."""

from typing import Final

from msgspec import Struct

from sheetcalc.domain.measure import MM320_PER_INCH

LONG_EDGE_MM320: Final = 15 * MM320_PER_INCH
"""Edge from which the tighter class holds; not the threshold of the term 'large format'."""


class Flatness(Struct, frozen=True):
    """A class of flatness, in words, and its source."""

    words: str
    source: str


# Of the shorter straightedge the quotation gives inches alone: millimetres are converted here.
_TIGHT = Flatness(
    "1/8 in in 10 ft (3 mm in 3 m) and 1/16 in in 24 in (1.6 mm in 0.61 m)",
    "ANSI A108.02-4.2.2 / A108.01, as quoted in floortrendsmag 113806 and fcimag 96103",
)
_ORDINARY = Flatness(
    "1/4 in in 10 ft (6 mm in 3 m) and 1/16 in in 12 in (1.6 mm in 0.3 m)",
    "ANSI A108.01/.02, from memory, not verified",
)


def flatness_for(longest_edge_mm320: int) -> Flatness:
    """Flatness to prepare for.

    ANSI A108.02-4.2.2 / A108.01, as quoted in floortrendsmag 113806, for an edge of 15 in or more;
    the class below it is from memory, not verified.

    Parameters
    ----------
    longest_edge_mm320
        Longest edge of the tile, of a mosaic's chip [1/320 mm].

    Returns
    -------
    Flatness
        The allowed deviation and its source.
    """
    return _TIGHT if longest_edge_mm320 >= LONG_EDGE_MM320 else _ORDINARY
