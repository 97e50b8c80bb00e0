"""The order as a sheet to send: who, where, when, the lines, the sums, the parts, the changes."""

import textwrap
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Final, TypeAlias

from sheetcalc.domain.order_document import DocumentLine, OrderDocument
from sheetcalc.domain.words import Words
from sheetcalc.rules.packages import counted_noun
from sheetcalc.workbook.office import PLAIN, Office
from sheetcalc.workbook.order_csv import TO_BE_AGREED, one_line
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.sheet import BookModel, Cell, SheetColumn, SheetModel, TableModel
from sheetcalc.workbook.shown import price_style

Cells: TypeAlias = dict[tuple[int, int], Cell]

_COLUMNS: Final = (
    ("Line", 6.0), ("Your code", 16.0), ("Our code", 13.0), ("Description", 38.0),
    ("Quantity", 9.0), ("Package", 10.0), ("Package code", 9.0), ("Holds", 9.0), ("Unit", 8.0),
    ("Unit code", 8.0), ("Price", 11.0), ("Amount", 12.0), ("Deliver on", 13.0),
)  # fmt: skip
_BEGUN: Final = (("Ordered before", 10.0), ("To order now", 10.0))
"""Columns of an order of which some was ordered already."""

_AT: Final = {header: at for at, (header, _) in enumerate(_COLUMNS, start=1)}
_LEFT, _LEFT_VALUE = _AT["Line"], _AT["Our code"]
_RIGHT, _RIGHT_VALUE = _AT["Quantity"], _AT["Package code"]
_FIRST_ROW: Final = 4
_TABLE: Final = "OrderLines"
_HAS_BEGUN: Final = "Quantity holds what was ordered before; what is new stands under To order now."
_LETTERS_A_LINE: Final = 140


def order_book(document: OrderDocument, paper: str, office: Office = PLAIN) -> BookModel:
    """Make the workbook of one order.

    Parameters
    ----------
    document
        The order.
    paper
        ``A4`` or ``letter``.
    office
        Its logo, its terms and its words.
    """
    cells: Cells = {}
    header_row = _head(document, cells, office.words) + 2
    columns = (*_COLUMNS, *_BEGUN) if document.has_begun else _COLUMNS
    table = TableModel(
        _TABLE,
        header_row,
        1,
        tuple(SheetColumn(header, width, "result") for header, width in columns),
        tuple(
            _line(line, [header for header, _ in columns], office.words) for line in document.lines
        ),
    )
    row = _sums(document, header_row + len(document.lines) + 2, cells)
    row = _signature(document, row + 2, cells)
    row = _parts(document, row, cells, office.words)
    _changes(document.changes, row, cells, office.words)
    sheet = SheetModel(
        key=f"order:{document.number}",
        name=document.title,
        title=f"Purchase order {document.title}",
        purpose=_purpose(document, office.words),
        tables=(table,),
        loose=cells,
        freeze=None,
        repeat_row=header_row,
        tab_style="order",
    )
    title = office.words.fill("Purchase order {number}", number=document.title)
    return BookModel(in_office_style((sheet,), office), {}, paper=paper, title=title)


def _purpose(document: OrderDocument, words: Words) -> str:
    told = words.say("Please confirm the goods, the prices and the days.")
    if document.revision:
        replaces = "Revision {number}: it replaces the order before it as a whole."
        told = words.fill(replaces, number=document.revision)
    if document.has_begun:
        told = f"{told} {words.say(_HAS_BEGUN)}"
    return told


def _head(document: OrderDocument, cells: Cells, words: Words) -> int:
    """Parties, place, days; return the last row used."""
    left = [
        ("Supplier", document.supplier),
        ("Address", one_line(document.supplier_address)),
        ("E-mail", document.supplier_email),
        ("Account", document.account),
        ("Terms", document.terms),
        ("Note", document.note and words.say(document.note)),
    ]
    right: list[tuple[str, str | date | None]] = [
        ("Buyer", document.buyer),
        ("Job", document.job),
        ("Order date", document.issued),
        ("Deliver to", one_line(document.deliver_to)),
        ("Deliver on", document.deliver_on or words.say(TO_BE_AGREED)),
        ("Currency", document.currency),
    ]
    last = _FIRST_ROW
    for pairs, label_at, value_at in (
        (left, _LEFT, _LEFT_VALUE),
        (right, _RIGHT, _RIGHT_VALUE),
    ):
        row = _FIRST_ROW
        for label, value in pairs:
            if not value:
                continue
            shown = value.isoformat() if isinstance(value, date) else value
            cells[row, label_at] = Cell(label, "hint")
            cells[row, value_at] = Cell(shown, "strong_line" if row == _FIRST_ROW else "text")
            row += 1
        last = max(last, row - 1)
    return last


def _line(line: DocumentLine, headers: Iterable[str], words: Words) -> tuple[Cell, ...]:
    comes: Cell = Cell(line.deliver_on, "result_date")
    if line.drops:
        comes = Cell(words.say("in parts"), "result")
    values = {
        "Line": Cell(line.line, "result_count"),
        "Your code": Cell(line.supplier_code or None, "result"),
        "Our code": Cell(line.item, "result"),
        "Description": Cell(line.description, "result_wrapped"),
        "Quantity": Cell(line.packs, "result_count"),
        "Package": Cell(words.say(line.package), "result"),
        "Package code": Cell(line.package_code or None, "result"),
        "Holds": Cell(line.pack_size, "result_general"),
        "Unit": Cell(words.say(line.unit), "result"),
        "Unit code": Cell(line.unit_code, "result"),
        "Price": Cell(line.pack_price, price_style(line.pack_price))
        if line.pack_price is not None
        else Cell(words.say(TO_BE_AGREED), "result"),
        "Amount": Cell(line.amount, "result_money")
        if line.amount is not None
        else Cell(words.say(TO_BE_AGREED), "result"),
        "Deliver on": comes,
        "Ordered before": _packs(line.before),
        "To order now": _packs(line.now),
    }
    return tuple(values[header] for header in headers)


def _packs(packs: float) -> Cell:
    """Packs that people counted; parts of a pack are shown as such."""
    whole = packs.is_integer()
    return Cell(int(packs) if whole else packs, "result_count" if whole else "result_number")


def _sums(document: OrderDocument, row: int, cells: Cells) -> int:
    """Goods, delivery, tax, total, as a quote shows them; return the last row used.

    What each is stands over three columns: the word for a total is longer than a price.
    """
    sums = [("Goods", document.goods)]
    if document.charge:
        sums.append(("Delivery", document.charge))
    if document.tax_rate:
        sums.append((f"Tax {document.tax_rate * 100:g} %", document.tax))
    sums.append((f"Total ({document.currency})", document.total))
    first, last = _AT["Unit"], _AT["Amount"]
    for offset, (words, value) in enumerate(sums):
        looks = "sum_bold" if offset == len(sums) - 1 else "sum"
        for column in range(first, last):
            cells[row + offset, column] = Cell(words if column == first else None, looks)
        cells[row + offset, last] = Cell(value, f"{looks}_money")
    row += len(sums)
    if document.unpriced:
        lines = "line" if document.unpriced == 1 else f"{document.unpriced} lines"
        words = f"without the {lines} whose price is to be agreed"
        cells[row, first] = Cell(words, "hint")
        row += 1
    return row - 1


def _parts(document: OrderDocument, row: int, cells: Cells, words: Words) -> int:
    """List what comes in parts; return the row after it."""
    parted = [line for line in document.lines if line.drops]
    if not parted:
        return row
    cells[row, 1] = Cell(words.say("Lines that come in parts"), "strong_line")
    heads = {
        "Line": "Line", "Our code": "Our code", "Description": "For", "Quantity": "Quantity",
        "Package code": "Deliver to", "Deliver on": "Deliver on",
    }  # fmt: skip
    row += 1
    for header, head in heads.items():
        cells[row, _AT[header]] = Cell(head, "hint")
    for line in parted:
        for drop in line.drops:
            row += 1
            on = drop.deliver_on.isoformat() if drop.deliver_on else None
            values = {
                "Line": str(line.line), "Our code": line.item, "Description": drop.stage,
                "Quantity": f"{drop.packs} {words.say(counted_noun(drop.packs, line.package))}",
                "Package code": one_line(drop.deliver_to), "Deliver on": on,
            }  # fmt: skip
            for header, value in values.items():
                cells[row, _AT[header]] = Cell(value, "text")
    return row + 2


def _changes(changes: Sequence[str], row: int, cells: Cells, words: Words) -> None:
    """List what is new in this revision."""
    if not changes:
        return
    cells[row, 1] = Cell(words.say("Changed since the order before"), "strong_line")
    for change in changes:
        for line in textwrap.wrap(change, _LETTERS_A_LINE, subsequent_indent="    "):
            row += 1
            cells[row, 1] = Cell(line, "text")


def _signature(document: OrderDocument, row: int, cells: Cells) -> int:
    """Leave a line to sign on under the total, not alone on a page behind long lists."""
    cells[row, 1] = Cell(f"Authorised by, for {document.buyer or 'the buyer'}", "hint")
    for at in range(_AT["Description"], _AT["Package"] + 1):
        cells[row + 1, at] = Cell(None, "section")
    return row + 3
