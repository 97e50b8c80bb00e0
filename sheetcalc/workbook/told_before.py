"""Which findings a book's Findings tab tells already: a command need not print them once more."""

from collections.abc import Sequence
from typing import Final

from sheetcalc.workbook.raw import RawBook, RawRow
from sheetcalc.workbook.results_tabs import FINDINGS
from sheetcalc.workbook.shown import displayed
from sheetcalc.workbook.wording import WordedFinding

_TOLD: Final = ("Severity", "Code", "Cell", "Found", "What to do")


def told_before(raw: RawBook, findings: Sequence[WordedFinding]) -> tuple[WordedFinding, ...]:
    """Return the findings that stand on the Findings tab word for word, as takeoff wrote them.

    Parameters
    ----------
    raw
        The workbook as found, with ``FINDINGS`` among the tabs that were asked for.
    findings
        Of the same workbook now.
    """
    table = raw.tables.get(FINDINGS.key)
    told = {tuple(_text(row, header) for header in _TOLD) for row in table.rows} if table else set()
    return tuple(f for f in findings if (f.status, f.code, f.cell, f.found, f.what_to_do) in told)


def _text(row: RawRow, header: str) -> str:
    cell = row.cells.get(header)
    return displayed(cell) if cell is not None else ""
