"""Roll plans of a whole job: phases in order of need, leftovers passed on, stock chosen by price.

The strips of every room that a row stands for are planned together, phase by phase.  Where a
build-up names several items, every way to cover the floor is planned and the cheapest kept.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.finding import Finding, RowRef
from sheetcalc.domain.finish import codes_named
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.measure import mm320_squared_to_m2
from sheetcalc.domain.rolls import Leftover, RollPlan, StockShare, Strip
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.geometry.rolls.roll_solver import solver_is_installed
from sheetcalc.geometry.rolls.rolls import plan_stock, strips_of_copies
from sheetcalc.lines.stock import ways


class PlannedRolls(Struct, frozen=True):
    """What the roll plan of a job gives.

    Attributes
    ----------
    works
        Rooms with the strips of the items that were chosen.
    plans
        In the order of the phases, then as the items come up in the rooms.
    findings
        About strips that were joined or can't be cut, and prices that are missing.
    """

    works: tuple[RoomWork, ...]
    plans: tuple[RollPlan, ...]
    findings: tuple[Finding, ...]


def plan_job_rolls(inputs: Inputs, works: Sequence[RoomWork]) -> PlannedRolls:
    """Plan the rolls, mats and boards of every phase over all its rooms, alike ones counted.

    Parameters
    ----------
    inputs
        Job, phases and catalogue.
    works
        Rooms with the strips that they need, of every way to cover them.
    """
    planner = _Planner(inputs)
    wanted: defaultdict[str, defaultdict[str, list[Strip]]] = defaultdict(lambda: defaultdict(list))
    for work in works:
        for strip in strips_of_copies(work.room, work.strips):
            wanted[strip.phase][strip.pool or strip.item].append(strip)
    for phase in phases_in_order(inputs, wanted):
        for strips in wanted[phase].values():
            planner.plan(phase, strips)
    findings = list(planner.findings)
    if inputs.job.roll_solver and not solver_is_installed():
        findings.append(Finding("SOLVER-NOT-INSTALLED", RowRef("Job")))
    return PlannedRolls(
        tuple(_with_stock(work, planner) for work in works), tuple(planner.plans), tuple(findings)
    )


def phases_in_order(inputs: Inputs, names: Iterable[str]) -> list[str]:
    """Phases in order of need: by Start, then as in the Phases tab; rooms without one first.

    What belongs to no phase is needed at the earliest start, so it is cut first.
    """
    listed = list(inputs.phases)

    def rank(name: str) -> tuple[bool, bool, date, int]:
        phase = inputs.phases.get(name)
        start = phase.start if phase else None
        place = listed.index(name) if name in inputs.phases else len(listed)
        return bool(name), start is None, start or date.max, place

    return sorted(names, key=rank)


class _Planner(Struct):
    """Plans phase after phase, and remembers what is left over of each item."""

    inputs: Inputs
    plans: list[RollPlan] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    leftovers: dict[str, Sequence[Leftover]] = field(default_factory=dict)
    chosen: dict[tuple[str, str], str] = field(default_factory=dict)
    areas: defaultdict[str, Counter[tuple[str, str, str]]] = field(
        default_factory=lambda: defaultdict(Counter)
    )

    def plan(self, phase: str, strips: Sequence[Strip]) -> None:
        """Plan the strips of one item, or of several named together, in one phase."""
        rolls, pool = self.inputs.catalogue.rolls, strips[0].pool
        if not pool:
            self._keep(self._of_way(phase, strips, (rolls[strips[0].item],)), "")
            return
        found = []
        for way in ways(self.inputs.catalogue, codes_named(pool)):
            standing = max(way, key=lambda roll: roll.length_mm320)
            own = [s for s in strips if s.item == standing.code]
            found.append((self._of_way(phase, own, way), standing))
        self._missing_prices(pool)
        best, standing = min(found, key=lambda pair: pair[0].rank)
        self.chosen[phase, pool] = standing.code
        others = [way for way, _ in found if way is not best]
        self._keep(best, _compared([best, *others], self.inputs.job.currency))
        for plan in best.plans:
            for p in plan.placed:
                area = p.strip.length_mm320 * p.strip.width_mm320
                self.areas[p.strip.room][p.strip.surface, pool, plan.item] += area

    def _of_way(self, phase: str, strips: Sequence[Strip], rolls: Sequence[Roll]) -> "_Way":
        plans, findings = plan_stock(strips, rolls, phase, self.inputs.job, self.leftovers)
        return _Way(plans, findings, {roll.code: roll for roll in rolls})

    def _keep(self, way: "_Way", words: str) -> None:
        for plan in way.plans:
            self.leftovers[plan.item] = plan.leftovers
            self.plans.append(replace(plan, basis=plan.basis + words))
        self.findings += way.findings

    def _missing_prices(self, pool: str) -> None:
        """Say once which of several items can't be priced against the others."""
        for code in codes_named(pool):
            roll = self.inputs.catalogue.rolls[code]
            facts = {"item": code, "items": pool}
            finding = Finding("STOCK-WITHOUT-PRICE", roll.source, "Price", facts)
            if roll.price is None and finding not in self.findings:
                self.findings.append(finding)


class _Way(Struct, frozen=True):
    """One way to cover the rooms of a phase: its plans, and what they cost."""

    plans: tuple[RollPlan, ...]
    findings: tuple[Finding, ...]
    rolls: dict[str, Roll]

    @property
    def cost(self) -> Decimal | None:
        """Price of the rolls; None where one has no price."""
        total = Decimal(0)
        for plan in self.plans:
            price = self.rolls[plan.item].price
            if price is None:
                return None
            total += plan.rolls * price
        return total

    @property
    def rank(self) -> tuple[bool, bool, Decimal, int]:
        """Ways that can be cut first, then priced ones by cost, then the least of material."""
        uncut = any(f.code != "STRIP-JOINED" for f in self.findings)
        area = sum(
            plan.rolls * self.rolls[plan.item].length_mm320 * self.rolls[plan.item].width_mm320
            for plan in self.plans
        )
        return uncut, self.cost is None, self.cost or Decimal(0), area

    @property
    def words(self) -> str:
        """Items and how many of each, in words."""
        new = [f"{plan.rolls} x {plan.item}" for plan in self.plans if plan.rolls]
        return " + ".join(new) or "leftovers"


def _compared(found: Sequence[_Way], currency: str) -> str:
    """Costs of the ways that were compared, the one taken first."""
    costs = [
        f"{way.words} at {way.cost:.2f} {currency}" if way.cost is not None
        else f"{way.words} without a price"
        for way in found
    ]  # fmt: skip
    if len(costs) == 1:
        return f"; cheapest mix found: {costs[0]}"
    return f"; taken as cheapest: {costs[0]}, against {', '.join(costs[1:])}"


def _with_stock(work: RoomWork, planner: _Planner) -> RoomWork:
    """Leave a room the strips that were chosen, with its share of each item."""
    if not any(s.pool for s in work.strips):
        return work
    phase = work.room.phase or ""
    kept = tuple(
        s for s in work.strips if not s.pool or planner.chosen.get((phase, s.pool)) == s.item
    )
    return replace(work, strips=kept, stock=tuple(_shares(work, planner)))


def _shares(work: RoomWork, planner: _Planner) -> Iterator[StockShare]:
    """Area of each item that the room takes, averaged over the rooms that its row stands for."""
    total: Counter[tuple[str, str, str]] = Counter()
    for name in work.room.names:
        total.update(planner.areas[name])
    for (surface, pool, item), area in total.items():
        each = mm320_squared_to_m2(area) / max(work.room.count, 1)
        yield StockShare(surface, pool, item, each)
