"""One cell of a supplier's list to what stands in ours: strict, and in the Job's units."""

import re
from typing import Final

from sheetcalc.domain.measure import UNITS, JobUnits
from sheetcalc.domain.price_list import ListValue, NewValue
from sheetcalc.workbook.columns import LENGTH_KINDS, Column, Kind
from sheetcalc.workbook.convert import cells
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.headers import job_unit
from sheetcalc.workbook.prices.headers import CURRENCY, Heading
from sheetcalc.workbook.raw import RawCell

_ERROR_VALUE: Final = re.compile(r"#(?:NULL!|DIV/0!|VALUE!|REF!|NAME\?|NUM!|N/A)")
"""What a spreadsheet program shows in place of a value (ECMA-376 part 1, 18.17.3)."""
_NUMBER_KINDS: Final = frozenset(
    {Kind.MONEY, Kind.NUMBER, Kind.COUNT, Kind.AREA, Kind.VOLUME, Kind.MASS, Kind.FILL}
)


def value_of(
    found: ListValue, column: Column, heading: Heading, units: JobUnits, *, comma: bool
) -> NewValue | None:
    """Value for a column from a cell of the list; None where the cell is empty.

    Parameters
    ----------
    found
        As in the list: of a workbook a number or text, of a text file always text.
    column
        Of one of the catalogue tabs.
    heading
        Header of the list; a unit in its brackets wins over the Job's.
    units
        Of the Job.
    comma
        Numbers in text have a decimal comma.

    Raises
    ------
    CellProblem
        Where it is not what the column wants.
    """
    if found is None or (isinstance(found, str) and not found.strip()):
        return None
    if isinstance(found, str) and found.startswith("="):
        hint = "open the list in a spreadsheet program and save it: the formula has no value yet"
        raise CellProblem(code="NUMBER-UNREADABLE", hint=hint)
    if isinstance(found, str) and _ERROR_VALUE.fullmatch(found.strip()):
        raise CellProblem(code="NUMBER-UNREADABLE", hint="it is an error value")
    value = _typed(found, column, heading, units, comma=comma)
    _check(value, column, units)
    return value


def _typed(
    found: ListValue, column: Column, heading: Heading, units: JobUnits, *, comma: bool
) -> NewValue:
    kind = column.kind
    if kind in LENGTH_KINDS:
        return _length(found, column, heading, units, comma=comma)
    if kind in _NUMBER_KINDS:
        number = _number(found, comma=comma, money=kind is Kind.MONEY)
        own = job_unit(kind, units)
        if own is not None and heading.unit and heading.unit != own.symbol:
            other = UNITS[heading.unit]
            if other.dimension is not own.dimension:
                raise CellProblem(code="NUMBER-UNREADABLE", hint=f"the unit is {own.symbol}")
            number = round(float(number * other.si_factor / own.si_factor), 6)
        return int(number) if float(number).is_integer() and kind is Kind.COUNT else number
    if kind is Kind.PERCENT:
        is_text = isinstance(found, str)
        share = _number(str(found).replace("%", "") if is_text else found, comma=comma)
        return share / 100 if is_text else share
    if kind is Kind.YES_NO:
        return "yes" if cells.yes_no(RawCell(found, "")) else "no"
    if kind is Kind.CHOICE:
        return cells.choice(RawCell(found, ""), column.choices)
    return _text(found)


def _length(
    found: ListValue, column: Column, heading: Heading, units: JobUnits, *, comma: bool
) -> NewValue:
    """Length as a number of the Job's unit, or as text with the list's own unit."""
    own = job_unit(column.kind, units)
    if isinstance(found, str) and not re.fullmatch(r"-?[\d.,\s]+", found):
        return " ".join(found.split())  # it brings its unit, or is refused
    number = _number(found, comma=comma)
    if heading.unit and own is not None and heading.unit != own.symbol:
        return f"{_text(number)} {heading.unit}"
    return number


_MARKS = str.maketrans("\u00a0\u2009\u202f\u2019", "   '")
"""Spaces and apostrophes that part thousands, in their plain forms."""


def _number(found: ListValue, *, comma: bool, money: bool = False) -> float:
    if isinstance(found, bool) or found is None:
        raise CellProblem(code="NUMBER-UNREADABLE", hint="a number is wanted")
    if isinstance(found, int | float):
        return found
    text = found.strip()
    if money:
        text = CURRENCY.sub("", text).strip()
    text = text.translate(_MARKS)
    point, thousands = (",", ".") if comma else (".", ",")
    grouped = rf"-?\d{{1,3}}(?:[{re.escape(thousands)} ']\d{{3}})+(?:{re.escape(point)}\d+)?"
    plain = rf"-?\d+(?:{re.escape(point)}\d+)?"
    lonely = not comma and re.fullmatch(r"-?\d{1,3},\d{3}", text)
    if lonely or not (re.fullmatch(plain, text) or re.fullmatch(grouped, text)):
        hint = "a number is wanted"
        if lonely:
            hint = "a comma before three digits may part thousands or decimals"
        elif re.fullmatch(rf"-?\d+{re.escape(thousands)}\d+", text):
            hint = f"this list is read with a decimal {'comma' if comma else 'point'}"
        raise CellProblem(code="NUMBER-UNREADABLE", hint=hint)
    number = float(re.sub(rf"[{re.escape(thousands)} ']", "", text).replace(point, "."))
    return int(number) if number.is_integer() and point not in text else number


def _text(found: ListValue) -> str:
    if isinstance(found, float) and found.is_integer():
        return str(int(found))
    return " ".join(str(found).split())


def _check(value: NewValue, column: Column, units: JobUnits) -> None:
    """Hold a value to the bounds and choices of its column, as the reader will."""
    cell = RawCell(value, "")
    if column.kind in LENGTH_KINDS:
        cells.length(cell, column, units)
    elif column.kind in {Kind.AREA, Kind.VOLUME, Kind.MASS}:
        cells.quantity(cell, column, units)
    elif column.kind is Kind.MONEY:
        cells.money(cell, column)
    elif column.kind is Kind.COUNT:
        cells.count(cell, column)
    elif column.kind is Kind.NUMBER:
        cells.number(cell, column)
    elif column.kind is Kind.FILL:
        cells.fill(cell, column, units)
    elif column.kind is Kind.PERCENT:
        cells.percent(cell, column)
