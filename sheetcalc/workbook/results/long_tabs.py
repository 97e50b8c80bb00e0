"""Result tabs that grow with the job; each can be made apart from all others, and before some.

Most need no more of a run than the plans of its rooms; the Takeoff needs its lines, and says last
what these cost.  None needs to know how the run ends: the status may be left to be put in later.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.run import Run
from sheetcalc.domain.spread import in_shares
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
from sheetcalc.workbook.results.quote_formulas import LinePrices, QuoteFormulas
from sheetcalc.workbook.results_tabs import ROLL_PLAN, TAKEOFF
from sheetcalc.workbook.results_tabs_heating import CABLE_SCHEDULE, RESISTANCE_LOG
from sheetcalc.workbook.results_tabs_tiling import CUT_LIST, SETTING_OUT
from sheetcalc.workbook.sheet import SheetModel

Finish: TypeAlias = Callable[[LinePrices | None], SheetModel]
"""Takes what the Takeoff's lines cost, None without a quote, and gives a sheet."""


class LongTab(Struct, frozen=True):
    """A result tab that grows with the job, or some of its records.

    Attributes
    ----------
    key
        Of its sheet.
    begin
        Makes of its sheet what can be made before it is known what lines cost; depends on nothing
        that other tabs do.
    cells
        About how many it has.
    of_plans
        Whether it can be begun when the rooms are planned, before lines are taken off.
    before
        Records of the sheet that come before these; None where there are no others.
    """

    key: str
    begin: Callable[[], Finish]
    cells: int
    of_plans: bool = False
    before: int | None = None


def long_tabs(run: Run, frame: Frame, most: int | None = None) -> tuple[LongTab, ...]:
    """Tabs that grow with the job, in their order in the workbook; the run may lack its orders.

    Parameters
    ----------
    run
        Of one that lacks its lines too, the tabs ``of_plans`` are good.
    frame
        Shared by the result tabs.
    most
        Records of the Takeoff, which is the longest, that are in one part of it; None for all.
    """
    records = len(run.lines)
    parts = in_shares(records, most) if records and most else [range(records)]
    return (*_takeoff(run, frame, parts), *_tabs_of_plans(run, frame))


def _takeoff(run: Run, frame: Frame, parts: Sequence[range]) -> Iterator[LongTab]:
    for part in parts:
        yield LongTab(
            takeoff.KEY,
            partial(takeoff.begin_takeoff, run.lines, frame, part),
            len(part) * len(TAKEOFF.columns),
            before=part.start if len(parts) > 1 else None,
        )


def _tabs_of_plans(run: Run, frame: Frame) -> tuple[LongTab, ...]:
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
            of_plans=True,
        ),
        _long(
            cut_list.KEY,
            lambda: cut_list.cut_list_sheet(run.works, frame),
            cuts,
            CUT_LIST,
            of_plans=True,
        ),
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
            of_plans=True,
        ),
        _long(
            resistance_log.KEY,
            lambda: resistance_log.resistance_log_sheet(plans, readings, job, frame),
            cables * len(STAGES),
            RESISTANCE_LOG,
            of_plans=True,
        ),
    )


def line_prices(run: Run, frame: Frame) -> LinePrices | None:
    """Give what lines cost, to make their tab where the other tabs are not made."""
    if run.quote is None:
        return None
    orders = OrderFormulas(run.orders, run.lines, run.inputs, frame)
    return QuoteFormulas(run, run.quote, frame, orders).line_prices()


def _long(
    key: str, make: Callable[[], SheetModel], rows: int, tab: Tab, *, of_plans: bool = False
) -> LongTab:
    def begin() -> Finish:
        sheet = make()
        return lambda _prices: sheet

    return LongTab(key, begin, rows * len(tab.columns), of_plans)
