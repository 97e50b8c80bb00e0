"""The quote as a client gets it: prices and terms, nothing of costs and margins; values only."""

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.quote import Quote, TypePrice
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import Words
from sheetcalc.pricing import exact_to_cents
from sheetcalc.workbook.columns import Column, Kind
from sheetcalc.workbook.office import Office
from sheetcalc.workbook.results.frame import text
from sheetcalc.workbook.results.house import in_office_style
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED
from sheetcalc.workbook.results.quote import (
    WHOLE_JOB,
    heading,
    room_names,
    terms_cells,
    type_name,
)
from sheetcalc.workbook.results.quote_terms import Terms, terms_of
from sheetcalc.workbook.sheet import BookModel, Cell, SheetColumn, SheetModel, TableModel

_FIRST_ROW: Final = 4
_COLUMNS: Final = (
    Column("Type of room", Kind.RESULT, "", width=24),
    Column("Rooms", Kind.RESULT, "", width=34),
    Column("Count", Kind.RESULT, "", width=9),
    Column("Each", Kind.RESULT, "", width=14),
    Column("Price", Kind.RESULT, "", width=15),
    Column("Per area", Kind.RESULT, "", width=13),
)
_AT: Final = {column.header: at for at, column in enumerate(_COLUMNS, start=1)}
_LETTERS_A_LINE: Final = 132


def client_quote_book(run: Run, quote: Quote, office: Office) -> BookModel:
    """Make the workbook that goes to the client.

    Parameters
    ----------
    run
        What was calculated.
    quote
        Its prices.
    office
        Logo, words and terms.
    """
    job = run.inputs.job
    (sheet,) = in_office_style((_sheet(run, quote, office),), office)
    return BookModel(
        (replace(sheet, purpose=job.name),),  # typed, so never in other words
        {},
        paper=job.units.paper,
        title=f"{office.words.say('Quote')} {job.name}".strip(),
    )


def _sheet(run: Run, quote: Quote, office: Office) -> SheetModel:
    job = run.inputs.job
    loose: dict[tuple[int, int], Cell] = {}
    head = [pair for pair in heading(job, office.words) if pair[1]]
    for row, (label, value) in enumerate(head, start=_FIRST_ROW):
        loose[row, 1] = Cell(label, "hint")
        loose[row, 2] = Cell(value, "strong_line" if row == _FIRST_ROW else "text")
    row = _FIRST_ROW + len(head) - 1
    for incomplete in _incomplete(run, quote):
        row += 1
        loose[row, 1] = Cell(office.words.say(incomplete), "strong_line")
    header_row = row + 2
    table = TableModel(
        "ClientQuote",
        header_row,
        1,
        tuple(
            SheetColumn(_header(column, run), width=column.width, style="result")
            for column in _COLUMNS
        ),
        tuple(_row(price, run, office.words) for price in quote.prices),
    )
    below = header_row + len(quote.prices) + 2
    loose |= _sums(run, quote, below, office.words)
    own = terms_of(run, quote, office)
    unpriced = (f"{office.words.say('Not yet priced')}: {', '.join(quote.unpriced)}.",)
    exclusions = (*(unpriced if quote.unpriced else ()), *own.exclusions)
    terms = terms_cells(
        Terms(own.assumptions, exclusions), below + 5, 1, _LETTERS_A_LINE, office.words
    )
    loose |= terms
    last = max(place[0] for place in terms)
    for offset, label in enumerate(("Accepted", "Name", "Date, signature")):
        loose[last + 2 + 2 * offset, 1] = Cell(label, "hint")
        if offset:
            for column in (2, 3):
                loose[last + 2 + 2 * offset, column] = Cell(None, "sum")
    return SheetModel(
        key="client quote",
        name=office.words.say("Quote"),
        title="Quote",
        purpose="",
        tables=(table,),
        loose=loose,
        freeze=None,
        landscape=False,
        repeat_row=None,
        tab_style="order",
    )


def _header(column: Column, run: Run) -> str:
    if column.header == "Per area":
        return f"Per {run.inputs.job.units.area.symbol} tiled"
    return column.header


def _row(price: TypePrice, run: Run, words: Words) -> tuple[Cell, ...]:
    """One type; what has no complete price says so, and shows no number."""
    kind = price.type
    area = run.inputs.job.units.area.from_si(kind.tiled_m2)
    sold = Fraction(price.price)

    def money(value: Decimal | None) -> Cell:
        return Cell(words.say(TO_BE_PRICED) if price.unpriced else value, "result_money")

    whole = kind.is_whole_job
    return (
        text(words.say(WHOLE_JOB) if whole else type_name(kind), wrap=True),
        text(room_names(kind, words), wrap=True),
        Cell(None if whole else kind.count, "result_count"),
        Cell(None, "result") if whole else money(exact_to_cents(sold / kind.count)),
        money(price.price),
        money(exact_to_cents(sold / Fraction(area))) if area else Cell(None, "result"),
    )


def _sums(run: Run, quote: Quote, row: int, words: Words) -> dict[tuple[int, int], Cell]:
    """Price, tax and total; what is not complete shows no amount."""
    job, summary = run.inputs.job, quote.summary
    steps = (
        (f"Price without tax ({job.currency})", summary.price, False),
        (f"Tax {job.tax * 100:g} %", summary.tax, False),
        (f"Total ({job.currency})", summary.total, True),
    )
    cells: dict[tuple[int, int], Cell] = {}
    for at, (label, amount, bold) in enumerate(steps, start=row):
        looks = "sum_bold" if bold else "sum"
        cells[at, _AT["Count"]] = Cell(label, looks)
        cells[at, _AT["Each"]] = Cell(None, looks)
        cells[at, _AT["Price"]] = Cell(
            amount if quote.complete else words.say(TO_BE_PRICED), f"{looks}_money"
        )
    return cells


def _incomplete(run: Run, quote: Quote) -> Iterator[str]:
    """Say what keeps the quote from being one for the whole job."""
    if run.left_out:
        yield "INCOMPLETE: rooms are left out, see below"
    if not quote.complete:
        yield "INCOMPLETE: not everything is priced yet"
