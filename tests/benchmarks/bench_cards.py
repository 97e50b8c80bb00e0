"""Time of the drawings of room cards; limit 40 ms a drawing.

Run by hand: ``python tests/benchmarks/bench_cards.py``.
"""

import statistics
import time
from pathlib import Path

from sheetcalc.drawing.draw import draw
from sheetcalc.drawing.room import room_plans
from sheetcalc.excel.reading.read import start_reading
from sheetcalc.takeoff import calculate
from sheetcalc.workbook.convert import to_inputs

SAMPLES = Path(__file__).resolve().parents[2] / "sample_workbooks"
LIMIT_MS = 40.0


def main() -> None:
    """Plan and draw every drawing of the samples at a full width of 186 by 130 mm."""
    print(f"{'sample':22} {'drawings':>8} {'median ms':>10} {'worst ms':>9} {'limit':>6}")  # noqa: T201 - a table for people
    for name in ("small-room.xlsx", "alder-street-us.xlsx", "larch-court.xlsx"):
        inputs, _ = to_inputs(start_reading(SAMPLES / name).result())
        if inputs is None:
            continue
        run = calculate(inputs)
        spent = []
        for work in run.works:
            start = time.perf_counter()
            plans = [plan for kind in room_plans(work, inputs.job) for plan in kind]
            planned = (time.perf_counter() - start) / max(len(plans), 1)
            for plan in plans:
                start = time.perf_counter()
                draw(plan, 186, 130)
                spent.append((time.perf_counter() - start + planned) * 1000)
        print(  # noqa: T201 - as above
            f"{name:22} {len(spent):8} {statistics.median(spent):10.1f} {max(spent):9.1f} "
            f"{LIMIT_MS:6.0f}"
        )


if __name__ == "__main__":
    main()
