"""Validations of input cells: lists, ranges, and messages, from a column's declaration."""

from datetime import date

from sheetcalc.workbook.columns import LENGTH_KINDS, Column, Kind
from sheetcalc.workbook.lists import choices_of, factor_name, list_name, reference_name
from sheetcalc.workbook.settings import Setting
from sheetcalc.workbook.sheet import Validation

_FIRST_DAY, _LAST_DAY = date(1990, 1, 1), date(2199, 12, 31)
_FACTORS = {
    Kind.ROOM_LENGTH: "room_mm",
    Kind.SMALL_LENGTH: "small_mm",
    Kind.LONG_LENGTH: "long_mm",
    Kind.AREA: "area_m2",
    Kind.VOLUME: "volume_m3",
    Kind.MASS: "mass_kg",
}
_LONGEST_MESSAGE = 255
_EXACT_WORDS = frozenset({Kind.CHOICE, Kind.YES_NO})
_PLAIN_NUMBERS = frozenset({Kind.NUMBER, Kind.MONEY, Kind.PERCENT})


def column_validation(column: Column, cell: str, system: str) -> Validation | None:
    """Validation of a column's cells.

    Parameters
    ----------
    column
        The declared column.
    cell
        Address of the first cell validated, relative (``E5``), for rules that are formulas.
    system
        ``metric`` or ``us``: which examples and suggestions are shown.
    """
    message = _message(column, system)
    title = f"{column.header} (required)" if column.required else column.header
    choices = choices_of(column, system)
    if choices:
        exact = column.kind in _EXACT_WORDS
        return Validation(
            "list", f"={list_name(choices, system)}", title=title, message=message,
            error="Choose one of the words of the list." if exact else "", enforce=exact,
        )  # fmt: skip
    if column.list_of:
        key, header = column.list_of.split(".", 1)
        return Validation(
            "list", f"={reference_name(column.list_of)}", title=title, message=message,
            error=f"This {header} is not on the tab {key} yet. Keep it all the same?",
            alert="warning",
        )  # fmt: skip
    return _ranged(column.kind, column.low, column.high, cell, title, message)


def setting_validation(setting: Setting, cell: str, system: str) -> Validation | None:
    """Validation of one setting's Value cell; parameters as for a column."""
    title, message = setting.label, setting.guidance[:_LONGEST_MESSAGE]
    if setting.choices and setting.kind in _EXACT_WORDS:
        return Validation(
            "list", f"={list_name(setting.choices, system)}", title=title, message=message,
            error="Choose one of the words of the list.",
        )  # fmt: skip
    low, high = setting.low, setting.high
    if len(setting.units) > 1:  # the unit beside it may be either: bounds that hold for both
        low, high = 0, None
    return _ranged(setting.kind, low, high, cell, title, message)


def _message(column: Column, system: str) -> str:
    """Help with an example, as far as it fits."""
    example = column.example_us if system == "us" and column.example_us else column.example
    with_example = f"{column.help} Example: {example}" if example else column.help
    return with_example if len(with_example) <= _LONGEST_MESSAGE else column.help


def _ranged(  # noqa: PLR0913 - the parts of a validation
    kind: Kind, low: float | None, high: float | None, cell: str, title: str, message: str
) -> Validation | None:
    """Range of a number, a length, a date; only the message for everything else."""
    if kind in LENGTH_KINDS:
        return Validation(
            "custom", f"IF(ISNUMBER({cell}),{_bounds(cell, kind, low, high)},ISTEXT({cell}))",
            title=title, message=message,
            error=_expected(low, high, "mm") + " A length with its unit, such as 5' 3 1/2\" or "
            "1600 mm, may be typed as text.",
        )  # fmt: skip
    if kind in _FACTORS:
        bounds = _bounds(cell, kind, low, high)
        return Validation(
            "custom", f"IF(ISNUMBER({cell}),{bounds},FALSE)", title=title, message=message,
            error="A number that is not absurdly small or large is expected here.",
        )  # fmt: skip
    if kind is Kind.FILL:
        return Validation(
            "decimal", low=0, high=100, title=title, message=message,
            error="A number from 0 to 100 is expected here.",
        )  # fmt: skip
    if kind is Kind.COUNT:
        return Validation(
            "integer", low=low, high=high, title=title, message=message,
            error=_expected(low, high, "", "whole number"),
        )  # fmt: skip
    if kind in _PLAIN_NUMBERS:
        return Validation(
            "decimal", low=low, high=high, title=title, message=message,
            error=_expected(low, high, "%" if kind is Kind.PERCENT else ""),
        )  # fmt: skip
    if kind is Kind.DATE:
        return Validation(
            "date", low=_FIRST_DAY, high=_LAST_DAY, title=title, message=message,
            error="A date is expected here.",
        )  # fmt: skip
    return Validation("any", title=title, message=message, enforce=False)


def _bounds(cell: str, kind: Kind, low: float | None, high: float | None) -> str:
    """Rule that a plain number lies within bounds, in the unit that the Job chose."""
    value = f"ROUND({cell}*{factor_name(_FACTORS[kind])},9)"
    parts = [f"{value}>={low:.12g}"] if low is not None else []
    if high is not None:
        parts.append(f"{value}<={high:.12g}")
    return f"AND({','.join(parts)})" if parts else "TRUE"


def _expected(low: float | None, high: float | None, unit: str, what: str = "number") -> str:
    """Words for what is expected, for the box that stops a wrong value."""
    factor = 100 if unit == "%" else 1
    space = "" if unit in {"", "%"} else " "
    ends = [f"{end * factor:,.10g}{space}{unit}" for end in (low, high) if end is not None]
    if low is not None and high is not None:
        return f"A {what} from {ends[0]} to {ends[1]} is expected here."
    if low is not None:
        return f"A {what} not below {ends[0]} is expected here."
    if high is not None:
        return f"A {what} not above {ends[0]} is expected here."
    return f"A {what} is expected here."
