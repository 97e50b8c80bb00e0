"""Heights of rows with wrapped text, and names that a sheet may have."""

import math
from collections.abc import Sequence
from typing import Final

_POINTS_A_LINE: Final = 1.22  # of the font's size
_LETTERS_A_DIGIT: Final = 1.1  # letters of running text that take the room of a digit
_SMALLEST_ROW: Final = 15.0
_LARGEST_ROW: Final = 400.0
_LONGEST_NAME: Final = 31
_FORBIDDEN: Final = str.maketrans(dict.fromkeys("[]:*?/\\", "-"))


def row_height(value: object, width: float, size: float) -> float:
    """Height that wrapped text needs [points].

    Spreadsheet programs only fit a row's height when it is edited, so it is estimated on writing.

    Parameters
    ----------
    value
        What the cell shows.
    width
        Width of its column [characters of the base font, size 10].
    size
        Font size [points].
    """
    characters = max(1.0, (width - 2.0) * _LETTERS_A_DIGIT * 10.0 / size)
    lines = sum(_lines(part, characters) for part in str(value or "").split("\n"))
    return min(_LARGEST_ROW, max(_SMALLEST_ROW, lines * size * _POINTS_A_LINE + 3))


def _lines(text: str, characters: float) -> int:
    """Lines that a paragraph takes when broken between words."""
    lines, used = 1, 0.0
    for word in text.split(" "):
        length = float(len(word))
        if used and used + 1 + length > characters:
            lines, used = lines + 1, 0.0
        if length > characters:
            lines += math.ceil(length / characters) - 1
            length %= characters
        used += length + (1 if used else 0)
    return lines


def legal_sheet_names(wanted: Sequence[str]) -> list[str]:
    """Names that a workbook accepts, unique without regard to case.

    Parameters
    ----------
    wanted
        Names in order; the first to want a name gets it.
    """
    taken: set[str] = set()
    names = []
    for name in wanted:
        printable = "".join(c if c.isprintable() else " " for c in name.translate(_FORBIDDEN))
        base = printable.strip().strip("'")[:_LONGEST_NAME].strip() or "Sheet"
        candidate, number = base, 2
        while candidate.casefold() in taken or candidate.casefold() == "history":
            ending = f" ({number})"
            candidate = base[: _LONGEST_NAME - len(ending)] + ending
            number += 1
        taken.add(candidate.casefold())
        names.append(candidate)
    return names
