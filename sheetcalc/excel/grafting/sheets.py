"""One sheet of a fresh workbook made ready for another book.

Style numbers, names in formulas, strings and dates are put into the book's terms.  The input is
always our own generator's, whose cells have one shape, so the cells go through one pattern and
only what stands around them through an XML tree: half a million cells need no tree.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from msgspec import Struct

from sheetcalc.excel.grafting.styles import StyleMerger
from sheetcalc.excel.opc import formula_text
from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.escapes import escaped, unescaped
from sheetcalc.excel.opc.xml_tools import Element

DAYS_BETWEEN_EPOCHS: Final = 1462
"""Days from the 1900 to the 1904 date system (ECMA-376 part 1, 18.17.4.1)."""

_CELL = re.compile(r"<c r=\"([A-Z]+\d+)\"([^>]*?)(/>|>(.*?)</c>)", re.DOTALL)
_ROW_STYLE = re.compile(r'(<row [^>]*? s=")(\d+)(")')
_FORMULA = re.compile(r"<f(?P<attributes>[^>]*)>(?P<text>.*?)</f>", re.DOTALL)
_VALUE = re.compile(r"<v>(.*?)</v>", re.DOTALL)
_LONG_VALUE = len("<v></v>") + 15
_ENTRY = re.compile(r"<si>(.*?)</si>", re.DOTALL)
_SCHEME = re.compile(r"<scheme [^>]*/>")
_THEME = re.compile(r'<color theme="(\d+)"/>')
# what follows hyperlinks (ECMA-376 part 1, 18.3.1.99); the generator always sets margins
_AFTER_LINKS = re.compile(r"<(?:printOptions|pageMargins)\b")
_SPAN = re.compile(r'(<dimension ref=")[^"]*"')
_FORMULAS: Final = frozenset({"formula", "formula1", "formula2", "f"})
"""The last is that of rules within extensions; cells are not among what this is asked about."""
_WITH_TERMS: Final = tuple(
    f"{{*}}{name}"
    for name in ("sheetView", "col", "cfRule", "hyperlink", "cfvo", "dataValidation", *_FORMULAS)
)


class Renaming(Struct, frozen=True):
    """Names that had to change: old name in lower case -> new name."""

    sheets: Mapping[str, str]
    names: Mapping[str, str]

    def __call__(self, formula: str) -> str:
        """Put a formula under the new names."""
        return formula_text.rename(formula, sheets=self.sheets, names=self.names)


def shared_strings(content: bytes | None, colours: Sequence[str]) -> list[str]:
    """Inner XML of each shared string of the fresh workbook, free of the theme."""
    if content is None:
        return []

    def colour(match: re.Match[str]) -> str:
        return f'<color rgb="{colours[int(match[1]) % len(colours)]}"/>'

    return [
        _THEME.sub(colour, _SCHEME.sub("", inner)) for inner in _ENTRY.findall(content.decode())
    ]


class SheetTerms(Struct):
    """What a book calls the things of a fresh workbook.

    Attributes
    ----------
    styles
        Gives style numbers.
    strings
        Inner XML of the fresh workbook's shared strings.
    renaming
        Of sheets, tables and names.
    day_shift
        Days to add to dates (-1462 in a book that counts from 1904).
    """

    styles: StyleMerger
    strings: Sequence[str]
    renaming: Renaming
    day_shift: int = 0

    def cells(self, data: str) -> str:
        """Put the cells of a sheet (the text within sheetData) into the book's terms."""
        default = self.styles.xf(0)
        style_of: dict[str, str] = {}
        shifting = self.day_shift != 0

        def cell(match: re.Match[str]) -> str:
            address, attributes, _, inner = match.groups()
            style, kind = _attribute(attributes, "s"), _attribute(attributes, "t")
            number = style_of.get(style)
            if number is None:
                number = str(self.styles.xf(int(style)) if style else default)
                style_of[style] = number
            head = f'<c r="{address}" s="{number}"'
            if inner is None:
                return head + "/>"
            if kind == "s":
                return f'{head} t="inlineStr"><is>{self.strings[int(inner[3:-4])]}</is></c>'
            if inner.startswith("<f"):
                inner = _FORMULA.sub(self._formula, inner, count=1)
            elif len(inner) > _LONG_VALUE and kind in ("", "n"):
                inner = _VALUE.sub(_fifteen_digits, inner)
            if shifting and kind in ("", "n") and style and self.styles.is_date(int(style)):
                inner = _VALUE.sub(self._shifted, inner)
            return f'{head} t="{kind}">{inner}</c>' if kind else f"{head}>{inner}</c>"

        def row(match: re.Match[str]) -> str:
            return f"{match[1]}{self.styles.xf(int(match[2]))}{match[3]}"

        return _ROW_STYLE.sub(row, _CELL.sub(cell, data))

    def _formula(self, match: re.Match[str]) -> str:
        text = match["text"]
        if not (self.renaming.sheets or self.renaming.names):
            return match[0]
        new = escaped(self.renaming(unescaped(text)))
        return f"<f{match['attributes']}>{new}</f>"

    def _shifted(self, match: re.Match[str]) -> str:
        try:
            moved = float(match[1]) + self.day_shift
        except ValueError:
            return match[0]
        return f"<v>{int(moved) if moved == int(moved) else repr(moved)}</v>"

    def surroundings(self, root: Element) -> None:
        """Everything of a worksheet but its cells, in the book's terms, in place."""
        for element in root.iter(*_WITH_TERMS):
            name = xml.local(element)
            if name == "sheetView":
                element.attrib.pop("tabSelected", "")
            elif name == "col" and (style := element.get("style")) is not None:
                element.set("style", str(self.styles.xf(xml.whole(style))))
            elif name == "cfRule" and (dxf := element.get("dxfId")) is not None:
                element.set("dxfId", str(self.styles.dxf(xml.whole(dxf))))
            elif name == "hyperlink" and (place := element.get("location")) is not None:
                element.set("location", self.renaming(place))
            elif name in _FORMULAS and element.text:
                self._rename_text(element)
            elif name == "cfvo" and element.get("type") == "formula":
                element.set("val", self.renaming(element.get("val") or ""))
            elif name == "dataValidation" and element.get("type") == "date" and self.day_shift:
                for bound in element:
                    bound.text = _moved(bound.text or "", self.day_shift)

    def _rename_text(self, element: Element) -> None:
        element.text = self.renaming(element.text or "")

    def table(self, root: Element, *, number: int, name: str) -> None:
        """Put a table part into the book's terms, in place.

        Parameters
        ----------
        root
            Of the fresh workbook's part.
        number, name
            Its id and its name in the book.
        """
        root.set("id", str(number))
        root.set("name", name)
        root.set("displayName", name)
        for element in root.iter():
            for attribute, value in list(element.attrib.items()):
                if str(attribute).lower().endswith("dxfid"):
                    element.set(attribute, str(self.styles.dxf(xml.whole(str(value)))))
            if xml.local(element) in ("calculatedColumnFormula", "totalsRowFormula"):
                self._rename_text(element)


def _fifteen_digits(match: re.Match[str]) -> str:
    """Write a constant as a spreadsheet program would: no more digits than it can show.

    One that rewrites the file keeps fifteen; written so from the start, the cell is not changed
    by that, and an edit by a person can be told from it.
    """
    return f"<v>{float(match[1]):.15g}</v>"


def _attribute(attributes: str, name: str) -> str:
    """Read an attribute of a cell as our generator writes it; "" where it is not there."""
    start = attributes.find(f' {name}="')
    if start < 0:
        return ""
    start += len(name) + 3
    return attributes[start : attributes.index('"', start)]


def _moved(text: str, days: int) -> str:
    try:
        value = float(text) + days
    except ValueError:
        return text
    return str(int(value)) if value == int(value) else repr(value)


def split_cells(content: bytes) -> tuple[str, str, str]:
    """Split a worksheet's text: before, within and after its cells."""
    text = content.decode()
    start = text.find("<sheetData>")
    if start < 0:
        head, _, tail = text.partition("<sheetData/>")
        return head + "<sheetData>", "", "</sheetData>" + tail
    start += len("<sheetData>")
    stop = text.rindex("</sheetData>")
    return text[:start], text[start:stop], text[stop:]


def rebuild(content: bytes, terms: SheetTerms) -> bytes:
    """Put a worksheet part into the book's terms.

    Parameters
    ----------
    content
        Of the fresh workbook's part.
    terms
        What the book calls its things.
    """
    head, data, tail = split_cells(content)
    root = xml.parse((head + tail).encode(), "worksheet")
    terms.surroundings(root)
    frame = xml.write(root).decode()
    start, stop = _cells_place(frame)
    cells = terms.cells(data)
    return f"{frame[:start]}<sheetData>{cells}</sheetData>{frame[stop:]}".encode()


def frame_of(content: bytes, terms: SheetTerms) -> bytes:
    """Put everything of a worksheet part but its cells into the book's terms.

    Parameters
    ----------
    content
        Of the fresh workbook's part; cells that it holds are dropped.
    terms
        What the book calls its things.
    """
    head, _, tail = split_cells(content)
    root = xml.parse((head + tail).encode(), "worksheet")
    terms.surroundings(root)
    return xml.write(root)


def framed(content: bytes, links: str, span: str) -> tuple[bytes, bytes]:
    """Write what stands before and after the cells of a sheet.

    Parameters
    ----------
    content
        The frame in the book's terms.
    links, span
        Of the cells, which come apart: text within ``hyperlinks``, and what they span.
    """
    frame = _SPAN.sub(rf'\g<1>{span}"', content.decode(), count=1)
    start, stop = _cells_place(frame)
    after = frame[stop:]
    if links and "</hyperlinks>" in after:
        after = after.replace("</hyperlinks>", links + "</hyperlinks>", 1)
    elif links:
        place = _AFTER_LINKS.search(after)
        at = place.start() if place else 0
        after = f"{after[:at]}<hyperlinks>{links}</hyperlinks>{after[at:]}"
    return f"{frame[:start]}<sheetData>".encode(), f"</sheetData>{after}".encode()


def _cells_place(frame: str) -> tuple[int, int]:
    match = re.search(r"<sheetData\s*(?:/>|>\s*</sheetData>)", frame)
    if match is None:
        msg = "a worksheet without sheetData"
        raise ValueError(msg)
    return match.span()


def to_strict(content: bytes) -> bytes:
    """Put a part's declarations into the strict variant (ISO/IEC 29500-1)."""
    declaration: Callable[[re.Match[bytes]], bytes] = lambda m: (  # noqa: E731 - one expression
        m[1] + xml.STRICT_OF.get(m[2].decode(), m[2].decode()).encode() + m[3]
    )
    return re.sub(rb'(xmlns(?::\w+)?=")([^"]*)(")', declaration, content)
