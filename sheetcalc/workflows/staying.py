"""Work in two steps, in copies of this process that keep what they made in the first one.

What is made may be too much to be sent: a copy tells of it, learns what it needs for the rest, and
answers with the little that comes out in the end.
"""

import multiprocessing
from collections.abc import Mapping, Sequence
from typing import Final, Generic, Protocol, TypeVar

from sheetcalc.workflows.workers import Died, Worker

First = TypeVar("First")
Asked = TypeVar("Asked")
Last = TypeVar("Last")
First_co = TypeVar("First_co", covariant=True)
Asked_contra = TypeVar("Asked_contra", contravariant=True)
Last_co = TypeVar("Last_co", covariant=True)


class TwoSteps(Protocol[First_co, Asked_contra, Last_co]):
    """Something to be done in two steps, by the same process."""

    def first(self) -> First_co:
        """Begin, and tell what others need to know."""

    def last(self, asked: Asked_contra) -> Last_co:
        """Finish, as asked."""


class Staying(Generic[First, Asked, Last]):
    """Copies of this process, each with its share of the work; a share is done here, too.

    A copy that dies takes nothing along: its share is done here, from the start.

    Parameters
    ----------
    things
        What is done; the copies have them in memory.
    shares
        Places of the things that each process does, the first share here.
    """

    def __init__(
        self, things: Sequence[TwoSteps[First, Asked, Last]], shares: Sequence[Sequence[int]]
    ) -> None:
        """Start the copies: they are at work at once."""
        self._here = _Share(things)
        self._mine = list(shares[0])
        self._away: dict[Worker, Sequence[int]] = {}
        context = multiprocessing.get_context("fork")
        for share in shares[1:]:
            lines = [worker.line for worker in self._away]
            worker = Worker(context, self._here, None, lines)
            self._away[worker] = share
            worker.ask(_TASK, share)

    def first(self) -> dict[int, First]:
        """Do the share of this process, and wait for what the others tell; by place."""
        told = self._here.begin(self._mine)
        for worker, share in list(self._away.items()):
            answer = worker.answer()
            if isinstance(answer, Died):
                self._mine += self._away.pop(worker)
                answer = self._here.begin(share)
            told |= answer
        return told

    def ask(self, asked: Mapping[int, Asked]) -> None:
        """Say what is asked of each thing; the others begin."""
        self._asked = asked
        for worker, share in self._away.items():
            worker.ask(_TASK, {at: asked[at] for at in share})

    def last(self) -> dict[int, Last]:
        """Do the share of this process, and wait for what the others have made; by place."""
        made = self._here.finish({at: self._asked[at] for at in self._mine})
        for worker, share in self._away.items():
            answer = worker.answer()
            if isinstance(answer, Died):
                self._here.begin(share)
                answer = self._here.finish({at: self._asked[at] for at in share})
            made |= answer
        return made

    def end(self) -> None:
        """End the copies; nothing of theirs is wanted any more."""
        for worker in self._away:
            worker.end()
        self._away.clear()


_TASK: Final = (0, 1)
"""A copy has one task at a time, tried once."""


class _Share(Generic[First, Asked, Last]):
    """What one process does."""

    def __init__(self, things: Sequence[TwoSteps[First, Asked, Last]]) -> None:
        self._things = things

    def __call__(
        self, given: Sequence[int] | Mapping[int, Asked]
    ) -> dict[int, First] | dict[int, Last]:
        """Begin the things in some places, or finish them."""
        return self.finish(given) if isinstance(given, Mapping) else self.begin(given)

    def begin(self, places: Sequence[int]) -> dict[int, First]:
        """Do the first step."""
        return {at: self._things[at].first() for at in places}

    def finish(self, asked: Mapping[int, Asked]) -> dict[int, Last]:
        """Do the last step."""
        return {at: self._things[at].last(wanted) for at, wanted in asked.items()}


def shares_of(weights: Sequence[float], number: int, here: float) -> list[list[int]]:
    """Share things out over processes, so that all have about as much to do.

    Parameters
    ----------
    weights
        Of the things.
    number
        Processes, this one among them.
    here
        Weight of what this process has to do besides.

    Returns
    -------
    list
        Places of the things that each does; the first share is that of this process.

    Examples
    --------
    >>> shares_of([3, 9, 4], 2, here=1)
    [[2, 0], [1]]
    """
    loads = [here, *[0.0] * (number - 1)]
    shares: list[list[int]] = [[] for _ in loads]
    for at in sorted(range(len(weights)), key=lambda at: weights[at], reverse=True):
        least = min(range(number), key=loads.__getitem__)
        loads[least] += weights[at]
        shares[least].append(at)
    return shares[:1] + [share for share in shares[1:] if share]
