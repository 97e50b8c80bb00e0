"""What a cell shows: its displayed text, and how a message quotes what was found in it."""

import re
from datetime import date, datetime, time
from decimal import ROUND_HALF_UP, Decimal

from sheetcalc.workbook.raw import RawCell

_FIXED = re.compile(r"(0+)(?:\.(0+))?")
_UNSEEN = str.maketrans(dict.fromkeys("\u00ad\u200b\u2060\ufeff"))
"""Signs that nobody sees, and that come along when text is pasted; joiners of emoji stay."""

LONGEST_QUOTE = 80


def price_style(price: Decimal | None) -> str:
    """Style of a price: four digits after the point where that of a piece or an area needs them.

    Shown to the cent, 5 boxes at 22.1265 would seem to be 110.65 and not 110.63.

    >>> price_style(Decimal("22.1265")), price_style(Decimal("22.10")), price_style(None)
    ('result_number4', 'result_money', 'result_money')
    """
    fine = price is not None and price != round(price, 2)
    return "result_number4" if fine else "result_money"


def displayed(cell: RawCell) -> str:
    """Text of a cell as a person sees it: 101 is ``101``, and 2.1 shown as 2.10 is ``2.10``."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, str):
        return (value if value.isascii() else value.translate(_UNSEEN)).strip()
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, datetime):
        return value.isoformat(" ", "minutes")
    if isinstance(value, date | time):
        return value.isoformat()
    return _number(value, cell.number_format)


def _number(value: float, number_format: str) -> str:
    fixed = _FIXED.fullmatch(number_format)
    if fixed is not None:
        decimals = len(fixed[2] or "")
        rounded = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
        whole, point, rest = f"{abs(rounded):f}".partition(".")
        sign = "-" if rounded < 0 else ""
        return sign + whole.zfill(len(fixed[1])) + point + rest
    return plain_number(value)


def plain_number(value: float) -> str:
    """Show a number with no more digits than it needs: ``3500``, ``2.4``."""
    if float(value).is_integer() and abs(value) < 1e15:  # noqa: PLR2004 (all digits of a cell)
        return str(int(value))
    return f"{value:.15g}"


def found_text(cell: RawCell) -> str:
    """How a message quotes what stands in a cell."""
    if cell.error:
        return f"the error {cell.error}"
    if cell.formula and not cell.has_value:
        return f"the formula {_short(cell.formula)} without a calculated value"
    return _found_value(cell)


def _found_value(cell: RawCell) -> str:
    value = cell.value
    if isinstance(value, str):
        return f'"{_short(value)}"'
    if isinstance(value, date | time):
        return f"a date or time, {displayed(cell)}"
    if isinstance(value, int | float) and not isinstance(value, bool):
        percent = "%" in cell.number_format
        return f"{plain_number(round(value * 100, 9))} %" if percent else plain_number(value)
    return displayed(cell) or "nothing"


def _short(text: str) -> str:
    tidy = " ".join(text.split())
    return tidy if len(tidy) <= LONGEST_QUOTE else tidy[: LONGEST_QUOTE - 1] + "…"
