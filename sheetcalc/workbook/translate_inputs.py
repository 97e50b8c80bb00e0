"""The blank workbook in the office's words: the Guide, second lines, help and guidance.

Names of tabs, headers, settings and choices are how the reader finds them: they stay.
"""

from collections.abc import Mapping
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.words import Words
from sheetcalc.workbook.columns import Column, Kind
from sheetcalc.workbook.inputs import GUIDE_NAME, INPUT_TABS, LISTS_NAME
from sheetcalc.workbook.results.status_words import severity_words
from sheetcalc.workbook.results_tabs import RESULT_TABS
from sheetcalc.workbook.settings import SETTING_BY_LABEL, Setting
from sheetcalc.workbook.sheet import BookModel, Cell, SheetModel, TableModel, Validation
from sheetcalc.workbook.validations import LONGEST_MESSAGE, REQUIRED

_TOLD: Final = frozenset({"hint", "hint_link", "section", "strong", "wrapped"})
"""Styles of cells on the input tabs and the Guide that people read and nothing looks for."""

_NAMES_OF_TABS: Final = frozenset(tab.key for tab in (*INPUT_TABS, *RESULT_TABS)) | {LISTS_NAME}
"""They are the same in every language, on the Guide too."""

_JOB: Final = "Job"


def inputs_in_words(book: BookModel, words: Words) -> BookModel:
    """Put an input workbook into the office's words.

    Parameters
    ----------
    book
        Blank, or filled.
    words
        The office's dictionary.
    """
    if words.english:
        return book
    return replace(book, sheets=tuple(_sheet(sheet, words) for sheet in book.sheets))


def _sheet(sheet: SheetModel, words: Words) -> SheetModel:
    tab = next((tab for tab in INPUT_TABS if tab.key == sheet.key), None)
    columns = tab.by_header if tab else {}
    return replace(
        sheet,
        title=words.shown(sheet.title) if sheet.key == GUIDE_NAME else sheet.title,
        purpose=words.shown(sheet.purpose),
        loose={
            place: _guiding(cell, words) if sheet.key == GUIDE_NAME else _told(cell, words)
            for place, cell in (sheet.loose or {}).items()
        },
        tables=tuple(_table(table, columns, sheet.key, words) for table in sheet.tables),
        cell_validations=tuple(
            (row, column, _rule_of_setting(rule, words))
            for row, column, rule in sheet.cell_validations
        ),
    )


def _told(cell: Cell, words: Words) -> Cell:
    if cell.style in _TOLD and isinstance(cell.value, str):
        return replace(cell, value=words.shown(cell.value))
    return cell


def _guiding(cell: Cell, words: Words) -> Cell:
    """Put a cell of the Guide into words, its legend as the other tabs say it."""
    if not isinstance(cell.value, str) or cell.value in _NAMES_OF_TABS:
        return cell
    return replace(cell, value=severity_words(words).get(cell.value) or words.say(cell.value))


def _table(table: TableModel, declared: Mapping[str, Column], tab: str, words: Words) -> TableModel:
    columns = tuple(
        replace(shape, validation=_rule(shape.validation, column, words))
        for shape, column in zip(table.columns, declared.values(), strict=False)
    )
    rows = table.rows
    if tab == _JOB:
        rows = tuple(_setting_row(row, words) for row in rows)
    return replace(table, columns=columns or table.columns, rows=rows)


def _rule(rule: Validation | None, column: Column, words: Words) -> Validation | None:
    """Help of a cell: the column's, what empty means, and an example, as far as they fit."""
    if rule is None or not rule.message.startswith(column.help):
        return rule
    parts = [words.say(column.help)]
    rest = rule.message.removeprefix(column.help)
    means, _, example = rest.partition(" Example: ")
    if means:
        typed = column.kind is Kind.YES_NO or column.default in column.choices
        what = column.default if typed else words.say(column.default)
        parts.append(words.fill("Empty: {what}.", what=what))
    if example:
        parts.append(words.fill("Example: {what}", what=example))
    while len(parts) > 1 and len(" ".join(parts)) > LONGEST_MESSAGE:
        parts.pop()
    title = words.fill(REQUIRED, column=column.header) if column.required else rule.title
    return replace(_stopping(rule, words), title=title, message=" ".join(parts)[:LONGEST_MESSAGE])


def _rule_of_setting(rule: Validation, words: Words) -> Validation:
    setting: Setting | None = SETTING_BY_LABEL.get(rule.title)
    if setting is None:
        return rule
    message = words.say(setting.guidance)[:LONGEST_MESSAGE]
    return replace(_stopping(rule, words), message=message)


def _stopping(rule: Validation, words: Words) -> Validation:
    """Put what stops a wrong value into words."""
    return replace(rule, error=words.shown(rule.error), error_title=words.say(rule.error_title))


def _setting_row(row: tuple[Cell, ...], words: Words) -> tuple[Cell, ...]:
    """Put the Guidance into words; Setting, Value and Unit stay, the Source is a quotation."""
    setting, value, unit, guidance, source = row
    return (setting, value, unit, replace(guidance, value=words.shown(str(guidance.value))), source)
