"""``sheetcalc orders``: one workbook and CSV a supplier and phase, to send."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct, field

from sheetcalc.domain.progress import Progress
from sheetcalc.domain.words import ENGLISH
from sheetcalc.workflows.calculation import calculate_book, generated
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    counted,
    in_trouble,
    words_of,
)

if TYPE_CHECKING:
    from sheetcalc.domain.finding import Finding
    from sheetcalc.domain.job import Job
    from sheetcalc.domain.order_document import OrderDocument
    from sheetcalc.domain.run import Run
    from sheetcalc.domain.words import Words
    from sheetcalc.lines.rolls_together import RollsTogether
    from sheetcalc.ordering.combined import Combined
    from sheetcalc.workbook.wording import WordedFinding
    from sheetcalc.workflows.calculation import Work
    from sheetcalc.workflows.issuing import Issue

INCOMPLETE = "INCOMPLETE: a part of the job is left out, a revision follows"

TOGETHER = "ALL"
"""Prefix of the numbers of combined orders, unless another is given."""


def orders(  # noqa: PLR0913 -- each of them is a decision of the caller
    books: Sequence[Path],
    to: Path,
    progress: Progress,
    *,
    issued: date,
    leave_out_faulty: bool = False,
    templates: Path | None = None,
) -> list[BookReport]:
    """Write the orders of workbooks to a folder; the workbooks themselves are only read.

    Parameters
    ----------
    books
        The workbooks; one with errors gets no orders.
    to
        Folder for the orders, made where it is not there; what stands in it stays.
    progress
        Told of every stage.
    issued
        Date of new orders and revisions.
    leave_out_faulty
        Order for the rooms that have no errors; the orders say INCOMPLETE.
    templates
        An office's own templates.
    """
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.saving.order_folder import open_folder

    try:
        open_folder(to)
    except FileTrouble as trouble:
        return [in_trouble(to, trouble, templates)]
    desk = _Desk(to, progress, issued, templates, leave_out_faulty=leave_out_faulty)
    return [desk.one(book) for book in books]


class _Desk(Struct):
    """Writes the orders of one workbook after the other."""

    to: Path
    progress: Progress
    issued: date
    templates: Path | None
    leave_out_faulty: bool
    used: dict[str, str] = field(default_factory=dict)

    def one(self, book: Path) -> BookReport:
        """Write one workbook's orders."""
        from sheetcalc.excel.opc.errors import FileTrouble
        from sheetcalc.ordering.documents import documents_of

        try:
            work, repeated, words = _calculated(
                book, self.progress, self.templates, leave_out_faulty=self.leave_out_faulty
            )
            run, findings = work.run, work.findings
            if run is None:
                stopped = "{book}: no orders, stopped by errors: {found}"
                summary = words.fill(stopped, book=book, found=counted(findings, words))
                return BookReport(book, HAS_ERRORS, summary, findings)
            job = run.inputs.job
            note = INCOMPLETE if run.left_out else ""
            reference = job.name or book.stem
            documents = documents_of(run.inputs, run.orders, reference, self.issued, note)
            issue = _issue(
                documents, self.to, job, self.templates, job.order_prefix, self.used, run.left_out
            )
        except FileTrouble as trouble:
            return in_trouble(book, trouble, self.templates)
        for document in documents:
            self.used.setdefault(document.number, book.name)
        findings = (*findings, *_worded(issue.findings, job, words))
        has_errors = any(finding.status == "error" for finding in findings)
        told = issue.told(words)
        return BookReport(
            book,
            HAS_ERRORS if has_errors else DONE,
            words.fill("{book}: {orders}, in {folder}", book=book, orders=told, folder=self.to)
            + f"{_left(run, words)}; {counted(findings, words, repeated)}",
            findings,
            left_out=run.left_out,
            files=issue.files,
            repeated=repeated,
        )


def _left(run: "Run", words: "Words") -> str:
    """Say what is in no order."""
    told = ""
    if nobody := sum(len(order.lines) for order in run.orders if not order.supplier):
        one = "{number} line without a supplier is in no order"
        many = "{number} lines without a supplier are in no order"
        told = "; " + words.fill(one if nobody == 1 else many, number=nobody)
    if run.left_out:
        left = ", ".join(run.left_out)
        told += "; " + words.fill("INCOMPLETE, left out: {rooms}", rooms=left)
    return told


def orders_together(  # noqa: PLR0913 -- each of them is a decision of the caller
    books: Sequence[Path],
    to: Path,
    progress: Progress,
    *,
    issued: date,
    prefix: str = TOGETHER,
    templates: Path | None = None,
) -> list[BookReport]:
    """Write one order a supplier for several workbooks together, and what that saves.

    With an error in any of them no order is written: a part of the whole would be rounded wrong.

    Parameters
    ----------
    books
        The workbooks, one a building.
    to, progress, issued, templates
        As for ``orders``.
    prefix
        Of the numbers of the combined orders.
    """
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.saving.order_folder import open_folder
    from sheetcalc.lines.rolls_together import BuildingRolls, plan_together
    from sheetcalc.ordering.combined import Building, combine

    reports: list[BookReport] = []
    runs: dict[str, Run] = {}
    try:
        open_folder(to)
    except FileTrouble as trouble:
        return [in_trouble(to, trouble, templates)]
    for book in books:
        try:
            work, repeated, words = _calculated(book, progress, templates)
        except FileTrouble as trouble:
            reports.append(in_trouble(book, trouble, templates))
            continue
        run, findings = work.run, work.findings
        if run is None:
            summary = f"{book}: stopped by errors: {counted(findings, words)}"
            reports.append(BookReport(book, HAS_ERRORS, summary, findings))
            continue
        name = run.inputs.job.name or book.stem
        if name in runs:
            name = f"{name} ({book.stem})"
        runs[name] = run
        summary = f"{book}: read; {counted(findings, words, repeated)}"
        reports.append(BookReport(book, DONE, summary, findings, repeated=repeated))
    if any(report.exit_code for report in reports) or not runs:
        told = f"{to}: no orders: every workbook must be without errors to be ordered together"
        return [*reports, BookReport(to, HAS_ERRORS, told)]
    job = next(iter(runs.values())).inputs.job
    cutting = [BuildingRolls(n, r.inputs, r.works, r.roll_plans) for n, r in runs.items()]
    rolls = plan_together(cutting)
    buildings = [
        Building(own.name, own.inputs, runs[own.name].orders, own.opened, rolls.opened[own.name])
        for own in cutting
    ]
    combined = combine(buildings, prefix, issued)
    own = words_of(templates) if templates else ENGLISH
    worded = _worded(combined.findings, job, own)
    if any(finding.status == "error" for finding in worded):
        return [*reports, BookReport(to, HAS_ERRORS, f"{to}: no orders", worded)]
    try:
        issue = _issue(combined.documents, to, job, templates, prefix, {})
        saving = _write_saving(combined, rolls, to, job)
    except FileTrouble as trouble:
        return [*reports, in_trouble(to, trouble, templates)]
    worded = (*worded, *_worded(issue.findings, job, own))
    has_errors = any(finding.status == "error" for finding in worded)
    told = f"{to}: {issue.told(own)}; {_told(combined, job.currency)}{_cut_together(rolls)}"
    files = (*issue.files, saving)
    code = HAS_ERRORS if has_errors else DONE
    return [*reports, BookReport(to, code, told, worded, files=files)]


def _calculated(
    book: Path, progress: Progress, templates: Path | None, *, leave_out_faulty: bool = False
) -> "tuple[Work, tuple[WordedFinding, ...], Words]":
    """Calculate a book; with it, those of its findings that its Findings tab tells already.

    Both are in the office's words, which come with them.
    """
    from sheetcalc.excel.reading.read import default_tabs, start_reading
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.told_before import findings_tab, told_before
    from sheetcalc.workbook.typed_names import keeping_typed

    office = load_office(templates)
    pending = start_reading(book, (*default_tabs(), findings_tab(office.words)))
    load_calculation()
    raw = pending.result()
    words = keeping_typed(office, raw).words
    work = calculate_book(raw, progress, leave_out_faulty=leave_out_faulty, words=words)
    return work, told_before(raw, work.findings, words), words


def _issue(  # noqa: PLR0913, PLR0917 -- handed on from the public functions
    documents: "Sequence[OrderDocument]",
    to: Path,
    job: "Job",
    templates: Path | None,
    prefix: str,
    used: dict[str, str],
    left_out: "Sequence[str]" = (),
) -> "Issue":
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workflows.issuing import issue

    office = load_office(templates)
    return issue(
        documents,
        to,
        prefix,
        paper=job.units.paper,
        office=office,
        others=dict(used),
        left_out=left_out,
    )


def _worded(
    findings: "Sequence[Finding]", job: "Job", words: "Words"
) -> "tuple[WordedFinding, ...]":
    from sheetcalc.workbook.wording import word_all

    return word_all(findings, None, job.units, words=words)


def _write_saving(combined: "Combined", rolls: "RollsTogether", to: Path, job: "Job") -> Path:
    """Write what ordering together saves; an earlier one of ours is replaced."""
    from sheetcalc.excel.saving.order_folder import replace_own
    from sheetcalc.workbook.saving_file import NAME, saving_book

    rows = [
        (s.supplier, s.item, s.description, s.apart, s.together, s.pack_price)
        for s in combined.savings
    ]
    charges = combined.charges_apart, combined.charges_together
    book = saving_book(rows, charges, job, (rolls.plans, rolls.rolls))
    path = to / f"{NAME}.xlsx"
    replace_own(path, generated(book, named_styles=True))
    return path


def _cut_together(rolls: "RollsTogether") -> str:
    """Words for rolls that buildings share: their own cutting lists do not hold."""
    items = ", ".join(dict.fromkeys(plan.item for plan in rolls.plans))
    told = "cut for all buildings together, by the Roll plan tab of the file on the saving"
    return f"; {items}: {told}" if items else ""


def _told(combined: "Combined", currency: str) -> str:
    apart = sum(saving.apart for saving in combined.savings)
    together = sum(saving.together for saving in combined.savings)
    before = combined.goods_apart + combined.charges_apart
    after = combined.goods_together + combined.charges_together
    share = f", {combined.saved / before * 100:.1f} %" if before else ""
    return (
        f"{together} packs instead of {apart}, {after:,.2f} {currency} instead of "
        f"{before:,.2f}: saves {combined.saved:,.2f} {currency}{share}"
    )
