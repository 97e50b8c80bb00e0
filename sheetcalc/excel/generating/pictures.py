"""Pictures that keep their size, however wide a program makes the columns under them."""

from typing import Final

from xlsxwriter.drawing import Drawing, DrawingInfo

from sheetcalc.excel.opc.escapes import quoted

_RELATIONS: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"

_ANCHOR: Final = (
    "<xdr:oneCellAnchor>"
    "<xdr:from><xdr:col>{column}</xdr:col><xdr:colOff>{left}</xdr:colOff>"
    "<xdr:row>{row}</xdr:row><xdr:rowOff>{top}</xdr:rowOff></xdr:from>"
    '<xdr:ext cx="{width}" cy="{height}"/>'
    "<xdr:pic>"
    '<xdr:nvPicPr><xdr:cNvPr id="{id}" name="Picture {number}" descr={words}/>'
    '<xdr:cNvPicPr><a:picLocks noChangeAspect="1"/></xdr:cNvPicPr></xdr:nvPicPr>'
    f'<xdr:blipFill><a:blip xmlns:r="{_RELATIONS}" r:embed="rId{{relation}}"/>'
    "<a:stretch><a:fillRect/></a:stretch></xdr:blipFill>"
    '<xdr:spPr><a:xfrm><a:off x="{x}" y="{y}"/><a:ext cx="{width}" cy="{height}"/></a:xfrm>'
    '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr>'
    "</xdr:pic><xdr:clientData/></xdr:oneCellAnchor>"
)
"""Place and size in EMU, 914,400 an inch (ISO/IEC 29500-1)."""


class SizedPictures(Drawing):  # type: ignore[misc]  # the library has no types
    """The pictures of one sheet, each held at a cell and with its size.

    The library says in which cell a picture ends, too.  Columns are as wide as so many figures of
    a font that a program may not have: between two cells it stretches a plan, and circles come
    out as ellipses.
    """

    @classmethod
    def of(cls, drawing: Drawing) -> "SizedPictures":
        """Take over the pictures that the library has set up."""
        sized = cls()
        sized.embedded, sized.drawings = drawing.embedded, drawing.drawings
        return sized

    def _write_two_cell_anchor(self, index: int, drawing: DrawingInfo) -> None:
        column, row, left, top, *_, x, y = drawing._dimensions  # noqa: SLF001 - nowhere else
        self.fh.write(
            _ANCHOR.format(
                column=column,
                left=left,
                row=row,
                top=top,
                width=drawing._width,  # noqa: SLF001 - as above
                height=drawing._height,  # noqa: SLF001 - as above
                id=index + 1,
                number=index,
                words=quoted(drawing._description),  # noqa: SLF001 - as above
                relation=drawing._rel_index,  # noqa: SLF001 - as above
                x=x,
                y=y,
            )
        )
