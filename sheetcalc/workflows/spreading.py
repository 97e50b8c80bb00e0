"""The same work on many rooms of one workbook, over the cores of this machine.

Where the system can, workers are forked: they have what this process has read and imported at
once, so that even a few rooms are worth it.  Elsewhere they start afresh, which takes about as
long as importing the libraries, and is done for many rooms only.
"""

import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from queue import SimpleQueue
from threading import Thread
from typing import TYPE_CHECKING, Any, Final, Generic, TypeVar

from msgspec import Struct

from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.machine import cores

if TYPE_CHECKING:
    from sheetcalc.workflows.workers import Died, Workers

Given = TypeVar("Given")
Made = TypeVar("Made")

FEWEST: Final = 4
"""Things that are worth a forked worker."""

FEWEST_AFRESH: Final = 100
"""Things that are worth a worker that has to import everything first."""

LARGEST_SHARE: Final = 8
"""Things sent to a worker at once, at most: results come while others are still at work."""

_SHARES_A_WORKER: Final = 4
"""Shares that each worker has in hand by and by of what is left, so that all end together."""


class OverCores(Struct, frozen=True):
    """Spreads work over processes; a ``Spread``.

    Attributes
    ----------
    number
        Processes at most; None for one a core.
    """

    number: int | None = None

    @property
    def processes(self) -> int:
        """How many processes there are at most."""
        return self.number or cores()

    def __call__(
        self,
        work: Callable[[Sequence[Given]], Iterable[Made]],
        things: Sequence[Given],
        *,
        in_memory: bool = False,
    ) -> Iterable[Made]:
        """Do the work, in the order of the things; what a worker dies of is done here."""
        number = self.processes
        forked = sys.platform == "linux"  # other systems' own libraries may not survive it
        few = len(things) < (FEWEST if forked else FEWEST_AFRESH)
        if number < 2 or few or (in_memory and not forked):  # noqa: PLR2004 - one is alone
            return work(things)
        largest = 1 if in_memory else LARGEST_SHARE
        return _in_processes(work, things, number, largest, forked=forked)


def shrinking_shares(things: int, number: int, largest: int) -> list[range]:
    """Share things out over processes, fewer at once towards the end: none waits for long.

    >>> [len(share) for share in shrinking_shares(20, 1, 4)]
    [4, 4, 3, 2, 1, 1, 1, 1, 1, 1, 1]
    """
    shares: list[range] = []
    at = 0
    while at < things:
        size = max(1, min(largest, (things - at) // (number * _SHARES_A_WORKER)))
        shares.append(range(at, at + size))
        at += size
    return shares


def _in_processes(
    work: Callable[[Sequence[Given]], Iterable[Made]],
    things: Sequence[Given],
    number: int,
    largest: int,
    *,
    forked: bool,
) -> Iterator[Made]:
    """Begin at once; what is made comes when it is asked for."""
    from sheetcalc.workflows.workers import Workers  # noqa: PLC0415 - see the package

    places = shrinking_shares(len(things), number, largest)
    if forked:  # a copy of this process has the things already
        at_work = _AtWork(Workers(number, partial(_those, work, things), forked=True), places)
    else:
        shares = [things[place.start : place.stop] for place in places]
        at_work = _AtWork(Workers(number, partial(_all_of, work), load_calculation), shares)
    return _in_order(work, things, places, at_work)


def _in_order(
    work: Callable[[Sequence[Given]], Iterable[Made]],
    things: Sequence[Given],
    places: Sequence[range],
    at_work: "_AtWork[list[Made]]",
) -> Iterator[Made]:
    from sheetcalc.workflows.workers import Died  # noqa: PLC0415 - see the package

    done: dict[int, list[Made]] = {}
    at = 0
    for number, made in at_work.answers():
        if isinstance(made, Died):
            done[number] = _those(work, things, places[number])
        else:
            done[number] = made
        while at in done:
            yield from done.pop(at)
            at += 1


class _AtWork(Generic[Made]):
    """Workers at their tasks, and a thread that hands these out and takes the answers.

    The workers are there before the thread is: a copy of a process with several threads may
    inherit a lock that nobody opens.
    """

    def __init__(self, workers: "Workers[Any, Made]", tasks: Sequence[Any]) -> None:
        self._workers = workers
        self._tasks = tasks
        self._made: SimpleQueue[tuple[int, Made | Died] | BaseException | None] = SimpleQueue()
        workers.start(len(tasks))
        self._thread = Thread(target=self._attend, daemon=True)
        self._thread.start()

    def _attend(self) -> None:
        try:
            with self._workers:
                for answer in self._workers.map(self._tasks):
                    self._made.put(answer)
            self._made.put(None)
        except BaseException as trouble:  # noqa: BLE001 - it is raised where the answers are awaited
            self._made.put(trouble)

    def answers(self) -> "Iterator[tuple[int, Made | Died]]":
        """Yield what was made, as it gets done, with the place of its task."""
        try:
            while (answer := self._made.get()) is not None:
                if isinstance(answer, BaseException):
                    raise answer
                yield answer
        finally:  # nobody may want the rest
            self._workers.stop()
            self._thread.join()


def _those(
    work: Callable[[Sequence[Given]], Iterable[Made]], things: Sequence[Given], share: range
) -> list[Made]:
    return _all_of(work, things[share.start : share.stop])


def _all_of(
    work: Callable[[Sequence[Given]], Iterable[Made]], things: Sequence[Given]
) -> list[Made]:
    return list(work(things))
