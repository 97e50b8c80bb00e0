"""A region seen from the side from which mirrored regions look alike.

Starts that are equally good are chosen by their order; seen so, a mirrored or turned room gets the
mirrored or turned start.
"""

from typing import TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.slabs import Slabs

Fixed: TypeAlias = tuple[int | None, int | None]
"""Near corner of a tile of the first row, each coordinate where it is given."""


class View(Struct, frozen=True):
    """Whether left and right, and near and far, change places."""

    flip_x: bool = False
    flip_y: bool = False

    def slabs(self, slabs: Slabs) -> Slabs:
        """Slabs that begin at 0, as seen."""
        xs, ys, occupied = slabs.xs, slabs.ys, slabs.occupied
        if self.flip_x:
            xs, occupied = (xs[-1] - xs)[::-1], occupied[::-1]
        if self.flip_y:
            ys, occupied = (ys[-1] - ys)[::-1], occupied[:, ::-1]
        return Slabs(xs.copy(), ys.copy(), occupied.copy()) if self != View() else slabs

    def given(self, fixed: Fixed, slabs: Slabs, lattice: Lattice) -> Fixed:
        """Near corner of a given tile, as seen."""
        x, y = fixed
        if self.flip_x and x is not None:
            x = int(slabs.xs[-1]) - x - lattice.length
        if self.flip_y and y is not None:
            y = int(slabs.ys[-1]) - y - lattice.width
        return x, y

    def back(self, choice: Choice, slabs: Slabs, lattice: Lattice) -> Choice:
        """Start as it is, of one that was chosen as seen."""
        x, y = self.given((choice.x, choice.y), slabs, lattice)
        if x is None or y is None:  # pragma: no cover - a choice has both
            message = "a choice without a start"
            raise ValueError(message)
        leftward = choice.leftward
        if lattice.cycle > 2 and lattice.steps_round:  # noqa: PLR2004 - halves step either way
            leftward ^= self.flip_x ^ self.flip_y
        elif lattice.cycle > 1 and not lattice.steps_round and self.flip_x:
            # rows go back and forth: count from the other one, which lies to the left now
            x, y = x - lattice.part, y + lattice.rise
        return replace(choice, x=x, y=y, leftward=leftward)


_VIEWS = tuple(View(x, y) for x in (False, True) for y in (False, True))


def view_of(slabs: Slabs, usual: View = _VIEWS[0]) -> View:
    """From where a region looks like its mirror images from there.

    Parameters
    ----------
    slabs
        The region.
    usual
        View of a region that looks alike from several sides; a handed room is seen mirrored.
    """
    if slabs.occupied.size == 1:
        return usual

    def look(view: View) -> tuple[list[int], list[int], bytes]:
        seen = view.slabs(slabs)
        return seen.xs.tolist(), seen.ys.tolist(), seen.occupied.tobytes()

    views = (View(v.flip_x ^ usual.flip_x, v.flip_y ^ usual.flip_y) for v in _VIEWS)
    return min(views, key=look)
