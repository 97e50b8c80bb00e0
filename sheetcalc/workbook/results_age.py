"""Whether the results in a book are of the inputs that it holds: told by exact fingerprints."""

import re
from collections.abc import Iterable

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.job import Job
from sheetcalc.workbook.input_prints import TabPrint, changed_tabs
from sheetcalc.workbook.raw import RawBook, RawRow
from sheetcalc.workbook.results.fingerprints import PRINT, PRINTS_TAB, STOPPED, WHOLE, prints_of

_SHA_256 = re.compile(r"[0-9a-f]{64}")


def results_age(raw: RawBook, job: Job) -> tuple[Finding, ...]:
    """Compare the fingerprints that the last run left with those of the inputs now.

    Parameters
    ----------
    raw
        The workbook as found, with ``PRINTS_TAB`` among the tabs that were asked for.
    job
        As read from it.

    Returns
    -------
    tuple
        One note: ``RESULTS-CURRENT``, ``RESULTS-FOLLOW`` (tabs), ``RESULTS-OUT-OF-DATE`` (tabs)
        or ``RESULTS-OF-NO-RUN``; nothing where no run has left fingerprints.
    """
    table = raw.tables.get(PRINTS_TAB.key)
    if table is None:
        return ()
    if any(_text(row, PRINT) == STOPPED for row in table.rows):
        return (Finding("RESULTS-OF-NO-RUN"),)
    then = {
        _text(row, "Input tab"): TabPrint(_text(row, PRINT), _text(row, WHOLE))
        for row in table.rows
        if _SHA_256.fullmatch(_text(row, PRINT)) and _SHA_256.fullmatch(_text(row, WHOLE))
    }
    if not then:
        return ()
    now = prints_of(raw, job)
    nothing = prints_of(RawBook(raw.path, {}, (), ()), job)
    inputs, live = changed_tabs(nothing | then, now)
    if inputs:
        return (Finding("RESULTS-OUT-OF-DATE", facts={"tabs": _listed(inputs)}),)
    if live:
        return (Finding("RESULTS-FOLLOW", facts={"tabs": _listed(live)}),)
    return (Finding("RESULTS-CURRENT"),)


def _text(row: RawRow, header: str) -> str:
    cell = row.cells.get(header)
    return str(cell.value).strip() if cell is not None and cell.value is not None else ""


def _listed(tabs: Iterable[str]) -> str:
    return ", ".join(tabs)
