"""Validations of input cells: lists, ranges, and messages, from a column's declaration."""

from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from sheetcalc.domain.temperature import SCALES
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
LONGEST_MESSAGE = 255
REQUIRED = "{column} (required)"
_EXACT_WORDS = frozenset({Kind.CHOICE, Kind.YES_NO})
_PLAIN_NUMBERS = frozenset({Kind.NUMBER, Kind.TEMPERATURE, Kind.MONEY, Kind.PERCENT})


def column_validation(column: Column, cell: str, system: str) -> Validation | None:
    """Return the validation of a column's cells.

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
    title = REQUIRED.format(column=column.header) if column.required else column.header
    choices = choices_of(column, system)
    if choices:
        exact = column.kind in _EXACT_WORDS
        return Validation(
            "list", f"={list_name(choices, system)}", title=title, message=message,
            error="Choose one of the words of the list." if exact else "", enforce=exact,
        )  # fmt: skip
    if column.list_of:
        key, header = column.list_of.split(".", 1)
        ask = f"This {header} is not on the tab {key} yet. Keep it all the same?"
        return Validation(
            "list", f"={reference_name(column.list_of)}", title=title, message=message,
            error="" if column.several else ask, alert="warning", enforce=not column.several,
        )  # fmt: skip
    return _Ranged(column.kind, column.low, column.high, title, message).validation(cell, system)


def setting_validation(setting: Setting, cell: str, system: str) -> Validation | None:
    """Return the validation of one setting's Value cell; parameters as for a column."""
    title, message = setting.label, setting.guidance[:LONGEST_MESSAGE]
    if setting.choices and setting.kind in _EXACT_WORDS:
        return Validation(
            "list", f"={list_name(setting.choices, system)}", title=title, message=message,
            error="Choose one of the words of the list.",
        )  # fmt: skip
    low, high = _for_every_unit(setting)
    return _Ranged(setting.kind, low, high, title, message).validation(cell, system)


def _for_every_unit(setting: Setting) -> tuple[float | None, float | None]:
    """Bounds of a number that hold whichever of its units stands beside it."""
    low, high = setting.low, setting.high
    if setting.kind is Kind.TEMPERATURE and low is not None and high is not None:
        ends = [scale.of_c(end) for scale in SCALES.values() for end in (low, high)]
        return min(ends), max(ends)
    return (0, None) if len(setting.units) > 1 else (low, high)


def _message(column: Column, system: str) -> str:
    """Help with an example, as far as it fits."""
    example = column.example_us if system == "us" and column.example_us else column.example
    words = column.help
    if column.default and not column.required and "Empty" not in words:
        words = f"{words} Empty: {column.default}."
    with_example = f"{words} Example: {example}" if example else words
    return with_example if len(with_example) <= LONGEST_MESSAGE else words


class _Ranged(Struct, frozen=True):
    """Bounds of a kind, and the words beside them."""

    kind: Kind
    low: float | None
    high: float | None
    title: str
    message: str

    def validation(self, cell: str, system: str) -> Validation:
        """Range of a number, a length, a date; only the message for everything else."""
        if self.kind in _FACTORS:
            return self._with_unit(cell, system)
        made = self._plain()
        return replace(made, title=self.title, message=self.message)

    def _with_unit(self, cell: str, system: str) -> Validation:
        """Rule for a number in a unit of the Job; a length may also be text."""
        is_length = self.kind in LENGTH_KINDS
        otherwise = f"ISTEXT({cell})" if is_length else "FALSE"
        expected = "A number that is not absurdly small or large is expected here."
        if is_length:
            unit, size = ("in", 25.4) if system == "us" else ("mm", 1.0)
            low, high = (None if end is None else end / size for end in (self.low, self.high))
            expected = f"{_expected(low, high, unit)} A length with its unit may be typed as text."
        return Validation(
            "custom",
            f"IF(ISNUMBER({cell}),{self._bounds(cell)},{otherwise})",
            title=self.title,
            message=self.message,
            error=expected,
        )

    def _bounds(self, cell: str) -> str:
        """Rule that a plain number lies within bounds, in the unit that the Job chose."""
        value = f"ROUND({cell}*{factor_name(_FACTORS[self.kind])},9)"
        parts = [f"{value}>={self.low:.12g}"] if self.low is not None else []
        if self.high is not None:
            parts.append(f"{value}<={self.high:.12g}")
        return f"AND({','.join(parts)})" if parts else "TRUE"

    def _plain(self) -> Validation:
        """Rule for a number without a unit of the Job, or a date."""
        low, high = self.low, self.high
        if self.kind is Kind.FILL:
            return Validation("decimal", low=0, high=100, error=_expected(0, 100, ""))
        if self.kind is Kind.COUNT:
            expected = _expected(low, high, "", "whole number")
            return Validation("integer", low=low, high=high, error=expected)
        if self.kind in _PLAIN_NUMBERS:
            unit = "%" if self.kind is Kind.PERCENT else ""
            return Validation("decimal", low=low, high=high, error=_expected(low, high, unit))
        if self.kind is Kind.DATE:
            return Validation(
                "date", low=_FIRST_DAY, high=_LAST_DAY, error="A date is expected here."
            )
        return Validation("any", enforce=False)


def _expected(low: float | None, high: float | None, unit: str, what: str = "number") -> str:
    """Words for what is expected, for the box that stops a wrong value."""
    factor = 100 if unit == "%" else 1
    space = "" if unit in {"", "%"} else " "
    ends = [f"{end * factor:,.5g}{space}{unit}" for end in (low, high) if end is not None]
    if low is not None and high is not None:
        return f"A {what} from {ends[0]} to {ends[1]} is expected here."
    if low is not None:
        return f"A {what} not below {ends[0]} is expected here."
    if high is not None:
        return f"A {what} not above {ends[0]} is expected here."
    return f"A {what} is expected here."
