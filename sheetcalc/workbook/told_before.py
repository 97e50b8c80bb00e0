"""Which findings a book's Findings tab tells already: a command need not print them once more."""

from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.words import Words
from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.raw import RawBook, RawRow
from sheetcalc.workbook.results.status_words import severity_words
from sheetcalc.workbook.results_tabs import FINDINGS
from sheetcalc.workbook.shown import displayed
from sheetcalc.workbook.translate import headers_in_words
from sheetcalc.workbook.wording import WordedFinding

_TOLD: Final = ("Severity", "Code", "Cell", "Found", "What to do")
"""Headers in the order of the tab."""


def findings_tab(words: Words) -> Tab:
    """Return the Findings tab as a takeoff in the office's words writes it, to be read."""
    own = headers_in_words((column.header for column in FINDINGS.columns), words)
    columns = (replace(c, header=header) for c, header in zip(FINDINGS.columns, own, strict=True))
    return replace(FINDINGS, columns=tuple(columns))


def told_before(
    raw: RawBook, findings: Sequence[WordedFinding], words: Words
) -> tuple[WordedFinding, ...]:
    """Return the findings that stand on the Findings tab word for word, as takeoff wrote them.

    Parameters
    ----------
    raw
        The workbook as found, with ``findings_tab`` among the tabs that were asked for.
    findings
        Of the same workbook now.
    words
        The office's, that both are told in.
    """
    table = raw.tables.get(FINDINGS.key)
    pairs = zip(FINDINGS.columns, findings_tab(words).columns, strict=True)
    headers = [own.header for english, own in pairs if english.header in _TOLD]
    told = {
        tuple(_text(row, header) for header in headers) for row in (table.rows if table else ())
    }
    says = severity_words(words)
    return tuple(
        f for f in findings if (says[f.status], f.code, f.cell, f.found, f.what_to_do) in told
    )


def _text(row: RawRow, header: str) -> str:
    cell = row.cells.get(header)
    return displayed(cell) if cell is not None else ""
