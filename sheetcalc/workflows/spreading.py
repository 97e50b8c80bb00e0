"""The same work on many rooms of one workbook, over the cores of this machine.

Where the system can, workers are forked: they have what this process has read and imported at
once, so that even a few rooms are worth it.  Elsewhere they start afresh, which takes about as
long as importing the libraries, and is done for many rooms only.
"""

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Final, TypeVar

from msgspec import Struct

from sheetcalc.workflows.machine import cores

Given = TypeVar("Given")
Made = TypeVar("Made")

FEWEST: Final = 4
"""Things that are worth a forked worker."""

FEWEST_AFRESH: Final = 100
"""Things that are worth a worker that has to import everything first."""

LARGEST_SHARE: Final = 8
"""Things sent to a worker at once, at most: results come while others are still at work."""

_SHARES_A_WORKER: Final = 4
"""Shares that each worker has in hand by and by, so that all end at about the same time."""


class OverCores(Struct, frozen=True):
    """Spreads work over processes; a ``Spread``.

    Attributes
    ----------
    number
        Processes at most; None for one a core.
    """

    number: int | None = None

    def __call__(
        self,
        work: Callable[[Sequence[Given]], Iterable[Made]],
        things: Sequence[Given],
        *,
        in_memory: bool = False,
    ) -> Iterable[Made]:
        """Do the work, in the order of the things; what a worker dies of is done here."""
        number = self.number or cores()
        forked = sys.platform == "linux"  # other systems' own libraries may not survive it
        few = len(things) < (FEWEST if forked else FEWEST_AFRESH)
        if number < 2 or few or (in_memory and not forked):  # noqa: PLR2004 - one is alone
            return work(things)
        size = max(1, min(LARGEST_SHARE, len(things) // (number * _SHARES_A_WORKER)))
        return _in_processes(work, things, number, 1 if in_memory else size, forked=forked)


def _in_processes(
    work: Callable[[Sequence[Given]], Iterable[Made]],
    things: Sequence[Given],
    number: int,
    size: int,
    *,
    forked: bool,
) -> Iterator[Made]:
    from sheetcalc.workflows.calculation import load_calculation  # noqa: PLC0415 - see the package
    from sheetcalc.workflows.workers import Died, Workers  # noqa: PLC0415 - see the package

    shares = [things[at : at + size] for at in range(0, len(things), size)]
    workers: Workers[Sequence[Given], list[Made]]
    workers = Workers(number, partial(_all_of, work), load_calculation, forked=forked)
    with workers:
        done: dict[int, list[Made]] = {}
        at = 0
        for place, made in workers.map(shares):
            done[place] = list(work(shares[place])) if isinstance(made, Died) else made
            while at in done:
                yield from done.pop(at)
                at += 1


def _all_of(
    work: Callable[[Sequence[Given]], Iterable[Made]], things: Sequence[Given]
) -> list[Made]:
    return list(work(things))
