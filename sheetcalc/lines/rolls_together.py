"""Rolls of several workbooks planned afresh over all their rooms, one building's rest in the next.

Items that the buildings have alike, row for row, are cut together, phases of all buildings in the
order of their start.  A new plan is taken where it costs less than the buildings' own plans; where
it does not, or rows or settings differ, their own plans stand.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Final

from msgspec import Struct
from msgspec.structs import force_setattr, replace

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.finding import NOWHERE
from sheetcalc.domain.finish import codes_named
from sheetcalc.domain.inputs import Inputs, Phase
from sheetcalc.domain.job import Job
from sheetcalc.domain.rolls import RollPlan, RollsToOpen, Strip
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.roll_plans import phases_in_order, plan_job_rolls
from sheetcalc.lines.strips import strips_needed

_SEPARATOR: Final = ", "


class BuildingRolls(Struct, frozen=True):
    """One workbook: what it is called, its rooms, and the rolls that it opens by itself."""

    name: str
    inputs: Inputs
    works: Sequence[RoomWork]
    plans: Sequence[RollPlan]

    def stage(self, phase: str) -> str:
        """Name of a phase among those of all buildings."""
        return f"{self.name}{_SEPARATOR}{phase}" if phase else self.name

    @property
    def opened(self) -> Counter[tuple[str, str]]:
        """Rolls that its own plans open, by item and phase."""
        own: Counter[tuple[str, str]] = Counter()
        for plan in self.plans:
            if not plan.by_length:
                own[plan.item, plan.phase] += plan.rolls
        return own


class RollsTogether(Struct, frozen=True):
    """What planning afresh gives.

    Attributes
    ----------
    plans
        Of the items that are cut together, in cutting order; their phases and rooms carry the
        building's name.
    opened
        Of each building, the rolls that are opened for it: of the new plans for items that are
        cut together, else of its own.
    rolls
        Rows of the items that are cut together.
    """

    plans: tuple[RollPlan, ...]
    opened: Mapping[str, RollsToOpen]
    rolls: Mapping[str, Roll]


def plan_together(buildings: Sequence[BuildingRolls]) -> RollsTogether:
    """Plan the rolls, mats and boards of several buildings over all their rooms.

    Parameters
    ----------
    buildings
        Each with a name of its own.
    """
    opened = {b.name: b.opened for b in buildings}
    plans: list[RollPlan] = []
    rolls: dict[str, Roll] = {}
    if len(buildings) > 1 and len({_settings(b.inputs.job) for b in buildings}) == 1:
        every = [_Share(b, _strips_of(b)) for b in buildings]
        for codes in _components(every):
            found = _planned(every, codes)
            if found is not None:
                plans += found.plans
                rolls |= found.rolls
                for name, now in found.opened.items():
                    own = opened[name]
                    for key in [key for key in own if key[0] in codes]:
                        del own[key]
                    own.update(now)
    return RollsTogether(tuple(plans), opened, rolls)


class _Share(Struct, frozen=True):
    """A building with the strips of each of its rows of rooms, in every way to cover them."""

    building: BuildingRolls
    strips: Sequence[tuple[RoomWork, tuple[Strip, ...]]]
    codes: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        """Note the items that its strips may be cut from."""
        found = {c for _, strips in self.strips for s in strips for c in _codes(s)}
        force_setattr(self, "codes", frozenset(found))


def _codes(strip: Strip) -> tuple[str, ...]:
    return codes_named(strip.pool) if strip.pool else (strip.item,)


def _settings(job: Job) -> tuple[object, ...]:
    """List the settings of the Job that say how rolls are planned."""
    return (
        job.rolls_shared, job.useful_leftover_mm320, job.long_strips, job.lined_up,
        job.roll_solver, job.kerf_mm320, job.currency,
    )  # fmt: skip


def _strips_of(building: BuildingRolls) -> list[tuple[RoomWork, tuple[Strip, ...]]]:
    """Work out the strips of every way to cover the rooms: a run keeps those of one way."""
    inputs = building.inputs
    found = []
    for work in building.works:
        finish = inputs.finishes[work.room.finish]
        fresh = replace(work, strips=(), stock=())
        ctx = LineContext(inputs.job, finish, inputs.catalogue, fresh, finishes=inputs.finishes)
        found.append((work, strips_needed(ctx)))
    return found


def _components(every: Sequence[_Share]) -> list[frozenset[str]]:
    """Items that two buildings have alike; those that are named together stay together."""
    groups: list[frozenset[str]] = []
    for share in every:
        for _, strips in share.strips:
            for strip in strips:
                group = frozenset(_codes(strip))
                if group in groups:
                    continue
                touched = [g for g in groups if g & group]
                groups = [g for g in groups if not g & group]
                groups.append(group.union(*touched))
    return [g for g in groups if sum(bool(s.codes & g) for s in every) > 1 and _alike(every, g)]


def _alike(every: Sequence[_Share], codes: Iterable[str]) -> bool:
    """Whether all buildings that may cut from an item have the same row for it."""
    for code in codes:
        rows = {
            replace(s.building.inputs.catalogue.rolls[code], source=NOWHERE)
            for s in every if code in s.codes
        }  # fmt: skip
        if len(rows) > 1:
            return False
    return True


class _Found(Struct, frozen=True):
    plans: tuple[RollPlan, ...]
    opened: Mapping[str, Counter[tuple[str, str]]]
    rolls: Mapping[str, Roll]


def _planned(every: Sequence[_Share], codes: frozenset[str]) -> _Found | None:
    """Plan some items over all buildings; None where their own plans do as well."""
    rolls = {c: s.building.inputs.catalogue.rolls[c] for s in every for c in s.codes & codes}
    phases: dict[str, Phase] = {}
    works: list[RoomWork] = []
    places: dict[str, tuple[str, str]] = {}
    for share in every:
        building = share.building
        names = dict.fromkeys(
            ["", *building.inputs.phases, *(w.room.phase or "" for w, _ in share.strips)]
        )
        for phase in phases_in_order(building.inputs, names):
            stage = building.stage(phase)
            places[stage] = building.name, phase
            phases[stage] = Phase(stage, _start(building, phase), "", "", NOWHERE)
        works += _as_one(share, codes)
    first = every[0].building.inputs
    inputs = replace(first, phases=phases, catalogue=replace(first.catalogue, rolls=rolls))
    plans = plan_job_rolls(inputs, works).plans
    opened: dict[str, Counter[tuple[str, str]]] = {s.building.name: Counter() for s in every}
    for plan in plans:
        name, phase = places[plan.phase]
        opened[name][plan.item, phase] += plan.rolls
    own = [(s.building.name, s.building.opened) for s in every]
    for name, apart in own:
        bought = {item for (item, _), count in apart.items() if count}
        # a building that buys none of an item by itself has no line for it to be ordered on
        if any(count and item not in bought for (item, _), count in opened[name].items()):
            return None
    before = _cost((apart for _, apart in own), codes, rolls)
    return _Found(plans, opened, rolls) if _cost(opened.values(), codes, rolls) < before else None


def _start(building: BuildingRolls, phase: str) -> date | None:
    """Start of a phase; what belongs to none is needed with the building's first."""
    if phase:
        listed = building.inputs.phases.get(phase)
        return listed.start if listed else None
    return min((p.start for p in building.inputs.phases.values() if p.start), default=None)


def _as_one(share: _Share, codes: frozenset[str]) -> list[RoomWork]:
    """Rooms of a building among those of all, with the strips that some items may serve."""
    building, works = share.building, []
    for work, strips in share.strips:
        room, stage = work.room, building.stage(work.room.phase or "")
        copies = tuple(f"{building.name}{_SEPARATOR}{name}" for name in room.names)
        named = replace(room, name=copies[0], copies=copies, phase=stage)
        own = (
            replace(s, phase=stage, room=named.name) for s in strips if codes.issuperset(_codes(s))
        )
        works.append(replace(work, room=named, strips=tuple(own), stock=()))
    return works


def _cost(
    opened: Iterable[Counter[tuple[str, str]]], codes: frozenset[str], rolls: Mapping[str, Roll]
) -> tuple[Decimal, int]:
    """Price of rolls, then their area; by area alone where one has no price."""
    total, area = Decimal(0), 0
    for own in opened:
        for (item, _), count in own.items():
            if item in codes:
                roll = rolls[item]
                total += count * (roll.price or 0)
                area += count * roll.length_mm320 * roll.width_mm320
    return (total if all(rolls[c].price is not None for c in codes) else Decimal(0)), area
