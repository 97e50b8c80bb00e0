"""Work in two steps, in copies of this process that keep what they made in the first one.

What is made may be too much to be sent: a copy tells of it, learns what it needs for the rest, and
answers with the little that comes out in the end.
"""

import multiprocessing
from collections.abc import Iterable, Mapping, Sequence
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
    """Copies of this process, each with things of its own to do.

    A copy that dies takes nothing along: its things are done here, from the start.
    """

    def __init__(self) -> None:
        """Begin with no copies."""
        self._away: dict[Worker, _Share[First, Asked, Last]] = {}
        self._here: list[_Share[First, Asked, Last]] = []

    def begin(
        self, things: Mapping[str, TwoSteps[First, Asked, Last]], shares: Iterable[Sequence[str]]
    ) -> None:
        """Start a copy for each share of the things, which it has in memory: it is at work at once.

        Parameters
        ----------
        things
            What is done, by key.
        shares
            Keys of the things that each copy does.
        """
        context = multiprocessing.get_context("fork")
        for keys in shares:
            share = _Share({key: things[key] for key in keys})
            worker = Worker(context, share, None, [worker.line for worker in self._away])
            self._away[worker] = share
            worker.ask(_TASK, None)

    def first(self) -> dict[str, First]:
        """Wait for what the copies tell, by key."""
        told: dict[str, First] = {}
        for worker, share in list(self._away.items()):
            answer = worker.answer()
            if isinstance(answer, Died):
                self._here.append(self._away.pop(worker))
                answer = share.begin()
            told |= answer
        return told

    def ask(self, asked: Mapping[str, Asked]) -> None:
        """Say what is asked of each thing; the copies begin."""
        self._asked = asked
        for worker, share in self._away.items():
            worker.ask(_TASK, share.of(asked))

    def last(self) -> dict[str, Last]:
        """Wait for what the copies have made, by key."""
        made: dict[str, Last] = {}
        for share in self._here:
            made |= share.finish(share.of(self._asked))
        for worker, share in self._away.items():
            answer = worker.answer()
            if isinstance(answer, Died):
                share.begin()
                answer = share.finish(share.of(self._asked))
            made |= answer
        return made

    def end(self) -> None:
        """End the copies; nothing of theirs is wanted any more."""
        for worker in self._away:
            worker.end()
        self._away.clear()
        self._here.clear()


_TASK: Final = (0, 1)
"""A copy has one task at a time, tried once."""


class _Share(Generic[First, Asked, Last]):
    """What one process does."""

    def __init__(self, things: Mapping[str, TwoSteps[First, Asked, Last]]) -> None:
        self._things = things

    def __call__(self, asked: Mapping[str, Asked] | None) -> dict[str, First] | dict[str, Last]:
        """Begin the things, or finish them as asked."""
        return self.begin() if asked is None else self.finish(asked)

    def of(self, asked: Mapping[str, Asked]) -> dict[str, Asked]:
        """Find what is asked of these things."""
        return {key: asked[key] for key in self._things}

    def begin(self) -> dict[str, First]:
        """Do the first step."""
        return {key: thing.first() for key, thing in self._things.items()}

    def finish(self, asked: Mapping[str, Asked]) -> dict[str, Last]:
        """Do the last step."""
        return {key: self._things[key].last(wanted) for key, wanted in asked.items()}


def shares_of(weights: Mapping[str, float], number: int) -> list[list[str]]:
    """Share things out over processes, so that all have about as much to do.

    Parameters
    ----------
    weights
        Of the things, by key.
    number
        Processes at most.

    Returns
    -------
    list
        Keys of the things that each does; none has nothing.

    Examples
    --------
    >>> shares_of({"walls": 3, "floors": 9, "sills": 4}, 2)
    [['floors'], ['sills', 'walls']]
    """
    loads = [0.0] * number
    shares: list[list[str]] = [[] for _ in loads]
    for key in sorted(weights, key=lambda key: weights[key], reverse=True):
        least = min(range(number), key=loads.__getitem__)
        loads[least] += weights[key]
        shares[least].append(key)
    return [share for share in shares if share]
