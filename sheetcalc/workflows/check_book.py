"""``sheetcalc check``: read and calculate, write nothing."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path

from sheetcalc.domain.progress import Progress
from sheetcalc.workflows.calculation import TabsOf, calculate_book
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    counted,
    in_trouble,
)
from sheetcalc.workflows.spreading import OverCores


def check(
    book: Path, progress: Progress, *, cores: int | None = None, templates: Path | None = None
) -> BookReport:
    """Read and calculate, write nothing, tell the findings.

    Parameters
    ----------
    book
        The workbook.
    progress
        Told of every stage.
    cores
        Processes that plan rooms; None for one a core.
    templates
        An office's own templates.
    """
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.reading.read import default_tabs, start_reading
    from sheetcalc.workbook.convert.job import read_job
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.results.fingerprints import PRINTS_TAB
    from sheetcalc.workbook.results_age import results_age
    from sheetcalc.workbook.typed_names import keeping_typed

    try:
        pending = start_reading(book, (*default_tabs(), PRINTS_TAB))
        load_calculation()
        raw = pending.result()
        words = keeping_typed(load_office(templates), raw).words
        tabs = TabsOf(book)
        age = results_age(raw, read_job(raw)[0])
        work = calculate_book(
            raw,
            progress,
            leave_out_faulty=False,
            notes=lambda run: (*tabs.notes(run), *age),
            spread=OverCores(cores),
            words=words,
        )
    except FileTrouble as trouble:
        return in_trouble(book, trouble, templates)
    code = HAS_ERRORS if work.has_errors else DONE
    return BookReport(book, code, f"{book}: {counted(work.findings, words)}", work.findings)
