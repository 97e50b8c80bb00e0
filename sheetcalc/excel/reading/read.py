"""Read a workbook in a child process, while the parent does something else.

The child reads with limits of memory and time; whatever becomes of it, the parent gets records or
``Refused``.  An idle child is kept for the next workbook, for its start is what costs.
"""

import atexit
import contextlib
import json
import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path
from threading import Lock, Thread
from typing import IO, Any

from sheetcalc.excel.opc.errors import Refused
from sheetcalc.excel.reading.answer import book_from, request_for
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.raw import RawBook

SECONDS = 60.0
"""How long the parent waits for an answer; the child's own limit is in processor time."""

BOOKS_PER_CHILD = 100
"""A child is replaced after so many workbooks, so that its memory does not wear out."""

CPU_SECONDS = 9
"""Processor time that the child may take for one workbook [s]."""

_MOST_WORDS = 300
_SECONDS_TO_END = 5.0


class _Child:
    """One reading process."""

    def __init__(self) -> None:
        self._errors: IO[bytes] = tempfile.TemporaryFile()  # noqa: SIM115 (lives with the process)
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-W", "ignore", "-m", "sheetcalc.excel.reading.reading_child"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=self._errors,
            env=_environment(),
        )
        self.owner = os.getpid()
        self.books = 0

    def ask(self, request: dict[str, Any]) -> None:
        """Send a request; a child that is gone shows when the answer is read."""
        self.books += 1
        stream = self._process.stdin
        if stream is not None:
            with contextlib.suppress(OSError):
                stream.write(json.dumps(request).encode() + b"\n")
                stream.flush()

    def answer(self) -> bytes:
        """Wait for one line; empty when the process has ended."""
        return self._process.stdout.readline() if self._process.stdout else b""

    def _status(self) -> int | None:
        """Exit status, once the output has ended; None where the process goes on."""
        with contextlib.suppress(subprocess.TimeoutExpired):
            return self._process.wait(_SECONDS_TO_END)
        return None

    @property
    def ran_out_of_time(self) -> bool:
        """Whether the system ended the process for its processor time."""
        limit = getattr(signal, "SIGXCPU", None)
        return limit is not None and self._status() == -limit

    def last_words(self) -> str:
        """Return how the process ended."""
        status = self._status()
        self._errors.seek(0)
        lines = self._errors.read().decode(errors="replace").strip().splitlines()
        return (lines[-1] if lines else f"the reading process ended with {status}")[:_MOST_WORDS]

    @property
    def process_id(self) -> int:
        """Number of the process."""
        return self._process.pid

    def kill(self) -> None:
        """End the process while someone waits for its answer."""
        self._process.kill()

    def end(self) -> None:
        """End the process; it has nothing to lose."""
        if self.owner == os.getpid():
            self._process.kill()
            self._process.wait()
        for stream in (self._process.stdin, self._process.stdout, self._errors):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()


def _environment() -> dict[str, str]:
    """Let the child find the package where this process found it, and nothing in the cwd."""
    environment = dict(os.environ)
    root = str(Path(__file__).resolve().parents[3])
    if any(Path(entry or ".").resolve() == Path(root) for entry in sys.path):
        known = environment.get("PYTHONPATH")
        environment["PYTHONPATH"] = os.pathsep.join([root, known] if known else [root])
    return environment


_idle: list[_Child] = []
_lock = Lock()


def _take() -> _Child:
    with _lock:
        while _idle:
            child = _idle.pop()
            if child.owner == os.getpid():
                return child
    return _Child()


def _give_back(child: _Child) -> None:
    if child.books >= BOOKS_PER_CHILD:
        child.end()
        return
    with _lock:
        _idle.append(child)


def end_idle_children() -> None:
    """End the reading processes that wait for a next workbook."""
    with _lock:
        while _idle:
            _idle.pop().end()


atexit.register(end_idle_children)


def start_child() -> None:
    """Start a reading process for the next workbook, while this process gets ready itself."""
    _give_back(_Child())


def _gave_up(seconds: float) -> Refused:
    return Refused("READING-TAKES-TOO-LONG", {"seconds": f"{seconds:g}"})


def _failed(why: str) -> Refused:
    return Refused("READING-FAILED", {"why": why})


class PendingBook:
    """A workbook that is being read."""

    def __init__(self, path: Path, tabs: Iterable[Tab] = (), *, whole: bool = False) -> None:
        self._path = str(path)
        self._child = _take()
        self._line = b""
        request = {"path": self._path, "whole": True} if whole else request_for(self._path, tabs)
        self._child.ask(request | {"cpu_seconds": CPU_SECONDS})
        # a thread, so that a long answer is taken off the pipe while this process imports
        self._thread = Thread(target=self._listen, daemon=True)
        self._thread.start()

    def _listen(self) -> None:
        self._line = self._child.answer()

    @property
    def process_id(self) -> int:
        """Number of the process that reads."""
        return self._child.process_id

    def kill(self) -> None:
        """Give the reading up, at once."""
        self._child.kill()

    def result(self, seconds: float = SECONDS) -> RawBook:
        """Wait for the records.

        Raises
        ------
        Refused
            When the file may not be read, or reading it took too long or ended the child.
        """
        return book_from(self._path, self.answer(seconds))

    def answer(self, seconds: float = SECONDS) -> dict[str, Any]:
        """Wait for the child's answer, as plain data.

        Raises
        ------
        Refused
            When the file may not be read, or reading it took too long or ended the child.
        """
        self._thread.join(seconds)
        if self._thread.is_alive():
            self._child.end()
            raise _gave_up(seconds)
        if not self._line:
            ended = (
                _gave_up(CPU_SECONDS)
                if self._child.ran_out_of_time
                else _failed(self._child.last_words())
            )
            self._child.end()
            raise ended
        _give_back(self._child)
        answer: dict[str, Any] = json.loads(self._line)
        if "refused" in answer:
            raise Refused(answer["refused"], answer["facts"])
        return answer


def start_reading(path: Path, tabs: Iterable[Tab] | None = None) -> PendingBook:
    """Start to read a workbook in a child process, at once.

    Parameters
    ----------
    path
        The workbook.
    tabs
        What to look for; by default every input tab, and the result tabs that people type in.
    """
    return PendingBook(path, default_tabs() if tabs is None else tuple(tabs))


def default_tabs() -> tuple[Tab, ...]:
    """Every input tab, and the result tabs that have columns for people to type in."""
    from sheetcalc.workbook.inputs import INPUT_TABS  # noqa: PLC0415 (data of this size is late)
    from sheetcalc.workbook.results_tabs import RESULT_TABS  # noqa: PLC0415

    return INPUT_TABS + tuple(t for t in RESULT_TABS if any(c.typed for c in t.columns))
