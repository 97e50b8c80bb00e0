"""Running text on a card: broken into lines that fit its width, since no cells are merged."""

from collections.abc import Iterable, Iterator
from typing import Final

_MM_A_POINT: Final = 25.4 / 72
_SHARES: Final = {
    **dict.fromkeys("il.,'|!:;jI·\u00a0 ", 0.28),
    **dict.fromkeys('tfr()[]/-"', 0.35),
    **dict.fromkeys("mwMW@%—", 0.89),
}
"""Widths of letters as shares of the font's size, as sans-serif fonts have them; no source."""

_CAPITAL, _OTHER = 0.71, 0.557


def text_width_mm(text: str, size: float) -> float:
    """Width of a line of text [mm], estimated.

    Parameters
    ----------
    text
        One line.
    size
        Size of the font [points].
    """
    return sum(_share(letter) for letter in text) * size * _MM_A_POINT * _SAFE


_SAFE: Final = 1.03
"""Fonts differ a little between programs."""


def _share(letter: str) -> float:
    share = _SHARES.get(letter)
    if share is not None:
        return share
    return _CAPITAL if letter.isupper() or not letter.isascii() else _OTHER


def broken(text: str, size: float, width_mm: float, *, indent: str = "") -> Iterator[str]:
    """Break text between words into lines of a width.

    Parameters
    ----------
    text
        Words.
    size
        Size of the font [points].
    width_mm
        Width of a line [mm].
    indent
        Begins every line but the first.
    """
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if line and text_width_mm(longer, size) > width_mm:
            yield line
            line = indent + word
        else:
            line = longer
    if line:
        yield line


def listed(heading: str, entries: Iterable[str]) -> str:
    """Give a heading and its entries as running text; entries are never broken within."""
    return f"{heading} {' · '.join(entry.replace(' ', _FIXED_SPACE) for entry in entries)}"


_FIXED_SPACE: Final = "\u00a0"
