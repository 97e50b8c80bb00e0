"""Pictures of our tabs keep their size, however wide a program makes the columns under them."""

from typing import Final

from sheetcalc.excel.opc import xml_tools as xml

_SHAPES: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"


def sized_pictures(content: bytes) -> bytes:
    """Say the size of each picture of a drawing, in place of the cell where it ends.

    Columns are as wide as so many figures of a font that the program may not have: between two
    cells a plan would be stretched, and its circles would come out as ellipses.

    Parameters
    ----------
    content
        Drawing part as XlsxWriter makes it, which reckons the cell from the size.
    """
    root = xml.parse(content, "drawing")
    for anchor in xml.children(root, "twoCellAnchor"):
        end, size = xml.child(anchor, "to"), anchor.find(f".//{_SHAPES}xfrm/{_SHAPES}ext")
        if end is None or size is None:
            continue
        said = xml.make(anchor, "ext", [(side, size.get(side) or "0") for side in ("cx", "cy")])
        anchor.replace(end, said)
        anchor.tag = f"{{{xml.space_of(anchor)}}}oneCellAnchor"
        anchor.attrib.pop("editAs", "")
    return xml.write(root)
