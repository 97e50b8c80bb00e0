"""From cells as found to everything that a workbook says: rows to records, or findings.

All findings of a workbook come in one run, and nothing is silently defaulted: a row with an error
becomes no record, and neither do the rooms that depend on it.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from sheetcalc.domain.finding import Finding
from sheetcalc.domain.inputs import Inputs
from sheetcalc.workbook.convert.catalogue import CATALOGUE_TABS, read_catalogue
from sheetcalc.workbook.convert.concerned import rooms_concerned
from sheetcalc.workbook.convert.currencies import check_currencies
from sheetcalc.workbook.convert.finishes import read_finishes
from sheetcalc.workbook.convert.job import read_job
from sheetcalc.workbook.convert.references import (
    Names,
    check_doubles,
    check_references,
    check_spellings,
)
from sheetcalc.workbook.convert.rooms import read_rooms
from sheetcalc.workbook.convert.rows import Desk
from sheetcalc.workbook.convert.tables import check_header_units, check_tables
from sheetcalc.workbook.convert.trading import (
    read_decisions,
    read_holidays,
    read_phases,
    read_readings,
    read_received,
)
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.inputs.allowances import LABOUR
from sheetcalc.workbook.inputs.finishes import BUILD_UP, FINISHES
from sheetcalc.workbook.inputs.job import PHASES
from sheetcalc.workbook.inputs.trading import SUPPLIERS
from sheetcalc.workbook.raw import RawBook
from sheetcalc.workbook.shown import displayed

if TYPE_CHECKING:
    from sheetcalc.workbook.columns import Tab

__all__ = ["named_rooms", "rooms_concerned", "to_inputs"]


def to_inputs(raw: RawBook) -> tuple[Inputs | None, tuple[Finding, ...]]:
    """Read a whole workbook.

    Parameters
    ----------
    raw
        As found by the reader.

    Returns
    -------
    tuple
        The inputs, without the rows that have errors (None where the book has none of our tabs),
        and every finding of the workbook.  Whether a finding is an error stands in the table of
        wordings.
    """
    findings = list(check_tables(raw, INPUT_TABS))
    if not any(tab.key in raw.tables for tab in INPUT_TABS):
        return None, tuple(findings)
    job, job_findings = read_job(raw)
    desk = Desk(raw, job.units, Names(raw), findings)
    desk.findings += job_findings
    desk.findings += check_header_units(raw, INPUT_TABS, job.units)
    _note_faulty(desk, check_references(raw, INPUT_TABS, desk.names))
    _note_faulty(desk, _doubles(raw))
    desk.findings += check_doubles(
        raw, LABOUR, ("Task", "Basis", "Finish", "Surface", "Day"), "TASK-TWICE"
    )
    desk.findings += check_currencies(raw, INPUT_TABS, job)
    desk.findings += check_spellings(raw, (SUPPLIERS, *CATALOGUE_TABS), desk.names)
    catalogue = read_catalogue(desk)
    finishes = read_finishes(desk, catalogue)
    inputs = Inputs(
        job=job,
        phases=read_phases(desk),
        rooms=read_rooms(desk, finishes),
        finishes=finishes,
        catalogue=catalogue,
        holidays=read_holidays(desk),
        received=read_received(desk),
        decisions=read_decisions(desk),
        readings=read_readings(desk),
    )
    return inputs, tuple(desk.findings)


def named_rooms(raw: RawBook) -> tuple[str, ...]:
    """Return the names in the Rooms tab, those of faulty rows too, in their order.

    A row without a name is told by its number: it is still somebody's bathroom.
    """
    table = raw.tables.get("Rooms")
    if table is None:
        return ()
    return tuple(
        displayed(row.cells["Room"]) if "Room" in row.cells else f"{table.sheet} row {row.row}"
        for row in table.rows
    )


def _doubles(raw: RawBook) -> Iterable[Finding]:
    """Yield names that may stand only once, and stand again."""
    keys: tuple[tuple[Tab, tuple[str, ...], str], ...] = (
        (PHASES, ("Phase",), "NAME-TWICE"),
        (SUPPLIERS, ("Supplier",), "NAME-TWICE"),
        (FINISHES, ("Finish", "Surface"), "SURFACE-TWICE"),
        (BUILD_UP, ("Finish", "Surface", "Order"), "LAYER-TWICE"),
        *((tab, ("Code", "Supplier"), "CODE-TWICE") for tab in CATALOGUE_TABS),
    )
    for tab, headers, code in keys:
        yield from check_doubles(raw, tab, headers, code)


def _note_faulty(desk: Desk, findings: Iterable[Finding]) -> None:
    """Keep findings that make records of their rows impossible."""
    for finding in findings:
        desk.findings.append(finding)
        desk.faulty_rows.add(finding.source)
