"""The Resistance log: expected bands, and what people typed, carried over from run to run."""

from collections import defaultdict, deque
from collections.abc import Mapping, Sequence
from typing import Final

from sheetcalc.domain.inputs import Reading
from sheetcalc.domain.quantity import CablePlan
from sheetcalc.workbook.formulas import this_row
from sheetcalc.workbook.results.frame import Frame, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import RESISTANCE_LOG
from sheetcalc.workbook.sheet import Cell, ConditionalStyle, SheetModel

KEY: Final = "resistance-log"
STAGES: Final = ("as delivered", "after laying", "after covering")
IN_BAND: Final = "in band"
OUT_OF_BAND: Final = "OUT OF BAND"
NOT_A_NUMBER: Final = "not a number"
NO_SUCH_CABLE: Final = "no such cable in this run"

TYPED_HEADERS: Final = ("Reading (Ω)", "Insulation reading (MΩ)", "By", "Date")
_READING: Final = this_row(RESISTANCE_LOG.table, "Reading (Ω)")
_LOW: Final = this_row(RESISTANCE_LOG.table, "Expected low (Ω)")
_HIGH: Final = this_row(RESISTANCE_LOG.table, "Expected high (Ω)")
_VERDICT: Final = (
    f'IF({_READING}="","",IF(NOT(ISNUMBER({_READING})),"{NOT_A_NUMBER}",'
    f'IF(AND({_READING}>={_LOW},{_READING}<={_HIGH}),"{IN_BAND}","{OUT_OF_BAND}")))'
)


def resistance_log_sheet(
    plans: Sequence[CablePlan], readings: Sequence[Reading], frame: Frame
) -> SheetModel:
    """Resistance log tab: one row a copy of a room, a cable and a stage.

    Readings are carried over by room, zone, cable and stage; one whose cable is no longer
    planned is kept at the end, never dropped.
    """
    typed: dict[tuple[str, str, str, str], deque[Reading]] = defaultdict(deque)
    for reading in filter(_holds_something, readings):
        typed[reading.room, reading.zone, reading.cable, reading.stage].append(reading)
    rows = []
    for plan in plans:
        for room in plan.copies or (plan.room,):
            for stage in STAGES:
                waiting = typed[room, plan.zone, plan.cable, stage]
                found = waiting.popleft() if waiting else None
                rows.append(
                    {
                        "Room": text(room),
                        "Zone": text(plan.zone, wrap=True),
                        "Cable": text(plan.cable),
                        "Stage": text(stage),
                        "Expected low": Cell(plan.resistance_low_ohm, "result_number"),
                        "Expected high": Cell(plan.resistance_high_ohm, "result_number"),
                        **_typed(found),
                        "Verdict": Cell(_verdict(plan, found), "result", _VERDICT),
                    }
                )
    rows += [
        {
            "Room": text(reading.room),
            "Zone": text(reading.zone, wrap=True),
            "Cable": text(reading.cable),
            "Stage": text(reading.stage),
            **_typed(reading),
            "Verdict": text(NO_SUCH_CABLE),
        }
        for waiting in typed.values()
        for reading in waiting
    ]
    table = table_of(
        RESISTANCE_LOG,
        rows,
        nothing="no heating",
        units={"Expected low": "Ω", "Expected high": "Ω"},
        styles={
            "Reading": "input_number", "Insulation reading": "input_number", "By": "input",
            "Date": "input_date",
        },
    )  # fmt: skip
    first, last = table.row + 1, table.row + len(table.rows)
    bad = ConditionalStyle(f"K{first}:K{last}", f'LEFT($K{first},3)="OUT"', "error")
    good = ConditionalStyle(f"K{first}:K{last}", f'$K{first}="{IN_BAND}"', "ok")
    return sheet_of(KEY, RESISTANCE_LOG, frame, [table], conditional=(bad, good))


def _holds_something(reading: Reading) -> bool:
    """Whether a person typed anything in the row."""
    numbers = (reading.reading_ohm, reading.insulation_mohm, reading.on)
    return any(n is not None for n in numbers) or bool(reading.by or reading.reading_text)


def _typed(reading: Reading | None) -> Mapping[str, Cell]:
    """Cells that people fill in."""
    if reading is None:
        return {
            "Reading": Cell(None, "input_number"),
            "Insulation reading": Cell(None, "input_number"),
            "By": Cell(None, "input"),
            "Date": Cell(None, "input_date"),
        }
    value = reading.reading_text or None if reading.reading_ohm is None else reading.reading_ohm
    return {
        "Reading": Cell(value, "input_number"),
        "Insulation reading": Cell(reading.insulation_mohm, "input_number"),
        "By": Cell(reading.by or None, "input"),
        "Date": Cell(reading.on, "input_date"),
    }


def _verdict(plan: CablePlan, reading: Reading | None) -> str:
    if reading is None or (reading.reading_ohm is None and not reading.reading_text):
        return ""
    if reading.reading_ohm is None:
        return NOT_A_NUMBER
    inside = plan.resistance_low_ohm <= reading.reading_ohm <= plan.resistance_high_ohm
    return IN_BAND if inside else OUT_OF_BAND
