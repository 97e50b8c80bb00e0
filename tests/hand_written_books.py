"""Workbooks of one sheet whose rows are written by hand, as no library would write them."""

import zipfile
from collections.abc import Sequence
from pathlib import Path

_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_PARTS = {
    "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}/content-types"><Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{_KIND}.sheet.main+xml"/>'
    f'<Override PartName="/xl/sheet.xml" ContentType="{_KIND}.worksheet+xml"/>'
    f'<Override PartName="/xl/texts.xml" ContentType="{_KIND}.sharedStrings+xml"/>'
    f'<Override PartName="/xl/styles.xml" ContentType="{_KIND}.styles+xml"/></Types>',
    "_rels/.rels": f'<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="a" '
    f'Type="{_RELATIONS}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">'
    f'<Relationship Id="a" Type="{_RELATIONS}/worksheet" Target="sheet.xml"/>'
    f'<Relationship Id="b" Type="{_RELATIONS}/sharedStrings" Target="texts.xml"/>'
    f'<Relationship Id="c" Type="{_RELATIONS}/styles" Target="styles.xml"/></Relationships>',
    "xl/styles.xml": f'<styleSheet xmlns="{_MAIN}"><fonts><font/></fonts><fills><fill/></fills>'
    "<borders><border/></borders><cellStyleXfs><xf/></cellStyleXfs>"
    '<cellXfs><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>',
}
DATE_STYLE = 1
"""Style whose cells show a date."""


def write_by_hand(
    path: Path,
    rows: str,
    *,
    texts: Sequence[str] = (),
    date_1904: bool = False,
    before: str = "",
) -> Path:
    """Write a workbook whose sheet is called Rooms.

    Parameters
    ----------
    path
        Where to.
    rows
        Content of the sheet's ``sheetData``.
    texts
        Contents of the ``si`` of its shared texts.
    date_1904
        Dates count from 1904.
    before
        What stands before ``sheetData``.
    """
    epoch = '<workbookPr date1904="1"/>' if date_1904 else ""
    shared = "".join(f"<si>{text}</si>" for text in texts)
    with zipfile.ZipFile(path, "w") as package:
        for part, content in _PARTS.items():
            package.writestr(part, content)
        package.writestr(
            "xl/workbook.xml",
            f'<workbook xmlns="{_MAIN}" xmlns:r="{_RELATIONS}">{epoch}<sheets>'
            f'<sheet name="Rooms" sheetId="1" r:id="a"/></sheets></workbook>',
        )
        package.writestr("xl/texts.xml", f'<sst xmlns="{_MAIN}">{shared}</sst>')
        package.writestr(
            "xl/sheet.xml",
            f'<worksheet xmlns="{_MAIN}">{before}<sheetData>{rows}</sheetData></worksheet>',
        )
    return path
