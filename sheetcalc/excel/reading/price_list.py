"""Reading a supplier's price list: a workbook, or text with separators."""

import csv
import io
import re
from pathlib import Path
from typing import Final

from sheetcalc.domain.price_list import Grid
from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.package import OLE_MAGIC, ZIP_MAGIC
from sheetcalc.excel.reading.read import PendingBook

LARGEST_TEXT: Final = 64 * 1024 * 1024
_SEPARATORS: Final = (";", "\t", "|", ",")
_LINES_LOOKED_AT: Final = 50
_DECIMAL_COMMA: Final = re.compile(r"-?(?:\d{1,3}(?:[. ]\d{3})+|\d+),\d{1,2}(?!\d)")
_DECIMAL_POINT: Final = re.compile(r"-?(?:\d{1,3}(?:[, ]\d{3})+|\d+)\.\d{1,2}(?!\d)")


def read_price_list(path: Path) -> tuple[Grid, ...]:
    """Read every sheet of a list.

    Parameters
    ----------
    path
        A workbook (.xlsx, .xlsm), or text: UTF-8, UTF-16 with its mark, or Windows-1252, with
        semicolons, tabs, bars or commas between the cells.

    Raises
    ------
    Refused
        Where it can't be read.
    """
    try:
        with path.open("rb") as file:
            start = file.read(len(OLE_MAGIC))
        if start == OLE_MAGIC or start.startswith(ZIP_MAGIC):
            answer = PendingBook(path, whole=True).answer()
            return tuple(
                Grid(grid["name"], tuple(tuple(row) for row in grid["rows"]))
                for grid in answer["grids"]
            )
        if path.stat().st_size > LARGEST_TEXT:
            raise Refused(Code.BOOK_TOO_LARGE, {"mebibytes": path.stat().st_size >> 20})
        content = path.read_bytes()
    except OSError as trouble:
        why = trouble.strerror or "unknown"
        raise Refused(Code.FILE_NOT_READABLE, {"why": why}) from trouble
    if not content:
        raise Refused(Code.FILE_EMPTY, {})
    return (_text_grid(_decoded(content)),)


def _decoded(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings = ["utf-16"]
    else:
        encodings = ["utf-8-sig", "cp1252"]
    for encoding in encodings:
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    raise Refused(Code.NOT_A_WORKBOOK, {"why": "it is neither a workbook nor text"})


def _text_grid(text: str) -> Grid:
    """Split lines into cells; the separator is the one that parts the first lines most evenly."""
    lines = [line for line in text.splitlines() if line.strip()][:_LINES_LOOKED_AT]
    separator = max(_SEPARATORS, key=lambda mark: _evenness(lines, mark))
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))
    except csv.Error as trouble:
        raise Refused(Code.NOT_A_WORKBOOK, {"why": f"it is no list: {trouble}"}) from trouble
    cells = [cell.strip() for row in rows for cell in row]
    commas = sum(bool(_DECIMAL_COMMA.fullmatch(cell)) for cell in cells)
    points = sum(bool(_DECIMAL_POINT.fullmatch(cell)) for cell in cells)
    return Grid(
        "",
        tuple(tuple(cell.strip() or None for cell in row) for row in rows),
        comma=separator != "," and commas > points,
    )


def _evenness(lines: list[str], mark: str) -> tuple[int, int]:
    """How many lines hold as many of a mark as most lines do, and how many marks those are."""
    counts = [line.count(mark) for line in lines]
    usual = max(set(counts), key=lambda n: (counts.count(n) if n else 0, n), default=0)
    return (counts.count(usual) if usual else 0, usual)
