"""Processes that work on one task after another: none of the tasks is lost with a process."""

import os
from pathlib import Path

import pytest
from workflows.worker_tasks import doubled, fails_at_three, killed_at_three, killed_once

from sheetcalc.workflows.machine import cores
from sheetcalc.workflows.workers import Died, Workers


def test_workers_do_everything_once() -> None:
    with Workers[int, int](2, doubled) as workers:
        assert dict(workers.map(range(7))) == {n: 2 * n for n in range(7)}
        assert dict(workers.map([5])) == {0: 10}  # they wait for more


def test_a_task_that_kills_its_process_loses_no_other() -> None:
    with Workers[int, int](2, killed_at_three) as workers:
        made = dict(workers.map(range(6)))
    assert {n: m for n, m in made.items() if n != 3} == {n: 2 * n for n in range(6) if n != 3}
    assert made[3] == Died("it was ended by SIGKILL")


def test_a_task_whose_process_was_killed_is_tried_once_more(tmp_path: Path) -> None:
    with Workers[tuple[int, str], int](2, killed_once) as workers:
        made = dict(workers.map([(n, str(tmp_path)) for n in range(5)]))
    assert made == {n: 2 * n for n in range(5)}


def test_a_bug_is_told_and_ends_one_task_only(capfd: pytest.CaptureFixture[str]) -> None:
    with Workers[int, int](1, fails_at_three) as workers:
        made = dict(workers.map(range(5)))
    assert made[3] == Died("it ended with 1")
    assert made[4] == 8
    assert "ValueError: a bug" in capfd.readouterr().err


def test_workers_that_are_stopped_finish_what_they_have() -> None:
    with Workers[int, int](1, doubled) as workers:
        made = []
        for at, _ in workers.map(range(50)):
            made.append(at)
            workers.stop()
    assert 1 <= len(made) < 50


def test_cores_are_counted() -> None:
    assert 1 <= cores() <= (os.cpu_count() or 1)
