"""The longer text of tabs and their columns, for ``sheetcalc explain``."""

from collections import defaultdict
from collections.abc import Iterator

from sheetcalc.workbook.columns import Column, Tab
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.results_tabs import RESULT_TABS


def column_texts() -> dict[str, str]:
    """Texts by name: a tab, ``Tab Header``, and a header alone, which tells it of every tab.

    Examples
    --------
    >>> column_texts()["Rooms Count"].splitlines()[0]
    'Count (column of the tab Rooms)'
    """
    texts: dict[str, str] = {}
    of_header: dict[str, list[str]] = defaultdict(list)
    for tab in (*INPUT_TABS, *RESULT_TABS):
        texts[tab.key] = _tab(tab)
        for column in tab.columns:
            text = "\n".join(_column(tab, column))
            texts[f"{tab.key} {column.header}"] = text
            of_header[column.header].append(text)
    for header, several in of_header.items():
        texts.setdefault(header, "\n\n".join(several))
    return texts


def _tab(tab: Tab) -> str:
    kind = "result tab" if tab.result else "input tab"
    headers = ", ".join(column.header for column in tab.columns)
    return f"{tab.key} ({kind}): one row is {tab.record}\n\n{tab.purpose}\n\nColumns: {headers}."


def _column(tab: Tab, column: Column) -> Iterator[str]:
    yield f"{column.header} (column of the tab {tab.key})\n"
    yield column.help
    if column.choices:
        yield f"Choices: {', '.join(column.choices)}."
    if column.example:
        us = f"; US {column.example_us}" if column.example_us else ""
        yield f"Example: {column.example}{us}."
    if column.required:
        yield "A row without it is an error."
    elif column.default and not tab.result:
        yield f"Empty means: {column.default}."
