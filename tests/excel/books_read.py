"""What the reader finds in a workbook, and workbooks as another program may have written them."""

import zipfile
from collections.abc import Callable
from pathlib import Path

from sheetcalc.excel.reading import read
from sheetcalc.workbook.raw import RawBook, RawTable


def read_book(path: Path) -> RawBook:
    return read.start_reading(path).result()


def rooms(path: Path) -> RawTable:
    return read_book(path).tables["Rooms"]


def values(table: RawTable, header: str) -> list[object]:
    return [row.cells[header].value if header in row.cells else None for row in table.rows]


def replace_in_sheet(path: Path, old: bytes, new: bytes) -> None:
    """Edit the bytes of the Rooms part, as another program might have written them."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    # the Job tab holds a 1.8 as well
    name = next(n for n, xml in parts.items() if old in xml and b"<v>1.2</v>" in xml)
    parts[name] = parts[name].replace(old, new, 1)
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for part, content in parts.items():
            package.writestr(part, content)


def rewritten(path: Path, change: Callable[[str, bytes], bytes]) -> None:
    """Rewrite every part of a workbook."""
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, change(name, content))
