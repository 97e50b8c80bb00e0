"""Many workbooks: in a few processes as in one, and none lost with a process."""

import hashlib
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import click
import openpyxl
import pytest
from click.testing import CliRunner, Result

from sheetcalc.cli import main
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from sheetcalc.workflows import BookCommand, run_books
from sheetcalc.workflows.many_books import NoClusterError
from sheetcalc.workflows.workers import Died
from tests.samples import SAMPLES

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def inputs(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("inputs")
    for name in ("small-room.xlsx", "mistakes.xlsx"):
        (folder / name).write_bytes(write_book(SAMPLES[name](), load_house_style()))
    return folder


def folder_of(inputs: Path, folder: Path, *, sound: int, wrong: int = 0, broken: int = 0) -> Path:
    """A folder of sound workbooks, of some with mistakes, and of files that are none."""
    folder.mkdir(exist_ok=True)
    for number in range(sound):
        shutil.copyfile(inputs / "small-room.xlsx", folder / f"room {number:03}.xlsx")
    for number in range(wrong):
        shutil.copyfile(inputs / "mistakes.xlsx", folder / f"wrong {number:03}.xlsx")
    for number in range(broken):
        (folder / f"broken {number:03}.xlsx").write_bytes(b"PK\x03\x04 cut off" * (number + 1))
    return folder


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, [str(a) for a in arguments])


def content(folder: Path) -> dict[str, str]:
    """Hash of every workbook of a folder, backups apart."""
    return {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.glob("*.[xX][lL][sS][xX]")
        if ".backup-" not in path.name
    }


def test_processes_make_the_same_files_as_one_alone_whatever_they_are_called(
    inputs: Path, tmp_path: Path
) -> None:
    alone = folder_of(inputs, tmp_path / "alone", sound=0, wrong=1)
    shared = folder_of(inputs, tmp_path / "Größe & Maß – ½ 現場", sound=0, wrong=1)  # noqa: RUF001 - as people name folders
    for name in ("Bad 1’st “floor”.xlsx", "ванная.XLSX", "غرفة 2.10.xlsx"):  # noqa: RUF001 - as above
        shutil.copyfile(inputs / "small-room.xlsx", alone / name)
        shutil.copyfile(inputs / "small-room.xlsx", shared / name)
    first = json.loads(run("takeoff", "--json", "--workers", "1", alone).output)
    second = json.loads(run("takeoff", "--json", "--workers", "2", shared).output)
    assert content(alone) == content(shared)
    assert [b["exit_code"] for b in first["books"]].count(0) == 3
    assert [Path(b["path"]).name for b in first["books"]] == [
        Path(b["path"]).name for b in second["books"]
    ]
    assert [b["findings"] for b in first["books"]] == [b["findings"] for b in second["books"]]
    assert first["exit_code"] == second["exit_code"] == 1


def test_of_a_folder_with_broken_files_the_others_are_done(inputs: Path, tmp_path: Path) -> None:
    folder = folder_of(inputs, tmp_path / "jobs", sound=6, wrong=1, broken=3)
    result = run("takeoff", "--quiet", "--workers", "2", folder)
    assert result.exit_code == 3
    assert "6 of 10 workbooks done" in result.output
    summary = [x for x in result.output.splitlines() if x.startswith("  not done")]
    assert sum("exit 3" in x for x in summary) == 3
    assert sum("exit 1" in x for x in summary) == 1
    assert len(list(folder.glob("room*.backup-*"))) == 6
    assert not list(folder.glob("broken*.backup-*"))


def test_a_workbook_of_something_else_in_the_folder_is_told_and_not_touched(tmp_path: Path) -> None:
    other = tmp_path / "budget.xlsx"
    openpyxl.Workbook().save(other)
    before = other.read_bytes()
    result = run("takeoff", tmp_path)
    assert result.exit_code == 1
    assert "WORKBOOK-WITHOUT-OUR-TABS" in result.output
    assert other.read_bytes() == before
    assert [file.name for file in tmp_path.iterdir()] == ["budget.xlsx"]


def test_a_folder_with_mistakes_only_ends_with_1(inputs: Path, tmp_path: Path) -> None:
    folder = folder_of(inputs, tmp_path / "jobs", sound=2, wrong=2)
    assert run("check", "--quiet", "--workers", "1", folder).exit_code == 1


# --- what a person sees -----------------------------------------------------------------------


def test_colours_only_where_nobody_has_asked_for_none(inputs: Path) -> None:
    book = str(inputs / "mistakes.xlsx")
    coloured = CliRunner().invoke(main, ["check", book], color=True, env={"NO_COLOR": ""})
    plain = CliRunner().invoke(main, ["check", book], color=True, env={"NO_COLOR": "1"})
    assert "\x1b[" in coloured.output
    assert "\x1b[" not in plain.output
    assert click.unstyle(coloured.output) == plain.output


def test_verbose_tells_the_stages_on_standard_error_and_quiet_the_summary_only(
    inputs: Path, tmp_path: Path
) -> None:
    folder = folder_of(inputs, tmp_path / "jobs", sound=1)
    result = run("takeoff", "--verbose", "--quiet", folder)
    assert "rooms 1/1" in result.stderr
    assert "writing" in result.stderr
    assert len(result.stdout.splitlines()) == 1


# --- a process that died ------------------------------------------------------------------------


def test_a_workbook_whose_process_died_is_reported_with_what_to_do(
    inputs: Path, tmp_path: Path
) -> None:
    """A reading limit can't be seen from outside, so the process is killed here by a person."""
    folder = folder_of(inputs, tmp_path / "jobs", sound=2)
    before = content(folder)
    from sheetcalc.workflows.many_books import died  # noqa: PLC0415 - used here only

    report = died(folder / "room 000.xlsx", Died("it was ended by SIGKILL"))
    assert report.exit_code == 3
    assert [finding.code for finding in report.findings] == ["PROCESS-ENDED"]
    assert content(folder) == before


# --- a person stops it ------------------------------------------------------------------------


@pytest.fixture
def process(inputs: Path, tmp_path: Path) -> Iterator["subprocess.Popen[str]"]:
    """A takeoff of many workbooks that has done some of them."""
    folder = folder_of(inputs, tmp_path / "jobs", sound=40)
    running = subprocess.Popen(  # noqa: S603 - our own command
        [sys.executable, "-m", "sheetcalc", "takeoff", "--quiet", "--workers", "2", str(folder)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        start_new_session=True,
    )
    deadline = time.monotonic() + 60
    while not list(folder.glob("*.backup-*")) and time.monotonic() < deadline:
        time.sleep(0.05)
    yield running
    running.kill()
    running.communicate()


def test_an_interruption_finishes_what_is_in_hand_and_leaves_every_file_whole(
    process: "subprocess.Popen[str]", inputs: Path, tmp_path: Path
) -> None:
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does, to everyone
    output, errors = process.communicate(timeout=60)
    assert process.returncode == 130
    assert "interrupted" in errors
    assert "not touched" not in output
    folder = tmp_path / "jobs"
    before = hashlib.sha256((inputs / "small-room.xlsx").read_bytes()).hexdigest()
    hashes = content(folder)
    done = {name for name, found in hashes.items() if found != before}
    assert 0 < len(done) < 40
    assert f"{len(done)} of 40 workbooks done" in output
    assert len({hashes[name] for name in done}) == 1, "all that are done are done alike"
    assert not list(folder.glob("*.tmp"))


# --- a cluster --------------------------------------------------------------------------------


def test_without_a_cluster_the_address_is_told(
    inputs: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("distributed", reason="sheetcalc[cluster] is not installed")
    monkeypatch.setattr("sheetcalc.cluster.SECONDS_TO_CONNECT", 0.3)
    folder = folder_of(inputs, tmp_path / "jobs", sound=1)
    with pytest.raises(NoClusterError, match="no cluster answers at"):
        list(
            run_books(
                [folder / "room 000.xlsx"],
                BookCommand("check"),
                cluster="tcp://127.0.0.1:9",
            )
        )


def test_workers_and_cluster_exclude_each_other(inputs: Path) -> None:
    result = run("check", "--workers", "2", "--cluster", "tcp://127.0.0.1:9", inputs)
    assert result.exit_code == 2
    assert "give one of them" in result.output
