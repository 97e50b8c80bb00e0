"""``sheetcalc takeoff``: read, calculate, write the result tabs back into the same file."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path
from typing import TYPE_CHECKING, Any

from sheetcalc.workflows.calculation import (
    Work,
    calculate_book,
    generated,
    load_calculation,
)
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    Progress,
    counted,
    in_trouble,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sheetcalc.excel.write_back import WriteReport
    from sheetcalc.workbook.sheet import SheetModel


def takeoff(book: Path, progress: Progress, *, leave_out_faulty: bool = False) -> BookReport:
    """Read, calculate, and write the result tabs back into the same file."""
    from sheetcalc.excel.errors import FileTrouble
    from sheetcalc.excel.read import start_reading
    from sheetcalc.excel.safe_save import fingerprint

    try:
        before = fingerprint(book)
        pending = start_reading(book)
        load_calculation()
        raw = pending.result()
        work = calculate_book(raw, progress, leave_out_faulty=leave_out_faulty)
        progress("writing", 0, 0)
        sheets = work.sheets(raw)
        written = _write_back(book, sheets, before, work, everything=work.run is not None)
    except FileTrouble as trouble:
        return in_trouble(book, trouble)
    return BookReport(
        book,
        HAS_ERRORS if work.has_errors else DONE,
        f"{written.path}: {_told(work, sheets)}{_where(written)}",
        work.findings,
        written=written.path,
        backup=written.backup,
        left_out=work.run.left_out if work.run else (),
    )


def _write_back(
    book: Path,
    sheets: "Sequence[SheetModel]",
    before: Any,  # noqa: ANN401 - safe_save's Fingerprint, imported late
    work: Work,
    *,
    everything: bool,
) -> "WriteReport":
    from sheetcalc.domain.job import Job
    from sheetcalc.excel.graft import Placement
    from sheetcalc.excel.write_back import add_tabs
    from sheetcalc.workbook.results import TYPED_HEADERS
    from sheetcalc.workbook.sheet import BookModel

    job = work.inputs.job if work.inputs else Job()
    placements = [Placement(s.key, s.name, TYPED_HEADERS.get(s.key, ())) for s in sheets]
    return add_tabs(
        book,
        generated(BookModel(tuple(sheets), {})),
        placements,
        expected=before,
        backups_kept=job.backups_kept,
        retire_others=everything,
    )


def _told(work: Work, sheets: "Sequence[SheetModel]") -> str:
    if work.run is None:
        return f"stopped by errors, only the Findings tab was written: {counted(work.findings)}"
    rooms = sum(w.room.count for w in work.run.works)
    left = work.run.left_out
    incomplete = f"INCOMPLETE, left out: {', '.join(left)}; " if left else ""
    return (
        f"{incomplete}{rooms} {'room' if rooms == 1 else 'rooms'}, {len(work.run.lines)} lines, "
        f"{len(work.run.orders)} orders on {len(sheets)} tabs; {counted(work.findings)}"
    )


def _where(written: "WriteReport") -> str:
    if written.is_copy:
        return "; written to this copy, the book itself may not be changed"
    if not written.changed:
        return "; nothing had changed"
    return f"; the file as it was: {written.backup.name}" if written.backup else ""
