"""What is printed can be read: a page holds the columns, so they decide how large letters are."""

from typing import Final

import pytest

from sheetcalc.workbook.columns import Tab
from sheetcalc.workbook.inputs import INPUT_TABS
from sheetcalc.workbook.results_tabs import RESULT_TABS

_LETTERS: Final = 10.0
"""Size of the house style's font [points]."""

_PIXELS_A_DIGIT: Final = 7
"""Widest digit of that font at 96 dots an inch; ECMA-376 18.3.1.13 counts columns by it, with 5
pixels of padding."""

_WIDTHS_IN: Final = {"A4": 297 / 25.4, "letter": 11.0}
_MARGINS_IN: Final = 0.8

_CATALOGUES: Final = {"Tiles", "Rolls and sheets", "Heating cables", "Sundries"}
"""Filled in on a screen and seldom printed; their columns are fixed."""


def _printed_points(tab: Tab, paper: str) -> float:
    columns = tab.columns[: tab.printed_columns]
    pixels = sum(column.width * _PIXELS_A_DIGIT + 5 for column in columns)
    scale = (_WIDTHS_IN[paper] - _MARGINS_IN) * 96 / pixels
    return _LETTERS * min(1.0, scale)


@pytest.mark.parametrize("paper", sorted(_WIDTHS_IN))
@pytest.mark.parametrize("tab", [*INPUT_TABS, *RESULT_TABS], ids=lambda tab: tab.key)
def test_no_tab_shrinks_its_letters_below_what_can_be_read(tab: Tab, paper: str) -> None:
    least = 5.5 if tab.key in _CATALOGUES else 6.3
    assert _printed_points(tab, paper) >= least


def test_a_column_that_is_not_there_can_not_end_what_is_printed() -> None:
    tab = Tab(key="Any", table="OutAny", purpose="", columns=(), printed_to="Lost")
    with pytest.raises(ValueError, match="Lost"):
        tab.printed_columns  # noqa: B018 - asking is the test
