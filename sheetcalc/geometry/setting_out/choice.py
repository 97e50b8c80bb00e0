"""A bond of rectangular tiles as lattices, and the start chosen for it."""

from collections.abc import Sequence

from msgspec import Struct

from sheetcalc.geometry.setting_out.aims import Aim


class Lattice(Struct, frozen=True):
    """A bond of rectangular tiles as lattices, on a grid fine enough for halves and 1/n.

    Attributes
    ----------
    length, width
        Tile face along x and y.
    pitch, rise
        Tile plus joint along x and y.
    part
        ``pitch`` over n: the step of a 1/n bond; ``pitch`` itself for a grid.
    steps
        Shift of each row of a cycle, in ``part``: (0,) for a grid, (0, 1, 2) for 1/3.
    small_length, small_width
        Cuts below these are small.
    scale
        How many of its units are one 1/320 mm.
    """

    length: int
    width: int
    pitch: int
    rise: int
    part: int
    steps: tuple[int, ...]
    small_length: int
    small_width: int
    scale: int

    @property
    def cycle(self) -> int:
        """Rows after which the bond repeats."""
        return len(self.steps)

    @property
    def parts(self) -> int:
        """Steps in a pitch."""
        return self.pitch // self.part

    @property
    def steps_round(self) -> bool:
        """Whether every row steps on alike, so that one row's rise is a step sideways."""
        return self.cycle == self.parts

    def row_shift(self, row: int, *, leftward: bool) -> int:
        """Sideways shift of a row of the cycle."""
        step = self.steps[row % self.cycle]
        return (-step if leftward else step) * self.part


class Choice(Struct, frozen=True):
    """The start that was chosen, and how it measures.

    Attributes
    ----------
    x, y
        Near left corner of a tile in the first row of a cycle.
    leftward
        Whether rows step to the left as they go up.
    shortfall
        How much the smallest cut lacks to the limit, as a share of the tile; 0 where none does.
    small, cut, laid
        Small cuts, cut tiles, tiles laid.
    balance, unevenness
        Largest difference of opposite outer cuts, and the sum over both axes.
    least_covered
        Smallest area under tile over all starts weighed.
    proven
        Whether every critical start was weighed.
    """

    x: int
    y: int
    leftward: bool
    shortfall: float
    small: int
    cut: int
    laid: int
    balance: int
    unevenness: int
    least_covered: float
    proven: bool = True

    def rank(self, aims: Sequence[Aim]) -> tuple[float, ...]:
        """Sort key: smaller is better."""
        values = {
            Aim.NO_SLIVER: round(self.shortfall, 9),
            Aim.FEWEST_SMALL: self.small,
            Aim.BALANCE: self.balance,
            Aim.FEWEST_CUTS: self.cut,
            Aim.FEWEST_TILES: self.laid,
        }
        return (*(float(values[a]) for a in aims), float(self.unevenness))
