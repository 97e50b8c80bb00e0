"""Building live formulas that say something, and that look for what others say.

Words of ours may be in any language: a program takes some for a number, a truth value or a
pattern where a formula only counts or searches, so those are compared exactly instead.
"""

from string import Formatter
from typing import Final

from sheetcalc.workbook.formulas import LONGEST_LITERAL, text_literal

_WILDCARDS: Final = str.maketrans({sign: f"~{sign}" for sign in "~*?"})


def filled(template: str, **facts: str) -> str:
    """Text whose places are filled in by formulas.

    Examples
    --------
    >>> filled("{number} of {all} lines", number="A1", all="A2")
    'A1&" of "&A2&" lines"'
    """
    pieces: list[str] = []
    for words, place, _, _ in Formatter().parse(template):
        pieces += [text_literal(words)] if words else []
        pieces += [facts[place]] if place else []
    return "&".join(pieces)


def counted(where: str, word: str) -> str:
    """How many cells of a range hold a word of ours."""
    if _is_plain(word):
        return f"COUNTIF({where},{text_literal(word)})"
    return f"SUMPRODUCT(EXACT({where},{text_literal(word)})*1)"


def counted_of(numbers: str, number: str, where: str, word: str) -> str:
    """How many rows with a number hold a word of ours.

    Parameters
    ----------
    numbers, number
        A range, and what its cell must equal.
    where, word
        Range of the word.
    """
    if _is_plain(word):
        return f"COUNTIFS({numbers},{number},{where},{text_literal(word)})"
    return f"SUMPRODUCT(({numbers}={number})*EXACT({where},{text_literal(word)}))"


def _is_plain(word: str) -> bool:
    """Whether COUNTIF takes words for themselves: several letters of any language, and spaces."""
    return word.replace(" ", "").isalpha() and len(word) <= LONGEST_LITERAL


def holds(said: str, cell: str) -> str:
    """Whether a cell holds some words, whatever their case."""
    return f"ISNUMBER(SEARCH({text_literal(said.translate(_WILDCARDS))},{cell}))"


def begins(said: str, cell: str) -> str:
    """Whether the text of a cell begins with some words."""
    length = len(said.encode("utf-16-le")) // 2  # as spreadsheet programs count letters
    return f"LEFT({cell},{length})={text_literal(said)}"
