"""Write one cell, exactly as said: text stays text, formulas carry their value."""

from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Final

from sheetcalc.workbook.sheet import Cell

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

    from sheetcalc.excel.generating.formats import Formats

_SAFE_LINKS: Final = ("internal:", "https://", "mailto:")


class NotWrittenError(Exception):
    """The writing library refused something: a bug in the description of a sheet."""


def write_cell(target: "Worksheet", row: int, column: int, cell: Cell, formats: "Formats") -> None:
    """Write one cell; text is always written as text, and never read as a formula or a link.

    Parameters
    ----------
    row, column
        0-based.

    Raises
    ------
    NotWrittenError
        For a link that is not internal, https or mailto, and for what the library refuses.
    """
    look = formats.cell(cell.style)
    value = cell.value
    where = f"row {row + 1}, column {column + 1}"
    if cell.formula is not None:
        done(target.write_formula(row, column, f"={cell.formula}", look, stored(value)), where)
    elif cell.link is not None:
        link, text = checked_link(cell.link, where), "" if value is None else str(value)
        done(target.write_url(row, column, link, look, text), where)
    elif value is None or value == "":
        done(target.write_blank(row, column, None, look), where)
    elif isinstance(value, bool):
        done(target.write_boolean(row, column, value, look), where)
    elif isinstance(value, str):
        done(target.write_string(row, column, value, look), where)
    elif isinstance(value, date):
        done(target.write_datetime(row, column, value, look), where)
    else:
        done(target.write_number(row, column, value, look), where)


def leaves_the_book(cell: Cell) -> bool:
    """Whether a cell has a link to a place outside of the book."""
    return cell.link is not None and not cell.link.startswith("internal:")


def checked_link(link: str, where: str) -> str:
    """Return a link that a cell may have.

    Raises
    ------
    NotWrittenError
        For one that is not internal, https or mailto.
    """
    if not link.startswith(_SAFE_LINKS):
        message = f"{where}: a link may be internal, https or mailto, not {link!r}"
        raise NotWrittenError(message)
    return link


def stored(value: object) -> float | str | bool:
    """Return the stored value of a formula as a file takes it: dates as days, "" for none.

    Raises
    ------
    NotWrittenError
        For what a cell can't hold.
    """
    if value is None:
        return ""
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, date):
        return float((value - date(1899, 12, 30)).days)
    if isinstance(value, (str, bool, int, float)):
        return value
    message = f"a formula can't hold {value!r}"
    raise NotWrittenError(message)


def done(code: object, what: str) -> None:
    """Check what the writing library answers.

    Raises
    ------
    NotWrittenError
        Where it answers that it did not write.
    """
    if isinstance(code, int) and code < 0:
        message = f"{what}: the writing library refused it with {code}"
        raise NotWrittenError(message)
