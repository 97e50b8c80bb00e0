"""What the commands say of workbooks, on the terminal and in the files to send, in any language.

The language is English in capitals: what is left in small letters was left in English, or typed.
"""

import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from another_language import LOWER, write_capitals
from click.testing import CliRunner
from msgspec import Struct
from whole_program import example, find, quiet
from xml_edits import Edits

from sheetcalc import workflows
from sheetcalc.cli import main
from sheetcalc.workflows import BookReport

DAY = date(2026, 3, 2)


class Job(Struct):
    """The example after a takeoff, and an office in capitals."""

    folder: Path
    book: Path
    office: Path

    def said(self, report: BookReport) -> set[str]:
        """Small letters in what a command says, but for names of files and what was typed."""
        text = report.summary
        for typed in (str(self.folder), "backup", "b - quote", "xlsx"):
            text = text.replace(typed, "")
        return set(LOWER.findall(text))


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    folder = tmp_path_factory.mktemp("capitals")
    made = Job(folder, folder / "b.xlsx", write_capitals(folder / "office"))
    report = workflows.blank(made.book, units="metric", example=True, templates=made.office)
    assert made.said(report) == set()
    report = workflows.takeoff(made.book, quiet, cards=False, templates=made.office)
    assert report.exit_code == 0
    assert "3 ROOMS" in report.summary
    assert made.said(report) == set()
    return made


def test_a_check_is_told_in_the_offices_words(job: Job) -> None:
    ran = CliRunner().invoke(main, ["check", str(job.book), "--templates", str(job.office)])
    assert ran.exit_code == 0
    headings = {line.split()[0] for line in ran.stdout.splitlines() if not line.startswith("  ")}
    assert headings == {"ACCEPTED", "NOTE", f"{job.book}:"}
    labels = {line[2:12] for line in ran.stdout.splitlines() if line.startswith("  ")}
    assert labels == {"FOUND     ", "EXPECTED  ", "WHAT TO DO"}


def test_orders_and_quote_are_told_in_the_offices_words(job: Job) -> None:
    (orders,) = workflows.orders(
        [job.book], job.folder / "to", quiet, issued=DAY, templates=job.office
    )
    quote = workflows.quote(job.book, quiet, to=job.folder / "to", templates=job.office)
    for report in (orders, quote):
        assert report.exit_code == 0
        assert "ALL TOLD ON THE FINDINGS TAB" in report.summary
        assert job.said(report) == set()
    typed = typed_in(job.book)
    assert len(orders.files) == 10  # a workbook and a CSV for each of five suppliers
    for file in (*orders.files, quote.written):
        if file is not None and file.suffix == ".xlsx":
            assert {text for text in texts_in(file) if LOWER.search(text)} - typed == set(), file


def typed_in(book: Path) -> set[str]:
    """Texts of the input tabs, the parts of a list too, and what is put together from them."""
    sheets = [s for s in openpyxl.load_workbook(book) if "schema" not in str(s["A3"].value)]
    cells = {str(c.value) for sheet in sheets for row in sheet.iter_rows() for c in row if c.value}
    lines = {line for cell in cells for line in cell.split("\n")}
    address = {cell.replace("\n", ", ") for cell in cells}
    rooms = {"1.01 (Standard)", "1.02 (Standard)", "QUOTE Larch Court (example)"}
    return cells | lines | address | rooms


def texts_in(file: Path) -> set[str]:
    book = openpyxl.load_workbook(file)
    texts = {str(c.value) for sheet in book for row in sheet.iter_rows() for c in row if c.value}
    return texts | {book.properties.title or ""}


def test_a_book_with_errors_and_one_that_is_none_are_told_in_the_offices_words(
    job: Job, tmp_path: Path
) -> None:
    wrong = Path(shutil.copy(example(job.folder / "e.xlsx", taken_off=False), tmp_path / "b.xlsx"))
    with Edits(wrong) as edits:
        edits.type("Rooms", find(wrong, "Rooms", "Finish"), "Plian")
    none = tmp_path / "c.xlsx"
    none.write_bytes(b"PK")
    job = Job(tmp_path, job.book, job.office)
    stopped = workflows.takeoff(wrong, quiet, templates=job.office)
    assert stopped.exit_code == 1
    assert "STOPPED BY ERRORS" in stopped.summary
    refused = workflows.check(none, quiet, templates=job.office)
    assert refused.exit_code == 3
    (finding,) = refused.findings
    assert "THE FILE" in finding.found
    for report in (stopped, refused):
        assert job.said(report) == set()


def test_a_findings_tab_in_another_language_is_told_once_more(job: Job) -> None:
    report = workflows.quote(job.book, quiet, to=job.folder / "english")
    assert report.exit_code == 0
    assert report.repeated == ()
