"""The Roll plan tab: a cutting list, roll by roll from its start, for a person on the roll."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Final, TypeAlias

from sheetcalc.domain.catalogue import Catalogue, Roll, RollKind
from sheetcalc.domain.measure import FOOT, JobUnits, Unit
from sheetcalc.domain.rolls import PlacedStrip, RollPlan, Strip
from sheetcalc.workbook.results.frame import Frame, count, length, sheet_of, table_of, text
from sheetcalc.workbook.results_tabs import ROLL_PLAN
from sheetcalc.workbook.sheet import Cell, SheetModel, TableModel

KEY: Final = "roll-plan"

_LENGTHS: Final = ("From", "To", "Across", "Length", "Width")
_EDGES: Final = {
    (True, True): "both edges",
    (True, False): "near edge",
    (False, True): "far edge",
    (False, False): "no edge",
}

Row: TypeAlias = Mapping[str, Cell]


def roll_plan_sheet(plans: Sequence[RollPlan], catalogue: Catalogue, frame: Frame) -> SheetModel:
    """Roll plan tab: each strip in cutting order, then what is left of its roll."""
    table = cutting_list(plans, catalogue.rolls, frame.units)
    return sheet_of(KEY, ROLL_PLAN, frame, [table])


def cutting_list(
    plans: Sequence[RollPlan], rolls: Mapping[str, Roll], units: JobUnits
) -> TableModel:
    """Table of the strips of plans, in cutting order.

    Parameters
    ----------
    plans
        In the order of cutting.
    rolls
        Rows of their items, by code.
    units
        Of the job.  Where rolls are counted in feet, lengths along and across one are shown in its
        small unit: strips are cut by a tape, and none shows decimals of a foot.
    """
    unit = units.small_length if units.long_length == FOOT else units.long_length
    rows = [row for plan in plans for row in _plan_rows(plan, rolls, unit)]
    return table_of(ROLL_PLAN, rows, nothing="no rolls", units=dict.fromkeys(_LENGTHS, unit))


def _plan_rows(plan: RollPlan, rolls: Mapping[str, Roll], unit: Unit) -> Iterator[Row]:
    """Rows of one plan; what is said of the plan stands in the first."""
    roll = rolls.get(plan.item)
    shared = {
        "Phase": text(plan.phase, wrap=True),
        "Item": text(plan.item, wrap=True),
        "Description": text(roll.description if roll else "", wrap=True),
    }
    about: Row = {
        "Rolls": count(plan.rolls),
        "Bound": count(plan.lower_bound),
        "Basis": text(plan.basis, wrap=True),
    }
    for number, row in enumerate(_cut_rows(plan, roll, unit)):
        yield {**shared, **row, **(about if number == 0 else {})}


def _cut_rows(plan: RollPlan, roll: Roll | None, unit: Unit) -> Iterator[Row]:
    """Go through the rolls in order, those left over from earlier phases first."""
    kept = {(rest.phase, rest.roll) for rest in plan.leftovers}
    phases = list(dict.fromkeys(p.leftover_of for p in plan.placed if p.leftover_of))
    ordered = sorted(
        plan.placed,
        key=lambda p: (
            phases.index(p.leftover_of) if p.leftover_of else len(phases),
            p.roll,
            p.position_mm320,
            p.across_mm320,
        ),
    )
    rolls = [list(held) for _, held in groupby(ordered, key=lambda p: (p.leftover_of, p.roll))]
    for held in _with_whole_boards_together(rolls, roll):
        for first, last in held:
            yield _strip_row(first, last, plan, roll, unit)
        if roll is not None and not plan.by_length:
            of = held[-1][0]
            is_kept = (of.leftover_of or plan.phase, of.roll) in kept
            yield from _rest_row(held, roll, unit, is_kept=is_kept)


_Run: TypeAlias = tuple[PlacedStrip, PlacedStrip]
"""First and last of pieces that are told of in one row: whole boards for one place."""


def _with_whole_boards_together(
    rolls: Iterable[list[PlacedStrip]], roll: Roll | None
) -> Iterator[list[_Run]]:
    """Put whole boards that follow each other for one room into one row, others one a row."""
    run: list[PlacedStrip] = []
    for held in rolls:
        if roll is not None and _is_whole(held, roll):
            if run and not _continues(run[-1], held[0]):
                yield [(run[0], run[-1])]
                run = []
            run.append(held[0])
            continue
        if run:
            yield [(run[0], run[-1])]
            run = []
        yield [(placed, placed) for placed in held]
    if run:
        yield [(run[0], run[-1])]


def _is_whole(held: Sequence[PlacedStrip], roll: Roll) -> bool:
    size = roll.length_mm320, roll.width_mm320
    boards = roll.kind not in {RollKind.UNDERLAY_ROLL, RollKind.WATERPROOFING_SHEET, RollKind.BAND}
    return boards and len(held) == 1 and _size(held[0].strip) == size


def _size(strip: Strip) -> tuple[int, int]:
    return strip.length_mm320, strip.width_mm320


def _continues(before: PlacedStrip, after: PlacedStrip) -> bool:
    one, other = before.strip, after.strip
    return (
        after.roll == before.roll + 1
        and (one.room, one.surface, one.turned) == (other.room, other.surface, other.turned)
        and before.leftover_of == after.leftover_of
    )


def _strip_row(
    first: PlacedStrip, last: PlacedStrip, plan: RollPlan, roll: Roll | None, unit: Unit
) -> Row:
    strip = first.strip
    several = last.roll > first.roll
    boards = last.roll - first.roll + 1
    piece = f"{boards} whole" if several else strip.piece
    beside = first.across_mm320 + strip.width_mm320
    edges = first.across_mm320 == 0, roll is not None and beside == roll.width_mm320
    return {
        "Roll": text(f"{first.roll} to {last.roll}") if several else count(first.roll),
        "From": length(first.position_mm320, unit),
        "To": length(first.position_mm320 + strip.length_mm320, unit),
        "Across": length(first.across_mm320, unit),
        "Length": length(strip.length_mm320, unit),
        "Width": length(strip.width_mm320, unit),
        "Room": text(strip.room, wrap=True),
        "Piece": text(f"{strip.surface}: {piece}" if strip.surface else piece, wrap=True),
        "Laid": text("" if plan.by_length else _laid(strip)),
        "Kept edge": text(_EDGES[edges]),
        "Leftover of": text(first.leftover_of, wrap=True),
    }


def _laid(strip: Strip) -> str:
    """Which way the length of the strip runs, seen from the doorway or facing the wall."""
    if strip.piece.startswith("upturn"):
        return "up the walls"
    if strip.surface.split(" ")[0] in {"floor", "shower", "inset"}:
        return "away from the door" if strip.turned else "left to right"
    return "upright" if strip.turned else "left to right"


def _rest_row(held: Sequence[_Run], roll: Roll, unit: Unit, *, is_kept: bool) -> Iterator[Row]:
    """Tell what is left of a roll after its last strip, where anything is."""
    first = held[-1][0]
    end = max(p.position_mm320 + p.strip.length_mm320 for p, _ in held)
    rest = roll.length_mm320 - end
    if rest <= 0:
        return
    yield {
        "Roll": count(first.roll),
        "From": length(end, unit),
        "To": length(roll.length_mm320, unit),
        "Across": length(0, unit),
        "Length": length(rest, unit),
        "Width": length(roll.width_mm320, unit),
        "Piece": text("rest, long enough to keep" if is_kept else "rest, too short to keep"),
        "Kept edge": text(_EDGES[True, True]),
        "Leftover of": text(first.leftover_of, wrap=True),
    }
