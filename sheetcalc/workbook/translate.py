"""Sheets in the office's words: titles, headers and labels, and the formulas that name headers."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Final, TypeAlias

from msgspec.structs import replace

from sheetcalc.domain.words import Words
from sheetcalc.workbook.columns import Tells
from sheetcalc.workbook.formulas import can_be_named, structured, this_row
from sheetcalc.workbook.sheet import Cell, SheetColumn, SheetModel, TableModel

_LABELS: Final = re.compile(r"(hint|header|title|purpose|section|total|sum)[a-z_]*", re.ASCII)
"""Styles of cells that hold labels; what people typed stands in other ones, as strong lines."""

_WITH_UNIT: Final = re.compile(r"(?P<words>.+) (?P<unit>\([^()]+\))")


def in_words(sheets: Sequence[SheetModel], words: Words) -> tuple[SheetModel, ...]:
    """Put titles, headers and labels of sheets into the office's words.

    Names of tabs stay, and so do the headers of tables that a later run reads.  Records are put
    into words where their column tells something; what formulas look up or a person types back
    is the same in every language.

    Parameters
    ----------
    sheets
        All result tabs of a run, or sheets of a file to send.
    words
        The office's dictionary.
    """
    if words.english:
        return tuple(sheets)
    renamed: dict[str, str] = {}
    for sheet in sheets:
        for table in sheet.tables:
            headers = _headers(table, words)
            for column, own in zip(table.columns, headers, strict=True):
                if own != column.header:
                    for reference in (structured, this_row):
                        renamed[reference(table.name, column.header)] = reference(table.name, own)
    rewrite = _Rewriter(renamed)
    tellers: _Tellers = {
        Tells.LABELS: words.say,
        Tells.NAMES: cache(words.called),
        Tells.SENTENCES: cache(words.told),
    }
    return tuple(_sheet(sheet, words, rewrite, tellers) for sheet in sheets)


_Teller: TypeAlias = Callable[[str], str]
_Tellers: TypeAlias = Mapping[Tells | None, _Teller]


class _Rewriter:
    """Renames references to headers in formulas."""

    def __init__(self, renamed: Mapping[str, str]) -> None:
        self._renamed = renamed
        longest_first = sorted(renamed, key=len, reverse=True)
        self._pattern = re.compile("|".join(re.escape(name) for name in longest_first) or r"(?!)")

    def __call__(self, formula: str) -> str:
        return self._pattern.sub(lambda found: self._renamed[found[0]], formula)


def _headers(table: TableModel, words: Words) -> list[str]:
    headers = [column.header for column in table.columns]
    return headers if table.read_back else headers_in_words(headers, words)


def headers_in_words(headers: Iterable[str], words: Words) -> list[str]:
    """Headers of a result tab in the office's words, in their order.

    A word that would stand twice keeps its English beside it; words that a formula couldn't name
    stay English.

    Parameters
    ----------
    headers
        In English, with their units.
    words
        The office's dictionary.
    """
    found: list[str] = []
    for header in headers:
        own = _header(header, words)
        if not can_be_named(own):
            own = header
        taken = {header.casefold() for header in found}
        found.append(own if own.casefold() not in taken else f"{own} ({header})")
    return found


def _header(header: str, words: Words) -> str:
    """Header in the office's words; what is not known with its unit is looked up without."""
    own, with_unit = words.shown(header), _WITH_UNIT.fullmatch(header)
    if own != header or with_unit is None:
        return own
    return f"{words.shown(with_unit['words'])} {with_unit['unit']}"


def _sheet(sheet: SheetModel, words: Words, rewrite: _Rewriter, tellers: _Tellers) -> SheetModel:
    return replace(
        sheet,
        title=words.shown(sheet.title),
        purpose=words.shown(sheet.purpose),
        tables=tuple(_table(table, words, rewrite, tellers) for table in sheet.tables),
        loose={place: _cell(cell, words, rewrite) for place, cell in (sheet.loose or {}).items()},
        conditional=tuple(
            replace(rule, formula=rewrite(rule.formula)) for rule in sheet.conditional
        ),
    )


def _table(table: TableModel, words: Words, rewrite: _Rewriter, tellers: _Tellers) -> TableModel:
    headers = _headers(table, words)
    columns: list[SheetColumn] = [
        replace(column, header=header)
        for column, header in zip(table.columns, headers, strict=True)
    ]
    ways = [tellers.get(column.tells) for column in columns]
    rows = [
        tuple(_record_cell(cell, rewrite, tell) for cell, tell in zip(row, ways, strict=True))
        for row in table.rows
    ]
    if table.without_records:
        ((first, *blanks),) = rows
        rows = [(replace(first, value=words.say(str(first.value))), *blanks)]
    return replace(table, columns=tuple(columns), rows=tuple(rows))


def _record_cell(cell: Cell, rewrite: _Rewriter, tell: _Teller | None) -> Cell:
    if cell.formula is not None:
        return replace(cell, formula=rewrite(cell.formula))
    if tell is None or not isinstance(cell.value, str):
        return cell
    return replace(cell, value=tell(cell.value))


def _cell(cell: Cell, words: Words, rewrite: _Rewriter) -> Cell:
    """Label in the office's words; a formula with its headers renamed."""
    if cell.formula is not None:
        return replace(cell, formula=rewrite(cell.formula))
    if isinstance(cell.value, str) and _LABELS.fullmatch(cell.style):
        return replace(cell, value=words.shown(cell.value))
    return cell
