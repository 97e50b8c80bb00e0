"""Work in two steps by copies of this process: the same as here, whatever happens to them."""

import os
import signal
import sys

import pytest

from sheetcalc.workflows.staying import Staying, shares_of

HERE = os.getpid()
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="copies are made there only")


class Sum:
    """Keeps a number, tells who has it, and adds another."""

    def __init__(self, number: int, dies_in: str = "") -> None:
        self.number = number
        self.dies_in = dies_in
        self.kept: list[int] = []

    def first(self) -> int:
        self._dies("first")
        self.kept = [self.number] * 1000
        return os.getpid()

    def last(self, asked: int) -> tuple[int, int]:
        self._dies("last")
        return self.kept[999] + asked, os.getpid()

    def _dies(self, step: str) -> None:
        if self.dies_in == step and os.getpid() != HERE:
            os.kill(os.getpid(), signal.SIGKILL)


def done(things: list[Sum], shares: list[list[int]]) -> tuple[list[int], list[tuple[int, int]]]:
    at_work = Staying(things, shares)
    try:
        told = at_work.first()
        at_work.ask({at: 10 * at for at in told})
        made = at_work.last()
    finally:
        at_work.end()
    places = range(len(things))
    assert sorted(told) == sorted(made) == list(places)
    return [told[at] for at in places], [made[at] for at in places]


def test_each_thing_is_finished_by_the_process_that_has_begun_it() -> None:
    told, made = done([Sum(n) for n in range(5)], [[0], [1, 3], [4, 2]])
    assert [value for value, _ in made] == [0, 11, 22, 33, 44]
    assert [process for _, process in made] == told
    assert told[0] == HERE
    assert told[1] == told[3] != HERE
    assert told[2] == told[4] not in {HERE, told[1]}


@pytest.mark.parametrize("step", ["first", "last"])
def test_what_a_copy_dies_of_is_done_here_from_the_start(step: str) -> None:
    _, made = done([Sum(0), Sum(1), Sum(2, step), Sum(3)], [[0], [1, 2], [3]])
    assert [value for value, _ in made] == [0, 11, 22, 33]
    by = [process for _, process in made]
    assert by[:3] == [HERE] * 3
    assert by[3] != HERE


def test_a_mistake_in_a_copy_is_raised_as_if_it_had_been_made_here() -> None:
    class Wrong(Sum):
        def last(self, asked: int) -> tuple[int, int]:
            raise ZeroDivisionError(str(asked))

    with pytest.raises(ZeroDivisionError, match="10"):
        done([Sum(0), Wrong(1)], [[0], [1]])


def test_copies_end_when_nobody_asks_them_for_more() -> None:
    at_work = Staying([Sum(0), Sum(1)], [[0], [1]])
    process = at_work.first()[1]
    at_work.end()
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)


@pytest.mark.parametrize("number", [1, 2, 3, 9])
def test_shares_hold_everything_once_and_none_has_far_more_than_the_others(number: int) -> None:
    weights = [7.0, 1, 5, 3, 3, 2, 8]
    shares = shares_of(weights, number, here=4)
    assert sorted(at for share in shares for at in share) == list(range(len(weights)))
    loads = [sum(weights[at] for at in share) for share in shares]
    loads[0] += 4
    # whoever has the most had the least before its last thing, so no more than the mean
    assert max(loads) <= (sum(weights) + 4) / number + max(weights)
    assert all(shares[1:])
