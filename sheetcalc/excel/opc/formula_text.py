"""A formula's text in tokens: enough to rename sheets, tables and names in it, and to compare it.

Formulas are never calculated here.  Grammar: ECMA-376 part 1, 18.17; strings double their quotes,
sheet names in apostrophes double theirs, and brackets of structured references nest and escape
with an apostrophe.
"""

import functools
import re
from collections.abc import Iterator, Mapping
from typing import Final, TypeAlias

from msgspec import Struct

GONE: Final = "#REF"
"""Stands for a sheet that is no longer there."""

_WORD = r"[^\W\d]|[\\$]"  # a letter of any script, an underscore
_PLACE = r"\$?[A-Za-z]{1,3}\$?[1-9]\d{0,6}"
_ENCLOSURES = r"""
    (?P<text>"(?:[^"]|"")*"?)
  | (?P<quoted>'(?:[^']|'')*'(?=!))
  | (?P<bracket>\[)
"""
_ENCLOSED = re.compile(_ENCLOSURES, re.VERBOSE)
_TOKEN = re.compile(
    rf"""
    {_ENCLOSURES}
  | (?P<error>\#(?:NULL!|DIV/0!|VALUE!|REF!|NAME\?|NUM!|N/A|SPILL!|CALC!|GETTING_DATA))
  | (?P<number>(?<![\w.$])\d+(?:\.\d*)?(?:[eE][+-]?\d+)?(?![\w.:!$]))
  | (?P<span>(?<!!)(?!{_PLACE}:)(?:{_WORD})[\w.\\?$]*:(?:{_WORD})[\w.\\?$]*(?=!))
  | (?P<word>(?:{_WORD})(?:[\w.\\?$])*|\d[\w.$]*)
  | (?P<space>\s+)
  | (?P<other>.)
    """,
    re.VERBOSE | re.DOTALL,
)
_AT_BRACKETS = re.compile(r"\s*([\[\],])\s*")
_PLAIN_SHEET = re.compile(r"[^\W\d][\w.]*")
_CELL = re.compile(r"(\$?)([A-Za-z]{1,3})(\$?)([1-9]\d{0,6})")
_R1C1 = re.compile(r"(?i)r\d*c?\d*|c\d*")

_Reference: TypeAlias = tuple[str, str, str, str]
"""A reference to a cell in pieces: a $ or none, letters, a $ or none, digits."""

_Template: TypeAlias = tuple[str | _Reference, ...]


class Token(Struct, frozen=True):
    """One token: its kind and its text.

    Kinds: text, quoted, bracket, error, number, span (from one tab to another), word, space, other.
    """

    kind: str
    text: str


def _bracket_end(formula: str, start: int) -> int:
    depth, place = 0, start
    while place < len(formula):
        sign = formula[place]
        if sign == "'":  # the next sign is escaped
            place += 1
        elif sign == "[":
            depth += 1
        elif sign == "]":
            depth -= 1
            if depth == 0:
                return place + 1
        place += 1
    return len(formula)


def tokens(formula: str) -> Iterator[Token]:
    """Tokens of a formula; joined together they are the formula again."""
    place = 0
    while place < len(formula):
        match = _TOKEN.match(formula, place)
        if match is None:  # pragma: no cover - the last alternative takes any sign
            break
        kind, end = match.lastgroup or "other", match.end()
        if kind == "bracket":
            end = _bracket_end(formula, place)
        yield Token(kind, formula[place:end])
        place = end


def quote_sheet(name: str) -> str:
    """Write a sheet's name as it stands before the ! of a reference.

    >>> quote_sheet("Takeoff"), quote_sheet("Bob's tab"), quote_sheet("A1")
    ('Takeoff', "'Bob''s tab'", "'A1'")
    """
    plain = _PLAIN_SHEET.fullmatch(name)
    if plain and not _CELL.fullmatch(name) and not _R1C1.fullmatch(name):
        return name
    return "'" + name.replace("'", "''") + "'"


def unquote_sheet(text: str) -> str:
    """Read a sheet's name as it stands before the ! of a reference."""
    return text[1:-1].replace("''", "'") if text.startswith("'") else text


def rename(formula: str, *, sheets: Mapping[str, str], names: Mapping[str, str]) -> str:
    r"""Put the sheets, tables and defined names of a formula under their new names.

    Parameters
    ----------
    formula
        With or without its leading ``=``.
    sheets, names
        Old name in lower case -> new name; ``GONE`` for a sheet that is no longer there.

    Examples
    --------
    >>> rename('IF(Out[Net]>0,"Out",Takeoff!A1)', sheets={"takeoff": "Take off"},
    ...        names={"out": "Out_2"})
    'IF(Out_2[Net]>0,"Out",\'Take off\'!A1)'
    """
    if not sheets and not names:
        return formula
    result: list[str] = []
    for names_what, token in _roles(formula):
        text = token.text
        if names_what == "sheets":
            old = _sheets_in(text)
            new = [sheets.get(name.lower(), name) for name in old]
            if new != old:
                text = GONE if GONE in new else quote_sheet(":".join(new))
        elif names_what == "name":
            text = names.get(text.lower(), text)
        result.append(text)
    return "".join(result)


def _roles(formula: str) -> Iterator[tuple[str, Token]]:
    """Yield tokens, each with what it names in the formula's own book: sheets, a name, or "".

    What stands after brackets, or has some, is of another book.  A name may be a table's, a
    defined one, or a cell's address.
    """
    parts = list(tokens(formula))
    before = nothing = Token("other", "")
    for token, next_one in zip(parts, [*parts, nothing][1:], strict=True):
        names_what = ""
        if token.kind in {"quoted", "span", "word"} and next_one.text == "!":
            names_what = "" if before.kind == "bracket" or "[" in token.text else "sheets"
        elif token.kind == "word" and before.text != "!" and not next_one.text.startswith("("):
            names_what = "name"
        yield names_what, token
        before = token


def _sheets_in(text: str) -> list[str]:
    """Names of the sheet before the ! of a reference, or of the first and the last of several."""
    return unquote_sheet(text).split(":")


def sheets_of(formula: str) -> Iterator[str]:
    """Yield the tabs of its own book that a formula names; those of other books stand in brackets.

    >>> list(sheets_of("Takeoff!A1+'Bob''s tab'!B2+[1]Other!C3+SUM('Order A:Order B'!D4)"))
    ['Takeoff', "Bob's tab", 'Order A', 'Order B']
    """
    for names_what, token in _roles(formula):
        if names_what == "sheets":
            yield from _sheets_in(token.text)


def names_of(formula: str) -> Iterator[str]:
    """Yield the words that may be tables or defined names of the formula's own book.

    >>> list(names_of("SUM(Out[Net])*Rate+Takeoff!A1+[1]!Far"))
    ['Out', 'Rate']
    """
    for names_what, token in _roles(formula):
        if names_what == "name":
            yield token.text


def column_number(letters: str) -> int:
    """Find the number of a column, 1 for A."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number


@functools.cache
def column_letters(number: int) -> str:
    """Find the letters of a column, ``A`` for 1.

    >>> column_letters(28)
    'AB'
    """
    before, last = divmod(number - 1, 26)
    return (column_letters(before) if before else "") + chr(ord("A") + last)


def _relative(cell: _Reference, row: int, column: int) -> str:
    fixed_column, letters, fixed_row, digits = cell
    c, r = column_number(letters), int(digits)
    return (f"R{r}" if fixed_row else f"R[{r - row}]") + (
        f"C{c}" if fixed_column else f"C[{c - column}]"
    )


@functools.lru_cache(maxsize=4096)
def _template(formula: str) -> _Template:
    """Split a formula into normal texts and, between them, references to cells in pieces.

    Formulas of a job differ in their texts and in the columns that they name; what stands between
    those comes again and again, and is taken apart once.
    """
    result: list[str | _Reference] = [""]
    place = 0
    while place < len(formula):
        match = _ENCLOSED.search(formula, place)
        start, end = match.span() if match else (len(formula), len(formula))
        if match and match.lastgroup == "bracket":
            end = _bracket_end(formula, start)
        first, *rest = _between(formula[place:start], formula[start : start + 1])
        result[-1] = f"{result[-1]}{first}"
        result += rest
        result[-1] = f"{result[-1]}{_normal_enclosed(formula[start:end])}"
        place = end
    return tuple(result)


@functools.lru_cache(maxsize=4096)
def _between(text: str, sign: str) -> _Template:
    """Split a stretch of a formula without texts, quoted names and brackets, as a template is.

    Parameters
    ----------
    text
        The stretch.
    sign
        First sign of what follows it.
    """
    parts = [t for t in tokens(text) if t.kind != "space"]
    result: list[str | _Reference] = [""]
    for place, token in enumerate(parts):
        following = parts[place + 1].text if place + 1 < len(parts) else sign
        cell = _CELL.fullmatch(token.text) if token.kind == "word" else None
        if cell and not following.startswith(("(", "!", "[")):
            result += [(cell[1], cell[2], cell[3], cell[4]), ""]
        else:
            result[-1] = f"{result[-1]}{_normal_token(token, following)}"
    return tuple(result)


def _normal_token(token: Token, following: str) -> str:
    if token.kind == "number":
        return f"{float(token.text):.15g}"
    text = token.text.upper().removeprefix("_XLFN.").removeprefix("_XLWS.")
    if text in {"TRUE", "FALSE"} and not following.startswith("("):
        text += "()"
    return text


def _normal_enclosed(text: str) -> str:
    """Put what stands in quotes, in apostrophes or in brackets into normal form."""
    if text.startswith("'"):
        return quote_sheet(unquote_sheet(text)).upper()
    if text.startswith("["):
        return _normal_brackets(text)
    return text


@functools.lru_cache(maxsize=4096)
def _normal_brackets(text: str) -> str:
    return _AT_BRACKETS.sub(r"\1", text).upper()


def has_cells(formula: str) -> bool:
    """Tell whether a formula refers to cells by their place, so that its own place matters."""
    return len(_template(formula)) > 1


def normal_form(formula: str, row: int, column: int) -> str:
    """Put a formula into a form that spreadsheet programs agree on after rewriting a file.

    Blanks and case outside of texts go, references are taken relative to the cell (so a formula
    shared down a column reads alike in every row), ``TRUE`` is ``TRUE()``, names of newer
    functions lose their prefix, sheet names their needless apostrophes.

    Parameters
    ----------
    formula
        Without its leading ``=``.
    row, column
        Of its cell, 1-based.
    """
    pieces = _template(formula)
    if len(pieces) == 1:
        return str(pieces[0])
    return "".join(p if isinstance(p, str) else _relative(p, row, column) for p in pieces)
