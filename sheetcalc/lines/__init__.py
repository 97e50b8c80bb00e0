"""Lines of a takeoff: one file a line, listed here in the order of the Takeoff tab."""

from sheetcalc.lines.assembly import FINISHED_HEIGHT, FLOOR_LOAD
from sheetcalc.lines.boards import BOARDS
from sheetcalc.lines.cautions import DUST, FLATNESS, LIFTS
from sheetcalc.lines.cuts import CUTS
from sheetcalc.lines.demolition import ASBESTOS, DEMOLITION, SKIPS
from sheetcalc.lines.edge_trim import EDGE_TRIM
from sheetcalc.lines.grout import GROUT
from sheetcalc.lines.heating import HEATING_LINES
from sheetcalc.lines.line import JobContext, JobLine, Line, LineContext
from sheetcalc.lines.mortar import MORTAR
from sheetcalc.lines.poured import LEVELLING, PRIMER, SCREED, SEALER
from sheetcalc.lines.sealant import SEALANT
from sheetcalc.lines.shower_slope import SHOWER_CHECKS, SHOWER_SLOPE
from sheetcalc.lines.sundries import COLLARS, CORNERS, JOB_SUNDRIES, SUNDRIES, TRAY_FORMERS
from sheetcalc.lines.tile import SPARES, TILE
from sheetcalc.lines.underlay import UNDERLAY
from sheetcalc.lines.underlay_mortar import KNOB_FILL, UNDERLAY_MORTAR
from sheetcalc.lines.waits import WAITS, WATER_TEST
from sheetcalc.lines.waterproofing import BANDS, WATERPROOFING

__all__ = ["JOB_LINES", "LINES", "JobContext", "JobLine", "Line", "LineContext"]

LINES: tuple[Line, ...] = (
    DEMOLITION,
    LEVELLING,
    SCREED,
    PRIMER,
    BOARDS,
    TRAY_FORMERS,
    UNDERLAY_MORTAR,
    UNDERLAY,
    WATERPROOFING,
    BANDS,
    CORNERS,
    COLLARS,
    *HEATING_LINES,
    TILE,
    SPARES,
    CUTS,
    KNOB_FILL,
    MORTAR,
    GROUT,
    SEALANT,
    SEALER,
    EDGE_TRIM,
    SUNDRIES,
    FINISHED_HEIGHT,
    FLOOR_LOAD,
    SHOWER_SLOPE,
    WAITS,
    WATER_TEST,
)
"""Lines of one room; sundries come after what they may be measured by."""

JOB_LINES: tuple[JobLine, ...] = (
    JOB_SUNDRIES,
    SKIPS,
    ASBESTOS,
    LIFTS,
    DUST,
    FLATNESS,
    SHOWER_CHECKS,
)
"""Lines of the whole job."""
