"""Verdicts on the readings of the Resistance log: band, drift between stages, insulation."""

from collections.abc import Iterable, Sequence
from math import inf, isfinite
from typing import Final

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import Fact, Finding
from sheetcalc.domain.inputs import Reading
from sheetcalc.rules.electrical import DRIFT_SHARE, STANDARD_TEMPERATURE_C, corrected_ohm
from sheetcalc.rules.insulation import insulation_test

STAGES: Final = ("as delivered", "after laying", "after covering")
"""Stages at which a cable is read: common practice, no source."""

EXACT: Final = 1e-9
"""Relative slack of comparisons: a reading typed with the band's own digits is in it."""

BEYOND_THE_METER: Final = ">"
"""Mark before the end of an instrument's range: >999 is at least 999."""

OPEN_WORDS: Final = ("OL", "O.L", "O.L.", "OPEN", "\N{INFINITY}")
"""What meters show, and people write, where nothing flows: an open cable, or sound insulation."""

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


def is_open(words: str) -> bool:
    """Whether a meter shows that no current flows.

    Examples
    --------
    >>> is_open("o.l"), is_open("old")
    (True, False)
    """
    return words.strip().upper() in OPEN_WORDS


def insulation_of(reading: Reading) -> float | None:
    """Insulation that was read, at least; infinite beyond the meter, None where none can be told.

    Parameters
    ----------
    reading
        A row of the log.

    Returns
    -------
    float or None
        [megohm]
    """
    if reading.insulation_mohm is not None or not reading.insulation_text:
        return reading.insulation_mohm
    return inf if is_open(reading.insulation_text) else above_mohm(reading.insulation_text)


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
    low, high = expected_band_ohm(plan, temperature_c)
    ohms = inf if is_open(reading.reading_text) else reading.reading_ohm
    if ohms is None and reading.reading_text:
        found.append(
            Finding(
                "READING-NOT-A-NUMBER",
                reading.source,
                "Reading",
                {**facts, "text": reading.reading_text},
                reading.room,
            )
        )
    elif ohms is not None and not in_band(ohms, (low, high)):
        facts_band: dict[str, Fact] = {
            **facts, "reading": "\N{INFINITY}" if ohms == inf else ohms, "low": round(low, 2),
            "high": round(high, 2),
        }  # fmt: skip
        found.append(
            Finding("RESISTANCE-OUT-OF-BAND", reading.source, "Reading", facts_band, reading.room)
        )
    insulation = insulation_of(reading)
    if insulation is None and reading.insulation_text:
        found.append(
            Finding(
                "READING-NOT-A-NUMBER",
                reading.source,
                "Insulation reading",
                {**facts, "text": reading.insulation_text},
                reading.room,
            )
        )
    asked = insulation_test(plan.volts)
    if insulation is not None and insulation < asked.least_mohm:
        facts_insulation = {
            **facts, "reading": insulation, "limit": asked.least_mohm, "volts": asked.volts,
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
    """Judge each reading against those of the stages before it: small changes may add up."""
    found = []
    ordered = sorted(group, key=lambda r: STAGES.index(r.stage))
    for number, after in enumerate(ordered):
        changed = [
            (before.reading_ohm, before.stage)
            for before in ordered[:number]
            if before.stage != after.stage
            and before.reading_ohm is not None
            and after.reading_ohm is not None
            and drifts(before.reading_ohm, after.reading_ohm)
        ]
        if changed and after.reading_ohm is not None:
            ohms, stage = changed[-1]
            facts: dict[str, Fact] = {
                "cable": after.cable,
                "zone": after.zone,
                "stage": after.stage,
                "reading": after.reading_ohm,
                "before": ohms,
                "stage_before": stage,
                "share": DRIFT_SHARE * 100,
            }
            found.append(Finding("RESISTANCE-DRIFTS", after.source, "Reading", facts, after.room))
    return found
