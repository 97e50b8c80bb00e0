"""What a section of a roll is: columns beside each other, strips on each other in a column."""

from msgspec import Struct, field

from sheetcalc.domain.rolls import Strip


class Column(Struct):
    """A ribbon of a section: where it begins across the roll, its width, what is used of it."""

    across: int
    width: int
    used: int = 0
    strips: list[tuple[Strip, int]] = field(default_factory=list)


class Section(Struct):
    """A stretch of roll, with its columns."""

    length: int
    columns: list[Column]


class Cutting(Struct, frozen=True):
    """How a roll or a board is cut.

    Attributes
    ----------
    width
        Of the roll [1/320 mm].
    kerf
        Lost with every cut; a knife loses nothing.
    pitch
        Rips begin at whole pitches across the roll, so that knobs or print line up; 1 where they
        may begin anywhere.
    """

    width: int
    kerf: int = 0
    pitch: int = 1

    def next_across(self, column: Column) -> int:
        """Where the next column may begin."""
        end = column.across + column.width + self.kerf
        return -(-end // self.pitch) * self.pitch
