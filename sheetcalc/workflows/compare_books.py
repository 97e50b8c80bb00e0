"""``sheetcalc compare``: what changed in the inputs, and what that did."""

# ruff: noqa: PLC0415 -- late imports keep `--help` quick; see the package

from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from sheetcalc.domain.progress import Progress
from sheetcalc.workflows.calculation import calculate_book, generated
from sheetcalc.workflows.loading import load_calculation
from sheetcalc.workflows.report import (
    DONE,
    HAS_ERRORS,
    BookReport,
    counted,
    in_trouble,
)

if TYPE_CHECKING:
    from sheetcalc.domain.comparison import Comparison
    from sheetcalc.workflows.calculation import Work


class CompareReport(Struct, frozen=True):
    """What two workbooks differ in.

    Attributes
    ----------
    exit_code
        As in the README; 1 where one of them has errors, so that only inputs were compared.
    text
        Tables for a terminal.
    summary
        One line: how much differs.
    data
        The same for JSON.
    books
        Reports of the books that could not be compared in full.
    written
        Workbook with the comparison, or None.
    """

    exit_code: int
    text: str
    summary: str
    data: dict[str, Any]
    books: tuple[BookReport, ...] = ()
    written: Path | None = None

    def as_dict(self) -> dict[str, Any]:
        """Return the report as plain data for JSON."""
        return {
            "exit_code": self.exit_code,
            "summary": self.summary,
            "written": str(self.written) if self.written else None,
            "books": [book.as_dict() for book in self.books],
            **self.data,
        }


def compare(
    old: Path,
    new: Path,
    progress: Progress,
    *,
    to: Path | None = None,
    templates: Path | None = None,
) -> CompareReport:
    """Compare two workbooks, or a workbook with a backup of it; both are only read.

    Parameters
    ----------
    old, new
        A and B.
    progress
        Told of every stage.
    to
        A new workbook for the comparison; None for none.
    templates
        An office's own templates.
    """
    from sheetcalc.domain.comparison import Comparison
    from sheetcalc.excel.opc.errors import FileTrouble
    from sheetcalc.excel.reading.read import start_reading
    from sheetcalc.excel.saving.new_file import create
    from sheetcalc.workbook.compare_inputs import compare_inputs
    from sheetcalc.workbook.office import load_office
    from sheetcalc.workbook.results.comparison import (
        comparison_book,
        comparison_counted,
        comparison_json,
        comparison_text,
    )

    raws, works, faulty = [], [], []
    for book in (old, new):
        try:
            pending = start_reading(book)
            load_calculation()
            raw = pending.result()
        except FileTrouble as trouble:
            report = in_trouble(book, trouble, templates)
            return CompareReport(report.exit_code, "", "", {}, (report,))
        work = calculate_book(raw, progress, leave_out_faulty=False)
        raws.append(raw)
        works.append(work)
        if work.run is None:
            told = f"{book}: only its inputs are compared, {counted(work.findings)}"
            faulty.append(BookReport(book, HAS_ERRORS, told, work.findings))
    inputs = compare_inputs(*raws)
    found = _calculated(inputs, *works) if not faulty else Comparison(inputs, calculated=False)
    names = (old.name, new.name) if old.name != new.name else (str(old), str(new))
    office = load_office(templates)
    text = comparison_text(found, names, office.words)
    summary = office.words.fill(
        "{new} against {old}: {told}",
        old=names[0],
        new=names[1],
        told=comparison_counted(found, office.words),
    )
    data = comparison_json(found)
    if to is not None:
        try:
            model = comparison_book(found, names, office.words)
            create(to, generated(model, named_styles=True, office=office))
        except FileTrouble as trouble:
            report = in_trouble(to, trouble, templates)
            return CompareReport(report.exit_code, text, summary, data, (*faulty, report))
    code = HAS_ERRORS if faulty else DONE
    return CompareReport(code, text, summary, data, tuple(faulty), to)


def _calculated(inputs: Any, old: "Work", new: "Work") -> "Comparison":  # noqa: ANN401 - of compare_inputs
    from sheetcalc.comparing import money_changes, pack_changes, quantity_changes
    from sheetcalc.domain.comparison import Comparison

    if old.run is None or new.run is None:
        return Comparison(inputs, calculated=False)
    return Comparison(
        inputs,
        quantity_changes(old.run, new.run),
        pack_changes(old.run, new.run),
        money_changes(old.run, new.run),
    )
