"""Units at the edge: what people type, and what they are shown.

The closed vocabulary of ``domain.measure`` carries exact factors; pint is only a table that
checks them.  No text of a user is ever handed to a units library's parser.
"""

from sheetcalc.units.display import show_length, show_measured, show_place, show_quantity, show_tape
from sheetcalc.units.factors import check_with_pint
from sheetcalc.units.lengths import NotReadableError, parse_length
from sheetcalc.units.quantities import (
    parse_count,
    parse_money,
    parse_number,
    parse_percent,
    parse_quantity,
)

__all__ = [
    "NotReadableError",
    "check_with_pint",
    "parse_count",
    "parse_length",
    "parse_money",
    "parse_number",
    "parse_percent",
    "parse_quantity",
    "show_length",
    "show_measured",
    "show_place",
    "show_quantity",
    "show_tape",
]
