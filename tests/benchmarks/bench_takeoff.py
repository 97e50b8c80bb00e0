"""Whole processes against one that only imports the libraries: time and memory, as ratios.

Run by hand: ``python tests/benchmarks/bench_takeoff.py [ROUNDS]``.  Rounds are interleaved, so
that a slow moment of the machine hits all alike; the middle of each is compared.

Every process may keep its compiled modules, as it does on anybody's machine: with
``PYTHONDONTWRITEBYTECODE`` set a third of a takeoff would be compiling.
"""

import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLES = ROOT / "sample_workbooks"
IMPORTS = [sys.executable, "-c", "import openpyxl, pandas, shapely, pint"]
ENVIRONMENT = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
COMMAND = [sys.executable, "-m", "sheetcalc"]


def measure(command: list[str], *, on_one_core: bool = False) -> tuple[float, float]:
    """Seconds and peak memory [MB] of a process, its children's memory not counted.

    On one core, where the system can hold it to one, its children are too: a workbook is read by
    a process of its own, which would otherwise run beside.
    """
    cores = os.sched_getaffinity(0) if hasattr(os, "sched_getaffinity") else set()
    if on_one_core and cores:
        os.sched_setaffinity(0, {min(cores)})
    start = time.perf_counter()
    process = subprocess.Popen(  # noqa: S603 - our own commands
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=ENVIRONMENT
    )
    if cores:
        os.sched_setaffinity(0, cores)
    _, status, usage = os.wait4(process.pid, 0)
    seconds = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:  # what fails early would look quick
        sys.exit(f"{command} ended with {process.returncode}")
    return seconds, usage.ru_maxrss / 1024


def main(rounds: int) -> None:
    """Measure each case ``rounds`` times and print a table."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        for name in ("small-room.xlsx", "larch-court.xlsx"):
            shutil.copyfile(SAMPLES / name, folder / name)
        small, block = str(folder / "small-room.xlsx"), str(folder / "larch-court.xlsx")
        cases = {
            "imports only": (IMPORTS, None),
            "takeoff of one plain room": ([*COMMAND, "takeoff", small], 2.0),
            "takeoff of 48 bathrooms": ([*COMMAND, "takeoff", block], 3.0),
            "--help": ([*COMMAND, "--help"], 0.3),
            "explain tile": ([*COMMAND, "explain", "tile"], 0.3),
        }
        found: dict[str, list[tuple[float, float]]] = {case: [] for case in cases}
        for _ in range(rounds + 1):  # the first warms the disk and is dropped
            for case, (command, _) in cases.items():
                found[case].append(measure(command))
    base = statistics.median(seconds for seconds, _ in found["imports only"][1:])
    base_mb = statistics.median(mb for _, mb in found["imports only"][1:])
    print(f"{'case':28} {'seconds':>8} {'ratio':>6} {'limit':>6} {'MB':>6} {'ratio':>6}")  # noqa: T201 - a table for people
    for case, runs in found.items():
        seconds = statistics.median(s for s, _ in runs[1:])
        mb = statistics.median(m for _, m in runs[1:])
        limit = cases[case][1]
        print(  # noqa: T201 - as above
            f"{case:28} {seconds:8.3f} {seconds / base:6.2f} {limit or '':>6} "
            f"{mb:6.0f} {mb / base_mb:6.2f}"
        )
    print("memory limit for 48 bathrooms: 1.5 (the reading child is not counted)")  # noqa: T201


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
