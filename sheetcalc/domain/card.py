"""Room cards: pictures with their places, as they go from the drawings to the sheet."""

from collections.abc import Mapping
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.finish import SurfaceKind
from sheetcalc.domain.room_work import RoomWork
from sheetcalc.domain.setting_out import SettingOut

CARD_WIDTH_MM = 186.0
"""Width that a card takes on paper; an A4 print with margins of 10 mm has 189 mm."""


class CardPicture(Struct, frozen=True):
    """A picture on a card.

    Attributes
    ----------
    png
        The file.
    description
        Alternative text: in words what it shows.
    left_mm, top_mm
        Its near top corner from that of the space left for drawings [mm].
    width_mm, height_mm
        Its size on paper [mm].
    """

    png: bytes
    description: str
    left_mm: float
    top_mm: float
    width_mm: float
    height_mm: float


CardPictures: TypeAlias = Mapping[str, tuple[CardPicture, ...]]
"""Pictures by the name of the row of Rooms that they stand for."""

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which read as figures."""

_FLOORS = (SurfaceKind.FLOOR, SurfaceKind.INSET, SurfaceKind.SHOWER_FLOOR)
_ON_WALLS = ("wall ", "wet area ")


def drawn_surfaces(work: RoomWork) -> dict[str, str]:
    """Surfaces of a room, all of which its card draws, with the letter that each has there.

    Parameters
    ----------
    work
        A room with its setting-outs.

    Returns
    -------
    dict
        Letter by key of the surface: floors first, then walls, then what is small, in the order
        of the room.
    """
    outs = work.setting_outs.values()
    small = [o for o in outs if is_small(o)]
    walls = [o for o in outs if o.surface.startswith(_ON_WALLS)]
    floors = [o for o in outs if not is_small(o) and not o.surface.startswith(_ON_WALLS)]
    return {out.surface: _letter(at) for at, out in enumerate((*floors, *walls, *small))}


def is_small(out: SettingOut) -> bool:
    """Whether a surface is a part of a curb, a niche or a reveal, or a base course.

    They share a drawing, and a paragraph on the card.
    """
    return not (out.kind in _FLOORS or out.surface.startswith(_ON_WALLS))


def _letter(number: int) -> str:
    rounds, at = divmod(number, len(_LETTERS))
    return (_LETTERS[rounds - 1] if rounds else "") + _LETTERS[at]
