"""Setting-out, heating and strips of every room; rooms that are alike are planned once."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import Final

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.catalogue import Catalogue
from sheetcalc.domain.finding import Finding
from sheetcalc.domain.finish import Finish, SurfaceKind
from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.job import Job
from sheetcalc.domain.progress import Progress
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut
from sheetcalc.domain.spread import Spread
from sheetcalc.geometry.heating.room_heating import plan_heating
from sheetcalc.geometry.rooms.base_course import with_base_course
from sheetcalc.geometry.rooms.through_rooms import ThroughFloors
from sheetcalc.geometry.setting_out.fields import Field, TiledRoom, tiled_room
from sheetcalc.geometry.setting_out.known import Known
from sheetcalc.geometry.setting_out.room import set_out_field, set_out_room
from sheetcalc.lines.line import LineContext
from sheetcalc.lines.strips import strips_needed

_KINDS_WORTH_SHARING: Final = 100
"""Fewer kinds of rooms have too little in common to start processes for."""


class _Kind(Struct, frozen=True):
    """The first of several alike rooms, its finish, and its floor where that is given."""

    room: Room
    tiled: TiledRoom
    finish: Finish
    floor: SettingOut | None

    @property
    def given(self) -> dict[str, SettingOut]:
        """Setting-outs that were found before."""
        return {"floor": self.floor} if self.floor else {}


class _Plan(Struct, frozen=True):
    """What was planned for a kind of room."""

    setting_outs: dict[str, SettingOut]
    strips: tuple[Strip, ...]
    cables: tuple[CablePlan, ...]
    heating_findings: tuple[Finding, ...]


def plan_rooms(
    inputs: Inputs, rooms: Sequence[Room], through: ThroughFloors, step: Progress, spread: Spread
) -> tuple[list[RoomWork], list[Finding]]:
    """Plan every room that has a finish.

    Parameters
    ----------
    inputs
        What the workbook says; a finish that is missing has been reported by the reader.
    rooms
        Resolved.
    through
        Floors that run through doorways.
    step
        Told of progress, kind by kind.
    spread
        Where the kinds are planned.

    Returns
    -------
    tuple
        Rooms with their plans in the order given, and what was found.
    """
    kinds: dict[tuple[str, ...], _Kind] = {}
    wanted: list[tuple[Room, tuple[str, ...]]] = []
    for bare in rooms:
        finish = inputs.finishes.get(bare.finish)
        if finish is None:
            continue
        room = _with_base_course(bare, finish, inputs.catalogue)
        like = (room.shape, room.finish, through.alike.get(room.name, ""))
        if like not in kinds:
            tiled = _tiled(room, finish, inputs.catalogue)
            kinds[like] = _Kind(room, tiled, finish, through.floors.get(room.name))
        wanted.append((room, like))
    plans: dict[tuple[str, ...], _Plan] = {}
    known = _in_common(list(kinds.values()), inputs.job, spread)
    work = _KindPlanner(inputs.job, inputs.finishes, inputs.catalogue, known)
    for key, plan in zip(kinds, spread(work, list(kinds.values())), strict=True):
        plans[key] = plan
        step("rooms", len(plans), len(kinds))
    works, findings = [], []
    for room, kind in wanted:
        planned, found = _of_room(room, plans[kind])
        works.append(planned)
        findings += found
    return works, findings


def _with_base_course(room: Room, finish: Finish, catalogue: Catalogue) -> Room:
    base = finish.surfaces.get(SurfaceKind.BASE)
    tile = catalogue.tiles.get(base.tile) if base and base.tile else None
    return with_base_course(room, tile) if tile else room


def _tiled(room: Room, finish: Finish, catalogue: Catalogue) -> TiledRoom:
    tiles, walls = catalogue.tiles, room.walls
    return tiled_room(room.name, room.surfaces, finish, tiles, walls=walls, handed=room.handed)


def _in_common(kinds: Sequence[_Kind], job: Job, spread: Spread) -> Known:
    """Set out what several of many kinds have, so that no two processes do it both."""
    known = Known()
    if len(kinds) < _KINDS_WORTH_SHARING:
        return known
    fields: defaultdict[Hashable, list[Field]] = defaultdict(list)
    for kind in kinds:
        for field, leading in kind.tiled.in_order():
            free = leading is None and not field.keeps_to_floor
            if free and field.first.key not in kind.given:
                fields[field.like()].append(field)
    shared = {like: several[0] for like, several in fields.items() if len(several) > 1}
    laid = spread(partial(_set_out_each, job), list(shared.values()))
    for like, outs in zip(shared, laid, strict=True):
        known.surfaces(like, partial(tuple, outs))
    return known


def _set_out_each(job: Job, fields: Iterable[Field]) -> Iterator[list[SettingOut]]:
    return (set_out_field(field, job) for field in fields)


class _KindPlanner:
    """Plans kinds of rooms; a process that plans several shares of them knows what was alike."""

    def __init__(
        self, job: Job, finishes: Mapping[str, Finish], catalogue: Catalogue, known: Known
    ) -> None:
        self._job = job
        self._finishes = finishes
        self._catalogue = catalogue
        self._known = known

    def __call__(self, kinds: Sequence[_Kind]) -> Iterator[_Plan]:
        job, catalogue = self._job, self._catalogue
        for kind in kinds:
            room = kind.room
            setting_outs = set_out_room(kind.tiled, job, given=kind.given, known=self._known)
            heated = plan_heating(room, kind.finish, catalogue, job)
            work = RoomWork(room, setting_outs)
            context = LineContext(job, kind.finish, catalogue, work, finishes=self._finishes)
            yield _Plan(setting_outs, strips_needed(context), *heated)


def _of_room(room: Room, plan: _Plan) -> tuple[RoomWork, list[Finding]]:
    """Give a room what was planned for its kind."""
    setting_outs = {key: replace(out, room=room.name) for key, out in plan.setting_outs.items()}
    found = [_said_of(f, room) for out in setting_outs.values() for f in out.findings]
    # what a catalogue row says is no room's, and is said once
    found += [_said_of(f, room) if f.room else f for f in plan.heating_findings]
    # a row that counts rooms without naming them has a circuit and a log for each all the same
    cables = tuple(
        replace(
            cable, room=room.name, copies=room.names, phase=room.phase or "", source=room.source
        )
        for cable in plan.cables
    )
    phase = room.phase or ""
    strips = tuple(replace(strip, room=room.name, phase=phase) for strip in plan.strips)
    return RoomWork(room, setting_outs, strips, cables), found


def _said_of(finding: Finding, room: Room) -> Finding:
    """Turn a finding of the first of several alike rooms into one of this room."""
    source = room.source if finding.source.tab == room.source.tab else finding.source
    return replace(finding, room=room.name, source=source)
