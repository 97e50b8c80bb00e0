"""Rooms that come to the same lines: these are worked out once, and told of each room."""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.finding import IN_ROOMS, Finding, RowRef
from sheetcalc.domain.quantity import QuantityLine
from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork


class Kinds(Struct, frozen=True):
    """Rooms put together by kind.

    Attributes
    ----------
    firsts
        The first room of each kind.
    of
        Number of each room's kind; kinds are numbered as they come up.
    """

    firsts: tuple[RoomWork, ...]
    of: tuple[int, ...]


def kinds_of(works: Sequence[RoomWork]) -> Kinds:
    """Put rooms together that differ in nothing but names, phase, and row of the workbook.

    Parameters
    ----------
    works
        Rooms with their plans.
    """
    firsts: list[RoomWork] = []
    of: list[int] = []
    known: dict[tuple[str, str, int], list[tuple[RoomWork, int]]] = {}
    for work in works:
        room, mine = work.room, _unnamed(work)
        maybe = known.setdefault((room.shape, room.finish, room.count), [])
        kind = next((number for theirs, number in maybe if theirs == mine), None)
        if kind is None:
            kind = len(firsts)
            firsts.append(work)
            maybe.append((mine, kind))
        of.append(kind)
    return Kinds(tuple(firsts), tuple(of))


def _unnamed(work: RoomWork) -> RoomWork:
    """All that lines are worked from, without what only says which room it is."""
    room = work.room
    surfaces = tuple(
        replace(s, source=IN_ROOMS) if s.source == room.source else s for s in room.surfaces
    )
    return RoomWork(
        room=replace(
            room, name="", phase=None, copies=(), note="", source=IN_ROOMS, surfaces=surfaces
        ),
        setting_outs={key: replace(out, room="") for key, out in work.setting_outs.items()},
        strips=tuple(replace(strip, room="", phase="") for strip in work.strips),
        cables=_unnamed_cables(work.cables),
        stock=work.stock,
    )


def _unnamed_cables(cables: Sequence[CablePlan]) -> tuple[CablePlan, ...]:
    """Cables of a room on circuits that are numbered within the room."""
    numbers: dict[str, str] = {}
    return tuple(
        replace(
            cable,
            room="",
            copies=(),
            phase="",
            source=IN_ROOMS,
            circuit=numbers.setdefault(cable.circuit, str(len(numbers))),
            circuits=tuple(replace(c, name="") for c in cable.circuits),
        )
        for cable in cables
    )


def told_of(
    room: Room, first: Room, lines: Sequence[QuantityLine], findings: Sequence[Finding]
) -> tuple[tuple[QuantityLine, ...], tuple[Finding, ...]]:
    """Turn lines and findings of the first room of a kind into those of another."""
    name, phase = room.name, room.phase or ""

    def source(given: RowRef) -> RowRef:
        return room.source if given == first.source else given

    return (
        tuple(replace(line, room=name, phase=phase, source=source(line.source)) for line in lines),
        tuple(
            # what a finish or the catalogue says is no room's
            replace(f, room=name if f.room else "", source=source(f.source))
            for f in findings
        ),
    )
