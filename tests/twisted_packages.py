"""An ordinary book with one thing about it that some program, somewhere, does differently.

A ``Twist`` takes the parts of the book (name in the zip -> content) and gives those of the odd one.
The format allows all of them, or programs open them all the same.
"""

import zipfile
from collections.abc import Callable
from pathlib import Path

from odd_packages import Features, package_parts
from odd_parts import SHEET_ML

Parts = dict[str, bytes]
Twist = Callable[[Parts], Parts]

WORKBOOK, STYLES, SHEET = "xl/workbook.xml", "xl/styles.xml", "xl/worksheets/sheet1.xml"
TYPES, RELS, TABLE = "[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/tables/table1.xml"
_HEAD = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_COMPATIBILITY = b'xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"'


def ordinary_parts() -> Parts:
    """Two tabs, a table, names, styles, comments."""
    return package_parts(
        Features(
            states=("visible", "visible"),
            tables=("Prices",),
            names={"Rate": "1.5"},
            comments=True,
            custom_xml=True,
        )
    )


def _swap(part: str, *pairs: tuple[bytes, bytes]) -> Twist:
    def twist(parts: Parts) -> Parts:
        content = parts[part]
        for old, new in pairs:
            assert old in content, f"{old!r} is not in {part}"
            content = content.replace(old, new)
        return parts | {part: content}

    return twist


def _each(change: Callable[[bytes], bytes]) -> Twist:
    """Change every XML part."""

    def twist(parts: Parts) -> Parts:
        return {n: change(c) if c.startswith(b"<?xml") else c for n, c in parts.items()}

    return twist


def _encoded(name: str) -> Callable[[bytes], bytes]:
    def change(content: bytes) -> bytes:
        return content.decode().replace('"UTF-8"', f'"{name.upper()}"', 1).encode(name)

    return change


def _many_formats(count: int) -> Twist:
    xf = b'<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'

    def twist(parts: Parts) -> Parts:
        return _swap(STYLES, (b"</cellXfs>", xf * (count - 2) + b"</cellXfs>"))(parts)

    return twist


def _many_named_styles(parts: Parts) -> Parts:
    rows = b"".join(b'<cellStyle name="Style %d" xfId="0"/>' % n for n in range(4000))
    return _swap(STYLES, (b"</cellStyles>", rows + b"</cellStyles>"))(parts)


def _no_element(part: str, name: bytes) -> Twist:
    def twist(parts: Parts) -> Parts:
        head, start, tail = parts[part].partition(b"<" + name)
        inner, stop, rest = tail.partition(b"</" + name + b">")
        assert start, f"{part} has no {name!r}"
        assert stop, inner
        return parts | {part: head + rest}

    return twist


def _moved(moves: dict[str, str]) -> Twist:
    """Give parts other names; what points at them follows."""

    def twist(parts: Parts) -> Parts:
        changed = {moves.get(name, name): content for name, content in parts.items()}
        for name, content in changed.items():
            for old, new in moves.items():
                short_old, short_new = old.removeprefix("xl/"), new.removeprefix("xl/")
                content = content.replace(short_old.encode(), short_new.encode())  # noqa: PLW2901
            if name.endswith(".rels") or name == TYPES:
                changed[name] = content
        return changed

    return twist


def _sheets_by_default(parts: Parts) -> Parts:
    """Content type of the sheets by their ending, all others by name."""
    types = parts[TYPES].replace(
        b'Extension="xml" ContentType="application/xml"',
        b'Extension="xml" ContentType="%sworksheet+xml"' % SHEET_ML.encode(),
    )
    for number in (1, 2):
        override = b'<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="%s"/>' % (
            number,
            SHEET_ML.encode() + b"worksheet+xml",
        )
        assert override in types
        types = types.replace(override, b"")
    custom = b'<Override PartName="/customXml/item1.xml" ContentType="application/xml"/></Types>'
    return parts | {TYPES: types.replace(b"</Types>", custom)}


def _charts_first(_parts: Parts) -> Parts:
    made = package_parts(Features(chart_sheet=True))
    book = made[WORKBOOK]
    start, stop = book.index(b'<sheet name="chartsheet"'), book.index(b"</sheets>")
    row = book[start:stop]
    changed = book[:start] + book[stop:]
    return made | {WORKBOOK: changed.replace(b"<sheets>", b"<sheets>" + row)}


def _outside(parts: Parts) -> Parts:
    """A sheet that points at a picture on a server, and a tab whose part is on one."""
    rels = "xl/worksheets/_rels/sheet1.xml.rels"
    link = (
        b'<Relationship Id="rId77" Type="http://schemas.openxmlformats.org/officeDocument/2006/'
        b'relationships/image" Target="https://example.invalid/a%20b/logo.png?x=1&amp;y=..%2F.." '
        b'TargetMode="External"/></Relationships>'
    )
    return _swap(rels, (b"</Relationships>", link))(parts)


def _views(parts: Parts) -> Parts:
    views = (
        b'<customWorkbookViews><customWorkbookView name="Rosa" guid="{0A1B2C3D-0000-4000-8000-0000'
        b'00000001}" windowWidth="9" windowHeight="9" activeSheetId="6"/></customWorkbookViews>'
    )
    return _swap(WORKBOOK, (b"</workbook>", views + b"</workbook>"))(parts)


def _web_extension(parts: Parts) -> Parts:
    space = b"http://schemas.microsoft.com/office/"
    part, pane = "xl/webextensions/webextension1.xml", "xl/webextensions/taskpanes.xml"
    rel = (
        b'<Relationship Id="rId91" Type="' + space + b'2011/relationships/webextensiontaskpanes" '
        b'Target="xl/webextensions/taskpanes.xml"/></Relationships>'
    )
    parts = _swap("_rels/.rels", (b"</Relationships>", rel))(parts)
    return parts | {
        part: _HEAD
        + b'<we:webextension xmlns:we="'
        + space
        + b'webextensions/webextension/2010"/>',
        pane: _HEAD + b'<wetp:taskpanes xmlns:wetp="' + space + b'webextensions/taskpanes/2010"/>',
    }


_PATH = (
    b"<mc:AlternateContent " + _COMPATIBILITY + b'><mc:Choice Requires="x15"><x15ac:absPath '
    b'url="C:\\jobs\\" xmlns:x15ac="http://schemas.microsoft.com/office/spreadsheetml/2010/11/ac"/>'
    b"</mc:Choice></mc:AlternateContent><bookViews>"
)

TWISTED: dict[str, Twist] = {
    "byte order marks": _each(lambda c: b"\xef\xbb\xbf" + c),
    "carriage returns": _each(lambda c: c.replace(b"?>\n", b"?>\r\n").replace(b"><", b">\r\n<")),
    "every part in UTF-16": _each(_encoded("utf-16")),
    "every part in Latin-1": _each(_encoded("iso-8859-1")),
    "no declarations": _each(lambda c: c.partition(b"?>\n")[2]),
    "comments and instructions everywhere": _each(
        lambda c: c.replace(b"?>\n", b"?>\n<!-- a < b --><?x y?>").replace(b"/>", b"/><!-- - -->")
    ),
    "blanks within tags": _each(lambda c: c.replace(b"/>", b" \n/>").replace(b'="', b' = "')),
    "preserved space": _swap(SHEET, (b"<sheetData>", b'<sheetData xml:space="preserve">')),
    "no settings, no views": lambda parts: _no_element(WORKBOOK, b"bookViews")(
        _swap(WORKBOOK, (b"<workbookPr></workbookPr>", b""))(parts)
    ),
    "a view of a tab that is not there": _swap(WORKBOOK, (b'activeTab="0"', b'activeTab="99"')),
    "huge numbers of tabs": _swap(WORKBOOK, (b'sheetId="3"', b'sheetId="4294967294"')),
    "numbers of tabs that clash": _swap(WORKBOOK, (b'sheetId="3"', b'sheetId="6"')),
    "a huge number of a table": _swap(TABLE, (b'id="1" name="Pri', b'id="4294967295" name="Pri')),
    "a huge number of a format": _swap(STYLES, (b'"164"', b'"4294967295"')),
    "ids that are words": lambda parts: _swap(RELS, (b'Id="rId', b'Id="R'))(
        _swap(WORKBOOK, (b'r:id="rId', b'r:id="R'))(parts)
    ),
    "another prefix for relationships": _swap(
        WORKBOOK, (b"xmlns:r=", b"xmlns:rel="), (b" r:id=", b" rel:id=")
    ),
    "a place for other programs' elements": _swap(WORKBOOK, (b"<bookViews>", _PATH)),
    "tab names with signs": _swap(
        WORKBOOK,
        (b'name="Data 1"', 'name="O\'Brien &amp; &lt;Söhne&gt; "'.encode()),
        (b'name="Data 2"', 'name="\U0001f6bf 浴室 !"'.encode()),
    ),
    "tab names that differ in case": _swap(
        WORKBOOK,
        (b'name="Data 1"', b'name="STRASSE"'),
        (b'name="Data 2"', 'name="Straße"'.encode()),
    ),
    "an empty list of names": _swap(WORKBOOK, (b'<definedName name="Rate">1.5</definedName>', b"")),
    "names without a text": _swap(WORKBOOK, (b">1.5</definedName>", b"></definedName>")),
    "names out of order": _swap(
        WORKBOOK,
        (b"<definedNames>", b'<definedNames><definedName name="Zinc">2</definedName>'),
        (b"</definedNames>", b'<definedName name="Ash">#REF!</definedName></definedNames>'),
    ),
    "a name like a cell's of ours": _swap(WORKBOOK, (b'name="Rate"', b'name="sheetcalc_tab_1"')),
    "views of several people": _views,
    "a web extension": _web_extension,
    "meant to be opened read-only": _swap(
        WORKBOOK, (b"<workbookPr>", b'<fileSharing readOnlyRecommended="1"/><workbookPr>')
    ),
    "no named styles": _no_element(STYLES, b"cellStyles"),
    "no formats of named styles": lambda parts: _no_element(STYLES, b"cellStyleXfs")(
        _no_element(STYLES, b"cellStyles")(parts)
    ),
    "counts that are wrong": _swap(
        STYLES, (b'<cellXfs count="2"', b'<cellXfs count="99"'), (b'<fonts count="1"', b"<fonts")
    ),
    "an empty list of rules' formats": _swap(
        STYLES, (b"</cellStyles>", b'</cellStyles><dxfs count="0"/><tableStyles count="0"/>')
    ),
    "four thousand cell formats": _many_formats(4_000),
    "four thousand named styles": _many_named_styles,
    "sheets by their ending": _sheets_by_default,
    "endings in capitals": _moved({SHEET: "xl/worksheets/sheet1.XML"}),
    "a part with a blank in its name": _moved({SHEET: "xl/worksheets/My%20sheet.xml"}),
    "parts of no folder": _moved({SHEET: "xl/one.xml", STYLES: "xl/my.styles"}),
    "a chart sheet before all": _charts_first,
    "pictures on a server": _outside,
    "no properties, no theme, a part nobody knows": lambda parts: (
        {name: content for name, content in parts.items() if not name.startswith("docProps/")}
        | {"xl/unknown.dat": b"\0\1\2", "notes.txt": b"a note"}
    ),
}
"""What is odd -> how the ordinary book is made so."""


def write_twisted(path: Path, name: str) -> Path:
    """Write one of the odd books."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package:
        for part, content in TWISTED[name](ordinary_parts()).items():
            package.writestr(part, content)
    return path
