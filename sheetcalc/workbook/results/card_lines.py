"""Running text on a card: broken into lines that fit its width, since no cells are merged."""

from collections.abc import Iterable
from functools import lru_cache
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
    return _letters(text) * size * _MM_A_POINT * _SAFE


_SAFE: Final = 1.03
"""Fonts differ a little between programs."""


@lru_cache(maxsize=4096)
def _letters(text: str) -> float:
    """Width of text as a multiple of the font's size."""
    return sum(
        _SHARES.get(c) or (_CAPITAL if c.isupper() or not c.isascii() else _OTHER) for c in text
    )


@lru_cache(maxsize=4096)
def broken(text: str, size: float, width_mm: float, *, indent: str = "") -> tuple[str, ...]:
    """Break text between words into lines of a width; alike rooms have the same.

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
    most = width_mm / (size * _MM_A_POINT * _SAFE)
    lines: list[str] = []
    words: list[str] = []
    used = 0.0
    for word in text.split(" "):
        wide = _letters(word) + _SHARES[" "]
        if words and used + wide > most:
            lines.append(" ".join(words))
            words, used = [], 0.0
            word = indent + word  # noqa: PLW2901 - the line begins with it
            wide += _letters(indent)
        words.append(word)
        used += wide
    return (*lines, " ".join(words))


def listed(heading: str, entries: Iterable[str]) -> str:
    """Give a heading and its entries as running text; entries are never broken within."""
    return f"{heading} {_AND_NEXT.join(entry.replace(' ', _FIXED_SPACE) for entry in entries)}"


_FIXED_SPACE: Final = "\u00a0"
_AND_NEXT: Final = f"{_FIXED_SPACE}· "
