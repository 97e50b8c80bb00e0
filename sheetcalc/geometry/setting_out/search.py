"""The best start of a grid or 1/n bond over a rectilinear region.

The measures separate by axis or into products of matrices, so all pairs of starts are weighed at
once: ``number_x @ meeting @ number_y.T`` counts tiles, whole tiles and small cuts.
"""

from collections.abc import Sequence

import numpy as np
from msgspec.structs import replace

from sheetcalc.geometry.setting_out.aims import Aim
from sheetcalc.geometry.setting_out.candidates import MOST_PAIRS, critical_starts
from sheetcalc.geometry.setting_out.choice import Choice, Lattice
from sheetcalc.geometry.setting_out.slabs import Ints, Slabs
from sheetcalc.geometry.setting_out.views import Fixed, View, view_of
from sheetcalc.geometry.setting_out.weighing import weigh

_MOST_STARTS = 2000
_WORK = 30_000_000
_ROUNDS = 3


def best_start(
    slabs: Slabs,
    lattice: Lattice,
    aims: Sequence[Aim],
    fixed: tuple[int | None, int | None] = (None, None),
    usual: View = View(),  # noqa: B008 - frozen
) -> Choice:
    """Weigh every critical start of a lattice, and choose.

    Parameters
    ----------
    slabs
        What is tiled, on the lattice's grid.
    lattice
        The bond.
    aims
        In the order in which they are weighed.
    fixed
        Near corner of a tile of the first row, along x or y or both, where it is given.
    usual
        From where a region that looks alike from several sides is seen.

    Returns
    -------
    Choice
        ``proven`` is False where the region has so many corners that starts were left out.
        Where several starts are as good, a mirrored region gets the mirrored one.
    """
    # seen from its own corner, so that where the surface lies changes nothing
    here = int(slabs.xs[0]), int(slabs.ys[0])
    slabs = Slabs(slabs.xs - here[0], slabs.ys - here[1], slabs.occupied)
    view = view_of(slabs, usual)
    seen, given = view.slabs(slabs), view.given((_less(fixed, here)), slabs, lattice)
    choice = view.back(_search(seen, lattice, aims, given), slabs, lattice)
    return replace(choice, x=choice.x + here[0], y=choice.y + here[1])


def _less(fixed: tuple[int | None, int | None], by: tuple[int, int]) -> Fixed:
    x, y = fixed
    return None if x is None else x - by[0], None if y is None else y - by[1]


def _search(slabs: Slabs, lattice: Lattice, aims: Sequence[Aim], fixed: Fixed) -> Choice:
    """Weigh every critical start over slabs that begin at 0."""
    chords_x, chords_y, levels = [lattice.small_length], [lattice.small_width], [0]
    most = _most_starts(slabs)
    only, given_x, given_y = _given(fixed, lattice)
    choice: Choice | None = None
    for _ in range(_ROUNDS):
        xs = critical_starts(slabs.xs, lattice.length, lattice.part, chords_x, levels)
        ys = critical_starts(slabs.ys, lattice.width, lattice.rise, chords_y, levels)
        proven = len(slabs.xs) <= MOST_PAIRS and len(slabs.ys) <= MOST_PAIRS
        proven = proven and len(xs) * lattice.parts <= most and len(ys) * lattice.cycle <= most
        xs, ys = _thinned(xs, most // lattice.parts), _thinned(ys, most // lattice.cycle)
        xs, ys = (xs if given_x is None else given_x), (ys if given_y is None else given_y)
        again = replace(weigh(slabs, lattice, aims, xs, ys, only=only), proven=proven)
        if choice is not None and again.rank(aims) >= choice.rank(aims):
            break
        choice = again
        if choice.shortfall <= 0 and choice.balance == 0:
            break
        # the worst cut or the worst balance lies on one axis: on the other, starts where it is
        # just as bad may be better in the aims that follow
        lacking = choice.shortfall
        chords_x = [lattice.small_length, *_level(lattice.small_length, lacking, lattice.length)]
        chords_y = [lattice.small_width, *_level(lattice.small_width, lacking, lattice.width)]
        levels = [0, choice.balance]
    assert choice is not None  # noqa: S101 - the loop runs at least once
    return choice


def measured(slabs: Slabs, lattice: Lattice, aims: Sequence[Aim], x: int, y: int) -> Choice:
    """Measure one given start instead of searching."""
    return best_start(slabs, lattice, aims, (x, y))


def _given(fixed: Fixed, lattice: Lattice) -> tuple[int | None, Ints | None, Ints | None]:
    """Step of the pitch, starts along x and starts along y that a given start comes to."""
    only, xs, ys = None, None, None
    if fixed[0] is not None:
        x = fixed[0] % lattice.pitch
        only, xs = x // lattice.part, np.array([x % lattice.part], dtype=np.int64)
    if fixed[1] is not None:
        ys = np.array([fixed[1]], dtype=np.int64)
    return only, xs, ys


def _most_starts(slabs: Slabs) -> int:
    """Count the starts that can be weighed along an axis in a fraction of a second."""
    p, q = slabs.occupied.shape
    return int(max(1, min(_MOST_STARTS, _WORK // (p * q * (p + q)))))


def _level(limit: int, lacking: float, tile: int) -> list[int]:
    """Cut sizes that lack as much to the limit as the worst one."""
    size = limit - lacking * tile
    return [c for c in (int(size), int(size) + 1) if 0 < c < limit]


def _thinned(starts: Ints, most: int) -> Ints:
    """Keep at most so many starts, evenly."""
    if len(starts) <= most:
        return starts
    return starts[np.linspace(0, len(starts) - 1, max(most, 1)).astype(np.int64)]
