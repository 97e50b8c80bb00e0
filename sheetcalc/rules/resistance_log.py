"""Verdicts on the readings of the Resistance log: band, drift between stages, insulation."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import isfinite
from typing import Final

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.inputs import Reading
from sheetcalc.rules.electrical import (
    DRIFT_SHARE,
    INSULATION_LIMIT_MOHM,
    INSULATION_TEST_VOLTS,
    corrected_ohm,
)

STAGES: Final = ("as delivered", "after laying", "after covering")
"""Stages at which a cable is read: common practice, no source."""

STANDARD_TEMPERATURE_C: Final = 20.0
EXACT: Final = 1e-9
"""Relative slack of comparisons: a reading typed with the band's own digits is in it."""

BEYOND_THE_METER: Final = ">"
"""Mark before the end of an instrument's range: >999 is at least 999."""

_Key = tuple[str, str, str]


def expected_band_ohm(
    plan: CablePlan, temperature_c: float = STANDARD_TEMPERATURE_C
) -> tuple[float, float]:
    """Lowest and highest reading of a cable at a temperature.

    Band thought to be IEC 60800 (from memory, not verified), corrected by the alloy's coefficient
    where the cable's row gives one.

    Parameters
    ----------
    plan
        Planned cable.
    temperature_c
        Temperature at which it is read [°C].

    Returns
    -------
    tuple of float
        Low and high [ohm].
    """
    factor = corrected_ohm(1.0, temperature_c, plan.temperature_coefficient_per_k)
    return plan.resistance_low_ohm * factor, plan.resistance_high_ohm * factor


def reading_findings(
    plans: Iterable[CablePlan],
    readings: Iterable[Reading],
    temperature_c: float = STANDARD_TEMPERATURE_C,
) -> tuple[Finding, ...]:
    """Judge what people typed in the Resistance log.

    Parameters
    ----------
    plans
        Cables of this run.
    readings
        Rows of the log in which something is typed.
    temperature_c
        Temperature of the rooms when they were read [°C].

    Returns
    -------
    tuple of Finding
        Out of band, drifting between stages, insulation too low, not a number, no such cable.
    """
    # alike cables of one zone share a key: their readings are held against the same band
    known: dict[_Key, CablePlan] = {
        (room, plan.zone, plan.cable): plan
        for plan in plans
        for room in plan.copies or (plan.room,)
    }
    stages: dict[_Key, list[Reading]] = {}
    found: list[Finding] = []
    for reading in readings:
        if not _typed(reading):
            continue
        key = (reading.room, reading.zone, reading.cable)
        if key not in known:
            facts: dict[str, Fact] = {
                "cable": reading.cable, "room": reading.room, "zone": reading.zone,
            }  # fmt: skip
            found.append(
                Finding("READING-WITHOUT-CABLE", reading.source, "Cable", facts, reading.room)
            )
            continue
        found += _one_reading(reading, known[key], temperature_c)
        if reading.reading_ohm is not None and reading.stage in STAGES:
            stages.setdefault(key, []).append(reading)
    for group in stages.values():
        found += _drifts(group)
    return tuple(found)


def in_band(reading_ohm: float, band_ohm: tuple[float, float]) -> bool:
    """Whether a reading is within a band, its ends among it."""
    low, high = band_ohm
    return low * (1 - EXACT) <= reading_ohm <= high * (1 + EXACT)


def above_mohm(words: str) -> float | None:
    """Read the number behind the mark of a meter that is at its end; None where there is none.

    Examples
    --------
    >>> above_mohm("> 999"), above_mohm("fine")
    (999.0, None)
    """
    if not words.startswith(BEYOND_THE_METER):
        return None
    try:
        number = float(words.removeprefix(BEYOND_THE_METER).strip())
    except ValueError:
        return None
    return number if isfinite(number) else None


def drifts(before_ohm: float, after_ohm: float, share: float = DRIFT_SHARE) -> bool:
    """Whether a resistance changed by more than a share between two stages.

    A share of 5 % is common practice, no source.
    """
    return abs(after_ohm - before_ohm) > share * before_ohm * (1 + EXACT)


def _typed(reading: Reading) -> bool:
    numbers = (reading.reading_ohm, reading.insulation_mohm)
    texts = (reading.reading_text, reading.insulation_text)
    return any(n is not None for n in numbers) or any(texts)


def _one_reading(reading: Reading, plan: CablePlan, temperature_c: float) -> list[Finding]:
    """Judge one row by itself."""
    found = []
    facts: dict[str, Fact] = {
        "cable": plan.cable, "zone": plan.zone, "stage": reading.stage, "room": reading.room,
    }  # fmt: skip
    if reading.reading_ohm is None and reading.reading_text:
        found.append(
            Finding(
                "READING-NOT-A-NUMBER",
                reading.source,
                "Reading",
                {**facts, "text": reading.reading_text},
                reading.room,
            )
        )
    elif reading.reading_ohm is not None:
        low, high = expected_band_ohm(plan, temperature_c)
        if not in_band(reading.reading_ohm, (low, high)):
            facts_band = {
                **facts, "reading": reading.reading_ohm, "low": round(low, 2),
                "high": round(high, 2),
            }  # fmt: skip
            found.append(
                Finding(
                    "RESISTANCE-OUT-OF-BAND", reading.source, "Reading", facts_band, reading.room
                )
            )
    insulation = reading.insulation_mohm
    words = reading.insulation_text
    if insulation is None and words:
        insulation = above_mohm(words)
        if insulation is None:
            found.append(
                Finding(
                    "READING-NOT-A-NUMBER",
                    reading.source,
                    "Insulation reading",
                    {**facts, "text": words},
                    reading.room,
                )
            )
    if insulation is not None and insulation < INSULATION_LIMIT_MOHM:
        facts_insulation = {
            **facts, "reading": insulation, "limit": INSULATION_LIMIT_MOHM,
            "volts": INSULATION_TEST_VOLTS,
        }  # fmt: skip
        found.append(
            Finding(
                "INSULATION-TOO-LOW",
                reading.source,
                "Insulation reading",
                facts_insulation,
                reading.room,
            )
        )
    return found


def _drifts(group: Sequence[Reading]) -> list[Finding]:
    """Judge the change from each stage to the next one read."""
    found = []
    ordered = sorted(group, key=lambda r: STAGES.index(r.stage))
    for before, after in pairwise(ordered):
        if before.reading_ohm is None or after.reading_ohm is None or before.stage == after.stage:
            continue
        if drifts(before.reading_ohm, after.reading_ohm):
            facts: dict[str, Fact] = {
                "cable": after.cable,
                "zone": after.zone,
                "stage": after.stage,
                "reading": after.reading_ohm,
                "before": before.reading_ohm,
                "stage_before": before.stage,
                "share": DRIFT_SHARE * 100,
            }
            found.append(Finding("RESISTANCE-DRIFTS", after.source, "Reading", facts, after.room))
    return found
