"""Merging the styles of our sheets into a book's styles: additions only.

What is there already and looks the same is used again; what is not is appended, so that every
style number in the user's sheets keeps its meaning.  Ours carry explicit fonts and colours: a
book's theme must not repaint them.
"""

import itertools
import re
from collections.abc import Mapping
from typing import Final, TypeAlias

from sheetcalc.excel.opc import xml_tools as xml
from sheetcalc.excel.opc.errors import Code, Refused
from sheetcalc.excel.opc.xml_tools import Element

ORDER: Final = (
    "numFmts",
    "fonts",
    "fills",
    "borders",
    "cellStyleXfs",
    "cellXfs",
    "cellStyles",
    "dxfs",
    "tableStyles",
    "colors",
    "extLst",
)
FIRST_CUSTOM_FORMAT: Final = 164
LAST_CUSTOM_FORMAT: Final = 0xFFFF
MOST_CELL_FORMATS: Final = 65_490
"""Entries of cellXfs that programs open; from memory, not verified."""
DRAWING: Final = "http://schemas.openxmlformats.org/drawingml/2006/main"

# ECMA-376 part 1, 18.8.30: the formats that have a number and no text in a file
BUILT_IN_FORMATS: Final[Mapping[int, str]] = {
    0: "General",
    1: "0",
    2: "0.00",
    3: "#,##0",
    4: "#,##0.00",
    9: "0%",
    10: "0.00%",
    11: "0.00E+00",
    12: "# ?/?",
    13: "# ??/??",
    14: "mm-dd-yy",
    15: "d-mmm-yy",
    16: "d-mmm",
    17: "mmm-yy",
    18: "h:mm AM/PM",
    19: "h:mm:ss AM/PM",
    20: "h:mm",
    21: "h:mm:ss",
    22: "m/d/yy h:mm",
    37: "#,##0 ;(#,##0)",
    38: "#,##0 ;[Red](#,##0)",
    39: "#,##0.00;(#,##0.00)",
    40: "#,##0.00;[Red](#,##0.00)",
    45: "mm:ss",
    46: "[h]:mm:ss",
    47: "mmss.0",
    48: "##0.0E+0",
    49: "@",
}
_DATE_FORMATS: Final = frozenset({14, 15, 16, 17, 22})
_THEME_ORDER: Final = (
    "lt1",
    "dk1",
    "lt2",
    "dk2",
    "accent1",
    "accent2",
    "accent3",
    "accent4",
    "accent5",
    "accent6",
    "hlink",
    "folHlink",
)

Canon: TypeAlias = tuple[str, tuple[tuple[str, str], ...], tuple["Canon", ...]]


def canon(element: Element) -> Canon:
    """Tell what an element says, whatever its prefix, attribute order and spacing."""
    attributes = sorted(
        (str(name).rpartition("}")[2], str(value)) for name, value in element.attrib.items()
    )
    inner = tuple(canon(c) for c in element if isinstance(c.tag, str))
    return xml.local(element), tuple(attributes), inner


def theme_colours(theme: bytes | None) -> tuple[str, ...]:
    """Colours of a theme part as ARGB, in the order that ``theme=`` counts them."""
    plain = ("FFFFFFFF", "FF000000") * 6
    if theme is None:
        return plain
    found: dict[str, str] = {}
    for element in xml.parse(theme, "theme").iter(f"{{{DRAWING}}}clrScheme"):
        for slot in element:
            for colour in slot:
                value = colour.get("lastClr") or colour.get("val") or "000000"
                found[xml.local(slot)] = "FF" + value.upper()
    return tuple(
        found.get(name, default) for name, default in zip(_THEME_ORDER, plain, strict=True)
    )


def is_date_format(code: str) -> bool:
    """Tell whether a number format shows dates: it holds y or d outside of texts."""
    bare = re.sub(r'"[^"]*"|\\.|\[[^\]]*\]|_.|\*.', "", code).lower()
    return "y" in bare or "d" in bare


class _Group:
    """A list of the styles part: its element, and where each different entry first stands."""

    def __init__(self, element: Element) -> None:
        self.element = element
        self.size = 0
        self.places: dict[Canon, int] = {}
        for entry in element:
            if isinstance(entry.tag, str) and xml.local(entry) != "extLst":
                self._note(entry)

    def _note(self, entry: Element) -> None:
        self.places.setdefault(canon(entry), self.size)
        self.size += 1

    def append(self, entry: Element) -> int:
        """Append an entry; returns its number.

        Raises
        ------
        Refused
            ``TOO-MANY-STYLES`` where a list of cell formats is full: programs would then throw
            formats of the user's away on opening.
        """
        if self.size >= MOST_CELL_FORMATS:
            raise Refused(Code.TOO_MANY_STYLES, {"most": MOST_CELL_FORMATS})
        last = len(self.element)
        if last and xml.local(self.element[-1]) == "extLst":
            last -= 1
        self.element.insert(last, entry)
        self._note(entry)
        self.element.set("count", str(self.size))
        return self.size - 1


class StyleMerger:
    """Gives each style number of a fresh workbook its number in the book.

    Parameters
    ----------
    book
        Root of the book's styles; changed in place by appending.
    fresh
        Root of the fresh workbook's styles; not changed.
    colours
        ARGB of the fresh workbook's theme colours.
    """

    def __init__(self, book: Element, fresh: Element, colours: tuple[str, ...]) -> None:
        self.book = book
        self.changed = False
        self._fresh = fresh
        self._named: dict[int, int] = {}
        self._colours = colours
        self._groups: dict[str, _Group] = {}
        self._shared: dict[tuple[str, int], int] = {}
        self._xfs: dict[int, int] = {}
        self._dxfs: dict[int, int] = {}
        self._fresh_xfs = self._items(fresh, "cellXfs")
        self._fresh_formats = _formats(fresh)
        self._book_formats = _formats(book)
        self._ensure_basics()

    @staticmethod
    def _items(root: Element, name: str) -> list[Element]:
        group = xml.child(root, name)
        return [] if group is None else [e for e in group if isinstance(e.tag, str)]

    def _group(self, name: str) -> _Group:
        if name not in self._groups:
            self._groups[name] = _Group(xml.child_in_order(self.book, name, ORDER))
        return self._groups[name]

    def _ensure_basics(self) -> None:
        """Make the first entry of each list where it is missing: it is every cell's default."""
        for name in ("fonts", "fills", "borders", "cellStyleXfs", "cellXfs"):
            group = self._group(name)
            if group.size:
                continue
            for element in self._items(self._fresh, name)[: 2 if name == "fills" else 1]:
                self._append(group, self._adopt(element))

    def _adopt(self, element: Element) -> Element:
        """Copy an element in the book's namespace and prefix, free of the theme."""
        copy = xml.make(self.book, xml.local(element))
        for name, value in element.attrib.items():
            copy.set(name, value)
        copy.text = element.text
        for inner in element:
            if isinstance(inner.tag, str) and xml.local(inner) != "scheme":
                copy.append(self._adopt(inner))
        if (theme := copy.get("theme")) is not None and "olor" in xml.local(copy):
            del copy.attrib["theme"]
            copy.set("rgb", self._colours[xml.whole(theme) % len(self._colours)])
        return copy

    def _append(self, group: _Group, element: Element) -> int:
        self.changed = True
        return group.append(element)

    def _place(self, name: str, element: Element) -> int:
        """Find the number of an element in a list of the book, appended where nothing is alike."""
        group = self._group(name)
        there = group.places.get(canon(element))
        return self._append(group, element) if there is None else there

    def _from_fresh(self, name: str, number: int) -> int:
        """Find the number in the book of a font, a fill or a border; once for each."""
        if (name, number) not in self._shared:
            items = self._items(self._fresh, name)
            there = number < len(items)
            self._shared[name, number] = (
                self._place(name, self._adopt(items[number])) if there else 0
            )
        return self._shared[name, number]

    def _format(self, number: int) -> int:
        """Find the number of a number format in the book."""
        code = self._fresh_formats.get(number, BUILT_IN_FORMATS.get(number))
        if code is None or (number == 0 and 0 not in self._book_formats):
            return number
        redefined = self._book_formats.get(number)
        if number < FIRST_CUSTOM_FORMAT and redefined in (None, code):
            return number
        for there, text in self._book_formats.items():
            if text == code and there >= FIRST_CUSTOM_FORMAT:
                return there
        new = max([FIRST_CUSTOM_FORMAT - 1, *self._book_formats]) + 1
        if new > LAST_CUSTOM_FORMAT:  # some writers count from a very high number
            new = next(n for n in itertools.count(FIRST_CUSTOM_FORMAT) if self._is_free(n))
        element = xml.make(self.book, "numFmt", (("numFmtId", str(new)), ("formatCode", code)))
        self._append(self._group("numFmts"), element)
        self._book_formats[new] = code
        return new

    def _is_free(self, number: int) -> bool:
        """Tell whether no number format of the book has a number."""
        return number not in self._book_formats

    def _named_style(self, fresh_xf: int) -> int:
        """Find, in the book's cellStyleXfs, the named style of a fresh one; once for each."""
        if fresh_xf not in self._named:
            self._named[fresh_xf] = self._find_named_style(fresh_xf)
        return self._named[fresh_xf]

    def _find_named_style(self, fresh_xf: int) -> int:
        names = {
            xml.whole(e.get("xfId")): (e.get("name") or "", e)
            for e in self._items(self._fresh, "cellStyles")
        }
        name, style = names.get(fresh_xf, ("Normal", None))
        for e in self._items(self.book, "cellStyles"):
            same_built_in = name == "Normal" and e.get("builtinId") == "0"
            if same_built_in or (e.get("name") or "").lower() == name.lower():
                return xml.whole(e.get("xfId"))
        fresh_xfs = self._items(self._fresh, "cellStyleXfs")
        if style is None or name == "Normal" or fresh_xf >= len(fresh_xfs):
            return 0
        number = self._append(self._group("cellStyleXfs"), self._rewrite(fresh_xfs[fresh_xf]))
        named = self._adopt(style)
        named.set("xfId", str(number))
        self._append(self._group("cellStyles"), named)
        return number

    def _rewrite(self, xf: Element) -> Element:
        copy = self._adopt(xf)
        copy.set("numFmtId", str(self._format(xml.whole(xf.get("numFmtId")))))
        copy.set("fontId", str(self._from_fresh("fonts", xml.whole(xf.get("fontId")))))
        copy.set("fillId", str(self._from_fresh("fills", xml.whole(xf.get("fillId")))))
        copy.set("borderId", str(self._from_fresh("borders", xml.whole(xf.get("borderId")))))
        return copy

    def xf(self, number: int) -> int:
        """Find the number in the book of a cell format of the fresh workbook."""
        if number not in self._xfs:
            source = self._fresh_xfs[number if number < len(self._fresh_xfs) else 0]
            copy = self._rewrite(source)
            copy.set("xfId", str(self._named_style(xml.whole(source.get("xfId")))))
            for flag in ("NumberFormat", "Font", "Fill", "Border", "Alignment"):
                copy.set(f"apply{flag}", "1")
            if xml.child(copy, "protection") is not None:
                copy.set("applyProtection", "1")
            self._xfs[number] = self._place("cellXfs", copy)
        return self._xfs[number]

    def dxf(self, number: int) -> int:
        """Find the number in the book of a differential format of the fresh workbook."""
        if number not in self._dxfs:
            source = self._items(self._fresh, "dxfs")[number]
            copy = self._adopt(source)
            format_ = xml.child(copy, "numFmt")
            if format_ is not None:
                old = xml.whole(format_.get("numFmtId"))
                self._fresh_formats.setdefault(old, format_.get("formatCode") or "General")
                format_.set("numFmtId", str(self._format(old)))
            self._dxfs[number] = self._place("dxfs", copy)
        return self._dxfs[number]

    def is_date(self, number: int) -> bool:
        """Tell whether a cell format of the fresh workbook shows dates."""
        if number >= len(self._fresh_xfs):
            return False
        code = xml.whole(self._fresh_xfs[number].get("numFmtId"))
        return code in _DATE_FORMATS or is_date_format(self._fresh_formats.get(code, ""))


def _formats(root: Element) -> dict[int, str]:
    group = xml.child(root, "numFmts")
    if group is None:
        return {}
    return {xml.whole(e.get("numFmtId"), -1): e.get("formatCode") or "" for e in group}
