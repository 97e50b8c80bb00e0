"""The Roll plan tab: which strip comes from which roll, in cutting order."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.quantity import RollPlan
from sheetcalc.workbook.results.frame import Frame, count, length, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import ROLL_PLAN
from sheetcalc.workbook.sheet import SheetModel

KEY: Final = "roll-plan"


def roll_plan_sheet(plans: Sequence[RollPlan], catalogue: Catalogue, frame: Frame) -> SheetModel:
    """Roll plan tab, roll by roll from its start."""
    unit = frame.units.long_length
    rows = [
        {
            "Phase": text(plan.phase),
            "Item": text(plan.item),
            "Description": text(
                catalogue.rolls[plan.item].description if plan.item in catalogue.rolls else "",
                wrap=True,
            ),
            "Roll": count(placed.roll),
            "Position": length(placed.position_mm320, unit),
            "Length": length(placed.strip.length_mm320, unit),
            "Width": length(placed.strip.width_mm320, unit),
            "Room": text(placed.strip.room),
            "Piece": text(placed.strip.piece, wrap=True),
        }
        for plan in plans
        for placed in sorted(plan.placed, key=lambda p: (p.roll, p.position_mm320, p.across_mm320))
    ]
    table = table_of(
        ROLL_PLAN,
        rows,
        nothing="no rolls",
        units=dict.fromkeys(("Position", "Length", "Width"), unit),
    )
    return sheet_of(KEY, ROLL_PLAN, frame, [table])
