"""What the cells of a sheet leave to be understood, written out; what contradicts itself, refused.

Few sheets need it, and a parsed tree takes several times as long as reading the cells.
"""

import re
from typing import Final

from lxml import etree
from openpyxl.utils.datetime import from_ISO8601

from sheetcalc.excel.opc import xml_tools
from sheetcalc.excel.opc.formula_text import column_letters
from sheetcalc.excel.opc.placing import cells_of, row_number
from sheetcalc.excel.opc.xml_tools import Element
from sheetcalc.excel.reading.cells import KINDS
from sheetcalc.excel.reading.strings import large_parser, plain_signs

_ODD_SIGNS = re.compile(rb"_x[0-9A-Fa-f]{4}_|>\s*[0-9][0-9.]*_")
_NO_STORED_TEXT = re.compile(
    rb"""["']str["'][^<>]*>\s*<(?:\w+:)?f\b[^<>]*(?:/>|>[^<]*</(?:\w+:)?f>)\s*</"""
)
_A_NUMBER = re.compile(r"\s*[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?\s*")
_NOT_IN_XML = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NO_NUMBER: Final = "#NUM!"


def is_odd(xml: bytes) -> bool:
    """Tell whether a sheet may hold what openpyxl reads otherwise than it is meant, without a word.

    Texts in cells that are not said to hold any, or the other way round; signs written as
    ``_x000D_``; numbers with an underscore, which Python reads; formulas of a text without one.
    """
    if xml.count(b"is>") != 2 * xml.count(b"inlineStr"):
        return True
    if b"_" in xml and _ODD_SIGNS.search(xml):
        return True
    return b"str" in xml and _NO_STORED_TEXT.search(xml) is not None


def spelled_out(xml: bytes) -> bytes:
    """Give every row and cell its place, and make each hold what it says.

    Numbers and dates that are none (``NaN``) become error values, so
    that a cell says so.

    Raises
    ------
    SyntaxError
        Where the part is not well formed.
    ValueError
        Where it contradicts itself, with the cell.
    """
    root = etree.fromstring(xml, large_parser())
    number = 0
    for row in root.iter("{*}row"):
        number = row_number(row, number)
        row.set("r", str(number))
        for cell, column in cells_of(row, number):
            cell.set("r", f"{column_letters(column)}{number}")
            _hold(cell)
    return etree.tostring(root, encoding="UTF-8", xml_declaration=True)


def _hold(cell: Element) -> None:
    """Make a cell hold what it says that it holds."""
    kind, at = cell.get("t", "n"), cell.get("r")
    value, text = (xml_tools.child(cell, name) for name in ("v", "is"))
    stored = (value.text or "") if value is not None else ""
    if kind not in KINDS - {"f"}:
        why = f"cell {at} is of an unknown kind, {kind[:40]!r}"
        raise ValueError(why)
    if (text is not None) != (kind == "inlineStr") and (text is not None or stored):
        why = f"cell {at} holds a text in another way than it says"
        raise ValueError(why)
    if kind == "b" and stored.strip() not in {"", "0", "1"}:
        why = f"cell {at} is yes or no, and holds {stored[:40]!r}"
        raise ValueError(why)
    if kind == "str" and value is None:
        del cell.attrib["t"]  # a formula that nobody has calculated, of a text or not
    elif kind == "str" and value is not None:
        value.text = _shown(stored)
    elif value is not None and stored and not _is_read(kind, stored):
        cell.set("t", "e")
        value.text = _NO_NUMBER
    for part in text.iter("{*}t") if text is not None else ():
        part.text = _shown(part.text or "")


def _is_read(kind: str, stored: str) -> bool:
    if kind == "d":
        try:
            from_ISO8601(stored)  # type: ignore[no-untyped-call]
        except ValueError:
            return False
    return kind != "n" or _A_NUMBER.fullmatch(stored) is not None


def _shown(text: str) -> str:
    """Turn signs written as ``_x000D_`` into those meant, if an XML part can hold those."""
    plain = plain_signs(text)
    return text if _NOT_IN_XML.search(plain) else plain
