"""What one room's card says, row by row, printed large or small."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import zip_longest
from math import ceil
from typing import Final

from msgspec import Struct

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.card import CARD_WIDTH_MM
from sheetcalc.domain.measure import Dimension
from sheetcalc.domain.rolls import RollPlan
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import Words
from sheetcalc.rules.electrical import STANDARD_TEMPERATURE_C
from sheetcalc.rules.insulation import insulation_test
from sheetcalc.workbook.results.card_cuts import strip_texts
from sheetcalc.workbook.results.card_items import Carried
from sheetcalc.workbook.results.card_lines import broken, text_width_mm
from sheetcalc.workbook.results.card_work import Step
from sheetcalc.workbook.results.printed_pages import Row
from sheetcalc.workbook.sheet import Cell


class Print(Struct, frozen=True):
    """How large a card is printed.

    Attributes
    ----------
    size
        Of its text, as the styles say [points].
    line, head, title, written
        Heights of rows: text, headings, the room's name, places to write by hand [points].
    suffix
        Of the names of its styles.
    least_mm
        Least height of its drawings, but for those of curbs and niches [mm].
    """

    size: float
    line: float
    head: float
    title: float
    written: float
    suffix: str
    least_mm: float


LARGE: Final = Print(8.5, 11.25, 13.5, 24.0, 16.5, "", 112.0)
SMALL: Final = Print(7.5, 9.0, 11.25, 21.0, 13.5, "_small", 96.0)
TINY: Final = Print(7.0, 8.25, 10.5, 19.5, 12.75, "_tiny", 84.0)
"""Small print is for rooms with much in them, so that their card is one page still."""

WIDTHS: Final = (3.0, 9.5, 22.5, 7.5, 5.5, 9.0, 1.0, 3.0, 8.5, 18.5, 6.5)
"""Columns of the tab: what to carry in the first six, the work in the last four."""

TICK, ITEM, WHAT, AMOUNT, UNIT, PACKS, _, DONE, DAY, STEP, WAIT = range(1, len(WIDTHS) + 1)

_WORK_MM: Final = 63.0
"""Width of the columns from Day on."""

_WHAT_MM: Final = 41.0
"""Width of the column of descriptions."""

_ELLIPSIS_MM: Final = 3.0
"""Room for the sign that says that a description goes on."""

_STAGES: Final = ("delivered", "laid", "covered")
"""When a cable is measured, shorter than Resistance log says it."""


class About(Struct, frozen=True):
    """What is known of a room, however its card is printed."""

    run: Run
    work: RoomWork
    rolls: Mapping[tuple[str, str], RollPlan]
    words: Words
    cuts: Sequence[str]
    cables: Sequence[str]
    goods: Sequence[Carried]
    steps: Sequence[Step]
    tests: Sequence[str]
    cautions: Sequence[str]
    total: int


class Content(Struct, frozen=True):
    """The parts of one room's card, printed one way."""

    about: About
    way: Print

    def heading(self, name: str, number: str) -> Iterator[Row]:
        """Give the room's name, and what kind of room it is."""
        room, fill = self.about.work.room, self.about.words.fill
        yield self.way.title, {TICK: Cell(fill("Room {name}", name=name), "card_room")}
        facts = [fill("phase {name}", name=room.phase) if room.phase else ""]
        phase = self.about.run.inputs.phases.get(room.phase or "")
        if phase and phase.start:
            facts.append(fill("day 1 is {date}", date=phase.start.isoformat()))
        facts.append(fill("finish {name}", name=room.finish))
        if len(room.copies) > 1:
            alike = fill("{number} alike", number=room.count)
            facts.append(f"{alike}: {', '.join(room.copies)}")
        elif room.count > 1:
            unnamed = "{number} alike, not named: print this card {times} times"
            facts.append(fill(unnamed, number=room.count, times=room.count))
        facts += [fill("handed (mirrored)") if room.handed else "", room.note]
        text = " · ".join(fact for fact in facts if fact)
        *full, last = broken(text, self.way.size, CARD_WIDTH_MM)
        # cards of alike rooms are as high as each other, whatever their numbers
        most = self.about.total
        widest = fill(
            "{card}, second page", card=fill("card {number} of {total}", number=most, total=most)
        )
        fits = text_width_mm(f"{last} · {widest}", self.way.size) <= CARD_WIDTH_MM
        for line in (*full, f"{last} · {number}") if fits else (*full, last, number):
            yield self.way.head, {TICK: self._cell(line, "card_about")}

    def lists_alike(self, copies: Sequence[str]) -> list[tuple[Row, ...]]:
        """Give the lists of every copy, by their names, filled up to the same height."""
        lists = [tuple(self._lists(name)) for name in copies]
        longest = max(len(found) for found in lists)
        blank: Row = (self.way.line, {})
        return [(*found, *(blank,) * (longest - len(found))) for found in lists]

    def _lists(self, name: str) -> Iterator[Row]:
        """Give starts and cuts, the cables, and strips, as running text."""
        work, job, words = self.about.work, self.about.run.inputs.job, self.about.words
        unit = job.units.small_length.symbol
        if self.about.cuts:
            yield self._headed(
                "Cuts: how many of length x width [{unit}], one where no number "
                "stands; 'from' another's offcut; whole tiles first",
                unit=unit,
            )
            for text in self.about.cuts:
                yield from self._running(text)
        names = (name,) if name in work.room.names else work.room.names
        strips = strip_texts(work, self.about.rolls, names, job, words)
        more = [*self.about.cables, *strips]
        if more:
            yield self._headed(
                "Cable, and strips with the roll that they come from [{unit}]", unit=unit
            )
            for text in more:
                yield from self._running(text)

    def table(self) -> Iterator[Row]:
        """Give what to carry beside the order of the work, then readings and signatures."""
        left = [self._item_row(item) for item in self.about.goods]
        right = [self._step_row(step) for step in self.about.steps]
        for test in self.about.tests:
            right += self._text_rows(test, "")
        below: list[str] = []
        for text in self.about.cautions:  # beside the items while there is room, else below
            rows = self._text_rows(text, "!")
            if len(right) + len(rows) <= max(len(left), len(right)) or not left:
                right += rows
            else:
                below.append(text)
        yield self.way.head, self._table_head()
        nothing: dict[int, Cell] = {}
        for carry, step in zip_longest(left, right, fillvalue=nothing):
            yield self.way.line, {**carry, **step}
        for text in below:
            yield from self._running(f"! {text}")
        yield from self._readings()
        blank = "_" * 24
        signed = self.about.words.fill(
            "Done by {line}   Date {date}   Checked by {checked}",
            line=blank,
            date=blank,
            checked=blank,
        )
        yield self.way.written, {TICK: self._cell(signed, "card_line")}

    def _table_head(self) -> dict[int, Cell]:
        columns = (*range(TICK, PACKS + 1), *range(DONE, WAIT + 1))
        say = self.about.words.say
        return {
            **{at: self._cell(None, "card_head") for at in columns},
            TICK: self._cell(say("To carry to the room (with waste)"), "card_head"),
            AMOUNT: self._cell(say("Quantity"), "card_head_right"),
            UNIT: self._cell(say("Unit"), "card_head"),
            PACKS: self._cell(say("Packs"), "card_head"),
            DONE: self._cell(say("Order of the work"), "card_head"),
            WAIT: self._cell(say("Wait"), "card_head"),
        }

    def _readings(self) -> Iterator[Row]:
        cables = self.about.work.cables
        if not cables:
            return
        yield self._headed(
            "Resistance of the cables at {temperature}; type it into Resistance log too",
            temperature=self.about.run.inputs.job.units.temperature.quoted(STANDARD_TEMPERATURE_C),
        )
        for plan in cables:
            for text in _reading_lines(plan, self.about.words):  # the last stands as it is
                if text_width_mm(text, self.way.size) <= CARD_WIDTH_MM:
                    break
            yield self.way.written, {TICK: self._cell(text, "card_line")}

    def _cell(self, value: str | float | None, style: str) -> Cell:
        return Cell(value, f"{style}{self.way.suffix}")

    def _headed(self, template: str, **facts: str) -> Row:
        cells = {at: self._cell(None, "card_head") for at in range(TICK, WAIT + 1)}
        heading = self.about.words.fill(template, **facts)
        return self.way.head, {**cells, TICK: self._cell(heading, "card_head")}

    def _running(self, text: str) -> Iterator[Row]:
        for line in broken(text, self.way.size, CARD_WIDTH_MM, indent="   "):
            yield self.way.line, {TICK: self._cell(line, "card")}

    def _item_row(self, item: Carried) -> dict[int, Cell]:
        description, *more = broken(item.description, self.way.size, _WHAT_MM)
        if more:  # a row is one line; the orders have it whole
            description = broken(item.description, self.way.size, _WHAT_MM - _ELLIPSIS_MM)[0] + "…"
        whole = item.unit.dimension is Dimension.COUNT
        quantity = ceil(round(item.quantity, 9)) if whole else item.quantity
        return {
            TICK: self._cell(None, "card_tick"),
            ITEM: self._cell(item.item, "card_ruled"),
            WHAT: self._cell(description, "card_ruled"),
            AMOUNT: self._cell(quantity, "card_count" if whole else "card_number"),
            UNIT: self._cell(self.about.words.say(item.unit.symbol), "card_ruled"),
            PACKS: self._cell(item.packs or None, "card_ruled"),
        }

    def _step_row(self, step: Step) -> dict[int, Cell]:
        row = {
            DONE: self._cell(None, "card_tick"),
            DAY: self._cell(step.day, "card"),
            STEP: self._cell(step.what, "card"),
        }
        if step.wait:
            row[WAIT] = self._cell(step.wait, "card")
        return row

    def _text_rows(self, text: str, sign: str) -> list[dict[int, Cell]]:
        """Lines of a test (to tick) or of a caution (with a sign) in the columns of the work."""
        lines = broken(text, self.way.size, _WORK_MM)
        rows = [{DAY: self._cell(line, "card")} for line in lines]
        rows[0][DONE] = self._cell(sign or None, "card_sign" if sign else "card_tick")
        return rows


def _reading_lines(plan: CablePlan, words: Words) -> Iterator[str]:
    """Lines to write a cable's readings on: with its zone, shorter, and at last without it."""
    low, high = f"{plan.resistance_low_ohm:.1f}", f"{plan.resistance_high_ohm:.1f}"
    band = words.fill("{low} to {high} Ω", low=low, high=high)
    for name in (f"{plan.cable} · {words.named(plan.zone)} · {band}", f"{plan.cable} · {band}"):
        for signs in range(10, 5, -1):
            yield f"{name}   {reading_blanks(plan, signs, words)}"


def reading_blanks(plan: CablePlan, signs: int, words: Words) -> str:
    """Places to write a cable's readings on, each of so many signs: one a stage, and insulation."""
    blank = "_" * signs
    stages = (f"{words.say(stage)} {blank} Ω" for stage in _STAGES)
    volts = f"{insulation_test(plan.volts).volts:g}"
    insulation = words.fill("insulation at {volts} V", volts=volts)
    return "   ".join((*stages, f"{insulation} {blank} MΩ"))
