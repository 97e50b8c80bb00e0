"""Strips of a roll that cover a region: both directions tried, the cheaper kept.

Butted strips: n = ceil(W / w); overlapping: n = ceil((W - o) / (w - o)), derived, in whole
1/320 mm so that an exact multiple needs no extra strip.  Every strip but the last has the roll's
full width; the last, the rip, has what is left.  Holes for drains save nothing.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Region, Room
from sheetcalc.geometry.plane.boxes import boxes_within
from sheetcalc.geometry.plane.regions import components, is_rectangle
from sheetcalc.geometry.rolls.laid import Laid, as_strips

EACH_ROOM = "each room"
"""Value of the job's setting by which no roll is shared between rooms."""

LINED_UP, NOT_LINED_UP = "all rolls", "no rolls"
"""Values of the job's setting that overrule what a roll's One way says."""


LAID_WHOLE: Final = frozenset(
    {RollKind.UNDERLAY_MAT, RollKind.BACKER_BOARD, RollKind.INSULATION_BOARD}
)
"""Kinds that are no rolls: mats and boards."""


def strips_across(width: int, roll_width: int, overlap: int = 0) -> int:
    """Count the strips that cover a width.

    Derived; butted where the overlap is 0.

    Parameters
    ----------
    width, roll_width, overlap
        In any one unit, whole numbers; the overlap is less than the roll's width.

    Examples
    --------
    2.9 m of 1.0 m roll with laps of 0.05 m is exactly 3 strips:

    >>> strips_across(2900, 1000, 50)
    3
    """
    return max(1, -(-(width - overlap) // (roll_width - overlap)))


def as_laid(roll: Roll, job: Job) -> Roll:
    """Tell whether a roll's knobs or print have to line up: as its One way says, or the job.

    Mats and boards are laid whole, and cut where they end: theirs need not.
    """
    if roll.kind in LAID_WHOLE:
        return replace(roll, one_way=False)
    if job.lined_up in {LINED_UP, NOT_LINED_UP}:
        return replace(roll, one_way=job.lined_up == LINED_UP)
    return roll


def pitch_of(roll: Roll) -> int:
    """Whole steps that strips begin at where knobs or print line up; 1 where they need not."""
    return (roll.knob_pitch_mm320 or 1) if roll.one_way else 1


def step_across(roll: Roll) -> int:
    """Distance from one strip's edge to the next's [1/320 mm]; 0 where a roll can't cover.

    Where knobs of neighbouring strips have to fit into each other (a lap) or line up (one-way
    goods), it is a whole number of knob pitches.
    """
    step = roll.width_mm320 - roll.overlap_mm320
    pitch = roll.knob_pitch_mm320 or 0
    if pitch and (roll.overlap_mm320 or roll.one_way):
        step = step // pitch * pitch
    return max(step, 0)


def strips_for(  # noqa: PLR0913, PLR0917 - room, place, item and settings are all needed
    room: Room, surface_key: str, region: Region, roll: Roll, piece: str, job: Job
) -> tuple[Strip, ...]:
    """Cut a region of a room into strips of a roll.

    Both directions are tried, from either side, and the one that uses less roll is kept, of
    those without a strip longer than the roll where there is one: full
    strips count whole; a rip counts by how many of its width come out of one width of roll, or
    whole where the job shares no rolls between rooms.  Where knobs or print line up, all strips
    run one way from one side, and begin and end at whole pitches.  Strips lie in the region's own
    frame.

    Parameters
    ----------
    room
        Whose name and phase the strips carry.
    surface_key
        Surface that is covered.
    region
        What is covered [1/320 mm].
    roll
        Its width, overlap, knob pitch and whether it is one-way goods count here.
    piece
        Words for the cutting list, such as "underlay"; strips are numbered after it.
    job
        Settings.

    Returns
    -------
    tuple of Strip
        Each at most as wide as the roll.  Longer strips than the roll are cut by the planner.
        Where the roll can't cover anything (no width beyond its lap) one strip stands for each
        part, wider than the roll, which the planner refuses.
    """
    roll = as_laid(roll, job)
    parts = components(region)
    together = [parts] if roll.one_way else [[part] for part in parts]
    laid: list[tuple[Laid, bool]] = []
    for group in together:
        laid += _best(group, roll, shared=job.rolls_shared != EACH_ROOM)
    return as_strips(
        laid, item=roll.code, room=room, surface=surface_key, piece=piece, noun="strip"
    )


def _best(parts: Sequence[Region], roll: Roll, *, shared: bool) -> list[tuple[Laid, bool]]:
    """Cheapest way to lay connected parts, all in one direction; strips without joints first."""
    ways = []
    for turned in (False, True):
        laid = _from_best_sides(parts, roll, turned=turned, shared=shared)
        ways.append((*_cost_of(laid, roll, turned=turned, shared=shared), turned, laid))
    *_, turned, best = min(ways, key=lambda way: way[:4])
    return [(s, turned) for s in best]


def _from_best_sides(
    parts: Sequence[Region], roll: Roll, *, turned: bool, shared: bool
) -> list[Laid]:
    """Lay strips in one direction, from the side that costs less; one-way goods all from one."""
    groups = [parts] if roll.one_way else [[part] for part in parts]
    laid: list[Laid] = []
    for group in groups:
        from_sides = (False,) if all(map(is_rectangle, group)) else (False, True)
        sides = [
            [s for part in group for s in _lay(part, roll, turned=turned, from_far=far)]
            for far in from_sides
        ]
        costs = [_cost_of(side, roll, turned=turned, shared=shared) for side in sides]
        laid += sides[costs.index(min(costs))]
    return laid


def _cost_of(
    way: Sequence[Laid], roll: Roll, *, turned: bool, shared: bool
) -> tuple[bool, float, int]:
    """Whether a strip is longer than the roll, the length of roll used, and how many strips."""
    lengths = (s.along_front if turned else s.along_left for s in way)
    joined = any(length > roll.length_mm320 for length in lengths)
    return joined, sum(_cost(s, roll, turned=turned, shared=shared) for s in way), len(way)


def _cost(laid: Laid, roll: Roll, *, turned: bool, shared: bool) -> float:
    """Length of roll that a strip uses; rips may lie side by side."""
    length, width = laid.along_left, laid.along_front
    if turned:
        length, width = width, length
    beside = roll.width_mm320 // width if shared else 1
    return length / max(beside, 1)


def _lay(part: Region, roll: Roll, *, turned: bool, from_far: bool) -> Iterator[Laid]:
    """Lay strips over a part, along left or (turned) along front, the rip at the end."""
    x0, y0, x1, y1 = part.bounds
    low, high = (x0, x1) if turned else (y0, y1)
    step, width, pitch = step_across(roll), roll.width_mm320, pitch_of(roll)
    if step <= 0:
        yield Laid(x0, y0, x1 - x0, y1 - y0)
        return
    whole = high - low
    plain = is_rectangle(part)
    for i in range(strips_across(whole, width, width - step)):
        begin = i * step
        size = min(width, whole - begin)
        at = high - begin - size if from_far else low + begin
        band = (at, y0, at + size, y1) if turned else (x0, at, x1, at + size)
        for a0, b0, a1, b1 in [band] if plain else boxes_within(part, band):
            if turned:
                start, length = _on_pitch(b0, b1, y0, pitch)
                yield Laid(at, start, size, length)
            else:
                start, length = _on_pitch(a0, a1, x0, pitch)
                yield Laid(start, at, length, size)


def _on_pitch(begin: int, end: int, origin: int, pitch: int) -> tuple[int, int]:
    """Start and length of a strip that begins and ends at whole pitches from an origin."""
    start = begin - (begin - origin) % pitch
    return start, -(-(end - start) // pitch) * pitch
