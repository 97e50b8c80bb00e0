"""Settings that are possible and most likely a slip of the hand."""

import pytest
from raw_books import Values, book

from sheetcalc.workbook.convert import to_inputs
from sheetcalc.workbook.settings import SETTINGS


def unusual(*rows: Values) -> list[str]:
    """What is asked about settings."""
    found = [f for f in to_inputs(book(Job=rows))[1] if f.source.tab == "Job"]
    return [f.code for f in found if f.code.endswith("-UNUSUAL")]


@pytest.mark.parametrize(
    ("setting", "value", "unit", "code"),
    [
        # metres typed for millimetres, and a percentage typed into a cell that is not one
        ("Perimeter gap", 0.006, "mm", "LENGTH-UNUSUAL"),
        ("Perimeter gap", 6, "mm", ""),
        ("Perimeter gap", 0.25, "in", ""),
        ("Perimeter gap", 0, "mm", ""),
        ("Heating: clear of walls", 3, "mm", "LENGTH-UNUSUAL"),
        ("Heating: clear of walls", 3, "in", ""),
        ("Tax", 1, None, "NUMBER-UNUSUAL"),
        ("Tax", 0.27, None, ""),
        ("Profit", 0.75, None, "NUMBER-UNUSUAL"),
    ],
)
def test_a_setting_out_of_its_usual_range_is_asked_about(
    setting: str, value: float, unit: str | None, code: str
) -> None:
    row = {"Setting": setting, "Value": value} | ({"Unit": unit} if unit else {})
    assert unusual(row) == ([code] if code else [])


@pytest.mark.parametrize("system", ["metric", "us"])
def test_defaults_of_settings_are_usual(system: str) -> None:
    given = [s for s in SETTINGS if s.default(system) is not None]
    assert unusual(*({"Setting": s.label, "Value": s.default(system)} for s in given)) == []
