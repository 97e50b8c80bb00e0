"""A supplier's price list as found, and what it would change in the catalogue tabs."""

from datetime import date
from typing import TypeAlias

from msgspec import Struct

from sheetcalc.domain.finding import Finding

ListValue: TypeAlias = str | int | float | bool | None
NewValue: TypeAlias = str | int | float | date


class Grid(Struct, frozen=True):
    """Cells of one sheet of a list, or of a text file.

    Attributes
    ----------
    name
        Of the sheet; "" for a text file.
    rows
        Values row by row; a text file's are all text.
    comma
        A text file's numbers have a decimal comma.
    """

    name: str
    rows: tuple[tuple[ListValue, ...], ...]
    comma: bool = False


class Matched(Struct, frozen=True):
    """A column of the list and what it was taken for.

    Attributes
    ----------
    found
        Header as in the list.
    meant
        Header of the catalogue tabs that values are taken for; "" where none are.
    known
        Header that it would be taken for; "" where its words say nothing.
    """

    found: str
    meant: str
    known: str = ""


class PriceChange(Struct, frozen=True):
    """One cell of a catalogue tab that would be written.

    Attributes
    ----------
    what
        ``changed`` (it held something else), ``filled`` (it was empty) or ``added`` (a new row).
    tab, sheet, cell
        Where it stands.
    code, supplier
        Of the item.
    column
        Declared header.
    old, new
        As displayed.
    value
        What is written.
    ratio
        New price by the one before; None where no price takes another's place.
    """

    what: str
    tab: str
    sheet: str
    cell: str
    code: str
    supplier: str
    column: str
    old: str
    new: str
    value: NewValue
    ratio: float | None = None


class PricePlan(Struct, frozen=True):
    """What a price list would do.

    Attributes
    ----------
    sheet, header_row
        Where the list's table was found.
    columns
        Its columns in their order.
    changes
        Cells to be written, in the order of the tabs and rows.
    same
        Items that are as the list says.
    unknown
        Codes of the list that stand in no catalogue tab, and are not added.
    kept
        Cells that hold a formula, and are left alone: sheet and cell.
    left_out
        Codes whose row has words for a price.
    findings
        What is wrong with the list; with any error nothing is written.
    """

    sheet: str
    header_row: int
    columns: tuple[Matched, ...]
    changes: tuple[PriceChange, ...]
    same: int
    unknown: tuple[str, ...]
    kept: tuple[str, ...]
    left_out: tuple[str, ...]
    findings: tuple[Finding, ...]
