"""Price lists and allowances of the templates: one file a tab, headers as declared."""

import csv
import io
import re
from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TypeAlias

from sheetcalc.templates_folder import template_file
from sheetcalc.workbook.columns import LENGTH_KINDS, Kind, Tab
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.lists import slug
from sheetcalc.workbook.sheet import Cell

Value: TypeAlias = str | int | float | date | Cell | None
Record: TypeAlias = Mapping[str, Value]
Records: TypeAlias = Mapping[str, Sequence[Record]]
"""Tab -> its records, each a mapping of declared header to what stands in the cell: a value, or
a ``Cell`` where it is a formula or has a style of its own."""

_NUMBER_KINDS = LENGTH_KINDS | {
    Kind.AREA, Kind.VOLUME, Kind.MASS, Kind.FILL, Kind.NUMBER, Kind.TEMPERATURE,
    Kind.COUNT, Kind.MONEY,
}  # fmt: skip
_TAPE = re.compile(r"(?:(?P<whole>\d+) )?(?P<part>\d+/\d+)")

ALLOWANCES = ("Waste factors", "Labour")
"""Tabs that a blank workbook is filled with: what an office allows for, for it to change."""


def template_records(
    system: str, folder: Path | None = None, *, subfolder: str = ""
) -> dict[str, list[Record]]:
    """Read every file of a unit system's templates.

    Parameters
    ----------
    system
        ``metric`` or ``us``.
    folder
        An office's own templates; None for the program's.
    subfolder
        Of the system's folder, such as ``example``.

    Raises
    ------
    ValueError
        For a header that its tab does not have, or a cell that is not of its column's kind.
    """
    found: dict[str, list[Record]] = {}
    for tab in INPUT_TABS:
        path = template_file(
            "/".join(p for p in (system, subfolder, f"{slug(tab.key)}.csv") if p), folder
        )
        if path.is_file():
            found[tab.key] = _read(path, tab)
    return found


def own_tabs(system: str, folder: Path | None) -> frozenset[str]:
    """Tabs whose records an office keeps in its own folder; none without one."""
    if folder is None:
        return frozenset()
    return frozenset(
        tab.key for tab in INPUT_TABS if (folder / system / f"{slug(tab.key)}.csv").is_file()
    )


def _read(path: Path, tab: Tab) -> list[Record]:
    """Read the records of one file."""
    records: list[Record] = []
    text = _text(path)
    lines = io.StringIO(text, newline="")  # a cell may hold a line break
    for number, row in enumerate(csv.DictReader(lines, delimiter=_separator(text)), 2):
        record: dict[str, Value] = {}
        for header, cell in row.items():
            if header is None:
                message = (
                    f"{path.name}, line {number}: more cells than headers; text that holds the "
                    "separator needs quotation marks"
                )
                raise ValueError(message)
            if header not in tab.by_header:
                message = f"{path.name}: no column {header!r} on the tab {tab.key}"
                raise ValueError(message)
            try:
                record[header] = typed(cell or "", tab.by_header[header].kind)
            except ValueError as error:
                message = f"{path.name}, line {number}, {header}: {cell!r} ({error})"
                raise ValueError(message) from error
        records.append(record)
    return records


def _text(path: Path) -> str:
    """Text of a file; a spreadsheet program may put a mark before its first sign."""
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        message = f"{path.name} is no UTF-8 text: save it as CSV in UTF-8"
        raise ValueError(message) from wrong


def _separator(text: str) -> str:
    """Semicolon where the headers are parted by it, as some spreadsheet programs write them."""
    headers = next(iter(text.splitlines()), "")
    return ";" if headers.count(";") > headers.count(",") else ","


def typed(text: str, kind: Kind) -> str | int | float | date | None:
    """Return a template's cell as a number, a fraction of an inch, a percent, a date, or text.

    Parameters
    ----------
    text
        As in the file.
    kind
        Kind of its column.

    Raises
    ------
    ValueError
        Where a number, a percent or a date is wanted and the text is none.

    Examples
    --------
    >>> typed("1 3/16", Kind.SMALL_LENGTH)
    1.1875
    >>> typed("5 %", Kind.PERCENT)
    0.05
    """
    text = text.strip()
    if not text:
        return None
    if kind is Kind.PERCENT:
        return float(text.removesuffix("%").strip()) / 100
    if kind is Kind.DATE:
        return date.fromisoformat(text)
    return _number(text, kind) if kind in _NUMBER_KINDS else text


def _number(text: str, kind: Kind) -> str | int | float:
    """Return the number of a template's cell; a length with its unit stays as typed."""
    tape = _TAPE.fullmatch(text)
    if tape:
        return float(int(tape["whole"] or 0) + Fraction(tape["part"]))
    if kind in LENGTH_KINDS and not re.fullmatch(r"-?[\d.]+", text):
        return text
    number = float(text)
    return int(number) if number.is_integer() else number
