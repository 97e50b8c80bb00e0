"""Short lists on a card: where to start and what to cut, strips, and the cable row by row."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from sheetcalc.domain.card import drawn_surfaces
from sheetcalc.domain.job import Job
from sheetcalc.domain.quantity import (
    CablePlan,
    CutPiece,
    CutShape,
    RollPlan,
    RoomWork,
    SettingOut,
    Strip,
)
from sheetcalc.units import show_quantity, show_tape
from sheetcalc.workbook.results.card_lines import listed

_Kind: TypeAlias = tuple[str, str, int, int]

_PLAIN = frozenset({CutShape.STRAIGHT, CutShape.CORNER})


def cut_texts(work: RoomWork, job: Job) -> Iterator[str]:
    """Give one text a drawn surface, and one for each tile of the small surfaces.

    A cut is named as on the drawing: the surface's letter, and its number in the Cut list tab.
    """
    letters = drawn_surfaces(work)
    for key, letter in letters.items():
        yield _surface(work.setting_outs[key], letter, letters, job)
    small: defaultdict[str, list[SettingOut]] = defaultdict(list)
    for key, out in work.setting_outs.items():
        if key not in letters:
            small[out.tile].append(out)
    for tile, outs in small.items():
        kinds = ", ".join(dict.fromkeys(out.kind.value for out in outs))
        yield listed(f"{kinds[:1].upper()}{kinds[1:]} · {tile}:", _small_cuts(outs, job))


def _surface(out: SettingOut, letter: str, letters: Mapping[str, str], job: Job) -> str:
    joint = show_tape(out.joint_mm320, job.units.small_length)
    heading = f"{letter} {out.surface} · {out.tile} · {out.bond.label} · joint {joint}."
    if out.by_area:
        return f"{heading} Counted by area: no setting-out."
    cuts = [
        f"{letter}{n} {_size(piece, job)}{_from(piece, letter, letters)}"
        for n, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    ]
    drilled = sum(p.count for p in out.pieces if p.shape is CutShape.DRILLED)
    if drilled:
        cuts.append(f"{drilled} whole, drilled")
    steps = (s.strip().rstrip(".") for s in out.start.split(". "))
    rows = "".join(f" {s}." for s in steps if s.startswith("Each row"))
    return listed(f"{heading}{rows}", cuts or ["no cuts"])


def _size(piece: CutPiece, job: Job) -> str:
    shape = "" if piece.shape in _PLAIN else f" {piece.shape.value}"
    holes = " drilled" if piece.holes else ""
    sides = f"{_bare(piece.length_mm320, job)}x{_bare(piece.width_mm320, job)}"
    return f"{piece.count} x {sides}{shape}{holes}"


def _bare(length_mm320: int, job: Job) -> str:
    """Show a length without its unit, which the heading says."""
    return show_tape(length_mm320, job.units.small_length).removesuffix(" mm").rstrip('"')


def _from(piece: CutPiece, letter: str, letters: Mapping[str, str]) -> str:
    """Name the cut whose offcut a piece is made from, by its letter where it has one."""
    words = piece.taken_from.removeprefix("offcut of cut ")
    if not words:
        return ""
    number, _, surface = words.partition(" of ")
    there = letters.get(surface) if surface else letter
    return f" from {there}{number}" if there and number.isdigit() else f" from {words}"


def _small_cuts(outs: Sequence[SettingOut], job: Job) -> list[str]:
    sizes: defaultdict[str, int] = defaultdict(int)
    whole = sum(out.whole for out in outs)
    for out in outs:
        for piece in out.pieces:
            if piece.shape is not CutShape.DRILLED:
                _, _, size = _size(piece, job).partition(" x ")
                sizes[size] += piece.count
    cuts = [f"{count} x {size}" for size, count in sizes.items()]
    return [f"{whole} whole", *cuts] if whole else cuts or ["no cuts"]


def cable_texts(work: RoomWork, job: Job) -> Iterator[str]:
    """Give the rows of each drawn cable: metres laid at each row's end, knobs to the next."""
    drawn = [plan for plan in work.cables if plan.path and plan.rows_list]
    for number, plan in enumerate(drawn, 1):
        name = f"Cable {number}" if len(drawn) > 1 else "Cable"
        yield _cable(name, plan, job)


def _cable(name: str, plan: CablePlan, job: Job) -> str:
    unit = job.units.long_length
    knobs = any(row.skip for row in plan.rows_list)
    before = [0, *(row.skip for row in plan.rows_list)]
    rows = [
        f"{row.number} {unit.from_si(row.running_m):.1f}"
        f"{f' ({row.skip})' if row.skip and row.skip != last else ''}"
        for row, last in zip(plan.rows_list, before, strict=False)
    ]
    checks = " and ".join(
        f"{show_quantity(length, unit)} at the end of row {row}"
        for row, length in plan.check_lengths_m
    )
    spacing = plan.spacing_words or show_quantity(plan.spacing_m, job.units.small_length)
    what = f"{unit.symbol} laid at its end{' (knobs to the next, if others)' if knobs else ''}"
    heading = (
        f"{name} {plan.cable} · {plan.zone} · {show_quantity(plan.length_m, unit)} at {spacing}. "
        f"{f'Check {checks}. ' if checks else ''}"
        f"{_taken_up(plan)}"
        f"Row, {what}:"
    )
    return listed(heading, rows)


def _taken_up(plan: CablePlan) -> str:
    """Say which rows take up what the cable's own length differs by."""
    if plan.tolerance_rows is None:
        return ""
    first, last = plan.tolerance_rows
    return f"If its own length differs, turn rows {first} to {last} earlier or later. "


def strip_texts(
    work: RoomWork, plans: Mapping[tuple[str, str], RollPlan], copy: int, job: Job
) -> Iterator[str]:
    """Give the strips of each roll with their place on it.

    Parameters
    ----------
    work
        The room with its strips.
    plans
        Roll plans by phase and item.
    copy
        Which of the alike rooms, from 0: each has strips of its own on the rolls.
    job
        Units.
    """
    numbered: defaultdict[tuple[str, str], list[tuple[int, Strip]]] = defaultdict(list)
    for strip in work.strips:
        one_item = numbered[strip.phase, strip.item]
        one_item.append((len(one_item) + 1, strip))
    for key, strips in numbered.items():
        places = _Places(plans.get(key), work, copy)
        entries = [f"{n} {_strip(s, job)}{places.take(s)}" for n, s in strips]
        pieces = ", ".join(dict.fromkeys(s.piece.split(",")[0] for _, s in strips))
        yield listed(f"Strips of {key[1]} ({pieces}):", entries)


def _strip(strip: Strip, job: Job) -> str:
    return f"{_bare(strip.length_mm320, job)}x{_bare(strip.width_mm320, job)}"


class _Places:
    """Finds the strips of one of several alike rooms on the rolls, each place once."""

    def __init__(self, plan: RollPlan | None, work: RoomWork, copy: int) -> None:
        self._found: defaultdict[_Kind, list[str]] = defaultdict(list)
        for placed in plan.placed if plan else ():
            if placed.strip.room == work.room.name:
                old = f" of {placed.leftover_of}" if placed.leftover_of else ""
                self._found[_kind(placed.strip)].append(f"roll {placed.roll}{old}")
        for kind, number in Counter(_kind(strip) for strip in work.strips).items():
            self._found[kind] = self._found[kind][copy * number :]

    def take(self, strip: Strip) -> str:
        """Give the next place of a strip in brackets; "" where the plan has none."""
        left = self._found[_kind(strip)]
        return f" ({left.pop(0)})" if left else ""


def _kind(strip: Strip) -> _Kind:
    return strip.surface, strip.piece, strip.length_mm320, strip.width_mm320
