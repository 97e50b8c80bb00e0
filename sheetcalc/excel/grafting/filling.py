"""Cells put into the frame of their sheet, here or in the processes that have made them."""

import zlib
from collections.abc import Sequence

from msgspec import Struct

from sheetcalc.excel.generating.cell_text import cell_content
from sheetcalc.excel.generating.elsewhere import Filled, Wanted
from sheetcalc.excel.generating.sheet_cells import SheetCells, WrittenCells
from sheetcalc.excel.grafting.sheets import framed, to_strict
from sheetcalc.excel.opc.packing import Packed, crc_behind, joined, packed, packed_block
from sheetcalc.excel.tabs.tab_content import whole_figure


class FilledPart(Struct, frozen=True):
    """What one process has written of a sheet.

    Attributes
    ----------
    cells
        What is not compressed yet.
    blocks
        Rows that are, of a long sheet.
    is_live
        Whether any cell is a formula.
    """

    cells: WrittenCells
    blocks: Sequence[Packed]
    is_live: bool


def fill(cells: SheetCells, wanted: Wanted) -> Filled:
    """Put cells into the frame of their sheet; nothing else is touched."""
    return fill_together([fill_part(cells, wanted)], wanted, cells.sheet.signature)


def fill_part(cells: SheetCells, wanted: Wanted) -> FilledPart:
    """Write the cells that are here, as a book wants them."""
    blocks: list[Packed] = []
    live = False

    def put(rows: bytes) -> None:
        nonlocal live
        live = live or _is_live(rows)
        blocks.append(packed_block(rows))

    written = cells.write(wanted.terms, wanted.typed, put)
    return FilledPart(written, blocks, live or _is_live(written.head))


def fill_together(parts: Sequence[FilledPart], wanted: Wanted, signature: str) -> Filled:
    """Put what several processes have written into the frame of their sheet.

    Parameters
    ----------
    parts
        In the order of their rows.
    wanted
        By the book.
    signature
        The sheet's; behind it come the check figure, and the figure of the whole.
    """
    cells = [part.cells for part in parts]
    blocks = [block for part in parts for block in part.blocks]
    links, span = "".join(of.links for of in cells), cells[-1].span
    before, after = framed(wanted.frame, links, span)
    if wanted.strict:
        before, after = to_strict(before), to_strict(after)
    head = cells[0].head
    if signature:
        figure = cells[0].figure
        for others in cells[1:]:
            figure.add_all(others.figure)
        plain = cell_content(signature).encode()
        signed = b"%s \xc2\xb7 check %s" % (plain, str(figure).encode())
        head = head.replace(plain, signed, 1)
        whole = _figure_of_all(before + head, blocks, after)
        head = head.replace(signed, signed + whole.encode(), 1)
    if blocks:
        content = joined([packed_block(before + head), *blocks, packed_block(after)])
    else:
        content = packed(before + head + after)
    return Filled(content, any(part.is_live for part in parts))


def _figure_of_all(first: bytes, blocks: Sequence[Packed], last: bytes) -> str:
    crc, size = zlib.crc32(first), len(first)
    for block in blocks:
        crc, size = crc_behind(crc, block.crc, block.size), size + block.size
    return whole_figure(zlib.crc32(last, crc), size + len(last))


def _is_live(rows: bytes) -> bool:
    return b"<f>" in rows
