"""Work that can be done piece by piece, elsewhere if somebody offers it."""

from collections.abc import Callable, Iterable, Sequence
from typing import Protocol, TypeVar

Given = TypeVar("Given")
Made = TypeVar("Made")


class Spread(Protocol):
    """Does the same to many things, on one core or several."""

    def __call__(
        self,
        work: Callable[[Sequence[Given]], Iterable[Made]],
        things: Sequence[Given],
        *,
        in_memory: bool = False,
    ) -> Iterable[Made]:
        """Do the work.

        Parameters
        ----------
        work
            Makes one thing of each given, in order.  It depends on nothing but what it is given,
            so that it makes the same of a few as of all.
        things
            What it is done to.
        in_memory
            The work needs what only this process, or a copy of it, has in memory.

        Returns
        -------
        Iterable
            What was made, in the order of ``things``, as it gets done.
        """


def alone(
    work: Callable[[Sequence[Given]], Iterable[Made]],
    things: Sequence[Given],
    *,
    in_memory: bool = False,  # noqa: ARG001 - this process has it
) -> Iterable[Made]:
    """Do the work here."""
    return work(things)


def in_shares(number: int, size: int) -> list[range]:
    """Share places out, so many at once.

    >>> in_shares(5, 2)
    [range(0, 2), range(2, 4), range(4, 5)]
    """
    return [range(at, min(at + size, number)) for at in range(0, number, size)]
