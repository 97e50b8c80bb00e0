"""Rows of a tab from a small table of words."""

from sheetcalc.workbook.lists import tab_of
from sheetcalc.workbook.template_data import Record, typed


def records(tab: str, table: str) -> list[Record]:
    """Return the records of a tab from lines of cells set apart by bars, the first the headers."""
    lines = [line.split("|") for line in table.strip().splitlines()]
    by_header = tab_of(tab).by_header
    return [
        {
            header: typed(text, by_header[header].kind)
            for header, text in zip(lines[0], line, strict=True)
        }
        for line in lines[1:]
    ]
