"""Result tabs that grow with the job; each can be made apart from all others, and before some.

Those of the plans need neither orders nor a quote, and none needs to know how the run ends: the
status may be left to be put in later.
"""

from collections.abc import Callable

from msgspec import Struct

from sheetcalc.domain.run import Run
from sheetcalc.rules.resistance_log import STAGES
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.results import (
    cable_schedule,
    cut_list,
    resistance_log,
    roll_plan,
    setting_out,
    takeoff,
)
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.order_formulas import OrderFormulas
from sheetcalc.workbook.results.quote_formulas import QuoteFormulas
from sheetcalc.workbook.results_tabs import ROLL_PLAN, TAKEOFF
from sheetcalc.workbook.results_tabs_heating import CABLE_SCHEDULE, RESISTANCE_LOG
from sheetcalc.workbook.results_tabs_tiling import CUT_LIST, SETTING_OUT
from sheetcalc.workbook.sheet import SheetModel


class LongTab(Struct, frozen=True):
    """A result tab that grows with the job.

    Attributes
    ----------
    key
        Of its sheet.
    make
        Makes its sheet; depends on nothing that other tabs do.
    cells
        About how many it has.
    """

    key: str
    make: Callable[[], SheetModel]
    cells: int


def takeoff_tab(run: Run, frame: Frame, prices: Callable[[], QuoteFormulas | None]) -> LongTab:
    """Give the Takeoff of a whole run; the formulas of its quote are asked for when it is made."""

    def make() -> SheetModel:
        return takeoff.takeoff_sheet(run.lines, frame, run.quote, prices())

    return _long(takeoff.KEY, make, len(run.lines), TAKEOFF)


def tabs_of_plans(run: Run, frame: Frame) -> tuple[LongTab, ...]:
    """Tabs of what was planned, in their order in the workbook; the run may lack its orders yet."""
    job, rolls = run.inputs.job, run.inputs.catalogue
    readings, plans = run.inputs.readings, run.cable_plans
    # rooms of one shape and finish are mostly set out alike, and stand in one row
    kinds = {(work.room.shape, work.room.finish): work for work in run.works}.values()
    outs = [out for work in kinds for out in work.setting_outs.values()]
    cuts = sum(len(out.pieces) for out in outs)
    strips = sum(len(plan.placed) for plan in run.roll_plans)
    cables = sum(max(1, len(plan.copies)) for plan in plans)
    return (
        _long(
            setting_out.KEY,
            lambda: setting_out.setting_out_sheet(run.works, frame),
            len(outs),
            SETTING_OUT,
        ),
        _long(cut_list.KEY, lambda: cut_list.cut_list_sheet(run.works, frame), cuts, CUT_LIST),
        _long(
            roll_plan.KEY,
            lambda: roll_plan.roll_plan_sheet(run.roll_plans, rolls, frame),
            strips,
            ROLL_PLAN,
        ),
        _long(
            cable_schedule.KEY,
            lambda: cable_schedule.cable_schedule_sheet(plans, job, frame),
            cables,
            CABLE_SCHEDULE,
        ),
        _long(
            resistance_log.KEY,
            lambda: resistance_log.resistance_log_sheet(plans, readings, job, frame),
            cables * len(STAGES),
            RESISTANCE_LOG,
        ),
    )


def quote_formulas(run: Run, frame: Frame, orders: OrderFormulas) -> QuoteFormulas | None:
    """Formulas of a run's quote; None where it was not priced."""
    return QuoteFormulas(run, run.quote, frame, orders) if run.quote else None


def own_formulas(run: Run, frame: Frame) -> QuoteFormulas | None:
    """Formulas of a run's quote, for a tab that is made where the other tabs' are not."""
    orders = OrderFormulas(run.orders, run.lines, run.inputs, frame)
    return quote_formulas(run, frame, orders)


def _long(key: str, make: Callable[[], SheetModel], rows: int, tab: Tab) -> LongTab:
    return LongTab(key, make, rows * len(tab.columns))
