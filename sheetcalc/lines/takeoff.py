"""All lines of all rooms: what the workflow calls."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import Final, TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finding import Fact, Finding, RowRef
from sheetcalc.domain.finish import Finish
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.spread import Spread, alone, in_shares
from sheetcalc.lines import JOB_LINES, LINES
from sheetcalc.lines.alike import kinds_of, told_of
from sheetcalc.lines.checks import check_catalogue, check_wet_areas
from sheetcalc.lines.labour import RoomLabour, labour_of
from sheetcalc.lines.line import JobContext, LineContext

_OfRoom: TypeAlias = tuple[tuple[QuantityLine, ...], tuple[Finding, ...]]
_OfKind: TypeAlias = tuple[_OfRoom, RoomLabour]

_KINDS_WORTH_SHARING: Final = 100
"""Fewer kinds of rooms are worked out sooner here than processes are started for them."""

_KINDS_A_SHARE: Final = 8


class TakenOff(Struct, frozen=True):
    """Quantities of a job and what was found on the way.

    Attributes
    ----------
    lines
        Room by room in the order of the workbook, then those of the whole job.
    findings
        Each once: what a finish says is found in every room that has it.
    by_room
        Findings of each room by its name, those of its finish among them, so that rooms without
        errors can be told.
    labour
        What a quote has to know of each room, by its name.
    """

    lines: tuple[QuantityLine, ...]
    findings: tuple[Finding, ...]
    by_room: Mapping[str, tuple[Finding, ...]]
    labour: Mapping[str, RoomLabour]


def take_off(
    job: Job,
    finishes: Mapping[str, Finish],
    catalogue: Catalogue,
    works: Sequence[RoomWork],
    spread: Spread = alone,
) -> TakenOff:
    """Work out every line of every room, and of the job; rooms that are alike once.

    Parameters
    ----------
    job, finishes, catalogue
        What the workbook says.
    works
        Rooms with their plans.  A room whose finish is not in ``finishes`` is passed over: the
        reader has reported it.
    spread
        Where the rooms of a large job are worked out: here, or on several cores.

    Returns
    -------
    TakenOff
        Quantities, and the findings, each once.
    """
    lines: list[QuantityLine] = []
    by_room: dict[str, tuple[Finding, ...]] = {}
    labour: dict[str, RoomLabour] = {}
    everywhere: list[Finding] = list(check_catalogue(catalogue))
    known = [work for work in works if work.room.finish in finishes]
    everywhere += check_wet_areas(catalogue, finishes, known)
    kinds = kinds_of(known)

    def worked_out(shares: Sequence[range]) -> Iterator[list[_OfKind]]:
        for share in shares:
            yield [
                _of_kind(LineContext(job, finishes[w.room.finish], catalogue, w, finishes=finishes))
                for w in kinds.firsts[share.start : share.stop]
            ]

    kinds_in_all = len(kinds.firsts)
    shares = in_shares(kinds_in_all, _KINDS_A_SHARE)
    over = spread if kinds_in_all >= _KINDS_WORTH_SHARING else alone
    of_kinds = list(chain.from_iterable(over(worked_out, shares, in_memory=True)))
    for work, kind in zip(known, kinds.of, strict=True):
        first = kinds.firsts[kind]
        (room_lines, findings), labour[work.room.name] = of_kinds[kind]
        if work is not first:
            room_lines, findings = told_of(work.room, first.room, room_lines, findings)
        lines += room_lines
        by_room[work.room.name] = findings
        everywhere += findings
    context = JobContext(job, finishes, catalogue, tuple(works), tuple(lines))
    for line in JOB_LINES:
        for outcome in line.work(context):
            if isinstance(outcome, Finding):
                everywhere.append(outcome)
            else:
                lines.append(outcome)
    return TakenOff(tuple(lines), unique(everywhere), by_room, labour)


def _of_kind(ctx: LineContext) -> _OfKind:
    found = take_off_room(ctx)
    return found, labour_of(replace(ctx, lines=found[0]))


def take_off_room(ctx: LineContext) -> _OfRoom:
    """Work out every line of one room; each line sees the quantities of those before it."""
    done: tuple[QuantityLine, ...] = ()
    findings: list[Finding] = []
    ctx = replace(ctx, lines=done)
    for line in LINES:
        made: list[QuantityLine] = []
        for outcome in line.work(ctx):
            if isinstance(outcome, Finding):
                findings.append(outcome)
            else:
                made.append(outcome)
        if made:
            done = (*done, *made)
            ctx = replace(ctx, lines=done)
    return done, unique(findings)


_Key = tuple[str, RowRef, str | None, str, str, tuple[tuple[str, Fact], ...]]


def unique(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Keep the findings in order, those that say the same of the same place once."""
    seen: dict[_Key, Finding] = {}
    for f in findings:
        key = (f.code, f.source, f.column, f.room, f.surface, tuple(sorted(f.facts.items())))
        seen.setdefault(key, f)
    return tuple(seen.values())
