"""Names and texts that people typed: words of ours in them are not ours."""

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from sheetcalc.workbook.columns import Kind
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.office import Office
from sheetcalc.workbook.raw import RawBook

_FREE: Final = frozenset({Kind.TEXT, Kind.CODE})
"""Kinds of columns that hold what a person makes up."""

_JOB: Final = "Job"


def keeping_typed(office: Office, raw: RawBook) -> Office:
    """Return an office whose words leave alone what stands in a workbook's input tabs.

    Parameters
    ----------
    office
        What an office sets.
    raw
        The workbook as found.
    """
    if office.words.english:
        return office
    return replace(office, words=office.words.keeping(set(_typed(raw))))


def _typed(raw: RawBook) -> Iterator[str]:
    for tab in INPUT_TABS:
        table = raw.tables.get(tab.key)
        # of a setting only the Value is a person's
        free = [c for c in tab.columns if c.kind in (_FREE if tab.key != _JOB else {Kind.SETTING})]
        for record in table.rows if table else ():
            for column in free:
                cell = record.cells.get(column.header)
                text = cell.value if cell is not None else None
                if isinstance(text, str) and text.strip() not in {"", *column.choices}:
                    yield text.strip()
