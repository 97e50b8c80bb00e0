"""Roll plan: strips of many rooms cut from as few rolls of one item as can be found.

Rips are laid side by side into sections; sections and full strips are then one cutting-stock
problem over the rolls.  Leftovers of earlier phases are used before new rolls are opened.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import Length, mm320_squared_to_m2
from sheetcalc.domain.quantity import Leftover, PlacedStrip, RollPlan, Strip
from sheetcalc.domain.room import Room
from sheetcalc.geometry.cutting_stock import fill_stock, least_stock, pack_stock
from sheetcalc.geometry.sections import Section, make_sections
from sheetcalc.geometry.strips import EACH_ROOM, step_across, strips_for

__all__ = ["plan_rolls", "step_across", "strips_for", "strips_of_copies"]

_HOW: Final = (
    "longest first, each roll filled by subset sums; rips side by side in sections (derived)"
)


@dataclass(slots=True)
class _Piece:
    """A stretch of roll to cut from: a new roll, or a leftover."""

    roll: int
    start: int
    leftover_of: str
    length: int
    sections: list[Section]

    @property
    def used(self) -> int:
        return sum(s.length for s in self.sections)


def strips_of_copies(room: Room, strips: Iterable[Strip]) -> tuple[Strip, ...]:
    """Give the strips of every room that a row stands for, each with its own name.

    Where the row counts more rooms than it names, they are numbered: ``2.07 (3)``.
    """
    names = room.copies
    if len(names) != room.count:
        names = tuple(f"{room.name} ({i})" for i in range(1, room.count + 1))
    wanted = tuple(strips)
    return tuple(replace(s, room=name) for name in names for s in wanted)


def plan_rolls(
    strips: Sequence[Strip],
    roll: Roll,
    phase: str,
    job: Job,
    leftovers: Sequence[Leftover] = (),
) -> tuple[RollPlan, tuple[Finding, ...]]:
    """Plan how the rolls of one item are cut in one phase.

    Parameters
    ----------
    strips
        Of all rooms, every copy of a room for itself.
    roll
        The item.
    phase
        Name of the phase.
    job
        ``rolls_shared`` (the whole phase, or each room its own rolls) and the smallest useful
        leftover count here.  A knife loses nothing, so the saw kerf does not.
    leftovers
        Rests of earlier phases, used first.

    Returns
    -------
    tuple
        The plan; and findings about strips that had to be joined or can't be cut.
    """
    wanted, findings = _cut_to_length(strips, roll)
    pieces = [_Piece(rest.roll, rest.position_mm320, rest.phase, rest.length_mm320, [])
              for rest in sorted(leftovers, key=lambda rest: rest.length_mm320)]  # fmt: skip
    new_rolls: list[list[Section]] = []
    for group in _groups(wanted, job):
        sections = make_sections(group, roll.width_mm320)
        sections = _use_leftovers(sections, pieces)
        cuts = pack_stock([s.length for s in sections], roll.length_mm320)
        new_rolls += [[sections[i] for i in cut] for cut in cuts]
    pieces += [
        _Piece(number, 0, "", roll.length_mm320, sections)
        for number, sections in enumerate(new_rolls, 1)
    ]
    bound = _bound(wanted, roll, leftovers)
    area = sum(s.length_mm320 * s.width_mm320 for s in wanted)
    shown = job.units.area.from_si(mm320_squared_to_m2(area))
    plan = RollPlan(
        item=roll.code,
        phase=phase,
        rolls=len(new_rolls),
        placed=tuple(placed for piece in pieces for placed in _placed(piece)),
        lower_bound=bound,
        basis=f"{len(wanted)} strips, {shown:.2f} {job.units.area.symbol} of roll; {_HOW}; "
        f"no plan of these strips needs fewer than {bound}",
        leftovers=tuple(_rests(pieces, phase, job)),
    )
    return plan, tuple(findings)


def _cut_to_length(strips: Sequence[Strip], roll: Roll) -> tuple[list[Strip], list[Finding]]:
    """Cut strips that are longer than the roll into parts that lap; leave out impossible ones."""
    wanted: list[Strip] = []
    findings: dict[tuple[str, str, int], Finding] = {}
    overlap = roll.overlap_mm320
    for strip in strips:
        key = (strip.surface, strip.piece, strip.length_mm320)  # alike rooms are told of once
        facts: dict[str, str | Length] = {
            "item": roll.code,
            "piece": strip.piece,
            "length": Length(strip.length_mm320, small=False),
            "width": Length(strip.width_mm320, small=False),
            "roll_length": Length(roll.length_mm320, small=False),
            "roll_width": Length(roll.width_mm320, small=False),
        }
        if strip.width_mm320 > roll.width_mm320 or (
            strip.length_mm320 > roll.length_mm320 and roll.length_mm320 <= overlap
        ):
            findings[key] = Finding(
                "ROLL-TOO-SMALL", roll.source, "Width", facts, strip.room, strip.surface
            )
        elif strip.length_mm320 <= roll.length_mm320:
            wanted.append(strip)
        else:
            findings[key] = Finding(
                "STRIP-JOINED", roll.source, "Length", facts, strip.room, strip.surface
            )
            wanted += _parts(strip, roll)
    return wanted, list(findings.values())


def _parts(strip: Strip, roll: Roll) -> list[Strip]:
    """Parts of a strip that is longer than the roll, each lapping the one before."""
    parts: list[Strip] = []
    begin, end = 0, strip.length_mm320
    while True:
        size = min(roll.length_mm320, end - begin)
        left, front = strip.left_mm320, strip.front_mm320
        left, front = (left, front + begin) if strip.turned else (left + begin, front)
        parts.append(replace(strip, length_mm320=size, left_mm320=left, front_mm320=front))
        if begin + size >= end:
            break
        begin += size - roll.overlap_mm320
    return [
        replace(p, piece=f"{p.piece}, part {i} of {len(parts)}") for i, p in enumerate(parts, 1)
    ]


def _groups(strips: Sequence[Strip], job: Job) -> list[list[Strip]]:
    """Group strips that may share rolls: all of them, or those of each room."""
    if job.rolls_shared != EACH_ROOM:
        return [list(strips)] if strips else []
    rooms: dict[str, list[Strip]] = {}
    for strip in strips:
        rooms.setdefault(strip.room, []).append(strip)
    return list(rooms.values())


def _use_leftovers(sections: list[Section], pieces: Sequence[_Piece]) -> list[Section]:
    """Cut what fits from the leftovers, the shortest first, and return what is still to cut."""
    waiting = sections
    for piece in pieces:
        room = piece.length - piece.used
        taken = set(fill_stock([s.length for s in waiting], room))
        piece.sections += [s for i, s in enumerate(waiting) if i in taken]
        waiting = [s for i, s in enumerate(waiting) if i not in taken]
    return waiting


def _placed(piece: _Piece) -> Iterable[PlacedStrip]:
    """Place the strips of a piece of roll with their places, in cutting order."""
    position = piece.start
    for section in piece.sections:
        for column in section.columns:
            for strip, offset in column.strips:
                yield PlacedStrip(
                    strip, piece.roll, position + offset, column.across, piece.leftover_of
                )
        position += section.length


def _rests(pieces: Iterable[_Piece], phase: str, job: Job) -> Iterable[Leftover]:
    """Rests that are long enough to keep."""
    for piece in pieces:
        rest = piece.length - piece.used
        if rest >= max(job.useful_leftover_mm320, 1):
            yield Leftover(piece.leftover_of or phase, piece.roll, piece.start + piece.used, rest)


def _bound(strips: Sequence[Strip], roll: Roll, leftovers: Sequence[Leftover]) -> int:
    """Count rolls that any plan of these strips needs: by area, and by strips too long to share."""
    if not strips:
        return 0
    spare = sum(rest.length_mm320 for rest in leftovers)
    area = sum(s.length_mm320 * s.width_mm320 for s in strips)
    by_area = -(-(area - spare * roll.width_mm320) // (roll.width_mm320 * roll.length_mm320))
    if leftovers:
        return max(by_area, 0)
    wide = [s.length_mm320 for s in strips if 2 * s.width_mm320 > roll.width_mm320]
    return max(by_area, least_stock(wide, roll.length_mm320) if wide else 0)
