"""House style to the writing library's formats, and the named cell styles of the file."""

import copy
import io
import zipfile
from collections.abc import Iterable, Mapping
from typing import Any, Final

from lxml import etree
from xlsxwriter.format import Format
from xlsxwriter.workbook import Workbook

from sheetcalc.workbook.house_style import CellStyle, HouseStyle

_MAIN: Final = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_STYLES_PART: Final = "xl/styles.xml"
_VALIGN: Final = {"top": "top", "center": "vcenter", "bottom": "bottom"}


class Formats:
    """Formats of one workbook being written, made when first used.

    Attributes
    ----------
    claimed
        Style key -> number in the file of a cell format that no cell of the file has.
    """

    def __init__(self, book: Workbook, style: HouseStyle) -> None:
        """Begin with none."""
        self._book = book
        self._style = style
        self._made: dict[str, Format] = {}
        self._dxf: dict[str, Format] = {}
        self.claimed: dict[str, int] = {}

    def cell(self, key: str) -> Format:
        """Return the format of a style; KeyError for an unknown one."""
        return self._format(self._style[key])

    def column(self, key: str) -> Format:
        """Return what a column keeps of a style outside its table: font and number format."""
        return self._format(self._style[key].bare)

    def conditional(self, key: str) -> Format:
        """Return a style as a conditional format: colours and weight only."""
        if key not in self._dxf:
            style = self._style[key]
            words: dict[str, Any] = {"bold": style.bold}
            if style.colour:
                words["font_color"] = style.colour
            if style.fill:
                words["bg_color"] = style.fill
            self._dxf[key] = self._book.add_format(words)
        return self._dxf[key]

    def _format(self, style: CellStyle) -> Format:
        if style.key not in self._made:
            self._made[style.key] = self._book.add_format(properties(style))
        return self._made[style.key]

    def claim(self, keys: Iterable[str]) -> None:
        """Keep the cell formats of styles in the file, though none of its cells has them."""
        for key in keys:
            if key not in self.claimed:
                self.claimed[key] = self.cell(key)._get_xf_index()  # noqa: SLF001 - else it goes

    def indices(self) -> dict[str, int]:
        """Index of each style's cell format in the file; only after it has been closed."""
        return {key: made.xf_index for key, made in self._made.items() if made.xf_index is not None}


def properties(style: CellStyle) -> dict[str, Any]:
    """Words of the writing library for a style."""
    words: dict[str, Any] = {
        "font_name": style.font,
        "font_size": style.size,
        "font_family": 2,
        "bold": style.bold,
        "italic": style.italic,
        "text_wrap": style.wrap,
        "num_format": style.number_format,
    }
    if style.underline:
        words["underline"] = 1
    if style.colour:
        words["font_color"] = style.colour
    if style.fill:
        words["bg_color"] = style.fill
        words["pattern"] = 1
    if style.border:
        words |= {"border": 1, "border_color": style.border}
    if style.bottom:
        words |= {"bottom": 1, "bottom_color": style.bottom}
    if style.align:
        words["align"] = style.align
    if style.indent:
        words |= {"indent": style.indent, "align": style.align or "left"}
    if style.valign:
        words["valign"] = _VALIGN[style.valign]
    return words


def with_named_styles(package: bytes, indices: Mapping[str, int], style: HouseStyle) -> bytes:
    """Add the house style's cell styles to a written workbook.

    The writing library knows formats but no named cell styles, so their definitions are added to
    the styles part; every other part is copied.

    Parameters
    ----------
    package
        The workbook as the library wrote it.
    indices
        Style key -> index of its cell format.
    style
        The house style.
    """
    source = zipfile.ZipFile(io.BytesIO(package))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as target:
        for info in source.infolist():
            data = source.read(info)
            if info.filename == _STYLES_PART:
                data = _named(data, indices, style)
            target.writestr(info, data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _named(styles_xml: bytes, indices: Mapping[str, int], style: HouseStyle) -> bytes:
    """Styles part with ``cellStyleXfs`` and ``cellStyles`` for every named style in use."""
    root = etree.fromstring(styles_xml)
    cell_xfs = _child(root, "cellXfs")
    bases, names = _child(root, "cellStyleXfs"), _child(root, "cellStyles")
    made: dict[str, str] = {}
    # the style that a name was given to comes before those based on it
    for key in (key for key in style.styles if key in indices):
        name, used = style[key].name, cell_xfs[indices[key]]
        if name in made:
            used.set("xfId", made[name])
            continue
        base = copy.deepcopy(used)
        if "xfId" in base.attrib:
            del base.attrib["xfId"]
        bases.append(base)
        made[name] = str(len(bases) - 1)
        used.set("xfId", made[name])
        etree.SubElement(names, f"{{{_MAIN}}}cellStyle", name=name, xfId=made[name])
    for element in (bases, names):
        element.set("count", str(len(element)))
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _child(root: "etree._Element", name: str) -> "etree._Element":
    """Return a child of the styles part, which the library always writes."""
    found = root.find(f"{{{_MAIN}}}{name}")
    if found is None:  # pragma: no cover - the library writes it always
        message = f"no {name} in the styles part"
        raise ValueError(message)
    return found
