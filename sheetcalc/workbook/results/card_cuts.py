"""Short lists on a card: where to start and what to cut, strips, and the cable row by row."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.card import drawn_surfaces, is_small
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import PlacedStrip, RollPlan, Strip
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import CutPiece, CutShape, SettingOut
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.units import show_quantity, show_tape
from sheetcalc.workbook.results.card_lines import listed
from sheetcalc.workbook.results_tabs import ROLL_PLAN
from sheetcalc.workbook.results_tabs_heating import CABLE_PLANS

_Kind: TypeAlias = tuple[str, str, int, int]

_ROWS = ("Each row", "Every second row", "Courses run on")
"""Sentences of a start that say how the rows of a bond are offset, or whose they are."""

_KINDS = {"curb": "curbs", "niche": "niches", "opening": "reveals", "base": "base"}
"""Small surfaces, by the first word of their keys."""

_PLAIN = frozenset({CutShape.STRAIGHT, CutShape.CORNER})


def cut_texts(work: RoomWork, job: Job, words: Words = ENGLISH) -> Iterator[str]:
    """Give one text a surface, and one for each tile of the small surfaces.

    A cut is named as on the drawing: the surface's letter, and its number in the Cut list tab.
    """
    letters = drawn_surfaces(work)
    small: defaultdict[str, list[SettingOut]] = defaultdict(list)
    for key, letter in letters.items():
        out = work.setting_outs[key]
        if is_small(out):
            small[out.tile].append(out)
        else:
            yield _surface(out, letter, letters, job, words)
    for tile, outs in small.items():
        named = (_KINDS.get(out.surface.split()[0], out.kind.value) for out in outs)
        kinds = ", ".join(words.named(kind) for kind in dict.fromkeys(named))
        heading = words.fill(
            "{kinds} · {tile} · joint {joint}.",
            kinds=f"{kinds[:1].upper()}{kinds[1:]}",
            tile=tile,
            joint=show_tape(outs[0].joint_mm320, job.units.small_length),
        )
        number = sum(out.whole for out in outs)
        whole = [words.fill("{number} whole", number=number)] if number else []
        cuts = [c for out in outs for c in _cuts(out, letters[out.surface], letters, job, words)]
        yield listed(heading, [*whole, *cuts] or [words.say("no cuts")])


def _surface(
    out: SettingOut, letter: str, letters: Mapping[str, str], job: Job, words: Words
) -> str:
    heading = words.fill(
        "{letter} {surface} · {tile} · {bond} · joint {joint}.",
        letter=letter,
        surface=words.named(out.surface),
        tile=out.tile,
        bond=words.named(out.bond.label),
        joint=show_tape(out.joint_mm320, job.units.small_length),
    )
    if out.by_area:
        return f"{heading} {words.say('Counted by area: no setting-out.')}"
    cuts = _cuts(out, letter, letters, job, words)
    drilled = sum(p.count for p in out.pieces if p.shape is CutShape.DRILLED)
    if drilled:
        cuts.append(words.fill("{number} whole, drilled", number=drilled))
    steps = (s.strip().rstrip(".") for s in out.start.split(". "))
    rows = "".join(f" {words.told(f'{s}.')}" for s in steps if s.startswith(_ROWS))
    return listed(f"{heading}{rows}", cuts or [words.say("no cuts")])


def _cuts(
    out: SettingOut, letter: str, letters: Mapping[str, str], job: Job, words: Words
) -> list[str]:
    """Give every cut of a surface: its name, how many, its size, whose offcut it is."""
    return [
        f"{letter}{n} {_size(piece, job, words)}{_from(piece, letter, letters, words)}"
        for n, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    ]


def _size(piece: CutPiece, job: Job, words: Words) -> str:
    shape = "" if piece.shape in _PLAIN else f" {words.say(piece.shape.value)}"
    holes = f" {words.say('drilled')}" if piece.holes else ""
    sides = f"{_bare(piece.length_mm320, job)} x {_bare(piece.width_mm320, job)}"
    if piece.count > 1:
        sides = words.fill("{number} of {size}", number=piece.count, size=sides)
    return f"{sides}{shape}{holes}"


def _bare(length_mm320: int, job: Job) -> str:
    """Show a length without its unit, which the heading says."""
    return show_tape(length_mm320, job.units.small_length).removesuffix(" mm").rstrip('"')


def _from(piece: CutPiece, letter: str, letters: Mapping[str, str], words: Words) -> str:
    """Name the cut whose offcut a piece is made from, by its letter where it has one."""
    source = piece.taken_from.removeprefix("offcut of cut ")
    if not source:
        return ""
    number, _, surface = source.partition(" of ")
    there = letters.get(surface) if surface else letter
    named = f"{there}{number}" if there and number.isdigit() else words.named(source)
    return f" {words.fill('from {cut}', cut=named)}"


def cable_texts(work: RoomWork, job: Job, words: Words = ENGLISH) -> Iterator[str]:
    """Say of each drawn cable what it is and what to check; its rows stand on Cable plans."""
    drawn = [plan for plan in work.cables if plan.path and plan.rows_list]
    for number, plan in enumerate(drawn, 1):
        name = words.say("Cable")
        told = _cable(f"{name} {number}" if len(drawn) > 1 else name, plan, job, words)
        yield " ".join(told)
    if drawn:
        yield words.fill("Row by row on {tab}.", tab=CABLE_PLANS.key)


def _cable(name: str, plan: CablePlan, job: Job, words: Words) -> Iterator[str]:
    unit = job.units.long_length
    spacing = plan.spacing_words or show_quantity(plan.spacing_m, job.units.small_length)
    yield words.fill(
        "{name} {cable} · {zone} · {length} at {spacing}.",
        name=name,
        cable=plan.cable,
        zone=words.named(plan.zone),
        length=show_quantity(plan.length_m, unit),
        spacing=words.named(spacing),
    )
    if plan.check_lengths_m:
        one = "{length} at the end of row {row}"
        checks = words.say(" and ").join(
            words.fill(one, length=show_quantity(length, unit), row=row)
            for row, length in plan.check_lengths_m
        )
        yield words.fill("Check {checks}.", checks=checks)
    if plan.tolerance_rows is not None:  # which take up what its own length differs by
        first, last = plan.tolerance_rows
        differs = "If its own length differs, turn rows {first} to {last} earlier or later."
        yield words.fill(differs, first=first, last=last)


def strip_texts(
    work: RoomWork,
    plans: Mapping[tuple[str, str], RollPlan],
    names: Sequence[str],
    job: Job,
    words: Words = ENGLISH,
) -> Iterator[str]:
    """Give the strips of each roll with their place on it.

    Parameters
    ----------
    work
        The room with its strips.
    plans
        Roll plans by phase and item.
    names
        Of the rooms that the card is for: each of several alike has strips of its own on the
        rolls.  Rooms that are counted without names share a card, which tells the rolls of all.
    job
        Units.
    words
        The office's.
    """
    numbered: defaultdict[tuple[str, str], list[tuple[int, Strip]]] = defaultdict(list)
    for strip in work.strips:
        one_item = numbered[strip.phase, strip.item]
        one_item.append((len(one_item) + 1, strip))
    for key, strips in numbered.items():
        places = _Places(plans.get(key), names, words)
        entries = [f"{n}: {_strip(s, job)}{places.take(s)}" for n, s in strips]
        pieces = ", ".join(dict.fromkeys(words.named(s.piece.split(",")[0]) for _, s in strips))
        heading = words.fill("Strips of {item} ({pieces}):", item=key[1], pieces=pieces)
        if len(names) > 1:
            each = "Strips of {item} in each of the {number} rooms ({pieces}):"
            heading = words.fill(each, item=key[1], number=len(names), pieces=pieces)
        yield listed(heading, entries)
    if numbered and len(names) > 1:
        yield words.fill("Room by room on {tab}.", tab=ROLL_PLAN.key)


def _strip(strip: Strip, job: Job) -> str:
    return f"{_bare(strip.length_mm320, job)} x {_bare(strip.width_mm320, job)}"


class _Places:
    """Finds the strips of the rooms of one card on the rolls, each place once."""

    def __init__(self, plan: RollPlan | None, rooms: Sequence[str], words: Words) -> None:
        self._words = words
        self._found: defaultdict[_Kind, dict[str, list[PlacedStrip]]] = defaultdict(
            lambda: {room: [] for room in rooms}
        )
        for placed in plan.placed if plan else ():
            if placed.strip.room in rooms:
                self._found[_kind(placed.strip)][placed.strip.room].append(placed)

    def take(self, strip: Strip) -> str:
        """Give the next place of a strip in each room, in brackets; "" where the plan has none."""
        rolls: defaultdict[str, set[int]] = defaultdict(set)
        for left in self._found[_kind(strip)].values():
            if left:
                placed = left.pop(0)
                rolls[placed.leftover_of].add(placed.roll)
        told = (self._told(sorted(numbers), phase) for phase, numbers in rolls.items())
        return f" ({', '.join(told)})" if rolls else ""

    def _told(self, rolls: Sequence[int], phase: str) -> str:
        """Name rolls by their numbers, and the earlier phase that they are left over of."""
        one, several = "roll {roll}", "rolls {rolls}"
        if phase:
            one, several = "roll {roll} of {phase}", "rolls {rolls} of {phase}"
        if len(rolls) == 1:
            return self._words.fill(one, roll=rolls[0], phase=phase)
        return self._words.fill(several, rolls=self._stretches(rolls), phase=phase)

    def _stretches(self, rolls: Sequence[int]) -> str:
        """Give numbers in order, such as ``1 to 4, 7``."""
        ends: list[list[int]] = []
        for roll in rolls:
            if ends and roll == ends[-1][-1] + 1:
                ends[-1] = [ends[-1][0], roll]
            else:
                ends.append([roll])
        to = self._words.say(" to ")
        return ", ".join(to.join(str(end) for end in stretch) for stretch in ends)


def _kind(strip: Strip) -> _Kind:
    return strip.surface, strip.piece, strip.length_mm320, strip.width_mm320
