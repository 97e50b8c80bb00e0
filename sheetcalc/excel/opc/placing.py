"""Where the rows and cells of a parsed sheet stand, which they need not say.

ECMA-376 part 1, 18.3.1.73 and 18.3.1.4: a row or cell without its ``r`` stands after the one
before it.  Some writers leave it out on rows alone.
"""

import re
from collections.abc import Iterator

from sheetcalc.excel.opc import xml_tools
from sheetcalc.excel.opc.formula_text import column_number
from sheetcalc.excel.opc.xml_tools import Element

_ADDRESS = re.compile(r"\s*([A-Za-z]{1,3})([0-9]{1,7})\s*")


def row_number(row: Element, before: int) -> int:
    """Find the number of a row: what it says, or its cells, or one more than the row before it.

    Raises
    ------
    ValueError
        Where a cell's address is none.
    """
    said = {place[1] if (place := _place(cell)) else 0 for cell in xml_tools.children(row, "c")}
    by_cells = said.pop() if len(said) == 1 else 0
    return xml_tools.whole(row.get("r"), by_cells or before + 1)


def cells_of(row: Element, number: int) -> Iterator[tuple[Element, int]]:
    """Yield the cells of a row, each with its column, 1 for A.

    Raises
    ------
    ValueError
        Where a cell says that it is in another row.
    """
    column = 0
    for cell in xml_tools.children(row, "c"):
        column, said = _place(cell) or (column + 1, number)
        if said != number:
            why = f"cell {cell.get('r')} stands in row {number}"
            raise ValueError(why)
        yield cell, column


def _place(cell: Element) -> tuple[int, int] | None:
    """Column and row that a cell says; None where it says none."""
    text = cell.get("r")
    if text is None:
        return None
    address = _ADDRESS.fullmatch(text)
    if address is None:
        why = f"a cell says that it is {text[:40]!r}"
        raise ValueError(why)
    return column_number(address[1]), int(address[2])
