"""Reading and checking 5,000 rooms, against openpyxl reading the same tabs twice.

Run by hand: ``pytest tests/benchmarks/bench_reading.py``.
"""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import openpyxl
import pytest

from sheetcalc.excel.generating.generate import write_book
from sheetcalc.excel.reading import read
from sheetcalc.workbook.blank import filled_book
from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workbook.inputs import INPUT_TABS

ROOMS = 5_000
MOST_TIMES = 2.0
TRIES = 3


@pytest.fixture(scope="module")
def large_book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    rooms = [
        {
            "Room": f"{number // 100}.{number % 100:02d}",
            "Count": 1,
            "Length": 1.8 + number % 7 / 10,
            "Width": "4' 11\"" if number % 5 == 0 else 1.5,
            "Finish": "Plain",
            "Handed": "yes" if number % 2 else "no",
            "Note": f"room number {number}",
        }
        for number in range(ROOMS)
    ]
    book = filled_book(
        "metric",
        {
            "Rooms": rooms,
            "Finishes": [{"Finish": "Plain", "Surface": "floor", "Tile": "T-1", "Joint": 3}],
            "Tiles": [
                {
                    "Code": "T-1",
                    "Description": "Tile",
                    "Length": 600,
                    "Width": 300,
                    "Thickness": 9,
                    "Pieces per box": 6,
                }
            ],
        },
        {"name": "Large"},
        title="5,000 rooms",
    )
    path = tmp_path_factory.mktemp("large") / "large.xlsx"
    path.write_bytes(write_book(book, load_house_style(), named_styles=True))
    yield path
    read.end_idle_children()


def best(run: Callable[[], None]) -> float:
    """Shortest of a few runs [s]."""
    times = []
    for _ in range(TRIES):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return min(times)


def test_reading_and_checking_takes_at_most_twice_openpyxls_own_two_passes(
    large_book: Path,
) -> None:
    def ours() -> None:
        inputs, findings = to_inputs(read.start_reading(large_book).result())
        assert inputs is not None
        assert len(inputs.rooms) == ROOMS
        assert not findings

    def openpyxls() -> None:
        tabs = {tab.key for tab in INPUT_TABS}
        for data_only in (False, True):
            book = openpyxl.load_workbook(large_book, read_only=True, data_only=data_only)
            for sheet in book.worksheets:
                if sheet.title in tabs:
                    for row in sheet.iter_rows():
                        _ = [cell.value for cell in row]
            book.close()

    ratio = best(ours) / best(openpyxls)
    assert ratio <= MOST_TIMES, f"{ratio:.2f} times openpyxl's own two passes"
