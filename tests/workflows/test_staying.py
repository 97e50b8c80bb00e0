"""Work in steps by copies of this process: the same as here, whatever happens to them."""

import os
import signal
import sys

import pytest

from sheetcalc.workflows.staying import Staying, shares_of

HERE = os.getpid()
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="copies are made there only")


class Sum:
    """Keeps a number, learns a factor, tells who has both, and adds another."""

    def __init__(self, number: int, dies_in: str = "") -> None:
        self.number = number
        self.dies_in = dies_in
        self.kept: list[int] = []

    def begin(self) -> None:
        self._dies("begin")
        self.kept = [self.number] * 1000

    def first(self, known: int) -> int:
        self._dies("first")
        self.kept = [number * known for number in self.kept]
        return os.getpid()

    def last(self, asked: int) -> tuple[int, int]:
        self._dies("last")
        return self.kept[999] + asked, os.getpid()

    def _dies(self, step: str) -> None:
        if self.dies_in == step and os.getpid() != HERE:
            os.kill(os.getpid(), signal.SIGKILL)


def begun(
    at_work: Staying[int, int, int, tuple[int, int]], things: dict[str, Sum], *shares: str
) -> None:
    """Begin things named by single letters, a copy for each word of them."""
    at_work.begin(things, [list(share) for share in shares])


def done(things: dict[str, Sum], *shares: str) -> tuple[dict[str, int], dict[str, tuple[int, int]]]:
    at_work: Staying[int, int, int, tuple[int, int]] = Staying()
    try:
        begun(at_work, things, *shares)
        at_work.tell(5)
        told = at_work.first()
        at_work.ask({key: 10 * thing.number for key, thing in things.items()})
        made = at_work.last()
    finally:
        at_work.end()
    assert told.keys() == made.keys() == things.keys()
    return told, made


def sums(*mortal: Sum) -> dict[str, Sum]:
    """Things a to d with their numbers, some of them mortal."""
    numbered = [Sum(number) for number in range(4)]
    for thing in mortal:
        numbered[thing.number] = thing
    return dict(zip("abcd", numbered, strict=True))


ADDED = {"a": 0, "b": 5 + 10, "c": 10 + 20, "d": 15 + 30}


def test_each_thing_is_finished_by_the_process_that_has_begun_it() -> None:
    told, made = done(sums(), "ac", "db")
    assert {key: value for key, (value, _) in made.items()} == ADDED
    assert {key: process for key, (_, process) in made.items()} == told
    assert told["a"] == told["c"] != HERE
    assert told["b"] == told["d"] not in {HERE, told["a"]}


def test_copies_that_begin_later_are_no_different() -> None:
    at_work: Staying[int, int, int, tuple[int, int]] = Staying()
    things = sums()
    begun(at_work, things, "ab")
    begun(at_work, things, "c", "d")
    at_work.tell(5)
    told = at_work.first()
    at_work.ask({key: 10 * thing.number for key, thing in things.items()})
    made = at_work.last()
    at_work.end()
    assert {key: value for key, (value, _) in made.items()} == ADDED
    assert len(set(told.values())) == 3
    assert HERE not in told.values()


@pytest.mark.parametrize("step", ["begin", "first", "last"])
def test_what_a_copy_dies_of_is_done_here_from_the_start(step: str) -> None:
    _, made = done(sums(Sum(2, step)), "bc", "ad")
    assert {key: value for key, (value, _) in made.items()} == ADDED
    assert made["b"][1] == made["c"][1] == HERE
    assert made["a"][1] == made["d"][1] != HERE


def test_a_mistake_in_a_copy_is_raised_as_if_it_had_been_made_here() -> None:
    class Wrong(Sum):
        def last(self, asked: int) -> tuple[int, int]:
            raise ZeroDivisionError(str(asked))

    class WrongAtOnce(Sum):
        def begin(self) -> None:
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError, match="10"):
        done(sums(Wrong(1)), "ab", "cd")
    with pytest.raises(ZeroDivisionError):
        done(sums(WrongAtOnce(1)), "ab", "cd")


def test_copies_end_when_nobody_asks_them_for_more() -> None:
    at_work: Staying[int, int, int, tuple[int, int]] = Staying()
    begun(at_work, sums(), "ab")
    at_work.tell(5)
    process = at_work.first()["b"]
    at_work.end()
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)
    assert not at_work.first()


@pytest.mark.parametrize("number", [1, 2, 3, 9])
def test_shares_hold_everything_once_and_none_has_far_more_than_the_others(number: int) -> None:
    weights = dict(zip("abcdefg", [7.0, 1, 5, 3, 3, 2, 8], strict=True))
    shares = shares_of(weights, number)
    assert sorted(key for share in shares for key in share) == list(weights)
    loads = [sum(weights[key] for key in share) for share in shares]
    # whoever has the most had the least before its last thing, so no more than the mean
    assert max(loads) <= sum(weights.values()) / number + max(weights.values())
    assert all(shares)
