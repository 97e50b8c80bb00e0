"""Cells as text of a worksheet part, each with what it holds in the words of a check figure."""

import math
import re
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping
from datetime import date
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.excel.generating.cells import NotWrittenError, checked_link, stored
from sheetcalc.excel.opc.formula_text import column_letters, has_cells, normal_form
from sheetcalc.workbook.sheet import Cell

LONGEST_TEXT: Final = 32_767
"""Signs that a cell holds; the programs' own limit."""

_LONGEST_PLACE: Final = 2_079
_EPOCH: Final = date(1899, 12, 30)
_ERRORS: Final = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!"})
# ECMA-376 part 1, 22.9.2.19: signs that XML can't carry are written as _x000D_
_ODD_SIGN: Final = re.compile(r"[\x00-\x08\x0b-\x1f\ufffe\uffff]|_(?=x[0-9A-Fa-f]{4}_)")

_Written: TypeAlias = tuple[str, str]
"""A cell as XML from the number of its style on, and what it holds for the check figure."""


class BookTerms(Struct, frozen=True):
    """What a book calls the things that cells name.

    Attributes
    ----------
    styles
        Style key -> number of the cell format.
    dated
        Style keys that show dates.
    rename
        Puts a formula, or the place of a link, under the book's names.
    day_shift
        Days to add to dates (-1462 in a book that counts from 1904).
    """

    styles: Mapping[str, int]
    dated: Collection[str]
    rename: Callable[[str], str]
    day_shift: int = 0


def escaped(text: str) -> str:
    """Text as it stands between two tags."""
    if not text.isprintable() or "_x" in text:
        text = _ODD_SIGN.sub(lambda m: f"_x{ord(m[0]):04X}_", text)
    if "&" in text or "<" in text or ">" in text:
        text = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    return text


def _quoted(text: str) -> str:
    return escaped(text).replace('"', "&quot;").replace("\n", "&#10;")


class CellWriter:
    """Writes the rows of one sheet; cells that read alike wherever they stand are made once."""

    def __init__(self, terms: BookTerms) -> None:
        """Begin a sheet."""
        self.links: list[str] = []
        self._terms = terms
        self._styles = {key: str(number) for key, number in terms.styles.items()}
        # by the type of the value: 1, 1.0 and True are equal, and are not written alike
        self._made: defaultdict[type, dict[Cell, _Written]] = defaultdict(dict)
        self._formulas: dict[str, tuple[str, str]] = {}
        self._places: dict[str, str] = {}

    def row(
        self,
        number: int,
        cells: Iterable[tuple[int, Cell]],
        height: float | None,
        free: Collection[int] = (),
    ) -> tuple[str, list[str]]:
        """Write a row.

        Parameters
        ----------
        number
            1-based.
        cells
            With their columns (1-based), in order.
        height
            Of the row [points]; None for that of most.
        free
            Columns whose content is not looked at in the check figure.

        Returns
        -------
        tuple
            The row as XML; and letters of columns, each followed by what its cell holds.

        Raises
        ------
        NotWrittenError
            For what a cell can't hold.
        """
        known, style_of = self._made, f'{number}" s="'
        pieces: list[str] = []
        kept: list[str] = []
        for column, cell in cells:
            tail, held = known[type(cell.value)].get(cell) or self._cell(cell, number, column)
            letters = column_letters(column)
            pieces.append(f'<c r="{letters}{style_of}{tail}')
            if held and column not in free:
                kept += (letters, held)
        tall = "" if height is None else f' ht="{_in_pixels(height):.16g}" customHeight="1"'
        return f'<row r="{number}"{tall}>{"".join(pieces)}</row>', kept

    def _cell(self, cell: Cell, number: int, column: int) -> _Written:
        """Write a cell, and keep what would be written anywhere else for the next one like it."""
        if cell.link is not None:
            self._link(cell.link, f"{column_letters(column)}{number}")
            text = "" if cell.value is None else str(cell.value)
            shown = Cell(text or cell.link.removeprefix("internal:"), cell.style)
            return self._made[str].get(shown) or self._cell(shown, number, column)
        try:
            if cell.formula is not None:
                made, is_anywhere = self._formula(cell, cell.formula, number, column)
                if not is_anywhere:
                    return made
            else:
                made = self._constant(cell)
        except NotWrittenError as trouble:
            message = f"{column_letters(column)}{number}: {trouble}"
            raise NotWrittenError(message) from None
        self._made[type(cell.value)][cell] = made
        return made

    def _text(self, style: str, text: str) -> tuple[str, str]:
        if len(text) > LONGEST_TEXT:
            message = f"a text of {len(text)} signs; a cell holds {LONGEST_TEXT}"
            raise NotWrittenError(message)
        space = ' xml:space="preserve"' if text[0].isspace() or text[-1].isspace() else ""
        tail = f'{self._styles[style]}" t="inlineStr"><is><t{space}>{escaped(text)}</t></is></c>'
        plain = text.replace("\r", "")
        return tail, f"s{plain}" if plain else ""

    def _constant(self, cell: Cell) -> _Written:
        """Write a text, a number, a date, a yes or no."""
        value, number = cell.value, self._styles[cell.style]
        if value is None or value == "":
            return f'{number}"/>', ""
        if isinstance(value, str):
            return self._text(cell.style, value)
        if isinstance(value, bool):
            return f'{number}" t="b"><v>{value:d}</v></c>', f"b{value:d}"
        shown = _fifteen_digits(self._shifted(_number(stored(value)), cell.style))
        return f'{number}"><v>{shown}</v></c>', f"n{shown}"

    def _link(self, link: str, where: str) -> None:
        """Note the link of a cell; one that leaves the book comes with the frame of the sheet."""
        place = self._places.get(link)
        if place is None:
            place = self._places[link] = self._place(link, where)
        if place:
            self.links.append(f'<hyperlink ref="{where}" location="{place}"/>')

    def _place(self, link: str, where: str) -> str:
        """Find the place in the book that a link leads to; "" for one that leaves the book."""
        place = checked_link(link, where)
        if not place.startswith("internal:"):
            return ""
        place = self._terms.rename(place.removeprefix("internal:"))
        if len(place) > _LONGEST_PLACE:
            message = f"{where}: a link of {len(place)} signs"
            raise NotWrittenError(message)
        return _quoted(place)

    def _formula(self, cell: Cell, formula: str, number: int, column: int) -> tuple[_Written, bool]:
        """Write a formula with its value; tell whether it reads alike wherever it stands."""
        made = self._formulas.get(formula)
        if made is None:
            renamed = self._terms.rename(formula)
            made = self._formulas[formula] = renamed, f"<f>{escaped(renamed)}</f>"
        value, kind = stored(cell.value), ""
        if isinstance(value, bool):
            kind, shown = ' t="b"', f"{value:d}"
        elif isinstance(value, str):
            kind = "" if not value else ' t="e"' if value in _ERRORS else ' t="str"'
            shown = escaped(value)
        else:
            shown = str(self._shifted(_number(value), cell.style))
        tail = f'{self._styles[cell.style]}"{kind}>{made[1]}<v>{shown}</v></c>'
        held = "f" + normal_form(made[0], number, column)
        return (tail, held), not has_cells(made[0])

    def _shifted(self, value: float, style: str) -> float:
        shift = self._terms.day_shift
        return value + shift if shift and style in self._terms.dated else value


def _number(value: object) -> float:
    if not isinstance(value, int | float) or not math.isfinite(value):
        message = f"a cell can't hold {value!r}"
        raise NotWrittenError(message)
    return value


def _fifteen_digits(value: float) -> str:
    """Write a constant as a spreadsheet program would: no more digits than it can show.

    One that rewrites the file keeps fifteen; written so from the start, the cell is not changed
    by that, and an edit by a person can be told from it.
    """
    return f"{value:.15g}"


def _in_pixels(points: float) -> float:
    """Round a height to whole pixels, as the programs do [points]."""
    return int(points * 4 / 3 + 0.5) * 0.75
