"""Words that drop-downs offer and the reader accepts, where they are not enums of the domain."""

from sheetcalc.domain.catalogue import BagKind, PricePer, RollKind
from sheetcalc.domain.finish import LayerRole, SurfaceKind
from sheetcalc.domain.measure import UNITS
from sheetcalc.domain.room import PartKind, PieceKind
from sheetcalc.rules.allowances import WASTE_LINES as RULE_WASTE_LINES
from sheetcalc.rules.bases import BASES as RULE_BASES
from sheetcalc.rules.goods import GOODS_LINES as RULE_GOODS_LINES
from sheetcalc.rules.packages import PACKAGE_CODES

WALLS = ("near", "right", "far", "left")
TURNS = ("left", "right", "straight")
SURFACES = tuple(kind.value for kind in SurfaceKind)
PIECE_KINDS = tuple(kind.value for kind in PieceKind)
WALL_PARTS = tuple(kind.value for kind in PartKind)
LAYER_ROLES = tuple(role.value for role in LayerRole)
BAG_KINDS = tuple(kind.value for kind in BagKind)
ROLL_KINDS = tuple(kind.value for kind in RollKind)
PRICES_PER = tuple(per.value for per in PricePer)

BONDS = (
    "grid",
    "offset 1/2",
    "offset 1/3",
    "offset 1/3 alternate",
    "diagonal grid",
    "herringbone",
    "double herringbone",
    "basket weave",
)
"""Suggestions: any ``offset 1/n``, and ``offset 1/n alternate``, is a bond."""

RUNS = ("along the long side", "along the short side", "with the floor", "45 degrees")
NOTCHES_METRIC = (
    "square 6 x 6 x 6 mm",
    "square 8 x 8 x 8 mm",
    "square 10 x 10 x 10 mm",
    "square 12 x 12 x 12 mm",
    "U 20 x 15 x 10 mm",
    "V 5 x 4 x 2 mm",
)
NOTCHES_US = (
    "square 1/4 x 1/4 x 1/4 in",
    "square 1/4 x 3/8 x 1/4 in",
    "square 1/2 x 1/2 x 1/2 in",
    "U 1/2 x 1/2 x 1/2 in",
    "V 3/16 x 5/32 x 1/16 in",
)
MATERIALS = ("ceramic", "porcelain", "natural stone", "glass", "terracotta", "cement")
EDGES = ("rectified", "calibrated", "pressed", "natural")
LEADS = ("one end", "both ends")
TAKE_UPS = (
    "tile and bed",
    "tile",
    "screed",
    "resilient flooring",
    "resilient flooring and mastic",
    "timber flooring",
)
COUNTED_BY = ("setting-out", "area")
PACK_UNITS = tuple(symbol for symbol in UNITS if symbol not in {"W", "A", "h"})
PACKAGES = tuple(PACKAGE_CODES)
BASES = tuple(RULE_BASES)
LABOUR_BASES = tuple(key for key, basis in RULE_BASES.items() if not basis.needs_of)
"""Labour has no column to name another item in."""
WASTE_LINES = RULE_WASTE_LINES
GOODS_LINES = RULE_GOODS_LINES
DELIVERIES = ("each phase", "each day", "all at once")
DECISIONS = ("accepted",)
