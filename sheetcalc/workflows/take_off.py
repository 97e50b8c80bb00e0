"""``sheetcalc takeoff``: read, calculate, write the result tabs back into the same file."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

import gc
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sheetcalc.domain.progress import Progress
from sheetcalc.workflows.calculation import (
    TabsOf,
    Work,
    calculate_book,
    framed,
)
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.machine import one_thread_each
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    counted,
    in_trouble,
)
from sheetcalc.workflows.result_tabs import LongTabs
from sheetcalc.workflows.spreading import OverCores

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sheetcalc.domain.words import Words
    from sheetcalc.excel.saving.write_back import WriteReport
    from sheetcalc.excel.tabs.own_tabs import FoundTabs
    from sheetcalc.workbook.office import Office
    from sheetcalc.workbook.sheet import SheetModel


@contextmanager
def _unswept() -> "Iterator[None]":
    """Let the collector of circular references rest: a takeoff makes records, and no circles."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


@_unswept()
def takeoff(  # noqa: PLR0913 - a command's options, each by its name
    book: Path,
    progress: Progress,
    *,
    leave_out_faulty: bool = False,
    cards: bool = True,
    templates: Path | None = None,
    cores: int | None = None,
) -> BookReport:
    """Read, calculate, and write the result tabs back into the same file.

    Parameters
    ----------
    book
        The workbook.
    progress
        Told of every stage.
    leave_out_faulty
        Take off the rooms that have no errors.
    cards
        Make the tabs of room cards and cable plans; without, those of an earlier run are taken
        away, or kept empty where something of a person's points at them.
    templates
        An office's own templates.
    cores
        Processes that plan rooms, draw cards and write sheets; None for one a core.
    """
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.reading.read import start_reading
    from sheetcalc.excel.saving.safe_save import fingerprint
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.typed_names import keeping_typed

    one_thread_each()
    spread = OverCores(cores)
    try:
        before = fingerprint(book)
        pending = start_reading(book)
        load_calculation()
        raw = pending.result()
        office = keeping_typed(load_office(templates), raw)
        tabs = TabsOf(book, cards=cards)
        with LongTabs(raw, spread, office) as long:
            work = calculate_book(
                raw,
                progress,
                leave_out_faulty=leave_out_faulty,
                notes=tabs.notes,
                spread=spread,
                words=office.words,
                long=long,
            )
            if not raw.tables:  # somebody's workbook beside ours in a folder: it is left alone
                told = office.words.fill(
                    "{book}: not touched, it has none of the input tabs", book=book
                )
                return BookReport(book, HAS_ERRORS, told, work.findings)
            progress("writing", 0, 0)
            sheets = work.sheets(
                raw, progress, cards=cards, office=office, spread=spread, tabs=tabs, long=long
            )
            written = _write_back(book, sheets, before, work, office, spread, tabs.found, long)
    except FileTrouble as trouble:
        return in_trouble(book, trouble, templates)
    return BookReport(
        book,
        HAS_ERRORS if work.has_errors else DONE,
        f"{written.path}: {_told(work, sheets, office.words)}{_where(written, office.words)}",
        work.findings,
        written=written.path,
        backup=written.backup,
        left_out=work.run.left_out if work.run else (),
    )


def _write_back(  # noqa: PLR0913, PLR0917 - what is written, where, and how
    book: Path,
    sheets: "Sequence[SheetModel]",
    before: Any,  # noqa: ANN401 - safe_save's Fingerprint, imported late
    work: Work,
    office: "Office",
    spread: OverCores,
    found: "FoundTabs",
    long: "LongTabs",
) -> "WriteReport":
    from sheetcalc.domain.job import Job
    from sheetcalc.excel.grafting.graft import Placement
    from sheetcalc.excel.saving.write_back import add_tabs
    from sheetcalc.workbook.results import TYPED_HEADERS
    from sheetcalc.workbook.sheet import BookModel

    job = work.inputs.job if work.inputs else Job()
    placements = [Placement(s.key, s.name, TYPED_HEADERS.get(s.key, ())) for s in sheets]
    return add_tabs(
        book,
        framed(BookModel(tuple(sheets), {}, paper=job.units.paper), office=office, elsewhere=long),
        placements,
        expected=before,
        backups_kept=job.backups_kept,
        retire_others=work.run is not None,
        inspected=True,  # the reading child has
        spread=spread,
        found=found,
    )


def _told(work: Work, sheets: "Sequence[SheetModel]", words: "Words") -> str:
    found = counted(work.findings, words)
    if work.run is None:
        stopped = "stopped by errors, only the Findings tab was written: {found}"
        return words.fill(stopped, found=found)
    rooms, orders = sum(w.room.count for w in work.run.works), len(work.run.orders)
    left = ", ".join(work.run.left_out)
    incomplete = words.fill("INCOMPLETE, left out: {rooms}", rooms=left) + "; " if left else ""
    made = words.fill(
        "{rooms}, {lines} lines, {orders} on {tabs} tabs",
        rooms=words.fill("{number} room" if rooms == 1 else "{number} rooms", number=rooms),
        lines=len(work.run.lines),
        orders=words.fill("{number} order" if orders == 1 else "{number} orders", number=orders),
        tabs=len(sheets),
    )
    return f"{incomplete}{made}; {found}"


def _where(written: "WriteReport", words: "Words") -> str:
    if written.is_copy:
        told = words.say("written to this copy, the book itself may not be changed")
    elif not written.changed:
        told = words.say("nothing had changed")
    elif written.backup:
        told = words.fill("the file as it was: {file}", file=written.backup.name)
    else:
        return ""
    return f"; {told}"
