"""Processes that work on one task after another, so that a task that ends its process ends no more.

A pool of the standard library breaks as a whole when one of its processes dies.  Here each worker
has a line of its own to the parent, so it is known which task a worker had in hand: it is tried
once more in a new process, and reported if it ends that one too.  Workers are started afresh,
which is alike on every system, unless they are asked to be forked.
"""

import contextlib
import multiprocessing
import os
import signal
import sys
import traceback
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from multiprocessing.connection import Connection, wait
from typing import TYPE_CHECKING, Any, Final, Generic, TypeAlias, TypeVar

from msgspec import Struct

from sheetcalc.workflows.machine import one_thread_each

if TYPE_CHECKING:
    from multiprocessing.context import BaseContext
    from multiprocessing.process import BaseProcess

Given = TypeVar("Given")
Made = TypeVar("Made")

TASKS_A_WORKER: Final = 500
"""A worker is replaced after so many tasks, so that its memory does not wear out."""

_TRIES: Final = 2
_SECONDS_TO_END: Final = 5.0


class Died(Struct, frozen=True):
    """What became of a task that ended its worker; ``why`` in a few words."""

    why: str


class Workers(Generic[Given, Made]):
    """A few processes that do the same to many things.

    Parameters
    ----------
    number
        Processes at most.
    work
        What is done to each; it is sent to the processes, so it must be importable.
    get_ready
        Called once in each process, while it waits for its first task.
    forked
        Whether they are copies of this process: at once there, with all that it has in memory.
    """

    def __init__(
        self,
        number: int,
        work: Callable[[Given], Made],
        get_ready: Callable[[], None] | None = None,
        *,
        forked: bool = False,
    ) -> None:
        self._context = multiprocessing.get_context("fork" if forked else "spawn")
        self._number = max(1, number)
        self._work = work
        self._get_ready = get_ready
        self._there: list[Worker] = []
        self._stopping = False

    def __enter__(self) -> "Workers[Given, Made]":
        """Use as a context: ends the processes at its end."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the processes; what they have in hand is not waited for."""
        for worker in self._there:
            worker.end()
        self._there.clear()

    def start(self, tasks: int) -> None:
        """Have the processes there before the tasks are, not more of them than tasks."""
        while len(self._there) < min(self._number, tasks):
            self._add()

    def stop(self) -> None:
        """Hand out no more tasks; those in hand are finished."""
        self._stopping = True

    def map(self, tasks: Sequence[Given]) -> Iterator[tuple[int, Made | Died]]:
        """Do the work to each task.

        Yields
        ------
        tuple
            Place of the task, and what was made of it, in the order in which they are done.
        """
        waiting = deque((at, 1) for at in range(len(tasks)))
        while True:
            self._hand_out(tasks, waiting)
            busy = [worker for worker in self._there if worker.task is not None]
            if not busy:
                return
            for ready in wait([worker.line for worker in busy]):
                worker = next(w for w in busy if w.line is ready)
                at, tries = worker.task or (0, 0)
                answer = worker.answer()
                if isinstance(answer, Died):
                    self._there.remove(worker)
                    if answer.why.startswith(_BY_SIGNAL) and tries < _TRIES:
                        waiting.appendleft((at, tries + 1))
                        continue
                elif worker.done >= TASKS_A_WORKER:
                    self._there.remove(worker)
                    worker.end()
                yield at, answer

    def _hand_out(self, tasks: Sequence[Given], waiting: deque[tuple[int, int]]) -> None:
        while waiting and not self._stopping:
            idle = next((worker for worker in self._there if worker.task is None), None)
            if idle is None:
                if len(self._there) >= self._number:
                    return
                idle = self._add()
            task = waiting.popleft()
            idle.ask(task, tasks[task[0]])

    def _add(self) -> "Worker":
        lines = [worker.line for worker in self._there]
        worker = Worker(self._context, self._work, self._get_ready, lines)
        self._there.append(worker)
        return worker


_Task: TypeAlias = tuple[int, int]
"""Place of a task, and which try this is."""

_BY_SIGNAL: Final = "it was ended"


class Worker:
    """One process and the line to it."""

    def __init__(
        self,
        context: "BaseContext",
        work: Callable[[Any], Any],
        get_ready: Callable[[], None] | None,
        lines: Sequence["Connection[Any, Any]"],
    ) -> None:
        one_thread_each()
        self.line, other = context.Pipe()
        self.task: _Task | None = None
        self.done = 0
        # a copy of this process holds this end of every line, and would keep the others waiting
        # for ever if this process were killed
        inherited = (*lines, self.line) if context.get_start_method() == "fork" else ()
        self._process: BaseProcess = context.Process(  # type: ignore[attr-defined]
            target=_attend, args=(other, work, get_ready, inherited), daemon=True
        )
        self._process.start()
        other.close()

    def ask(self, task: _Task, given: object) -> None:
        """Send a task; a process that is gone shows when its answer is read."""
        self.task = task
        with contextlib.suppress(OSError):
            self.line.send(given)

    def answer(self) -> Any:  # noqa: ANN401 - whatever the work makes
        """Take the answer that is there, or find out how the process ended."""
        self.task = None
        self.done += 1
        try:
            return self.line.recv()
        except (EOFError, OSError):
            self._process.join(_SECONDS_TO_END)
            status = self._process.exitcode
            self.line.close()
            if status is not None and status < 0:
                return Died(f"{_BY_SIGNAL} by {_signal_name(-status)}")
            return Died(f"it ended with {status}")

    def end(self) -> None:
        """End the process; whatever it writes is whole, before or after."""
        self.line.close()
        if self.task is None:  # it ends by itself, and takes its own helpers along
            self._process.join(_SECONDS_TO_END)
        if self._process.is_alive():
            self._process.terminate()
            self._process.join(_SECONDS_TO_END)


def _signal_name(number: int) -> str:
    try:
        return signal.Signals(number).name
    except ValueError:
        return f"signal {number}"


def _attend(
    line: "Connection[Any, Any]",
    work: Callable[[Any], Any],
    get_ready: Callable[[], None] | None,
    inherited: Sequence["Connection[Any, Any]"] = (),
) -> None:
    """Do tasks until the line ends.  What a person interrupts is the parent's to decide."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for held in inherited:
        held.close()
    try:
        if get_ready is not None:
            get_ready()
        while True:
            try:
                given = line.recv()
            except (EOFError, OSError):
                return
            line.send(work(given))
    except BrokenPipeError:  # the parent is gone
        return
    except BaseException:  # noqa: BLE001 - a bug: told, never hidden, and this process ends
        traceback.print_exc()
        sys.stderr.flush()
        os._exit(1)
