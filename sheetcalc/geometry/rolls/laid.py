"""Rectangles of a roll or a board as they lie on a surface, and the strips that they are cut as."""

from collections.abc import Sequence

from msgspec import Struct

from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Room


class Laid(Struct, frozen=True):
    """A rectangle on the floor or wall, by its near left corner and its sizes [1/320 mm]."""

    left: int
    front: int
    along_left: int
    along_front: int


def as_strips(  # noqa: PLR0913 - what is cut from what, for what, each by its name
    laid: Sequence[tuple[Laid, bool]],
    *,
    item: str,
    room: Room,
    surface: str,
    piece: str,
    noun: str,
) -> tuple[Strip, ...]:
    """Cut a strip for each rectangle, numbered where there are several.

    Parameters
    ----------
    laid
        In cutting order; whether the length of the roll or board runs along front.
    item, room, surface
        What they are cut from, and for which surface of which room.
    piece, noun
        What they are together, and what one of them is, such as ``strip``.
    """
    return tuple(
        Strip(
            item=item,
            phase=room.phase or "",
            room=room.name,
            surface=surface,
            piece=f"{piece}, {noun} {number} of {len(laid)}" if len(laid) > 1 else piece,
            length_mm320=one.along_front if turned else one.along_left,
            width_mm320=one.along_left if turned else one.along_front,
            left_mm320=one.left,
            front_mm320=one.front,
            turned=turned,
        )
        for number, (one, turned) in enumerate(laid, 1)
    )
