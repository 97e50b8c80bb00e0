"""Runs for the tests of room cards, and the sheet and the words that their cards are."""

from collections.abc import Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace
from result_books import bag, catalogue, inputs, raw_book, tile

from sheetcalc.cards import Space, begin_drawings
from sheetcalc.domain.catalogue import LabourTask
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import JobUnits
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.workbook.results.card_layout import Card, plan_cards
from sheetcalc.workbook.results.frame import Frame
from sheetcalc.workbook.results.printed_pages import Row
from sheetcalc.workbook.results.room_cards import Cards, drawing_heights, room_cards_sheets
from sheetcalc.workbook.sheet import Cell, SheetModel

MONDAY = date(2027, 6, 7)


class Said(Struct, frozen=True):
    """A finding in words."""

    severity: str = "warning"
    code: str = "STEP-AT-DOORWAY"
    tab: str = "Rooms"
    cell: str = "A5"
    room: str = "1.01"
    surface: str = ""
    found: str = "a step of 25 mm at Door"
    expected: str = ""
    what_to_do: str = "plan a ramp"


def task(name: str, day: int | None, **more: object) -> LabourTask:
    made = LabourTask(name, "per room", None, None, 1.0, None, day, None, "", NOWHERE)
    return replace(made, **more)  # type: ignore[arg-type]


def run(
    *works: RoomWork,
    lines: Sequence[QuantityLine] = (),
    labour: Sequence[LabourTask] = (),
    job: Job | None = None,
    rolls: Sequence[RollPlan] = (),
    starts: date | None = MONDAY,
) -> Run:
    goods = catalogue(tile("T-1", 5), bag("B-1", 5), labour=tuple(labour))
    given = inputs(goods, job=job, phases={"Floor 1": starts, "Floor 2": None})
    return Run(
        inputs=given,
        works=works,
        setting_outs=(),
        cable_plans=(),
        findings=(),
        lines=tuple(lines),
        roll_plans=tuple(rolls),
    )


def frame() -> Frame:
    return Frame(raw_book({}), JobUnits(), Cell("OK", "status"))


def sheet_of(done: Run) -> tuple[SheetModel, tuple[Card, ...]]:
    planned = plan_cards(done, ())
    pictures = begin_drawings(done, Space(drawing_heights(planned)))().cards
    (sheet,) = room_cards_sheets(Cards(planned, pictures), frame())
    return sheet, planned


def words_of(rows: Sequence[Row]) -> str:
    return "\n".join(
        " | ".join(str(cell.value) for cell in cells.values() if cell.value is not None)
        for _, cells in rows
    )
