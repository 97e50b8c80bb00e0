"""Cells of one of our sheets, whichever program wrote them last.

A sheet may have hundreds of thousands of cells.  Most programs write them in one plain shape,
which a pattern reads five times as fast as a tree; a sheet in any other shape goes through the
tree, and both give the same (a test holds them to it).
"""

import re
from collections.abc import Iterator
from typing import TypeAlias

from msgspec import Struct, field

from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.escapes import unescaped

Place: TypeAlias = tuple[int, int]
Masters: TypeAlias = dict[str, tuple[str, Place]]

_ADDRESS = re.compile(r"\$?([A-Za-z]{1,3})\$?(\d+)")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_PLAIN_CELL = re.compile(r'<c r="([A-Z]{1,3})(\d+)"([^>]*?)(?:/>|>(.*?)</c>)', re.DOTALL)
_FORMULA = re.compile(r"<f([^>]*?)(?:/>|>(.*?)</f>)", re.DOTALL)
_VALUE = re.compile(r"<v[^>]*>(.*?)</v>", re.DOTALL)
_PLAIN_TEXT = re.compile(r"<is><t[^>]*>([^<]*)</t></is>")
_ATTRIBUTE = re.compile(r' (\w+)="([^"]*)"')


class TabContent(Struct):
    """Cells of one sheet: row and column (1-based) -> what it holds, with a letter for its kind.

    ``n`` number, ``s`` text, ``b`` true or false, ``e`` error, ``f`` formula in its normal form.
    ``pending`` are texts still to be looked up among the shared strings.
    """

    cells: dict[Place, str] = field(default_factory=dict)
    pending: dict[Place, int] = field(default_factory=dict)

    def text(self, place: Place) -> str:
        """Text of a cell, "" where it holds none."""
        held = self.cells.get(place, "")
        return held[1:] if held.startswith("s") else ""


def place_of(address: str) -> Place | None:
    """Row and column of an address such as ``B7``."""
    match = _ADDRESS.fullmatch(address)
    return (int(match[2]), formula_text.column_number(match[1])) if match else None


def address_of(place: Place) -> str:
    """Write the address of a row and a column.

    >>> address_of((3, 28))
    'AB3'
    """
    return f"{formula_text.column_letters(place[1])}{place[0]}"


def plain_text(parent: xml.Element) -> str:
    """Text of a string item: its runs, without the phonetic ones."""
    found: list[str] = []
    for element in parent.iter():
        if xml.local(element) == "t":
            above = element.getparent()
            if above is None or xml.local(above) != "rPh":
                found.append(element.text or "")
    return _plain("".join(found))


def _plain(text: str) -> str:
    """Undo what programs do differently: line ends, and signs written as _x000D_."""
    if "_x" in text:
        text = _ESCAPED.sub(lambda m: chr(int(m[1], 16)), text)
    return text.replace("\r", "")


def _number(text: str) -> str:
    try:
        return f"{float(text):.15g}"  # programs keep fifteen digits of a number
    except ValueError:
        return text


def parse_cells(content: bytes, part: str) -> TabContent:
    """Read the cells of a worksheet part.

    Raises
    ------
    Refused
        ``XML-BROKEN``.
    """
    found = TabContent()
    masters: Masters = {}
    cells = _plain_cells(content)
    for place, cell in _tree_cells(content, part) if cells is None else cells:
        _hold(found, cell, place, masters)
    return found


class _Cell(Struct, frozen=True):
    """One cell as written: its type, its formula's attributes and text, its value, its text."""

    kind: str
    formula: str | None
    shared: str
    value: str
    text: str | None


def _plain_cells(content: bytes) -> list[tuple[Place, _Cell]] | None:
    """Read cells by a pattern; None where the sheet is not in the plain shape."""
    odd = (b"<!", b"<?", b"&#")
    if b"<worksheet" not in content[:2000] or any(sign in content[60:] for sign in odd):
        return None
    try:
        data = content.decode()
    except UnicodeDecodeError:
        return None
    found: list[tuple[Place, _Cell]] = []
    columns: dict[str, int] = {}
    count = 0
    for letters, digits, attributes, inner in _PLAIN_CELL.findall(data):
        count += 1
        if not inner:
            continue
        column = columns.get(letters)
        if column is None:
            column = columns[letters] = formula_text.column_number(letters)
        cell = _plain_cell(attributes, inner)
        if cell is None:
            return None
        found.append(((int(digits), column), cell))
    if count != len(re.findall(r"<c[\s/>]", data)):
        return None
    return found


def _plain_cell(attributes: str, inner: str) -> _Cell | None:
    start = attributes.find(' t="')
    kind = attributes[start + 4 : attributes.index('"', start + 4)] if start >= 0 else "n"
    if kind == "inlineStr":
        match = _PLAIN_TEXT.fullmatch(inner)
        return _Cell(kind, None, "", "", unescaped(match[1])) if match else None
    formula, shared = None, ""
    if inner.startswith("<f"):
        match = _FORMULA.match(inner)
        if match is None:
            return None
        formula = unescaped(match[2] or "")
        named = dict(_ATTRIBUTE.findall(match[1]))
        shared = named.get("si", "") if named.get("t") == "shared" else ""
    value = _VALUE.search(inner)
    stored = unescaped(value[1]) if value else ""
    return _Cell(kind, formula, shared, stored, None)


def _tree_cells(content: bytes, part: str) -> Iterator[tuple[Place, _Cell]]:
    row_number, column_number = 0, 0
    data = xml.child(xml.parse(content, part), "sheetData")
    for row in () if data is None else data:
        if xml.local(row) != "row":
            continue
        row_number = xml.whole(row.get("r"), row_number + 1)
        column_number = 0
        for cell in row:
            if xml.local(cell) != "c":
                continue
            place = place_of(cell.get("r") or "") or (row_number, column_number + 1)
            column_number = place[1]
            formula, value, inline = (xml.child(cell, name) for name in ("f", "v", "is"))
            shared = formula is not None and formula.get("t") == "shared"
            yield (
                place,
                _Cell(
                    cell.get("t") or "n",
                    None if formula is None else formula.text or "",
                    (formula.get("si") or "") if formula is not None and shared else "",
                    "" if value is None else value.text or "",
                    None if inline is None else plain_text(inline),
                ),
            )


def _hold(found: TabContent, cell: _Cell, place: Place, masters: Masters) -> None:
    if cell.formula is not None:
        found.cells[place] = "f" + _normal(cell.formula, cell.shared, place, masters)
    elif cell.text is not None:
        if text := _plain(cell.text):
            found.cells[place] = "s" + text
    elif not cell.value:
        return
    elif cell.kind == "s":
        found.pending[place] = xml.whole(cell.value)
    elif cell.kind == "n":
        found.cells[place] = "n" + _number(cell.value)
    elif cell.kind == "b":
        found.cells[place] = "b1" if xml.is_true(cell.value) else "b0"
    elif cell.kind == "e":
        found.cells[place] = "e" + cell.value
    else:
        found.cells[place] = "s" + _plain(cell.value)


def _normal(formula: str, shared: str, place: Place, masters: Masters) -> str:
    home = place
    if shared:
        if formula:
            masters[shared] = formula, place
        # relative to its own cell, a shared formula reads alike in every cell
        formula, home = masters.get(shared, ("", place))
    return formula_text.normal_form(formula, *home)
