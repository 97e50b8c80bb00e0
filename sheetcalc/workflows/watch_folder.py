"""``sheetcalc watch``: recalculate each workbook of a folder when it has been saved and closed."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING, Final, TypeAlias

from msgspec import Struct, field
from msgspec.structs import replace

from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.many_books import BookCommand, died, interruptible
from sheetcalc.workflows.report import BookReport, find_books

if TYPE_CHECKING:
    from sheetcalc.workflows.workers import Workers

SETTLE_SECONDS: Final = 1.0
"""A file that has not changed for so long is taken for saved."""

RESCAN_SECONDS: Final = 1.0
"""Network drives tell nothing of changes made elsewhere, so the folder is looked through anyway."""

IN_USE: Final = 4

State: TypeAlias = tuple[int, int]
"""Size and time of the last change of a file [bytes, ns]."""


class _Changed(Struct):
    """A workbook that differs from what was last seen of it."""

    state: State
    since: float
    told: bool = False


class FolderWatch(Struct):
    """Which workbooks of a folder are due; knows no clock and starts nothing.

    Attributes
    ----------
    folder
        Its workbooks are watched; folders within are not.
    settle
        Seconds that a file must have been left alone.
    """

    folder: Path
    settle: float = SETTLE_SECONDS
    _seen: dict[Path, State] = field(default_factory=dict)
    _changed: dict[Path, _Changed] = field(default_factory=dict)

    def begin(self) -> int:
        """Take every workbook for seen, as it is; return how many there are."""
        self._seen = dict(_states(self.folder))
        return len(self._seen)

    @property
    def is_waiting(self) -> bool:
        """Whether a workbook has changed that is not done yet."""
        return bool(self._changed)

    def look(self, now: float) -> list[Path]:
        """Look through the folder; give the workbooks that were saved and are closed.

        Parameters
        ----------
        now
            Seconds on any clock that does not go back.
        """
        from sheetcalc.excel.saving.save_lock import other_locks

        states = dict(_states(self.folder))
        self._seen = {path: state for path, state in self._seen.items() if path in states}
        changed: dict[Path, _Changed] = {}
        for path, state in states.items():
            if state == self._seen.get(path):
                continue
            known = self._changed.get(path)
            if known is None:
                changed[path] = _Changed(state, now)
            elif known.state == state:
                changed[path] = known
            else:  # still being written: whoever was told that it is open knows
                changed[path] = _Changed(state, now, known.told)
        self._changed = changed
        return [
            path
            for path, change in changed.items()
            if now - change.since >= self.settle and not other_locks(path)
        ]

    def open_ones(self) -> Iterator[Path]:
        """Give changed workbooks that are open in a program, each once until it is done."""
        from sheetcalc.excel.saving.save_lock import other_locks

        for path, change in self._changed.items():
            if not change.told and other_locks(path):
                change.told = True
                yield path

    def done(self, report: BookReport, now: float) -> bool:
        """Note what became of a workbook; tell whether that is news.

        What was written is seen, so that it is not taken for a change.  A file that is in use is
        tried again later, and told of once.
        """
        change = self._changed.get(report.path)
        if report.exit_code == IN_USE and change is not None:
            news, change.told, change.since = not change.told, True, now
            return news
        self._changed.pop(report.path, None)
        if change is not None and report.written != report.path:
            # as it was when it was read: what came after that is another change
            self._seen[report.path] = change.state
        if report.written is not None:
            with suppress(OSError):
                self._seen[report.written] = _state(report.written)
        return True


def _state(path: Path) -> State:
    facts = path.stat()
    return facts.st_size, facts.st_mtime_ns


def _states(folder: Path) -> Iterator[tuple[Path, State]]:
    for path in find_books([folder]):
        with suppress(OSError):  # gone since it was listed
            yield path, _state(path)


def watch(  # noqa: PLR0913 - what is watched, what is done, and who is told
    folder: Path,
    command: BookCommand,
    tell: Callable[[BookReport], None],
    *,
    say: Callable[[str], None] = lambda _message: None,
    stop: Event | None = None,
    settle: float = SETTLE_SECONDS,
) -> None:
    """Recalculate each workbook of a folder when it has been saved and closed.

    The work is done in a process of its own, so that a workbook that ends it ends no more than
    that.  A file that is open in a program is never touched.

    Parameters
    ----------
    folder
        Watched until ``stop`` is set, a person interrupts, or the folder is gone.
    command
        What is done to each workbook.
    tell
        Told what became of each.
    say
        Told that the watch began, what it waits for, and that it ended.
    stop
        Set to end the watch.
    settle
        Seconds that a file must have been left alone.
    """
    from sheetcalc.watching import FolderChanges
    from sheetcalc.workflows.workers import Workers

    ended = stop or Event()
    state = FolderWatch(folder, settle)

    def end() -> None:
        ended.set()
        changes.wake()

    with (
        FolderChanges(folder) as changes,
        Workers(1, replace(command, cores=1), load_calculation) as workers,
        interruptible(end, say),
    ):
        number = state.begin()
        say(f"watching {number} workbooks in {folder}; Ctrl-C ends it")
        while not ended.is_set() and folder.is_dir():
            changes.wait(settle / 4 if state.is_waiting else RESCAN_SECONDS)
            for path in state.look(time.monotonic()):
                if not ended.is_set():
                    _do(path, state, workers, tell)
            for path in state.open_ones():
                say(f"{path}: changed, and still open: it is done when it is closed")
    say(f"no longer watching {folder}")


def _do(
    path: Path,
    state: FolderWatch,
    workers: "Workers[Path, BookReport]",
    tell: Callable[[BookReport], None],
) -> None:
    from sheetcalc.workflows.workers import Died

    for _, made in workers.map([path]):
        report = died(path, made) if isinstance(made, Died) else made
        if state.done(report, time.monotonic()):
            tell(report)
