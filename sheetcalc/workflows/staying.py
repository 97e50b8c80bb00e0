"""Work in steps, in copies of this process that keep what they made in the steps before.

What is made may be too much to be sent: a copy begins with what it has in memory, learns what was
not known yet and tells of what it has, learns what it needs for the rest, and answers with the
little that comes out in the end.
"""

import multiprocessing
import os
from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import Any, Final, Generic, Protocol, TypeVar

from sheetcalc.workflows.workers import Died, Worker

Known = TypeVar("Known")
First = TypeVar("First")
Asked = TypeVar("Asked")
Last = TypeVar("Last")
Known_contra = TypeVar("Known_contra", contravariant=True)
First_co = TypeVar("First_co", covariant=True)
Asked_contra = TypeVar("Asked_contra", contravariant=True)
Last_co = TypeVar("Last_co", covariant=True)


class Steps(Protocol[Known_contra, First_co, Asked_contra, Last_co]):
    """Something to be done step by step, by the same process."""

    def begin(self) -> None:
        """Do what can be done before anything else is known."""

    def first(self, known: Known_contra) -> First_co:
        """Go on, and tell what others need to know."""

    def last(self, asked: Asked_contra) -> Last_co:
        """Finish, as asked."""


class Staying(Generic[Known, First, Asked, Last]):
    """Copies of this process, each with things of its own to do.

    A copy that dies takes nothing along: its things are done here, from the start.
    """

    def __init__(self) -> None:
        """Begin with no copies."""
        self._away: dict[Worker, _Share[Known, First, Asked, Last]] = {}
        self._here: list[_Share[Known, First, Asked, Last]] = []

    def begin(
        self,
        things: Mapping[str, Steps[Known, First, Asked, Last]],
        shares: Iterable[Sequence[str]],
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
            lines = [worker.line for worker in self._away]
            worker = Worker(context, share, partial(_begin, share), lines)
            worker.task = _TASK  # it is at work already
            self._away[worker] = share

    def tell(self, known: Known) -> None:
        """Say what has become known; the copies go on."""
        self._known = known
        for worker in self._away:
            worker.ask(_TASK, (known,))

    def first(self) -> dict[str, First]:
        """Wait for what the copies tell, by key."""
        told: dict[str, First] = {}
        for worker, share in list(self._away.items()):
            answer = worker.answer()
            if isinstance(answer, Died):
                self._here.append(self._away.pop(worker))
                answer = share.anew(self._known)
            told |= answer
        return told

    def ask(self, asked: Mapping[str, Asked]) -> None:
        """Say what is asked of each thing; the copies finish them."""
        self._asked = asked
        for worker, share in self._away.items():
            worker.ask(_TASK, share.of(asked))

    def last(self) -> dict[str, Last]:
        """Wait for what the copies have made, by key."""
        made: dict[str, Last] = {}
        for share in self._here:
            made |= share.last(share.of(self._asked))
        for worker, share in self._away.items():
            answer = worker.answer()
            if isinstance(answer, Died):
                share.anew(self._known)
                answer = share.last(share.of(self._asked))
            made |= answer
        return made

    def end(self) -> None:
        """End the copies; nothing of theirs is wanted any more."""
        for worker in self._away:
            worker.end()
        self._away.clear()
        self._here.clear()


_GIVING_WAY: Final = 5
"""Nice value: about a third of the processor's time that the other gets where both want it."""

_TASK: Final = (0, 1)
"""A copy has one task at a time, tried once."""


class _Share(Generic[Known, First, Asked, Last]):
    """What one process does."""

    def __init__(self, things: Mapping[str, Steps[Known, First, Asked, Last]]) -> None:
        self._things = things

    def __call__(
        self, told: tuple[Known] | Mapping[str, Asked]
    ) -> dict[str, First] | dict[str, Last]:
        """Go on with the one thing that has become known, or finish as asked."""
        return self.first(*told) if isinstance(told, tuple) else self.last(told)

    def of(self, asked: Mapping[str, Asked]) -> dict[str, Asked]:
        """Find what is asked of these things."""
        return {key: asked[key] for key in self._things}

    def begin(self) -> None:
        """Begin all."""
        for thing in self._things.values():
            thing.begin()

    def first(self, known: Known) -> dict[str, First]:
        """Go on with all."""
        return {key: thing.first(known) for key, thing in self._things.items()}

    def anew(self, known: Known) -> dict[str, First]:
        """Do again what another process has died of, up to here."""
        self.begin()
        return self.first(known)

    def last(self, asked: Mapping[str, Asked]) -> dict[str, Last]:
        """Finish them."""
        return {key: self._things[key].last(wanted) for key, wanted in asked.items()}


def _begin(share: _Share[Any, Any, Any, Any]) -> None:
    """Begin in a copy, which gives way to the process that all others wait for."""
    os.nice(_GIVING_WAY)
    share.begin()


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
