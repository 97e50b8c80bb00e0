"""Cells put into the frame of their sheet, here or in the process that has made them."""

from sheetcalc.excel.generating.elsewhere import Filled, Wanted
from sheetcalc.excel.generating.sheet_cells import SheetCells
from sheetcalc.excel.grafting.sheets import framed, to_strict
from sheetcalc.excel.opc.packing import Packing
from sheetcalc.excel.tabs.tab_content import whole_figure


def fill(cells: SheetCells, wanted: Wanted, *, beside: bool = False) -> Filled:
    """Put cells into the frame of their sheet; nothing else is touched.

    Parameters
    ----------
    cells, wanted
        The cells, and the frame in the book's terms.
    beside
        A thread compresses rows while the next are written: for one of several processes, which
        would wait for others, or others for it.
    """
    packing = Packing(beside=beside)
    written = cells.write(wanted.terms, wanted.typed, packing.add)
    head, rows = written.head, packing.pieces
    is_live = any(b"<f>" in text for text in (head, *rows))
    before, after = framed(wanted.frame, written)
    if wanted.strict:
        before, after = to_strict(before), to_strict(after)
    packing.add(after)
    if written.figure:
        signed = b" check %s" % written.figure.encode()
        whole = whole_figure((before, head, *rows)).encode()
        head = head.replace(signed, signed + whole, 1)
    return Filled(packing.end(before + head), is_live)
