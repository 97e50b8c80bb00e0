"""The Cable plans tab: for each heated room a page with its cables large, and row by row."""

from collections.abc import Collection, Iterator, Sequence
from itertools import accumulate
from math import floor
from typing import Final

from msgspec import Struct

from sheetcalc.domain.cable import CablePlan, CableRow
from sheetcalc.domain.card import CARD_WIDTH_MM, CardPictures
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import INCH, MM320_PER_METRE, Unit
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.rules.electrical import STANDARD_TEMPERATURE_C
from sheetcalc.units import show_place, show_quantity, show_tape
from sheetcalc.workbook.results.card_content import LARGE, reading_blanks
from sheetcalc.workbook.results.card_lines import broken
from sheetcalc.workbook.results.frame import Frame, count
from sheetcalc.workbook.results.printed_pages import (
    MOST_DRAWING_MM,
    MOST_PAGES,
    PAGE_POINTS,
    POINTS_A_MM,
    Pages,
    Row,
    height_of,
    in_parts,
)
from sheetcalc.workbook.results_tabs_heating import BY_WHOM, CABLE_PLANS
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "cable-plans"

_ABREAST: Final = 3
"""Blocks of rows side by side."""

_BLOCK: Final = (8.5, 7.5, 7.0, 6.5, 1.2)
"""Widths of a block: row, where it lies, laid at its end, to the next, and the gap after it."""

_WIDTHS: Final = (_BLOCK * _ABREAST)[:-1]
_LEAST_MM: Final = 100.0
"""A lower drawing can't be read; rows that leave less go to the next page."""

_SPARE_MM: Final = 6.0
"""Left blank at the foot of a page, as it has many rows whose heights programs round up."""


class CablePage(Struct, frozen=True):
    """The page of a heated room and of all rooms whose cables lie as its own.

    Attributes
    ----------
    room
        Row of Rooms whose drawing it shows.
    names
        Rooms that it is for.
    cables
        In the order of the drawing.
    heading, below
        What stands above the drawing, and below it of each cable.
    drawing_mm
        Height of the drawing [mm].
    """

    room: str
    names: tuple[str, ...]
    cables: tuple[CablePlan, ...]
    heading: tuple[Row, ...]
    below: tuple[tuple[Row, ...], ...]
    drawing_mm: float

    @property
    def rows(self) -> tuple[Row, ...]:
        """Rows of all cables below the drawing."""
        return tuple(row for block in self.below for row in block)


def plan_cable_pages(run: Run, words: Words = ENGLISH) -> tuple[CablePage, ...]:
    """Plan a page for each heated room; rooms whose cables lie alike share one.

    Parameters
    ----------
    run
        What was calculated.
    words
        Of the office.
    """
    job = run.inputs.job
    pages = []
    for works in _alike(run):
        first = works[0]
        cables = tuple(plan for plan in first.cables if plan.path)
        names = tuple(name for work in works for name in work.room.names)
        below = tuple(
            tuple(_cable(n, plan, job, words, alone=len(names) == 1))
            for n, plan in enumerate(cables, 1)
        )
        heading = tuple(_heading(names, words))
        page = PAGE_POINTS[job.units.paper] - _SPARE_MM * POINTS_A_MM - height_of(heading)
        fitting = _fitting(below, page - _LEAST_MM * POINTS_A_MM)
        left = (page - sum(map(height_of, below[:fitting]))) / POINTS_A_MM
        height = floor(min(max(left, _LEAST_MM), MOST_DRAWING_MM))
        pages.append(CablePage(first.room.name, names, cables, heading, below, height))
    return tuple(pages)


def _fitting(blocks: Sequence[Sequence[Row]], room: float) -> int:
    """How many of the first blocks fit in this height [points]."""
    heights = accumulate(height_of(block) for block in blocks)
    return sum(height <= room for height in heights)


def _alike(run: Run) -> Collection[Sequence[RoomWork]]:
    """Heated rooms, those whose cables lie alike together."""
    alike: dict[tuple[object, ...], list[RoomWork]] = {}
    for work in run.works:
        laid = tuple((p.cable, p.zone, p.path, p.lead_path) for p in work.cables if p.path)
        if laid:
            alike.setdefault((work.room.shape, laid), []).append(work)
    return alike.values()


def makes_cable_plans(run: Run, number: int) -> bool:
    """Tell whether a run makes the tab with this number."""
    if number == 1:
        return any(plan.path for work in run.works for plan in work.cables)
    return len(_alike(run)) > (number - 1) * MOST_PAGES


def without_cable_plans(number: int, frame: Frame) -> SheetModel:
    """Make the tab with this number, without any plan."""
    return _sheet((), number, {}, frame)


def cable_plans_sheets(
    pages: Sequence[CablePage], pictures: CardPictures, frame: Frame
) -> tuple[SheetModel, ...]:
    """Make the Cable plans tab; none where no cable is laid.

    Parameters
    ----------
    pages
        As planned.
    pictures
        Drawings by the name of the row of Rooms.
    frame
        Units and status.
    """
    if not pages:
        return ()
    return tuple(_sheet(part, number, pictures, frame) for number, part in in_parts(pages))


def _sheet(
    pages: Sequence[CablePage], number: int, pictures: CardPictures, frame: Frame
) -> SheetModel:
    printed = Pages(len(pages))
    listed = []
    for page in pages:
        first = printed.begin()
        printed.write(page.heading)
        drawn = pictures.get(page.room, ())
        printed.draw(drawn, page.drawing_mm)
        above = height_of(page.heading) + (page.drawing_mm * POINTS_A_MM if drawn else 0)
        fitting = _fitting(page.below, PAGE_POINTS[frame.units.paper] - above)
        for block in page.below[:fitting]:
            printed.write(block)
        if fitting < len(page.below):  # a cable's list is not torn apart
            printed.begin()
        for block in page.below[fitting:]:
            printed.write(block)
        listed.append(
            {
                "Room": Cell(page.names[0], "result_link", link=f"internal:A{first}"),
                "Alike": count(len(page.names)),
                "Cables": count(len(page.cables)),
                "Rows": count(sum(plan.rows for plan in page.cables)),
            }
        )
    return printed.sheet(
        CABLE_PLANS, listed, frame, key=KEY, number=number, widths=_WIDTHS, nothing="no plans"
    )


def _heading(names: Sequence[str], words: Words) -> Iterator[Row]:
    name, *others = names
    title = words.fill("Cables of room {name}", name=name)
    yield LARGE.title, {1: Cell(title, "card_room")}
    also = (
        words.fill("also for {rooms}", rooms=", ".join(others))
        if others
        else words.say("for this room alone")
    )
    first, *more = broken(also, LARGE.size, CARD_WIDTH_MM)
    yield LARGE.head, {1: Cell(f"{first} …" if more else first, "card_about")}


def _cable(number: int, plan: CablePlan, job: Job, words: Words, *, alone: bool) -> Iterator[Row]:
    """Give what a fitter needs of one cable below the drawing: heading, rows, readings."""
    title = words.fill(
        "Cable {number}: {cable} · {zone} · {length}, {watts} W at {volts} V",
        number=number,
        cable=plan.cable,
        zone=words.named(plan.zone),
        length=show_quantity(plan.length_m, job.units.long_length),
        watts=f"{plan.watts:g}",
        volts=f"{plan.volts:g}",
    )
    # alike rooms are on circuits of their own
    on = words.fill("circuit {circuit}", circuit=plan.circuit) if alone else ""
    title = " · ".join(part for part in (title, on) if part)
    yield LARGE.head, {**_across("card_head"), 1: Cell(title, "card_head")}
    for line in broken(" ".join(_how(plan, job, words)), LARGE.size, CARD_WIDTH_MM):
        yield LARGE.line, {1: Cell(line, "card")}
    yield from _rows(plan, job, words)
    band = words.fill(
        "{low} to {high} Ω at {temperature}:",
        low=f"{plan.resistance_low_ohm:.1f}",
        high=f"{plan.resistance_high_ohm:.1f}",
        temperature=job.units.temperature.quoted(STANDARD_TEMPERATURE_C),
    )
    yield LARGE.written, {1: Cell(f"{band}   {reading_blanks(plan, 8, words)}", "card_line")}


def _how(plan: CablePlan, job: Job, words: Words) -> Iterator[str]:
    """Say where to begin, what to hold on the way, and what takes up the cable's own length."""
    long = job.units.long_length
    yield words.fill(
        "Begin at the start with row 1; rows run along the room's {along}, {spacing} apart.",
        along=words.say(plan.rows_along),
        spacing=words.named(plan.spacing_words),
    )
    yield words.say("'Laid' is what is used by the end of a row, the turn after it included.")
    for row, length in plan.check_lengths_m:
        yield words.fill(
            "Check {length} at the end of row {row}.", length=show_quantity(length, long), row=row
        )
    if plan.tolerance_rows is not None:
        first, last = plan.tolerance_rows
        yield words.fill(
            "Where it differs, turn rows {first} to {last} earlier or later; never cut, never "
            "cross.",
            first=first,
            last=last,
        )
    yield words.say("Front and Left are measured as in Floor pieces.")
    if plan.sensor is not None:
        left, front = (show_place(v, long) for v in plan.sensor)
        yield words.fill(
            "Sensor: {left} from the left, {front} from the front, between two runs.",
            left=left,
            front=front,
        )
    yield words.say(BY_WHOM)


def _rows(plan: CablePlan, job: Job, words: Words) -> Iterator[Row]:
    """Rows of a cable in blocks side by side, read down each block."""
    knobs = any(row.skip for row in plan.rows_list)
    fine, long = job.units.small_length.symbol, job.units.long_length.symbol
    where = words.say("Left" if plan.rows_along == "width" else "Front")
    on = words.say("Knobs") if knobs else f"{words.say('Next')} ({fine})"
    heads = (words.say("Row"), f"{where} ({fine})", f"{words.say('Laid')} ({long})", on)
    yield LARGE.head, _ruled(heads)
    deep = -(-len(plan.rows_list) // _ABREAST)
    marks = dict.fromkeys((row for row, _ in plan.check_lengths_m), words.say("check"))
    first, last = plan.tolerance_rows or (0, -1)
    marks |= dict.fromkeys(range(first, last + 1), words.say("adjust"))
    for line in range(deep):
        cells: dict[int, Cell] = {}
        for block in range(_ABREAST):
            at = block * deep + line
            if at < len(plan.rows_list):
                cells |= _row(plan.rows_list[at], block * len(_BLOCK), marks, job, knobs=knobs)
        yield LARGE.line, cells


def _row(
    row: CableRow, before: int, marks: dict[int, str], job: Job, *, knobs: bool
) -> dict[int, Cell]:
    mark = marks.get(row.number, "")
    number = f"{row.number} {mark}" if mark else str(row.number)
    last = not row.to_next_m
    on = Cell(None, "card_ruled") if last else _fine(row.to_next_m, job.units.small_length)
    return {
        before + 1: Cell(number, "card_ruled"),
        before + 2: _fine(row.offset_m, job.units.small_length),
        before + 3: Cell(round(job.units.long_length.from_si(row.running_m), 1), "card_number"),
        before + 4: Cell(row.skip or None, "card_count") if knobs else on,
    }


def _fine(length_m: float, unit: Unit) -> Cell:
    """Give a length as a tape gives it: whole millimetres, or inches and sixteenths."""
    if unit != INCH:
        return Cell(round(unit.from_si(length_m)), "card_count")
    return Cell(show_tape(round(length_m * MM320_PER_METRE), unit), "card_number")


def _across(style: str) -> dict[int, Cell]:
    return {at: Cell(None, style) for at in range(1, len(_WIDTHS) + 1)}


def _ruled(heads: Sequence[str]) -> dict[int, Cell]:
    """Headings over each block; those of numbers stand on the right as these do."""
    return {
        block * len(_BLOCK) + at: Cell(words, "card_ruled" if at == 1 else "card_number")
        for block in range(_ABREAST)
        for at, words in enumerate(heads, 1)
    }
