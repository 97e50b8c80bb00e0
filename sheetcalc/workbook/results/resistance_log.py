"""The Resistance log: expected bands, and what people typed, carried over from run to run."""

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.inputs import Reading
from sheetcalc.domain.job import Job
from sheetcalc.domain.words import Words
from sheetcalc.rules.electrical import STANDARD_TEMPERATURE_C
from sheetcalc.rules.insulation import insulation_test
from sheetcalc.rules.resistance_log import STAGES, expected_band_ohm
from sheetcalc.workbook.formulas import this_row
from sheetcalc.workbook.results.frame import BLANK, Frame, column_letter, sheet_of, table_of, text
from sheetcalc.workbook.results.live_settings import rise_term, setting_term
from sheetcalc.workbook.results.reading_verdicts import (
    is_in_band,
    is_wrong,
    verdict,
    verdict_formula,
)
from sheetcalc.workbook.results_tabs_heating import RESISTANCE_LOG
from sheetcalc.workbook.sheet import Cell, ConditionalStyle, SheetModel, TableModel

KEY: Final = "resistance-log"
NO_SUCH_CABLE: Final = "no such cable in this run"

TYPED_HEADERS: Final = ("Reading (Ω)", "Insulation reading (MΩ)", "By", "Date")
_OHMS: Final = this_row(RESISTANCE_LOG.table, "Resistance (Ω)")
_COEFFICIENT: Final = this_row(RESISTANCE_LOG.table, "Coefficient (1/K)")

_Key = tuple[str, str, str, str]


def resistance_log_sheet(
    plans: Sequence[CablePlan], readings: Sequence[Reading], job: Job, frame: Frame
) -> SheetModel:
    """Resistance log tab: one row a copy of a room, a cable and a stage.

    Readings are carried over by room, zone, cable and stage; one whose cable is no longer
    planned is kept at the end, never dropped.
    """
    typed: dict[_Key, deque[Reading]] = defaultdict(deque)
    for reading in filter(_holds_something, readings):
        typed[reading.room, reading.zone, reading.cable, reading.stage].append(reading)
    checks = _Checks(job, frame)
    rows = [
        row
        for plan in plans
        for room in plan.copies or (plan.room,)
        for row in _stages(plan, room, typed, checks)
    ]
    rows += [
        {
            **_names(r.room, r.zone, r.cable, r.stage),
            **_typed(r),
            "Verdict": text(frame.words.say(NO_SUCH_CABLE)),
        }
        for waiting in typed.values()
        for r in waiting
    ]
    table = table_of(
        RESISTANCE_LOG,
        rows,
        nothing="no heating",
        units={"Resistance": "Ω", "Coefficient": "1/K", "Expected low": "Ω", "Expected high": "Ω",
            "Insulation test": "V", "Insulation at least": "MΩ"},
        styles={
            "Reading": "input_number", "Insulation reading": "input_number", "By": "input",
            "Date": "input_date",
        },
    )  # fmt: skip
    return sheet_of(KEY, RESISTANCE_LOG, frame, [table], conditional=_looks(table, frame.words))


def _looks(table: TableModel, words: Words) -> tuple[ConditionalStyle, ...]:
    """Verdicts stand out by more than their words."""
    letter, first = column_letter(len(table.columns)), table.row + 1
    where, cell = f"{letter}{first}:{letter}{table.row + len(table.rows)}", f"${letter}{first}"
    return (
        ConditionalStyle(where, is_wrong(cell, words), "error"),
        ConditionalStyle(where, is_in_band(cell, words), "ok"),
    )


class _Checks:
    """Expected bands and verdicts: their formulas, alike in every row, and what they need."""

    def __init__(self, job: Job, frame: Frame) -> None:
        self.temperature_c = job.reading_temperature_c
        below = setting_term(frame, "resistance_below", job.resistance_below)
        above = setting_term(frame, "resistance_above", job.resistance_above)
        rise = rise_term(
            frame, "reading_temperature_c", job.reading_temperature_c, STANDARD_TEMPERATURE_C
        )
        factor = f"(1+{_COEFFICIENT}*{rise})"
        self.low = f"{_OHMS}*(1-{below})*{factor}"
        self.high = f"{_OHMS}*(1+{above})*{factor}"
        self.words = frame.words
        self.verdicts = {stage: verdict_formula(stage, frame.words) for stage in STAGES}


def _stages(
    plan: CablePlan, room: str, typed: Mapping[_Key, deque[Reading]], checks: _Checks
) -> Iterator[dict[str, Cell]]:
    """Rows of one cable of one room."""
    low, high = expected_band_ohm(plan, checks.temperature_c)
    coefficient = plan.temperature_coefficient_per_k
    insulation = insulation_test(plan.volts)
    before: list[Reading | None] = []
    for stage in STAGES:
        waiting = typed[room, plan.zone, plan.cable, stage]
        found = waiting.popleft() if waiting else None
        yield {
            **_names(room, plan.zone, plan.cable, stage),
            "Resistance": Cell(plan.resistance_ohm, "result_number"),
            "Coefficient": BLANK if coefficient is None else Cell(coefficient, "result_general"),
            "Expected low": Cell(low, "result_number", checks.low),
            "Expected high": Cell(high, "result_number", checks.high),
            "Insulation test": Cell(insulation.volts, "result_general"),
            "Insulation at least": Cell(insulation.least_mohm, "result_general"),
            **_typed(found),
            "Verdict": Cell(
                verdict(found, (low, high), insulation, before, checks.words),
                "result",
                checks.verdicts[stage],
            ),
        }
        before.append(found)


def _names(room: str, zone: str, cable: str, stage: str) -> dict[str, Cell]:
    """Cells that tell a row from the others."""
    return {
        "Room": text(room, wrap=True),
        "Zone": text(zone, wrap=True),
        "Cable": text(cable, wrap=True),
        "Stage": text(stage),
    }


def _holds_something(reading: Reading) -> bool:
    """Whether a person typed anything in the row."""
    numbers = (reading.reading_ohm, reading.insulation_mohm, reading.on)
    texts = (reading.by, reading.reading_text, reading.insulation_text, reading.on_text)
    return any(n is not None for n in numbers) or any(texts)


def _typed(reading: Reading | None) -> Mapping[str, Cell]:
    """Cells that people fill in, as they left them."""
    if reading is None:
        return {
            "Reading": Cell(None, "input_number"),
            "Insulation reading": Cell(None, "input_number"),
            "By": Cell(None, "input"),
            "Date": Cell(None, "input_date"),
        }
    number, insulation, day = reading.reading_ohm, reading.insulation_mohm, reading.on
    return {
        "Reading": Cell(reading.reading_text or None if number is None else number, "input_number"),
        "Insulation reading": Cell(
            reading.insulation_text or None if insulation is None else insulation, "input_number"
        ),
        "By": Cell(reading.by or None, "input"),
        "Date": Cell(reading.on_text or None if day is None else day, "input_date"),
    }
