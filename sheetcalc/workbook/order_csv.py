"""An order as CSV: one row a line, the order's own fields in front of each.

Text that a spreadsheet program would take for a formula (a leading = + - @, a tab or a line end)
gets an apostrophe in front.  The file is the record of what was written: a later run reads it
back and tells what has changed.
"""

import csv
import io
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Final

from sheetcalc.domain.order_document import DocumentLine, OrderDocument
from sheetcalc.domain.order_record import OrderRecord
from sheetcalc.workbook.shown import plain_number

_IDENTITY: Final = ("Order number", "Revision", "Issue date", "Reference")
HEAD: Final = (
    "Job", "Buyer", "Account", "Supplier", "Supplier address", "Supplier e-mail", "Deliver to",
    "Deliver on", "Terms", "Currency", "Delivery charge", "Tax %", "Note",
)  # fmt: skip
_SUMS: Final = ("Goods", "Tax", "Total")
LINE: Final = (
    "Line", "Supplier code", "Our code", "Description", "Packs", "Package", "Package code",
    "Pack size", "Unit", "Unit code", "Pack price", "Amount", "Deliver this on", "In parts",
)  # fmt: skip
_BEGUN: Final = ("Ordered before", "To order now")
"""What stands beside a line but is no part of the order: typing it makes no revision."""
_CHANGE: Final = "Change"
REMOVED: Final = "removed"
_FORMULA_SIGNS: Final = ("=", "+", "-", "@", "\t", "\r", "\n")
TO_BE_AGREED: Final = "to be agreed"


def to_csv(
    document: OrderDocument,
    line_changes: Mapping[int, str] | None = None,
    removed: Iterable[Mapping[str, str]] = (),
) -> str:
    """Write an order as CSV text.

    Parameters
    ----------
    document
        The order.
    line_changes
        Words for lines that are not as they were, by their place.
    removed
        Lines of the revision before that this one has no more; they are listed with 0 packs.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([*_IDENTITY, *HEAD, *_SUMS, *LINE, *_BEGUN, _CHANGE])
    front = [*_identity(document), *_head(document).values(), *_sums(document)]
    for at, line in enumerate(document.lines):
        change = (line_changes or {}).get(at, "")
        begun = plain_number(line.before), plain_number(line.now)
        row = (*front, *_line(line).values(), *begun, change)
        writer.writerow([neutral(text) for text in row])
    for gone in removed:
        cells = [{"Packs": "0", "Amount": "0.00"}.get(h, gone.get(h, "")) for h in LINE]
        was = f"{REMOVED}, was {gone.get('Packs', '')}"
        writer.writerow([*(neutral(text) for text in front), *cells, "", "0", was])
    return out.getvalue()


def read_csv(text: str) -> OrderRecord | None:
    """Read an order back; None for what is no order of this program."""
    try:
        rows = list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline="")))
    except csv.Error:
        return None
    if not rows or any(header not in rows[0] for header in (*_IDENTITY, *HEAD, *LINE)):
        return None
    first = rows[0]
    revision = str(first["Revision"] or "")
    if not revision.isdigit():
        return None
    return OrderRecord(
        number=first["Order number"] or "",
        revision=int(revision),
        issued=first["Issue date"] or "",
        reference=first["Reference"] or "",
        head={header: first[header] or "" for header in HEAD},
        lines=tuple(
            {header: row[header] or "" for header in LINE}
            for row in rows
            if not str(row.get(_CHANGE) or "").startswith(REMOVED)
        ),
    )


def record_of(document: OrderDocument) -> OrderRecord:
    """Record of an order as reading its CSV back would give it."""
    number, revision, issued, reference = (neutral(text) for text in _identity(document))
    return OrderRecord(
        number=number,
        revision=int(revision),
        issued=issued,
        reference=reference,
        head={header: neutral(text) for header, text in _head(document).items()},
        lines=tuple(
            {header: neutral(text) for header, text in _line(line).items()}
            for line in document.lines
        ),
    )


def neutral(text: str) -> str:
    """Text that no program takes for a formula.

    Examples
    --------
    >>> neutral("=1+1"), neutral("Kiln & Quarry")
    ("'=1+1", 'Kiln & Quarry')
    """
    return f"'{text}" if text.startswith(_FORMULA_SIGNS) else text


def _identity(document: OrderDocument) -> tuple[str, str, str, str]:
    return (
        document.number,
        str(document.revision),
        document.issued.isoformat(),
        document.reference,
    )


def _head(document: OrderDocument) -> dict[str, str]:
    on = document.deliver_on.isoformat() if document.deliver_on else ""
    values = (
        document.job, document.buyer, document.account, document.supplier,
        one_line(document.supplier_address), document.supplier_email,
        one_line(document.deliver_to), on, document.terms, document.currency,
        _money(document.charge) if document.charge else "0.00",
        plain_number(round(document.tax_rate * 100, 6)), document.note,
    )  # fmt: skip
    return dict(zip(HEAD, values, strict=True))


def _sums(document: OrderDocument) -> tuple[str, str, str]:
    return _money(document.goods), _money(document.tax), _money(document.total)


def _line(line: DocumentLine) -> dict[str, str]:
    values = (
        str(line.line), line.supplier_code, line.item, line.description, str(line.packs),
        line.package, line.package_code, plain_number(line.pack_size), line.unit, line.unit_code,
        _price(line.pack_price),
        TO_BE_AGREED if line.amount is None else _money(line.amount),
        line.deliver_on.isoformat() if line.deliver_on else "", parts_words(line),
    )  # fmt: skip
    return dict(zip(LINE, values, strict=True))


def parts_words(line: DocumentLine) -> str:
    """How a line comes in parts: ``Floor 1: 23 on 2027-03-04; Floor 2: 22 on 2027-03-25``."""
    return "; ".join(
        f"{drop.stage}: {drop.packs}" + (f" on {drop.deliver_on}" if drop.deliver_on else "")
        for drop in line.drops
    )


def one_line(text: str) -> str:
    """Text of several lines in one, with commas."""
    return ", ".join(part.strip() for part in text.splitlines() if part.strip())


def _price(price: Decimal | None) -> str:
    """Price of a pack: cents, or four digits where a price of a piece or an area needs them."""
    if price is None:
        return TO_BE_AGREED
    return f"{price:.2f}" if price == round(price, 2) else f"{price:.4f}"


def _money(amount: Decimal | None) -> str:
    return "" if amount is None else f"{amount:.2f}"
