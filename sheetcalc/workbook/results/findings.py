"""The Findings tab: every finding with a link to its cell, and the fingerprints of the run."""

from collections.abc import Sequence
from typing import Final, Protocol

from msgspec.structs import replace

from sheetcalc.domain.job import Job
from sheetcalc.workbook.columns import HEADER_ROW
from sheetcalc.workbook.formulas import sheet_prefix
from sheetcalc.workbook.results.fingerprints import fingerprint_table
from sheetcalc.workbook.results.frame import Frame, sheet_of, table_of, text
from sheetcalc.workbook.results.status_words import (
    ACCEPTED,
    ERROR,
    NOTE,
    WARNING,
    severity_words,
)
from sheetcalc.workbook.results_tabs import FINDINGS
from sheetcalc.workbook.sheet import Cell, SheetModel

KEY: Final = "findings"
_STYLES: Final = {ERROR: "error", WARNING: "warning", NOTE: "note", ACCEPTED: "note"}
_RANK: Final = {ERROR: 0, WARNING: 1, ACCEPTED: 2, NOTE: 3}


class Worded(Protocol):
    """A finding in words, as the table of wordings gives it."""

    @property
    def severity(self) -> str:
        """``error``, ``warning`` or ``note``."""

    @property
    def code(self) -> str:
        """Name of the finding."""

    @property
    def tab(self) -> str:
        """Tab that it is about."""

    @property
    def cell(self) -> str:
        """Cell that it is about; "" for none."""

    @property
    def room(self) -> str:
        """Room that it is about."""

    @property
    def surface(self) -> str:
        """Surface that it is about."""

    @property
    def found(self) -> str:
        """What was found."""

    @property
    def expected(self) -> str:
        """What was expected."""

    @property
    def what_to_do(self) -> str:
        """What to do."""


def severity_of(finding: Worded) -> str:
    """Severity as the tab says it: a warning that Decisions accepts is ``accepted``."""
    return ACCEPTED if getattr(finding, "accepted", False) else str(finding.severity)


def findings_sheet(
    findings: Sequence[Worded], frame: Frame, job: Job, *, stopped: bool = False
) -> SheetModel:
    """Make the Findings tab; a run with errors writes it and nothing else.

    Parameters
    ----------
    findings
        In words; errors are listed first, else their order is kept.
    frame
        Shared by the result tabs of the run.
    job
        For the fingerprints.
    stopped
        Errors stopped the run: it made no results, and leaves no fingerprints.
    """
    severities = severity_words(frame.words)
    ordered = sorted(findings, key=lambda f: _RANK[severity_of(f)])
    rows = [
        {
            "Severity": Cell(severities[severity_of(f)], _STYLES[severity_of(f)]),
            "Code": text(f.code, wrap=True),
            "Tab": text(f.tab, wrap=True),
            "Cell": _cell(f, frame),
            "Room": text(f.room, wrap=True),
            "Surface": text(f.surface, wrap=True),
            "Found": text(f.found, wrap=True),
            "Expected": text(f.expected, wrap=True),
            "What to do": text(f.what_to_do, wrap=True),
        }
        for f in ordered
    ]
    table = table_of(FINDINGS, rows, nothing="none")
    side = len(table.columns) + 2
    prints = fingerprint_table(frame, job, row=HEADER_ROW, column=side, stopped=stopped)
    hint = Cell("Inputs of this run, and now: the status in row 1 compares them.", "hint")
    sheet = sheet_of(KEY, FINDINGS, frame, (table, prints), loose={(HEADER_ROW - 1, side): hint})
    return replace(sheet, widths={side - 1: 3}, printed_columns=len(table.columns))


def _cell(finding: Worded, frame: Frame) -> Cell:
    """Address with a link; the tab may have another name in this book."""
    raw = frame.raw.tables.get(finding.tab)
    if not finding.cell or raw is None:
        return text(finding.cell)
    link = f"internal:{sheet_prefix(raw.sheet)}{finding.cell}"
    return Cell(finding.cell, "result_link", link=link)
