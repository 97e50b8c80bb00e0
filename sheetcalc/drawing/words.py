"""Words of drawings: names of sides and fixtures, and what a drawing shows, told in words."""

from collections.abc import Iterable, Iterator, Sequence

from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Fixture, Point, Region, Ring, Room, Span, Wall
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.drawing.letters import printable
from sheetcalc.drawing.plan import Side
from sheetcalc.units import show_tape

_SIDES = frozenset({"near", "right", "far", "left"})
MOST_CHARACTERS = 900
"""Of a description; a reader of alternative text reads all of it aloud."""


def tape(length_mm320: float, job: Job) -> str:
    """Show a distance as read off a tape, in the Job's small lengths."""
    return show_tape(round(length_mm320), job.units.small_length)


def wall_words(name: str) -> str:
    """Name of a wall as people say it: ``near wall``, ``leg 3``."""
    if name.split(" ", maxsplit=1)[0] in _SIDES:
        return f"{name} wall"
    return f"leg {printable(name, '?')}"


def fixture_name(fixture: Fixture) -> str:
    """Name of a fixture as typed, or what it is."""
    return printable(fixture.name, fixture.kind.value)


def door_name(door: Span) -> str:
    """Name of a doorway as typed, or just that."""
    return printable(door.name, "door")


def sides_of(region: Region, walls: Sequence[Wall], doors: Sequence[Span]) -> Iterator[Side]:
    """Name the edges of a region that lie along walls, and the doors in them."""
    for patch in region.patches:
        for start, end in _edges(patch.shell):
            wall = next((w for w in walls if _along(start, end, w)), None)
            if wall is not None:
                yield Side(start, end, wall_words(wall.name))
    for door in doors:
        yield Side(door.start, door.end, door_name(door), door=True)


def _edges(ring: Ring) -> Iterator[tuple[Point, Point]]:
    return zip(ring, (*ring[1:], ring[0]), strict=True)


def _along(start: Point, end: Point, wall: Wall) -> bool:
    """Whether an edge lies within a wall."""
    (ax, ay), (bx, by) = wall.start, wall.end
    for x, y in (start, end):
        if (bx - ax) * (y - ay) != (by - ay) * (x - ax):
            return False
        if not (min(ax, bx) <= x <= max(ax, bx) and min(ay, by) <= y <= max(ay, by)):
            return False
    return True


def told(sentences: Iterable[str]) -> str:
    """Put sentences together, as many as alternative text should have."""
    text = ""
    for sentence in sentences:
        if not sentence:
            continue
        if len(text) + len(sentence) + 1 > MOST_CHARACTERS:
            break
        text = f"{text} {sentence}".strip()
    return text


def room_sentences(room: Room) -> Iterator[str]:
    """Say where door and fixtures are."""
    doors = [f"{door_name(d)} in the {wall_words(d.wall)}" for d in room.doorways]
    if doors:
        yield f"Door at the bottom of the sheet: {', '.join(doors)}."
    if room.fixtures:
        yield f"Shown: {', '.join(fixture_name(f) for f in room.fixtures)}."


def setting_out_sentences(out: SettingOut, letter: str, job: Job) -> Iterator[str]:
    """Say what a surface's tiles are, where the first lies, and which cuts there are."""
    where = f"{letter} {out.surface}"
    if out.by_area:
        yield f"{where}: {out.tile}, counted by area; no tiles are drawn."
        return
    tiles = "mosaic sheets" if out.sheet_chips != (0, 0) else "tiles"
    yield (
        f"{where}: {out.whole} whole and {out.cut} cut {tiles} {out.tile} in {out.bond.label}, "
        f"joint {tape(out.joint_mm320, job)}."
    )
    if out.start:
        yield out.start
    cuts = [
        f"{letter}{n} {piece.count} of {tape(piece.length_mm320, job)} by "
        f"{tape(piece.width_mm320, job)}"
        for n, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    ]
    if cuts:
        yield f"Cut tiles are hatched and lettered: {', '.join(cuts)}."
    if out.small:
        yield f"{out.small} of them are smaller than wanted and hatched both ways."
