"""The shared texts of a workbook, looked up one by one.

A user's workbook may hold half a million texts of which our tabs use a few hundred; only those
are decoded.
"""

import re
from collections.abc import Iterable

from lxml import etree

from sheetcalc.excel.opc.escapes import unescaped

_PLAIN = re.compile(rb'\s*<si>\s*<t(?: xml:space="preserve")?>([^<]*)</t>\s*')
_EMPTY = re.compile(rb"<si(?:\s[^>]*)?/>")
_SIGN = re.compile(r"_x((?![Dd][89A-Fa-f])[0-9A-Fa-f]{4})_")  # halves of a pair are no signs


class SharedStrings:
    """Texts by their number, as ``openpyxl`` asks for them."""

    def __init__(self, xml: bytes) -> None:
        self._seen: dict[int, str] = {}
        self._pieces: list[bytes] = []
        start = xml.find(b"<si")
        simple = b"<sst" in xml[:2000] and b"<![CDATA[" not in xml and b"<!--" not in xml
        if not xml or (simple and start < 0):
            return
        if simple and not xml.startswith((b"\xff\xfe", b"\xfe\xff")):
            self._pieces = _EMPTY.sub(b"<si></si>", xml[start:]).split(b"</si>")[:-1]
            return
        root = etree.fromstring(xml, large_parser())
        for number, element in enumerate(root.iterchildren("{*}si")):
            self._seen[number] = _text(element)

    def __getitem__(self, number: int) -> str:
        """Return the text with this number; IndexError where there is none."""
        if not 0 <= number < len(self):
            why = f"it asks for shared text {number} of {len(self)}"
            raise IndexError(why)
        text = self._seen.get(number)
        if text is None:
            text = self._seen[number] = _decoded(self._pieces[number])
        return text

    def known(self, numbers: Iterable[int]) -> set[str]:
        """Return the texts of these numbers that have been looked up before."""
        return {self._seen[number] for number in numbers if number in self._seen}

    def __len__(self) -> int:
        """Return how many texts there are."""
        return max(len(self._pieces), len(self._seen))


def large_parser() -> etree.XMLParser:
    """Make a parser of parts that may be large, which fetches and expands nothing."""
    return etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False, huge_tree=True)


def _decoded(piece: bytes) -> str:
    plain = _PLAIN.fullmatch(piece)
    if plain is not None and b"&#" not in piece:
        return plain_signs(unescaped(plain[1].decode()))
    wrapped = b'<sst xmlns:x14ac="x" xmlns:mc="y">' + piece[piece.find(b"<si") :] + b"</si></sst>"
    return _text(etree.fromstring(wrapped, large_parser())[0])


def _text(element: etree._Element) -> str:
    """Join the text of an ``si``: its own and its runs', without phonetic readings."""
    parts: list[str] = []
    for child in element.iterchildren("{*}t", "{*}r", "t", "r"):
        if etree.QName(child).localname == "t":
            parts.append(child.text or "")
        else:
            parts.extend(t.text or "" for t in child.iterchildren("{*}t", "t"))
    return plain_signs("".join(parts))


def plain_signs(text: str) -> str:
    """Turn ``_x000D_`` into the sign that it stands for (ECMA-376 part 1, 22.9.2.19)."""
    return _SIGN.sub(lambda m: chr(int(m[1], 16)), text) if "_x" in text else text
