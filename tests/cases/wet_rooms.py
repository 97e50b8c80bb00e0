"""A shower floor of 1.2 x 0.9 m with 3 m of its edge along walls, and what makes it waterproof."""

from hand_made import MEASURES, MM, bag, box, roll
from msgspec.structs import replace

from sheetcalc.domain.catalogue import BagKind, RollKind
from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room import Surface

SHOWER = SurfaceKind.SHOWER_FLOOR
PAN = Surface("shower floor S", SHOWER, box(1200 * MM, 900 * MM))
WALL = Surface("wall far", SurfaceKind.WALL, box(3000 * MM, 2400 * MM))
MEASURED = replace(MEASURES, wall_edge_m={SHOWER: 3.0}, wet_change_of_plane_m=4.2, shower_floors=1)
LIQUID = bag("L", BagKind.LIQUID_WATERPROOFING, coverage_m2=10.0, package="pail")
SHEET = roll("W", RollKind.WATERPROOFING_SHEET, overlap_mm320=50 * MM)
BAND = roll("B", RollKind.BAND)
