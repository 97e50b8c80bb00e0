"""Strips, and the rolls that they are cut from."""

from collections.abc import Mapping
from typing import TypeAlias

from msgspec import Struct

RollsToOpen: TypeAlias = Mapping[tuple[str, str], int]
"""Item and phase -> new rolls, sheets or boards that plans open."""


class Strip(Struct, frozen=True):
    """A strip of roll, or a piece of board, cut for one room.

    Attributes
    ----------
    item
        Code of the roll, mat or board that it is cut from.
    piece
        Which piece of the room it is, for the cutting list.
    length_mm320, width_mm320
        Along the roll, or a board's long side, and across it.
    left_mm320, front_mm320
        Near left corner on the surface; of no meaning for an upturn.
    turned
        Its length runs along Front of the surface instead of along Left.
    pool
        Item cell that names several codes priced against each other; "" where it names one.
    """

    item: str
    phase: str
    room: str
    surface: str
    piece: str
    length_mm320: int
    width_mm320: int
    left_mm320: int = 0
    front_mm320: int = 0
    turned: bool = False
    pool: str = ""


class PlacedStrip(Struct, frozen=True):
    """A strip with its place on a roll: number, distance from its start, distance from its edge.

    ``leftover_of`` names the phase whose roll is used up; empty for a roll of the plan's own.
    """

    strip: Strip
    roll: int
    position_mm320: int
    across_mm320: int = 0
    leftover_of: str = ""


class Leftover(Struct, frozen=True):
    """Rest of a roll, in full width, from a position to its end."""

    phase: str
    roll: int
    position_mm320: int
    length_mm320: int


class RollPlan(Struct, frozen=True):
    """How the rolls of one item are cut in one phase.

    Attributes
    ----------
    rolls
        Rolls to buy.
    lower_bound
        No plan of the same strips needs fewer.
    leftovers
        Rests worth keeping, of this phase's rolls and of earlier ones.
    by_length
        Stretches of a band in the order of the rooms: a list for the person on the roll, whose
        packs come from the order's length and allowance.
    """

    item: str
    phase: str
    rolls: int
    placed: tuple[PlacedStrip, ...]
    lower_bound: int
    basis: str
    leftovers: tuple[Leftover, ...] = ()
    by_length: bool = False


class StockShare(Struct, frozen=True):
    """Part of a surface's strips that is cut from one of several items named together.

    ``each_m2`` is for one room, averaged over alike rooms.
    """

    surface: str
    pool: str
    item: str
    each_m2: float
