"""One cell to one typed value, by the kind of its column; bounds and usual ranges.

Nothing is silently defaulted: what is not the value wanted raises ``CellProblem``.
"""

from collections.abc import Sequence
from datetime import date, datetime, time
from decimal import Decimal
from typing import Final

from sheetcalc.domain.measure import (
    CENTIMETRE,
    FOOT,
    INCH,
    METRE,
    MILLIMETRE,
    MM320_PER_MM,
    JobUnits,
    Length,
    Unit,
)
from sheetcalc.units import (
    NotReadableError,
    parse_count,
    parse_length,
    parse_money,
    parse_number,
    parse_percent,
    parse_quantity,
    show_quantity,
)
from sheetcalc.workbook.columns import Column, Kind
from sheetcalc.workbook.convert.nearest import nearest
from sheetcalc.workbook.convert.problem import CellProblem
from sheetcalc.workbook.headers import job_unit
from sheetcalc.workbook.raw import RawCell, RawValue
from sheetcalc.workbook.shown import displayed, plain_number

_UNIT_WORDS: Final = {
    "m": "metres", "mm": "millimetres", "cm": "centimetres", "in": "inches", "ft": "feet",
}  # fmt: skip
_MONTHS: Final = 12
_YEARS: Final = 2000, 2099
_YES: Final = frozenset({"yes", "y", "true", "1"})
_NO: Final = frozenset({"no", "n", "false", "0"})


def check_readable(cell: RawCell) -> None:
    """Refuse error values and formulas that nobody has calculated."""
    if cell.error:
        raise CellProblem(code="CELL-IS-AN-ERROR", error=cell.error)
    if not cell.has_value:
        raise CellProblem(code="FORMULA-WITHOUT-VALUE", formula=cell.formula)


def text(cell: RawCell) -> str:
    """Return the displayed text of a cell."""
    return displayed(cell)


def code(cell: RawCell) -> str:
    """Return a name or a code; a date is none (room 3/4 that a spreadsheet made a date of)."""
    if isinstance(cell.value, date | time):
        raise CellProblem(code="NAME-IS-A-DATE", hint=_as_typed(cell.value))
    return displayed(cell)


def _as_typed(value: date | time) -> str:
    """Say what a person may have typed before a spreadsheet made a date of it."""
    if isinstance(value, date):
        other = f" or {value.day}/{value.month}" if value.day <= _MONTHS else ""
        return f"{value.month}/{value.day}{other}"
    return value.isoformat("minutes")


def _number_in(cell: RawCell) -> str | int | float:
    """Value of a cell that should hold a number; dates and percents are not numbers here."""
    value = cell.value
    if isinstance(value, date | time):
        raise CellProblem(code="NUMBER-IS-A-DATE", hint=_as_typed(value))
    if isinstance(value, bool):
        raise CellProblem(code="NUMBER-UNREADABLE", hint="type a number, not a yes or no")
    if value is None or isinstance(value, str):
        return value or ""
    if "%" in cell.number_format:
        raise CellProblem(code="NUMBER-IS-PERCENT", stored=plain_number(value))
    return value


def length(cell: RawCell, column: Column, units: JobUnits, *, feet_job: bool | None = None) -> int:
    """Length in 1/320 mm, within the column's bounds; ``feet_job`` where units do not tell."""
    plain = job_unit(column.kind, units) or MILLIMETRE
    value = _number_in(cell)
    try:
        found = parse_length(
            value,
            plain,
            feet_job=units.is_feet_job if feet_job is None else feet_job,
            signed=column.low is not None and column.low < 0,
        )
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal
    if not _within(found / MM320_PER_MM, column.low, column.high):
        raise CellProblem(code="LENGTH-OUT-OF-RANGE", **length_range(cell, column, plain))
    return found


def length_range(cell: RawCell, column: Column, plain: Unit) -> dict[str, str | Length]:
    """Facts of a length outside a range: the bounds, and the unit that may have been meant."""
    small = column.kind is Kind.SMALL_LENGTH
    facts: dict[str, str | Length] = {
        "low": _boxed(column.low, small=small),
        "high": _boxed(column.high, small=small),
        "hint": "type the length again, with its unit",
    }
    value = cell.value
    if isinstance(value, int | float) and not isinstance(value, bool):
        likely = _likely_units(float(value), column, plain)
        meant = [
            f"if this is {_UNIT_WORDS[unit.symbol]}, type {plain_number(value)} {unit.symbol}"
            for unit in likely
        ] or ["type the unit with the number if it is another"]
        counted = f"the Job counts plain numbers in {_UNIT_WORDS[plain.symbol]}"
        facts["hint"] = "; ".join([counted, *meant])
    return facts


def _likely_units(value: float, column: Column, plain: Unit) -> list[Unit]:
    """Find the units in which the number would be a usual length, or at least an allowed one.

    240 in a job in metres is as likely centimetres as inches, so both are named.
    """
    others = [u for u in (MILLIMETRE, CENTIMETRE, METRE, INCH, FOOT) if u != plain]
    for low, high in (
        (column.usual_low or column.low, column.usual_high or column.high),
        (column.low, column.high),
    ):
        found = [u for u in others if _within(float(value * u.si_factor) * 1000, low, high)]
        if found:  # bounds alone, without a usual range, leave nearly every unit possible
            return found if (low, high) != (column.low, column.high) else found[:1]
    return []


def _boxed(bound_mm: float | None, *, small: bool) -> str | Length:
    return "any" if bound_mm is None else Length(round(bound_mm * MM320_PER_MM), small=small)


def _within(value: float, low: float | None, high: float | None) -> bool:
    return (low is None or value >= low) and (high is None or value <= high)


def quantity(cell: RawCell, column: Column, units: JobUnits) -> float:
    """Area, volume or mass in SI units; text with a unit only where no formula reads the cell."""
    plain = job_unit(column.kind, units)
    if plain is None:
        message = f"{column.header} is no quantity"
        raise ValueError(message)
    value = _number_in(cell)
    try:
        found = parse_quantity(value, plain)
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal
    if column.live and isinstance(value, str):
        typed = plain_number(float(f"{plain.from_si(found):.6g}"))
        raise CellProblem(code="NUMBER-AS-TEXT", hint=f"type {typed}, counted in {plain.symbol}")
    if not _within(found, column.low, column.high):
        raise CellProblem(code="NUMBER-OUT-OF-RANGE", **quantity_range(column, plain))
    return found


def quantity_range(column: Column, plain: Unit) -> dict[str, str]:
    """Facts of a quantity outside its range."""
    return {
        "low": "any" if column.low is None else show_quantity(column.low, plain),
        "high": "any" if column.high is None else show_quantity(column.high, plain),
    }


def fill(cell: RawCell, column: Column, units: JobUnits) -> float:
    """Volume per area [m3/m2] from a plain number in the Job's units."""
    per = units.volume.si_factor / units.area.si_factor
    found = _parsed_number(cell) * float(per)
    if not _within(found, column.low, column.high):
        raise CellProblem(
            code="NUMBER-OUT-OF-RANGE",
            low=plain_number(round((column.low or 0) / float(per), 4)),
            high=plain_number(round((column.high or 0) / float(per), 4)),
        )
    return found


def _parsed_number(cell: RawCell) -> float:
    try:
        return parse_number(_number_in(cell))
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal


def number(cell: RawCell, column: Column) -> float:
    """Plain number within bounds."""
    found = _parsed_number(cell)
    _check_bounds(found, column)
    return found


def count(cell: RawCell, column: Column) -> int:
    """Whole number within bounds."""
    try:
        found = parse_count(_number_in(cell))
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal
    _check_bounds(found, column)
    return found


def money(cell: RawCell, column: Column) -> Decimal:
    """Amount of money within bounds."""
    try:
        found = parse_money(_number_in(cell))
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal
    _check_bounds(float(found), column)
    return found


def _check_bounds(found: float, column: Column) -> None:
    if not _within(found, column.low, column.high):
        raise CellProblem(code="NUMBER-OUT-OF-RANGE", **number_range(column))


def number_range(column: Column) -> dict[str, str]:
    """Facts of a number outside its range."""
    unit = f" {column.unit}" if column.unit else ""
    return {
        "low": "any" if column.low is None else plain_number(column.low) + unit,
        "high": "any" if column.high is None else plain_number(column.high) + unit,
    }


def percent(cell: RawCell, column: Column) -> float:
    """Share from a percent cell: 10 % is stored as 0.1; a stored value above 1 is refused."""
    value = cell.value
    if isinstance(value, date | time):
        raise CellProblem(code="NUMBER-IS-A-DATE", hint=_as_typed(value))
    try:
        found = parse_percent(value if value is not None else "")
    except NotReadableError as refusal:
        raise CellProblem(code=refusal.code, hint=refusal.hint) from refusal
    if found > 1:
        raise CellProblem(code="PERCENT-ABOVE-ONE", likely=f"{plain_number(found)} %")
    if not _within(found, column.low, column.high):
        raise CellProblem(code="NUMBER-OUT-OF-RANGE", **percent_range(column))
    return found


def percent_range(column: Column) -> dict[str, str]:
    """Facts of a percent outside its range."""
    return {
        "low": f"{plain_number((column.low or 0) * 100)} %",
        "high": f"{plain_number((1 if column.high is None else column.high) * 100)} %",
    }


def choice(cell: RawCell, choices: Sequence[str]) -> str:
    """One of the words allowed, in any case."""
    typed = displayed(cell)
    wanted = " ".join(typed.split()).casefold()
    for word in choices:
        if word.casefold() == wanted:
            return word
    raise CellProblem(
        code="CHOICE-UNKNOWN", choices=", ".join(choices), nearest=nearest(typed, choices)
    )


def choices_in_order(cell: RawCell, choices: Sequence[str]) -> tuple[str, ...]:
    """Several of the words allowed, separated by commas, each once."""
    words = [w for w in displayed(cell).replace(";", ",").split(",") if w.strip()]
    found = tuple(choice(RawCell(word, cell.address), choices) for word in words)
    if len(set(found)) != len(found):
        raise CellProblem(code="CHOICE-TWICE", choices=", ".join(choices))
    return found


def yes_no(cell: RawCell) -> bool:
    """Yes or no, as a word or a ticked cell."""
    if isinstance(cell.value, bool):
        return cell.value
    typed = displayed(cell).casefold()
    if typed in _YES:
        return True
    if typed in _NO:
        return False
    raise CellProblem(
        code="CHOICE-UNKNOWN", choices="yes, no", nearest=nearest(typed, ("yes", "no"))
    )


def day(cell: RawCell) -> date:
    """Return a date of this century; text is read as year-month-day only."""
    found = _date(cell.value)
    if not _YEARS[0] <= found.year <= _YEARS[1]:
        raise CellProblem(code="DATE-OUT-OF-RANGE")
    return found


def _date(value: RawValue) -> date:
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    if isinstance(value, str):
        try:
            return date.fromisoformat(value.strip())
        except ValueError:
            pass
    raise CellProblem(code="DATE-UNREADABLE")


def numbers(cell: RawCell, column: Column) -> tuple[float, ...]:
    """Several numbers, separated by commas or semicolons; smallest first, each once."""
    if not isinstance(cell.value, str):
        return (number(cell, column),)
    found: list[float] = []
    for piece in cell.value.replace(";", ",").split(","):
        try:
            found.append(float(piece))
        except ValueError as error:
            raise CellProblem(code="NUMBERS-UNREADABLE") from error
        if not _within(found[-1], column.low, column.high):
            raise CellProblem(code="NUMBER-OUT-OF-RANGE", **number_range(column))
    return tuple(sorted(set(found)))
