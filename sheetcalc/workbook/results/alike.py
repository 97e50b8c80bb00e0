"""Rooms that are set out alike, together."""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.room import Room
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut


class AlikeRooms(Struct, frozen=True):
    """Rooms with the same surfaces, set out and cut in the same way.

    Attributes
    ----------
    works
        One for each row of Rooms, in the order of the workbook.
    """

    works: tuple[RoomWork, ...]

    @property
    def first(self) -> RoomWork:
        """Work of the first of them."""
        return self.works[0]

    @property
    def count(self) -> int:
        """How many rooms there are."""
        return sum(work.room.count for work in self.works)

    @property
    def names(self) -> str:
        """Names of all of them; "" for a single room."""
        names = [name for work in self.works for name in _names(work.room)]
        return ", ".join(names) if self.count > 1 else ""


def _names(room: Room) -> tuple[str, ...]:
    if len(room.copies) == room.count:
        return room.copies
    return (f"{room.name} x {room.count}",)


def alike_rooms(works: Sequence[RoomWork]) -> tuple[AlikeRooms, ...]:
    """Put rooms together that have the same setting-out; in the order of the first of each."""
    groups: dict[tuple[str, str], list[tuple[_Outs, list[RoomWork]]]] = {}
    order: list[list[RoomWork]] = []
    for work in works:
        outs = _plain(work)
        known = groups.setdefault((work.room.shape, work.room.finish), [])
        group = next((members for theirs, members in known if theirs == outs), None)
        if group is None:
            group = []
            known.append((outs, group))
            order.append(group)
        group.append(work)
    return tuple(AlikeRooms(tuple(group)) for group in order)


_Outs = tuple[SettingOut, ...]


def _plain(work: RoomWork) -> _Outs:
    """Setting-outs without what tells alike rooms apart."""
    return tuple(replace(out, room="", findings=()) for out in work.setting_outs.values())
