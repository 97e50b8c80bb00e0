"""Sheets as LibreOffice writes them into text files: values, and of which kind they are."""

import re
from datetime import datetime

from openpyxl.utils import get_column_letter

EVERY_SHEET = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1"
"""What to convert a workbook to: a file of each sheet, in UTF-8.

Every text stands within quotes, and nothing else does; values are not as they are shown, but as
they would be typed, with all of their digits.
"""

_CELL = re.compile(r'("(?:[^"]|"")*"|[^,\n]*)([,\n]|$)')


def cells_of_text(text: str) -> dict[str, str | float | bool | datetime]:
    """Values of a sheet by their addresses; empty cells are left out."""
    found: dict[str, str | float | bool | datetime] = {}
    row = column = 1
    for cell in _CELL.finditer(text):
        written, ends = cell.groups()
        if written not in {"", '""'}:
            found[f"{get_column_letter(column)}{row}"] = _value(written)
        row, column = (row, column + 1) if ends == "," else (row + 1, 1)
    return found


def _value(written: str) -> str | float | bool | datetime:
    if written.startswith('"'):
        return written[1:-1].replace('""', '"')
    if written in {"TRUE", "FALSE"}:
        return written == "TRUE"
    if written.endswith("%"):
        return float(written[:-1]) / 100
    if re.fullmatch(r"-?\d+", written):
        return int(written)
    for kind in (float, datetime.fromisoformat):
        try:
            return kind(written)
        except ValueError:
            continue
    return written  # an error
