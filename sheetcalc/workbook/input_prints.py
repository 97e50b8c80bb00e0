"""Exact fingerprints of the input tables: whether results are of the inputs that a book holds.

The formulas on Findings compare counts and sums, which is as much as a sheet can do.  Here every
cell counts: SHA-256 of the records of a tab, in any order, by the declared headers.  Sorting rows,
moving columns and saving by another program change nothing; an edit does.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import date, datetime, time
from typing import Final

from msgspec import Struct

from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.raw import RawBook, RawCell, RawRow, RawTable

Record = tuple[tuple[str, str], ...]

WITHOUT_MEANING: Final = frozenset({("Job", "Guidance"), ("Job", "Source")})
"""Columns that explain the others."""

ALL_LIVE: Final = frozenset({"Received"})
"""Tabs that results look up whole."""


class TabPrint(Struct, frozen=True):
    """SHA-256, in hexadecimal, of one tab.

    Attributes
    ----------
    inputs
        Of what results are calculated from.
    whole
        Of that and of the columns that results look up live.
    """

    inputs: str
    whole: str


def tab_prints(
    raw: RawBook, live: Collection[tuple[str, str]], live_settings: Collection[str]
) -> dict[str, TabPrint]:
    """Fingerprint of every input tab; one that is absent has that of an empty one.

    Parameters
    ----------
    raw
        The workbook as found.
    live
        Tab and header of the columns that results look up.
    live_settings
        Casefolded names of the Job's settings that results look up.
    """
    found: dict[str, TabPrint] = {}
    for tab in INPUT_TABS:
        table = raw.tables.get(tab.key)
        records = list(_records(table)) if table else []
        still = [
            tuple(item for item in record if (tab.key, item[0]) not in live)
            for record in records
            if tab.key not in ALL_LIVE and not _is_live_setting(tab.key, record, live_settings)
        ]
        whole = _digest(records)
        found[tab.key] = TabPrint(whole if still == records else _digest(still), whole)
    return found


def _is_live_setting(tab: str, record: Record, names: Collection[str]) -> bool:
    return tab == "Job" and any(
        header == "Setting" and value[1:].casefold() in names for header, value in record
    )


def _digest(records: Sequence[Record]) -> str:
    lines = sorted(json.dumps(record, ensure_ascii=True) for record in records if record)
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()


def _records(table: RawTable) -> Iterator[Record]:
    """Yield what each row says; rows of one code, of which the first counts, say their place."""
    codes = Counter(_code(row) for row in table.rows)
    seen: Counter[str] = Counter()
    for row in table.rows:
        items = sorted(
            (header, _said(cell))
            for header, cell in row.cells.items()
            if (table.tab, header) not in WITHOUT_MEANING and not _is_blank(cell)
        )
        code = _code(row)
        if code and codes[code] > 1:
            seen[code] += 1
            items.append(("", str(seen[code])))
        if items:
            yield tuple(items)


def _code(row: RawRow) -> str:
    """Code of a catalogue row; "" elsewhere."""
    cell = row.cells.get("Code")
    return _said(cell).casefold() if cell is not None and "Supplier" in row.cells else ""


def _is_blank(cell: RawCell) -> bool:
    return cell.value is None and not cell.error and cell.has_value


def _said(cell: RawCell) -> str:
    """Value with a letter for its kind, alike whichever program saved it last."""
    value = cell.value
    if cell.error:
        return "e" + cell.error
    if not cell.has_value:
        return "f"
    if isinstance(value, bool):
        return f"b{int(value)}"
    if isinstance(value, int | float):
        return f"n{value:.15g}"  # programs keep fifteen digits of a number
    if isinstance(value, datetime | date | time):
        return "d" + value.isoformat()
    return "s" + str(value).strip()


def changed_tabs(
    then: Mapping[str, TabPrint], now: Mapping[str, TabPrint]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Tabs whose inputs differ, and tabs of which only live columns do."""
    inputs = tuple(tab for tab in now if tab in then and then[tab].inputs != now[tab].inputs)
    live = tuple(
        tab
        for tab in now
        if tab in then and tab not in inputs and then[tab].whole != now[tab].whole
    )
    return inputs, live
