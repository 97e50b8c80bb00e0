"""Rooms of one workbook on several cores: the same in the same order, whatever happens to them."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterable, Sequence

import pytest

from sheetcalc.workflows.spreading import FEWEST, LARGEST_SHARE, OverCores

HERE = os.getpid()
FORKED = pytest.mark.skipif(sys.platform != "linux", reason="workers start afresh here")


def squares(things: Sequence[int]) -> Iterable[int]:
    for thing in things:
        yield thing * thing


def where(things: Sequence[int]) -> Iterable[int]:
    yield from (os.getpid() for _ in things)


def killed_at_seven(things: Sequence[int]) -> Iterable[int]:
    if 7 in things and os.getpid() != HERE:
        os.kill(os.getpid(), signal.SIGKILL)
    return squares(things)


def wrong_at_seven(things: Sequence[int]) -> Iterable[int]:
    for thing in things:
        if thing == 7:
            message = "seven"
            raise ZeroDivisionError(message)
        yield thing


@pytest.mark.parametrize("number", [0, 1, FEWEST, 7, LARGEST_SHARE * 8 + 1])
def test_everything_is_done_once_and_comes_in_order(number: int) -> None:
    things = list(range(number))
    assert list(OverCores(2)(squares, things)) == [n * n for n in things]


@FORKED
def test_many_things_are_done_by_others_and_few_here() -> None:
    assert HERE not in set(OverCores(2)(where, range(20)))
    assert set(OverCores(2)(where, range(FEWEST - 1))) == {HERE}
    assert set(OverCores(1)(where, range(20))) == {HERE}


@FORKED
def test_what_a_worker_dies_of_is_done_here() -> None:
    assert list(OverCores(2)(killed_at_seven, range(20))) == [n * n for n in range(20)]


@FORKED
def test_a_mistake_in_the_work_is_raised_as_if_it_had_been_done_here() -> None:
    with pytest.raises(ZeroDivisionError, match="seven"):
        list(OverCores(2)(wrong_at_seven, range(20)))


ASLEEP = """
import os, sys, time
from sheetcalc.workflows.spreading import OverCores
def asleep(things):
    os.write(1, f"{os.getpid()}\\n".encode())  # in one piece: two workers write at once
    time.sleep(0.5)
    return things
list(OverCores(2)(asleep, range(40)))
"""


@FORKED
def test_workers_end_when_their_parent_is_killed() -> None:
    with subprocess.Popen(  # noqa: S603 - this very interpreter
        [sys.executable, "-c", ASLEEP], stdout=subprocess.PIPE, text=True
    ) as parent:
        assert parent.stdout
        workers = {int(parent.stdout.readline()) for _ in range(2)}
        parent.kill()
    deadline = time.monotonic() + 20
    while any(_is_running(worker) for worker in workers):
        assert time.monotonic() < deadline
        time.sleep(0.05)


def _is_running(process: int) -> bool:
    try:
        with open(f"/proc/{process}/stat", encoding="utf-8") as stat:  # noqa: PTH123 - no path
            return stat.read().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@FORKED
def test_work_that_can_not_be_sent_is_done_by_copies_that_have_it_in_memory() -> None:
    squared = {n: n * n for n in range(20)}
    done_by: list[int] = []  # a copy's entries stay in the copy

    def look_up(places: Sequence[int]) -> Iterable[int]:
        for place in places:
            done_by.append(os.getpid())
            yield squared[place]

    assert list(OverCores(2)(look_up, range(20), in_memory=True)) == list(squared.values())
    assert done_by == []


def test_work_that_can_not_be_sent_is_done_here_where_workers_start_afresh(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "platform", "another")
    assert set(OverCores(2)(where, range(200), in_memory=True)) == {HERE}
