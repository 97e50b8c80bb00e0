"""``sheetcalc quote``: the quote as the client gets it, in a file of its own."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path

from sheetcalc.domain.progress import Progress
from sheetcalc.workflows.calculation import calculate_book, generated
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.report import DONE, HAS_ERRORS, BookReport, counted, in_trouble


def quote(
    book: Path,
    progress: Progress,
    *,
    to: Path,
    leave_out_faulty: bool = False,
    templates: Path | None = None,
) -> BookReport:
    """Read, calculate, and write the client's quote; the workbook itself is only read.

    Parameters
    ----------
    book
        The workbook.
    progress
        Told of every stage.
    to
        Folder for the quote; made where it is not there.  A quote that is there already and
        differs is kept, and the new one gets a number.
    leave_out_faulty
        Quote the rooms that have no errors; the quote says INCOMPLETE.
    templates
        An office's own templates.
    """
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.reading.read import default_tabs, start_reading
    from sheetcalc.excel.saving.new_file import create_numbered
    from sheetcalc.excel.saving.order_folder import file_stem
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.results.client_quote import client_quote_book
    from sheetcalc.workbook.told_before import findings_tab, told_before
    from sheetcalc.workbook.typed_names import keeping_typed

    try:
        own = load_office(templates)
        pending = start_reading(book, (*default_tabs(), findings_tab(own.words)))
        load_calculation()
        raw = pending.result()
        office = keeping_typed(own, raw)
        work = calculate_book(raw, progress, leave_out_faulty=leave_out_faulty, words=office.words)
        if work.run is None or work.run.quote is None:
            found = counted(work.findings, office.words)
            stopped = "{book}: no quote, stopped by errors: {found}"
            summary = office.words.fill(stopped, book=book, found=found)
            return BookReport(book, HAS_ERRORS, summary, work.findings)
        model = client_quote_book(work.run, work.run.quote, office)
        name = f"{book.stem} - {file_stem(office.words.say('Quote').lower())}.xlsx"
        content = generated(model, named_styles=True, office=office)
        written = create_numbered(to / name, content)
    except FileTrouble as trouble:
        return in_trouble(book, trouble, templates)
    made = work.run.quote
    total = f"{made.summary.total} {work.run.inputs.job.currency}".strip()
    fill, told = office.words.fill, total
    if not made.complete:
        told = fill("INCOMPLETE, not yet priced: {names}", names=", ".join(made.unpriced))
    if work.run.left_out:
        told += "; " + fill("INCOMPLETE, left out: {rooms}", rooms=", ".join(work.run.left_out))
    repeated = told_before(raw, work.findings, office.words)
    return BookReport(
        book,
        HAS_ERRORS if work.has_errors else DONE,
        f"{written}: {told}; {counted(work.findings, office.words, repeated)}",
        work.findings,
        written=written,
        left_out=work.run.left_out,
        repeated=repeated,
    )
