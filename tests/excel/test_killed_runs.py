"""A run killed at any instant leaves the old file or the new one, complete.

A child process saves two states in turns, without an end; it is killed at random instants.
``SHEETCALC_KILLS`` says how often (a dozen by default; 200 and more before a release).
"""

import os
import random
import subprocess
import sys
import time
from pathlib import Path

from grafting import fresh_book, parts
from odd_packages import Features, write_book

from sheetcalc.excel.saving import backups, safe_save, write_back
from sheetcalc.excel.tabs.own_tabs import find_in_file

KILLS = int(os.environ.get("SHEETCALC_KILLS", "12"))

CHILD = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from grafting import fresh_book
from sheetcalc.excel.saving import safe_save, write_back
path = Path(sys.argv[1])
states = [fresh_book(rows=40), fresh_book(rows=50)]
print("ready", flush=True)
for turn in range(1_000_000):
    fresh, placements = states[turn % 2]
    write_back.add_tabs(
        path, fresh, placements, expected=safe_save.fingerprint(path), backups_kept=2
    )
"""


def save(path: Path, rows: int) -> bytes:
    """Save one state as the child does, and say what the file then holds."""
    fresh, placements = fresh_book(rows=rows)
    write_back.add_tabs(
        path, fresh, placements, expected=safe_save.fingerprint(path), backups_kept=2
    )
    return path.read_bytes()


def test_a_killed_run_leaves_one_complete_file(tmp_path: Path) -> None:
    book = write_book(tmp_path / "larch-court.xlsx", Features(macros=True, comments=True))
    first = save(book, 40)
    second = save(book, 50)
    assert save(book, 40) == first
    complete = {first, second}
    chance = random.Random(20260131)  # noqa: S311 - instants, not secrets
    left = 0
    for kill in range(KILLS):
        child = subprocess.Popen(  # noqa: S603 - this very interpreter
            [sys.executable, "-c", CHILD, str(book), str(Path(__file__).parents[1])],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        assert child.stdout is not None
        assert child.stderr is not None
        with child, child.stdout, child.stderr:
            assert child.stdout.readline() == b"ready\n"
            time.sleep(chance.uniform(0.0, 0.15))
            assert child.poll() is None, child.stderr.read().decode()
            child.kill()
            child.wait()
        assert book.read_bytes() in complete, f"kill {kill} left half a file"
        left += sum(1 for p in tmp_path.iterdir() if p.name.startswith(".~"))
        for backup in backups.backups_of(book):
            assert backup.read_bytes() in complete
        assert not any(tab.edited for tab in find_in_file(book).tabs)
    save(book, 40)
    assert book.read_bytes() == first
    assert "xl/vbaProject.bin" in parts(book)
    assert [p for p in tmp_path.iterdir() if p.name.startswith(".~")] == []
    assert KILLS < 100 or left > 0, "no kill met a run at work: the instants are chosen badly"
