"""``sheetcalc check``: read and calculate, write nothing."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path

from sheetcalc.workflows.calculation import calculate_book, load_calculation, notes_of
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    Progress,
    counted,
    in_trouble,
)


def check(book: Path, progress: Progress) -> BookReport:
    """Read and calculate, write nothing, tell the findings."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.read import start_reading

    try:
        pending = start_reading(book)
        load_calculation()
        raw = pending.result()
        work = calculate_book(raw, progress, leave_out_faulty=False, notes=notes_of(book))
    except FileTrouble as trouble:
        return in_trouble(book, trouble)
    code = HAS_ERRORS if work.has_errors else DONE
    return BookReport(book, code, f"{book}: {counted(work.findings)}", work.findings)
