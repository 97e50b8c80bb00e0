"""The column reference of the README, rendered from the declaration."""

from collections.abc import Iterator

from sheetcalc.workbook.columns import Column, Tab
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.results_tabs import RESULT_TABS

BEGIN = "<!-- the column reference: rendered from the declaration, tested -->"
END = "<!-- end of the column reference -->"


def column_reference() -> str:
    """Render every tab and column as Markdown."""
    parts = ["### Input tabs", *(_tab(tab) for tab in INPUT_TABS)]
    parts += ["### Result tabs", *(_tab(tab) for tab in RESULT_TABS)]
    return "\n\n".join(parts)


def with_reference(readme: str) -> str:
    """Put the rendered reference between the README's markers."""
    before, rest = readme.split(BEGIN)
    after = rest.split(END)[1]
    return f"{before}{BEGIN}\n\n{column_reference()}\n\n{END}{after}"


def _tab(tab: Tab) -> str:
    return "\n".join([f"**{tab.key}**: one row is {tab.record}.", "", *_rows(tab)])


def _rows(tab: Tab) -> Iterator[str]:
    if tab.result:
        yield "| column | what it holds |"
        yield "| --- | --- |"
        for column in tab.columns:
            typed = " (typed by people, kept by every run)" if column.typed else ""
            yield f"| {column.header} | {_plain(column.help)}{typed} |"
        return
    yield "| column | what to type | example | empty means |"
    yield "| --- | --- | --- | --- |"
    for column in tab.columns:
        empty = "**required**" if column.required else _plain(column.default)
        yield f"| {column.header} | {_plain(column.help)} | {_example(column)} | {empty} |"


def _example(column: Column) -> str:
    us = column.example_us
    both = column.example if us is None or us == column.example else f"{column.example}; US {us}"
    return _plain(both)


def _plain(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")
