"""Bands on the roll: where each room's stretch begins and ends, in the order of the rooms.

A band may be joined anywhere, so stretches follow each other and go on with the next roll.  The
laps are in the allowance that stands on the order; rolls are never more than it orders.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from sheetcalc.domain.catalogue import Catalogue, RollKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import MM320_PER_METRE
from sheetcalc.domain.quantity import PackBy, QuantityLine
from sheetcalc.domain.rolls import PlacedStrip, RollPlan, Strip
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork

_BANDS: Final = "bands"
_BASIS: Final = (
    "stretches in the order of the rooms, joined where a roll ends; laps and waste are in the "
    "order's allowance, not in this list"
)


def band_plans(
    lines: Iterable[QuantityLine],
    works: Sequence[RoomWork],
    plans: Iterable[RollPlan],
    catalogue: Catalogue,
    job: Job,
) -> tuple[RollPlan, ...]:
    """List the stretches of band of every room on its rolls.

    Parameters
    ----------
    lines
        Quantity lines of the job; those of bands that are ordered by length count.
    works
        Rooms with the names that their rows stand for.
    plans
        Roll plans: a band cut from a sheet goes on after the rolls that are planned of it.
    catalogue, job
        Rolls; and the width of a band that is cut from a sheet.
    """
    rooms = {work.room.name: work.room for work in works}
    opened = {(plan.phase, plan.item): plan.rolls for plan in plans}
    wanted: defaultdict[tuple[str, str], list[QuantityLine]] = defaultdict(list)
    for line in lines:
        if line.line == _BANDS and line.pack_by is PackBy.LENGTH and line.item in catalogue.rolls:
            wanted[line.phase, line.item].append(line)
    return tuple(
        _plan(found, rooms, catalogue, job, opened.get(key, 0)) for key, found in wanted.items()
    )


def _plan(
    lines: Sequence[QuantityLine],
    rooms: Mapping[str, Room],
    catalogue: Catalogue,
    job: Job,
    before: int,
) -> RollPlan:
    roll = catalogue.rolls[lines[0].item]
    from_sheet = roll.kind is not RollKind.BAND
    beside = roll.width_mm320 // job.band_width_mm320 if from_sheet else 1
    piece = f"{beside} bands side by side" if from_sheet else "band"
    placed: list[PlacedStrip] = []
    at = 0
    for line in lines:
        names = rooms[line.room].names if line.room in rooms else (line.room,)
        for name in names:
            # the list may not need more than the order, so nothing is rounded up
            end = at + int(line.each_si * MM320_PER_METRE)
            parts = list(_parts(at, end, roll.length_mm320))
            for number, (begin, stop) in enumerate(parts, 1):
                words = f"{piece}, part {number} of {len(parts)}" if len(parts) > 1 else piece
                width = job.band_width_mm320 * beside if from_sheet else roll.width_mm320
                strip = Strip(roll.code, line.phase, name, line.surface, words, stop - begin, width)
                nth, position = divmod(begin, roll.length_mm320)
                placed.append(PlacedStrip(strip, before + nth + 1, position))
            at = end
    rolls = -(-at // roll.length_mm320)
    return RollPlan(roll.code, lines[0].phase, rolls, tuple(placed), rolls, _BASIS, by_length=True)


def _parts(begin: int, end: int, length: int) -> Iterable[tuple[int, int]]:
    """Parts of a stretch, roll by roll."""
    while begin < end:
        stop = min(end, (begin // length + 1) * length)
        yield begin, stop
        begin = stop
