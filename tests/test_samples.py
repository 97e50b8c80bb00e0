"""Every sample workbook run end to end, and recalculated by LibreOffice."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import recalc
from openpyxl import load_workbook

from sheetcalc import workflows
from sheetcalc.domain.progress import silent
from sheetcalc.excel.generating.generate import write_book
from sheetcalc.workbook.house_style import load_house_style
from tests.samples import SAMPLES

FOLDER = Path(__file__).resolve().parents[1] / "sample_workbooks"
SOUND = [name for name in SAMPLES if name != "mistakes.xlsx"]

MONEY_OR_PACKS = re.compile(r"Packs|Amount|Total|Tax|Price|Cost$|Materials|Labour|Each")


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """Take a sample off, once for all tests of this file; its inputs come from the data."""
    folder = tmp_path_factory.mktemp("samples")

    def make(name: str) -> Path:
        path = folder / name
        if not path.exists():
            book = write_book(SAMPLES[name](), load_house_style(), named_styles=True)
            path.write_bytes(book)
            workflows.takeoff(path, silent)
        return path

    return make


def test_the_folder_holds_exactly_the_samples() -> None:
    assert {path.name for path in FOLDER.glob("*.xlsx")} == set(SAMPLES)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_committed_sample_is_what_its_data_and_the_program_give(
    name: str, filled: Callable[[str], Path]
) -> None:
    """Regenerate with ``python -m tests.samples`` when this fails on purpose."""
    assert recalc.cells(FOLDER / name) == recalc.cells(filled(name))


@pytest.mark.parametrize("name", SOUND)
def test_a_sample_has_no_errors(name: str, filled: Callable[[str], Path]) -> None:
    report = workflows.check(filled(name), silent)
    assert [f.code for f in report.findings if f.status == "error"] == []
    assert report.exit_code == 0


def test_a_run_says_what_it_made_in_plain_words(filled: Callable[[str], Path]) -> None:
    said = workflows.takeoff(filled("small-room.xlsx"), silent).summary
    assert ": 1 room, 9 lines, 1 order on " in said


@pytest.mark.parametrize("name", SAMPLES)
def test_a_second_run_changes_no_byte(
    name: str, filled: Callable[[str], Path], tmp_path: Path
) -> None:
    book = shutil.copy(filled(name), tmp_path / name)
    before = book.read_bytes()
    workflows.takeoff(book, silent)
    assert book.read_bytes() == before


def test_two_processes_give_the_same_bytes(filled: Callable[[str], Path], tmp_path: Path) -> None:
    """Each process orders its sets differently; results must not follow that."""
    made = []
    for seed in ("1", "2"):
        book = Path(shutil.copy(filled("alder-street-us.xlsx"), tmp_path / f"seed-{seed}.xlsx"))
        command = [sys.executable, "-m", "sheetcalc", "takeoff", "--quiet", str(book)]
        environment = os.environ | {"PYTHONHASHSEED": seed}
        subprocess.run(command, check=True, env=environment, capture_output=True)  # noqa: S603 - ourselves
        made.append(book.read_bytes())
    assert made[0] == made[1]


@pytest.fixture(scope="module")
def recalculated(filled: Callable[[str], Path]) -> dict[str, recalc.CellOf]:
    """All sound samples as LibreOffice recalculates them, in one start, by name without suffix."""
    return recalc.recalculate_all([filled(name) for name in SOUND])


@pytest.mark.libreoffice
@pytest.mark.parametrize("name", SOUND)
def test_a_forced_recalculation_changes_no_stored_value(
    name: str, filled: Callable[[str], Path], recalculated: dict[str, recalc.CellOf]
) -> None:
    before = recalc.cells(filled(name))
    after = recalculated[Path(name).stem]
    exactly = frozenset(_money_and_packs(before))
    assert exactly, "no column of packs or money was found"
    assert recalc.differences(before, after, exactly=exactly) == []


def _money_and_packs(cells: recalc.CellOf) -> Iterator[tuple[str, str]]:
    """Numbers in the order and quote tabs below a header of packs or money."""
    below = set()
    for (sheet, address), value in cells.items():
        column = (sheet, address.rstrip("0123456789"))
        if not sheet.startswith(("Order", "Quote")):
            continue
        if MONEY_OR_PACKS.match(str(value)):
            below.add(column)
        if column in below and isinstance(value, int | float):
            yield sheet, address


def test_the_workbook_of_mistakes_has_at_least_25_different_ones(
    filled: Callable[[str], Path],
) -> None:
    report = workflows.check(filled("mistakes.xlsx"), silent)
    codes = {f.code for f in report.findings if f.status == "error"}
    assert len(codes) >= 25
    assert report.exit_code == 1
    listed = load_workbook(filled("mistakes.xlsx"))["Findings"]
    written = {row[1].value for row in listed.iter_rows(min_row=5)}
    assert codes <= written


def test_errors_write_the_findings_tab_and_touch_nothing_else(
    filled: Callable[[str], Path],
) -> None:
    inputs = load_workbook_names(SAMPLES["mistakes.xlsx"]())
    assert set(load_workbook(filled("mistakes.xlsx")).sheetnames) == {*inputs, "Findings"}


def load_workbook_names(book: object) -> list[str]:
    """Sheet names of a book as data."""
    return [sheet.name for sheet in book.sheets]  # type: ignore[attr-defined]
