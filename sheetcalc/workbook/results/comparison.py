"""A comparison of two workbooks as sheets, and as lines for a terminal."""

from decimal import Decimal
from typing import Any, Final

from msgspec import Struct

from sheetcalc.domain.comparison import Comparison
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.workbook.columns import HEADER_ROW
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED
from sheetcalc.workbook.sheet import BookModel, Cell, CellValue, SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.text_table import aligned
from sheetcalc.workbook.translate import in_words

_DECIMALS: Final = 9
_TELLING: Final = frozenset({"What", "Sum", "Note"})
"""Headers of columns that hold words of ours: what has changed, of which sum, and why not."""


class Section(Struct, frozen=True):
    """One kind of change as a table.

    Attributes
    ----------
    title, purpose
        What it shows.
    headers
        Header, width [characters], style of its cells.
    rows
        Values as they stand in cells.
    """

    title: str
    purpose: str
    headers: tuple[tuple[str, float, str], ...]
    rows: tuple[tuple[CellValue, ...], ...]


def sections_of(comparison: Comparison) -> tuple[Section, ...]:
    """Tables of a comparison: inputs, quantities, packs, money."""
    inputs = Section(
        "Inputs",
        "What differs in the input tabs, record by record.",
        (
            ("What", 11, "result"), ("Tab", 17, "result"), ("Record", 30, "result_wrapped"),
            ("Column", 18, "result"), ("A", 36, "result_wrapped"), ("B", 36, "result_wrapped"),
        ),
        tuple((c.what, c.tab, c.record, c.column, c.old, c.new) for c in comparison.inputs),
    )  # fmt: skip
    quantities = Section(
        "Quantities",
        "Lines of the takeoff whose gross quantity differs, over the whole job.",
        (
            ("Line", 18, "result"), ("Item", 14, "result"), ("Description", 40, "result_wrapped"),
            ("Unit", 8, "result"), ("A", 13, "result_number"), ("B", 13, "result_number"),
            ("Change", 13, "result_number"),
        ),
        tuple(
            (c.line, c.item, c.description, c.unit, c.old, c.new, _rounded(c.new - c.old))
            for c in comparison.quantities
        ),
    )  # fmt: skip
    packs = Section(
        "Packs",
        "Items of which another number of packs is ordered, or at another price.",
        (
            ("Supplier", 20, "result"), ("Item", 14, "result"),
            ("Description", 38, "result_wrapped"), ("Packs A", 10, "result_count"),
            ("Packs B", 10, "result_count"), ("Change", 10, "result_count"),
            ("Amount A", 13, "result_money"), ("Amount B", 13, "result_money"),
            ("Difference", 13, "result_money"),
        ),
        tuple(
            (
                c.supplier, c.item, c.description, c.old_packs, c.new_packs,
                c.new_packs - c.old_packs, _money(c.old_amount), _money(c.new_amount),
                c.difference,
            )
            for c in comparison.packs
        ),
    )  # fmt: skip
    money = Section(
        "Money",
        "Totals of the orders, and the steps of the quote.",
        (
            ("Sum", 40, "result"), ("A", 15, "result_money"), ("B", 15, "result_money"),
            ("Difference", 15, "result_money"), ("Note", 26, "result"),
        ),
        tuple((c.what, c.old, c.new, c.difference, c.note or None) for c in comparison.money),
    )  # fmt: skip
    return (inputs, quantities, packs, money) if comparison.calculated else (inputs,)


def comparison_book(
    comparison: Comparison, names: tuple[str, str], words: Words = ENGLISH
) -> BookModel:
    """Workbook of a comparison, a sheet for each section.

    Parameters
    ----------
    comparison
        What differs.
    names
        Names of the two files.
    words
        The office's.
    """
    sheets = [_sheet(section, names, words) for section in sections_of(comparison)]
    title = words.fill("Comparison of {old} and {new}", old=names[0], new=names[1])
    return BookModel(in_words(sheets, words), {}, title=title)


def _sheet(section: Section, names: tuple[str, str], words: Words) -> SheetModel:
    columns = tuple(SheetColumn(header, width, style) for header, width, style in section.headers)
    rows = tuple(
        tuple(
            Cell(_told(value, header, words), style)
            for value, (header, _, style) in zip(row, section.headers, strict=True)
        )
        for row in section.rows
    )
    nothing = (
        Cell(words.say("no difference"), "result"),
        *(Cell(None, "result") for _ in columns[1:]),
    )
    table = TableModel(f"Compare{section.title}", HEADER_ROW, 1, columns, rows or (nothing,))
    return SheetModel(
        key=f"comparison {section.title}",
        name=section.title,
        title=section.title,
        purpose=f"{words.say(section.purpose)}  A: {names[0]}   B: {names[1]}",
        tables=(table,),
        tab_style="result",
    )


def _told(value: CellValue, header: str, words: Words) -> CellValue:
    """Put what a comparison says itself into words; the rest is as it stands in the workbooks."""
    if not isinstance(value, str):
        return value
    if header in _TELLING:
        return words.told(value)
    return words.say(value) if value == TO_BE_PRICED else value


def comparison_text(comparison: Comparison, names: tuple[str, str], words: Words = ENGLISH) -> str:
    """Lines for a terminal: each section that has anything, as a table.

    Parameters
    ----------
    comparison, names, words
        As for the workbook.
    """
    parts = [f"A  {names[0]}\nB  {names[1]}"]
    for section in sections_of(comparison):
        rows = section.rows
        if section.title == "Money":
            rows = tuple(row for row in rows if row[1] != row[2])
        if rows:
            headers = [header for header, _, _ in section.headers]
            told = [
                tuple(_told(v, header, words) for v, header in zip(row, headers, strict=True))
                for row in rows
            ]
            own = [words.shown(header) for header in headers]
            parts.append(f"{words.say(section.title)}\n{aligned(own, told)}")
        else:
            parts.append(f"{words.say(section.title)}\n  {words.say('no difference')}")
    return "\n\n".join(parts)


def comparison_counted(comparison: Comparison, words: Words = ENGLISH) -> str:
    """How much differs, in a line.

    Parameters
    ----------
    comparison, words
        As for the workbook.
    """
    sums = sum(change.old != change.new for change in comparison.money)
    counts = (len(comparison.inputs), len(comparison.quantities), len(comparison.packs), sums)
    if not any(counts):
        return words.say("no difference")
    return words.fill(
        "differences in inputs: {inputs}, in quantities: {quantities}, in packs: {packs}, "
        "in sums of money: {sums}",
        **dict(zip(("inputs", "quantities", "packs", "sums"), counts, strict=True)),
    )


def comparison_json(comparison: Comparison) -> dict[str, Any]:
    """Sections as plain data; money as text, so that no cent is lost."""
    return {
        section.title.casefold(): [
            {
                header: str(value) if isinstance(value, Decimal) else value
                for (header, _, _), value in zip(section.headers, row, strict=True)
            }
            for row in section.rows
        ]
        for section in sections_of(comparison)
    }


def _rounded(value: float) -> float:
    return round(value, _DECIMALS)


def _money(amount: Decimal | None) -> Decimal | str:
    return TO_BE_PRICED if amount is None else amount
