"""Verdicts of the Resistance log: the value of the run, and the live formula that gives it.

Both say the same of a row: whether the reading is in the band, whether it drifted since a stage
before, and whether the insulation is at its limit.
"""

from collections.abc import Sequence
from typing import Final

from sheetcalc.domain.inputs import Reading
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.rules.electrical import DRIFT_SHARE
from sheetcalc.rules.insulation import InsulationTest
from sheetcalc.rules.resistance_log import (
    BEYOND_THE_METER,
    EXACT,
    OPEN_WORDS,
    STAGES,
    drifts,
    in_band,
    insulation_of,
    is_open,
)
from sheetcalc.workbook.formulas import number_literal, structured, text_literal, this_row
from sheetcalc.workbook.results_tabs_heating import RESISTANCE_LOG
from sheetcalc.workbook.text_formulas import holds

IN_BAND: Final = "in band"
OUT_OF_BAND: Final = "OUT OF BAND"
OPEN: Final = "OPEN CIRCUIT"
DRIFTS: Final = "in band, but DRIFTS"
NOT_A_NUMBER: Final = "not a number"
INSULATION_TOO_LOW: Final = "(INSULATION TOO LOW)"
INSULATION_NOT_A_NUMBER: Final = "(insulation: not a number)"

_MARKED: Final = ((OUT_OF_BAND, OUT_OF_BAND), (DRIFTS, "DRIFTS"), (INSULATION_TOO_LOW, "TOO LOW"))
"""Verdicts that something is wrong, and the words in them that say so in English."""

_T: Final = RESISTANCE_LOG.table
_READING: Final = this_row(_T, "Reading (Ω)")
_LOW: Final = this_row(_T, "Expected low (Ω)")
_HIGH: Final = this_row(_T, "Expected high (Ω)")
_INSULATION: Final = this_row(_T, "Insulation reading (MΩ)")
_LEAST: Final = this_row(_T, "Insulation at least (MΩ)")


def verdict(
    reading: Reading | None,
    band_ohm: tuple[float, float],
    insulation: InsulationTest,
    before: Sequence[Reading | None],
    words: Words = ENGLISH,
) -> str:
    """Say what a row's readings come to; "" where nothing was read.

    Parameters
    ----------
    reading
        What was typed in the row.
    band_ohm
        Lowest and highest reading expected [ohm].
    insulation
        What the cable's insulation is held against.
    before
        What was typed at the stages before, in their order.
    words
        The office's.
    """
    if reading is None:
        return ""
    parts = _of_resistance(reading, band_ohm, before), _of_insulation(reading, insulation)
    return " ".join(words.say(part) for part in parts if part)


def _of_resistance(
    reading: Reading, band_ohm: tuple[float, float], before: Sequence[Reading | None]
) -> str:
    ohms = reading.reading_ohm
    if ohms is None:
        said = reading.reading_text
        return OPEN if is_open(said) else NOT_A_NUMBER if said else ""
    if not in_band(ohms, band_ohm):
        return OUT_OF_BAND
    earlier = [r.reading_ohm for r in before if r is not None and r.reading_ohm]
    return DRIFTS if any(drifts(ohms_before, ohms) for ohms_before in earlier) else IN_BAND


def _of_insulation(reading: Reading, asked: InsulationTest) -> str:
    megohms = insulation_of(reading)
    if megohms is None:
        return INSULATION_NOT_A_NUMBER if reading.insulation_text else ""
    return INSULATION_TOO_LOW if megohms < asked.least_mohm else ""


def verdict_formula(stage: str, words: Words = ENGLISH) -> str:
    """Live formula of a row's verdict.

    Rows of the same cable are found by room, zone, cable and stage, so that sorting the log
    breaks nothing.

    Parameters
    ----------
    stage
        Of the row: readings at the stages before it are looked for.
    words
        The office's.
    """

    def said(verdict: str) -> str:
        return text_literal(words.say(verdict))

    low, high = number_literal(1 - EXACT), number_literal(1 + EXACT)
    band = f"OR({_READING}<{_LOW}*{low},{_READING}>{_HIGH}*{high})"
    resistance = (
        f'IF({_READING}="","",IF(NOT(ISNUMBER({_READING})),'
        f"IF({_is_open(_READING)},{said(OPEN)},{said(NOT_A_NUMBER)}),"
        f"IF({band},{said(OUT_OF_BAND)},"
        f"IF({_drifts_since(stage)},{said(DRIFTS)},{said(IN_BAND)}))))"
    )
    beyond = f"VALUE(TRIM(MID({_INSULATION},2,20)))"
    too_low = f'{said(INSULATION_TOO_LOW)},""'
    insulation = (
        f'IF({_INSULATION}="","",IF(ISNUMBER({_INSULATION}),IF({_INSULATION}<{_LEAST},{too_low}),'
        f'IF({_is_open(_INSULATION)},"",IF(LEFT({_INSULATION},1)="{BEYOND_THE_METER}",IFERROR(IF({beyond}<{_LEAST},{too_low}),'
        f"{said(INSULATION_NOT_A_NUMBER)}),{said(INSULATION_NOT_A_NUMBER)}))))"
    )
    return f'TRIM({resistance}&" "&{insulation})'


def is_wrong(cell: str, words: Words) -> str:
    """Tell by a formula whether the verdict in a cell is that something is wrong."""
    marks = (
        mark if words.say(verdict) == verdict else words.say(verdict) for verdict, mark in _MARKED
    )
    return f"OR({','.join(holds(mark, cell) for mark in marks)})"


def is_in_band(cell: str, words: Words) -> str:
    """Tell by a formula whether the verdict in a cell is that all is as expected."""
    return f"{cell}={text_literal(words.say(IN_BAND))}"


def _drifts_since(stage: str) -> str:
    """Whether the reading differs too much from one of those before it; FALSE without any."""
    changes = []
    for earlier in STAGES[: STAGES.index(stage)]:
        found = "*".join(
            f"EXACT({structured(_T, name)},{this_row(_T, name)})"
            for name in ("Room", "Zone", "Cable")
        )
        readings = structured(_T, "Reading (Ω)")
        found += f"*EXACT({structured(_T, 'Stage')},{text_literal(earlier)})*ISNUMBER({readings})"
        count, total = f"SUMPRODUCT({found})", f"SUMPRODUCT({found},{readings})"
        share = number_literal(DRIFT_SHARE * (1 + EXACT))
        changes.append(f"IFERROR(ABS({_READING}*{count}/{total}-1)>{share},FALSE)")
    return f"OR({','.join(changes)})" if changes else "FALSE"


def _is_open(cell: str) -> str:
    """Whether a cell holds what meters show beyond their range."""
    return f"OR({','.join(f'UPPER(TRIM({cell}))={text_literal(w)}' for w in OPEN_WORDS)})"
