"""What an office puts on every printed tab: its logo, its terms, its words."""

import textwrap
from collections.abc import Sequence
from typing import Final

from msgspec.structs import replace

from sheetcalc.workbook.office import Logo, Office
from sheetcalc.workbook.sheet import Cell, Picture, SheetModel
from sheetcalc.workbook.translate import in_words

_DOTS_A_LETTER: Final = 7
_DOTS_A_COLUMN: Final = 5
_LETTERS_A_LINE: Final = 150


def in_office_style(sheets: Sequence[SheetModel], office: Office) -> tuple[SheetModel, ...]:
    """Sheets with the office's logo on orders and the quote, its terms on orders, in its words.

    Parameters
    ----------
    sheets
        Result tabs of a run, or sheets of a file to send.
    office
        What the office sets.
    """
    return in_words([_sheet(sheet, office) for sheet in sheets], office.words)


def _sheet(sheet: SheetModel, office: Office) -> SheetModel:
    order = sheet.key.startswith("order:")
    if order and office.order_terms:
        sheet = _with_terms(sheet, office.order_terms)
    if office.logo and (order or sheet.key in {"quote", "client quote"}):
        sheet = with_logo(sheet, office.logo)
    return sheet


def with_logo(sheet: SheetModel, logo: Logo) -> SheetModel:
    """Put the logo into the head of a sheet, flush with its right edge."""
    columns = sheet.tables[0].columns
    left = sheet.tables[0].column
    at, room = len(columns), 0
    while at > 1 and room < logo.width_dots:
        at -= 1
        room += round(columns[at].width * _DOTS_A_LETTER) + _DOTS_A_COLUMN
    picture = Picture(
        row=1,
        column=left + at,
        png=logo.png,
        description="Logo",
        scale=logo.scale,
        x_offset=max(0, room - logo.width_dots),
        y_offset=2,
    )
    return replace(sheet, pictures=(*sheet.pictures, picture))


def _with_terms(sheet: SheetModel, sentences: Sequence[str]) -> SheetModel:
    """Put sentences below everything else."""
    loose = dict(sheet.loose or {})
    last = max([row for row, _ in loose] + [t.row + max(1, len(t.rows)) for t in sheet.tables])
    row = last + 2
    for sentence in sentences:
        for line in textwrap.wrap(sentence, _LETTERS_A_LINE) or [""]:
            loose[row, 1] = Cell(line, "text")
            row += 1
    return replace(sheet, loose=loose)
