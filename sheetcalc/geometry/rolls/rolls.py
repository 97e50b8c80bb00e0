"""Roll plan: strips of many rooms cut from as few rolls of an item as can be found.

Rips are laid side by side into sections; sections and full strips are then one cutting-stock
problem over the rolls.  Leftovers of earlier phases are used before new rolls are opened.  Boards
and mats are cut alike, a saw's kerf between their pieces.
"""

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.domain.measure import mm320_squared_to_m2
from sheetcalc.domain.rolls import Leftover, PlacedStrip, RollPlan, Strip
from sheetcalc.domain.room import Room
from sheetcalc.geometry.rolls.cutting_stock import fill_stock
from sheetcalc.geometry.rolls.long_strips import cut_to_length
from sheetcalc.geometry.rolls.mixed_stock import Cut, Stock, pack_mixed
from sheetcalc.geometry.rolls.roll_bounds import Bound, bound_of
from sheetcalc.geometry.rolls.roll_solver import better_plan
from sheetcalc.geometry.rolls.sections import Cutting, Section, make_sections
from sheetcalc.geometry.rolls.strips import EACH_ROOM, as_laid, pitch_of, step_across, strips_for

__all__ = [
    "cutting_of", "plan_stock", "step_across", "strips_for", "strips_of_copies",
]  # fmt: skip

SAWN: Final = frozenset({RollKind.BACKER_BOARD, RollKind.INSULATION_BOARD})
"""Kinds that are cut with a saw, and so lose a kerf."""

_HOW: Final = (
    "longest first, each roll filled by subset sums; rips side by side in sections (derived)"
)
_HOW_SOLVED: Final = "integer programme over cutting patterns (Gilmore and Gomory 1961, abstract)"


class _Piece(Struct):
    """A stretch of roll to cut from: a new roll, or a leftover."""

    item: Roll
    roll: int
    start: int
    leftover_of: str
    length: int
    kerf: int
    sections: list[Section]

    @property
    def used(self) -> int:
        return sum(s.length + self.kerf for s in self.sections)


def strips_of_copies(room: Room, strips: Iterable[Strip]) -> tuple[Strip, ...]:
    """Give the strips of every room that a row stands for, each with its own name."""
    wanted = tuple(strips)
    return tuple(replace(s, room=name) for name in room.names for s in wanted)


def cutting_of(roll: Roll, job: Job) -> Cutting:
    """How a roll or a board is cut: its width, the saw's kerf, whole pitches for rips."""
    kerf = job.kerf_mm320 if roll.kind in SAWN else 0
    return Cutting(roll.width_mm320, kerf, pitch_of(as_laid(roll, job)))


def plan_stock(
    strips: Sequence[Strip],
    rolls: Sequence[Roll],
    phase: str,
    job: Job,
    leftovers: Mapping[str, Sequence[Leftover]],
) -> tuple[tuple[RollPlan, ...], tuple[Finding, ...]]:
    """Plan how rolls of several lengths, alike otherwise, are cut in one phase.

    Parameters
    ----------
    strips
        Of all rooms, every copy of a room for itself.
    rolls
        Items of one width, overlap and pitch; the cheapest mix is taken, by their prices, or by
        their lengths where a price is missing.
    phase
        Name of the phase.
    job
        ``rolls_shared`` (the whole phase, or each room its own rolls), the smallest useful
        leftover, what becomes of strips longer than the roll, and whether the solver is used.
    leftovers
        Rests of earlier phases by item, used first.

    Returns
    -------
    tuple
        A plan for each item that is used (one at least), in the order of ``rolls``; and findings
        about strips that had to be joined or can't be cut.
    """
    longest = max(rolls, key=lambda roll: roll.length_mm320)
    wanted, findings = cut_to_length(strips, as_laid(longest, job), job)
    cutting = cutting_of(longest, job)
    pieces = _leftover_pieces(rolls, leftovers, job, cutting.kerf)
    stocks = _stocks(rolls)
    solved = False
    numbers = dict.fromkeys(range(len(rolls)), 0)
    for group in _groups(wanted, job):
        sections = _use_leftovers(make_sections(group, cutting), pieces)
        lengths = [s.length for s in sections]
        cuts = pack_mixed(lengths, stocks, cutting.kerf)
        if job.roll_solver:
            cuts, better = better_plan(cuts, lengths, stocks, cutting.kerf)
            solved = solved or better
        pieces += _new_pieces(cuts, sections, rolls, numbers, cutting.kerf)
    plans: list[RollPlan] = []
    for roll in rolls:
        own = [piece for piece in pieces if piece.item is roll]
        placed = tuple(p for piece in own for p in _placed(piece))
        if not placed and (len(rolls) > 1 and (plans or roll is not rolls[-1])):
            continue
        mine = [p.strip for p in placed] if len(rolls) > 1 else wanted
        bound = bound_of(_groups(mine, job), roll, leftovers.get(roll.code, ()), job)
        plans.append(
            RollPlan(
                item=roll.code,
                phase=phase,
                rolls=sum(not piece.leftover_of for piece in own),
                placed=placed,
                lower_bound=bound.rolls,
                basis=_basis(mine, bound, job, solved=solved),
                leftovers=tuple(_rests(own, phase, job)),
            )
        )
    return tuple(plans), findings


def _stocks(rolls: Sequence[Roll]) -> list[Stock]:
    """Cost by price, or by length where one has no price."""
    priced = [roll.price for roll in rolls if roll.price is not None]
    if len(priced) == len(rolls):
        return [Stock(r.length_mm320, p) for r, p in zip(rolls, priced, strict=True)]
    return [Stock(roll.length_mm320, Decimal(roll.length_mm320)) for roll in rolls]


def _leftover_pieces(
    rolls: Sequence[Roll], leftovers: Mapping[str, Sequence[Leftover]], job: Job, kerf: int
) -> list[_Piece]:
    """Rests of earlier phases, the shortest first; none where each room has its own rolls."""
    if job.rolls_shared == EACH_ROOM:
        return []
    rests = [(roll, rest) for roll in rolls for rest in leftovers.get(roll.code, ())]
    return [
        _Piece(roll, rest.roll, rest.position_mm320, rest.phase, rest.length_mm320, kerf, [])
        for roll, rest in sorted(rests, key=lambda pair: pair[1].length_mm320)
    ]


def _new_pieces(
    cuts: Sequence[Cut],
    sections: Sequence[Section],
    rolls: Sequence[Roll],
    numbers: dict[int, int],
    kerf: int,
) -> Iterable[_Piece]:
    """Open new rolls, numbered on from those before."""
    for cut in cuts:
        numbers[cut.stock] += 1
        roll = rolls[cut.stock]
        held = [sections[i] for i in cut.wanted]
        yield _Piece(roll, numbers[cut.stock], 0, "", roll.length_mm320, kerf, held)


def _basis(strips: Sequence[Strip], bound: Bound, job: Job, *, solved: bool) -> str:
    area = mm320_squared_to_m2(sum(s.length_mm320 * s.width_mm320 for s in strips))
    unit = job.units.area
    return (
        f"{len(strips)} strips, {unit.from_si(area):.2f} {unit.symbol} of roll; "
        f"{_HOW_SOLVED if solved else _HOW}; no plan of these strips needs fewer than "
        f"{bound.rolls} ({bound.by})"
    )


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
        if not piece.leftover_of:
            continue
        room = piece.length - piece.used + piece.kerf
        taken = set(fill_stock([s.length + piece.kerf for s in waiting], room))
        piece.sections += [s for i, s in enumerate(waiting) if i in taken]
        waiting = [s for i, s in enumerate(waiting) if i not in taken]
    return waiting


def _placed(piece: _Piece) -> Iterable[PlacedStrip]:
    """Place the strips of a piece of roll, in cutting order."""
    position = piece.start
    for section in piece.sections:
        for column in section.columns:
            for strip, offset in column.strips:
                cut = strip if strip.item == piece.item.code else _of(strip, piece.item)
                yield PlacedStrip(
                    cut, piece.roll, position + offset, column.across, piece.leftover_of
                )
        position += section.length + piece.kerf


def _of(strip: Strip, roll: Roll) -> Strip:
    return replace(strip, item=roll.code)


def _rests(pieces: Iterable[_Piece], phase: str, job: Job) -> Iterable[Leftover]:
    """Rests that are long enough to keep."""
    for piece in pieces:
        rest = piece.length - piece.used
        if rest >= max(job.useful_leftover_mm320, 1):
            yield Leftover(piece.leftover_of or phase, piece.roll, piece.start + piece.used, rest)
