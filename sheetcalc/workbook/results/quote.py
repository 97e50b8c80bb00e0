"""The quote's tabs: prices by type of room and by room, and the costs behind them."""

from datetime import timedelta
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from sheetcalc.domain.job import Job
from sheetcalc.domain.quote import LabourLine, Quote, RoomPrice, RoomType, TypePrice
from sheetcalc.domain.run import Run
from sheetcalc.domain.words import ENGLISH, Words
from sheetcalc.pricing import exact_to_cents
from sheetcalc.workbook.office import Office
from sheetcalc.workbook.results.frame import (
    Frame,
    count,
    described,
    quantity,
    sheet_of,
    table_of,
    text,
)
from sheetcalc.workbook.results.order_formulas import TO_BE_PRICED
from sheetcalc.workbook.results.quote_formulas import QuoteFormulas
from sheetcalc.workbook.results.quote_ladder import Ladder
from sheetcalc.workbook.results.quote_terms import Terms, terms_of, wrapped
from sheetcalc.workbook.results_tabs import QUOTE, QUOTE_LABOUR, QUOTE_MATERIALS, QUOTE_ROOMS
from sheetcalc.workbook.sheet import Cell, SheetModel

WHOLE_JOB: Final = "whole job"
_FIRST_ROW: Final = 5
_VALUE: Final = 3
"""Column of the values above the table."""

_MOST_NAMES: Final = 40
_LETTERS_A_LINE: Final = 150


def quote_sheets(
    run: Run, quote: Quote, formulas: QuoteFormulas, frame: Frame, office: Office
) -> tuple[SheetModel, ...]:
    """Quote, Quote by room, Quote materials and Quote labour.

    Parameters
    ----------
    run
        What was calculated.
    quote
        Its prices.
    formulas
        Their live formulas.
    frame
        Shared by the result tabs of the run.
    office
        Words and terms of its own.
    """
    return (
        _quote_sheet(run, quote, formulas, frame, office),
        _rooms_sheet(quote, formulas, frame),
        _materials_sheet(quote, formulas, frame),
        _labour_sheet(quote, formulas, frame),
    )


def heading(job: Job, words: Words = ENGLISH) -> list[tuple[str, str]]:
    """Labels and values that stand above the prices; labels are put into words on writing."""
    site = [part.strip() for part in job.site_address.splitlines()]
    return [
        ("From", job.buyer),
        ("To", job.client),
        ("Job", job.name),
        ("Site", ", ".join(part for part in site if part)),
        ("Date", job.quote_date.isoformat() if job.quote_date else ""),
        ("Valid until", valid_until(job, words)),
        ("Currency", job.currency),
    ]


def valid_until(job: Job, words: Words = ENGLISH) -> str:
    """Last day that the quote stands; counted from the day it is sent where it has no date."""
    if job.quote_date is None:
        return words.fill("{days} days from the day it is sent", days=job.quote_valid_days)
    return (job.quote_date + timedelta(days=job.quote_valid_days)).isoformat()


def type_name(kind: RoomType) -> str:
    """Name of a type: its first room and the finish."""
    return WHOLE_JOB if kind.is_whole_job else f"{kind.name} ({kind.finish})"


def room_names(kind: RoomType, words: Words = ENGLISH) -> str:
    """Names of a type's rooms; of very many only the first."""
    named = ", ".join(kind.copies[:_MOST_NAMES])
    more = len(kind.copies) - _MOST_NAMES
    if more <= 0:
        return named
    return words.fill("{rooms} and {number} more", rooms=named, number=more)


def terms_cells(
    terms: Terms,
    row: int,
    column: int,
    letters: int = _LETTERS_A_LINE,
    words: Words = ENGLISH,
) -> dict[tuple[int, int], Cell]:
    """Assumptions and exclusions, from a sheet row downwards, in lines of so many letters."""
    cells: dict[tuple[int, int], Cell] = {}
    for title, sentences in (
        ("This price assumes", terms.assumptions),
        ("This price does not include", terms.exclusions),
    ):
        cells[row, column] = Cell(words.say(title), "strong_line")
        row += 1
        for sentence in sentences:
            for line in wrapped(sentence, letters):
                cells[row, column] = Cell(line, "text")
                row += 1
        row += 1
    return cells


# --- Quote --------------------------------------------------------------------------------------


def _quote_sheet(
    run: Run, quote: Quote, formulas: QuoteFormulas, frame: Frame, office: Office
) -> SheetModel:
    head = heading(run.inputs.job, office.words)
    loose: dict[tuple[int, int], Cell] = {}
    for row, (label, value) in enumerate(head, start=_FIRST_ROW):
        loose[row, 1] = Cell(label, "hint")
        loose[row, _VALUE] = Cell(value or None, "strong_line" if row == _FIRST_ROW else "text")
    header_row = _FIRST_ROW + len(head) + 1
    below = header_row + max(1, len(quote.prices)) + 2
    ladder = Ladder(run, quote, frame, below)
    area = frame.units.area
    rows = [
        _type_row(price, quote, formulas, ladder.price_address, frame) for price in quote.prices
    ]
    table = table_of(
        QUOTE,
        rows,
        nothing="no rooms",
        row=header_row,
        units={"Area": area, "Per area": f"per {area.symbol}"},
    )
    loose |= ladder.cells()
    terms = terms_of(run, quote, office)
    terms_row = below + ladder.rows + 1
    loose |= terms_cells(terms, terms_row, 1, words=office.words)
    sheet = sheet_of("quote", QUOTE, frame, [table], loose=loose)
    # the rows above the table would fill a small screen; its header is not that of the terms,
    # which have a page of their own: else their last lines alone may stand on it
    return replace(sheet, freeze=None, repeat_row=None, row_breaks=(terms_row - 1,))


def _type_row(
    price: TypePrice, quote: Quote, formulas: QuoteFormulas, whole: str, frame: Frame
) -> dict[str, Cell]:
    kind, unit = price.type, frame.units.area
    area = unit.from_si(kind.tiled_m2)
    row = {
        "No.": count(kind.number),
        "Type of room": text(type_name(kind), wrap=True),
        "Rooms": text(room_names(kind, frame.words), wrap=True),
        "Materials": Cell(price.materials, "result_money", formulas.type_materials()),
        "Labour": Cell(price.labour, "result_money", formulas.type_labour()),
        "Cost": Cell(price.cost, "result_money", formulas.type_cost()),
        "Price": Cell(price.price, "result_money", formulas.type_price(whole, len(quote.prices))),
        "To be priced": Cell(price.unpriced, "result_count", formulas.type_unpriced()),
    }
    sold = Fraction(price.price)
    if not kind.is_whole_job:
        row["Count"] = count(kind.count)
        each = exact_to_cents(sold / kind.count)
        row["Each"] = Cell(each, "result_money", formulas.price_per(QUOTE.table, "Count"))
    if area:
        row["Area"] = quantity(area, unit)
        row["Per area"] = Cell(
            exact_to_cents(sold / Fraction(area)),
            "result_money",
            formulas.price_per(QUOTE.table, f"Area ({unit.symbol})"),
        )
    return row


# --- Quote by room ------------------------------------------------------------------------------


def _rooms_sheet(quote: Quote, formulas: QuoteFormulas, frame: Frame) -> SheetModel:
    rows = [_room_row(room, formulas) for room in quote.rooms]
    table = table_of(QUOTE_ROOMS, rows, nothing="no rooms")
    return sheet_of("quote rooms", QUOTE_ROOMS, frame, [table])


def _room_row(room: RoomPrice, formulas: QuoteFormulas) -> dict[str, Cell]:
    table = QUOTE_ROOMS.table
    shares = {"Materials": room.materials, "Labour": room.labour, "Price": room.price}
    each = exact_to_cents(Fraction(room.price) / room.count)
    return {
        "Room": text(room.room, wrap=True),
        "Phase": text(room.phase, wrap=True),
        "Type": count(room.type.number),
        "Count": count(room.count),
        **{
            header: Cell(value, "result_money", formulas.of_room(room, header, table))
            for header, value in shares.items()
        },
        "Each": Cell(each, "result_money", formulas.price_per(table, "Count")),
    }


# --- Quote materials ----------------------------------------------------------------------------


def _materials_sheet(quote: Quote, formulas: QuoteFormulas, frame: Frame) -> SheetModel:
    rows = []
    for n, material in enumerate(quote.materials):
        link = frame.link(material.tab, material.orders[0].source.row)
        unpriced = frame.words.say(TO_BE_PRICED) if material.amount is None else None
        rate = None if material.rate is None else float(material.rate)
        rows.append(
            {
                "Item": text(material.item),
                "Description": described(material.description, link),
                "Supplier": text(", ".join(material.suppliers), wrap=True),
                "Gross": quantity(material.gross, material.unit, formulas.gross(n)),
                "Unit": text(material.unit.symbol),
                "Packs": Cell(material.packs, "result_count", formulas.packs(n)),
                "Amount": Cell(unpriced or material.amount, "result_money", formulas.amount(n)),
                "Cost per unit": Cell(unpriced or rate, "result_number4", formulas.rate(n)),
            }
        )
    table = table_of(QUOTE_MATERIALS, rows, nothing="nothing is ordered")
    return sheet_of("quote materials", QUOTE_MATERIALS, frame, [table])


# --- Quote labour -------------------------------------------------------------------------------


def _labour_sheet(quote: Quote, formulas: QuoteFormulas, frame: Frame) -> SheetModel:
    kinds = {kind.number: kind for kind in quote.types}
    amount = formulas.labour_amount()
    live = {
        task: (formulas.hours_per_unit(task), formulas.hourly_rate(task), amount)
        for task in dict.fromkeys(line.task for line in quote.labour)
    }
    rows = [
        _labour_row(line, kinds[line.type_number], live[line.task], frame) for line in quote.labour
    ]
    table = table_of(
        QUOTE_LABOUR, rows, nothing="no tasks: the Labour tab has none for these rooms"
    )
    return sheet_of("quote labour", QUOTE_LABOUR, frame, [table])


def _labour_row(
    line: LabourLine, kind: RoomType, live: tuple[str | None, str | None, str], frame: Frame
) -> dict[str, Cell]:
    task, (hours, rate, amount) = line.task, live
    link = frame.link(task.source.tab, task.source.row)
    unpriced = frame.words.say(TO_BE_PRICED) if line.amount is None else None
    return {
        "Type": count(line.type_number),
        "Type of room": text(type_name(kind), wrap=True),
        "Task": Cell(task.task, "result_link" if link else "result", link=link),
        "Basis": text(task.basis),
        "Surface": text(task.surface or ""),
        "Quantity": Cell(line.quantity, "result_number"),
        "Unit": text(line.unit),
        "Hours per unit": Cell(task.hours_per_unit, "result_general", hours),
        "Hours": Cell(line.hours, "result_number", QuoteFormulas.hours()),
        "Hourly rate": Cell(unpriced or task.hourly_rate, "result_money", rate),
        "Amount": Cell(unpriced or line.amount, "result_money", amount),
    }
