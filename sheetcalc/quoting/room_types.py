"""Rooms alike, put together for the quote."""

from collections.abc import Mapping, Sequence

from sheetcalc.domain.inputs import Inputs
from sheetcalc.domain.quote import RoomType
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.lines.labour import RoomLabour


def room_types(
    inputs: Inputs, works: Sequence[RoomWork], labour: Mapping[str, RoomLabour]
) -> tuple[RoomType, ...]:
    """Rooms alike, put together: one description and finish, of either hand.

    Rooms are alike that take their description from one row, and those whose own descriptions
    are the same; the same finish, and the same taken up.
    """
    roots = _roots(inputs)
    place_of: dict[tuple[object, ...], int] = {}
    alike: list[list[RoomWork]] = []
    for work in works:
        room = work.room
        same = (room.finish, room.take_up, room.take_up_thickness_mm320)
        keys = (("root", roots.get(room.name, room.name), *same), ("shape", room.shape, *same))
        place = next((place_of[key] for key in keys if key in place_of), len(alike))
        if place == len(alike):
            alike.append([])
        alike[place].append(work)
        place_of |= {key: place for key in keys if key not in place_of}
    return tuple(_type(number, rooms, labour) for number, rooms in enumerate(alike, 1))


def _roots(inputs: Inputs) -> dict[str, str]:
    """Room -> the room at the end of its chain of Same as."""
    named = {same_name(room.name): room for room in inputs.rooms}
    roots: dict[str, str] = {}
    for room in inputs.rooms:
        here, passed = room, {same_name(room.name)}
        while here.same_as is not None:
            there = same_name(here.same_as)
            if there not in named or there in passed:
                break
            here = named[there]
            passed.add(there)
        roots[room.name] = here.name
    return roots


def same_name(name: str) -> str:
    """Form in which names are compared: without case and surplus spaces."""
    return " ".join(name.split()).casefold()


def _type(number: int, works: Sequence[RoomWork], labour: Mapping[str, RoomLabour]) -> RoomType:
    first = works[0].room
    rooms = [work.room for work in works]
    return RoomType(
        number=number,
        name=first.name,
        finish=first.finish,
        rooms=tuple(room.name for room in rooms),
        copies=tuple(copy for room in rooms for copy in room.copies),
        count=sum(room.count for room in rooms),
        tiled_m2=sum(
            labour[room.name].tiled_m2 * room.count for room in rooms if room.name in labour
        ),
    )
