"""A room with everything that is planned for it."""

from collections.abc import Mapping

from msgspec import Struct, field

from sheetcalc.domain.cable import CablePlan
from sheetcalc.domain.rolls import StockShare, Strip
from sheetcalc.domain.room import Room
from sheetcalc.domain.setting_out import SettingOut


class RoomWork(Struct, frozen=True):
    """A room with its plans: what a line of the takeoff is worked from.

    ``strips`` are those of one room, of the items that the roll plan chose; ``stock`` tells how
    they were shared out where a build-up names several items.
    """

    room: Room
    setting_outs: Mapping[str, SettingOut] = field(default_factory=dict)
    strips: tuple[Strip, ...] = ()
    cables: tuple[CablePlan, ...] = ()
    stock: tuple[StockShare, ...] = ()
