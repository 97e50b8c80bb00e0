"""Large blocks and many workbooks, as ratios to a process that only imports the libraries.

Run by hand on a machine with two free cores: ``python tests/benchmarks/bench_scale.py [ROUNDS
[ROOMS [BOOKS]]]``; by default four rounds of 1,000 rooms in 500 shapes and 200 workbooks of one
bathroom, which takes some minutes.  Everything is on but the room cards.  Each round measures
every case once, one after the other, so that a slow moment of the machine hits all alike; the
shortest of each is compared.  What is done on one core is held to one, with the child that reads
the workbook.  A plain loop in two processes against one tells what two cores of the machine are
worth: those of a shared machine may be less than two.

As in ``bench_takeoff.py`` every process may keep its compiled modules.
"""

import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from sheetcalc.excel.generating.generate import write_book  # noqa: E402
from sheetcalc.workbook.house_style import load_house_style  # noqa: E402
from tests.benchmarks.bench_takeoff import COMMAND, ENVIRONMENT, IMPORTS, measure  # noqa: E402
from tests.benchmarks.invented_block import write_block  # noqa: E402
from tests.samples import SAMPLES  # noqa: E402

SMALL_BLOCK = 100
SEPARATE = 10
"""So many workbooks are done in processes of their own; the time of all follows from theirs."""


def takeoff(*arguments: str) -> list[str]:
    """Command line of a takeoff without cards."""
    return [*COMMAND, "takeoff", "--quiet", "--no-cards", *arguments]


def on_a_copy(book: Path, workers: int) -> tuple[float, float]:
    """Seconds and peak memory [MB] of a takeoff of a workbook that has no results yet."""
    copy = book.with_name("copy.xlsx")
    shutil.copyfile(book, copy)
    return measure(takeoff("--workers", str(workers), str(copy)), on_one_core=workers == 1)


def folder_of(folder: Path, number: int) -> list[Path]:
    """Fill a folder with so many workbooks of one plain room, without results."""
    folder.mkdir()
    content = write_book(SAMPLES["small-room.xlsx"](), load_house_style(), named_styles=True)
    books = [folder / f"room-{at:03d}.xlsx" for at in range(number)]
    for book in books:
        book.write_bytes(content)
    return books


def separately(books: list[Path]) -> float:
    """Seconds for one workbook, each in a process of its own, two at a time."""
    start = time.perf_counter()
    running: list[subprocess.Popen[bytes]] = []
    for book in books:
        if len(running) == 2:
            running.pop(0).wait()
        running.append(
            subprocess.Popen(  # noqa: S603 - our own command
                takeoff("--workers", "1", str(book)), stdout=subprocess.DEVNULL, env=ENVIRONMENT
            )
        )
    for process in running:
        process.wait()
    return (time.perf_counter() - start) / len(books)


LOOP = [sys.executable, "-c", "for number in range(20_000_000): pass"]


def loops(at_once: int) -> float:
    """Seconds for a plain loop twice, in one process after the other or in two at once."""
    start = time.perf_counter()
    running: list[subprocess.Popen[bytes]] = []
    for _ in range(2):
        if len(running) == at_once:
            running.pop().wait()
        running.append(subprocess.Popen(LOOP))  # noqa: S603 - our own command
    for process in running:
        process.wait()
    return time.perf_counter() - start


def main(rounds: int, rooms: int, books: int) -> None:
    """Measure, and print a table with the limits beside."""
    found: dict[str, list[float]] = {}
    memory: list[float] = []
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        large, small = folder / "large.xlsx", folder / "small.xlsx"
        write_block(large, rooms, rooms // 2)
        write_block(small, SMALL_BLOCK, SMALL_BLOCK // 2)
        measure(IMPORTS)
        for number in range(rounds):
            apart = folder_of(folder / f"apart {number}", SEPARATE)
            together = folder / f"together {number}"
            folder_of(together, books)
            one, mb = on_a_copy(large, 1)
            memory.append(mb)
            for case, seconds in (
                ("imports", measure(IMPORTS, on_one_core=True)[0]),
                ("large, one worker", one),
                ("large, two workers", on_a_copy(large, 2)[0]),
                ("small, one worker", on_a_copy(small, 1)[0]),
                ("two loops, one core", loops(1)),
                ("two loops, two cores", loops(2)),
                ("a book alone", separately(apart)),
                ("a book of many", measure(takeoff("--workers", "2", str(together)))[0] / books),
            ):
                found.setdefault(case, []).append(seconds)
    best = {case: min(seconds) for case, seconds in found.items()}
    imports, one = best["imports"], best["large, one worker"]
    each, each_small = one / rooms, best["small, one worker"] / SMALL_BLOCK
    table = (
        (f"{rooms} rooms on one core / imports only", one / imports, "at most 30"),
        ("the same with two workers / one", best["large, two workers"] / one, "at most 0.6"),
        (
            "a plain loop with two processes / one: what this machine can do",
            best["two loops, two cores"] / best["two loops, one core"],
            "0.5 where cores are whole",
        ),
        (f"cost of a room: {rooms} / {SMALL_BLOCK} rooms", each / each_small, "at most 1.2"),
        ("memory [MB], the reading child apart", statistics.median(memory), "at most 600"),
        (
            f"{books} workbooks in one run: times the throughput of processes apart",
            best["a book alone"] / best["a book of many"],
            "at least 6",
        ),
    )
    for what, figure, limit in table:
        print(f"{what:72} {figure:8.2f}   {limit}")  # noqa: T201 - a table for people
    print("seconds:", {case: round(seconds, 3) for case, seconds in best.items()})  # noqa: T201


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    asked = [int(argument) for argument in sys.argv[1:]]
    main(*(*asked, *(4, 1000, 200)[len(asked) :]))
