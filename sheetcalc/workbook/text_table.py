"""Records as lines of text, column under column, for a terminal."""

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Final

from sheetcalc.workbook.sheet import CellValue

_WIDEST: Final = 46
"""Letters of one column."""


def aligned(headers: Sequence[str], rows: Iterable[Sequence[CellValue]]) -> str:
    """Rows under their headers, columns side by side; numbers to the right, long text cut."""
    numeric: list[list[bool]] = []
    texts = [list(headers)]
    for row in rows:
        texts.append([_text(value) for value in row])
        numeric.append([isinstance(value, int | float | Decimal) for value in row])
    right = [any(flags) for flags in zip(*numeric, strict=True)] or [False] * len(headers)
    widths = [max(len(line[at]) for line in texts) for at in range(len(headers))]
    lines = []
    for line in texts:
        cells = [
            cell.rjust(width) if to_right else cell.ljust(width)
            for cell, width, to_right in zip(line, widths, right, strict=True)
        ]
        lines.append(f"  {'  '.join(cells)}".rstrip())
    return "\n".join(lines)


def _text(value: CellValue) -> str:
    if value is None:
        return ""
    if isinstance(value, float):
        return f"{value:,.2f}"
    if isinstance(value, Decimal):
        return f"{value:,.2f}"
    if isinstance(value, int):
        return f"{value:,}"
    text = " ".join(str(value).split())
    return text if len(text) <= _WIDEST else f"{text[: _WIDEST - 1]}…"
