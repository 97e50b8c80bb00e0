"""An honest book with most kinds of part, and the means to change one of them for the worse."""

import zipfile
from collections.abc import Iterable
from pathlib import Path

from odd_packages import Features, package_parts

SHEET = "xl/worksheets/sheet1.xml"
MEBI = 1 << 20
DTD = b'<!DOCTYPE r [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'
OUTSIDE = b'<!DOCTYPE r SYSTEM "http://127.0.0.1:9/r.dtd">'
HEAD = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

_FULL = Features(
    comments=True,
    threaded=True,
    pivot=True,
    custom_xml=True,
    external_link=True,
    calc_chain=True,
    tables=("Prices",),
    chart_sheet=True,
)


def honest_parts() -> dict[str, bytes]:
    """Parts of a book with most kinds of part."""
    return package_parts(_FULL)


XML_PARTS = sorted(name for name in honest_parts() if name.endswith((".xml", ".rels", ".vml")))
"""Every XML part of the honest book."""


def pack(path: Path, parts: dict[str, bytes]) -> Path:
    """Write parts as a zip."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
    return path


def with_part(path: Path, name: str, content: bytes) -> Path:
    """An honest book with one part changed or added."""
    return pack(path, honest_parts() | {name: content})


def with_dtd(path: Path, part: str, declaration: bytes = DTD) -> Path:
    """A document type declaration in one part."""
    content = honest_parts()[part]
    head, mark, tail = content.partition(b"?>\n")
    changed = head + mark + declaration + tail if mark else declaration + content
    return with_part(path, part, changed)


def sheet(cells: bytes, tail: bytes = b"", dimension: bytes = b"A1") -> bytes:
    """A worksheet with some rows."""
    space = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    return (
        HEAD + b'<worksheet xmlns="' + space + b'"><dimension ref="' + dimension + b'"/><sheetData>'
        b"" + cells + b"</sheetData>" + tail + b"</worksheet>"
    )


def stream_part(path: Path, name: str, pieces: Iterable[bytes]) -> Path:
    """An honest book with one part written piece by piece, as large as one likes."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as package:
        for part, content in honest_parts().items():
            if part != name:
                package.writestr(part, content)
        with package.open(name, "w", force_zip64=True) as out:
            for piece in pieces:
                out.write(piece)
    return path
