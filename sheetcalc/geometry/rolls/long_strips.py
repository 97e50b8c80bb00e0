"""Strips that are longer than the roll: joined from parts that lap, or refused by the job."""

from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length
from sheetcalc.domain.rolls import Strip
from sheetcalc.geometry.rolls.strips import pitch_of

REFUSE: Final = "refuse"
"""Value of the job's setting by which no strip is joined from parts."""


def cut_to_length(
    strips: Sequence[Strip], roll: Roll, job: Job
) -> tuple[list[Strip], tuple[Finding, ...]]:
    """Cut strips that are longer than the roll into parts that lap; leave out impossible ones.

    Parameters
    ----------
    strips
        As they lie in the rooms.
    roll
        The longest roll that they may come from, as it is laid.
    job
        ``long_strips``: joined with a warning, or refused.

    Returns
    -------
    tuple
        Strips that a roll holds; findings ``STRIP-JOINED``, ``STRIP-LONGER-THAN-ROLL`` and
        ``ROLL-TOO-SMALL``, alike rooms once.
    """
    wanted: list[Strip] = []
    findings: dict[tuple[str, str, int], Finding] = {}
    size, lap = _part_and_lap(roll)
    for strip in strips:
        fits = strip.length_mm320 <= roll.length_mm320
        if strip.width_mm320 > roll.width_mm320 or (not fits and size <= lap):
            code, column = "ROLL-TOO-SMALL", "Width"
        elif fits:
            wanted.append(strip)
            continue
        elif job.long_strips == REFUSE:
            code, column = "STRIP-LONGER-THAN-ROLL", "Length"
        else:
            code, column = "STRIP-JOINED", "Length"
            wanted += _parts(strip, size, lap)
        key = (strip.surface, strip.piece, strip.length_mm320)
        findings.setdefault(key, _finding(code, column, strip, roll))
    return wanted, tuple(findings.values())


def _finding(code: str, column: str, strip: Strip, roll: Roll) -> Finding:
    facts: dict[str, str | Length] = {
        "item": roll.code,
        "strip": strip.piece,
        "length": Length(strip.length_mm320, small=False),
        "width": Length(strip.width_mm320, small=False),
        "roll_length": Length(roll.length_mm320, small=False),
        "roll_width": Length(roll.width_mm320, small=False),
    }
    return Finding(code, roll.source, column, facts, strip.room, strip.surface)


def _part_and_lap(roll: Roll) -> tuple[int, int]:
    """Longest part, and its lap on the next; in whole pitches where knobs or print line up."""
    pitch = pitch_of(roll)
    return roll.length_mm320 // pitch * pitch, -(-roll.overlap_mm320 // pitch) * pitch


def _parts(strip: Strip, size: int, lap: int) -> list[Strip]:
    """Parts of a strip that is longer than the roll, each lapping the one before."""
    parts: list[Strip] = []
    begin, end = 0, strip.length_mm320
    while True:
        length = min(size, end - begin)
        left, front = strip.left_mm320, strip.front_mm320
        left, front = (left, front + begin) if strip.turned else (left + begin, front)
        parts.append(replace(strip, length_mm320=length, left_mm320=left, front_mm320=front))
        if begin + length >= end:
            break
        begin += length - lap
    return [
        replace(p, piece=f"{p.piece}, part {i} of {len(parts)}") for i, p in enumerate(parts, 1)
    ]
