"""Boards and mats over a region: laid in a grid, both ways, the cut ones as pieces for a plan."""

from collections.abc import Iterator

from sheetcalc.domain.catalogue import Roll
from sheetcalc.domain.rolls import Strip
from sheetcalc.domain.room import Region, Room
from sheetcalc.geometry.plane.boxes import boxes_within
from sheetcalc.geometry.plane.regions import components, is_rectangle
from sheetcalc.geometry.rolls.laid import Laid, as_strips


def pieces_for(
    room: Room, surface_key: str, region: Region, board: Roll, piece: str
) -> tuple[Strip, ...]:
    """Lay boards or mats over a region, each as a piece to cut: whole ones and parts.

    A grid from the near left corner of each connected part, in both directions; the one with
    fewer pieces is kept (common practice, no source).  What a person cuts from a board is the
    rectangle round a piece: notches and holes save nothing.

    Parameters
    ----------
    room, surface_key, region, piece
        As for ``strips.strips_for``.
    board
        Its length and width.

    Returns
    -------
    tuple of Strip
        Length along the board's length, so that a print or a rough side stays as it is.  A board
        without a size gives one piece that the planner refuses.
    """
    laid: list[tuple[Laid, bool]] = []
    for part in components(region):
        if board.length_mm320 <= 0 or board.width_mm320 <= 0:
            x0, y0, x1, y1 = part.bounds
            laid.append((Laid(x0, y0, x1 - x0, y1 - y0), False))
            continue
        turned, pieces = _best(part, board.length_mm320, board.width_mm320)
        laid += [(p, turned) for p in pieces]
    return as_strips(
        laid, item=board.code, room=room, surface=surface_key, piece=piece, noun="piece"
    )


def _best(part: Region, length: int, width: int) -> tuple[bool, list[Laid]]:
    """Direction with fewer pieces, and the pieces; the board's length along left where alike."""
    straight = list(_grid(part, length, width))
    turned = list(_grid(part, width, length))
    return (True, turned) if len(turned) < len(straight) else (False, straight)


def _grid(part: Region, across: int, deep: int) -> Iterator[Laid]:
    """Pieces of a grid over a connected part."""
    x0, y0, x1, y1 = part.bounds
    plain = is_rectangle(part)
    for y in range(y0, y1, deep):
        for x in range(x0, x1, across):
            if plain:
                yield Laid(x, y, min(across, x1 - x), min(deep, y1 - y))
                continue
            for a0, b0, a1, b1 in boxes_within(part, (x, y, x + across, y + deep)):
                yield Laid(a0, b0, a1 - a0, b1 - b0)
