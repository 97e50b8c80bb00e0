"""Default waste allowances of the lines, used where the Waste factors tab has no row.

Every share is a starting value for an office to replace; the source stands beside it.
"""

from typing import Final

from msgspec import Struct

COMMON_PRACTICE: Final = "common practice, no source"

BY_SETTING_OUT: Final = "setting-out"
BY_AREA: Final = "area"


class Allowance(Struct, frozen=True):
    """Default allowance of a line.

    Attributes
    ----------
    line
        Key of the line.
    share
        0.10 for 10 %.
    note
        What the share stands for.
    source
        Publication, or 'common practice, no source'.
    bond
        Family of bond that it holds for ("" for any).
    counted_by
        ``setting-out`` or ``area`` ("" for either).
    """

    line: str
    share: float
    note: str
    source: str
    bond: str = ""
    counted_by: str = ""


_TRADE_COLUMN = (
    "common practice, no source; inside the 5-15 % that TileLetter Nov 2016 reports for "
    "installers, straight least"
)

ALLOWANCES: Final[tuple[Allowance, ...]] = (
    Allowance(
        "tile", 0.03, "breakage: cuts are counted piece by piece", COMMON_PRACTICE,
        counted_by=BY_SETTING_OUT,
    ),
    Allowance("tile", 0.10, "cuts and breakage", _TRADE_COLUMN, counted_by=BY_AREA),
    Allowance(
        "tile", 0.15, "cuts and breakage on the diagonal", _TRADE_COLUMN,
        bond="diagonal grid", counted_by=BY_AREA,
    ),
    Allowance(
        "tile", 0.18, "cuts and breakage of herringbone", COMMON_PRACTICE,
        bond="herringbone", counted_by=BY_AREA,
    ),
    Allowance(
        "tile", 0.18, "cuts and breakage of herringbone", COMMON_PRACTICE,
        bond="double herringbone", counted_by=BY_AREA,
    ),
    Allowance("mortar", 0.05, "working loss: bucket, trowel, unused mix", COMMON_PRACTICE),
    Allowance("underlay mortar", 0.05, "working loss", COMMON_PRACTICE),
    Allowance("knob fill", 0.05, "working loss", COMMON_PRACTICE),
    Allowance("grout", 0.10, "working loss: float, sponge, unused mix", COMMON_PRACTICE),
    Allowance("sealant", 0.10, "nozzles, tooling, opened cartridges", COMMON_PRACTICE),
    Allowance("mats", 0.10, "cut edges of mats", COMMON_PRACTICE),
    Allowance("boards", 0.10, "cut edges of boards", COMMON_PRACTICE),
    Allowance("waterproofing", 0.05, "roller, bucket, uneven backing", COMMON_PRACTICE),
    Allowance("bands", 0.10, "laps at ends and corners", COMMON_PRACTICE),
    Allowance("levelling", 0.05, "working loss, uneven base", COMMON_PRACTICE),
    Allowance("screed", 0.05, "working loss, uneven base", COMMON_PRACTICE),
    Allowance("primer", 0.05, "roller and bucket", COMMON_PRACTICE),
    Allowance("sealer", 0.05, "cloth and roller", COMMON_PRACTICE),
    Allowance("sundries", 0.0, "losses belong in the Rate", COMMON_PRACTICE),
    Allowance("corners", 0.0, "counted piece by piece", COMMON_PRACTICE),
    Allowance("collars", 0.0, "counted piece by piece", COMMON_PRACTICE),
    Allowance("tray formers", 0.0, "counted piece by piece", COMMON_PRACTICE),
)  # fmt: skip
"""In the order of the takeoff; of rows that match, the one that says most wins."""

WASTE_LINES: Final[tuple[str, ...]] = tuple(dict.fromkeys(a.line for a in ALLOWANCES))
"""Keys that the Line column of Waste factors may hold."""


def default_allowance(line: str, bond: str = "", counted_by: str = "") -> Allowance | None:
    """Default allowance of a line.

    Parameters
    ----------
    line
        Key of the line.
    bond
        Label of the bond, such as ``offset 1/3``; "" where the line has none.
    counted_by
        ``setting-out``, ``area`` or "".

    Returns
    -------
    Allowance or None
        The row that matches most closely; None for a line that has no allowance.
    """
    rows = [
        a
        for a in ALLOWANCES
        if a.line == line and a.bond in {"", bond} and a.counted_by in {"", counted_by}
    ]
    return max(rows, key=lambda a: (bool(a.bond), bool(a.counted_by)), default=None)
