"""What a person put on one of our tabs beside its cells: comments, charts, pictures, pivot tables.

Making the tab anew would lose them, and no figure of its cells tells.  Pictures of ours are known
by a note within the picture itself, which programs pass on with its bytes: names and alternative
texts they rewrite.
"""

import struct
import zlib
from typing import Final

from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.package import Package

# what our tabs point at, and what programs add on saving that holds nothing of a person's
_OURS: Final = frozenset({"table", "drawing", "hyperlink", "printerSettings"})
_PNG_HEAD: Final = 33
"""Signature and IHDR chunk of a PNG [bytes] (ISO/IEC 15948, 5.2 and 11.2.2)."""
_PNG: Final = b"\x89PNG\r\n\x1a\n"
_ANCHORS: Final = frozenset({"oneCellAnchor", "twoCellAnchor", "absoluteAnchor"})
_FRAME: Final = frozenset({"from", "to", "pos", "ext", "clientData"})


def _note() -> bytes:
    """Make a text chunk that names the program (ISO/IEC 15948, 11.3.4.3)."""
    content = b"tEXt" + b"Software\0sheetcalc"
    return struct.pack(">I", len(content) - 4) + content + struct.pack(">I", zlib.crc32(content))


_NOTE: Final = _note()


def signed_picture(content: bytes) -> bytes:
    """Put the note into a picture of ours; another kind of picture than PNG stays as it is."""
    if not content.startswith(_PNG) or _NOTE in content[: _PNG_HEAD + len(_NOTE)]:
        return content
    return content[:_PNG_HEAD] + _NOTE + content[_PNG_HEAD:]


def _is_ours(package: Package, key: str) -> bool:
    stream = package.stream(key)
    try:
        head = next(stream, b"")
    finally:
        stream.close()
    return _NOTE in head[: _PNG_HEAD + len(_NOTE)]


def has_additions(package: Package, part: str) -> bool:
    """Tell whether a sheet holds something of a person's beside its cells.

    Parameters
    ----------
    package
        The book.
    part
        Key of the sheet's part.

    Raises
    ------
    Refused
        Where a drawing can't be read.
    """
    if any(r.type not in _OURS for r in package.relationships(part)):
        return True
    return any(_has_foreign_drawing(package, key) for key in package.related(part, "drawing"))


def _has_foreign_drawing(package: Package, part: str) -> bool:
    pictures = {r.id: r.target for r in package.relationships(part) if r.target in package.parts}
    known: dict[str, bool] = {}
    for anchor in xml.parse(package.read(part), part):
        if not isinstance(anchor.tag, str):
            continue
        if xml.local(anchor) not in _ANCHORS:
            return True
        for item in anchor:
            if not isinstance(item.tag, str) or xml.local(item) in _FRAME:
                continue
            if xml.local(item) != "pic":
                return True
            keys = [pictures.get(i, "") for i in _embedded(item)]
            for key in keys:
                known.setdefault(key, bool(key) and _is_ours(package, key))
            if not keys or not all(known[key] for key in keys):
                return True
    return False


def _embedded(picture: xml.Element) -> list[str]:
    """Ids of the pictures that a picture element shows."""
    return [
        str(value)
        for element in picture.iter()
        if xml.local(element) == "blip"
        for name, value in element.attrib.items()
        if str(name).rpartition("}")[2] in ("embed", "link")
    ]
