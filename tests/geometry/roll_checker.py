"""Replays roll plans strip by strip, and bounds them by linear programming."""

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import ceil, gcd

import numpy as np
import shapely
from msgspec.structs import replace
from scipy.optimize import linprog

from sheetcalc.domain.catalogue import Roll, RollKind
from sheetcalc.domain.finding import NOWHERE, Finding
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import Leftover, PlacedStrip, RollPlan, Strip
from sheetcalc.geometry.rolls.rolls import SAWN, plan_stock
from sheetcalc.geometry.rolls.strips import as_laid

_JOB = Job()


def roll_of(
    width: int,
    *,
    length: int = 20_000,
    overlap: int = 0,
    pitch: int | None = None,
    one_way: bool = False,
) -> Roll:
    """Build a roll; sizes in mm."""
    return Roll(
        "U", None, None, "underlay", RollKind.UNDERLAY_ROLL, width * 320, length * 320, None,
        overlap * 320, pitch * 320 if pitch else None, None, one_way, "roll", None, None, None,
        NOWHERE,
    )  # fmt: skip


def plan_rolls(
    strips: Sequence[Strip],
    roll: Roll,
    phase: str,
    job: Job,
    leftovers: Sequence[Leftover] = (),
) -> tuple[RollPlan, tuple[Finding, ...]]:
    """Plan how the rolls of a single item are cut."""
    (plan,), findings = plan_stock(strips, (roll,), phase, job, {roll.code: leftovers})
    return plan, findings


def check_plan(
    plan: RollPlan,
    wanted: Sequence[Strip],
    roll: Roll,
    leftovers: Sequence[Leftover] = (),
    job: Job = _JOB,
) -> None:
    """Cut a plan: every strip once, inside its roll, apart from all others, by straight cuts."""
    laid = as_laid(roll, job)
    kerf = job.kerf_mm320 if roll.kind in SAWN else 0
    check_strips(plan, wanted, laid)
    rests = {(rest.phase, rest.roll): rest for rest in leftovers}
    by_roll: dict[tuple[str, int], list[PlacedStrip]] = {}
    for placed in plan.placed:
        rest = rests.get((placed.leftover_of, placed.roll)) if placed.leftover_of else None
        assert rest or not placed.leftover_of
        begin = rest.position_mm320 if rest else 0
        end = rest.position_mm320 + rest.length_mm320 if rest else roll.length_mm320
        assert begin <= placed.position_mm320
        assert placed.position_mm320 + placed.strip.length_mm320 <= end
        assert placed.across_mm320 >= 0
        assert placed.across_mm320 + placed.strip.width_mm320 <= roll.width_mm320
        if laid.one_way and laid.knob_pitch_mm320:  # offsets in whole pitches, both ways
            assert placed.across_mm320 % laid.knob_pitch_mm320 == 0
            assert (placed.position_mm320 - begin) % laid.knob_pitch_mm320 == 0
        by_roll.setdefault((placed.leftover_of, placed.roll), []).append(placed)
    assert {n for phase, n in by_roll if not phase} == set(range(1, plan.rolls + 1))
    for strips in by_roll.values():
        assert can_be_cut([_box(p) for p in strips], kerf)
    assert plan.rolls >= plan.lower_bound
    check_leftovers(plan, roll, by_roll, rests, job)


def check_strips(plan: RollPlan, wanted: Sequence[Strip], roll: Roll) -> None:
    """Every strip once; of those longer than the roll the parts, which lap as the roll says."""
    cut = [replace(p.strip, item=roll.code, pool="") for p in plan.placed]
    plain = [replace(s, item=roll.code, pool="") for s in wanted]
    whole = [s for s in plain if s.length_mm320 <= roll.length_mm320 and ", part " not in s.piece]
    parts = [s for s in cut if ", part " in s.piece]
    assert Counter(s for s in cut if ", part " not in s.piece) == Counter(whole)
    for strip in plain:
        if strip.length_mm320 <= roll.length_mm320:
            continue
        own = [
            s for s in parts
            if s.room == strip.room and s.piece.startswith(f"{strip.piece}, part ")
        ]  # fmt: skip
        ends = sorted(
            (begin, begin + s.length_mm320)
            for s in own
            if (begin := s.front_mm320 if s.turned else s.left_mm320) is not None
        )
        start = strip.front_mm320 if strip.turned else strip.left_mm320
        assert (ends[0][0], max(end for _, end in ends)) == (start, start + strip.length_mm320)
        for (_, end), (begin, _) in pairwise(ends):
            assert end - begin >= roll.overlap_mm320


def check_leftovers(
    plan: RollPlan,
    roll: Roll,
    by_roll: Mapping[tuple[str, int], Sequence[PlacedStrip]],
    before: Mapping[tuple[str, int], Leftover],
    job: Job,
) -> None:
    """Rests lie behind what is cut, to the end of the roll, and are worth keeping."""
    for rest in plan.leftovers:
        own = rest.phase == plan.phase and (rest.phase, rest.roll) not in before
        cut = by_roll.get(("" if own else rest.phase, rest.roll), ())
        used = max((p.position_mm320 + p.strip.length_mm320 for p in cut), default=0)
        assert rest.position_mm320 >= used
        assert rest.position_mm320 + rest.length_mm320 == roll.length_mm320
        assert rest.length_mm320 >= job.useful_leftover_mm320


def _box(placed: PlacedStrip) -> tuple[int, int, int, int]:
    x, y = placed.position_mm320, placed.across_mm320
    return x, y, x + placed.strip.length_mm320, y + placed.strip.width_mm320


def can_be_cut(boxes: list[tuple[int, int, int, int]], kerf: int = 0) -> bool:
    """Whether straight cuts from edge to edge part the strips: across, then along, then across."""
    for axis in (0, 1, 0):
        groups = _parted(boxes, axis, kerf)
        if len(groups) > 1:
            return all(can_be_cut(group, kerf) for group in groups)
    return len(boxes) == 1


def _parted(
    boxes: list[tuple[int, int, int, int]], axis: int, kerf: int
) -> list[list[tuple[int, int, int, int]]]:
    groups: list[list[tuple[int, int, int, int]]] = []
    reach = -1
    for box in sorted(boxes, key=lambda b: (b[axis], b[axis + 2])):
        if not groups or box[axis] >= reach + kerf:
            groups.append([])
        groups[-1].append(box)
        reach = max(reach, box[axis + 2])
    return groups


def check_cover(strips: Sequence[Strip], region: shapely.Geometry, roll: Roll) -> None:
    """Lay strips on the floor: all of it is covered, and neighbours lap by the roll's overlap.

    Where strips lap, they still meet when each is thinned by half the lap on both sides; only the
    floor's outermost half lap is then bare.  Strips that reach over from another part of the
    floor change nothing.
    """
    assert all(s.width_mm320 <= roll.width_mm320 for s in strips)
    assert region.difference(_laid(strips)).area <= 320**2
    assert len({s.turned for s in strips}) <= len(getattr(region, "geoms", [region]))
    half = roll.overlap_mm320 / 2
    inner = shapely.buffer(region, -half, join_style="mitre")
    assert inner.difference(_laid(strips, thinned=half)).area <= 1


def _laid(strips: Sequence[Strip], *, thinned: float = 0) -> shapely.Geometry:
    """All that strips cover, each thinned on both of its long sides [1/320 mm]."""
    boxes = []
    for s in strips:
        x, y = s.left_mm320, s.front_mm320
        along, across = s.length_mm320, s.width_mm320
        if across <= 2 * thinned:
            continue
        if s.turned:
            boxes.append(shapely.box(x + thinned, y, x + across - thinned, y + along))
        else:
            boxes.append(shapely.box(x, y + thinned, x + along, y + across - thinned))
    return shapely.union_all(boxes)


def lp_bound(lengths: Sequence[int], stock: int, enough: int) -> int:
    """Fewest stock lengths by linear programming over all cutting patterns, rounded up.

    Where the lengths add up to ``enough`` stock lengths already, no programme is solved.

    Gilmore and Gomory 1961: columns are priced by a knapsack until none improves.
    """
    by_length = ceil(sum(lengths) / stock)
    if by_length >= enough:
        return by_length
    measure = gcd(stock, *lengths)
    demand = Counter(length // measure for length in lengths)
    sizes, room = sorted(demand, reverse=True), stock // measure
    columns = [[room // s if i == j else 0 for j in range(len(sizes))]
               for i, s in enumerate(sizes)]  # fmt: skip
    wanted = np.array([demand[s] for s in sizes], dtype=float)
    best = 0.0
    for _ in range(400):
        matrix = np.array(columns, dtype=float).T
        solved = linprog(np.ones(len(columns)), A_ub=-matrix, b_ub=-wanted, method="highs")
        prices = -solved.ineqlin.marginals
        value, pattern = _dearest_pattern(sizes, prices, room)
        best = max(best, solved.fun / value)  # Farley's bound holds at every step
        if ceil(best - 1e-9) >= ceil(solved.fun - 1e-9) or value <= 1 + 1e-9:
            break
        columns.append(pattern)
    return max(by_length, ceil(best - 1e-9))


def _dearest_pattern(
    sizes: Sequence[int], prices: np.ndarray, room: int
) -> tuple[float, list[int]]:
    widths = np.array(sizes)
    value = np.zeros(room + 1)
    taken = np.full(room + 1, -1)
    smallest = int(widths.min())
    for at in range(smallest, room + 1):
        gains = np.where(widths <= at, value[np.maximum(at - widths, 0)] + prices, 0.0)
        best = int(gains.argmax())
        value[at] = value[at - 1]
        if gains[best] > value[at] + 1e-12:
            value[at], taken[at] = gains[best], best
    pattern, at = [0] * len(sizes), room
    while at > 0:
        if taken[at] < 0:
            at -= 1
            continue
        pattern[taken[at]] += 1
        at -= sizes[taken[at]]
    return float(value[room]), pattern
