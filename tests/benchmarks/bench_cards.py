"""Processor time of the drawings of room cards; limit 40 ms a drawing.

Run by hand: ``python tests/benchmarks/bench_cards.py``.  Each drawing is made three times and the
least counts, with its share of what planning all of its room's takes; the first of a process,
which loads the font, stands apart.  The crowded floor is no bathroom: 1,250 small tiles round 20
columns, a quarter of them cut, each with its name.
"""

import statistics
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TypeVar

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from pace import machine
from tiling_jobs import run_of
from workbook.raw_books import PLAIN_FINISH, PLAIN_TILE, Values

from sheetcalc.domain.run import Run
from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.room import room_plans
from sheetcalc.drawing.words import Legend
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs

SAMPLES = Path(__file__).resolve().parents[2] / "sample_workbooks"
LIMIT_MS = 40.0
ROUNDS = 3

Made = TypeVar("Made")


def main() -> None:
    """Plan and draw every drawing at a full width of 186 by 130 mm."""
    print(machine())  # noqa: T201 - beside the milliseconds
    print(f"{'job':18} {'drawings':>8} {'first ms':>9} {'median':>7} {'worst':>6} {'limit':>6}")  # noqa: T201 - a table for people
    jobs = {name: _sample(name) for name in ("small-room", "alder-street-us", "larch-court")}
    for name, run in {**jobs, "crowded floor": _crowded()}.items():
        spent = list(_spent_ms(run))
        print(  # noqa: T201 - as above
            f"{name:18} {len(spent):8} {spent[0][0]:9.1f} "
            f"{statistics.median(least for _, least in spent):7.1f} "
            f"{max(least for _, least in spent):6.1f} {LIMIT_MS:6.0f}"
        )


def _spent_ms(run: Run) -> Iterator[tuple[float, float]]:
    """Time of each different drawing: at first, and at its best [ms]."""
    seen = set()
    legend = Legend(run.inputs.job)
    for work in run.works:
        first_plan, planned, kinds = _timed_ms(lambda work=work: room_plans(work, legend))
        plans = [plan for kind in kinds for plan in kind]
        for plan in plans:
            first, least, png = _timed_ms(lambda plan=plan: draw(plan, 186, 130))
            if png not in seen:
                seen.add(png)
                yield first + first_plan / len(plans), least + planned / len(plans)


def _timed_ms(work: Callable[[], Made]) -> tuple[float, float, Made]:
    spent = []
    for _ in range(ROUNDS):
        start = time.process_time()
        made = work()
        spent.append((time.process_time() - start) * 1000)
    return spent[0], min(spent), made


def _sample(name: str) -> Run:
    raw = start_reading(SAMPLES / f"{name}.xlsx").result()
    inputs, findings = to_inputs(raw)
    assert inputs is not None, findings
    return calculate(inputs)


def _crowded() -> Run:
    columns: list[Values] = [
        {
            "Room": "1", "Kind": "column", "Piece": f"C{n}", "Diameter": 300,
            "Left": 0.6 + 0.8 * (n % 5), "Front": 0.6 + 0.8 * (n // 5),
        }
        for n in range(20)
    ]  # fmt: skip
    return run_of(
        Rooms=[{"Room": "1", "Length": 5.0, "Width": 5.0, "Finish": "Plain"}],
        Floor_pieces=columns,
        Finishes=[{**PLAIN_FINISH, "Bond": "offset 1/3"}],
        Tiles=[{**PLAIN_TILE, "Length": 200, "Width": 100}],
    )


if __name__ == "__main__":
    main()
