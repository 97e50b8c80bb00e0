"""One run of the calculation: what the result tabs and the orders are made from."""

from msgspec import Struct

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.order import Order, Sourcing
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.quote import Quote
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut


class Run(Struct, frozen=True):
    """Everything calculated from one workbook.

    Attributes
    ----------
    works
        Rooms with their plans, in the order of the workbook.
    lines
        Quantity lines: room by room, then those of the whole job.
    setting_outs
        One a tiled surface, in the same order.
    left_out
        Rooms left out because of errors (``--leave-out-faulty``).
    sourcing
        Suppliers of items that several sell; None where there is nothing to choose.
    quote
        What the job costs and is sold for; None where it was not priced.
    """

    inputs: Inputs
    works: tuple[RoomWork, ...]
    setting_outs: tuple[SettingOut, ...]
    cable_plans: tuple[CablePlan, ...]
    findings: tuple[Finding, ...]
    lines: tuple[QuantityLine, ...] = ()
    roll_plans: tuple[RollPlan, ...] = ()
    orders: tuple[Order, ...] = ()
    left_out: tuple[str, ...] = ()
    sourcing: Sourcing | None = None
    quote: Quote | None = None
