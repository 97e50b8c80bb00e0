"""Cells put into the frame of their sheet, here or in the process that has made them."""

from sheetcalc.excel.generating.elsewhere import Filled, Wanted
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.grafting.sheets import framed, to_strict
from sheetcalc.excel.opc.zip_writer import packed
from sheetcalc.excel.tabs.tab_content import whole_figure


def fill(cells: SheetCells, wanted: Wanted) -> Filled:
    """Put cells into the frame of their sheet; nothing else is touched."""
    written = cells.write(wanted.terms, wanted.typed)
    before, after = framed(wanted.frame, written)
    if wanted.strict:
        before, after = to_strict(before), to_strict(after)
    head, *blocks = written.blocks
    if written.figure:
        signed = b" check %s" % written.figure.encode()
        whole = whole_figure((before, *written.blocks, after)).encode()
        head = head.replace(signed, signed + whole, 1)
    is_live = any(b"<f>" in block for block in written.blocks)
    return Filled(packed((before, head, *blocks, after)), is_live)
