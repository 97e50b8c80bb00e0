"""Heights of rows with wrapped text."""

import math
from typing import Final

_POINTS_A_LINE: Final = 1.22  # of the font's size
_LETTERS_A_DIGIT: Final = 1.1  # letters of running text that take the room of a digit
_SMALLEST_ROW: Final = 15.0
_LARGEST_ROW: Final = 400.0


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
