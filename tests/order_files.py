"""The command that writes order files, and what its files say, for the tests of orders."""

import csv
from collections.abc import Callable
from pathlib import Path

from click.testing import CliRunner, Result
from edited_books import add
from openpyxl import load_workbook
from typed_books import TypedBook

from sheetcalc.cli import main

NUMBER = "PO-KILNQUAR"
DAY = "2027-02-03"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(main, ["orders", *map(str, arguments)])


def setting(label: str, value: object) -> Callable[[TypedBook], None]:
    def edit(book: TypedBook) -> None:
        for row in book["Job"].iter_rows(min_row=5, max_col=2):
            if row[0].value == label:
                row[1].value = value  # type: ignore[assignment]

    return edit


def both(*edits: Callable[[TypedBook], None]) -> Callable[[TypedBook], None]:
    def edit(book: TypedBook) -> None:
        for one in edits:
            one(book)

    return edit


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file))


def texts(path: Path) -> list[str]:
    sheet = load_workbook(path).worksheets[0]
    return [str(c.value) for row in sheet.iter_rows() for c in row if c.value is not None]


def packs_of(to: Path) -> dict[str, int]:
    return {r["Our code"]: int(r["Packs"]) for r in rows(to / f"{NUMBER}.csv")}


def typed(column: str, packs: dict[str, int]) -> Callable[[TypedBook], None]:
    """Type into Received how many packs of which code were ordered, or came."""

    def edit(book: TypedBook) -> None:
        for code, number in packs.items():
            add(book, "Received", Supplier="Kiln & Quarry", Code=code, **{column: number})

    return edit
