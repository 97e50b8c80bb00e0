"""Cells as text of a worksheet part, each with what it holds in the words of a check figure."""

import math
import re
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from datetime import date
from itertools import count
from typing import Final, TypeAlias

from msgspec import Struct

from sheetcalc.excel.generating.cells import NotWrittenError, checked_link, stored
from sheetcalc.excel.generating.table_columns import Column
from sheetcalc.excel.opc.escapes import escaped
from sheetcalc.excel.opc.formula_text import column_letters, has_cells, normal_form
from sheetcalc.excel.tabs.tab_content import BETWEEN
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

_Piece: TypeAlias = tuple[bytes, bytes]
"""A cell from the number of its style on and the next one up to its row's number; what it holds."""


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


def cell_content(text: str) -> str:
    """Text of a cell as it stands between two tags; signs that XML lacks are numbered."""
    if not text.isprintable() or "_x" in text:
        text = _ODD_SIGN.sub(lambda m: f"_x{ord(m[0]):04X}_", text)
    return escaped(text)


def _quoted(text: str) -> str:
    return cell_content(text).replace('"', "&quot;").replace("\n", "&#10;")


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
        style_of = f'{number}" s="'
        pieces: list[str] = []
        kept: list[str] = []
        for column, cell in cells:
            tail, held = self._written(cell, number, column)
            letters = column_letters(column)
            pieces.append(f'<c r="{letters}{style_of}{tail}')
            if held and column not in free:
                kept += (letters, held)
        return f'<row r="{number}"{_tall(height)}>{"".join(pieces)}</row>', kept

    def records(
        self,
        first: int,
        left: int,
        columns: Sequence[Column],
        heights: Mapping[int, float],
        free: Collection[int] = (),
    ) -> Iterator[tuple[bytes, bytes]]:
        """Write rows that have the same columns, each as ``row`` does.

        A column has few cells that differ.  Each of them is written once, together with what
        follows it, and a row is put together by joining them with its number.

        Parameters
        ----------
        first
            Number of the first row.
        left
            First column.
        columns
            Their cells.
        heights
            Of rows that are not as high as most [points].
        free
            Columns whose content is not looked at in the check figure.

        Yields
        ------
        tuple
            The row as XML, and what it holds, as the check figure takes it.
        """
        last = left + len(columns) - 1
        pieces = [
            self._pieces(column, first, at, is_last=at == last, is_free=at in free)
            for at, column in enumerate(columns, left)
        ]
        opening, between = _opening(left).encode(), BETWEEN.encode()
        tall = {height: _tall(height).encode() for height in {None, *heights.values()}}
        for number, row in enumerate(zip(*pieces, strict=True), first):
            texts, held = zip(*row, strict=True)
            cells = (b'%d" s="' % number).join((opening, *texts))
            text = b'<row r="%d"%s>%s</row>' % (number, tall[heights.get(number)], cells)
            yield text, between.join(filter(None, held))

    def _pieces(
        self, column: Column, first: int, at: int, *, is_last: bool, is_free: bool
    ) -> Iterator[_Piece]:
        """Write the cells of a column one after another."""
        after = "" if is_last else _opening(at + 1)
        letters = column_letters(at)

        def piece(cell: Cell, number: int) -> _Piece:
            tail, held = self._written(cell, number, at)
            kept = f"{letters}{BETWEEN}{held}" if held and not is_free else ""
            return f"{tail}{after}".encode(), kept.encode()

        different = column.different
        if not any(map(self._is_placed, different.values())):
            with suppress(NotWrittenError):  # it is raised below, where it says which cell
                made = {key: piece(_unlinked(cell), first) for key, cell in different.items()}
                pieces = map(made.__getitem__, column.keys)
                linked = any(cell.link is not None for cell in different.values())
                return self._linked(column.cells, first, letters, pieces) if linked else pieces
        return map(piece, column.cells, count(first))

    def _linked(
        self, cells: Sequence[Cell], first: int, letters: str, pieces: Iterable[_Piece]
    ) -> Iterator[_Piece]:
        """Note the links of a column, row by row as its cells are asked for."""
        for number, (cell, piece) in enumerate(zip(cells, pieces, strict=True), first):
            if cell.link is not None:
                self._link(cell.link, f"{letters}{number}")
            yield piece

    def _is_placed(self, cell: Cell) -> bool:
        """Whether what a cell holds depends on its own place."""
        return cell.formula is not None and has_cells(self._renamed(cell.formula)[0])

    def _written(self, cell: Cell, number: int, column: int) -> _Written:
        known = self._made[type(cell.value)].get(cell)
        return known or self._cell(cell, number, column)

    def _cell(self, cell: Cell, number: int, column: int) -> _Written:
        """Write a cell, and keep what would be written anywhere else for the next one like it."""
        if cell.link is not None:
            self._link(cell.link, f"{column_letters(column)}{number}")
            return self._written(_unlinked(cell), number, column)
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
        tail = (
            f'{self._styles[style]}" t="inlineStr"><is><t{space}>{cell_content(text)}</t></is></c>'
        )
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
        made = self._renamed(formula)
        value, kind = stored(cell.value), ""
        if isinstance(value, bool):
            kind, shown = ' t="b"', f"{value:d}"
        elif isinstance(value, str):
            kind = "" if not value else ' t="e"' if value in _ERRORS else ' t="str"'
            shown = cell_content(value)
        else:
            shown = str(self._shifted(_number(value), cell.style))
        tail = f'{self._styles[cell.style]}"{kind}>{made[1]}<v>{shown}</v></c>'
        held = "f" + normal_form(made[0], number, column)
        return (tail, held), not has_cells(made[0])

    def _renamed(self, formula: str) -> tuple[str, str]:
        """Put a formula under the book's names; as XML, too."""
        made = self._formulas.get(formula)
        if made is None:
            renamed = self._terms.rename(formula)
            made = self._formulas[formula] = renamed, f"<f>{cell_content(renamed)}</f>"
        return made

    def _shifted(self, value: float, style: str) -> float:
        shift = self._terms.day_shift
        return value + shift if shift and style in self._terms.dated else value


def _unlinked(cell: Cell) -> Cell:
    """Give what a cell with a link shows, and any other as it is."""
    if cell.link is None:
        return cell
    text = "" if cell.value is None else str(cell.value)
    return Cell(text or cell.link.removeprefix("internal:"), cell.style)


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


def _opening(column: int) -> str:
    """Begin a cell; the number of its row comes next."""
    return f'<c r="{column_letters(column)}'


def _tall(height: float | None) -> str:
    """Attributes of a row for its height [points]."""
    return "" if height is None else f' ht="{_in_pixels(height):.16g}" customHeight="1"'


def _in_pixels(points: float) -> float:
    """Round a height to whole pixels, as the programs do [points]."""
    return int(points * 4 / 3 + 0.5) * 0.75
