"""Words of drawings: names of sides and fixtures, and what a drawing shows, told in words."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from sheetcalc.domain.job import Job
from sheetcalc.domain.room import Fixture, Point, Region, Ring, Room, Span, Wall
from sheetcalc.domain.setting_out import CutShape, SettingOut
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.drawing.letters import printable
from sheetcalc.drawing.plan import Side
from sheetcalc.units import show_tape

_SIDES = frozenset({"near", "right", "far", "left"})

MOST_CHARACTERS = 900
"""Of a description; a reader of alternative text reads all of it aloud."""


class Legend(Struct, frozen=True):
    """How drawings of a job put things: its units, in the office's words.

    What is written on a drawing is the first of the office's words, the English and the kind of
    thing that there are letters for; what is told of it may have any letters.
    """

    job: Job
    words: Words = ENGLISH

    def tape(self, length_mm320: float) -> str:
        """Show a distance as read off a tape, in the Job's small lengths."""
        return show_tape(round(length_mm320), self.job.units.small_length)

    def write(self, template: str, **facts: object) -> str:
        """Fill in words that are written on a drawing."""
        return printable(self.words.fill(template, **facts), template.format_map(facts))

    def tell(self, template: str, **facts: object) -> str:
        """Fill in words that are told of a drawing."""
        return self.words.fill(template, **facts)

    def name(self, name: str, kind: str = "") -> str:
        """Write a name that is put together, or the kind of thing."""
        return printable(self.words.named(name), name, self.words.named(kind), kind)

    def wall(self, name: str) -> str:
        """Name of a wall as people say it: ``near wall``, ``leg 3``."""
        if name.split(" ", maxsplit=1)[0] in _SIDES:
            return self.name(f"{name} wall")
        return f"{self.name('leg')} {printable(name)}"

    def surface(self, out: SettingOut) -> str:
        """Name of a surface, as a heading."""
        return heading(self.name(out.surface, out.kind.value))

    def fixture(self, fixture: Fixture) -> str:
        """Name of a fixture as typed, or what it is."""
        kind = fixture.kind.value
        return printable(fixture.name, self.words.named(kind), kind)

    def door(self, door: Span) -> str:
        """Name of a doorway as typed, or just that."""
        return printable(door.name, self.name("door"))


def heading(words: str) -> str:
    """Begin with a capital."""
    return words[:1].upper() + words[1:]


def sides_of(
    region: Region, walls: Sequence[Wall], doors: Sequence[Span], legend: Legend
) -> Iterator[Side]:
    """Name the edges of a region that lie along walls, and the doors in them."""
    for patch in region.patches:
        for start, end in _edges(patch.shell):
            wall = next((w for w in walls if _along(start, end, w)), None)
            if wall is not None:
                yield Side(start, end, legend.wall(wall.name))
    for door in doors:
        yield Side(door.start, door.end, legend.door(door), door=True)


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


def room_sentences(room: Room, legend: Legend) -> Iterator[str]:
    """Say where door and fixtures are."""
    doors = [
        legend.tell("{door} in the {wall}", door=legend.door(door), wall=legend.wall(door.wall))
        for door in room.doorways
    ]
    if doors:
        yield legend.tell("Door at the bottom of the sheet: {doors}.", doors=", ".join(doors))
    if room.fixtures:
        named = ", ".join(legend.fixture(fixture) for fixture in room.fixtures)
        yield legend.tell("Shown: {fixtures}.", fixtures=named)


def setting_out_sentences(out: SettingOut, letter: str, legend: Legend) -> Iterator[str]:
    """Say what a surface's tiles are, where the first lies, and which cuts there are."""
    surface = legend.words.named(out.surface)
    if out.by_area:
        by_area = "{letter} {surface}: {tile}, counted by area; no tiles are drawn."
        yield legend.tell(by_area, letter=letter, surface=surface, tile=out.tile)
        return
    yield legend.tell(
        _SHEETS if out.sheet_chips != (0, 0) else _TILES,
        letter=letter,
        surface=surface,
        whole=out.whole,
        cut=out.cut,
        tile=out.tile,
        bond=legend.words.named(out.bond.label),
        joint=legend.tape(out.joint_mm320),
    )
    if out.start:
        yield legend.words.told(out.start)
    cuts = [
        legend.tell(
            "{cut} {count} of {length} by {width}",
            cut=f"{letter}{number}",
            count=piece.count,
            length=legend.tape(piece.length_mm320),
            width=legend.tape(piece.width_mm320),
        )
        for number, piece in enumerate(out.pieces, 1)
        if piece.shape is not CutShape.DRILLED
    ]
    if cuts:
        yield legend.tell("Cut tiles are hatched and lettered: {cuts}.", cuts=", ".join(cuts))
    if out.small:
        small = "{number} of them are smaller than wanted and hatched both ways."
        yield legend.tell(small, number=out.small)


_TILES = "{letter} {surface}: {whole} whole and {cut} cut tiles {tile} in {bond}, joint {joint}."
_SHEETS = (
    "{letter} {surface}: {whole} whole and {cut} cut mosaic sheets {tile} in {bond}, joint {joint}."
)
