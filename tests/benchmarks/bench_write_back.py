"""Write-back into a large book of a user's, against loading and saving it with openpyxl.

``python tests/benchmarks/bench_write_back.py`` prints the figures; it ends with 1 where one of
them misses its mark.  All of them are taken in one run, each in a process of its own.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import xlsxwriter

ROWS, COLUMNS = 50_000, 10
PICTURE_BYTES = 60 * 1024 * 1024
FASTER_BY = 40.0
MEMORY_FACTOR, MEMORY_MORE = 3.0, 150 * 1024 * 1024

_WORK = {
    "write back": """
from sheetcalc.excel.saving import safe_save, write_back
from grafting import fresh_book
fresh, placements = fresh_book(rows=200)
start = time.perf_counter()
write_back.add_tabs(path, fresh, placements, expected=safe_save.fingerprint(path), inspected=True)
""",
    "look over and write back": """
from sheetcalc.excel.saving import safe_save, write_back
from grafting import fresh_book
fresh, placements = fresh_book(rows=200)
start = time.perf_counter()
write_back.add_tabs(path, fresh, placements, expected=safe_save.fingerprint(path))
""",
    "openpyxl": """
import openpyxl
start = time.perf_counter()
openpyxl.load_workbook(path).save(path)
""",
    "copy thrice, hash twice": """
import hashlib, os, shutil
def copy(number):
    with path.open("rb") as source, open(f"{path}.{number}", "wb") as out:
        shutil.copyfileobj(source, out, 1 << 20)
        out.flush()
        os.fsync(out.fileno())
def digest():
    with path.open("rb") as file:
        hashlib.file_digest(file, "sha256")
start = time.perf_counter()
for number in range(3):
    copy(number)
for _ in range(2):
    digest()
""",
}
_FRAME = """
import json, resource, sys, time
from pathlib import Path
sys.path.insert(0, {tests!r})
path = Path(sys.argv[1])
{work}
seconds = time.perf_counter() - start
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024
print(json.dumps([seconds, peak]))
"""


def measure(work: str, book: Path, times: int = 3) -> tuple[float, int]:
    """Best time [s] and its peak memory [bytes] of some work on copies of a book."""
    tests = str(Path(__file__).resolve().parents[1])
    code = _FRAME.format(tests=tests, work=_WORK[work])
    found: list[tuple[float, int]] = []
    for _ in range(times):
        with tempfile.TemporaryDirectory(dir=book.parent) as folder:
            copy = Path(folder) / book.name
            shutil.copyfile(book, copy)
            os.sync()
            result = subprocess.run(  # noqa: S603 - this very interpreter
                [sys.executable, "-c", code, str(copy)], check=True, capture_output=True, text=True
            )
        seconds, peak = json.loads(result.stdout)
        found.append((seconds, peak))
    return min(found)


def large_book(path: Path) -> Path:
    """A book of 500,000 cells: numbers, texts, formulas."""
    with xlsxwriter.Workbook(path, {"constant_memory": True}) as book:
        sheet = book.add_worksheet("Prices")
        for row in range(ROWS):
            sheet.write_string(row, 0, f"item {row}")
            for column in range(1, COLUMNS - 1):
                sheet.write_number(row, column, row * column / 7)
            sheet.write_formula(
                row, COLUMNS - 1, f"=SUM(B{row + 1}:I{row + 1})", None, row * 36 / 7
            )
    return path


def book_with_pictures(path: Path) -> Path:
    """A small book with 60 MiB of what does not compress."""
    import zipfile  # noqa: PLC0415 - used here only

    with xlsxwriter.Workbook(path) as book:
        book.add_worksheet("Photos").write_string("A1", "see the photos")
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as package:
        for number in range(12):
            package.writestr(f"xl/media/photo{number}.jpeg", os.urandom(PICTURE_BYTES // 12))
    return path


def main(say: Callable[[str], None] = print) -> int:
    """Take every figure; 1 where one misses its mark."""
    missed = 0

    def judge(what: str, figure: float, mark: float, *, at_least: bool) -> None:
        nonlocal missed
        good = figure >= mark if at_least else figure <= mark
        missed += not good
        word = "at least" if at_least else "at most"
        say(f"{'ok  ' if good else 'MISS'} {what}: {figure:.2f} ({word} {mark:.2f})")

    with tempfile.TemporaryDirectory() as folder:
        book = large_book(Path(folder) / "large.xlsx")
        size = book.stat().st_size
        seconds, peak = measure("write back", book)
        looked, _ = measure("look over and write back", book)
        slow, slow_peak = measure("openpyxl", book, times=1)
        say(f"book of {ROWS * COLUMNS:,} cells, {size / 2**20:.1f} MiB")
        say(f"     write back {seconds:.3f} s, {peak / 2**20:.0f} MiB; looked over {looked:.3f} s")
        say(f"     openpyxl {slow:.2f} s, {slow_peak / 2**20:.0f} MiB")
        judge("times as fast as openpyxl", slow / seconds, FASTER_BY, at_least=True)
        most = (MEMORY_FACTOR * size + MEMORY_MORE) / 2**20
        judge("peak memory in MiB", peak / 2**20, most, at_least=False)
        photos = book_with_pictures(Path(folder) / "photos.xlsx")
        plain, _ = measure("copy thrice, hash twice", photos)
        seconds, peak = measure("write back", photos)
        say(f"book with {PICTURE_BYTES / 2**20:.0f} MiB of pictures: {seconds:.3f} s")
        judge("seconds, against copies and hashes", seconds, plain, at_least=False)
    assert time.perf_counter() > 0
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
