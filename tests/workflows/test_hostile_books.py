"""Hostile files through the commands: refused with the code that says why, and left alone.

One file for each code; ``tests/excel/test_guards.py`` has all of them, the largest within limits.
The reading child keeps its own (9 s of processor time, 1 GiB): a file that took more would end
with another code than the one that is looked for.
"""

from hashlib import sha256
from pathlib import Path

import pytest
from click.testing import CliRunner
from honest_book import honest_parts, pack
from hostile_files import HOSTILE, LARGE
from whole_program import example, quiet

from sheetcalc import workflows
from sheetcalc.cli import main
from sheetcalc.excel.reading import read
from sheetcalc.excel.reading.read import PendingBook

ONE_EACH = {code: make for make, code in HOSTILE.items() if make.__name__ not in LARGE}


def state_of(book: Path) -> tuple[int, ...]:
    """What must not change: reading alone may change the time of the last reading."""
    facts = book.stat()
    return facts.st_ino, facts.st_mode, facts.st_size, facts.st_mtime_ns, facts.st_ctime_ns


@pytest.mark.parametrize("code", ONE_EACH)
def test_every_command_refuses_a_hostile_file_and_leaves_it(code: str, tmp_path: Path) -> None:
    book = ONE_EACH[code](tmp_path / "book.xlsx")
    before = state_of(book), sha256(book.read_bytes()).digest()
    for command in (workflows.check, workflows.takeoff):
        report = command(book, quiet)
        assert (report.exit_code, report.written) == (3, None)
        assert [f.code for f in report.findings] == [code]
    assert (state_of(book), sha256(book.read_bytes()).digest()) == before
    assert [p.name for p in tmp_path.iterdir()] == [book.name]


@pytest.mark.parametrize(
    "name", ["a_far_cell", "wrong_checksum", "encrypted_book", "nested_bomb", "a_target_outside"]
)
def test_input_tabs_are_not_added_to_a_hostile_file(name: str, tmp_path: Path) -> None:
    make = next(make for make in HOSTILE if make.__name__ == name)
    book = make(tmp_path / "book.xlsx")
    before = book.read_bytes()
    result = CliRunner().invoke(main, ["blank", "--into", str(book)])
    assert result.exit_code == 3
    assert HOSTILE[make] in result.output
    assert "what to do" in result.output
    assert book.read_bytes() == before


def test_a_reading_process_that_dies_is_a_finding_and_the_next_run_works(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = example(tmp_path / "book.xlsx")
    before = book.read_bytes()
    start = read.start_reading

    def killed(path: Path, *tabs: object) -> PendingBook:
        pending = start(path, *tabs)  # type: ignore[arg-type]
        pending.kill()
        return pending

    monkeypatch.setattr(read, "start_reading", killed)
    for command in (workflows.check, workflows.takeoff):
        report = command(book, quiet)
        assert (report.exit_code, [f.code for f in report.findings]) == (3, ["READING-FAILED"])
        assert book.read_bytes() == before
    monkeypatch.undo()
    assert workflows.takeoff(book, quiet).exit_code == 0


def test_a_hostile_file_among_others_stops_nobody(tmp_path: Path) -> None:
    """In one process, where the others have more to fear from it than in several."""
    makers = {make.__name__: make for make in HOSTILE}
    makers["a_far_cell"](tmp_path / "a.xlsx")
    example(tmp_path / "b.xlsx", taken_off=False)
    makers["deep_sheet"](tmp_path / "c.xlsx")
    pack(tmp_path / "d.xlsx", honest_parts())
    result = CliRunner().invoke(main, ["takeoff", "--quiet", "--workers", "1", str(tmp_path)])
    assert result.exit_code == 3
    assert "SHEET-TOO-WIDE" in result.output
    assert "XML-TOO-DEEP" in result.output
    assert "1 of 4 workbooks done" in result.output
