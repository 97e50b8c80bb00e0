"""The input tabs, in the order of the workbook.  Guide and Lists are not tables of records."""

from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.inputs.allowances import LABOUR, WASTE
from sheetcalc.workbook.inputs.catalogue import BAGS, CABLES, ROLLS, SUNDRIES, TILES
from sheetcalc.workbook.inputs.finishes import BUILD_UP, FINISHES
from sheetcalc.workbook.inputs.job import JOB, PHASES
from sheetcalc.workbook.inputs.rooms import FLOOR_PIECES, ROOMS, WALL_FACES, WALL_LEGS
from sheetcalc.workbook.inputs.trading import DECISIONS, HOLIDAYS, RECEIVED, SUPPLIERS

INPUT_TABS: tuple[Tab, ...] = (
    JOB, PHASES, ROOMS, FLOOR_PIECES, WALL_LEGS, WALL_FACES, FINISHES, BUILD_UP, TILES, BAGS,
    ROLLS, CABLES, SUNDRIES, WASTE, LABOUR, SUPPLIERS, HOLIDAYS, RECEIVED, DECISIONS,
)  # fmt: skip
"""Every tab that an estimator fills in."""

GUIDE_NAME = "Guide"
LISTS_NAME = "Lists"

SCHEMA = 1
"""Version of this declaration, shown on the Guide and in every signature."""
