"""Invented heated rooms: doorway, thermostat anywhere, walk-in shower with curb, fixtures."""

import random
from collections.abc import Iterator

from room_rows import piece, resolve, room_row

from sheetcalc.domain.room import FloorPiece, Room


def invented_rooms(seed: int, count: int) -> Iterator[Room]:
    """Rooms, the same for the same seed, whose pieces don't get in each other's way."""
    dice = random.Random(seed)  # noqa: S311 - nothing is kept secret with it
    made = 0
    while made < count:
        length, width = dice.randrange(1600, 4000, 5), dice.randrange(1400, 3200, 5)
        pieces = list(_pieces(length, width, dice))
        rooms, findings = resolve(room_row(*pieces, length=length, width=width))
        if rooms and not findings:
            made += 1
            yield rooms[0]


def _pieces(length: int, width: int, dice: random.Random) -> Iterator[FloorPiece]:
    door = dice.randrange(100, length - 900, 5) if length > 1000 else 100
    yield piece("Door", "doorway", door, None, 800, wall="near")
    wall = dice.choice(("near", "far", "left", "right"))
    along = dice.randrange(60, (length if wall in {"near", "far"} else width) - 60, 5)
    if wall == "near" and door - 20 <= along <= door + 820:
        along = door - 40
    across = wall in {"left", "right"}
    yield piece("T", "thermostat", None if across else along, along if across else None, wall=wall)
    if dice.random() < 0.7:
        yield from _shower(length, width, dice)
    if dice.random() < 0.4:
        long = dice.randrange(500, 1000, 5)
        left = 0 if dice.random() < 0.5 else length - long
        clear = door > left + long or door + 800 < left
        yield piece("Vanity", "cabinet", left, 0 if clear else width // 3, long, 450)
    if dice.random() < 0.4:
        yield piece("WC", "toilet outlet", length // 2, width - 305, diameter=110)
    if dice.random() < 0.15:
        yield piece("K", "column", length // 2 - 100, width // 2, 200, 200)


def _shower(length: int, width: int, dice: random.Random) -> Iterator[FloorPiece]:
    """A shower in a far corner behind a curb, at times with a side behind one too."""
    long, deep, curb = dice.randrange(800, 1300, 5), dice.randrange(800, 1200, 5), 100
    if length - long < 900 or width - deep < 500:
        return
    on_left = dice.random() < 0.5
    left, front = 0 if on_left else length - long, width - deep
    yield piece("S", "shower floor", left, front, long, deep)
    yield piece("D", "drain", left + long // 2, front + deep // 2, diameter=110)
    yield piece("C", "curb", left, front - curb, long, curb, height=100)
    if dice.random() < 0.5:
        side = long if on_left else left - curb
        yield piece("C2", "curb", side, front - curb, curb, deep + curb, height=100)
