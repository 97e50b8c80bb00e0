"""Many workbooks at once: one after the other here, in a few processes, or on a cluster.

Whichever way is taken, every workbook comes out the same to the byte, and the reports come in the
order in which the workbooks were named.
"""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal, TypeAlias

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.progress import Progress, silent
from sheetcalc.workflows.check_book import check
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.report import BookReport, in_trouble
from sheetcalc.workflows.take_off import takeoff

if TYPE_CHECKING:
    from sheetcalc.workflows.workers import Died

POOL_FROM: Final = 3
"""Fewer workbooks are done sooner here than processes are started for them."""

ForBook: TypeAlias = Callable[[str], Progress]
"""Told the name of a workbook that is begun, or done; gives what hears of its stages."""


class InterruptedRunError(Exception):
    """A person stopped the run: workbooks in hand were finished, others not begun.

    Attributes
    ----------
    left
        Workbooks that were not begun.
    """

    def __init__(self, left: int) -> None:
        self.left = left
        super().__init__(f"{left} workbooks were not begun")


class NoClusterError(Exception):
    """The cluster's library is not installed, or nothing answers at its address."""


class BookCommand(Struct, frozen=True):
    """What is done to each workbook; it can be sent to another process.

    Attributes
    ----------
    name
        ``takeoff`` or ``check``.
    leave_out_faulty, cards, templates
        As for ``takeoff``; ``check`` has words from the templates.
    cores
        Processes that share the rooms of one workbook; None for one a core.
    """

    name: Literal["takeoff", "check"]
    leave_out_faulty: bool = False
    cards: bool = True
    templates: Path | None = None
    cores: int | None = None

    def __call__(self, book: Path, progress: Progress | None = None) -> BookReport:
        """Do it to one workbook."""
        step = progress or silent
        if self.name == "check":
            return check(book, step, cores=self.cores, templates=self.templates)
        return takeoff(
            book,
            step,
            leave_out_faulty=self.leave_out_faulty,
            cards=self.cards,
            templates=self.templates,
            cores=self.cores,
        )


def run_books(  # noqa: PLR0913 - the command, who does it, and who is told
    paths: Sequence[Path],
    command: BookCommand,
    *,
    for_book: ForBook = lambda _name: silent,
    workers: int | None = None,
    cluster: str | None = None,
    warn: Callable[[str], None] = lambda _message: None,
) -> Iterator[BookReport]:
    """Do a command to every workbook.

    Parameters
    ----------
    paths
        Workbooks.
    command
        What is done to each.
    for_book
        Told of every workbook.
    workers
        Processes; by default as many as there are cores.  They share the workbooks where there
        are three or more, and else the rooms of each.
    cluster
        Address of a cluster's scheduler, whose workers see the same files.
    warn
        Told what a person should know meanwhile.

    Yields
    ------
    BookReport
        One a workbook, in the order given.

    Raises
    ------
    InterruptedRunError
        After the reports of what was done; a second interruption stops at once.
    NoClusterError
        Where the cluster can't be used.
    """
    from sheetcalc.workflows.machine import cores

    on_one = replace(command, cores=1)
    if cluster is not None:
        yield from _in_order(paths, _on_cluster(paths, on_one, cluster), for_book)
        return
    number = min(len(paths), workers or (cores() if len(paths) >= POOL_FROM else 1))
    if number > 1:
        yield from _in_order(paths, _in_processes(paths, on_one, number, warn), for_book)
        return
    command = replace(command, cores=workers)
    for path in paths:
        yield command(path, for_book(path.name))


def _in_order(
    paths: Sequence[Path], done: Iterator[tuple[int, BookReport]], for_book: ForBook
) -> Iterator[BookReport]:
    """Hold reports back until those before them are there."""
    held: dict[int, BookReport] = {}
    at = 0
    try:
        for place, report in done:
            for_book(paths[place].name)
            held[place] = report
            while at in held:
                yield held.pop(at)
                at += 1
    except InterruptedRunError:
        for place in sorted(held):
            yield held[place]
        raise


def _in_processes(
    paths: Sequence[Path], command: BookCommand, number: int, warn: Callable[[str], None]
) -> Iterator[tuple[int, BookReport]]:
    from sheetcalc.workflows.workers import Died, Workers

    with Workers(number, command, _get_ready) as workers, interruptible(workers.stop, warn):
        done = 0
        for at, made in workers.map(paths):
            done += 1
            yield at, died(paths[at], made) if isinstance(made, Died) else made
    if done < len(paths):
        raise InterruptedRunError(len(paths) - done)


def _get_ready() -> None:
    from sheetcalc.excel.reading.read import start_child

    start_child()
    load_calculation()


@contextmanager
def interruptible(stop: Callable[[], object], warn: Callable[[str], None]) -> Iterator[None]:
    """Let the first interruption stop the handing out only; the second is as always."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.getsignal(signal.SIGINT)

    def on_interrupt(_number: int, _frame: object) -> None:
        signal.signal(signal.SIGINT, before)
        warn("finishing the workbooks in hand; interrupt again to stop at once")
        stop()

    signal.signal(signal.SIGINT, on_interrupt)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def _on_cluster(
    paths: Sequence[Path], command: BookCommand, address: str
) -> Iterator[tuple[int, BookReport]]:
    from sheetcalc.workflows.workers import Died

    try:
        from sheetcalc.cluster import run_on_cluster
    except ImportError as missing:
        message = f"a cluster needs dask.distributed: pip install 'sheetcalc[cluster]' ({missing})"
        raise NoClusterError(message) from missing
    try:
        for at, report, why in run_on_cluster(address, command, [p.resolve() for p in paths]):
            yield at, report if report is not None else died(paths[at], Died(why))
    except OSError as trouble:
        message = f"no cluster answers at {address}: {trouble}"
        raise NoClusterError(message) from trouble


def died(book: Path, how: "Died") -> BookReport:
    """Report of a workbook whose process ended before its time."""
    from sheetcalc.excel.opc.errors import FileTrouble

    return in_trouble(book, FileTrouble("PROCESS-ENDED", {"file": book.name, "why": how.why}))
